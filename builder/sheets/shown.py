"""What a figure looks like to a person: rounded to what can be measured, set or bought, in a cell of its own that feeds
nothing. Each way of rounding as a formula, then in the model.
"""

from math import ceil, floor
from types import MappingProxyType

# fmt: off
STEPS = MappingProxyType({    # quantity -> step in the units of a US book, of a metric one
    "money": (1, 1), "area": (1, 1), "volume": (0.25, 0.5), "time": (0.5, 0.5), "days": (0.5, 0.5),
    "pressure": (50, 5), "share": (0.01, 0.01), "width": (0.5, 10),
    "film": (0.1, 1), "flow": (0.01, 0.05), "spread": (1, 0.1),
})
# fmt: on


def step(quantity, system):
    """The step to which people read a quantity, in the unit that a book of this system shows."""
    return float(STEPS[quantity][system == "metric"])


def nearest(amount, quantity):
    """A formula: the amount to its nearest step; halves go up."""
    of = f"{{constants.step_{quantity}}}"
    return f"INT(({amount})/{of}+1/2+{{terms.slack}})*{of}"


def upward(amount, quantity):
    """A formula: an amount of not less than nothing up to a whole step. (INT of a negative number is another in
    HyperFormula.)
    """
    of = f"{{constants.step_{quantity}}}"
    return f"ROUNDUP(MAX(0,({amount})/{of}-{{terms.slack}}),0)*{of}"


def from_to(before, upto, quantity):
    """A formula: what lies between two running sums, so rounded that lines add up to their total."""
    return between(before, upto, f"{{constants.step_{quantity}}}")


def between(before, upto, step_of):
    """The same by a step that is a cell."""
    one, other = (f"INT({of}/{step_of}+1/2+{{terms.slack}})" for of in (upto, before))
    return f"({one}-{other})*{step_of}"


def to_nearest(est, value, quantity):
    """A value of the model, as a cell shows it to its nearest step, in SI again."""
    of = step(quantity, est.units.system)
    shown = est.units.to_cell(value, quantity)
    return est.units.from_cell(floor(shown / of + 0.5 + est.terms.slack) * of, quantity)


def to_upward(est, value, quantity):
    """A value of the model up to a whole step of what a cell shows, in SI again."""
    of = step(quantity, est.units.system)
    shown = est.units.to_cell(value, quantity)
    return est.units.from_cell(max(0, ceil(shown / of - est.terms.slack)) * of, quantity)


def to_from_to(est, before, upto, quantity):
    """What lies between two running sums of the model, rounded alike."""
    return to_nearest(est, upto, quantity) - to_nearest(est, before, quantity)
