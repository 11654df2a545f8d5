"""Cost and price of each scenario (E22)."""
from math import floor

from builder.estimate.areas import place
from builder.estimate.scenarios import SCENARIOS, included
from builder.records.checklist import ITEMS_OF_COST
from builder.trade import price as pricing
from builder.trade import spread
from builder.trade.labor import steps_up


def costs(est):
    terms, job, tasks = est.terms, est.job, est.rows["task_hours"][0]
    for row, day, scenario in zip(est.rows["cost"], est.rows["days"], SCENARIOS):
        at = scenario - 1
        row.live = day.sound
        if not row.live:
            continue
        row.paint = sum(one.cost for one in est.rows["purchases"] if one.live and one.scenario == scenario)
        row.thinner = sum(one.thinner_cost * included(one, scenario) for one in est.rows["gallons"] if one.live)
        row.nozzles = est.rows["sizes"][0].wear_cost_all[at]
        row.nozzles_cash = est.rows["sizes"][0].cash_all[at]
        row.task_material = tasks.once_material_all[at] + day.visits * tasks.visit_material_all[at]
        row.sundries = terms.sundries * (row.paint + row.thinner)
        row.materials = row.paint + row.thinner + row.nozzles + row.task_material + row.sundries
        crew = est.row("crews", day.crew_at)
        row.wage = (crew.wage if job.wage is None else job.wage) * (1 + terms.burden)
        row.coat_wages = sum(one.cost * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.task_wages = (day.task_labour + day.visits * day.visit_hours) * row.wage
        row.trigger_wages = sum(one.trigger_cost * included(one, scenario) for one in est.rows["hours"] if one.live)
        row.change_wages = sum(one.change_wages * included(one, scenario) for one in est.rows["gallons"] if one.live)
        row.wages = row.coat_wages + row.task_wages + row.change_wages
        row.pump_hire = day.days * est.rows["pumps"][0].hire_day_all[at]
        row.reach_hire = est.rows["reaches"][0].hire_cost_all[at]
        row.hire = row.pump_hire + row.reach_hire
        row.taxed = row.materials + row.hire * (place("tax_base", terms.purchase_tax_base) - 1)
        row.tax = terms.purchase_tax * row.taxed
        row.direct = row.materials + row.wages + row.hire + row.tax
        row.overhead_share = terms.overhead if job.overhead is None else job.overhead
        row.overhead = (row.overhead_share * row.direct, terms.overhead_hour * day.labour, 0.0)[place("overhead_basis", terms.overhead_basis) - 1]
        row.cost = row.direct + row.overhead
        row.items = sum(getattr(row, key) for key in ITEMS_OF_COST)
        row.voc_mass = sum(one.voc_mass * included(one, scenario) for one in est.rows["gallons"] if one.live)
        row.coated = sum(one.coated * included(one, scenario) for one in est.rows["areas"] if one.sound)


def margins(est):
    """What the price is to hold beside cost, and whether that leaves a price at all."""
    terms, job = est.terms, est.job
    for row, cost, scenario in zip(est.rows["price"], est.rows["cost"], SCENARIOS):
        row.used = float(scenario == 1 or any(one.only == scenario for one in est.rows["systems"]))
        row.entered = cost.live
        if not row.entered:
            continue
        row.margin = terms.margin if job.margin is None else job.margin
        row.of_sales = cost.overhead_share * float(place("overhead_basis", terms.overhead_basis) == 3)
        row.refused = float(row.margin + row.of_sales >= 1 - terms.slack)


def prices(est):
    """The price; blank while a check stops it."""
    terms, job = est.terms, est.job
    base, cent = est.rows["price"][0], est.units.money_step * est.units.scale("money")
    for row, cost, doubt in zip(est.rows["price"], est.rows["cost"], est.rows["range"]):
        row.state = "complete" if est.checks.stops == 0 else f"not complete: {est.checks.stops:g} to put right, see Checks"
        row.live = 1.0 if est.checks.stops == 0 and row.used else None
        if not row.live:
            continue
        row.cost = cost.cost
        row.contingency = doubt.contingency if job.contingency is None else row.cost * job.contingency
        row.contingency_share = row.contingency / row.cost if row.cost else 0.0
        row.protected = row.cost + row.contingency
        row.asked = pricing.selling_price(row.protected, row.margin, row.of_sales)
        row.minimum = terms.minimum if job.minimum is None else job.minimum
        row.step = step = terms.rounding if job.rounding is None else job.rounding
        row.net = pricing.payable(steps_up(max(row.asked, row.minimum) / step, 1, terms.round_slack) * step, cent, terms.slack)
        row.tax_share = terms.sales_tax if job.sales_tax is None else job.sales_tax
        row.tax = pricing.payable(row.net * row.tax_share, cent, terms.slack)
        row.total = row.net + row.tax
        row.deposit = pricing.payable(_down(row.total * terms.deposit, step, terms.round_slack), cent, terms.slack)
        row.stage = pricing.payable(_down((row.total - row.deposit) / terms.stages, step, terms.round_slack), cent, terms.slack)
        row.last = row.total - row.deposit - (terms.stages - 1) * row.stage
        row.difference = row.net - base.net
        row.markup = pricing.markup(row.margin)
        row.break_even = pricing.selling_price(row.cost, 0.0, row.of_sales)
        row.pays, row.kept = (pricing.cost_paid(row.net, share, row.of_sales) for share in (0.0, row.margin))
        row.chance_over, row.chance_margin = (spread.chance_above(one, doubt.mean, doubt.log_spread, doubt.certain) for one in (row.pays, row.kept))
        row.told_over, row.told_margin = ("under 1 %" if chance < 0.01 else f"{floor(chance * 100 + 0.5)} %" for chance in (row.chance_over, row.chance_margin))
        row.goes_coatings, row.goes_material = cost.paint + cost.thinner, cost.nozzles + cost.task_material + cost.sundries
        row.goes_wages, row.goes_hire, row.goes_tax = cost.wages, cost.hire, cost.tax
        row.goes_overhead, row.goes_contingency = cost.overhead + row.net * row.of_sales, row.contingency
        row.goes_margin = row.net - sum((row.goes_coatings, row.goes_material, row.goes_wages, row.goes_hire, row.goes_tax,
                                         row.goes_overhead, row.goes_contingency))
        row.per_area = row.net / cost.coated if cost.coated else 0.0


def _down(amount, step, slack):
    """An amount rounded down to whole steps; `slack` steps are given first."""
    return int(amount / step + slack) * step
