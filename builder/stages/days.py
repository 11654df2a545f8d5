"""Days: labor, visits and dates of each scenario (E31, E36). The base is scheduled in full; an alternate is the base
and what its steps add.
"""

from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import included, within
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.stages.plan import whole_days
from builder.trade import labor, schedule, working_days
from builder.trade.packs import whole
from builder.trade.risk import NORMAL


# fmt: off
def steps(amount):
    """Days rounded up to the step of Terms."""
    return f"ROUNDUP(MAX(0,{amount}/{{terms.day_step}}-{{terms.round_slack}}),0)*{{terms.day_step}}"


def date(days):
    """The date of the last of so many working days; what takes no time is done on the first."""
    return f'IF({{job.start}}="","",WORKDAY(INT({{job.start}})-1,MAX(1,{days}),{{holidays.day}}))'


DAYS = Block("days", "Days", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF((N({terms.sound})=1)*(N({job.sound})=1)=1,1,"")', ""),
    C("crew_at", "Row of the crew", "count", "{basics.crew_at}"),
    C("coat_labor", "Labor of coats, in hours of work", "time",
      f"SUMPRODUCT({within('hours', '{no}')},{{hours.labor}})"),
    C("trigger_labor", "Of it at the trigger", "time",
      f"SUMPRODUCT({within('hours', '{no}')},{{hours.trigger_labor}})"),
    C("visit_hours", "Labor of tasks, each visit", "time", "{task_hours.visit_hours_all@no}"),
    C("passed", "Scheduled", "count", "{plan.passed}", ""),
    C("loads", "Loads of all pumps", "count",
      "{plan.loads}+SUMPRODUCT(--({gallons.only}={no}),{gallons.own_load})", "passed"),
    C("clean_labor", "Labor of cleaning and flushing pumps", "time",
      "{loads}*{task_hours.load_hours_all@no}+{plan.flush_labor}", "passed"),
    C("task_labor", "Labor of tasks, once, in hours of work", "time",
      "{task_hours.labor_all@no}+{clean_labor}", "passed"),
    C("added", "Gun time that its steps add", "time", "SUMPRODUCT(--({lanes.apart}={no}-1),{lanes.added})*({no}>1)",
      "passed"),
    C("alone", "Its longest system takes by itself", "time",
      "SUMPRODUCT(LARGE(({lanes.apart}={no}-1)*{lanes.alone},1))*({no}>1)", "passed"),
    C("lanes", "Both lanes end at work hour", "time",
      "MAX({plan.lanes_end},{plan.gun_from}+MAX({plan.gun_time}+{added},{alone}))", "passed"),
    C("body", "Labor before what comes last", "time",
      "{coat_labor}+{task_hours.labor_all@no}-{plan.last_labor}", "passed"),
    C("rest_from", "What comes last begins at work hour", "time",
      "MAX({lanes},{body}*{plan.pace}/{basics.people}/(1-{plan.lost}))", "passed"),
    C("work", "Done at work hour", "time",
      "{rest_from}+({plan.last_labor}+{clean_labor})*{plan.pace}/{basics.people}", "passed"),
    C("days", "Days", "days", steps("{work}/{plan.hours}"), "passed"),
    C("visits", "Visits", "count",
      f"SUM({{work_days.used}})+{whole_days('{work}')}-{whole_days('{days.work@1}')}", "passed"),
    C("labor", "Labor in all, as it is paid", "time",
      "({coat_labor}+{task_labor})/{basics.productive}+{visits}*{visit_hours}", "passed"),
    C("standing", "Standing time, all people", "time",
      "MAX(0,{work}*{basics.people}-({coat_labor}+{task_labor})*{plan.pace}/(1-{plan.lost}))", "passed"),
    C("finish", "Planned to be finished on", "date", date(whole_days("{work}")), "passed"),
    C("score", "Standard score of the promise", "number",
      'IF({terms.promise}="",0,NORMSINV({terms.promise}))', "passed"),
    C("sure", "Done at work hour, promised", "time",
      "{work}+{plan.halted}+SQRT(({work}*(EXP({score}*{plan.spread})-1))^2"
      "+{constants.gusts}*{score}^2*{plan.hours}*{plan.lost_time}/(1-{plan.open_lost}))", "passed"),
    C("promised", "Promised to be finished on", "date", date(whole_days("{sure}")), "passed"),
), when="live", form="card")
# fmt: on


