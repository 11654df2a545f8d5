"""Progress: of each coat and task of the signed plan what is done, what is to go, what paint is still needed; of the
job what it will have taken at its end (E49, E50).
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import to_upward, upward
from builder.stages.brief import plain
from builder.stages.day_words import said_date, short
from builder.stages.logged import SHEET
from builder.trade import earning, labor
from builder.values import is_number, same


# fmt: off
def _logged(key):
    """Of the rows of the log of one coat or task."""
    return f"SUMPRODUCT(--({{log_lines.plan_at}}={{no}}),{{log_lines.{key}}})"


def _of_paint(key):
    """Of all coats of one coating and color."""
    return f"SUMPRODUCT(--({{*coating}}={{coating}}),--({{*color}}={{color}}),{{*{key}}})"


PLANNED = Block("progress", SHEET, (
    C("no", "Row of the signed plan", "count", label=lambda number: number),
    C("live", "Sound", "count", 'IF((N({row.sound})=1)*(N({terms.sound})=1)=1,1,"")', ""),
    C("what", "Coat or task", "text", '{row.what}&""'),
    C("taken", "Part of the contract", "count",
      'IF({row.alternate}="",1,MIN(1,SUMPRODUCT(--({change_lines.alternate}={row.alternate}))))'),
    C("hours", "Hours planned", "time", "{row.hours}*{taken}"),
    C("planned_area", "Area planned", "area", 'IF({row.area}="",0,{row.area})'),
    C("by_area", "Counted by area", "count", "--({planned_area}>0)"),
    C("all_area", "Area that is all of it", "area", "{planned_area}+({planned_area}=0)"),
    C("all_hours", "Hours that are all of it", "time", "{row.hours}+({row.hours}=0)"),
    C("cost", "Cost planned", "money", 'IF({row.cost}="",0,{row.cost})*{taken}'),
    C("gallons", "Paint planned", "volume", 'IF({row.gallons}="",0,{row.gallons})*{taken}'),
    C("bought", "Paint bought", "volume", 'IF({row.bought}="",0,{row.bought})*{taken}'),
    C("coating", "Coating", "text", '{row.coating}&""'),
    C("color", "Color", "text", '{row.color}&""'),
    C("paid", "Hours paid", "time", _logged("paid")),
    C("earned", "Hours earned", "time", _logged("earned")),
    C("area", "Area done", "area", _logged("area")),
    C("used", "Paint used", "volume", _logged("used")),
    C("finished", "Said to be finished", "count", _logged("finished")),
    C("share", "Done", "share", "MIN(1,({finished}>0)+CHOOSE(1+{by_area},{paid}/{all_hours},{area}/{all_area}))"),
    C("laid_of", "Paint used where the wet film was read", "volume", _logged("laid_of")),
    C("loss", "Loss seen", "share", f'IF({{laid_of}}=0,"",1-{_logged("laid")}/{{laid_of}})'),
    C("spread", "Area a volume of paint covers", "spread", 'IF({used}*{area}=0,"",{area}/{used})'),
    C("needed", "Paint still needed", "volume",
      "({share}<1)*{taken}*CHOOSE(1+({used}*{area}*{by_area}>0),{gallons}*(1-{share}),"
      "MAX(0,{planned_area}-{area})*{used}/({area}+({area}=0)))"),
    C("leads", "First coat of its coating and color", "count",
      'IF(({coating}<>"")*(SUMPRODUCT(--({*coating}={coating}),--({*color}={color}),--({*no}<{no}))=0)=1,1,"")'),
    C("left", "Paint left of what was bought", "volume", f"{_of_paint('bought')}-{_of_paint('used')}", "leads"),
    C("wanted", "Paint still needed, all its coats", "volume", _of_paint("needed"), "leads"),
    C("short", "Paint to buy", "volume", 
      "IF({leads}=1,MAX(0,{wanted}-MAX(0,{left}))*({wanted}>{left}+{checks.slack}),0)"),
    C("paint_at", "Row of its coating", "count",
      'IF(SUMPRODUCT(--({coatings.known}={coating}))=0,"",MATCH({coating},{coatings.known},0))', "leads"),
    C("short_cost", "Cost of paint to buy", "money", "{short}*IF({paint_at}=\"\",0,{paint.price})", "leads"),
    C("a_day", "Paint a day so far", "volume", f"{_of_paint('used')}/MAX(1,{{week.days}})", "leads"),
    C("lasts", "Working days that it lasts", "count",
      "IF({a_day}=0,0,INT(MAX(0,{left})/({a_day}+({a_day}=0))))", "leads"),
    C("order_in", "Order in working days", "count", "MAX(0,{lasts}-{week.lead_days})", "leads"),
    C("order_on", "Order on", "count",
      "IF({week.as_of}=0,0,WORKDAY({week.as_of},{order_in},{holidays.day}))", "leads"),
    C("urgency", "The least is ordered first", "number", "{order_in}+{no}/(COUNT({*no})+1)", "leads"),
    C("soonest", "Ordered first", "count",
      "--(({short}>0)*(SUMPRODUCT(--({*short}>0),--({*urgency}<{urgency}))=0)=1)", "leads"),
    C("orders", "There is some to order", "count", 'IF(N({short})>0,1,"")', ""),
    C("paint", "What to order", "text", '{coating}&REPT(", "&{color},--({color}<>""))', "orders"),
    C("amount", "How much", "text", f'"Order "&{upward("{short}", "volume")}&" "&{{constants.volume_unit}}', "orders"),
    C("by", "When", "text", f'IF({{order_in}}=0,", now",", by "&{short("{order_on}")})', "orders"),
    C("told", "What to do", "text", '{amount}&" of "&{paint}&{by}', "orders"),
    C("briefly", "The same beside it", "text", "{amount}&{by}", "orders"),
), {"row": At("signed", "{no}"), "paint": At("coatings", "{paint_at}")}, "live", under="log_lines",
    section="The signed plan, coat by coat and task by task")


WEEK = Block("week", "Progress workings", (
    C("as_of", "Progress as of", "count", 'IF(ISNUMBER({job.as_of}),{job.as_of},MAX({log_lines.day}))', ""),
    C("signed", "A plan was signed", "count", "--(SUM({progress.live})>0)", ""),
    C("started", "Days are logged", "count", "--(COUNT({log_lines.live})>0)", ""),
    C("lead_days", "Working days until more paint comes", "count",
      "IF(ISNUMBER({terms.lead_days}),{terms.lead_days},1)", ""),
    C("days", "Days with entries", "count", "COUNT({log_lines.first_of_day})", ""),
    C("first_day", "First of them", "count", "IF({days}=0,0,SMALL({log_lines.first_of_day},1))", ""),
    C("planned", "Hours planned", "time", "SUM({progress.hours})", ""),
    C("earned", "Hours earned", "time", "SUM({progress.earned})", ""),
    C("plan_paid", "Hours paid for what was planned", "time", "SUM({progress.paid})", ""),
    C("paid", "Hours paid", "time", "SUM({log_lines.paid})", ""),
    C("share", "Done", "share", "IF({planned}=0,0,{earned}/{planned})", ""),
    C("pace", "Planned hours that an hour earns", "number",
      "IF(({earned}>0)*({plan_paid}>0)=1,{earned}/{plan_paid},1)", ""),
    C("to_go", "Hours to go, as it went", "time", "({planned}-{earned})/{pace}", ""),
    C("at_end", "Hours at the end", "time", "{paid}+{to_go}", ""),
    C("over", "Hours over the plan", "time", "({at_end}-{planned})*(ABS({at_end}-{planned})>{checks.slack})", ""),
    C("wage", "Wage with burden", "money_hour", "N({cost.wage@1})", ""),
    C("planned_cost", "Cost planned", "money", "SUM({progress.cost})", ""),
    C("paint_more", "Cost of paint beyond what was bought", "money", "SUM({progress.short_cost})", ""),
    C("over_cost", "Cost over the plan", "money", "{over}*{wage}+{paint_more}", ""),
    C("at_end_cost", "Cost at the end", "money", "{planned_cost}+{over_cost}", ""),
    C("a_day", "Hours paid a day", "time", "IF({days}=0,0,{paid}/{days})", ""),
    C("rate", "Hours of a day to come", "time",
      "{a_day}+({a_day}=0)*MAX(0,N({plan.hours}))*N({basics.people})", ""),
    C("days_to_go", "Working days to go", "count",
      "IF({rate}=0,0,ROUNDUP(MAX(0,{to_go}/({rate}+({rate}=0))-{checks.slack}),0))", ""),
    C("far", "Working days that are looked ahead: a date is told without its year", "count", "2*100", ""),
    C("finish", "Finished on, as it went, as far as is looked ahead", "count",
      "IF({as_of}=0,0,WORKDAY({as_of},MIN({days_to_go},{far}),{holidays.day}))", ""),
), form="upright")
BLOCKS = (PLANNED, WEEK)
# fmt: on


def planned(est):
    """What is all of each coat and task, before anything of it is logged; the day of Progress."""
    week = est.rows["week"][0]
    days = [entry.date for entry in est.rows["log"] if entry.sound]
    week.as_of = est.job.as_of if is_number(est.job.as_of) else max(days, default=0.0)
    week.lead_days = est.terms.lead_days if is_number(est.terms.lead_days) else 1.0
    named = {same(one.alternate) for one in est.rows["changes"] if one.sound and one.alternate is not None}
    for row, plan in zip(est.rows["progress"], est.rows["signed"]):
        row.live = 1.0 if plan.sound and est.terms.sound else None
        if not row.live:
            continue
        row.taken = float(plan.alternate is None or same(plan.alternate) in named)
        row.hours, row.cost = plan.hours * row.taken, (plan.cost or 0.0) * row.taken
        row.planned_area = plan.area or 0.0
        row.by_area = float(row.planned_area > 0)
        row.all_area = row.planned_area or est.units.from_cell(1.0, "area")
        row.all_hours = plan.hours or est.units.from_cell(1.0, "time")
        row.gallons, row.bought = (plan.gallons or 0.0) * row.taken, (plan.bought or 0.0) * row.taken
        texts = plan.what, plan.coating, plan.color
        row.what, row.coating, row.color = (None if one is None else est.judge.as_text(one) for one in texts)


def progress(est):
    """What the log adds up to, coat by coat and task by task; then of the job."""
    lines = [one for one in est.rows["log_lines"] if one.live]
    rows = [row for row in est.rows["progress"] if row.live]
    for row in rows:
        own = [one for one in lines if one.plan_at == row.no]
        row.set(**{key: sum(getattr(one, key) for one in own) for key in ("paid", "earned", "area", "used", "laid_of")})
        row.finished = sum(one.finished for one in own)
        row.share = earning.share_done(
            *((row.area, row.all_area) if row.by_area else (row.paid, row.all_hours)), row.finished > 0
        )
        if row.laid_of:
            row.loss = earning.seen_loss(sum(one.laid for one in own), row.laid_of)
        if row.used * row.area:
            row.spread = row.area / row.used
        known = row.used * row.by_area
        row.needed = row.taken * earning.still_needed(row.gallons, row.planned_area, row.area, known, row.share)
    _job(est, rows, lines)
    for row in rows:
        _paint(est, row, [one for one in rows if _same_paint(one, row)])
    _orders(est, [row for row in rows if row.leads])
    week = est.rows["week"][0]
    week.paint_more = sum(row.short_cost or 0.0 for row in rows)
    week.over_cost = week.over * week.wage + week.paint_more
    week.at_end_cost = week.planned_cost + week.over_cost


def _same_paint(one, other):
    return same(one.coating or "") == same(other.coating or "") and same(one.color or "") == same(other.color or "")


def _paint(est, row, alike):
    """What is still to buy of a coating and color, and when; told beside its first coat."""
    week, slack = est.rows["week"][0], est.checks.slack
    row.leads, row.short = 1.0 if row.coating is not None and alike[0] is row else None, 0.0
    if not row.leads:
        return
    used = sum(one.used for one in alike)
    row.left = sum(one.bought for one in alike) - used
    row.wanted = sum(one.needed for one in alike)
    least = est.units.from_cell(slack, "volume")
    row.short = max(0.0, row.wanted - max(0.0, row.left)) * (row.wanted > row.left + least)
    row.paint_at = est.judge.at("coatings", row.coating)
    row.short_cost = row.short * est.row("coatings", row.paint_at).price if row.paint_at else 0.0
    row.a_day = used / max(1.0, week.days)
    row.lasts = float(int(max(0.0, row.left) / row.a_day)) if row.a_day else 0.0
    row.order_in = max(0.0, row.lasts - week.lead_days)
    row.order_on = _workday(est, week.as_of, row.order_in)


def _orders(est, rows):
    """What is to be ordered, in words; the first of it."""
    for row in rows:
        row.urgency = row.order_in + row.no / (len(est.rows["progress"]) + 1)
    short = sorted((row for row in rows if row.short > 0), key=lambda row: row.urgency)
    for row in rows:
        row.soonest = float(bool(short) and short[0] is row)
    for row in short:
        row.orders = 1.0
        amount = plain(est.units.to_cell(to_upward(est, row.short, "volume"), "volume"))
        row.paint = row.coating + (f", {row.color}" if row.color else "")
        row.amount = f"Order {amount} {est.units.shown('volume')}"
        row.by = f", by {said_date(row.order_on)[1]}" if row.order_in else ", now"
        row.told, row.briefly = f"{row.amount} of {row.paint}{row.by}", row.amount + row.by


def _workday(est, day, count):
    """The working day that comes so many after a day; 0 where there is no such day."""
    off = {one.day for one in est.rows["holidays"]}
    return float(labor.workday(int(day) + 1, int(count), off)) if day else 0.0


def _job(est, rows, lines):
    week, plan = est.rows["week"][0], est.rows["plan"][0]
    firsts = [one.first_of_day for one in lines if one.first_of_day is not None]
    week.signed, week.started = float(bool(rows)), float(bool(lines))
    week.days, week.first_day = float(len(firsts)), min(firsts, default=0.0)
    week.planned, week.earned = sum(row.hours for row in rows), sum(row.earned for row in rows)
    week.plan_paid, week.paid = sum(row.paid for row in rows), sum(one.paid for one in lines)
    week.share = week.earned / week.planned if week.planned else 0.0
    week.pace = earning.pace(week.earned, week.plan_paid)
    week.to_go = (week.planned - week.earned) / week.pace
    week.at_end = earning.hours_at_end(week.paid, week.planned, week.earned, week.pace)
    over = week.at_end - week.planned
    week.over = over * (abs(est.units.to_cell(over, "time")) > est.checks.slack)
    week.wage = est.rows["cost"][0].wage or 0.0
    week.planned_cost = sum(row.cost for row in rows)
    week.a_day = week.paid / week.days if week.days else 0.0
    week.rate = week.a_day or max(0.0, plan.hours or 0.0) * (est.basics.people or 0.0)
    week.days_to_go = 0.0
    if week.rate:
        week.days_to_go = labor.steps_up(max(0.0, week.to_go / week.rate - est.checks.slack), 1, 0.0)
    week.far = 200.0
    week.finish = _workday(est, week.as_of, min(week.days_to_go, week.far))
