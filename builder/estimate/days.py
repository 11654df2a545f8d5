"""Days, visits, finish date and hire, for each scenario (E21)."""
from builder.estimate.constants import CLOCK
from builder.estimate.scenarios import SCENARIOS
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
        row.coat_labour = sum(one.labour * one.scenarios[at] for one in est.rows["hours"] if one.live)
        row.trigger_labour = sum(one.trigger_labour * one.scenarios[at] for one in est.rows["hours"] if one.live)
        row.task_labour = sum(one.labour[at] for one in est.rows["task_hours"] if one.live)
        row.visit_hours = sum(one.visit_hours[at] for one in est.rows["task_hours"] if one.live)
        row.useful = labor.useful_day(job.people, terms.day_hours, row.visit_hours)
        row.no_day = float(row.useful <= job.people * terms.day_hours * terms.slack)
        row.sound = None if row.no_day else 1.0
        if row.sound:
            _days(est, row, at)


def _days(est, row, at):
    terms, job, slack = est.terms, est.job, est.terms.round_slack
    row.worked = labor.steps_up((row.coat_labour + row.task_labour) / row.useful, terms.day_step, slack)
    row.clock = max((one.clock[at] for one in est.rows["pumps"] if one.live), default=0.0)
    row.clock_days = labor.steps_up(row.clock * job.people / row.useful, terms.day_step, slack)
    row.drying = max((one.chain[at] for one in est.rows["systems"] if one.live), default=0.0)
    row.drying_days = labor.steps_up(row.drying / CLOCK, terms.day_step, slack)
    row.days = max(row.worked, row.clock_days, row.drying_days)
    row.visits = whole(row.days, slack)
    row.labour = row.coat_labour + row.task_labour + row.visits * row.visit_hours
    row.weather = labor.weather_days(row.days, est.row("exposures", est.exposure_at).lost_days)
    if job.start is not None:
        row.finish = labor.workday(job.start, whole(row.weather, slack), {one.day for one in est.rows["holidays"]})
    row.work = sum(one.work * one.scenarios[at] for one in est.rows["areas"] if one.sound)


def reach_use(est):
    """Days of each lift or scaffold: its share of the work area, in steps of a day."""
    for row in est.rows["reaches"]:
        row.live = 1.0 if row.ready and est.terms.ready else None
        if not row.live:
            continue
        row.work = tuple(sum(one.work * one.scenarios[scenario - 1] for one in est.rows["areas"] if one.sound and one.reach_at == row.no)
                         for scenario in SCENARIOS)
        row.days = tuple(labor.steps_up(day.days * work / day.work, est.terms.day_step, est.terms.round_slack) if day.sound and day.work else 0.0
                         for day, work in zip(est.rows["days"], row.work))
        row.hire_cost = tuple(one * (row.hire or 0.0) for one in row.days)
