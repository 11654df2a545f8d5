"""The log, row by row: what it says of the signed plan, and what it does not say (E49, E50)."""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.trade import earning, wear
from builder.values import same

# fmt: off
SHEET = "Log workings"
# What is said beside a row, in this order: key of the condition -> words.
SAYINGS = {
    "unplanned": "not in the signed plan: paid, and earns nothing",
    "early": "before the day it was signed",
    "late": "after the day of Progress: not counted",
    "idle": "no hours",
    "unmeasured": "no area: earns nothing until one is typed",
    "over": "more area than was signed",
}

EARLIER, LATER = list(SAYINGS.items())[:3], list(SAYINGS.items())[3:]   # in two cells: a formula has its length


def _blank_is_0(cell):
    return f'IF({cell}="",0,{cell})'


def _of_plan(of):
    """Of the rows of the same coat or task up to this one in time."""
    return f"SUMPRODUCT(--({{*plan_at}}={{plan_at}}),--({{*place}}<={{place}}),{{*{of}}})"


LOG_LINES = Block("log_lines", SHEET, (
    C("no", "Row of the log", "count", label=lambda number: number),
    C("day", "Day", "count", "IF(N({row.sound})=1,{row.date},0)", ""),
    C("live", "Counted", "count", "IF((N({basics.live})=1)*({day}>0)*({day}<={week.as_of})=1,1,\"\")", ""),
    C("place", "Place in time", "number", "{day}+{no}/(COUNT({*no})+1)", "day=0"),
    C("named_at", "Row of the signed plan that says the same", "count",
      'IF(SUMPRODUCT(--({progress.what}={row.tag}))=0,"",MATCH({row.tag},{progress.what},0))'),
    C("plan_at", "Row of the signed plan", "count",
      'IF(SUMPRODUCT(--({signed.known}={row.tag}))=0,{named_at},MATCH({row.tag},{signed.known},0))'),
    C("first_of_day", "Day, on its first row", "count",
      'IF(SUMPRODUCT(--({*day}={day}),--({*place}<{place}))=0,{day},"")'),
    C("people", "People", "count", 'IF({row.people}="",N({basics.people}),{row.people})'),
    C("paid", "Hours paid", "time", f"{{people}}*{_blank_is_0('{row.hours}')}"),
    C("paint_at", "Row of its coating", "count",
      'IF(SUMPRODUCT(--({coatings.known}={planned.coating}))*({planned.coating}<>"")=0,"",'
      'MATCH({planned.coating},{coatings.known},0))', "plan_at"),
    C("used", "Paint used", "volume",
      f"{_blank_is_0('{row.gallons}')}+{_blank_is_0('{row.packs}')}*IF(N({{paint_at}})=0,0,{{paint.largest}})"),
    C("area", "Area done", "area", _blank_is_0("{row.area}")),
    C("finished", "Finished", "count", '--({row.done}="yes")'),
    C("part", "Part of the coat by area, of the task by hours", "share",
      "IF({step.by_area}=1,{area}/{step.all_area},{paid}/{step.all_hours})", "plan_at"),
    C("upto", "Of the coat or task, up to here", "share", _of_plan("part"), "plan_at"),
    C("ended", "Said to be finished, up to here", "count", _of_plan("finished"), "plan_at"),
    C("share", "Done, up to here", "share", "MIN(1,({ended}>0)+{upto})", "plan_at"),
    C("before", "Done, before", "share", "MIN(1,({ended}>{finished})+{upto}-{part})", "plan_at"),
    C("earned", "Hours earned", "time", "({share}-{before})*{step.hours}", "plan_at"),
    C("seen", "Wet film read where paint and area are known", "count",
      '--(({row.wet_film}<>"")*({used}>0)*({area}>0)=1)'),
    C("laid", "Paint on the face", "volume",
      "IF({seen}=1,{area}*{row.wet_film}/{constants.cover},0)"),
    C("laid_of", "Paint used for it", "volume", "{used}*{seen}"),
    C("kit_at", "Row of its nozzle", "count", 'IF({row.kit}="","",MATCH({row.kit},{kit.known},0))'),
    C("through", "Through it, in a coating of abrasion 1", "volume",
      "IF(N({paint_at})=0,{used},{used}*{paint.abrasion})"),
    C("money", "Price of that paint", "money", "IF(N({paint_at})=0,0,{used}*{paint.price})"),
    C("fanned", "Place in time, where the fan was measured", "number", '({row.fan}<>"")*N({live})*N({place})', ""),
    C("coat_at", "Row of its coat on Paint", "count",
      'IF(SUMPRODUCT(--({coats.tag}={planned.tag}))=0,"",MATCH({planned.tag},{coats.tag},0))', "plan_at"),
    C("new_flow", "Flow of its nozzle when new", "flow",
      'IF((N({coat_at})=0)+(N({kit_at})=0)>0,0,N({pick.gauge_flow})*({size.orifice}/{picked.orifice})^2)'),
    C("flow", "Flow that was timed", "flow",
      'IF(({row.drawn}="")+({terms.draw_volume}="")>0,0,'
      "{terms.draw_volume}*{constants.seconds}/({row.drawn}*{constants.hour}))"),
    C("timed", "Place in time, where the flow was timed", "number",
      "(N({flow})>0)*(N({new_flow})>0)*N({live})*N({place})", ""),
    C("worn_flow", "Worn by that flow", "share",
      "IF({timed}=0,0,MAX(0,({flow}/{new_flow}-1)/({terms.worn_orifice}^2-1)))"),
    C("unplanned", "Not planned", "count", '--(({plan_at}="")*(SUM({signed.sound})>0)=1)'),
    C("early", "Before the signature", "count", '--(({job.signed_on}<>"")*({day}<{job.signed_on})=1)'),
    C("late", "After the day of Progress", "count", '--((N({basics.live})=1)*({day}>0)*({live}="")=1)', ""),
    C("idle", "Without hours", "count", "--({paid}=0)"),
    C("unmeasured", "Hours without area", "count",
      "IF({step.by_area}=1,--(({area}=0)*({paid}>0)*({finished}=0)=1),0)", "plan_at"),
    C("over", "More than was signed", "count",
      "IF({step.by_area}=1,--({upto}>1+{checks.slack}),0)", "plan_at"),
    C("told", "Said of it, each behind a mark", "text",
      "&".join(f'REPT("; {words}",--(N({{{key}}})=1))' for key, words in EARLIER), ""),
    C("told_more", "Said of it, the rest", "text",
      "&".join(f'REPT("; {words}",--(N({{{key}}})=1))' for key, words in LATER), ""),
    C("said", "Said of it", "text", 'MID({told}&{told_more},2+1,LEN({told}&{told_more}))', ""),
), {"row": At("log", "{no}"), "planned": At("signed", "{plan_at}"),
    "step": At("progress", "{plan_at}"), "paint": At("coatings", "{paint_at}"), "pick": At("picks", "{coat_at}"),
    "picked": At("nozzles", "{pick.size_at}"), "own": At("kit", "{kit_at}"),
    "size": At("nozzles", "{own.nozzle_at}")}, "live")
