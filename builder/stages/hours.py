"""Hours of each coat (E12, E29) and of each task (E21, E27, E28, E31, E34, E47)."""

from builder.records.kinds import KINDS
from builder.records.lookups import BESIDE, place
from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import BY_SCENARIO, ONLY, TOTALS, copies, included, total
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.trade import labor
from builder.values import same

# fmt: off
HOURS = Block("hours", "Hours", results_first("no coating system elapsed labor trigger trigger_share pace cost", (
    C("no", "Coat", "count", label=lambda number: number),
    C("live", "Worked out", "count", "{gallon.live}", ""),
    C("system", "System", "text", "{coat.system}"),
    C("coating", "Coating", "text", "{coat.coating}"),
    C("only", ONLY, "count", "{coat.only}"),
    C("sprayed", "Sprayed", "count", 'IF({coat.by_hand}=1,"",1)'),
    C("pump_at", "Row of its pump", "count", "{coat.pump_at}", "sprayed"),
    C("elapsed", "On the clock", "time",
      "IF({coat.by_hand}=1,{coat.work_coats}*N({coat.hand_time})/{coat.hands},{coat.surface_coats}*{pick.time})"),
    C("labor", "Labor", "time",
      "IF({coat.by_hand}=1,{coat.work_coats}*N({coat.hand_time}),{coat.surface_coats}*{pick.labor})"),
    C("trigger", "Trigger, all guns", "time",
      "{gallon.applied}/(1+{pick.over})*(1+{pick.drag})/({pick.flow}*{constants.hour})", "sprayed"),
    C("trigger_share", "Trigger share", "share", "IF({elapsed}=0,0,{trigger}/({elapsed}*{coat.guns}))", "sprayed"),
    C("pace", "Area an hour on the clock", "rate", "IF({elapsed}=0,0,{coat.surface_coats}/{elapsed})"),
    C("cost", "Wages", "money", "{labor}*{coat.wage}"),
    C("trigger_labor", "Labor at the trigger", "time", "{labor}*N({trigger_share})"),
    C("trigger_cost", "Wages at the trigger", "money", "{trigger_labor}*{coat.wage}"),
)), {"coat": At("film", "{no}"), "pick": At("picks", "{no}"), "gallon": At("gallons", "{no}")}, "live")


def tasks_block(units):
    return judging(KINDS["tasks"], units, links={"rate": At("rates", "MATCH({row.task},{rates.known},0)")})


def _found(*keys):
    """What the takeoff gives, of the system or of all systems of the scenario: one figure, or one of two."""
    if len(keys) == 1:
        return f'IF({{system_at}}="",{{systems.{keys[0]}_all@}},{{system.{keys[0]}}})'
    whole, own = (",".join(f"{{{name % key}}}" for key in keys) for name in ("systems.%s_all@", "system.%s"))
    return f'IF({{system_at}}="",CHOOSE({{second}},{whole}),CHOOSE({{second}},{own}))'


def _amount(own, *keys):
    """An own amount as stated, else the share of what was found."""
    return f'IF({{task.{own}}}="",{{share}}*{_found(*keys)},{{task.{own}}})'


# Of one person (E27), from the ground (E28).
TIMES = ("CHOOSE({basis_no},{area@}*{slow@}/{rate.area_rate},{edge@}*{edge_slow@}/{rate.length_rate},"
         "{edge@}*{edge_slow@}/{rate.length_rate},{pieces@}*{pieces_slow@}/{rate.count_rate},"
         "0,{rate.hours_each},{rate.hours_each},"
         "{disturbed}/{rate.area_rate})")
MATERIALS = ("CHOOSE({basis_no},{area@}*{rate.area_material},{edge@}*{rate.length_material},{edge@}"
             "*{rate.length_material},"
             "{pieces@}*{rate.each_material},0,{rate.each_material},{rate.each_material},"
             "{disturbed}*{rate.area_material})")

