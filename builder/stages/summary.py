"""Summary: the answers to a job on one screen, what is still asked, the price by part of the work."""

from builder.records.questions import SIGNED
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages.brief import BY_TODAY, FACTS, TOLD, plain
from builder.stages.day_words import said_date, short
from builder.stages.parts import ROOM
from builder.stages.priced import LINE, part, part_money, part_name, read_parts, rule

# fmt: off
PAGE, SHEET = "Summary", "Summary workings"
WHO, BAND = 4, 5                                # rows: who and where; the answers: what each is, itself, more of it
ASKED = BAND + 3 + SECTION                      # the first question
QUESTIONS = 5
STEPS_ROW = ASKED + QUESTIONS + 1
PARTS_TOP = STEPS_ROW + SECTION + 2
NONE_OPEN = "None. Print Bid, Shopping and Crew card."
CONTRACT = "Contract with its changes: "

BRIEF = Block("brief", SHEET, FACTS + TOLD, when="price", form="upright")
BUYS = "COUNT({nozzle_buys.place})"
COLORS = "COUNT({bought.place})"


def _plural(number, word):
    return f'{number}&" {word}"&REPT("s",--({number}<>1))'


ANSWERS = (  # key, what it is, quantity, the answer, more of it
    ("state", "State", "text", "{brief.state}", '""'),
    ("price", "Price", "money", f'IF({{price.live@1}}="","",{nearest("{price.total@1}", "money")})',
     'CHOOSE(1+({price.tax@1}>0)+2*({agreed.signed}<>""),"no sales tax is added","sales tax included",'
     f'"{BY_TODAY}","{BY_TODAY}")'),
    ("days", "Working days", "days", nearest("{days.days@1}", "days"),
     f'IF({{brief.finish}}="","no start date yet","promised by "&{short("{brief.finish}")})'),
    ("paint", "Paint to buy", "volume", nearest("{brief.gallons}", "volume"),
     f'{_plural(COLORS, "color")}&REPT(", the owner\'s too",--({{brief.from_owner}}>0))'),
    ("nozzles", "Nozzles to buy", "count", "SUM({nozzle_buys.number})",
     f'IF({BUYS}=0,"the kit has enough","of "&{_plural(BUYS, "size")})'),
    ("hours", "Crew hours", "time", nearest("{days.labor@1}", "time"),
     'IF({basics.people}=1,"1 person",{basics.people}&" people")'),
)


PLACES = (0, 2, 3, 4, 5, 6)                     # columns of the answers, from A: those of the price by part below


def _answers():
    for place, (key, title, quantity, answer, more) in zip(PLACES, ANSWERS):
        when = "" if key in ("state", "price") else None
        yield Block("summary", PAGE, (
            C(key, title, quantity, answer, when, look={"price": "answer_price", "state": "answer_state"}.get(key,
                                                                                                             "answer")),
            C(f"more_{key}", "", "text", more, look="answer_more"),
        ), when="price", form="page", place=place, top=BAND + 1)


ASK = {"ask": At("asks", "ROW()-ROW({#question})")}
QUESTION_PLACES = (0, 3, 5)                     # columns of what is asked, from A
QUESTIONS_ASKED = tuple(Block("open_asks", PAGE, (column,), ASK, form="list", place=place, top=ASKED)
                        for place, column in zip(QUESTION_PLACES, (
    C("question", "Questions", "text",
      f'IF({{ask.at}}="",REPT("{NONE_OPEN}",(ROW()-ROW({{#question}})=1)*({{checks.asked}}=0)),{{ask.words}})', "",
      look="words"),
    C("where", "Answer on", "text", '{ask.where}&""', "", look="words_bold"),
    C("why", "Why", "text", '{ask.why}&""', "", look="words_small"))))


def _after(words, cell):
    """Free text behind words; nothing where there is none, or an error."""
    return f'IF(ISERROR({cell}),"",REPT("{words}"&{cell},--({cell}<>"")))'


NAMELESS = "No name yet: type it on Job"
WHOSE = Block("summary", PAGE, (
    C("who", "", "text",
      f'IF({{bid.job_told}}="","{NAMELESS}",{{bid.job_told}})&{{summary.client}}&{{summary.site}}', "",
      look="section"),), form="page", place=0, top=WHO)
