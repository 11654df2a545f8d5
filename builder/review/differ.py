"""Which record of one book is which of another, and what differs between them."""
from collections import Counter
from dataclasses import dataclass

from builder.records.kinds import KINDS
from builder.records.overlay import identity, label
from builder.rules import same, to_date

ALIKE = 0.5                    # two records of which more than this share of the filled fields is equal are one record, changed


@dataclass(frozen=True)
class Difference:
    """One record that was added or removed, or one value of it that is not what it was. Values inside, in SI."""

    block: str
    record: str
    key: str                   # '' where the whole record was added or removed
    before: object
    after: object

    def words(self, units):
        """'Takeoff S1, Length: 62 ft -> 60 ft'."""
        sheet = KINDS[self.block].sheet
        where = sheet if KINDS[self.block].upright else f"{sheet}, {self.record}"
        if not self.key:
            return f"{where}: {'added' if self.before is None else 'removed'}"
        one = KINDS[self.block].field_of[self.key]
        return f"{where}, {one.title.lower()}: {shown(self.before, one, units)} -> {shown(self.after, one, units)}"


def shown(value, one, units):
    """A value as a person reads it, with its unit."""
    if value is None:
        return "blank"
    if isinstance(value, str):
        return f"'{value}'" if one.quantity != "text" else value
    if one.quantity == "date":
        return to_date(value).isoformat()
    number = units.to_cell(value, one.quantity)
    if one.quantity == "share":
        return f"{number * 100:.4g} %"
    text = f"{number:.0f}" if one.quantity == "year" else f"{float(f'{number:.6g}'):,.10g}"
    return f"{text} {units.shown(one.quantity)}".rstrip()


def _name(kind, values):
    """What names a record, where all of it is there."""
    found = identity(kind, values)
    return found if all(part is not None for part in found) else None


def _likeness(kind, old, new):
    """Share of the fields filled in either that are equal in both."""
    filled = [one.key for one in kind.fields if old.get(one.key) is not None or new.get(one.key) is not None]
    return sum(same(old.get(key)) == same(new.get(key)) for key in filled) / max(1, len(filled))


def paired(kind, before, after):
    """(old, new) of every record, None on the side where it is missing: by a name that is theirs alone, else by likeness, in the order of `after`."""
    if kind.upright:
        return [(before[0], after[0])]
    named = [Counter(name for row in rows if (name := _name(kind, row))) for rows in (before, after)]
    found = []
    for i, old in enumerate(before):
        for j, new in enumerate(after):
            name = _name(kind, old)
            alone = name is not None and name == _name(kind, new) and named[0][name] == named[1][name] == 1
            alike = _likeness(kind, old, new)
            if alone or alike > ALIKE:
                found.append((not alone, -alike, abs(i - j), i, j))
    of_old, of_new = {}, {}
    for *_, i, j in sorted(found):
        if i not in of_old and j not in of_new:
            of_old[i], of_new[j] = j, i
    return [(before[of_new[j]] if j in of_new else None, new) for j, new in enumerate(after)] + [(old, None) for i, old in enumerate(before) if i not in of_old]


def called(kind, values, rows):
    """What a person calls a record: its name, or what fills its first fields, or its row."""
    if _name(kind, values):
        return label(kind, values)
    texts = [values[one.key] for one in kind.fields if isinstance(values.get(one.key), str)][:3]
    return ", ".join(texts) or f"row {rows.index(values) + 1}"


def differences(kinds, before, after):
    """Every Difference between the values of two books, in the order of the sheets."""
    found = []
    for kind in kinds:
        for old, new in paired(kind, before[kind.key], after[kind.key]):
            if old is None or new is None:
                record = called(kind, new or old, after[kind.key] if old is None else before[kind.key])
                found.append(Difference(kind.key, record, "", old, new))
                continue
            record = called(kind, old, before[kind.key])
            found += [Difference(kind.key, record, one.key, old.get(one.key), new.get(one.key)) for one in kind.fields
                      if old.get(one.key) != new.get(one.key)]
    return found
