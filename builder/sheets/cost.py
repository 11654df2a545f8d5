"""Cost and Price of each scenario (E22, E42, E43)."""
from builder.records.checklist import ITEMS_OF_COST
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.stock import within


def _own(key):
    """A job's own figure before that of the terms."""
    return f'IF({{job.{key}}}="",{{terms.{key}}},{{job.{key}}})'


def _sum(block, key):
    """Of the rows that belong to the scenario."""
    return f"SUMPRODUCT({within(block, '{no}')},{{{block}.{key}}})"


COST = Block("cost", "Cost", results_first("no cost materials wages hire tax direct overhead coated voc_mass", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", "{day.sound}", ""),
    C("paint", "Coatings, by packs", "money", "SUMPRODUCT(--({purchases.scenario}={no}),{purchases.cost})"),
    C("thinner", "Thinner", "money", _sum("gallons", "thinner_cost")),
    C("nozzles", "Nozzles, by wear", "money", "{sizes.wear_cost_all@no}"),
    C("nozzles_cash", "Nozzles, cash at the counter (not added)", "money", "{sizes.cash_all@no}"),
    C("task_material", "Material of tasks", "money",
      "{task_hours.once_material_all@no}+{day.visits}*{task_hours.visit_material_all@no}"),
    C("sundries", "Sundries", "money", "{terms.sundries}*({paint}+{thinner})"),
    C("materials", "Materials", "money", "{paint}+{thinner}+{nozzles}+{task_material}+{sundries}"),
    C("wage", "Wage with burden, tasks", "money_hour", 'IF({job.wage}="",{crew.wage},{job.wage})*(1+{terms.burden})'),
    C("coat_wages", "Wages, coats", "money", _sum("hours", "cost")),
    C("task_wages", "Wages, tasks", "money", "({day.task_labour}+{day.visits}*{day.visit_hours})*{wage}"),
    C("trigger_wages", "Of the wages of coats, at the trigger", "money", _sum("hours", "trigger_cost")),
    C("change_wages", "Wages, changing nozzles", "money", _sum("gallons", "change_wages")),
    C("wages", "Wages", "money", "{coat_wages}+{task_wages}+{change_wages}"),
    C("pump_hire", "Hire of pumps", "money", "{day.days}*{pumps.hire_day_all@no}"),
    C("reach_hire", "Hire of lifts and scaffold", "money", "{reaches.hire_cost_all@no}"),
    C("hire", "Hire", "money", "{pump_hire}+{reach_hire}"),
    C("taxed", "Purchases that are taxed", "money", "{materials}+{hire}*(MATCH({terms.purchase_tax_base},{words.tax_base},0)-1)"),
    C("tax", "Tax on purchases", "money", "{terms.purchase_tax}*{taxed}"),
    C("direct", "Direct cost", "money", "{materials}+{wages}+{hire}+{tax}"),
    C("overhead_share", "Overhead, share", "share", _own("overhead")),
    C("overhead", "Overhead", "money",
      "CHOOSE(MATCH({terms.overhead_basis},{words.overhead_basis},0),{overhead_share}*{direct},{terms.overhead_hour}*{day.labour},0)"),
    C("cost", "Cost", "money", "{direct}+{overhead}"),
    C("items", "Cost, added up item by item", "money", f"SUM({','.join(f'{{{key}}}' for key in ITEMS_OF_COST)})"),
    C("voc_mass", "VOC given off, at most", "mass", _sum("gallons", "voc_mass")),
    C("coated", "Coated area", "area", _sum("areas", "coated")),
)), {"day": At("days", "{no}"), "crew": At("crews", "{day.crew_at}")}, "live", "card")

def _chance(cost):
    """Chance that the job costs more (E23); 0 or 1 where nothing is uncertain."""
    return (f"IF(({cost}>{{doubt.certain}})*({{doubt.log_spread}}>0)=0,--({{doubt.expected}}>{cost}),"
            f"NORMDIST(-(LN(MAX({cost}-{{doubt.certain}},0)/{{doubt.mean}})+{{doubt.log_spread}}^2/2)"
            "/{doubt.log_spread},0,1,1))")


