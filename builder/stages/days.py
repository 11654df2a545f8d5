"""Days: labor, visits, finish date and rental of each scenario (E21, E31, E32)."""

from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import included, within
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import CLOCK
from builder.trade import labor
from builder.trade.packs import whole


# fmt: off
def steps(amount):
    """Days rounded up to the step of Terms."""
    return f"ROUNDUP(MAX(0,{amount}/{{terms.day_step}}-{{terms.round_slack}}),0)*{{terms.day_step}}"


DAYS = Block("days", "Days", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF((N({terms.sound})=1)*(N({job.sound})=1)=1,1,"")', ""),
    C("crew_at", "Row of the crew", "count", "{basics.crew_at}"),
    C("coat_labor", "Labor of coats, in hours of work", "time",
      f"SUMPRODUCT({within('hours', '{no}')},{{hours.labor}})"),
    C("trigger_labor", "Of it at the trigger", "time",
      f"SUMPRODUCT({within('hours', '{no}')},{{hours.trigger_labor}})"),
    C("task_labor", "Labor of tasks, once, in hours of work", "time", "{task_hours.labor_all@no}"),
    C("visit_hours", "Labor of tasks, each visit", "time", "{task_hours.visit_hours_all@no}"),
    C("useful", "Work that a visit leaves", "time",
      "({basics.people}*{basics.on_site}-{visit_hours})*{basics.productive}"),
    C("no_day", "Visits leave no time", "count", "--({useful}<={basics.people}*{terms.day_hours}*{terms.slack})"),
    C("passed", "Passed", "count", 'IF({no_day}=0,1,"")'),
    C("worked", "Days of work", "days", steps("({coat_labor}+{task_labor})/{useful}"), "passed"),
    C("clock", "Longest time of one pump on the clock", "time", "{pumps.clock_most@no}", "passed"),
    C("clock_days", "Days that pump needs", "days", steps("{clock}*{basics.people}/{useful}"), "passed"),
    C("drying", "Longest drying chain", "time", "{systems.chain_most@no}", "passed"),
    C("drying_days", "Days of drying", "days", steps("{drying}/{constants.clock}"), "passed"),
    C("days", "Days", "days", "MAX({worked},{clock_days},{drying_days})", "passed"),
    C("visits", "Visits", "count", "ROUNDUP(MAX(0,{days}-{terms.round_slack}),0)", "passed"),
    C("labor", "Labor in all, as it is paid", "time",
      "({coat_labor}+{task_labor})/{basics.productive}+{visits}*{visit_hours}", "passed"),
    C("weather", "Days with weather", "days", "{days}/(1-{exposure.lost_days})", "passed"),
    C("finish", "Finished on", "date",
      'IF({job.start}="","",WORKDAY({job.start}-1,ROUNDUP(MAX(0,{weather}-{terms.round_slack}),0),{holidays.day}))',
      "passed"),
    C("work", "Work area", "area", f"SUMPRODUCT({within('areas', '{no}')},{{areas.work}})", "passed"),
), {"exposure": At("exposures", "{basics.exposure_at}")}, "live", "card")
# fmt: on


def days(est):
    terms, job = est.terms, est.job
    for row, scenario in zip(est.rows["days"], SCENARIOS):
        at = scenario - 1
        row.live = 1.0 if terms.sound and job.sound else None
        if not row.live:
            continue
        row.crew_at = est.basics.crew_at
        row.coat_labor = sum(one.labor * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.trigger_labor = sum(one.trigger_labor * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.task_labor = est.rows["task_hours"][0].labor_all[at]
        row.visit_hours = est.rows["task_hours"][0].visit_hours_all[at]
        basics = est.basics
        row.useful = labor.useful_day(basics.people, basics.on_site, row.visit_hours, basics.productive)
        row.no_day = float(row.useful <= est.basics.people * terms.day_hours * terms.slack)
        row.passed = None if row.no_day else 1.0
        if row.passed:
            _days(est, row, scenario)


def _days(est, row, scenario):
    at, terms, job, slack = scenario - 1, est.terms, est.job, est.terms.round_slack
    row.worked = labor.steps_up((row.coat_labor + row.task_labor) / row.useful, terms.day_step, slack)
    row.clock = est.rows["pumps"][0].clock_most[at]
    row.clock_days = labor.steps_up(row.clock * est.basics.people / row.useful, terms.day_step, slack)
    row.drying = est.rows["systems"][0].chain_most[at]
    row.drying_days = labor.steps_up(row.drying / CLOCK, terms.day_step, slack)
    row.days = max(row.worked, row.clock_days, row.drying_days)
    row.visits = whole(row.days, slack)
    row.labor = (row.coat_labor + row.task_labor) / est.basics.productive + row.visits * row.visit_hours
    row.weather = labor.weather_days(row.days, est.row("exposures", est.basics.exposure_at).lost_days or 0.0)
    if job.start is not None:
        row.finish = labor.workday(job.start, whole(row.weather, slack), {one.day for one in est.rows["holidays"]})
    row.work = sum(one.work * included(one, scenario) for one in est.rows["areas"] if one.passed)