def days(est):
    terms, job, tasks, plan = est.terms, est.job, est.rows["task_hours"][0], est.rows["plan"][0]
    for row, scenario in zip(est.rows["days"], SCENARIOS):
        at = scenario - 1
        row.live = 1.0 if terms.sound and job.sound else None
        if not row.live:
            continue
        row.crew_at = est.basics.crew_at
        row.coat_labor = sum(one.labor * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.trigger_labor = sum(one.trigger_labor * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.visit_hours = tasks.visit_hours_all[at]
        row.passed = plan.passed
        if row.passed:
            _days(est, row, scenario, plan)


def _days(est, row, scenario, plan):
    at, tasks, people, slack = scenario - 1, est.rows["task_hours"][0], est.basics.people, est.terms.round_slack
    own = [lane for lane in est.rows["lanes"] if scenario > 1 and lane.apart == at]
    row.loads = plan.loads + sum(one.own_load for one in est.rows["gallons"] if one.live and one.only == scenario)
    row.clean_labor = row.loads * tasks.load_hours_all[at] + plan.flush_labor
    row.task_labor = tasks.labor_all[at] + row.clean_labor
    row.added = float(sum(lane.added for lane in own))
    row.alone = float(max((lane.alone for lane in own), default=0.0))
    row.lanes = max(plan.lanes_end, plan.gun_from + max(plan.gun_time + row.added, row.alone))
    row.body = row.coat_labor + tasks.labor_all[at] - plan.last_labor
    labors = row.body * plan.pace, (plan.last_labor + row.clean_labor) * plan.pace
    row.rest_from = schedule.finish(row.lanes, labors[0], people, plan.lost, 0.0)
    row.work = schedule.finish(row.lanes, labors[0], people, plan.lost, labors[1])
    row.days = labor.steps_up(row.work / plan.hours, est.terms.day_step, slack)
    _dates(est, row, plan, at)
    row.labor = (row.coat_labor + row.task_labor) / est.basics.productive + row.visits * row.visit_hours
    busy = (row.coat_labor + row.task_labor) * plan.pace / (1 - plan.lost)
    row.standing = max(0.0, row.work * people - busy)


def _dates(est, row, plan, at):
    job, slack, listed = est.job, est.terms.round_slack, est.rows["work_days"]
    took = whole(row.work / plan.hours, slack)
    if at == 0:
        plan.took = took
        _used(est, plan, took)
        plan.too_long = float(row.work > plan.hours * (len(listed) + slack))
    base = est.rows["days"][0].work
    row.visits = sum(one.used for one in listed) + took - whole(base / plan.hours, slack)
    row.score = 0.0 if est.terms.promise is None else NORMAL.inv_cdf(est.terms.promise)
    row.sure = schedule.promised(
        row.work, plan.halted, plan.spread, row.score, plan.hours, plan.lost_time, plan.open_lost
    )
    if job.start is not None:
        off, sure = {one.day for one in est.rows["holidays"]}, whole(row.sure / plan.hours, slack)
        row.finish, row.promised = (labor.workday(int(job.start), max(1, days), off) for days in (took, sure))


def _used(est, plan, took):
    """The days on which somebody works: gun, hands, or what comes last."""
    slack = est.terms.round_slack
    hand = whole(plan.hand_end / plan.hours, slack)
    rest = working_days.first_day(plan.lanes_end, plan.hours, slack)
    for row in est.rows["work_days"]:
        row.gun = float(any(one.live and one.day <= row.no <= one.last for one in est.rows["run"]))
        row.hand = float(row.no <= hand)
        row.rest = float(rest < row.no <= took)
        row.used = float(bool(row.gun or row.hand or row.rest))