TYPED = Block("summary", SHEET, (
    C("client", "For whom", "text", _after(", for ", "{job.client}"), ""),
    C("site", "Where", "text", _after(", ", "{job.site}"), ""),
), form="upright", top=5 + len(FACTS + TOLD) + SECTION)
PARTS = (
    Block("summary_parts", PAGE, (part_name(),), LINE, form="list", place=0, top=PARTS_TOP),
    Block("summary_parts", PAGE, (
        *part_money(),
        part("area", "Measured", "area"), part("need", "Paint it takes", "volume"), part("labor", "Crew hours", "time"),
    ), LINE, "name", "list", 2, PARTS_TOP),
)
NOTE = Block("summary", PAGE, (rule("rule"),), form="page", place=2, top=PARTS_TOP - 2)
MOVED = Block("summary", PAGE, (
    C("moved", "", "text",
      f'REPT("{CONTRACT}"&{{brief.shown_price}}&". ",--({{brief.state}}="{SIGNED}"))&{{brief.told_moved}}', "",
      look="line"),), form="page",
              place=0, top=BAND + 3)
BLOCKS = (BRIEF, TYPED, WHOSE, *_answers(), MOVED, *QUESTIONS_ASKED, NOTE, *PARTS)
# fmt: on


def rows():
    """Rows of the blocks of this stage."""
    return {"summary": 1, "open_asks": QUESTIONS, "summary_parts": ROOM}


def summary(est):
    row, checks, price = est.rows["summary"][0], est.checks, est.rows["price"][0]
    for asked, ask in zip(est.rows["open_asks"], est.rows["asks"]):
        asked.set(question=ask.words or "", where=ask.where or "", why=ask.why or "")
    if not checks.asked:
        est.rows["open_asks"][0].question = NONE_OPEN
    _who(est, row)
    row.rule = est.rows["priced"][0].rule
    brief = est.rows["brief"][0]
    row.state, row.moved = brief.state, brief.told_moved or ""
    if brief.state == SIGNED:
        row.moved = f"{CONTRACT}{brief.shown_price}. {row.moved}"
    _parts(est)
    if price.live:
        _answer(est, row, price)


def _who(est, row):
    job = est.job
    row.client = "" if job.client is None else f", for {est.judge.as_text(job.client)}"
    row.site = "" if job.site is None else f", {est.judge.as_text(job.site)}"
    row.who = (NAMELESS if job.name is None else est.judge.as_text(job.name)) + row.client + row.site


def _count(number, word):
    return f"{plain(number)} {word}{'' if number == 1 else 's'}"


def _answer(est, row, price):
    brief, days = est.rows["brief"][0], est.rows["days"][0]
    bought, sizes = ([one for one in est.rows[key] if one.place is not None] for key in ("bought", "nozzle_buys"))
    row.more_state = ""
    row.price, row.days = to_nearest(est, price.total, "money"), to_nearest(est, days.days, "days")
    row.more_price = "sales tax included" if price.tax > 0 else "no sales tax is added"
    if est.rows["agreed"][0].signed is not None:
        row.more_price = BY_TODAY
    row.more_days = "no start date yet" if brief.finish is None else f"promised by {said_date(brief.finish)[1]}"
    row.paint, row.hours = to_nearest(est, brief.gallons, "volume"), to_nearest(est, days.labor, "time")
    row.more_paint = _count(len(bought), "color") + (", the owner's too" if brief.from_owner > 0 else "")
    row.nozzles = float(sum(one.number for one in sizes))
    row.more_nozzles = f"of {_count(len(sizes), 'size')}" if sizes else "the kit has enough"
    row.more_hours = "1 person" if est.basics.people == 1 else f"{plain(est.basics.people)} people"


def _parts(est):
    read_parts(est, "summary_parts")
    for row, line in zip(est.rows["summary_parts"], est.rows["parts"]):
        for key, quantity in (("area", "area"), ("need", "volume"), ("labor", "time")):
            if (value := getattr(line, key)) is not None:
                setattr(row, key, to_nearest(est, value, quantity))
