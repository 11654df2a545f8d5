"""Days: labour, visits, finish date and hire of each scenario (E21)."""
from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import included, within
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import CLOCK
from builder.trade import labor
from builder.trade.packs import whole


def steps(amount):
    """Days rounded up to the step of Terms."""
    return f"ROUNDUP(MAX(0,{amount}/{{terms.day_step}}-{{terms.round_slack}}),0)*{{terms.day_step}}"


DAYS = Block("days", "Days", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF((N({terms.ready})=1)*(N({job.ready})=1)=1,1,"")', ""),
    C("crew_at", "Row of the crew", "count", "MATCH({job.crew},{crews.known},0)"),
    C("coat_labour", "Labour of coats", "time", f"SUMPRODUCT({within('hours', '{no}')},{{hours.labour}})"),
    C("trigger_labour", "Of it at the trigger", "time", f"SUMPRODUCT({within('hours', '{no}')},{{hours.trigger_labour}})"),
    C("task_labour", "Labour of tasks, once", "time", "{task_hours.labour_all@no}"),
    C("visit_hours", "Labour of tasks, each visit", "time", "{task_hours.visit_hours_all@no}"),
    C("useful", "Labour a visit leaves", "time", "{job.people}*{terms.day_hours}-{visit_hours}"),
    C("no_day", "Visits leave no time", "count", "--({useful}<={job.people}*{terms.day_hours}*{terms.slack})"),
    C("sound", "Sound", "count", 'IF({no_day}=0,1,"")'),
    C("worked", "Days of work", "days", steps("({coat_labour}+{task_labour})/{useful}"), "sound"),
    C("clock", "Longest time of one pump on the clock", "time", "{pumps.clock_most@no}", "sound"),
    C("clock_days", "Days that pump needs", "days", steps("{clock}*{job.people}/{useful}"), "sound"),
    C("drying", "Longest drying chain", "time", "{systems.chain_most@no}", "sound"),
    C("drying_days", "Days of drying", "days", steps("{drying}/{constants.clock}"), "sound"),
    C("days", "Days", "days", "MAX({worked},{clock_days},{drying_days})", "sound"),
    C("visits", "Visits", "count", "ROUNDUP(MAX(0,{days}-{terms.round_slack}),0)", "sound"),
    C("labour", "Labour in all", "time", "{coat_labour}+{task_labour}+{visits}*{visit_hours}", "sound"),
    C("weather", "Days with weather", "days", "{days}/(1-{exposure.lost_days})", "sound"),
    C("finish", "Finished on", "date",
      'IF({job.start}="","",WORKDAY({job.start}-1,ROUNDUP(MAX(0,{weather}-{terms.round_slack}),0),{holidays.day}))', "sound"),
    C("work", "Work area", "area", f"SUMPRODUCT({within('areas', '{no}')},{{areas.work}})", "sound"),
), {"exposure": At("exposures", "MATCH({job.exposure},{exposures.known},0)")}, "live", "card")


def days(est):
    terms, job = est.terms, est.job
    for row, scenario in zip(est.rows["days"], SCENARIOS):
        at = scenario - 1
        row.live = 1.0 if terms.ready and job.ready else None
        if not row.live:
            continue
        row.crew_at = est.judge.at("crews", job.crew)
        row.coat_labour = sum(one.labour * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.trigger_labour = sum(one.trigger_labour * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.task_labour = est.rows["task_hours"][0].labour_all[at]
        row.visit_hours = est.rows["task_hours"][0].visit_hours_all[at]
        row.useful = labor.useful_day(job.people, terms.day_hours, row.visit_hours)
        row.no_day = float(row.useful <= job.people * terms.day_hours * terms.slack)
        row.sound = None if row.no_day else 1.0
        if row.sound:
            _days(est, row, scenario)


def _days(est, row, scenario):
    at, terms, job, slack = scenario - 1, est.terms, est.job, est.terms.round_slack
    row.worked = labor.steps_up((row.coat_labour + row.task_labour) / row.useful, terms.day_step, slack)
    row.clock = est.rows["pumps"][0].clock_most[at]
    row.clock_days = labor.steps_up(row.clock * job.people / row.useful, terms.day_step, slack)
    row.drying = est.rows["systems"][0].chain_most[at]
    row.drying_days = labor.steps_up(row.drying / CLOCK, terms.day_step, slack)
    row.days = max(row.worked, row.clock_days, row.drying_days)
    row.visits = whole(row.days, slack)
    row.labour = row.coat_labour + row.task_labour + row.visits * row.visit_hours
    row.weather = labor.weather_days(row.days, est.row("exposures", est.exposure_at).lost_days)
    if job.start is not None:
        row.finish = labor.workday(job.start, whole(row.weather, slack), {one.day for one in est.rows["holidays"]})
    row.work = sum(one.work * included(one, scenario) for one in est.rows["areas"] if one.sound)
