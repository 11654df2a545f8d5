"""Progress as it is read: where the job stands in sentences, each coat and task in a line, hours day by day."""

from math import floor

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, step, to_nearest, to_upward, upward
from builder.stages.brief import plain
from builder.stages.day_words import said_date, short
from builder.stages.logged import SHEET
from builder.trade import labor

# fmt: off
PAGE, HEAD, TOP = "Progress", 4, 10             # rows: the first sentence, the first coat
DAYS = 40                                       # working days that the chart can show
UNSIGNED = "No plan is signed yet: 'wetfilm sign' keeps it in this book."
UNLOGGED = "Signed. Type the first day on Log."
ON_PLAN = "as planned"


def _against(more, less, amount, quantity):
    """In words whether an amount is more than nothing, less, or so little that it is read as none."""
    return (f'CHOOSE(2+({amount}>{{constants.step_{quantity}}}/2)-({amount}<0-{{constants.step_{quantity}}}/2),'
            f'"{less}","{ON_PLAN}","{more}")')


# Figures of the sentences, as they are read: key, what it is, of what, quantity.
READ = (("e", "hours earned", "earned", "time"), ("p", "hours planned", "planned", "time"),
        ("w", "hours paid", "paid", "time"), ("a", "hours at the end", "at_end", "time"),
        ("c", "cost at the end", "at_end_cost", "money"))

LOG_DAYS = Block("log_days", SHEET, (
    C("no", "Working day", "count", label=lambda number: number),
    C("date", "Date", "count", "IF({week.first_day}=0,0,WORKDAY({week.first_day}-1,{no},{holidays.day}))", ""),
    C("until", "Date, not after that of Progress", "count", "MIN({date},{week.as_of})", ""),
    C("planned", "Planned hours", "time", '{week.planned}*MIN(1,{no}/{week.plan_days})', ""),
    C("earned", "Earned hours", "time", "SUMPRODUCT(--({log_lines.day}<={date}),{log_lines.earned})", ""),
    C("paid", "Paid hours", "time", "SUMPRODUCT(--({log_lines.day}<={date}),{log_lines.paid})", ""),
), under="progress", section="Hours by day, each up to its evening")

SENTENCES = Block("told_progress", PAGE, (
    C("stands", "", "text",
      f'CHOOSE(1+{{week.signed}}*(1+{{week.started}}),"{UNSIGNED}","{UNLOGGED}",{{week.told_done}})', "",
      look="section"),
    C("takes", "", "text", '{week.told_hours}&""', "", look="line"),
    C("costs", "", "text", '{week.told_cost}&""', "", look="line"),
    C("buys", "", "text", '{week.told_paint}&""', "", look="line"),
), form="page", place=0, top=HEAD)

TOLD = Block("week", "Progress workings", (
    C("telling", "There is a plan, and a log of it", "count", 'IF({week.signed}*{week.started}=1,1,"")', ""),
    C("plan_days", "Days of the plan", "days", "IF(ISNUMBER({job.signed_days}),MAX(1,{job.signed_days}),1)", ""),
    *(C(f"told_{key}", f"Read as: {words}", quantity, nearest(f"{{week.{of}}}", quantity), "telling")
      for key, words, of, quantity in READ),
    C("told_done", "Where it stands", "text",
      f'{short("{week.as_of}")}&": "&INT({{week.share}}*100+1/2+{{terms.slack}})&" % done; "&{{told_earned}}',
      "telling"),
    C("told_earned", "Hours earned and paid", "text",
      '"earned "&{told_e}&" h of "&{told_p}&" h planned, paid "&{told_w}&" h"', "telling"),
    C("told_finish", "Its last day", "text",
      f'CHOOSE(1+({{week.to_go}}>0)+({{week.to_go}}>0)*({{week.days_to_go}}>{{week.far}}),"finished",'
      f'"finished on "&{short("{week.finish}")},'
      '"not finished within "&{week.far}&" working days")', "telling"),
    C("told_hours", "Hours at the end", "text",
      '"At this pace: "&{told_a}&" h at the end, "'
      f'&{_against("more than planned", "less than planned", "{week.over}", "time")}&"; "&{{told_finish}}',
      "telling"),
    C("told_cost", "Cost at the end", "text",
      '"Cost at the end: "&FIXED({told_c},0)&" "&{book.currency}&", "'
      f'&{_against("more than planned", "less than planned", "{week.over_cost}", "money")}', "telling"),
    C("first_short", "Row of the paint to order first", "count",
      'IF(SUM({progress.short})=0,"",MATCH(1,{progress.soonest},0))', ""),
    C("told_paint", "Paint to order first", "text", 'IF({first_short}="","",INDEX({progress.told},{first_short}))', ""),
), form="upright", top=40)

