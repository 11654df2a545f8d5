"""Cost and Price of each scenario (E22, E31, E32, E42-E44, E48)."""

from math import floor

from builder.records.checklist import ITEMS_OF_COST
from builder.records.lookups import place
from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import included, within
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.trade import labor, risk
from builder.trade import price as pricing
from builder.trade.labor import steps_up


# fmt: off
def _own(key):
    """A job's own figure before that of the terms."""
    return f'IF({{job.{key}}}="",{{terms.{key}}},{{job.{key}}})'


def _sum(block, key):
    """Of the rows that belong to the scenario."""
    return f"SUMPRODUCT({within(block, '{no}')},{{{block}.{key}}})"


COST = Block("cost", "Cost", results_first("no cost materials wages rental tax direct overhead coated voc_mass", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", "{day.passed}", ""),
    C("paint", "Coatings, by packs", "money", "SUMPRODUCT(--({purchases.scenario}={no}),{purchases.cost})"),
    C("thinner", "Thinner", "money", _sum("gallons", "thinner_cost")),
    C("nozzles", "Nozzles, by wear", "money", "{sizes.wear_cost_all@no}"),
    C("nozzles_cash", "Nozzles, cash at the counter (not added)", "money", "{sizes.cash_all@no}"),
    C("guards", "Guards to buy", "money", "{guard_buys.cash_all@no}"),
    C("task_material", "Material of tasks", "money",
      "{task_hours.once_material_all@no}+{day.visits}*{task_hours.visit_material_all@no}"
      "+{day.loads}*{task_hours.load_material_all@no}"),
    C("sundries", "Sundries", "money", "{terms.sundries}*({paint}+{thinner})"),
    C("materials", "Materials", "money", "{paint}+{thinner}+{nozzles}+{guards}+{task_material}+{sundries}"),
    C("wage", "Wage with burden, tasks", "money_hour", 'IF({job.wage}="",{crew.wage},{job.wage})*{basics.wage_share}'),
    C("coat_wages", "Wages, coats", "money", _sum("hours", "cost")),
    C("task_wages", "Wages, tasks", "money",
      "({day.task_labor}/{basics.productive}+{day.visits}*{day.visit_hours})*{wage}"),
    C("trigger_wages", "Of the wages of coats, at the trigger", "money", _sum("hours", "trigger_cost")),
    C("change_wages", "Wages, changing nozzles", "money", _sum("gallons", "change_wages")),
    C("standing_wages", "Wages, standing time that is paid", "money",
      "{day.standing}/{basics.productive}*{wage}*(0+{terms.standing_paid})"),
    C("travel_hours", "Hours of travel, all people", "time",
      "{day.visits}*{basics.people}*2*{job.travel_time}"),
    C("travel_wages", "Wages, travel", "money", "{travel_hours}*{wage}"),
    C("wages", "Wages", "money",
      "{coat_wages}+{task_wages}+{change_wages}+{standing_wages}+{travel_wages}"),
    C("travel", "Vehicles and what travel costs once", "money",
      "{basics.travels}*({day.visits}*{basics.vehicles}*2*{job.distance}*{terms.travel_rate}+{terms.travel_lump})"),
    C("pump_rental", "Pumps on site", "money", "{machines.pump_cost@no}"),
    C("access_rental", "Lifts and scaffold on site", "money", "{machines.access_cost@no}"),
    C("rental", "Rental", "money", "{pump_rental}+{access_rental}"),
    C("taxed", "Purchases that are taxed", "money",
      "{materials}+{rental}*(MATCH({terms.purchase_tax_base},{words.tax_base},0)-1)"),
    C("tax", "Tax on purchases", "money", "{terms.purchase_tax}*{taxed}"),
    C("direct", "Direct cost", "money", "{materials}+{wages}+{rental}+{travel}+{tax}"),
    C("overhead_share", "Overhead, share", "share", _own("overhead")),
    C("overhead", "Overhead", "money",
      "CHOOSE(MATCH({terms.overhead_basis},{words.overhead_basis},0),{overhead_share}*{direct},{terms.overhead_hour}"
      "*({day.labor}+{travel_hours}),0)"),
    C("cost", "Cost", "money", "{direct}+{overhead}"),
    C("items", "Cost, added up item by item", "money", f"SUM({','.join(f'{{{key}}}' for key in ITEMS_OF_COST)})"),
    C("voc_mass", "VOC given off, at most", "mass", _sum("gallons", "voc_mass")),
    C("coated", "Coated area", "area", "{systems.coated_all@no}"),
)), {"day": At("days", "{no}"), "crew": At("crews", "{day.crew_at}")}, "live", "card")

