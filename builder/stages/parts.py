"""Price by part of the work (E46): what each system that is measured costs in itself, and its part of the price.

A part bears its own paint, nozzles, wages and tasks. All else (tasks of the whole job, rental, tax, overhead,
contingency, margin) is shared in proportion to these, so that the parts add up to the price.
"""

from itertools import accumulate

from builder.records.scenarios import SCENARIOS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C

# fmt: off
SHEET = "Parts"
CALLED = ("Price", "Alternate A", "Alternate B", "Alternate C")     # a line for each scenario

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
    C("own", "Coat in itself", "money", "{paint}+{sundries}+{nozzles}+{wages}"),
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


def _of_system(block, key):
    return f"SUMPRODUCT(--({{{block}.system_at}}={{no}}),{{{block}.{key}}})"


SYSTEM_COST = Block("system_cost", SHEET, (
    C("no", "System", "count", label=lambda number: number),
    C("live", "Measured", "count", 'IF((N({system.live})=1)*(N({system.lines})>0)=1,1,"")', ""),
    C("only", "Scenario it belongs to alone, 0 the base", "count", "{system.only}"),
    C("place", "Row, in the base", "count", 'IF({only}=0,{no},"")'),
    C("area", "Area", "area", "{system.measured}"),
    C("need", "Paint it takes", "volume", _of_system("gallons", "need")),
    C("labor", "Crew hours of its own", "time",
      f"{_of_system('coat_cost', 'labor')}+{_of_system('task_cost', 'labor')}"),
    C("own", "System in itself", "money", f"{_of_system('coat_cost', 'own')}+{_of_system('task_cost', 'own')}"),
), {"system": At("systems", "{no}")}, "live", under="task_cost", section="Systems")


def _of_scenario(key):
    return f"SUMPRODUCT(--({{system_cost.only}}={{alone}}),{{system_cost.{key}}})"


SCENARIO_LINES = Block("scenario_lines", SHEET, (
    C("no", "Number", "count", label=lambda number: number),
    C("kind", "What", "text", label=lambda number: CALLED[number - 1]),
    C("alone", "As systems name it, 0 the base", "count", "IF({no}=1,0,{no})", ""),
    C("measured", "Systems measured", "count", "COUNTIF({system_cost.only},{alone})", ""),
    C("priced", "Priced", "count", 'IF(N({price.live@no})*(({measured}>0)+({no}=1))>0,1,"")', ""),
    C("place", "Row, where shown", "count", 'IF(({measured}>0)+(N({priced})>0)>0,{no},"")', ""),
    C("called", "Line", "text",
      '{kind}&IF({no}=1,"",": "&INDEX({systems.name},MATCH({alone},{system_cost.only},0)))'
      '&REPT(" and "&({measured}-1)&" more",({no}>1)*({measured}>1))', "place"),
    C("area", "Area", "area", _of_scenario("area"), "place"),
    C("need", "Paint", "volume", _of_scenario("need"), "priced"),
    C("labor", "Crew hours", "time", "{days.labor@no}-IF({no}=1,0,{days.labor@1})", "priced"),
    C("price", "Price, or that with the alternate before tax", "money",
      "IF({no}=1,{price.total@no},{price.net@no})", "priced"),
    C("less", "Less that of the base before tax", "money", "IF({no}=1,0,{price.net@1})", "priced"),
    C("share", "Share of the price", "share", 'IF({no}=1,1,"")', "priced"),
), under="system_cost", section="The whole, and each alternate")

PARTS = Block("parts", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("count", "Systems of the base", "count", "COUNT({system_cost.place})", ""),
    C("base_at", "Row of its system", "count", 'IF({no}<={count},SMALL({system_cost.place},{no}),"")', ""),
    C("other_at", "Row of its scenario", "count",
      'IF(({no}>{count})*({no}<={count}+COUNT({scenario_lines.place}))=1,SMALL({scenario_lines.place},{no}-{count}),"")',
      ""),
    C("live", "Shown", "count", 'IF(({base_at}="")*({other_at}="")=1,"",1)', ""),
    C("name", "Part of the work", "text", 'IF({base_at}="",{other.called},INDEX({systems.name},{base_at})&"")'),
    C("priced", "Priced", "count", "IF({base_at}=\"\",{other.priced},{price.live@1})"),
    C("own", "In itself", "money", "{system.own}", "base_at"),
    C("weight", "Weight: in itself, or all alike where nothing costs", "money", "{own}+(SUM({*own})=0)", "base_at"),
    C("run", "Weights up to here", "money", "SUMPRODUCT(--({*no}<={no}),{*weight})", "base_at"),
    C("share", "Share of the price", "share", 'IF({base_at}="",{other.share},{weight}/SUM({*weight}))', "priced"),
    C("price_to", "Price up to here", "money",
      'IF({base_at}="",{other.price},{price.total@1}*{run}/SUM({*weight}))', "priced"),
    C("price_from", "Price before", "money",
      'IF({base_at}="",{other.less},{price.total@1}*({run}-{weight})/SUM({*weight}))', "priced"),
    C("area", "Area", "area", 'IF({base_at}="",{other.area},{system.area})'),
    C("need", "Paint", "volume", 'IF({base_at}="",{other.need},{system.need})', "priced"),
    C("labor", "Crew hours", "time", 'IF({base_at}="",{other.labor},{system.labor})', "priced"),
), {"system": At("system_cost", "{base_at}"), "other": At("scenario_lines", "{other_at}")}, "live",
    under="scenario_lines", section="Lines as they are read: parts, the whole, alternates")

