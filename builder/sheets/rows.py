"""Rows of the estimate.

An attribute of a row is a column of its sheet; one that was never set is a blank cell and reads
as None. So blanks travel through the model as they do through the workbook. A name that is no
column of its block is refused, read or set.
"""

from builder.problems import did_you_mean
from builder.records.kinds import KINDS


class Row:
    """One row of one block. `no` counts from 1."""

    names = frozenset({"no"})

    def __init__(self, no):
        self.no = no

    def __getattr__(self, key):
        """Reached by no name of the block: those are None until they are set."""
        raise self._unknown(key)

    def __setattr__(self, key, value):
        if key not in self.names:
            raise self._unknown(key)
        self.__dict__[key] = value

    def set(self, **values):
        if not values.keys() <= self.names:
            raise self._unknown(min(values.keys() - self.names))
        self.__dict__.update(values)

    def _unknown(self, key):
        hint = did_you_mean(key, sorted(self.names))
        return AttributeError(f"{type(self).__name__}: no column '{key}'" + (f" ({hint})" if hint else ""))


JUDGED = ("filled", "each_sound")  # of every judged row; the workbook shows them of tables alone


def row_types(names):
    """Block -> the type of its rows. names: block -> the keys of its columns."""
    return {block: _row_type(block, {*keys, *(JUDGED if block in KINDS else ())}) for block, keys in names.items()}


def _row_type(block, keys):
    taken = [key for key in keys if hasattr(Row, key)]
    if taken:
        raise ValueError(f"{block}: a column may not be called {taken[0]}")
    return type(block, (Row,), {**dict.fromkeys(keys), "names": Row.names | keys})


def entry_rows(values, capacity, types):
    """The values of a book as rows, each block filled up with blank ones to its capacity."""
    rows = {}
    for key, kind in KINDS.items():
        count = 1 if kind.upright else capacity[key]
        rows[key] = [types[key](no) for no in range(1, count + 1)]
        for row, given in zip(rows[key], values[key]):
            row.set(**{one.key: given.get(one.key) for one in kind.fields})
    return rows