# fmt: on


def logged(est):
    """Each row of the log against the signed plan; those after the day of Progress are not counted, and none is while
    Job or Terms are faulty.
    """
    rows, slack, week, sound = est.rows["log_lines"], est.checks.slack, est.rows["week"][0], est.basics.live
    for row, entry in zip(rows, est.rows["log"]):
        row.day = entry.date if entry.sound else 0.0
        row.live = 1.0 if sound and 0 < row.day <= week.as_of else None
        row.late, row.fanned, row.timed = float(bool(sound) and row.day > 0 and not row.live), 0.0, 0.0
        if row.day:
            row.place = row.day + row.no / (len(rows) + 1)
    counted = sorted((row for row in rows if row.live), key=lambda row: row.place)
    said = [None if one.what is None else same(one.what) for one in est.rows["progress"]]
    for row in counted:
        _read(est, row, est.rows["log"][row.no - 1], counted, said)
    for at, row in enumerate(counted):
        if row.plan_at:
            _earn(est, row, [one for one in counted[: at + 1] if one.plan_at == row.plan_at], slack)
    for row in rows:
        row.told = "".join(f"; {words}" for key, words in EARLIER if getattr(row, key))
        row.told_more = "".join(f"; {words}" for key, words in LATER if getattr(row, key))
        row.said = (row.told + row.told_more)[2:]