TASK_HOURS = Block("task_hours", "Task hours", results_first("no task hours material people", (
    C("no", "Task", "count", label=lambda number: number),
    C("sound", "Entry without fault", "count", "{task.sound}", ""),
    C("task", "What", "text", "{task.task}", "sound"),
    C("rate_at", "Row of its rate", "count", "MATCH({task.task},{rates.known},0)", "sound"),
    C("system_at", "Row of its system", "count", 'IF({task.system}="","",MATCH({task.system},{systems.known},0))',
      "sound"),
    C("system_live", "System worked out", "count", 'IF({system_at}="",1,N({system.live}))', "sound"),
    C("live", "Worked out", "count", 'IF(({system_live}=1)*(N({job.sound})=1)*(N({terms.sound})=1)=1,1,"")', "sound"),
    C("basis_no", "Number of its basis", "count", "MATCH({rate.basis},{words.basis},0)"),
    C("visits", "By visit", "count", "INDEX({words.basis_visits},{basis_no})"),
    C("by_load", "By load of a pump", "count", "INDEX({words.basis_loads},{basis_no})"),
    C("loads", "Hours by load", "count", '{by_load}*({task.hours}="")'),
    C("when_no", "Of no system: 1 first, 2 last, 1+2 alongside", "count",
      '({system_at}="")*IF({rate.when}="",1,MATCH({rate.when},{words.when},0))'),
    C("people", "People", "count", 'IF({task.people}="",MAX(1,{rate.people}),{task.people})'),
    C("sharing", "People who share the time of its rate", "count",
      "IF(INDEX({words.basis_rated},{basis_no})=1,{people},1)"),
    C("measures", "Lines are measured, and old paint is disturbed where it is for that", "count",
      '(IF({system_at}="",SUM({systems.lines}),{system.lines})>0)*IF(INDEX({words.basis_contained},{basis_no})=1,'
      "{basics.contained},1)"),
    C("scenarios", "In", "count", '{measures}*IF({system_at}="",1,({system.only}=0)+({system.only}={@}))',
      **BY_SCENARIO),
    C("second", "Second choice of its amount, 1 or 2", "count",
      '1+({task.amount_from}="coated area")+({task.amount_from}="line length")'),
    C("share", "Share of its amount", "share", 'IF({task.share}="",1,{task.share})'),
    C("area", "Area", "area", _amount("area", "measured", "coated"), **BY_SCENARIO),
    C("edge", "Length", "length", _amount("length", "perimeter", "run"), **BY_SCENARIO),
    C("pieces_found", "Openings found", "number", _found("opened"), **BY_SCENARIO),
    C("pieces", "Number", "number", 'IF({task.count}="",{share}*{pieces_found@},{task.count})', **BY_SCENARIO),
    C("named", "Named on the bid", "count", '--({rate.named}<>"no")'),
    C("heeds", "Slower up high", "count", '--({rate.access}="yes")'),
    C("slow", "Slower by access, its lines together", "number", f"1+{{heeds}}*({_found('slow')}-1)", **BY_SCENARIO),
    C("by_line", "Slower each opening by its own line", "count", '({task.length}="")*({second}=1)'),
    C("edge_slow", "Slower by access, its length", "number",
      f"(1-{{by_line}})*{{slow@}}+{{by_line}}*(1+{{heeds}}*({_found('edge_slow')}-1))", **BY_SCENARIO),
    C("pieces_slow", "Slower by access, its openings", "number",
      f"1+{{heeds}}*({{task.count}}=\"\")*({_found('open_slow')}-1)", **BY_SCENARIO),
    C("disturbed", "Old paint disturbed", "area", 'IF({task.area}="",{share}*{basics.disturbed},{task.area})'),
    C("by_rate", "Hours by its rate", "time", TIMES, **BY_SCENARIO),
    C("hours", "Hours, all people", "time",
      'IF({task.hours}="",{by_rate@}/{sharing},{task.hours})*{people}*{scenarios@}', **BY_SCENARIO),
    C("material", "Material", "money", f"{MATERIALS}*{{scenarios@}}", **BY_SCENARIO),
    C("pace", "Of stated hours the part that is work, else all", "share",
      'IF({task.hours}="",1,{basics.productive})'),
    C("labor", "Labor, once, in hours of work", "time", "{hours@}*(1-{visits}-{loads})*{pace}", **BY_SCENARIO),
    C("lane_labor", "Labor, once, in its scenario", "time",
      'IF({system_at}="",{labor@1},MAX({labor@1:labor@4}))'),
    C("visit_hours", "Labor a visit", "time", "{hours@}*{visits}", **BY_SCENARIO),
    C("once_material", "Material, once", "money", "{material@}*(1-{visits}-{by_load})", **BY_SCENARIO),
    C("visit_material", "Material a visit", "money", "{material@}*{visits}", **BY_SCENARIO),
    total("labor", "Labor, once, all tasks", "time"), total("visit_hours", "Labor a visit, all tasks", "time"),
    C("load_hours_all", "Labor a load, all tasks", "time", "SUMPRODUCT({*hours@},{*loads})", **TOTALS),
    total("once_material", "Material, once, all tasks", "money"),
    total("visit_material", "Material a visit, all tasks", "money"),
    C("load_material_all", "Material a load, all tasks", "money", "SUMPRODUCT({*material@},{*by_load})", **TOTALS),
)), {"task": At("tasks", "{no}"), "rate": At("rates", "{rate_at}"), "system": At("systems", "{system_at}")}, "live")
# fmt: on


