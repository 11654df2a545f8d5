"""The working day of the schedule, weather by month, what comes first and last (E31, E36, E47 f)."""

from math import exp, sqrt

from builder.records.lookups import LOOKUPS
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import MONDAY
from builder.trade import risk, working_days

# fmt: off
SHEET = "Schedule workings"
STEPS = 60                                              # of a base, all passes and, with one lane, tasks
MARKS = "SBRH"                                          # sprayed, back-rolled, rolled, brushed
DAYS = 60                                               # working days that work may take
TOLD = 40                                               # those of them that are told in words


def whole_days(work):
    """Days that work up to a work hour takes."""
    return f"ROUNDUP(MAX(0,{work}/{{plan.hours}}-{{terms.round_slack}}),0)"


def day_of(work):
    """The listed day, from 1, on which what begins at a work hour begins."""
    return f"MIN(COUNT({{work_days.no}}),INT({work}/{{plan.hours}}+{{terms.round_slack}})+1)"


def lost_share(day, where):
    """Share that weather takes of what begins on a listed day."""
    return f"MIN({{constants.lost_most}},INDEX({{work_days.lost}},{day})*{{{where}weather}}+{{{where}always}})"


def first_of(marks, numbers, listed):
    """The least of the numbers where some row is marked, each at most so many as are listed."""
    return f"1+COUNT({listed})-SUMPRODUCT(LARGE({marks}*(1+COUNT({listed})-{numbers}),1))"


def _told(when):
    return f"SUMPRODUCT(--({{task_hours.when_no}}={when}),{{task_hours.lane_labor}})"


PLAN_FACTS = (
    C("live", "Schedule: terms and job sound", "count",
      'IF((N({terms.sound})=1)*(N({job.sound})=1)=1,1,"")', ""),
    C("visit_hours", "Labor of tasks, each visit", "time", "{task_hours.visit_hours_all@1}"),
    C("hours", "Productive hours of a day", "time",
      "({basics.on_site}-{visit_hours}/{basics.people})*{basics.productive}"),
    C("no_day", "Visits leave no time", "count", "--({hours}<={terms.day_hours}*{terms.slack})"),
    C("usable", "A day has time", "count", 'IF(N({no_day})+({live}="")=0,1,"")', ""),
    C("stretch", "Clock hours of an hour of work", "number", "1/{basics.productive}", "usable"),
    C("pace", "Median of area times time", "number",
      "SQRT({terms.area_low}*{terms.area_high}*{terms.time_low}*{terms.time_high})", "usable"),
    C("spread", "Sigma of area times time", "number",
      "SQRT(LN({terms.area_high}/{terms.area_low})^2+LN({terms.time_high}/{terms.time_low})^2)/{constants.deciles}",
      "usable"),
    C("hands", "People beside the gun of the job's crew", "count",
      "MAX(0,{basics.people}-{crew.guns}-{crew.rollers}-{crew.tenders})", "usable"),
    C("two", "Two lanes", "count", "--({hands}>0)", "usable"),
    C("first_labor", "Tasks that come first, labor", "time", _told(1), "usable"),
    C("last_labor", "Tasks that come last, labor", "time", _told(2), "usable"),
    C("begin", "First tasks end at work hour", "time", "{first_labor}*{pace}/{basics.people}", "usable"),
    C("start", "First day, a Monday where none is said", "date",
      'IF({job.start}="",{constants.monday},INT({job.start}))', "usable"),
    C("mean_lost", "Lost in a month, mean", "share", "SUM({months.lost})/COUNT({months.lost})", "usable"),
    C("steps", "Steps", "count", "SUM({lanes.tot})", "usable"),
    C("too_many", "More steps than are listed", "count", "--({steps}>COUNT({steps.no}))", "usable"),
    C("passed", "Scheduled", "count", 'IF(({usable}=1)*(N({too_many})=0)=1,1,"")', ""),
    C("gun_from", "Gun lane begins at work hour, once nobody of its team is at tasks", "time",
      "MAX({begin},SUMPRODUCT(LARGE({lanes.hand}*{lanes.all_at_it}*{lanes.hand_end},1)))", "passed"),
    C("hand_end", "Hand lane ends at work hour", "time", "MAX({lanes.hand_end})", "passed"),
    C("lanes_end", "Both lanes end at work hour", "time", "MAX({hand_end},{run.end})", "passed"),
    C("gun_time", "Time of the gun lane, weather included", "time", "SUM({run.time})", "passed"),
    C("lost_time", "Lost to weather in it", "time", "SUM({run.lost_time})", "passed"),
    C("lost", "Share of it that weather takes", "share", "IF({gun_time}=0,0,{lost_time}/{gun_time})", "passed"),
    C("open_time", "Time of its outdoor steps", "time", 'SUMPRODUCT(--({run.lost_time}>0),{run.time})', "passed"),
    C("open_lost", "Share of that lost to weather", "share", "IF({open_time}=0,0,{lost_time}/{open_time})", "passed"),
    C("halted", "Stopped by bad days beside", "time", "SUM({run.halts})*{hours}/2", "passed"),
    C("loads", "Loads of all pumps", "count", "SUM({run.fills})", "passed"),
    C("flush_labor", "Labor of flushing", "time", "SUM({run.flush})", "passed"),
    C("took", "Days that the base takes", "count", whole_days("{days.work@1}"), "passed"),
    C("too_long", "More days than are listed", "count",
      "--({days.work@1}>{hours}*(COUNT({work_days.no})+{terms.round_slack}))", "passed"),
)
PLAN = Block("plan", SHEET, PLAN_FACTS, {"crew": At("crews", "{basics.crew_at}")}, "live", "upright")
READINGS_TOP = 5 + len(PLAN_FACTS) + SECTION             # of the facts that follow from readings of the day
DATES_TOP = READINGS_TOP + 6 + SECTION
MONTHS_TOP = DATES_TOP + 6 + SECTION + 2
LOST = ",".join(f"0+{{terms.lost_{month[:3].lower()}}}" for month in LOOKUPS["month"])
MONTHS = Block("months", SHEET, (
    C("no", "Month", "count", label=lambda number: number),
    C("lost", "Lost in the open", "share", f"CHOOSE({{no}},{LOST})", "sound"),
    C("sound", "Terms sound", "count", '{terms.sound}', ""),
), top=MONTHS_TOP, section="What weather takes, by month")
# fmt: on


