"""Entries: a 0/1 column a field, then faults, the first in words, ready. Made from the fields' rules."""
from builder.records.wording import check_fault, fault, judged
from builder.sheets.grammar import At, Block, Column, inputs


def _flag(kind, one, cell):
    """1 where the cell is wrong. A cell with an error value is wrong too, so that no error travels on."""
    test = one.rule.formula(kind.key, one.key).replace("{x}", cell)
    return f"IF(ISBLANK({cell}),{int(one.required)},IFERROR({test},1))"


def _filled(kind):
    """How many cells of a row hold something; 0 where its table has no such row. A cell at a time: programs differ in counting a found row."""
    table = f"{{{kind.key}.{kind.fields[0].key}}}"
    cells = "+".join(f"1-ISBLANK({{row.{one.key}}})" for one in kind.fields)
    return f"IF({{no}}>COUNTA({table})+COUNTBLANK({table}),0,{cells})"


def judging(kind, units, derived=(), links=None):
    """The judged rows of a table of entries, on the sheet Entries; `derived` columns follow."""
    fields = judged(kind)
    flags = [Column(f"bad_{one.key}", fault(kind, one, units), "count", _flag(kind, one, f"{{row.{one.key}}}"), "entered") for one in fields]
    checks = [Column(f"bad_{check.key}", check_fault(kind, check), "count", f"--(({check.formula})*1>0)", "sound") for check in kind.checks]
    first, middle, last = flags[0].key, flags[-1].key, (checks or flags)[-1].key
    columns = [
        Column("no", f"{kind.sheet}, row", "count", label=lambda number: number),
        Column("filled", f"{kind.sheet}: cells filled", "count", _filled(kind), ""),
        Column("entered", f"{kind.sheet}: entered", "count", 'IF({filled}>0,1,"")', ""),
        Column("sound", f"{kind.sheet}: each field sound", "count", f'IF(SUM({{{first}:{middle}}})=0,1,"")', "entered"),
        *flags, *checks,
        Column("faults", f"{kind.sheet}: faults", "count", f"SUM({{{first}:{last}}})", "entered"),
        Column("fault", f"{kind.sheet}: first fault", "text",
               f'IF({{faults}}=0,"",INDEX({{#{first}:{last}}},1,MATCH(1,{{{first}:{last}}},0)))', "entered"),
        Column("ready", f"{kind.sheet}: ready", "count", 'IF({faults}=0,1,"")', "entered"),
    ]
    if kind.named in kind.field_of:
        columns.append(Column("known", f"{kind.sheet}: known as", "text", f'IF({{row.{kind.named}}}="","",{{row.{kind.named}}})', "ready"))
    return Block(kind.key, "Entries", (*columns, *derived), {"row": At(kind.key, "{no}"), **(links or {})}, "ready")


def upright(kind, units, derived=()):
    """An upright block of inputs; its flags and their words beside it; the checks across fields and the sums of the flags below."""
    fields = [one.key for one in judged(kind)]
    crossed = [f"check_{check.key}" for check in kind.checks]
    told = {one.key: fault(kind, one, units) for one in judged(kind)} | {f"check_{check.key}": check_fault(kind, check) for check in kind.checks}
    first, sound, last = fields[0], fields[-1], (crossed or fields)[-1]
    checks = tuple(Column(f"check_{check.key}", f"Wrong: {check.words}", "count",
                          f'IF(SUM({{bad_{first}:bad_{sound}}})=0,--(({check.formula.replace("{row.", "{")})*1>0),"")', "") for check in kind.checks)
    sums = (Column("faults", "Faults on this sheet", "count", f"SUM({{bad_{first}:bad_{last}}})", ""),
            Column("fault", "First of them", "text", f'IF({{faults}}=0,"",INDEX({{told_{first}:told_{last}}},MATCH(1,{{bad_{first}:bad_{last}}},0)))', ""),
            Column("ready", "Ready", "count", 'IF({faults}=0,1,"")', ""))
    flags = [Column(f"bad_{one.key}", "", "count", _flag(kind, one, f"{{{one.key}}}"), "", beside=one.key) for one in judged(kind)]
    flags += [Column(f"bad_{key}", "", "count", f"{{{key}}}", "", beside=key) for key in crossed]
    return (Block(kind.key, kind.sheet, (*inputs(kind), *checks, *sums, *derived), form="upright", entered=True),
            Block(kind.key, kind.sheet, tuple(flags), form="upright", place=4),
            Block(kind.key, kind.sheet, tuple(
                Column(f"told_{key}", "", "text", f'IF({{bad_{key}}}=1,"{words}","")', "", beside=key) for key, words in told.items()),
                  form="upright", place=5))


def limits(kinds):
    """Least and most of every number a person may enter: cells that validation and judging both read."""
    ends = [(kind, one) for kind in kinds for one in kind.fields if hasattr(one.rule, "limits")]
    return tuple(Block(key, "Limits", tuple(Column(f"{kind.key}_{one.key}", f"{kind.sheet}: {one.title}", one.quantity, label=one.rule.limits()[end])
                                            for kind, one in ends), form="upright", place=end + 1)
                 for end, key in enumerate(("least", "most")))