def hours(est):
    for row, coat, pick, gallon in zip(est.rows["hours"], est.rows["film"], est.rows["picks"], est.rows["gallons"]):
        row.live = gallon.live
        if not row.live:
            continue
        row.only, row.system, row.coating = coat.only, coat.system, coat.coating
        if coat.by_hand:
            row.labor = coat.work_coats * coat.hand_time
            row.elapsed = row.labor / coat.hands
        else:
            row.sprayed = 1.0
            row.pump_at = coat.pump_at
            row.elapsed = coat.surface_coats * pick.time
            row.labor = coat.surface_coats * pick.labor
            row.trigger = gallon.applied / (1 + pick.over) * (1 + pick.drag) / pick.flow
            row.trigger_share = row.trigger / (row.elapsed * coat.guns) if row.elapsed else 0.0
        row.pace = coat.surface_coats / row.elapsed if row.elapsed else 0.0
        row.cost = row.labor * coat.wage
        row.trigger_labor = row.labor * (row.trigger_share or 0.0)
        row.trigger_cost = row.trigger_labor * coat.wage


def tasks(est):
    for row, task in zip(est.rows["task_hours"], est.rows["tasks"]):
        if not task.sound:
            continue
        row.sound, row.task = 1.0, task.task
        row.rate_at = est.judge.at("rates", task.task)
        row.system_at = est.judge.at("systems", task.system) if task.system is not None else None
        system = est.row("systems", row.system_at)
        row.system_live = 1.0 if system is None else system.live or 0.0
        row.live = 1.0 if est.job.sound and est.terms.sound and row.system_live else None
        if row.live:
            _task(est, row, task, est.row("rates", row.rate_at), system)
    rows = est.rows["task_hours"]
    summed = ("labor", "visit_hours", "once_material", "visit_material")
    rows[0].set(**{f"{key}_all": copies(rows, key) for key in summed})
    live = [row for row in rows if row.live]
    rows[0].set(
        load_hours_all=tuple(sum(row.hours[at] * row.loads for row in live) for at, _ in enumerate(SCENARIOS)),
        load_material_all=tuple(sum(row.material[at] * row.by_load for row in live) for at, _ in enumerate(SCENARIOS)),
    )


