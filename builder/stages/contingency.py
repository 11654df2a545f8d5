"""Risk: how sure the cost of each scenario is, and the contingency that follows (E23)."""

from builder.records.lookups import place
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.trade import risk
from builder.trade.risk import NORMAL

# fmt: off
DRIVERS = {"area": "measured area", "material": "material", "time": "time", "wear": "wear"}
PARTS = {"material_cost": "area material", "trigger_cost": "area material time", "handling_cost": "area time",
         "nozzle_cost": "area material wear"}


def _driver(key, words):
    return (C(f"sigma_{key}", f"Sigma of {words}", "number",
              f"LN({{terms.{key}_high}}/{{terms.{key}_low}})/{{constants.deciles}}"),
            C(f"mean_{key}", f"Mean factor of {words}", "number",
              f"EXP((LN({{terms.{key}_low}})+LN({{terms.{key}_high}}))/2+{{sigma_{key}}}^2/2)"),
            C(f"growth_{key}", f"Growth of {words}", "number", f"EXP({{sigma_{key}}}^2)"))


def _mean(part, drivers):
    return "*".join([f"{{{part}}}", *(f"{{mean_{driver}}}" for driver in drivers.split())])


def _share(driver):
    """Variance of cost if this driver alone were uncertain, to first order, over the sum of all four."""
    return f"IF({{weights}}=0,0,{{weight_{driver}}}/{{weights}})"


def _weight(driver):
    moved = "+".join(f"{{mean_{part}}}" for part, drivers in PARTS.items() if driver in drivers.split())
    return f"IF({{mean}}=0,0,(({moved})/{{mean}}*{{sigma_{driver}}})^2)"


def _percentile(score):
    return f"{{certain}}+{{mean}}*EXP({score}*{{log_sigma}}-{{log_sigma}}^2/2)"


WITH_LOSS = ("{mean_material_cost}^2+2*{mean_material_cost}*({mean_trigger_cost}+{mean_nozzle_cost})+2"
             "*{mean_trigger_cost}*{mean_nozzle_cost}"
             "+{growth_time}*{mean_trigger_cost}^2+{growth_wear}*{mean_nozzle_cost}^2")

RISK = Block("risk", "Risk", (
    C("no", "Number", "count", label=lambda number: number),
    C("live", "Worked out", "count", "{outlay.live}", ""),
    C("loaded", "Overhead on direct cost, factor", "number",
      "IF(MATCH({terms.overhead_basis},{words.overhead_basis},0)=1,1+{outlay.overhead_share},1)"),
    C("hourly", "Overhead on an hour", "money_hour",
      "IF(MATCH({terms.overhead_basis},{words.overhead_basis},0)=2,{terms.overhead_hour},0)"),
    C("trigger_paid", "Hours paid for the trigger", "time", "{day.trigger_labor}/{basics.productive}"),
    C("material_cost", "Materials: move with area and material", "money",
      "({outlay.materials}-{outlay.nozzles}-{outlay.guards})*(1+{terms.purchase_tax})*{loaded}"),
    C("trigger_cost", "Trigger time: moves with area, material and time", "money",
      "{outlay.trigger_wages}*{loaded}+{trigger_paid}*{hourly}"),
    C("handling_cost", "Handling, tasks, travel of people: move with area and time", "money",
      "({outlay.wages}-{outlay.trigger_wages})*{loaded}+({day.labor}+{outlay.travel_hours}-{trigger_paid})*{hourly}"),
    C("nozzle_cost", "Nozzles: move with area, material and wear", "money",
      "{outlay.nozzles}*(1+{terms.purchase_tax})*{loaded}"),
    C("certain", "Certain: rental, vehicles, guards", "money",
      "({outlay.rental}+{outlay.travel}+{outlay.guards}+{terms.purchase_tax}*({outlay.taxed}-{outlay.materials}"
      "+{outlay.guards}))*{loaded}"),
    C("base", "Cost as estimated", "money", "SUM({material_cost:certain})"),
    *(column for key, words in DRIVERS.items() for column in _driver(key, words)),
    *(C(f"mean_{part}", f"Mean of {part.replace('_cost', ' cost')}", "money", _mean(part, drivers)) for part,
      drivers in PARTS.items()),
    C("mean", "Mean of the uncertain part", "money", "SUM({mean_material_cost:mean_nozzle_cost})"),
    C("with_loss", "Pairs that share material, of mean squared", "number",
      f"IF({{mean}}=0,0,({WITH_LOSS})/{{mean}}^2)"),
    C("with_time", "Pairs that share time alone, of mean squared", "number",
      "IF({mean}=0,0,({mean_handling_cost}^2+2*{mean_trigger_cost}*{mean_handling_cost})/{mean}^2)"),
    C("without", "Pairs that share area alone, of mean squared", "number",
      "IF({mean}=0,0,2*{mean_handling_cost}*({mean_material_cost}+{mean_nozzle_cost})/{mean}^2)"),
    C("excess", "Mean square over square of the mean, less 1", "number",
      "IF({mean}=0,0,{growth_area}*({growth_material}*{with_loss}+{growth_time}*{with_time}+{without})-1)"),
    C("log_sigma", "Sigma of the logarithm of cost", "number", "IF({excess}>{terms.slack},SQRT(LN(1+{excess})),0)"),
    C("expected", "Mean cost", "money", "{certain}+{mean}"),
    C("p10", "P10: 1 job in 10 costs less", "money", _percentile("{constants.score_10}")),
    C("p50", "P50: as likely more as less", "money", _percentile("{constants.score_50}")),
    C("p80", "P80: four jobs in five cost less", "money", _percentile("{constants.score_80}")),
    C("p90", "P90: nine jobs in ten cost less", "money", _percentile("{constants.score_90}")),
    C("covered", "Cost to be covered, by Terms", "money", _percentile("NORMSINV({terms.percentile})")),
    C("contingency", "Contingency that follows", "money", "MAX(0,{covered}-{outlay.cost})"),
    *(C(f"weight_{key}", f"Weight of {words}", "number", _weight(key)) for key, words in DRIVERS.items()),
    C("weights", "Weights in all", "number", "SUM({weight_area:weight_wear})"),
    *(C(f"share_{key}", f"Share of the uncertainty: {words}", "share", _share(key)) for key, words in DRIVERS.items()),
), {"outlay": At("cost", "{no}"), "day": At("days", "{no}")}, "live", "card")


