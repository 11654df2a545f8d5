"""The estimate: one chain of numbers from takeoff to price, in the order in which it flows."""

import functools

from builder.records.kinds import KINDS
from builder.sheets.judging import Judge
from builder.sheets.rows import entry_rows, row_types
from builder.stages.constants import shown_constants
from builder.stages.order import STAGES, names
from builder.stages.stock import nozzle_name


@functools.lru_cache(8)
def _row_types(units, capacity):
    return row_types(names(units, dict(capacity)))


class Estimate:
    """Rows by block key, SI inside. `values` are those of `records.load`; faulty and blank ones are judged, not
    refused.

    capacity: the rows of each block. A row knows the columns of its sheet and refuses any other name. views: what a
    person chose to look at, by block: no input, and nothing but what that sheet shows comes of it. taken_up: the rows
    of each table of entries on its sheet, where a person inserted or deleted some: nothing but the row numbers in what
    is said comes of it.
    """

    def __init__(self, values, units, capacity, views=None, taken_up=None):
        types = _row_types(units, tuple(capacity.items()))
        self.units, self.views = units, views or {}
        self.capacity, self.taken_up = capacity, capacity | (taken_up or {})
        self.rows = entry_rows(values, capacity, types)
        for key, count in {**capacity, "checks": 1, "constants": 1, "book": 1}.items():
            self.rows.setdefault(key, [types[key](no) for no in range(1, count + 1)])
        self.judge = Judge(self.rows, units)
        for kind in KINDS.values():
            self.judge.run(kind)
            if kind.key == "nozzles":
                self.judge.name_as(kind, nozzle_name)
        self.job, self.terms = self.rows["job"][0], self.rows["terms"][0]
        self.checks, self.basics = self.rows["checks"][0], self.rows["basics"][0]
        self.rows["constants"][0].set(**shown_constants(units, capacity["nozzles"]))
        for stage in STAGES:
            stage(self)

    def row(self, block, no):
        """The row of that number; None for None."""
        return None if no is None else self.rows[block][no - 1]
