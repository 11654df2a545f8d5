"""Rows of the estimate and the judging of entries.

An attribute of a row is a column of its sheet; one that was never set is a blank cell and reads
as None. So blanks travel through the model as they do through the workbook. A name that is no
column of its block is refused, read or set.
"""
from builder.problems import did_you_mean
from builder.records.kinds import KINDS
from builder.records.wording import check_fault, fault, judged
from builder.rules import same


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


JUDGED = ("filled", "entered", "sound")        # of every judged row; the workbook shows them of tables alone


def row_types(names):
    """Block -> the type of its rows. names: block -> the keys of its columns."""
    return {block: _row_type(block, {*keys, *(JUDGED if block in KINDS else ())}) for block, keys in names.items()}


def _row_type(block, keys):
    taken = [key for key in keys if hasattr(Row, key)]
    if taken:
        raise ValueError(f"{block}: a column may not be called {taken[0]}")
    return type(block, (Row,), {**dict.fromkeys(keys), "names": Row.names | keys})


class Judge:
    """Judges every entered row by the rules of its fields, and finds faultless rows by name."""

    def __init__(self, rows, units):
        self.rows = rows
        self.units = units
        self.block = ""
        self._names = {}
        self._known = {}

    @staticmethod
    def as_text(value):
        return value if isinstance(value, str) else f"{value:.15g}"

    def entered(self, block):
        return [row for row in self.rows[block] if row.filled]

    def count_named(self, value):
        """How many rows of the block being judged bear this name."""
        return self._names.get(same(value), 0)

    def find(self, block, value):
        """The faultless row that bears this name, or None."""
        return self._known.get(block, {}).get(same(value))

    def at(self, block, value):
        """The number of the faultless row that bears this name, or None."""
        row = self.find(block, value)
        return row.no if row else None

    def run(self, kind):
        """Judge every row of one kind: filled, a bad_ flag a field, faults, the first in words, ready, known."""
        self.block = kind.key
        rows = self.rows[kind.key]
        self._names = {}
        for row in rows:
            row.filled = sum(getattr(row, one.key) is not None for one in kind.fields)
            if kind.named in kind.field_of and getattr(row, kind.named) is not None:
                name = same(getattr(row, kind.named))
                self._names[name] = self._names.get(name, 0) + 1
        for row in rows:
            if row.filled or kind.upright:
                self._judge(kind, row)
        known = self._known[kind.key] = {}
        for row in rows if kind.named in kind.field_of else ():
            if row.ready:
                row.known = getattr(row, kind.named)
            if row.known is not None:
                known.setdefault(same(row.known), row)

    def name_as(self, kind, name):
        """For a kind whose name is put together from fields: set `known` of each faultless row."""
        known = self._known[kind.key] = {}
        for row in self.rows[kind.key]:
            if row.ready:
                row.known = name(row)
                known.setdefault(same(row.known), row)

    def _judge(self, kind, row):
        words = []
        row.entered = 1.0 if row.filled else None
        for one in judged(kind):
            value = getattr(row, one.key)
            bad = one.required if value is None else one.rule.bad(value, self)
            setattr(row, f"bad_{one.key}", float(bad))
            if bad:
                words.append(fault(kind, one, self.units))
                if kind.upright:
                    setattr(row, f"told_{one.key}", words[-1])
        row.sound = None if words else 1.0
        if row.sound:
            for check in kind.checks:
                bad = float(bool(check.wrong(row, self)))
                row.set(**{f"check_{check.key}": bad, f"bad_check_{check.key}": bad} if kind.upright else {f"bad_{check.key}": bad})
                if bad:
                    words.append(check_fault(kind, check))
                    if kind.upright:
                        setattr(row, f"told_check_{check.key}", words[-1])
        row.faults = float(len(words))
        row.fault = words[0] if words else None
        row.ready = None if words else 1.0


def entry_rows(values, capacity, types):
    """The values of a book as rows, each block filled up with blank ones to its capacity."""
    rows = {}
    for key, kind in KINDS.items():
        count = 1 if kind.upright else capacity[key]
        rows[key] = [types[key](no) for no in range(1, count + 1)]
        for row, given in zip(rows[key], values[key]):
            row.set(**{one.key: given.get(one.key) for one in kind.fields})
    return rows
