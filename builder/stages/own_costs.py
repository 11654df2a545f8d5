"""What each coat, task, system and line of the base costs in itself (E46).

Wages go by work area, what is bought by coated area, access by its use. All else (tasks of the whole job, pumps, tax,
overhead, contingency, margin) is nobody's own.
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.values import same

# fmt: off
SHEET = "Parts"
OTHER = "Other"                                         # what is left where some lines name their part


COAT_COST = Block("coat_cost", SHEET, (
    C("no", "Coat", "count", label=lambda number: number),
    C("live", "In the base", "count", "IF((N({gallon.live})=1)*({gallon.only}=0)=1,1,\"\")", ""),
    C("system_at", "Row of its system", "count", "{gallon.system_at}"),
    C("paint", "Its part of the packs", "money", "IF({gallon.need}=0,0,{gallon.need}/{buy.coats_need}*{buy.cost})"),
    C("sundries", "Thinner and sundries", "money",
      "{gallon.thinner_cost}+{terms.sundries}*({paint}+{gallon.thinner_cost})"),
    C("nozzles", "Nozzles, by wear", "money", 'IF({gallon.size_at}="",0,{gallon.due}*{size.nozzle_price})'),
    C("wages", "Wages", "money", "{hour.cost}+{gallon.change_wages}"),
    C("labor", "Hours, as they are paid", "time", "{hour.labor}/{basics.productive}"),
    C("bought", "Paint, sundries and nozzles", "money", "{paint}+{sundries}+{nozzles}"),
), {"gallon": At("gallons", "{no}"), "hour": At("hours", "{no}"), "buy": At("purchases", "{gallon.lead}"),
    "size": At("nozzles", "{gallon.size_at}")}, "live")

TASK_COST = Block("task_cost", SHEET, (
    C("no", "Task", "count", label=lambda number: number),
    C("live", "Of one system", "count",
      'IF((N({task.live})=1)*(N({days.passed@1})=1)*({task.system_at}<>"")=1,1,"")', ""),
    C("system_at", "Row of its system", "count", "{task.system_at}"),
    C("labor", "Hours, base", "time", "{task.labor@1}/{basics.productive}+{days.visits@1}*{task.visit_hours@1}"),
    C("own", "Task in itself", "money",
      "{labor}*{cost.wage@1}+{task.once_material@1}+{days.visits@1}*{task.visit_material@1}"),
), {"task": At("task_hours", "{no}")}, "live", under="coat_cost", section="Tasks of one system")


# Of a system: what goes by its work area, and what by its coated area.
RATES = (("need", "Paint, a unit", "yield", "coated"), ("labor", "Crew hours, a unit", "area_time", "work"),
         ("bought", "Bought, a unit", "money_area", "coated"),
         ("worked", "Wages and tasks, a unit", "money_area", "work"))


def _of_system(block, key):
    return f"SUMPRODUCT(--({{{block}.system_at}}={{no}}),{{{block}.{key}}})"


SYSTEM_COST = Block("system_cost", SHEET, (
    C("no", "System", "count", label=lambda number: number),
    C("live", "Measured", "count", 'IF((N({system.live})=1)*(N({system.lines})>0)=1,1,"")', ""),
    C("only", "Scenario it belongs to alone, 0 the base", "count", "{system.only}"),
    C("area", "Area", "area", "{system.measured}"),
    C("need", "Paint it takes", "volume", _of_system("gallons", "need")),
    C("labor", "Crew hours of its own", "time",
      f"{_of_system('coat_cost', 'labor')}+{_of_system('task_cost', 'labor')}"),
    C("bought", "Bought for its coats", "money", _of_system("coat_cost", "bought")),
    C("worked", "Wages of its coats, and its tasks", "money",
      f"{_of_system('coat_cost', 'wages')}+{_of_system('task_cost', 'own')}"),
    *(C(f"{key}_rate", f"{title} of its {of} area", quantity, f"IF({{system.{of}}}=0,0,{{{key}}}/{{system.{of}}})")
      for key, title, quantity, of in RATES),
), {"system": At("systems", "{no}")}, "live", under="task_cost", section="Systems")

LINE_COST = Block("line_cost", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("live", "In the base", "count", 'IF(N({area.passed})=1,CHOOSE(1+({system.only}>0),1,""),"")', ""),
    C("called", "Part that it names", "text", 'CHOOSE(1+({area.part}>0),{line.part}&"",{room.part}&"")'),
    C("named", "Lines that name a part", "count", 'SUMPRODUCT(--({*called}<>""))', "", rows=1),
    C("name", "Part: as named, or its system where no line names one", "text",
      f'IF({{*named}}=0,{{system.name}},{{called}}&REPT("{OTHER}",--({{called}}="")))'),
    C("need", "Paint", "volume", "{own.need_rate}*{area.coated}"),
    C("labor", "Crew hours", "time", "{own.labor_rate}*{area.work}"),
    C("access", "Its access on site", "money", 'IF({area.access_at}="",0,{up.rate}*{area.work})'),
    C("own", "Line in itself", "money", "{own.worked_rate}*{area.work}+{own.bought_rate}*{area.coated}+{access}"),
    C("first", "First line of its part", "count",
      'IF(SUMPRODUCT(--({*name}={name}),--({*no}<{no}))=0,{no},"")'),
), {"area": At("areas", "{no}"), "line": At("takeoff", "{area.line_at}"), "room": At("rooms", "{area.room_at}"),
    "system": At("systems", "{area.system_at}"), "own": At("system_cost", "{area.system_at}"),
    "up": At("access_cost", "{area.access_at}")}, "live", under="system_cost", section="Lines of Takeoff and Rooms")

ACCESS_COST = Block("access_cost", SHEET, (
    C("no", "Access", "count", label=lambda number: number),
    C("cost", "On site, base", "money", "SUMPRODUCT(--({machines.access_no}={no}),{machines.base_cost})"),
    C("work", "Work area of the base that it is for", "area",
      "SUMPRODUCT(--({areas.access_at}={no}),{line_cost.live},{areas.work})"),
    C("rate", "A unit of that", "money_area", "IF({work}=0,0,{cost}/{work})"),
), under="line_cost", section="Access")

BLOCKS = (COAT_COST, TASK_COST, SYSTEM_COST, LINE_COST, ACCESS_COST)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    return {
        "coat_cost": capacity["coats"],
        "task_cost": capacity["tasks"],
        "system_cost": capacity["systems"],
        "line_cost": capacity["takeoff"] + 3 * capacity["rooms"],
        "access_cost": capacity["access"],
    }


def own_costs(est):
    """What each coat, task, system and line of the base costs in itself."""
    _coats(est)
    _tasks(est)
    for row, system in zip(est.rows["system_cost"], est.rows["systems"]):
        row.live = 1.0 if system.live and system.lines else None
        if row.live:
            _system(est, row, system)
    _lines(est)


def _coats(est):
    for row, gallon, hour in zip(est.rows["coat_cost"], est.rows["gallons"], est.rows["hours"]):
        row.live = 1.0 if gallon.live and gallon.only == 0 else None
        if not row.live:
            continue
        row.system_at = gallon.system_at
        buy, size = est.row("purchases", gallon.lead), est.row("nozzles", gallon.size_at)
        row.paint = gallon.need / buy.coats_need * buy.cost if gallon.need else 0.0
        row.sundries = gallon.thinner_cost + est.terms.sundries * (row.paint + gallon.thinner_cost)
        row.nozzles = gallon.due * size.nozzle_price if size else 0.0
        row.wages = hour.cost + gallon.change_wages
        row.labor = hour.labor / est.basics.productive
        row.bought = row.paint + row.sundries + row.nozzles


def _tasks(est):
    day, wage = est.rows["days"][0], est.rows["cost"][0].wage
    for row, task in zip(est.rows["task_cost"], est.rows["task_hours"]):
        row.live = 1.0 if task.live and day.passed and task.system_at is not None else None
        if not row.live:
            continue
        row.system_at = task.system_at
        row.labor = task.labor[0] / est.basics.productive + day.visits * task.visit_hours[0]
        row.own = row.labor * wage + task.once_material[0] + day.visits * task.visit_material[0]


def _of(est, block, key, no):
    """Of the rows of a system that have it, the sum."""
    return sum(getattr(one, key) for one in est.rows[block] if one.live and one.system_at == no)


def _system(est, row, system):
    row.only, row.area = system.only, system.measured
    row.need = _of(est, "gallons", "need", row.no)
    row.labor = _of(est, "coat_cost", "labor", row.no) + _of(est, "task_cost", "labor", row.no)
    row.bought = _of(est, "coat_cost", "bought", row.no)
    row.worked = _of(est, "coat_cost", "wages", row.no) + _of(est, "task_cost", "own", row.no)
    for key, _, _, of in RATES:
        whole = getattr(system, of)
        setattr(row, f"{key}_rate", getattr(row, key) / whole if whole else 0.0)


def _lines(est):
    """A line bears its share of what its system costs, and of the access that it is reached by."""
    base = [area for area in est.rows["areas"] if area.passed and est.row("systems", area.system_at).only == 0]
    for row in est.rows["access_cost"]:
        row.cost = sum(one.base_cost for one in est.rows["machines"] if one.live and one.access_no == row.no)
        row.work = sum(area.work for area in base if area.access_at == row.no)
        row.rate = row.cost / row.work if row.work else 0.0
    rows = [est.rows["line_cost"][area.no - 1] for area in base]
    entries = est.rows["takeoff"] + est.rows["rooms"] * 3  # walls, ceilings, bases
    for row in rows:
        entry = entries[row.no - 1]
        row.live, row.called = 1.0, "" if entry.part is None else est.judge.as_text(entry.part)
    named = float(sum(row.called != "" for row in rows))
    est.rows["line_cost"][0].named = named
    seen = set()
    for row, area in zip(rows, base):
        system, own = est.row("systems", area.system_at), est.row("system_cost", area.system_at)
        row.name = (row.called or OTHER) if named else system.name
        row.access = est.rows["access_cost"][area.access_at - 1].rate * area.work if area.access_at else 0.0
        row.need, row.labor = own.need_rate * area.coated, own.labor_rate * area.work
        row.own = own.worked_rate * area.work + own.bought_rate * area.coated + row.access
        row.first = None if same(row.name) in seen else float(row.no)
        seen.add(same(row.name))
