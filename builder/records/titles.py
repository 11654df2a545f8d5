"""What each kind of record is called, and the sheet it is typed on: said by rules and messages before a kind is
declared.
"""

from types import MappingProxyType

# fmt: off
TYPED_ON = MappingProxyType({     # kind -> its title, its sheet
    "job": ("Job", "Job"),
    "takeoff": ("Takeoff", "Takeoff"),
    "rooms": ("Rooms", "Rooms"),
    "openings": ("Openings", "Openings"),
    "systems": ("Systems", "Paint"),
    "coats": ("Coats", "Paint"),
    "tasks": ("Tasks", "Tasks"),
    "kit": ("Kit", "Kit"),
    "guards": ("Guards", "Kit"),
    "weather": ("Weather", "Schedule"),
    "log": ("Log", "Log"),
    "changes": ("Changes", "Changes"),
    "bills": ("Bills", "Changes"),
    "contract": ("Contract", "Changes"),
    "signed": ("Signed plan", "Changes"),
    "terms": ("Terms", "Terms"),
    "coatings": ("Coatings", "Coatings"),
    "families": ("Nozzle families", "Nozzle sizes"),
    "nozzles": ("Nozzles", "Nozzle sizes"),
    "pumps": ("Pumps", "Pumps"),
    "surfaces": ("Surfaces", "Surfaces"),
    "profiles": ("Profiles", "Surfaces"),
    "rates": ("Task rates", "Task rates"),
    "crews": ("Crews", "Lists"),
    "exposures": ("Exposures", "Lists"),
    "access": ("Access", "Lists"),
    "holidays": ("Holidays", "Lists"),
})
# fmt: on


def title(kind: str) -> str:
    """What a kind of record is called."""
    return TYPED_ON[kind][0]


def place(kind: str) -> str:
    """Where its records are, in words: 'Coatings', 'Crews on the sheet Lists'."""
    called, sheet = TYPED_ON[kind]
    return called if called == sheet else f"{called} on the sheet {sheet}"
