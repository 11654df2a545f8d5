"""Check counts: what stops the price and what is asked before it is signed, each counted; where a fault stands, in
words.
"""

from builder.records.checklist import ITEMS, PARTS, TABLES
from builder.records.kinds import KINDS
from builder.records.questions import QUESTIONS
from builder.sheets.grammar import GAP, SECTION, Block
from builder.sheets.grammar import Column as C
from builder.stages import asked
from builder.stages.entries import ASIDE
from builder.stages.entries import TABLES as ENTERED
from builder.values import is_number, same

# fmt: off
COUNTS = {
    **{f"faults_{kind.key}": f"--({{{kind.key}.faults}}>0)" if kind.upright else
       f'COUNTIF({{{kind.key}.filled}},">0")-COUNT({{{kind.key}.sound}})' for kind in KINDS.values()},
    **{f"beyond_{kind.key}": None for kind in TABLES},
    "no_lines": "--(SUM({takeoff.sound})+SUM({rooms.sound})=0)",
    "too_open": "SUMPRODUCT(({areas.part}=0)*({areas.live}=1)*({areas.passed}<>1))",
    "too_open_rooms": "SUMPRODUCT(({areas.part}>0)*({areas.live}=1)*({areas.passed}<>1))",
    "uncoated": "SUMPRODUCT(--(({systems.lines}>0)*(({systems.coat_rows}=0)*({systems.live}=1))=1))",
    "film": 'COUNTIF({film.faults},">0")',
    "no_nozzle": "SUM({film.sprayed})-SUM({picks.live})",
    "no_day": "N({plan.no_day})",
    "too_many": "N({plan.too_many})",
    "too_long": "N({plan.too_long})",
    "too_many_parts": "--(COUNT({line_cost.first})>COUNT({part_cost.no}))",
    "refused": "N({price.refused@1})",
    "overhead": '--(({job.overhead}<>"")*N({terms.sound})*({terms.overhead_basis}="labor hours")>0)',
}


def _beyond(kind):
    """Cells about a table that are worked out nowhere: those around it less its headers and its rows, or less what is
    judged of
    them once insertions have pushed rows out of it. (A column of a person's own between ours does no harm.)
    """
    head, first = f"{{{kind.key}.head}}", f"{{{kind.key}.{kind.fields[0].key}}}"
    right = f"+{{right_{kind.key}}}" if kind.key in ASIDE else ""
    return (f"COUNTA({{{kind.key}.around}})-IF(ISERROR(SUM({head})),0,COUNTA({head}))"
            f"-IF(COUNTA({first})+COUNTBLANK({first})>{{room_{kind.key}}},SUM({{{kind.key}.filled}}),"
            f"COUNTA({{{kind.key}.all}})){right}")


def _right(key):
    """The same of its inputs to the right of the results. Rows pushed out of it are counted above. There may be one
    column of them, and the sum of a single cell of text is an error for HyperFormula.
    """
    around, head, every = (f"{{{key}.more_{name}}}" for name in ("around", "head", "all"))
    first = f"{{{key}.{ASIDE[key]}}}"
    return (f'COUNTA({around})-IF(ISERROR(SUMPRODUCT(--({head}=""))),0,COUNTA({head}))'
            f"-IF(COUNTA({first})+COUNTBLANK({first})>{{room_{key}}},0,COUNTA({every}))")


COUNTS.update({f"beyond_{kind.key}": _beyond(kind) for kind in TABLES})