def _task(est, row, task, rate, system):
    """Amounts, hours and material of a task that is done once, in each scenario; of a task by visit, for one visit.

    Rates are one person's, of an hour of work: people share their time. Typed hours, and those of a visit or a color,
    are each person's (E27).
    """
    row.basis_no = place("basis", rate.basis)
    row.visits, row.by_load = (BESIDE[f"basis_{key}"][row.basis_no - 1] for key in ("visits", "loads"))
    row.loads = row.by_load * (task.hours is None)
    row.when_no = place("when", rate.when, 1) * float(system is None)
    row.people = task.people or rate.people or 1.0
    row.sharing = row.people if BESIDE["basis_rated"][row.basis_no - 1] else 1.0
    row.measures = float(any(one.lines for one in est.rows["systems"] if system in (None, one)))
    if BESIDE["basis_contained"][row.basis_no - 1]:
        row.measures *= est.basics.contained
    row.scenarios = tuple(row.measures * (1.0 if system is None else flag) for flag in _flags(system))
    wanted = task.amount_from and same(task.amount_from)
    row.second = 2.0 if wanted in ("coated area", "line length") else 1.0
    row.share = 1.0 if task.share is None else task.share
    for key, own, figures in (
        ("area", task.area, ("measured", "coated")),
        ("edge", task.length, ("perimeter", "run")),
        ("pieces", task.count, ("opened", "opened")),
    ):
        found = _found_in(est, figures[int(row.second) - 1], system)
        amounts = tuple(row.share * one if own is None else own for one in found)
        setattr(row, key, amounts)
    row.pieces_found = _found_in(est, "opened", system)
    _slower(est, row, task, rate, system)
    row.disturbed = row.share * est.basics.disturbed if task.area is None else task.area
    each = rate.hours_each
    kind = int(row.basis_no) - 1
    by_rate, material = [], []
    for at, (area, edge, pieces) in enumerate(zip(row.area, row.edge, row.pieces)):
        done = (area, edge, edge, pieces, 0.0, 1.0, 1.0, row.disturbed)[kind]
        pace = (rate.area_rate, rate.length_rate, rate.length_rate, rate.count_rate, None, None, None, rate.area_rate)[
            kind
        ]
        price = (
            rate.area_material,
            rate.length_material,
            rate.length_material,
            rate.each_material,
            0.0,
            rate.each_material,
            rate.each_material,
            rate.area_material,
        )[kind]
        slow = (row.slow, row.edge_slow, row.edge_slow, row.pieces_slow, None, None, None, None)[kind]
        by_rate.append(labor.each_time(done * (slow[at] if slow else 1.0), pace, 1) if pace else done * (each or 0.0))
        material.append(done * (price or 0.0))
    row.by_rate = tuple(by_rate)
    each_hours = (time / row.sharing if task.hours is None else task.hours for time in by_rate)
    row.hours = tuple(time * row.people * flag for time, flag in zip(each_hours, row.scenarios))
    row.material = tuple(one * flag for one, flag in zip(material, row.scenarios))
    row.pace = 1.0 if task.hours is None else est.basics.productive
    row.labor = tuple(one * (1 - row.visits - row.loads) * row.pace for one in row.hours)
    row.lane_labor = row.labor[0] if system is None else max(row.labor)
    row.once_material = tuple(one * (1 - row.visits - row.by_load) for one in row.material)
    row.visit_hours, row.visit_material = (
        tuple(one * row.visits for one in all_of) for all_of in (row.hours, row.material)
    )


def _slower(est, row, task, rate, system):
    """What access does to its time: that of its lines together, or of each opening by its own line (E28)."""
    row.named = float(same(rate.named) != "no")
    row.heeds = float(same(rate.access) == "yes")
    row.by_line = float(task.length is None and row.second == 1)

    def factors(key, heeds):
        return tuple(factor if heeds else 1.0 for factor in _found_in(est, key, system))

    row.slow = factors("slow", row.heeds)
    row.edge_slow = factors("edge_slow", row.heeds) if row.by_line else row.slow
    row.pieces_slow = factors("open_slow", row.heeds and task.count is None)


def _flags(system):
    return tuple(1.0 if system is None else included(system, scenario) for scenario in SCENARIOS)


def _found_in(est, key, system):
    """What the takeoff gives in each scenario, of the system or of all systems."""
    if system is None:
        return getattr(est.rows["systems"][0], f"{key}_all")
    return tuple(getattr(system, key) for _ in SCENARIOS)
