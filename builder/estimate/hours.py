"""Hours of coats and tasks (E12, E21)."""
from builder.estimate.areas import place
from builder.estimate.scenarios import SCENARIOS, copies, included, most
from builder.records.words import BESIDE
from builder.trade import labor


def hours(est):
    for row, layer, pick, coat in zip(est.rows["hours"], est.rows["films"], est.rows["picks"], est.rows["gallons"]):
        row.live = coat.live
        if not row.live:
            continue
        row.only, row.system, row.coating = layer.only, layer.system, layer.coating
        if layer.by_hand:
            row.labour = layer.work_coats / layer.hand_rate
            row.elapsed = row.labour / layer.hands
        else:
            row.sprayed = 1.0
            row.pump_at = layer.pump_at
            row.elapsed = layer.surface_coats * pick.time
            row.labour = layer.surface_coats * pick.labour
            row.trigger = coat.applied / (1 + pick.over) * (1 + pick.drag) / pick.flow
            row.trigger_share = row.trigger / (row.elapsed * layer.guns) if row.elapsed else 0.0
        row.pace = layer.surface_coats / row.elapsed if row.elapsed else 0.0
        row.cost = row.labour * layer.wage
        row.trigger_labour = row.labour * (row.trigger_share or 0.0)
        row.trigger_cost = row.trigger_labour * layer.wage


def pump_use(est):
    """Which pumps run in each scenario."""
    for row in est.rows["pumps"]:
        if row.live:
            own = [one for one in est.rows["hours"] if one.pump_at == row.no]
            labour, row.clock = (tuple(sum(getattr(one, key) * included(one, scenario) for one in own) for scenario in SCENARIOS)
                                 for key in ("labour", "elapsed"))
            row.used = tuple(float(one > 0) for one in labour)
            row.hire_day = tuple(one * (row.hire or 0.0) for one in row.used)
    pumps = est.rows["pumps"]
    pumps[0].set(clock_most=copies(pumps, "clock", most), hire_day_all=copies(pumps, "hire_day"))


def tasks(est):
    for row, task in zip(est.rows["task_hours"], est.rows["tasks"]):
        if not task.ready:
            continue
        row.entered, row.task = 1.0, task.task
        row.rate_at = est.judge.at("rates", task.task)
        row.system_at = est.judge.at("systems", task.system) if task.system is not None else None
        system = est.row("systems", row.system_at)
        row.system_live = 1.0 if system is None else system.live or 0.0
        row.live = 1.0 if est.job.ready and est.terms.ready and row.system_live else None
        if row.live:
            _task(est, row, task, est.row("rates", row.rate_at), system)
    rows = est.rows["task_hours"]
    summed = ("labour", "visit_hours", "once_material", "visit_material")
    rows[0].set(**{f"{key}_all": copies(rows, key) for key in summed})


def _task(est, row, task, rate, system):
    """Amounts, hours and material of a task that is done once, in each scenario; of a task by visit, for one visit.

    Rates are one person's: people share their time. Typed hours, and those of a visit or a colour, are each person's (E27).
    """
    row.basis_no = place("basis", rate.basis)
    row.visits = BESIDE["basis_visits"][row.basis_no - 1]
    row.people = task.people or rate.people or 1.0
    row.sharing = row.people if BESIDE["basis_rated"][row.basis_no - 1] else 1.0
    row.scenarios = tuple(1.0 for _ in SCENARIOS) if system is None else system.scenarios
    row.area, row.edge = (tuple(_amount(est, own, key, system, scenario) for scenario in SCENARIOS)
                          for key, own in (("measured", task.area), ("perimeter", task.length)))
    row.colours = tuple(float(sum(one.live is not None for one in est.rows["purchases"] if one.scenario == scenario)) for scenario in SCENARIOS)
    length, count, each = task.length or 0.0, task.count or 0.0, rate.hours_each
    kind = int(row.basis_no) - 1
    times, material = [], []
    for area, edge, colours in zip(row.area, row.edge, row.colours):
        done = (area, edge, length, count, 0.0, 1.0, colours)[kind]
        pace = (rate.area_rate, rate.length_rate, rate.length_rate, rate.count_rate, None, None, None)[kind]
        price = (rate.area_material, rate.length_material, rate.length_material, rate.each_material, 0.0, rate.each_material, rate.each_material)[kind]
        own = labor.each_time(done, pace, row.sharing) if pace else done * (each or 0.0)
        times.append(own if task.hours is None else task.hours)
        material.append(done * (price or 0.0))
    row.each_hours = tuple(times)
    row.hours = tuple(time * row.people * flag for time, flag in zip(times, row.scenarios))
    row.material = tuple(one * flag for one, flag in zip(material, row.scenarios))
    row.labour, row.once_material = (tuple(one * (1 - row.visits) for one in all_of) for all_of in (row.hours, row.material))
    row.visit_hours, row.visit_material = (tuple(one * row.visits for one in all_of) for all_of in (row.hours, row.material))


def _amount(est, own, key, system, scenario):
    """An own amount as stated; else the system's, or that of all systems of the scenario."""
    if own is not None:
        return own
    if system is not None:
        return getattr(system, key)
    return sum(getattr(one, key) * included(one, scenario) for one in est.rows["systems"] if one.live)