def _read(est, row, entry, counted, said):
    """What a row says by itself. said: the words of each row of the signed plan that is sound."""
    row.named_at = said.index(same(entry.tag)) + 1 if same(entry.tag) in said else None
    row.plan_at = est.judge.at("signed", entry.tag) or row.named_at
    row.first_of_day = None if any(one.day == row.day and one.place < row.place for one in counted) else row.day
    row.people = entry.people or est.basics.people or 0.0
    row.paid = row.people * (entry.hours or 0.0)
    plan = est.row("signed", row.plan_at)
    if plan and plan.coating is not None:
        row.paint_at = est.judge.at("coatings", plan.coating)
    paint = est.row("coatings", row.paint_at)
    row.used = (entry.gallons or 0.0) + (entry.packs or 0.0) * (paint.largest if paint else 0.0)
    row.area, row.finished = entry.area or 0.0, float(entry.done is not None and same(entry.done) == "yes")
    row.seen = float(entry.wet_film is not None and row.used > 0 and row.area > 0)
    row.laid = row.area * entry.wet_film if row.seen else 0.0
    row.laid_of = row.used * row.seen
    row.kit_at = None if entry.kit is None else est.judge.at("kit", entry.kit)
    row.through = row.used * (paint.abrasion if paint else 1.0)
    row.money = row.used * paint.price if paint else 0.0
    _flow(est, row, entry)
    signed = any(one.sound for one in est.rows["signed"])
    row.unplanned = float(plan is None and signed)
    row.early = float(est.job.signed_on is not None and row.day < est.job.signed_on)
    row.idle = float(row.paid == 0)


def _flow(est, row, entry):
    """How worn its nozzle is by the flow that was timed, against a new one's at the set pressure of the coat."""
    if row.plan_at:
        tags = [None if one.tag is None else same(one.tag) for one in est.rows["coats"]]
        tag = same(est.row("signed", row.plan_at).tag)
        row.coat_at = tags.index(tag) + 1.0 if tag in tags else None
    row.new_flow = row.flow = 0.0
    if row.coat_at and row.kit_at:
        pick, own = est.rows["picks"][int(row.coat_at) - 1], est.row("kit", row.kit_at)
        if pick.gauge_flow:
            orifice = est.row("nozzles", own.nozzle_at).orifice
            row.new_flow = pick.gauge_flow * (orifice / est.row("nozzles", pick.size_at).orifice) ** 2
    if entry.drawn is not None and est.terms.draw_volume is not None:
        row.flow = est.terms.draw_volume / entry.drawn
    row.timed = row.place if row.flow and row.new_flow else 0.0
    row.fanned = row.place if entry.fan is not None else 0.0
    row.worn_flow = 0.0
    if row.timed:
        row.worn_flow = wear.worn_by_flow(row.flow, row.new_flow, est.terms.worn_orifice)


def _earn(est, row, upto, slack):
    """What a row earns of the plan: what is done up to it less what was done before."""
    step = est.row("progress", row.plan_at)
    row.part = row.area / step.all_area if step.by_area else row.paid / step.all_hours
    row.upto = sum((one.area / step.all_area if step.by_area else one.paid / step.all_hours) for one in upto)
    row.ended = sum(one.finished for one in upto)
    row.share = earning.share_done(row.upto, 1.0, row.ended > 0)
    row.before = earning.share_done(row.upto - row.part, 1.0, row.ended > row.finished)
    row.earned = (row.share - row.before) * step.hours
    row.unmeasured = float(step.by_area and row.area == 0 and row.paid > 0 and not row.finished)
    row.over = float(step.by_area and row.upto > 1 + slack)