NO_COAT, NO_NOZZLE = "has takeoff lines but no coat", "no nozzle fits"
# What is told of the first row: item -> (block, 1 where a row of it is wrong, the table that it was typed in, words).
ROWS = {
    **{f"faults_{kind.key}": (kind.key, f"({{{kind.key}.filled}}>0)*({{{kind.key}.sound}}<>1)", kind.key,
                              f'MID({{fault}},LEN("{kind.title}")+2+1,LEN({{fault}}))') for kind in TABLES},
    "too_open": ("areas", "({areas.part}=0)*({areas.live}=1)*({areas.passed}<>1)", "takeoff", "{fault}"),
    "too_open_rooms": ("areas", "({areas.part}>0)*({areas.live}=1)*({areas.passed}<>1)", "rooms", "{fault}"),
    "uncoated": ("systems", "({systems.lines}>0)*({systems.coat_rows}=0)*({systems.live}=1)", "systems",
                 f'"{NO_COAT}"'),
    "film": ("film", "({film.live}=1)*({film.passed}<>1)", "coats", "{fault}"),
    "no_nozzle": ("film", "({film.sprayed}=1)*({picks.live}<>1)", "coats", f'"{NO_NOZZLE}"'),
}


# Where the table's row is not the block's: the number of it.
PLACED = {"too_open_rooms": "INDEX({areas.room_at},{first_too_open_rooms})"}


def _first(item):
    """The number of the first wrong row of a block."""
    block, wrong, _, _ = ROWS[item]
    room = f"COUNT({{{block}.no}})+1"
    return f'IF({{{item}}}=0,"",{room}-SUMPRODUCT(LARGE({wrong}*({room}-{{{block}.no}}),1)))'


def _said(item):
    """Sheet and row of the first fault, and what it is: 'Takeoff, row 7: length: enter a number ...'."""
    if item not in ROWS:
        kind = item.removeprefix("faults_")
        return f'IF({{{item}}}=0,"",{{{kind}.fault}})' if item != kind else '""'
    block, _, table, words = ROWS[item]
    words = words.replace("{fault}", f"INDEX({{{block}.fault}},{{first_{item}}})")
    number = PLACED.get(item, f"{{first_{item}}}")
    return (f'IF({{{item}}}=0,"","{KINDS[table].sheet}, row "&{number}+{{top_{table}}}-1&": "&{words}'
            f'&REPT(", and "&{{{item}}}-1&" more",--({{{item}}}>1)))')


UNDER = {block.key: block.under for block in ENTERED}
TOPS = {block.key: block.top for block in ENTERED}


def _top(key):
    """The sheet's row in which a table begins: stated, or where the table above it ends by now."""
    under = UNDER[key]
    if not under:
        return {"label": float(TOPS[key])}
    first = f"{{{under}.{KINDS[under].fields[0].key}}}"
    return {"formula": f"{{top_{under}}}+COUNTA({first})+COUNTBLANK({first})+{{gap}}"}


STATED = (*ITEMS, *QUESTIONS)
SHEET = "Check counts"
TOP = 5
WORKED_OUT = (
    C("stops", "To fix: these stop the price", "count", f"SUM({{{ITEMS[0].key}:{ITEMS[-1].key}}})"),
    C("slack", "Slack of comparisons, none while Terms have none", "number",
      "IF(ISNUMBER({terms.slack}),{terms.slack},0)"),
    *asked.HELPERS,
    *(C(f"room_{kind.key}", f"Rows of {kind.title} that are worked out", "count",
        f"COUNT({{{kind.key}.no}})") for kind in TABLES),
    C("gap", "Rows between a table and one under it", "count", label=float(GAP)),
    *(C(f"top_{kind.key}", f"Row in which {kind.title} begins", "count", **_top(kind.key)) for kind in TABLES),
    *(C(f"first_{item}", f"Number of the first wrong row: {words}", "count", _first(item))
      for item, words in ((item.key, item.words) for item in ITEMS) if item in ROWS),
)
# What rows inserted by a person change and no input does.
ASIDE_CELLS = tuple(C(f"right_{key}", f"Of {KINDS[key].title}, to the right of the results", "count", _right(key))
                    for key in ASIDE)
