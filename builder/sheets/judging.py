"""Entries judged by the rules of their fields: a 0/1 a field, faults, the first in words, sound; in formulas, then in
the model.
"""

from builder.records import feet
from builder.records.rules import Length
from builder.records.wording import check_fault, fault, judged
from builder.sheets.grammar import SECTION, At, Block, Column, inputs
from builder.values import same

FILLED = "filled=0"  # what a row of entries says while it holds nothing: nothing


def _flag(kind, one, cell):
    """1 where the cell is wrong. A cell with an error value is wrong too, so that no error travels on."""
    read = f"{{{one.key}_read}}" if isinstance(one.rule, Length) else cell
    test = one.rule.formula(kind.key, one.key).replace("{x}", read)
    return f"IF(ISBLANK({cell}),{one.rule.missing(one.required)},IFERROR({test},1))"


def _filled(kind):
    """How many cells of a row hold something; 0 where its table has no such row. A cell at a time: programs differ in
    counting a found row.
    """
    table = f"{{{kind.key}.{kind.fields[0].key}}}"
    cells = "+".join(f"1-ISBLANK({{row.{one.key}}})" for one in kind.fields)
    return f"IF({{no}}>COUNTA({table})+COUNTBLANK({table}),0,{cells})"


def judging(kind, units, derived=(), links=None):
    """The judged rows of a table of entries, on the sheet Entries; `derived` columns follow."""
    fields = judged(kind)
    flags = [
        Column(f"bad_{one.key}", fault(kind, one, units), "count", _flag(kind, one, f"{{row.{one.key}}}"), FILLED)
        for one in fields
    ]
    checks = [
        Column(f"bad_{check.key}", check_fault(kind, check), "count", f"--(({check.formula})*1>0)", "each_sound")
        for check in kind.checks
    ]
    first, middle, last = flags[0].key, flags[-1].key, (checks or flags)[-1].key
    each = Column(
        "each_sound", f"{kind.title}: each field sound", "count", f'IF(SUM({{{first}:{middle}}})=0,1,"")', FILLED
    )
    columns = [
        Column("no", f"{kind.title}, row", "count", label=lambda number: number),
        Column("filled", f"{kind.title}: cells filled", "count", _filled(kind), ""),
        *([each] if checks else ()),
        *flags,
        *checks,
        Column("sound", f"{kind.title}: sound", "count", f'IF(SUM({{{first}:{last}}})=0,1,"")', FILLED),
        Column(
            "fault",
            f"{kind.title}: first fault",
            "text",
            f'IF({{sound}}=1,"",INDEX({{#{first}:{last}}},1,MATCH(1,{{{first}:{last}}},0)))',
            FILLED,
        ),
    ]
    if kind.named in kind.field_of:
        columns.append(
            Column(
                "known",
                f"{kind.title}: known as",
                "text",
                f'IF({{row.{kind.named}}}="","",{{row.{kind.named}}})',
                "sound",
            )
        )
    return Block(kind.key, "Entries", (*columns, *derived), {"row": At(kind.key, "{no}"), **(links or {})}, "sound")


def upright(kind, units, derived=(), sections=()):
    """An upright block of inputs; its flags and their words beside it; the checks across fields and the sums of the
    flags below. `sections`: the field from which on they stand under a heading, and the heading.
    """
    fields = [one.key for one in judged(kind)]
    crossed = [f"check_{check.key}" for check in kind.checks]
    told = {one.key: fault(kind, one, units) for one in judged(kind)} | {
        f"check_{check.key}": check_fault(kind, check) for check in kind.checks
    }
    first, sound, last = fields[0], fields[-1], (crossed or fields)[-1]
    checks = tuple(
        Column(
            f"check_{check.key}",
            f"Wrong: {check.words}",
            "count",
            f'IF(SUM({{bad_{first}:bad_{sound}}})=0,--(({check.formula.replace("{row.", "{")})*1>0),"")',
            "",
        )
        for check in kind.checks
    )
    sums = (
        Column("faults", "Faults on this sheet", "count", f"SUM({{bad_{first}:bad_{last}}})", ""),
        Column(
            "fault",
            "First of them",
            "text",
            f'IF({{faults}}=0,"",INDEX({{told_{first}:told_{last}}},MATCH(1,{{bad_{first}:bad_{last}}},0)))',
            "",
        ),
        Column("sound", "Sound", "count", 'IF({faults}=0,1,"")', ""),
    )
    cells = (*inputs(kind), *checks, *sums, *derived)
    starts = [0, *([one.key for one in cells].index(key) for key, _ in sections)]
    parts = zip(starts, [*starts[1:], len(cells)], ("", *(heading for _, heading in sections)))
    return (
        *(
            Block(
                kind.key,
                kind.sheet,
                cells[start:end],
                form="upright",
                entered=True,
                top=Block.top + start + SECTION * place,
                section=heading,
            )
            for place, (start, end, heading) in enumerate(parts)
        ),
        *_wrong(kind, crossed, told),
    )