def _chance(cost):
    """Chance that the job costs more (E23); 0 or 1 where nothing is uncertain."""
    return (f"IF(({cost}>{{outlook.certain}})*({{outlook.log_sigma}}>0)=0,--({{outlook.expected}}>{cost}),"
            f"NORMDIST(-(LN(MAX({cost}-{{outlook.certain}},0)/{{outlook.mean}})+{{outlook.log_sigma}}^2/2)"
            "/{outlook.log_sigma},0,1,1))")


def _told(chance):
    """A chance in whole percent; one that is small is not called none."""
    return f'IF({{{chance}}}<1/100,"under 1 %",INT({{{chance}}}*100+1/2)&" %")'


def payable_formula(amount):
    """An amount in whole cents, half of one rounded up (E43)."""
    return f"INT(({amount})/{{basics.cent}}+1/2+{{terms.slack}})*{{basics.cent}}"


BASIS_OF_SALES = "MATCH({terms.overhead_basis},{words.overhead_basis},0)-1=2"

PRICE = Block("price", "Price workings",
              results_first("no total net tax difference deposit stage last per_area told_over told_margin", (
    C("no", "Number", "count", label=lambda number: number),
    C("used", "Has a system of its own", "count",
      "IF({no}=1,1,--(COUNTIF({systems.only},{no})>0))", ""),
    C("costed", "Cost worked out", "count", "{outlay.live}", ""),
    C("margin", "Margin", "share", _own("margin"), "costed"),
    C("of_sales", "Overhead, share of the price", "share", f"{{outlay.overhead_share}}*({BASIS_OF_SALES})", "costed"),
    C("refused", "Leaves no price", "count", "--({margin}+{of_sales}>=1-{terms.slack})", "costed"),
    C("live", "Priced", "count", 'IF(({checks.stops}=0)*({used}=1)=1,1,"")', ""),
    C("cost", "Cost", "money", "{outlay.cost}"),
    C("contingency", "Contingency, by Risk or your own share", "money",
      'IF({job.contingency}="",{outlook.contingency},{cost}*{job.contingency})'),
    C("contingency_share", "Contingency, share of cost", "share", "IF({cost}=0,0,{contingency}/{cost})"),
    C("protected", "Cost with contingency", "money", "{cost}+{contingency}"),
    C("asked", "With margin", "money", "{protected}/(1-{margin}-{of_sales})"),
    C("minimum", "Minimum charge", "money", _own("minimum")),
    C("step", "Rounded up to", "money", _own("rounding")),
    C("net", "Price before tax", "money",
      payable_formula("ROUNDUP(MAX({asked},{minimum})/{step}-{terms.round_slack},0)*{step}")),
    C("tax_share", "Sales tax, share", "share", _own("sales_tax")),
    C("tax", "Sales tax", "money", payable_formula("{net}*{tax_share}")),
    C("total", "Price", "money", "{net}+{tax}"),
    C("allowed", "Deposit allowed at most", "money",
      'MIN(IF({terms.deposit_cap}="",{total},{total}*{terms.deposit_cap}),'
      'IF({terms.deposit_cap_amount}="",{total},{terms.deposit_cap_amount}))'),
    C("deposit", "Deposit", "money",
      payable_formula("INT(MIN({total}*{terms.deposit},{allowed})/{step}+{terms.round_slack})*{step}")),
    C("stage", "Each payment but the last", "money",
      payable_formula("INT(({total}-{deposit})/{terms.stages}/{step}+{terms.round_slack})*{step}")),
    C("last", "Last payment", "money", "{total}-{deposit}-({terms.stages}-1)*{stage}"),
    C("difference", "More than the base, before tax", "money", "{net}-INDEX({price.net},1,1)"),
    C("markup", "Markup that equals the margin", "share", "{margin}/(1-{margin})"),
    C("break_even", "Break-even price", "money", "{cost}/(1-{of_sales})"),
    C("chance_over", "Chance that the job costs more than its price", "share", _chance("{pays}")),
    C("pays", "Cost that the price pays, overhead of sales taken off", "money", "{net}*(1-{of_sales})"),
    C("kept", "Cost that leaves the margin whole", "money", "{net}*(1-{margin}-{of_sales})"),
    C("told_over", "Chance that it costs more than it brings in", "text", _told("chance_over")),
    C("told_margin", "Chance that it falls short of the margin", "text", _told("chance_margin")),
    C("chance_margin", "Chance that the margin is missed", "share", _chance("{kept}")),
    C("goes_coatings", "In the price: coatings and thinner", "money", "{outlay.paint}+{outlay.thinner}"),
    C("goes_material", "In the price: nozzles, guards and other material", "money",
      "{outlay.nozzles}+{outlay.guards}+{outlay.task_material}+{outlay.sundries}"),
    C("goes_wages", "In the price: wages", "money", "{outlay.wages}-{outlay.travel_wages}"),
    C("goes_travel", "In the price: travel of people and vehicles", "money", "{outlay.travel_wages}+{outlay.travel}"),
    C("goes_rental", "In the price: rental", "money", "{outlay.rental}"),
    C("goes_tax", "In the price: tax on purchases", "money", "{outlay.tax}"),
    C("goes_overhead", "In the price: overhead", "money", "{outlay.overhead}+{net}*{of_sales}"),
    C("goes_contingency", "In the price: contingency", "money", "{contingency}"),
    C("goes_margin", "In the price: margin and rounding", "money", "{net}-SUM({goes_coatings:goes_contingency})"),
    C("per_area", "Price per coated area", "money_area", "IF({outlay.coated}=0,0,{net}/{outlay.coated})"),
)), {"outlay": At("cost", "{no}"), "outlook": At("risk", "{no}")}, "live", "card")
# fmt: on


