"""Price by part of the work (E46): the parts that lines name, or the systems where none does, and what each bears of
the price before tax. What is nobody's own, hours too, is shared in proportion to the rest, so that the parts add up to
it, to the cent.
"""

from itertools import accumulate

from builder.records.checklist import PARTS as MOST
from builder.records.scenarios import SCENARIOS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.cost import payable_formula
from builder.stages.own_costs import SHEET
from builder.trade.price import payable
from builder.values import same

# fmt: off
CALLED = ("Price", "Alternate A", "Alternate B", "Alternate C")     # a line for each scenario
BEFORE_TAX = " before tax"
ROOM = MOST + len(SCENARIOS)


def _of_part(key, block="line_cost"):
    return f"SUMPRODUCT(--({{line_cost.name}}={{name}}),{{{block}.{key}}})"


PART_COST = Block("part_cost", SHEET, (
    C("no", "Part", "count", label=lambda number: number),
    C("count", "Parts of the base", "count", "COUNT({line_cost.first})", ""),
    C("line_at", "First line of it", "count", 'IF({no}<={count},SMALL({line_cost.first},{no}),"")', ""),
    C("name", "Part of the work", "text", "INDEX({line_cost.name},{line_at})"),
    C("area", "Area", "area", _of_part("measured", "areas")),
    *(C(key, title, quantity, _of_part(key)) for key, title, quantity in (
        ("need", "Paint", "volume"), ("labor", "Crew hours", "time"), ("own", "In itself", "money"))),
), when="line_at", under="access_cost", section="Parts of the work")


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
      '{kind}&IF({no}=1,REPT(" before tax",--(N({price.tax@1})>0)),": "&INDEX({systems.name},'
      'MATCH({alone},{system_cost.only},0)))'
      '&REPT(" and "&({measured}-1)&" more",({no}>1)*({measured}>1))', "place"),
    C("area", "Area", "area", _of_scenario("area"), "place"),
    C("need", "Paint", "volume", _of_scenario("need"), "priced"),
    C("labor", "Crew hours", "time", "{days.labor@no}-IF({no}=1,0,{days.labor@1})", "priced"),
    C("price", "Price before tax, with the alternate", "money", "{price.net@no}", "priced"),
    C("less", "Less that of the base before tax", "money", "IF({no}=1,0,{price.net@1})", "priced"),
    C("share", "Share of the price", "share", 'IF({no}=1,1,"")', "priced"),
), under="part_cost", section="The whole, and each alternate")

PARTS = Block("parts", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("count", "Parts of the base", "count", "COUNT({part_cost.line_at})", ""),
    C("base_at", "Row of its part", "count", 'IF({no}<={count},{no},"")', ""),
    C("other_at", "Row of its scenario", "count",
      'IF(({no}>{count})*({no}<={count}+COUNT({scenario_lines.place}))=1,SMALL({scenario_lines.place},{no}-{count}),"")',
      ""),
    C("live", "Shown", "count", 'IF(({base_at}="")*({other_at}="")=1,"",1)', ""),
    C("name", "Part of the work", "text", 'IF({base_at}="",{other.called},{part.name})'),
    C("priced", "Priced", "count", "IF({base_at}=\"\",{other.priced},{price.live@1})"),
    C("own", "In itself", "money", "{part.own}", "base_at"),
    C("weight", "Weight: in itself, or all alike where nothing costs", "money", "{own}+(SUM({*own})=0)", "base_at"),
    C("run", "Weights up to here", "money", "SUMPRODUCT(--({*no}<={no}),{*weight})", "base_at"),
    C("share", "Share of the price", "share", 'IF({base_at}="",{other.share},{weight}/SUM({*weight}))', "priced"),
    C("price_to", "Price up to here", "money",
      f'IF({{base_at}}="",{{other.price}},{payable_formula("{price.net@1}*{run}/SUM({*weight})")})', "priced"),
    C("price_from", "Price before", "money",
      f'IF({{base_at}}="",{{other.less}},{payable_formula("{price.net@1}*({run}-{weight})/SUM({*weight})")})',
      "priced"),
    C("price", "Price of it", "money", "{price_to}-{price_from}", "priced"),
    C("area", "Area", "area", 'IF({base_at}="",{other.area},{part.area})'),
    C("need", "Paint", "volume", 'IF({base_at}="",{other.need},{part.need})', "priced"),
    C("labor", "Crew hours", "time",
      'IF({base_at}="",{other.labor},{part.labor}+({days.labor@1}-SUM({part_cost.labor}))*{share})', "priced"),
), {"part": At("part_cost", "{base_at}"), "other": At("scenario_lines", "{other_at}")}, "live",
    under="scenario_lines", section="Lines as they are read: parts, the whole, alternates")