def beside_inputs(kind, units, place):
    """The inputs of a kind without checks, in the column `place` of a page; flags and words beside them."""
    told = {one.key: fault(kind, one, units) for one in judged(kind)}
    return Block(kind.key, kind.sheet, inputs(kind), form="upright", entered=True, place=place), *_wrong(kind, (), told)


def _wrong(kind, crossed, told):
    """A flag beside each input and each check, and its words."""
    flags = [
        Column(f"bad_{one.key}", "", "count", _flag(kind, one, f"{{{one.key}}}"), "", beside=one.key)
        for one in judged(kind)
    ]
    flags += [Column(f"bad_{key}", "", "count", f"{{{key}}}", "", beside=key) for key in crossed]
    words = tuple(
        Column(f"told_{key}", "", "text", f'IF({{bad_{key}}}=1,"{text}","")', "", beside=key)
        for key, text in told.items()
    )
    yield Block(kind.key, kind.sheet, tuple(flags), form="upright", place=4)
    yield Block(kind.key, kind.sheet, words, form="upright", place=5)


def limits(kinds):
    """Least and most of every number a person may enter: cells that validation and judging both read."""
    ends = [(kind, one) for kind in kinds for one in kind.fields if hasattr(one.rule, "limits")]
    return tuple(
        Block(
            key,
            "Limits",
            tuple(
                Column(
                    f"{kind.key}_{one.key}", f"{kind.title}: {one.title}", one.quantity, label=one.rule.limits()[end]
                )
                for kind, one in ends
            ),
            form="upright",
            place=end + 1,
        )
        for end, key in enumerate(("least", "most"))
    )


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

    def first(self, block):
        """The first faultless row of a block, or None."""
        return next((row for row in self.rows[block] if row.sound), None)

    def at(self, block, value):
        """The number of the faultless row that bears this name, or None."""
        row = self.find(block, value)
        return row.no if row else None

    def run(self, kind):
        """Judge every row of one kind: filled, a bad_ flag a field, the first fault in words, sound, known."""
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
            if row.sound:
                row.known = getattr(row, kind.named)
            if row.known is not None:
                known.setdefault(same(row.known), row)

    def name_as(self, kind, name):
        """For a kind whose name is put together from fields: set `known` of each faultless row."""
        known = self._known[kind.key] = {}
        for row in self.rows[kind.key]:
            if row.sound:
                row.known = name(row)
                known.setdefault(same(row.known), row)

    def _judge(self, kind, row):
        words = []
        for one in judged(kind):
            value = getattr(row, one.key)
            bad = one.rule.lacks(one.required, self) if value is None else one.rule.bad(value, self)
            if isinstance(one.rule, Length):
                row.set(
                    **{f"{one.key}_said": feet.said(value) or None, f"{one.key}_read": feet.read(value, self.units)}
                )
            setattr(row, f"bad_{one.key}", float(bad))
            if bad:
                words.append(fault(kind, one, self.units))
                if kind.upright:
                    setattr(row, f"told_{one.key}", words[-1])
        row.each_sound = None if words else 1.0
        if row.each_sound:
            for check in kind.checks:
                bad = float(bool(check.wrong(row, self)))
                row.set(
                    **{f"check_{check.key}": bad, f"bad_check_{check.key}": bad}
                    if kind.upright
                    else {f"bad_{check.key}": bad}
                )
                if bad:
                    words.append(check_fault(kind, check))
                    if kind.upright:
                        setattr(row, f"told_check_{check.key}", words[-1])
        row.fault = words[0] if words else None
        row.sound = None if words else 1.0
        if kind.upright:
            row.faults = float(len(words))
