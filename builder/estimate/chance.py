"""How sure the cost of each scenario is (E23)."""
from builder.estimate.areas import place
from builder.trade import spread
from builder.trade.spread import NORMAL

DRIVERS = ("area", "material", "time", "wear")
SCORES = {"p10": 0.1, "p50": 0.5, "p80": 0.8, "p90": 0.9}


def ranges(est):
    terms = est.terms
    for row, cost, day in zip(est.rows["range"], est.rows["cost"], est.rows["days"]):
        row.live = cost.live
        if not row.live:
            continue
        basis = place("overhead_basis", terms.overhead_basis)
        row.loaded = 1 + cost.overhead_share if basis == 1 else 1.0
        row.hourly = terms.overhead_hour if basis == 2 else 0.0
        taxed = (1 + terms.purchase_tax) * row.loaded
        row.material_cost = (cost.materials - cost.nozzles) * taxed
        row.trigger_cost = cost.trigger_wages * row.loaded + day.trigger_labour * row.hourly
        row.handling_cost = (cost.wages - cost.trigger_wages) * row.loaded + (day.labour - day.trigger_labour) * row.hourly
        row.nozzle_cost = cost.nozzles * taxed
        row.certain = (cost.hire + terms.purchase_tax * (cost.taxed - cost.materials)) * row.loaded
        row.base = row.material_cost + row.trigger_cost + row.handling_cost + row.nozzle_cost + row.certain
        _means(terms, row)
        _percentiles(terms, row, cost)
        _shares(row)


def _means(terms, row):
    for key in DRIVERS:
        low, high = getattr(terms, f"{key}_low"), getattr(terms, f"{key}_high")
        sigma = spread.sigma(low, high)
        row.set(**{f"sigma_{key}": sigma, f"mean_{key}": spread.mean_factor(spread.mu(low, high), sigma), f"growth_{key}": spread.growth(sigma)})
    row.mean_material_cost = row.material_cost * row.mean_area * row.mean_material
    row.mean_trigger_cost = row.trigger_cost * row.mean_area * row.mean_material * row.mean_time
    row.mean_handling_cost = row.handling_cost * row.mean_area * row.mean_time
    row.mean_nozzle_cost = row.nozzle_cost * row.mean_area * row.mean_material * row.mean_wear
    row.mean = row.mean_material_cost + row.mean_trigger_cost + row.mean_handling_cost + row.mean_nozzle_cost


def _percentiles(terms, row, cost):
    parts = row.mean_material_cost, row.mean_trigger_cost, row.mean_handling_cost, row.mean_nozzle_cost
    growths = row.growth_area, row.growth_material, row.growth_time, row.growth_wear
    shares = [part / row.mean if row.mean else 0.0 for part in parts]
    row.with_loss, row.with_time, row.without = spread.pairs(*shares, row.growth_time, row.growth_wear)
    row.excess = spread.mean_square(*shares, *growths) - 1 if row.mean else 0.0
    row.log_spread = spread.log_spread(row.excess, terms.slack)
    row.expected = row.certain + row.mean
    for key, share in SCORES.items():
        setattr(row, key, spread.percentile(row.mean, row.log_spread, NORMAL.inv_cdf(share), row.certain))
    row.covered = spread.percentile(row.mean, row.log_spread, NORMAL.inv_cdf(terms.percentile), row.certain)
    row.contingency = max(0.0, row.covered - cost.cost)


def _shares(row):
    """What each driver alone would spread, to first order, over the sum of all four."""
    moved = {"area": row.mean, "material": row.mean - row.mean_handling_cost,
             "time": row.mean_trigger_cost + row.mean_handling_cost, "wear": row.mean_nozzle_cost}
    for key, cost in moved.items():
        setattr(row, f"weight_{key}", (cost / row.mean * getattr(row, f"sigma_{key}")) ** 2 if row.mean else 0.0)
    row.weights = sum(getattr(row, f"weight_{key}") for key in DRIVERS)
    for key in DRIVERS:
        setattr(row, f"share_{key}", getattr(row, f"weight_{key}") / row.weights if row.weights else 0.0)