def _told(chance):
    """A chance in whole per cent; one that is small is not called none."""
    return f'IF({{{chance}}}<1/100,"under 1 %",INT({{{chance}}}*100+1/2)&" %")'


def payable(amount):
    """An amount in whole cents, half of one rounded up (E43)."""
    return f"INT(({amount})/{{constants.money_step}}+1/2+{{terms.slack}})*{{constants.money_step}}"


BASIS_OF_SALES = "MATCH({terms.overhead_basis},{words.overhead_basis},0)-1=2"

PRICE = Block("price", "Price", results_first("no state total net tax difference deposit stage last per_area told_over told_margin", (
    C("no", "Number", "count", label=lambda number: number),
    C("state", "State", "text", "IF({checks.stops}=0,\"complete\",\"not complete: \"&{checks.stops}&\" to put right, see Checks\")", ""),
    C("used", "Has a system of its own", "count",
      "IF({no}=1,1,--(COUNTIF({systems.only},{no})>0))", ""),
    C("entered", "Cost worked out", "count", "{outlay.live}", ""),
    C("margin", "Margin", "share", _own("margin"), "entered"),
    C("of_sales", "Overhead, share of the price", "share", f"{{outlay.overhead_share}}*({BASIS_OF_SALES})", "entered"),
    C("refused", "Leaves no price", "count", "--({margin}+{of_sales}>=1-{terms.slack})", "entered"),
    C("live", "Priced", "count", 'IF(({checks.stops}=0)*({used}=1)=1,1,"")', ""),
    C("cost", "Cost", "money", "{outlay.cost}"),
    C("contingency", "Contingency, by Range or your own share", "money", 'IF({job.contingency}="",{doubt.contingency},{cost}*{job.contingency})'),
    C("contingency_share", "Contingency, share of cost", "share", "IF({cost}=0,0,{contingency}/{cost})"),
    C("protected", "Cost with contingency", "money", "{cost}+{contingency}"),
    C("asked", "With margin", "money", "{protected}/(1-{margin}-{of_sales})"),
    C("minimum", "Least charge", "money", _own("minimum")),
    C("step", "Rounded up to", "money", _own("rounding")),
    C("net", "Price before tax", "money", payable("ROUNDUP(MAX({asked},{minimum})/{step}-{terms.round_slack},0)*{step}")),
    C("tax_share", "Sales tax, share", "share", _own("sales_tax")),
    C("tax", "Sales tax", "money", payable("{net}*{tax_share}")),
    C("total", "Price", "money", "{net}+{tax}"),
    C("deposit", "Deposit", "money", payable("INT({total}*{terms.deposit}/{step}+{terms.round_slack})*{step}")),
    C("stage", "Each payment but the last", "money", payable("INT(({total}-{deposit})/{terms.stages}/{step}+{terms.round_slack})*{step}")),
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
    C("goes_material", "In the price: nozzles and other material", "money", "{outlay.nozzles}+{outlay.task_material}+{outlay.sundries}"),
    C("goes_wages", "In the price: wages", "money", "{outlay.wages}"),
    C("goes_hire", "In the price: hire", "money", "{outlay.hire}"),
    C("goes_tax", "In the price: tax on purchases", "money", "{outlay.tax}"),
    C("goes_overhead", "In the price: overhead", "money", "{outlay.overhead}+{net}*{of_sales}"),
    C("goes_contingency", "In the price: contingency", "money", "{contingency}"),
    C("goes_margin", "In the price: margin and rounding", "money", "{net}-SUM({goes_coatings:goes_contingency})"),
    C("per_area", "Price per coated area", "money_area", "IF({outlay.coated}=0,0,{net}/{outlay.coated})"),
)), {"outlay": At("cost", "{no}"), "doubt": At("range", "{no}")}, "live", "card")