BLOCKS = (PART_COST, SCENARIO_LINES, PARTS)
# fmt: on


def rows():
    """Rows of the blocks of this stage."""
    return {"part_cost": MOST, "scenario_lines": len(SCENARIOS), "parts": ROOM}


def parts(est):
    """The lines that are read: parts of the base, the whole, each alternate that is measured."""
    _part_costs(est)
    for row in est.rows["scenario_lines"]:
        _scenario(est, row)
    base = [one for one in est.rows["part_cost"] if one.line_at]
    others = [one for one in est.rows["scenario_lines"] if one.place is not None]
    weights = [one.own + (sum(each.own for each in base) == 0) for one in base]
    runs = list(accumulate(weights))
    for row in est.rows["parts"]:
        row.count, at = float(len(base)), row.no - 1
        if at < len(base):
            row.own, row.weight, row.run = base[at].own, weights[at], runs[at]
            _base(est, row, base, runs[-1])
        elif at - len(base) < len(others):
            _other(row, others[at - len(base)])


def _part_costs(est):
    lines = [one for one in est.rows["line_cost"] if one.live]
    firsts = [one for one in lines if one.first]
    for row in est.rows["part_cost"]:
        row.count = float(len(firsts))
        if row.no <= len(firsts):
            first = firsts[row.no - 1]
            row.line_at, row.name = first.first, first.name
            own = [one for one in lines if same(one.name) == same(row.name)]
            row.area = sum(est.row("areas", one.no).measured for one in own)
            row.set(**{key: sum(getattr(one, key) for one in own) for key in ("need", "labor", "own")})


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
    if row.no == 1:
        row.called += BEFORE_TAX if (price.tax or 0.0) > 0 else ""
    else:
        more = f" and {len(own) - 1} more" if len(own) > 1 else ""
        row.called += f": {est.judge.as_text(est.row('systems', own[0].no).name)}{more}"
    if not row.priced:
        return
    row.need = sum(one.need for one in own)
    row.labor = days[row.no - 1].labor - (days[0].labor if row.no > 1 else 0.0)
    row.price, row.less = price.net, 0.0 if row.no == 1 else est.rows["price"][0].net
    row.share = 1.0 if row.no == 1 else None


def _base(est, row, base, weights):
    price, cent, own = est.rows["price"][0], est.basics.cent, base[row.no - 1]
    row.base_at, row.live, row.area = float(own.no), 1.0, own.area
    row.name, row.priced = own.name, price.live
    if row.priced:
        row.share = row.weight / weights
        row.price_to, row.price_from = (
            payable(price.net * run / weights, cent, est.terms.slack) for run in (row.run, row.run - row.weight)
        )
        row.price = row.price_to - row.price_from
        shared = est.rows["days"][0].labor - sum(one.labor for one in base)
        row.need, row.labor = own.need, own.labor + shared * row.share


def _other(row, line):
    row.other_at, row.live, row.name, row.area = float(line.no), 1.0, line.called, line.area
    row.priced = line.priced
    if row.priced:
        row.share, row.price_to, row.price_from = line.share, line.price, line.less
        row.price = row.price_to - row.price_from
        row.need, row.labor = line.need, line.labor