BLOCKS = (COAT_COST, TASK_COST, SYSTEM_COST, SCENARIO_LINES, PARTS)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    return {
        "coat_cost": capacity["coats"],
        "task_cost": capacity["tasks"],
        "system_cost": capacity["systems"],
        "scenario_lines": len(SCENARIOS),
        "parts": capacity["systems"] + len(SCENARIOS),
    }


def own_costs(est):
    """What each coat and each task of the base costs in itself."""
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
        row.own = row.paint + row.sundries + row.nozzles + row.wages
    day, wage = est.rows["days"][0], est.rows["cost"][0].wage
    for row, task in zip(est.rows["task_cost"], est.rows["task_hours"]):
        row.live = 1.0 if task.live and day.passed and task.system_at is not None else None
        if not row.live:
            continue
        row.system_at = task.system_at
        row.labor = task.labor[0] / est.basics.productive + day.visits * task.visit_hours[0]
        row.own = row.labor * wage + task.once_material[0] + day.visits * task.visit_material[0]


def parts(est):
    """The lines that are read: parts of the base, the whole, each alternate that is measured."""
    for row, system in zip(est.rows["system_cost"], est.rows["systems"]):
        row.live = 1.0 if system.live and system.lines else None
        if row.live:
            _system(est, row, system)
    for row in est.rows["scenario_lines"]:
        _scenario(est, row)
    base = [one for one in est.rows["system_cost"] if one.place is not None]
    others = [one for one in est.rows["scenario_lines"] if one.place is not None]
    weights = [one.own + (sum(each.own for each in base) == 0) for one in base]
    runs = list(accumulate(weights))
    for row in est.rows["parts"]:
        row.count, at = float(len(base)), row.no - 1
        if at < len(base):
            row.own, row.weight, row.run = base[at].own, weights[at], runs[at]
            _base(est, row, base[at], runs[-1])
        elif at - len(base) < len(others):
            _other(row, others[at - len(base)])


def _of(est, block, key, no):
    """Of the rows of a system that have it, the sum."""
    return sum(getattr(one, key) for one in est.rows[block] if one.live and one.system_at == no)


def _system(est, row, system):
    row.only, row.area = system.only, system.measured
    row.place = float(row.no) if system.only == 0 else None
    row.need = _of(est, "gallons", "need", row.no)
    row.labor = _of(est, "coat_cost", "labor", row.no) + _of(est, "task_cost", "labor", row.no)
    row.own = _of(est, "coat_cost", "own", row.no) + _of(est, "task_cost", "own", row.no)


def _scenario(est, row):
    price, days = est.row("price", row.no), est.rows["days"]
    row.kind, row.alone = CALLED[row.no - 1], 0.0 if row.no == 1 else float(row.no)
    own = [one for one in est.rows["system_cost"] if one.only == row.alone]
    row.measured = float(len(own))
    row.priced = 1.0 if price.live and (own or row.no == 1) else None
    row.place = float(row.no) if own or row.priced else None
    if row.place is None:
        return
    row.called, row.area = row.kind, sum(one.area for one in own)
    if row.no > 1:
        more = f" and {len(own) - 1} more" if len(own) > 1 else ""
        row.called += f": {est.judge.as_text(est.row('systems', own[0].no).name)}{more}"
    if not row.priced:
        return
    row.need = sum(one.need for one in own)
    row.labor = days[row.no - 1].labor - (days[0].labor if row.no > 1 else 0.0)
    row.price, row.less = (price.total, 0.0) if row.no == 1 else (price.net, est.rows["price"][0].net)
    row.share = 1.0 if row.no == 1 else None


def _base(est, row, own, weights):
    price = est.rows["price"][0]
    row.base_at, row.live, row.area = float(own.no), 1.0, own.area
    row.name, row.priced = est.judge.as_text(est.row("systems", own.no).name), price.live
    if row.priced:
        row.share = row.weight / weights
        row.price_to = price.total * row.run / weights
        row.price_from = price.total * (row.run - row.weight) / weights
        row.need, row.labor = own.need, own.labor


def _other(row, line):
    row.other_at, row.live, row.name, row.area = float(line.no), 1.0, line.called, line.area
    row.priced = line.priced
    if row.priced:
        row.share, row.price_to, row.price_from = line.share, line.price, line.less
        row.need, row.labor = line.need, line.labor
