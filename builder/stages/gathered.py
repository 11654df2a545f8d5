"""Checks: what was found, in the order in which it matters: to fix, open, accepted, answered; the rest in one line."""

from builder.records.checklist import ITEMS
from builder.records.questions import CLEAR, QUESTIONS, STATES
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.stages.checks import CHECKS, SHEET, STATED

ASKS = 8  # of what is to fix and open, so many stand one by one for other sheets
FIX, OPEN, ACCEPTED, ANSWERED, NOTHING = (float(place) for place in range(1, len(STATES) + 1))


# fmt: off
def _label(key, title, told):
    """A column of words, one a finding; blank for what stops the price where only questions have them."""
    return C(key, f"Finding: {title}", "text", label=lambda number: told(STATED[number - 1]))


def _question(key):
    return lambda stated: getattr(stated, key, "")


FINDINGS = Block("findings", "Questions", (
    C("no", "Finding, row", "count", label=lambda number: number),
    _label("words", "words", lambda stated: stated.words),
    _label("topic", "what is answered", _question("topic")),
    _label("why", "why", _question("why")),
    _label("where", "where", lambda stated: stated.where),
    _label("name", "short name", _question("name")),
    _label("code", "short name, as it is compared", _question("code")),
    C("asks", "Finding: is a question", "count", label=lambda number: float(number > len(ITEMS))),
    C("count", "Finding: count", "count", "INDEX({checks.count},{no})", ""),
    C("said", "Finding: its answer, or row and fault", "text", "INDEX({checks.said},{no})", ""),
    C("accepted", "Finding: accepted", "count",
      'IF({asks}*ISNUMBER(FIND(","&{code}&",",{checks.accepted_names}))=1,1,0)', ""),
    C("state_no", "Finding: number of its state", "count",
      'IF({count}>0,1+{asks}*(1+{accepted}),4+({said}=""))', ""),
    C("rank", "Finding: its place among all", "count",
      "SUMPRODUCT(--({*state_no}<{state_no}))+SUMPRODUCT(--({*state_no}={state_no}),--({*no}<={no}))", ""),
    C("counted", "Finding: words, and how often", "text", '{words}&REPT(" ("&{count}&")",--({count}>1))', ""),
    C("told", "Finding: what", "text",
      'CHOOSE({state_no},IF({said}="",{counted},{said}),{counted},{counted},{topic},{words})', ""),
    C("because", "Finding: why, or the answer", "text",
      'CHOOSE({state_no},"",{why},{said}&REPT("as it is",--({said}="")),{said},"")', ""),
    C("line", "Finding: in a line", "text", '{told}&REPT(" ("&{where}&")",1-({asks}=0)*({said}<>""))', ""),
))
SUMS = Block("checks", SHEET, (
    C("open", "Questions that are open", "count", "SUMPRODUCT(--({findings.state_no}=2))"),
    C("accepted_count", "Questions that are accepted as they are", "count",
      "SUMPRODUCT(--({findings.count}>0),{findings.accepted})"),
    C("asked", "To fix and open", "count", "SUMPRODUCT(--({findings.state_no}<=2))"),
    C("told", "Lines of Checks, the last for all that is clear", "count",
      "SUMPRODUCT(--({findings.state_no}<=4))+1"),
    C("clear", "Checks that found nothing", "count", "COUNT({findings.no})+1-{told}"),
    C("first", "First to fix or to answer", "text",
      'IF({asked}=0,"",INDEX({findings.line},MATCH(1,{findings.rank},0)))'),
), form="upright", top=CHECKS[-1].top + len(CHECKS[-1].columns) + SECTION)