def plan(est):
    """The working day, the hands beside the gun, and what comes first and last."""
    row, job, terms = est.rows["plan"][0], est.job, est.terms
    row.live = 1.0 if terms.sound and job.sound else None
    for month in est.rows["months"]:
        month.sound = terms.sound
        if month.sound:
            month.lost = getattr(terms, f"lost_{LOOKUPS['month'][month.no - 1][:3].lower()}") or 0.0
    if row.live:
        row.visit_hours = est.rows["task_hours"][0].visit_hours_all[0]
        row.hours = working_days.useful_hours(
            est.basics.on_site, row.visit_hours, est.basics.people, est.basics.productive
        )
        row.no_day = float(row.hours <= terms.day_hours * terms.slack)
        row.usable = None if row.no_day else 1.0
    if row.usable:
        _plan(est, row)


def _plan(est, row):
    job, terms, crew = est.job, est.terms, est.row("crews", est.basics.crew_at)
    row.stretch = 1 / est.basics.productive
    row.pace = exp(risk.mu(terms.area_low, terms.area_high) + risk.mu(terms.time_low, terms.time_high))
    row.spread = sqrt(
        risk.sigma(terms.area_low, terms.area_high) ** 2 + risk.sigma(terms.time_low, terms.time_high) ** 2
    )
    row.hands = max(0.0, est.basics.people - crew.guns - crew.rollers - crew.tenders)
    row.two = float(row.hands > 0)
    row.first_labor, row.last_labor = (
        sum(one.lane_labor for one in est.rows["task_hours"] if one.live and one.when_no == when) for when in (1, 2)
    )
    row.begin = row.first_labor * row.pace / est.basics.people
    row.start = MONDAY if job.start is None else float(int(job.start))
    lost = [month.lost for month in est.rows["months"]]
    row.mean_lost = sum(lost) / len(lost)