SECOND = TOP + len(STATED) + SECTION
CHECKS = (
    Block("checks", SHEET, tuple(
        C(item.key, item.words, "count", {**COUNTS, **asked.COUNTS}[item.key]) for item in STATED),
        form="upright", run="count"),
    Block("checks", SHEET, tuple(
        C(f"said_{item.key}", "", "text", asked.ANSWERS.get(item.key, '""') if item in QUESTIONS else _said(item.key),
          beside=item.key) for item in STATED), form="upright", place=2, run="said"),
    Block("checks", SHEET, WORKED_OUT, form="upright", top=SECOND),
    Block("checks", SHEET, ASIDE_CELLS, form="upright", top=SECOND + len(WORKED_OUT) + SECTION, follows=True),
)
# fmt: on


def tops(taken_up):
    """Kind -> the sheet's row in which its table begins. taken_up: kind -> the rows of its table."""
    found = {}
    for key in TOPS:
        found[key] = found[UNDER[key]] + taken_up[UNDER[key]] + GAP if UNDER[key] else TOPS[key]
    return found


def checks(est):
    """What stops the price; and of each the first row and its fault in words."""
    row = est.checks
    row.slack = est.terms.slack if is_number(est.terms.slack) else 0.0
    for kind in TABLES:
        setattr(row, f"beyond_{kind.key}", 0.0)  # the model holds no cell that it does not judge
        setattr(row, f"room_{kind.key}", float(len(est.rows[kind.key])))
        if kind.key in ASIDE:
            setattr(row, f"right_{kind.key}", 0.0)
    begin = tops(est.taken_up)
    row.set(**{f"top_{key}": float(top) for key, top in begin.items()})
    found = _found(est)
    for key, count in _counts(est, found).items():
        setattr(row, key, float(count))
    for key, wrong in found.items():
        if wrong:
            no, words = wrong[0]
            table = ROWS[key][2]
            place = (no - est.capacity["takeoff"] - 1) % est.capacity["rooms"] + 1 if key in PLACED else no
            more = f", and {len(wrong) - 1} more" if len(wrong) > 1 else ""
            row.set(
                **{
                    f"first_{key}": float(no),
                    f"said_{key}": f"{KINDS[table].sheet}, row {place + begin[table] - 1}: {words}{more}",
                }
            )
    for kind in KINDS.values():
        if kind.upright:
            setattr(row, f"said_faults_{kind.key}", est.rows[kind.key][0].fault)
    row.stops = sum(getattr(row, item.key) for item in ITEMS)


def _found(est):
    """Item -> (number, fault in words) of each of its rows."""
    rows, room = est.rows, est.capacity["takeoff"]
    lines, parts = rows["areas"][:room], rows["areas"][room:]
    return {
        **{
            f"faults_{kind.key}": [(row.no, row.fault[len(kind.title) + 2 :]) for row in rows[kind.key] if row.fault]
            for kind in TABLES
        },
        "too_open": [(row.no, row.fault) for row in lines if row.live and not row.passed],
        "too_open_rooms": [(row.no, row.fault) for row in parts if row.live and not row.passed],
        "uncoated": [(row.no, NO_COAT) for row in rows["systems"] if row.live and row.lines > 0 and row.coat_rows == 0],
        "film": [(row.no, row.fault) for row in rows["film"] if row.faults],
        "no_nozzle": [
            (row.no, NO_NOZZLE) for row, pick in zip(rows["film"], rows["picks"]) if row.sprayed and not pick.live
        ],
    }


def _counts(est, found):
    job, terms, rows = est.job, est.terms, est.rows
    return {
        **{f"faults_{kind.key}": (rows[kind.key][0].faults or 0) > 0 for kind in KINDS.values() if kind.upright},
        **{key: len(wrong) for key, wrong in found.items()},
        "no_lines": not any(row.sound for key in ("takeoff", "rooms") for row in rows[key]),
        **{key: getattr(rows["plan"][0], key) or 0 for key in ("no_day", "too_many", "too_long")},
        "too_many_parts": sum(row.first is not None for row in rows["line_cost"]) > PARTS,
        "refused": rows["price"][0].refused or 0,
        "overhead": bool(job.overhead is not None and terms.sound and same(terms.overhead_basis) == "labor hours"),
    }