_AT = {"own": At("check_lines", "ROW()-ROW({#state})"), "found": At("findings", "{own.at}")}
CHECK_LINES = (
    Block("check_lines", "Questions", (
        C("no", "Line, row", "count", label=lambda number: number),
        C("at", "Line: row of its finding", "count",
          'IF({no}<{checks.told},MATCH({no},{findings.rank},0),"")', ""),
        C("last", "Line: that of all that is clear", "count", "--({no}={checks.told})", ""),
    )),
    Block("check_lines", "Checks", (
        C("state", "State", "text",
          f'IF({{own.at}}="",REPT("{STATES[-1]}",{{own.last}}),INDEX({{words.state}},{{found.state_no}}))', ""),
        C("finding", "What", "text",
          f'IF({{own.at}}="",REPT({{checks.clear}}&" {CLEAR}",{{own.last}}),{{found.told}})', ""),
        C("because", "Why, or its answer", "text", 'IF({own.at}="","",{found.because})', ""),
        C("answer_place", "Where it is fixed or answered", "text", 'IF({own.at}="","",{found.where})', ""),
        C("short", "Short name, to accept it on Job", "text",
          'IF({own.at}="","",REPT({found.name},--({found.state_no}=2)))', ""),
    ), _AT),
)
ASKED = Block("asks", "Questions", (
    C("no", "Ask, row", "count", label=lambda number: number),
    C("at", "Ask: row of its finding", "count", 'IF({no}>{checks.asked},"",MATCH({no},{findings.rank},0))', ""),
    C("words", "Ask: what", "text", "{found.told}", "at"),
    C("why", "Ask: why", "text", "{found.because}", "at"),
    C("where", "Ask: where it is fixed or answered", "text", "{found.where}", "at"),
), {"found": At("findings", "{at}")})
# fmt: on


def findings(est):
    """Every check with its state and its place among all; what the sheets tell of them, line by line."""
    checks, rows = est.checks, est.rows["findings"]
    for row, stated in zip(rows, STATED):
        _finding(row, stated, checks)
    order = sorted(rows, key=lambda row: (row.state_no, row.no))
    for rank, row in enumerate(order, start=1):
        row.rank = float(rank)
    told = [row for row in order if row.state_no != NOTHING]
    asked = [row for row in told if row.state_no <= OPEN]
    checks.open = float(sum(row.state_no == OPEN for row in rows))
    checks.accepted_count = float(sum(row.state_no == ACCEPTED for row in rows))
    checks.asked, checks.told = float(len(asked)), float(len(told) + 1)
    checks.clear = float(len(rows) - len(told))
    checks.first = asked[0].line if asked else None
    for line, row in zip(est.rows["check_lines"], told):
        stated = STATED[row.no - 1]
        line.set(at=float(row.no), state=STATES[int(row.state_no) - 1], finding=row.told, because=row.because)
        line.set(answer_place=stated.where, short=stated.name if row.state_no == OPEN else None)
    for line in est.rows["check_lines"]:
        line.last = float(line.no == checks.told)
    last = est.rows["check_lines"][len(told)]
    last.state, last.finding = STATES[-1], f"{checks.clear:g} {CLEAR}"
    for ask, row in zip(est.rows["asks"], asked):
        ask.set(at=float(row.no), words=row.told, why=row.because, where=STATED[row.no - 1].where)


def _finding(row, stated, checks):
    question = stated in QUESTIONS
    row.count, row.said = getattr(checks, stated.key), getattr(checks, f"said_{stated.key}")
    row.accepted = float(question and f",{stated.code}," in checks.accepted_names)
    if row.count:
        row.state_no = (ACCEPTED if row.accepted else OPEN) if question else FIX
    else:
        row.state_no = NOTHING if row.said is None else ANSWERED
    fault = not question and row.said is not None
    row.counted = stated.words + (f" ({row.count:g})" if row.count > 1 else "")
    answered = {NOTHING: stated.words, ANSWERED: stated.topic if question else None}
    row.told = row.said if fault else answered.get(row.state_no, row.counted)
    row.because = {OPEN: stated.why if question else None, ACCEPTED: row.said or "as it is", ANSWERED: row.said}.get(
        row.state_no
    )
    row.line = row.told if fault else f"{row.told} ({stated.where})"
