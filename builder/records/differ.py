"""Which record of one book is which of another, and what differs between them."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from textwrap import shorten

from builder.quantities import Units, Value
from builder.records.fields import Field, Kind, Record, Values
from builder.records.kinds import KINDS
from builder.records.overlay import identity, label
from builder.values import day_text, is_number, same

LONGEST = 80  # letters of a text in a message
# two records of which more than this share of the filled fields is equal are one record, changed; in the same row, less
# will do
ALIKE = 0.5


@dataclass(frozen=True)
class Difference:
    """One record that was added or removed, or one value of it that is not what it was. Values inside, in SI."""

    block: str
    values: Record  # of the record
    key: str  # '' where the whole record was added or removed
    before: Value | Record  # a record where there is no key; None where there was none
    after: Value | Record
    rows: tuple[Record, ...] = ()  # the block's rows with this difference alone

    def words(self, units: Units) -> str:
        """ "Takeoff 'S1', length: 62 -> 60 ft"."""
        kind = KINDS[self.block]
        record = label(kind, self.values) if _name(kind, self.values) else said(kind, self.values, units)
        where = kind.title if kind.upright else f"{kind.title} '{record}'"
        if isinstance(self.before, dict) or isinstance(self.after, dict):
            return f"{where} {'is added' if self.before is None else 'is removed'}"
        one = kind.field_of[self.key]
        before, after = (shown(value, one, units) for value in (self.before, self.after))
        if is_number(self.before) and is_number(self.after):
            before = before.removesuffix(f" {units.shown(one.quantity)}")
        return f"{where}, {one.title.lower()}: {before} -> {after}"


def shown(value: Value, one: Field, units: Units) -> str:
    """A value as a person reads it, with its unit."""
    if value is None:
        return "blank"
    if isinstance(value, str):
        text = shorten(value, LONGEST, placeholder=" …")
        return f"'{text}'" if one.quantity != "text" else text
    if one.quantity == "date":
        return day_text(value)
    number = units.to_cell(value, one.quantity)
    if one.quantity == "share":
        return f"{number * 100:.4g} %"
    text = f"{number:.0f}" if one.quantity == "year" else f"{float(f'{number:.6g}'):,.10g}"
    return f"{text} {units.shown(one.quantity)}".rstrip()


def _name(kind: Kind, values: Record) -> tuple[Value, ...] | None:
    """What names a record, where all of it is there."""
    found = identity(kind, values)
    return found if all(part is not None for part in found) else None


def _likeness(kind: Kind, old: Record, new: Record) -> float:
    """Share of the fields filled in either that are equal in both."""
    filled = [one.key for one in kind.fields if old.get(one.key) is not None or new.get(one.key) is not None]
    return sum(same(old.get(key)) == same(new.get(key)) for key in filled) / max(1, len(filled))


def paired(kind: Kind, before: Sequence[Record], after: Sequence[Record]) -> list[tuple[Record | None, Record | None]]:
    """(old, new) of every record, None on the side where it is missing: by a name that is theirs alone, else by
    likeness, in the order of `after`.
    """
    if kind.upright:
        return [(before[0], after[0])]
    named = [Counter(name for row in rows if (name := _name(kind, row))) for rows in (before, after)]
    found = []
    for i, old in enumerate(before):
        for j, new in enumerate(after):
            name = _name(kind, old)
            alone = name is not None and name == _name(kind, new) and named[0][name] == named[1][name] == 1
            alike = _likeness(kind, old, new)
            if alone or alike > ALIKE or i == j and alike > 0:
                found.append((not alone, -alike, abs(i - j), i, j))
    of_old, of_new = {}, {}
    for *_, i, j in sorted(found):
        if i not in of_old and j not in of_new:
            of_old[i], of_new[j] = j, i
    return [(before[of_new[j]] if j in of_new else None, new) for j, new in enumerate(after)] + [
        (old, None) for i, old in enumerate(before) if i not in of_old
    ]


def said(kind: Kind, values: Record, units: Units) -> str:
    """A record in short: what stands first in it."""
    return ", ".join([shown(values[one.key], one, units) for one in kind.fields if values.get(one.key) is not None][:4])


def differences(kinds: Iterable[Kind], before: Values, after: Values) -> list[Difference]:
    """Every Difference between the values of two books, in the order of the sheets."""
    return [one for kind in kinds for one in _of_kind(kind, before[kind.key], after[kind.key])]


def _of_kind(kind: Kind, before: Sequence[Record], after: Sequence[Record]) -> Iterator[Difference]:
    for old, new in paired(kind, before, after):
        others = [(row, row is old) for row in before]
        if new is None and old is not None:
            yield Difference(kind.key, old, "", old, None, tuple(row for row, mine in others if not mine))
        elif old is None and new is not None:
            yield Difference(kind.key, new, "", None, new, (*before, new))
        elif old is not None and new is not None:
            for one in kind.fields:
                was, now = old.get(one.key), new.get(one.key)
                if was != now:
                    alone = {**old, one.key: now}
                    rows = tuple(alone if mine else row for row, mine in others)
                    yield Difference(kind.key, old, one.key, was, now, rows)