def costs(est):
    terms, job, tasks = est.terms, est.job, est.rows["task_hours"][0]
    for row, day, scenario in zip(est.rows["cost"], est.rows["days"], SCENARIOS):
        at = scenario - 1
        row.live = day.passed
        if not row.live:
            continue
        row.paint = sum(one.cost for one in est.rows["purchases"] if one.live and one.scenario == scenario)
        row.thinner = sum(one.thinner_cost * included(one, scenario) for one in est.rows["gallons"] if one.live)
        row.nozzles = est.rows["sizes"][0].wear_cost_all[at]
        row.nozzles_cash = est.rows["sizes"][0].cash_all[at]
        row.guards = est.rows["guard_buys"][0].cash_all[at]
        row.task_material = tasks.once_material_all[at] + day.visits * tasks.visit_material_all[at]
        row.task_material += day.loads * tasks.load_material_all[at]
        row.sundries = terms.sundries * (row.paint + row.thinner)
        row.materials = row.paint + row.thinner + row.nozzles + row.guards + row.task_material + row.sundries
        crew = est.row("crews", day.crew_at)
        row.wage = (crew.wage if job.wage is None else job.wage) * est.basics.wage_share
        row.coat_wages = sum(one.cost * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.task_wages = (day.task_labor / est.basics.productive + day.visits * day.visit_hours) * row.wage
        row.trigger_wages = sum(one.trigger_cost * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.change_wages = sum(one.change_wages * included(one, scenario) for one in est.rows["gallons"] if one.live)
        standing = day.standing / est.basics.productive
        row.standing_wages = standing * row.wage * (terms.standing_paid or 0.0)
        row.travel_hours = labor.travel(day.visits, est.basics.people, job.travel_time or 0.0)
        row.travel_wages = row.travel_hours * row.wage
        row.wages = row.coat_wages + row.task_wages + row.change_wages + row.standing_wages + row.travel_wages
        way = labor.travel(day.visits, est.basics.vehicles, job.distance or 0.0)
        row.travel = est.basics.travels * (way * (terms.travel_rate or 0.0) + (terms.travel_lump or 0.0))
        machines = est.rows["machines"][0]
        row.pump_rental, row.access_rental = machines.pump_cost[at], machines.access_cost[at]
        row.rental = row.pump_rental + row.access_rental
        row.taxed = row.materials + row.rental * (place("tax_base", terms.purchase_tax_base) - 1)
        row.tax = terms.purchase_tax * row.taxed
        row.direct = row.materials + row.wages + row.rental + row.travel + row.tax
        row.overhead_share = terms.overhead if job.overhead is None else job.overhead
        hours = day.labor + row.travel_hours
        row.overhead = (row.overhead_share * row.direct, terms.overhead_hour * hours, 0.0)[
            place("overhead_basis", terms.overhead_basis) - 1
        ]
        row.cost = row.direct + row.overhead
        row.items = sum(getattr(row, key) for key in ITEMS_OF_COST)
        row.voc_mass = sum(one.voc_mass * included(one, scenario) for one in est.rows["gallons"] if one.live)
        row.coated = est.rows["systems"][0].coated_all[at]


def margins(est):
    """What the price is to hold beside cost, and whether that leaves a price at all."""
    terms, job = est.terms, est.job
    for row, cost, scenario in zip(est.rows["price"], est.rows["cost"], SCENARIOS):
        row.used = float(scenario == 1 or any(one.only == scenario for one in est.rows["systems"]))
        row.costed = cost.live
        if not row.costed:
            continue
        row.margin = terms.margin if job.margin is None else job.margin
        row.of_sales = cost.overhead_share * float(place("overhead_basis", terms.overhead_basis) == 3)
        row.refused = float(row.margin + row.of_sales >= 1 - terms.slack)


def prices(est):
    """The price; blank while a check stops it."""
    terms, job = est.terms, est.job
    base, cent = est.rows["price"][0], est.basics.cent
    for row, cost, outlook in zip(est.rows["price"], est.rows["cost"], est.rows["risk"]):
        row.live = 1.0 if est.checks.stops == 0 and row.used else None
        if not row.live:
            continue
        row.cost = cost.cost
        row.contingency = outlook.contingency if job.contingency is None else row.cost * job.contingency
        row.contingency_share = row.contingency / row.cost if row.cost else 0.0
        row.protected = row.cost + row.contingency
        row.asked = pricing.selling_price(row.protected, row.margin, row.of_sales)
        row.minimum = terms.minimum if job.minimum is None else job.minimum
        row.step = step = terms.rounding if job.rounding is None else job.rounding
        row.net = pricing.payable(
            steps_up(max(row.asked, row.minimum) / step, 1, terms.round_slack) * step, cent, terms.slack
        )
        row.tax_share = terms.sales_tax if job.sales_tax is None else job.sales_tax
        row.tax = pricing.payable(row.net * row.tax_share, cent, terms.slack)
        row.total = row.net + row.tax
        row.allowed = min(
            row.total * (1.0 if terms.deposit_cap is None else terms.deposit_cap),
            row.total if terms.deposit_cap_amount is None else terms.deposit_cap_amount,
        )
        deposit = min(row.total * terms.deposit, row.allowed)
        row.deposit = pricing.payable(_down(deposit, step, terms.round_slack), cent, terms.slack)
        row.stage = pricing.payable(
            _down((row.total - row.deposit) / terms.stages, step, terms.round_slack), cent, terms.slack
        )
        row.last = row.total - row.deposit - (terms.stages - 1) * row.stage
        row.difference = row.net - base.net
        row.markup = pricing.markup(row.margin)
        row.break_even = pricing.selling_price(row.cost, 0.0, row.of_sales)
        row.pays, row.kept = (pricing.cost_paid(row.net, share, row.of_sales) for share in (0.0, row.margin))
        row.chance_over, row.chance_margin = (
            risk.chance_above(one, outlook.mean, outlook.log_sigma, outlook.certain) for one in (row.pays, row.kept)
        )
        row.told_over, row.told_margin = (
            "under 1 %" if chance < 0.01 else f"{floor(chance * 100 + 0.5)} %"
            for chance in (row.chance_over, row.chance_margin)
        )
        row.goes_coatings, row.goes_material = (
            cost.paint + cost.thinner,
            cost.nozzles + cost.guards + cost.task_material + cost.sundries,
        )
        row.goes_wages, row.goes_travel = cost.wages - cost.travel_wages, cost.travel_wages + cost.travel
        row.goes_rental, row.goes_tax = cost.rental, cost.tax
        row.goes_overhead, row.goes_contingency = cost.overhead + row.net * row.of_sales, row.contingency
        row.goes_margin = row.net - sum(
            (
                row.goes_coatings,
                row.goes_material,
                row.goes_wages,
                row.goes_travel,
                row.goes_rental,
                row.goes_tax,
                row.goes_overhead,
                row.goes_contingency,
            )
        )
        row.per_area = row.net / cost.coated if cost.coated else 0.0


def _down(amount, step, slack):
    """An amount rounded down to whole steps; `slack` steps are given first."""
    return int(amount / step + slack) * step
