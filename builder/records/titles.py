"""The sheet that each kind of record is typed on: names that rules and messages say before any kind is declared."""

from types import MappingProxyType

# fmt: off
SHEET_OF = MappingProxyType({
    "job": "Job",
    "takeoff": "Takeoff",
    "openings": "Openings",
    "systems": "Systems",
    "coats": "Coats",
    "kit": "Kit",
    "tasks": "Tasks",
    "weather": "Weather",
    "terms": "Terms",
    "coatings": "Coatings",
    "families": "Nozzle families",
    "nozzles": "Nozzles",
    "pumps": "Pumps",
    "surfaces": "Surfaces",
    "profiles": "Profiles",
    "rates": "Task rates",
    "crews": "Crews",
    "exposures": "Exposures",
    "access": "Access",
    "holidays": "Holidays",
})
