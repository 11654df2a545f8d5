"""Hours of each coat (E12) and of each task (E21, E27)."""
from builder.records.kinds import KINDS
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.sheets.stock import ONLY, SCENARIOS, total, within

HOURS = Block("hours", "Hours", results_first("no coating system elapsed labour trigger trigger_share pace cost", (
    C("no", "Coat", "count", label=lambda number: number),
    C("live", "Worked out", "count", "{gallon.live}", ""),
    C("system", "System", "text", "{film.system}"),
    C("coating", "Coating", "text", "{film.coating}"),
    C("only", ONLY, "count", "{film.only}"),
    C("sprayed", "Sprayed", "count", 'IF({film.by_hand}=1,"",1)'),
    C("pump_at", "Row of its pump", "count", "{film.pump_at}", "sprayed"),
    C("elapsed", "On the clock", "time", "IF({film.by_hand}=1,{film.work_coats}/N({film.hand_rate})/{film.hands},{film.surface_coats}*{pick.time})"),
    C("labour", "Labour", "time", "IF({film.by_hand}=1,{film.work_coats}/N({film.hand_rate}),{film.surface_coats}*{pick.labour})"),
    C("trigger", "Trigger, all guns", "time", "{gallon.applied}/(1+{pick.over})*(1+{pick.drag})/({pick.flow}*{constants.hour})", "sprayed"),
    C("trigger_share", "Trigger share", "share", "IF({elapsed}=0,0,{trigger}/({elapsed}*{film.guns}))", "sprayed"),
    C("pace", "Area an hour on the clock", "rate", "IF({elapsed}=0,0,{film.surface_coats}/{elapsed})"),
    C("cost", "Wages", "money", "{labour}*{film.wage}"),
    C("trigger_labour", "Labour at the trigger", "time", "{labour}*N({trigger_share})"),
    C("trigger_cost", "Wages at the trigger", "money", "{trigger_labour}*{film.wage}"),
)), {"film": At("films", "{no}"), "pick": At("picks", "{no}"), "gallon": At("gallons", "{no}")}, "live")


def tasks(units):
    return judging(KINDS["tasks"], units, links={"rate": At("rates", "MATCH({row.task},{rates.known},0)")})


def _amount(own, key):
    """An own amount as stated; else the system's, or that of all systems of the scenario."""
    whole_job = f"SUMPRODUCT({within('systems', '{@}')},{{systems.{key}}})"
    return f'IF({{task.{own}}}<>"",{{task.{own}}},IF({{system_at}}="",{whole_job},{{system.{key}}}))'


# Of each person: people share the time of a rate, which is one person's (E27).
TIMES = ("CHOOSE({basis_no},{area@}/{rate.area_rate},{edge@}/{rate.length_rate},{task.length}/{rate.length_rate},"
         "{task.count}/{rate.count_rate},0,{rate.hours_each},{colours@}*{rate.hours_each})/{sharing}")
MATERIALS = ("CHOOSE({basis_no},{area@}*{rate.area_material},{edge@}*{rate.length_material},{task.length}*{rate.length_material},"
             "{task.count}*{rate.each_material},0,{rate.each_material},{colours@}*{rate.each_material})")

TASK_HOURS = Block("task_hours", "Task hours", results_first("no task hours material people", (
    C("no", "Task", "count", label=lambda number: number),
    C("entered", "Entered without fault", "count", "{task.ready}", ""),
    C("task", "What", "text", "{task.task}", "entered"),
    C("rate_at", "Row of its rate", "count", "MATCH({task.task},{rates.known},0)", "entered"),
    C("system_at", "Row of its system", "count", 'IF({task.system}="","",MATCH({task.system},{systems.known},0))', "entered"),
    C("system_live", "System worked out", "count", 'IF({system_at}="",1,N({system.live}))', "entered"),
    C("live", "Worked out", "count", 'IF(({system_live}=1)*(N({job.ready})=1)*(N({terms.ready})=1)=1,1,"")', "entered"),
    C("basis_no", "Number of its basis", "count", "MATCH({rate.basis},{words.basis},0)"),
    C("visits", "By visit", "count", "INDEX({words.basis_visits},{basis_no})"),
    C("people", "People", "count", 'IF({task.people}="",MAX(1,{rate.people}),{task.people})'),
    C("sharing", "People who share the time of its rate", "count", "IF(INDEX({words.basis_rated},{basis_no})=1,{people},1)"),
    C("scenarios", "In", "count", 'IF({system_at}="",1,{system.scenarios@})', **SCENARIOS),
    C("area", "Area", "area", _amount("area", "measured"), **SCENARIOS),
    C("edge", "Perimeter", "length", _amount("length", "perimeter"), **SCENARIOS),
    C("colours", "Colours", "count", "SUMPRODUCT(--({purchases.scenario}={@}),{purchases.live})", **SCENARIOS),
    C("each_hours", "Hours of each person", "time", f'IF({{task.hours}}="",{TIMES},{{task.hours}})', **SCENARIOS),
    C("hours", "Hours, all people", "time", "{each_hours@}*{people}*{scenarios@}", **SCENARIOS),
    C("material", "Material", "money", f"{MATERIALS}*{{scenarios@}}", **SCENARIOS),
    C("labour", "Labour, once", "time", "{hours@}*(1-{visits})", **SCENARIOS),
    C("visit_hours", "Labour a visit", "time", "{hours@}*{visits}", **SCENARIOS),
    C("once_material", "Material, once", "money", "{material@}*(1-{visits})", **SCENARIOS),
    C("visit_material", "Material a visit", "money", "{material@}*{visits}", **SCENARIOS),
    total("labour", "Labour, once, all tasks", "time"), total("visit_hours", "Labour a visit, all tasks", "time"),
    total("once_material", "Material, once, all tasks", "money"),
    total("visit_material", "Material a visit, all tasks", "money"),
)), {"task": At("tasks", "{no}"), "rate": At("rates", "{rate_at}"), "system": At("systems", "{system_at}")}, "live")