SCORES = {"p10": 0.1, "p50": 0.5, "p80": 0.8, "p90": 0.9}
# fmt: on


def ranges(est):
    terms = est.terms
    for row, cost, day in zip(est.rows["risk"], est.rows["cost"], est.rows["days"]):
        row.live = cost.live
        if not row.live:
            continue
        basis = place("overhead_basis", terms.overhead_basis)
        row.loaded = 1 + cost.overhead_share if basis == 1 else 1.0
        row.hourly = terms.overhead_hour if basis == 2 else 0.0
        taxed = (1 + terms.purchase_tax) * row.loaded
        row.material_cost = (cost.materials - cost.nozzles - cost.guards) * taxed
        row.trigger_paid = day.trigger_labor / est.basics.productive
        row.trigger_cost = cost.trigger_wages * row.loaded + row.trigger_paid * row.hourly
        row.handling_cost = (cost.wages - cost.trigger_wages) * row.loaded
        row.handling_cost += (day.labor + cost.travel_hours - row.trigger_paid) * row.hourly
        row.nozzle_cost = cost.nozzles * taxed
        untaxed = cost.rental + cost.travel + terms.purchase_tax * (cost.taxed - cost.materials)
        row.certain = untaxed * row.loaded + cost.guards * taxed
        row.base = row.material_cost + row.trigger_cost + row.handling_cost + row.nozzle_cost + row.certain
        _means(terms, row)
        _percentiles(terms, row, cost)
        _shares(row)


def _means(terms, row):
    for key in DRIVERS:
        low, high = getattr(terms, f"{key}_low"), getattr(terms, f"{key}_high")
        sigma = risk.sigma(low, high)
        row.set(
            **{
                f"sigma_{key}": sigma,
                f"mean_{key}": risk.mean_factor(risk.mu(low, high), sigma),
                f"growth_{key}": risk.growth(sigma),
            }
        )
    row.mean_material_cost = row.material_cost * row.mean_area * row.mean_material
    row.mean_trigger_cost = row.trigger_cost * row.mean_area * row.mean_material * row.mean_time
    row.mean_handling_cost = row.handling_cost * row.mean_area * row.mean_time
    row.mean_nozzle_cost = row.nozzle_cost * row.mean_area * row.mean_material * row.mean_wear
    row.mean = row.mean_material_cost + row.mean_trigger_cost + row.mean_handling_cost + row.mean_nozzle_cost


def _percentiles(terms, row, cost):
    parts = row.mean_material_cost, row.mean_trigger_cost, row.mean_handling_cost, row.mean_nozzle_cost
    growths = row.growth_area, row.growth_material, row.growth_time, row.growth_wear
    shares = [part / row.mean if row.mean else 0.0 for part in parts]
    row.with_loss, row.with_time, row.without = risk.pairs(*shares, row.growth_time, row.growth_wear)
    row.excess = risk.mean_square(*shares, *growths) - 1 if row.mean else 0.0
    row.log_sigma = risk.log_sigma(row.excess, terms.slack)
    row.expected = row.certain + row.mean
    for key, share in SCORES.items():
        setattr(row, key, risk.percentile(row.mean, row.log_sigma, NORMAL.inv_cdf(share), row.certain))
    row.covered = risk.percentile(row.mean, row.log_sigma, NORMAL.inv_cdf(terms.percentile), row.certain)
    row.contingency = max(0.0, row.covered - cost.cost)


def _shares(row):
    """What each driver alone would spread, to first order, over the sum of all four."""
    moved = {
        "area": row.mean,
        "material": row.mean - row.mean_handling_cost,
        "time": row.mean_trigger_cost + row.mean_handling_cost,
        "wear": row.mean_nozzle_cost,
    }
    for key, cost in moved.items():
        setattr(row, f"weight_{key}", (cost / row.mean * getattr(row, f"sigma_{key}")) ** 2 if row.mean else 0.0)
    row.weights = sum(getattr(row, f"weight_{key}") for key in DRIVERS)
    for key in DRIVERS:
        setattr(row, f"share_{key}", getattr(row, f"weight_{key}") / row.weights if row.weights else 0.0)
