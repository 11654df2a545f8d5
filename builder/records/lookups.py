"""Lists that formulas and the model look things up in: the closed lists, what else is said or counted, figures beside
them.
"""

from fractions import Fraction
from math import pi
from types import MappingProxyType

from builder.records.feet import FRACTIONS
from builder.records.job import AMOUNTS, BASES, WHOLE_JOB
from builder.records.questions import PLACEHOLDERS, STATES
from builder.records.reasons import FITS, REASONS, WEIGHT
from builder.records.terms import MONTHS
from builder.records.words import WORDS
from builder.values import same

# fmt: off
WEEKDAYS = ("Sat", "Sun", "Mon", "Tue", "Wed", "Thu", "Fri")       # as spreadsheets count: day 0 is a Saturday
LOOKUPS = MappingProxyType({
    **WORDS,
    "reason": (FITS, *tuple(REASONS.values())[::-1]),      # the lightest first
    "state": STATES,
    "placeholder": PLACEHOLDERS,
    "done": ("sprayed", "sprayed and back-rolled", "rolled", "brushed"),          # by the methods above
    "fraction": FRACTIONS,
    "pair": tuple(f"{number:02}" for number in range(100)),   # of digits
    "month": MONTHS,
    "weekday": WEEKDAYS,
})

# Figures that stand beside a list, word for word.
BESIDE = MappingProxyType({
    "shape_factor": (1.0, 0.5, pi, 1.0),
    "method_sprays": (1.0, 1.0, 0.0, 0.0),
    "method_rolls": (0.0, 1.0, 1.0, 0.0),
    "reason_weight": (0.0, *tuple(WEIGHT.values())[::-1]),
    "shape_stands": (1.0, 1.0, 0.0, 0.0),             # its height is how high it reaches; not a diameter, not a girth
    "basis_rated": (1.0, 1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 1.0),
    "basis_loads": tuple(float(basis == "color") for basis in WORDS["basis"]),
    "basis_visits": (0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0),
    "kind_kept": (0.0, 1.0, 0.0, 1.0),                # some is kept to touch up later: not of primers and fillers
    "basis_contained": tuple(float(basis == "disturbed") for basis in WORDS["basis"]),
    # Notches of a wet-film gauge in mil: steps of 0.5 to 6, of 1 to 10, 2 to 30, 5 above (ASTM D4414-95(2020) 7.1.2).
    "notch": (*(half / 2 for half in range(1, 13)), 7.0, 8.0, 9.0, 10.0, *map(float, range(12, 31, 2)),
              *map(float, range(35, 201, 5))),
    "basis_whole_job": tuple(float(basis in WHOLE_JOB) for basis in WORDS["basis"]),
    "amount_is": tuple(AMOUNTS.values()),
    "basis_is": tuple(BASES.values()),
    "fraction_worth": tuple(float(Fraction(one)) for one in FRACTIONS),
    "pair_worth": tuple(map(float, range(100))),
})
# fmt: on


def place(list_name: str, word: str | None, blank: int | None = None) -> int | None:
    """The place of a word in its closed list, from 1; `blank` stands for a blank cell."""
    return blank if word is None else list(map(same, LOOKUPS[list_name])).index(same(word)) + 1


def rank(word: str) -> float:
    """The place of a finish word, from 1."""
    return float(list(map(same, LOOKUPS["finish"])).index(same(word)) + 1)
