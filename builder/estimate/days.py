"""Days, visits, finish date and hire, for each scenario (E21)."""
from builder.estimate.constants import CLOCK
from builder.estimate.scenarios import SCENARIOS, copies, included
from builder.trade import labor
from builder.trade.packs import whole


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


def reach_use(est):
    """Days of each lift or scaffold: its share of the work area, in steps of a day."""
    for row in est.rows["reaches"]:
        row.live = 1.0 if row.ready and est.terms.ready else None
        if not row.live:
            continue
        own = [one for one in est.rows["areas"] if one.sound and one.reach_at == row.no]
        row.work = tuple(sum(one.work * included(one, scenario) for one in own) for scenario in SCENARIOS)
        row.days = tuple(labor.steps_up(day.days * work / day.work, est.terms.day_step, est.terms.round_slack) if day.sound and day.work else 0.0
                         for day, work in zip(est.rows["days"], row.work))
        row.hire_cost = tuple(one * (row.hire or 0.0) for one in row.days)
    est.rows["reaches"][0].hire_cost_all = copies(est.rows["reaches"], "hire_cost")
