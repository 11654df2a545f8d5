"""The four prices of a job: the base, and the base with alternate A, B or C; in formulas, then in the model."""

from builder.records.scenarios import NAMES, SCENARIOS
from builder.sheets.grammar import Column as C
from builder.values import same

BY_SCENARIO = {"repeat": len(NAMES), "heads": NAMES}
TOTALS = {**BY_SCENARIO, "rows": 1, "when": ""}  # of all rows, one figure a scenario
ONLY = "In (all 0, with A 2, with B 3, with C 4)"


def within(block, scenario):
    """1 for the rows of a block that belong to a scenario: those of the base belong to all, those of an alternate to
    its own.
    """
    return f"({{{block}.only}}=0)+({{{block}.only}}={scenario})"


def total(key, title, quantity):
    """The sum of a repeated column, copy by copy, on its own sheet: others fetch it by the number of the copy."""
    return C(f"{key}_all", title, quantity, f"SUM({{*{key}@}})", **TOTALS)


def only(alternate):
    """The one scenario that a system of an alternate belongs to; 0 for one of the base, which belongs to all."""
    return 0.0 if alternate is None else "abc".index(same(alternate)) + 2.0


def included(row, scenario):
    """1 where a row belongs to a scenario, else 0."""
    return float(row.only in (0, scenario))


def most(figures):
    return max(figures, default=0.0)


def copies(rows, key, gather=sum):
    """Of the rows that have it, the sum of a repeated column copy by copy."""
    told = [getattr(row, key) for row in rows if getattr(row, key) is not None]
    return tuple(gather(one[at] for one in told) for at, _ in enumerate(SCENARIOS))