LINE = {"step": At("progress", "ROW()-ROW({#what})"), "planned": At("signed", "ROW()-ROW({#what})")}
LIST = (
    Block("progress_list", PAGE, (
        C("what", "Coat or task", "text",
          'IF(N({step.live})=0,"",{planned.tag}&REPT(": "&{planned.what},--({planned.what}<>"")))', "",
          look="read"),), LINE, form="list", place=0, top=TOP),
    Block("progress_list", PAGE, (
        C("planned", "Planned", "time", nearest("{step.hours}", "time"), look="read"),
        C("paid", "Paid", "time", nearest("{step.paid}", "time"), look="read"),
        C("done", "Done", "share", nearest("{step.share}", "share"), look="read"),
        C("to_go", "To go", "time", nearest("{step.hours}*(1-{step.share})/{week.pace}", "time"), look="read"),
        C("used", "Paint used", "volume", f'IF({{step.gallons}}=0,"",{nearest("{step.used}", "volume")})', look="read"),
        C("needed", "Still needed", "volume", f'IF({{step.gallons}}=0,"",{upward("{step.needed}", "volume")})',
          look="read"),
        C("spread", "A volume covers", "spread", f'IF({{step.spread}}="","",{nearest("{step.spread}", "spread")})',
          look="read"),
        C("loss", "Loss seen", "share", f'IF({{step.loss}}="","",{nearest("{step.loss}", "share")})', look="read"),
        C("told", "What to do", "text", '{step.briefly}&""', look="words_bold"),
    ), LINE, "what", "list", 2, TOP),
)
BLOCKS = (LOG_DAYS, SENTENCES, TOLD, *LIST)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage, and of its workings."""
    plan = capacity["signed"]
    return {"log_lines": capacity["log"], "progress": plan, "week": 1, "log_days": DAYS, "told_progress": 1,
            "progress_list": plan}  # fmt: skip


def progress_page(est):
    week, said = est.rows["week"][0], est.rows["told_progress"][0]
    week.plan_days = max(1.0, est.job.signed_days) if est.job.signed_days is not None and est.job.sound else 1.0
    lines = [one for one in est.rows["log_lines"] if one.live]
    off = {one.day for one in est.rows["holidays"]}
    for row in est.rows["log_days"]:
        row.date = float(labor.workday(int(week.first_day), row.no, off)) if week.first_day else 0.0
        row.until = min(row.date, week.as_of)
        row.planned = week.planned * min(1.0, row.no / week.plan_days)
        row.earned = sum(one.earned or 0.0 for one in lines if one.day <= row.date)
        row.paid = sum(one.paid for one in lines if one.day <= row.date)
    _sentences(est, week, said)
    for row, own, plan in zip(est.rows["progress_list"], est.rows["progress"], est.rows["signed"]):
        if own.live:
            _line(est, row, own, plan, week)


def _hour_words(est, time):
    return f"{plain(est.units.to_cell(to_nearest(est, time, 'time'), 'time'))} h"


def _against_words(est, amount, quantity):
    least = est.units.from_cell(step(quantity, est.units.system), quantity)
    return ("less than planned", ON_PLAN, "more than planned")[1 + (amount > least / 2) - (amount < -least / 2)]


def _sentences(est, week, said):
    soonest = next((row for row in est.rows["progress"] if row.soonest), None)
    week.first_short = float(soonest.no) if soonest else None
    week.told_paint = soonest.told if soonest else None
    week.telling = 1.0 if week.signed and week.started else None
    if week.telling:
        _told(est, week)
    said.stands = (UNSIGNED, UNLOGGED, week.told_done)[int(week.signed * (1 + week.started))]
    said.takes, said.costs = week.told_hours or "", week.told_cost or ""
    said.buys = week.told_paint or ""


def _told(est, week):
    for key, _, of, quantity in READ:
        setattr(week, f"told_{key}", to_nearest(est, getattr(week, of), quantity))
    percent = floor(week.share * 100 + 0.5 + est.terms.slack)
    week.told_earned = (
        f"earned {_hour_words(est, week.earned)} of {_hour_words(est, week.planned)} planned, "
        f"paid {_hour_words(est, week.paid)}"
    )
    week.told_done = f"{said_date(week.as_of)[1]}: {percent} % done; {week.told_earned}"
    week.told_finish = "finished"
    if week.to_go > 0:
        week.told_finish = f"finished on {said_date(week.finish)[1]}"
        if week.days_to_go > week.far:
            week.told_finish = f"not finished within {plain(week.far)} working days"
    week.told_hours = (
        f"At this pace: {_hour_words(est, week.at_end)} at the end, {_against_words(est, week.over, 'time')}; "
        f"{week.told_finish}"
    )
    money = f"{est.units.to_cell(to_nearest(est, week.at_end_cost, 'money'), 'money'):,.0f}"
    week.told_cost = f"Cost at the end: {money} {est.units.currency}, {_against_words(est, week.over_cost, 'money')}"


def _line(est, row, own, plan, week):
    said = est.judge.as_text
    row.what = said(plan.tag) + ("" if plan.what is None else f": {said(plan.what)}")
    row.planned, row.paid = to_nearest(est, own.hours, "time"), to_nearest(est, own.paid, "time")
    row.done = to_nearest(est, own.share, "share")
    row.to_go = to_nearest(est, own.hours * (1 - own.share) / week.pace, "time")
    if own.gallons:
        row.used, row.needed = to_nearest(est, own.used, "volume"), to_upward(est, own.needed, "volume")
    row.spread = None if own.spread is None else to_nearest(est, own.spread, "spread")
    row.loss = None if own.loss is None else to_nearest(est, own.loss, "share")
    row.told = own.briefly or ""
