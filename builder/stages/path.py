"""What Trace speaks of, of the coat that is chosen there: what no other working holds, each figure as it is said."""

from math import floor

from builder.sheets.grammar import At
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, step, to_nearest
from builder.stages.brief import hundredths, said_hundredths
from builder.stages.constants import shown_constants

# fmt: off
EXACT = ("seconds", "pressure")                        # quantities of a line that are in steps already
AT_LEAST = ("time", "volume")                          # of which a little is not told as none
LINKS = {
    "coat": At("film", "{coat_at}"), "entry": At("coats", "{coat_at}"), "pick": At("picks", "{coat_at}"),
    "gallon": At("gallons", "{coat_at}"), "hour": At("hours", "{coat_at}"),
    "paint": At("coatings", "{coat.coating_at}"), "own": At("systems", "{coat.system_at}"),
    "surface": At("surfaces", "{coat.surface_at}"),
    "size": At("nozzles", "{pick.size_at}"), "buy": At("purchases", "{purchase_at}"),
    "card": At("crew_card", "MATCH({coat_at},{crew_card.coat_at},0)")}

FOUND = (
    C("coat_at", "Trace: row of its coat", "count", "{traced.coat_at}", ""),
    C("sprayed", "Trace: sprayed", "count", 'IF({pick.live}=1,1,"")'),
    C("live", "Trace: worked out", "count", 'IF((N({gallon.live})=1)*(N({gallon.place})>0)=1,1,"")'),
    C("scenario", "Trace: number of its scenario", "count", "IF({coat.only}=0,1,{coat.only})"),
    C("priced", "Trace: priced", "count", 'IF(N({price.live@scenario})=1,1,"")', "live"),
    C("purchase_at", "Trace: row of its purchase", "count", "({scenario}-1)*COUNT({gallons.no})+{gallon.lead}", "live"),
    C("lost", "Trace: lost", "share", "IF({coat.sprays}=1,{pick.loss},{surface.hand_loss})", "live"),
    C("reach", "Trace: reaches the face", "share", "(1-{lost})*(1-N({pick.miss}))", "live"),
    C("gun", "Trace: pressure at the gun", "pressure", "{pick.pressure}*{pick.gauge_share}^2", "sprayed"),
    C("coating", "Trace: cost of coating and thinner", "money",
      "{buy.cost}*{gallon.need}/{buy.coats_need}+{gallon.thinner_cost}", "live"),
    C("nozzles", "Trace: cost of its nozzles", "money",
      "{gallon.due}*{size.nozzle_price}+{gallon.change_wages}", "sprayed"),
    C("direct", "Trace: direct cost of the coat", "money", "{hour.cost}+{coating}+N({nozzles})", "live"),
    C("part", "Trace: part of the price", "money",
      "IF({cost.direct@scenario}=0,0,{price.total@scenario}*{direct}/{cost.direct@scenario})", "priced"),
)

# Key of a line -> its quantity, its figure, the column without which it is blank.
FIGURES = {
    "area": ("area", "{coat.coated}", "coat_at"), "laid": ("area", "{coat.surface_coats}", "coat_at"),
    "film": ("film", "{coat.wet_film}", "coat_at"), "spread": ("spread", "{coat.spread}", "coat_at"),
    "reach": ("share", "{reach}", "live"), "need": ("volume", "{gallon.need}", "live"),
    "bought": ("volume", "{buy.bought}", "live"), "flow": ("flow", "{pick.gauge_flow}", "sprayed"),
    "gauge": ("pressure", "{pick.gauge}", "sprayed"),
    "hand": ("seconds", "{pick.hand_time}", "sprayed"),
    "trigger": ("time", "{hour.trigger}", "sprayed"), "clock": ("time", "{hour.elapsed}", "live"),
    "wages": ("money", "{hour.cost}", "live"), "coating": ("money", "{coating}", "live"),
    "nozzles": ("money", "{nozzles}", "sprayed"), "part": ("money", "{part}", "priced"),
}


def _whole(amount):
    return f"FIXED(INT(({amount})+1/2+{{terms.slack}}),0)"


def _fixed(amount):
    """With two decimals: gnumeric joins 0.27 to a text with twenty."""
    return f"FIXED({said_hundredths(amount)},2)"


def _percent(share):
    return f"INT(({share})*100+1/2+{{terms.slack}})"


# Figures as the sentences say them: key -> formula, the column without which it is blank. Those by FIXED are texts.
SAID = {
    "area": (_whole("{coat.coated}"), "coat_at"), "laid": (_whole("{coat.surface_coats}"), "coat_at"),
    "dry": (said_hundredths("N({coat.dry_film})"), "coat_at"),
    "solids": (_percent("IF({coat.by_spread}=1,0,{paint.volume_solids})"), "coat_at"),
    "thin": (said_hundredths("(1+{coat.thinning})"), "coat_at"), "cover": (_whole("{constants.cover}"), "coat_at"),
    "film": (said_hundredths("{shown_film}"), "coat_at"), "spread": (said_hundredths("{shown_spread}"), "coat_at"),
    "laid_film": (said_hundredths(nearest("{gallon.wet_film}", "film")), "sprayed"),
    "lost": (_percent("{lost}"), "live"), "lands": (_percent("1-{lost}"), "live"),
    "edges": (_percent("{pick.miss}"), "sprayed"), "reach": (_percent("{reach}"), "live"),
    "uptake": (said_hundredths("{coat.mean_uptake}"), "live"), "wear": (_percent("{gallon.over}"), "live"),
    "need": (said_hundredths("{shown_need}"), "live"), "used": (_fixed("{buy.coats_need}"), "live"),
    "total": (_fixed("{buy.total}"), "live"), "paid": (_whole("{buy.cost}"), "live"),
    "flow": (_fixed("{shown_flow}"), "sprayed"),
    "gun": (f'FIXED({nearest("{gun}", "pressure")},0)', "sprayed"),
    "wanted": (_whole("{pick.pressure}"), "sprayed"), "drop": (_whole("{pick.drop}"), "sprayed"),
    "most": ("FIXED(INT({pick.pressure_most}*(1+{terms.slack})),0)", "sprayed"),
    "further": (nearest("{pick.step}", "width"), "sprayed"),
    "applied": (_fixed("{gallon.applied}"), "live"), "trigger": (_percent("N({hour.trigger_share})"), "live"),
    "work": (_whole("{coat.work_coats}"), "live"), "labor": (_fixed("{hour.labor}"), "live"),
    "wage": (_fixed("{coat.wage}"), "live"), "due": (_fixed("{gallon.due}"), "live"),
    "price": (_fixed("{size.nozzle_price}"), "sprayed"), "direct": (_whole("{direct}"), "live"),
    "all": (_whole("{cost.direct@scenario}"), "priced"), "job": (_whole("{price.total@scenario}"), "priced"),
}


def path_columns():
    """All of it, in one row."""
    shown = []
    for key, (quantity, formula, when) in FIGURES.items():
        rounded = formula if quantity in EXACT else nearest(formula, quantity)
        if quantity in AT_LEAST:
            rounded = f"MAX({{constants.step_{quantity}}},{rounded})"
        shown.append(C(f"shown_{key}", f"Trace, figure: {key}", quantity, rounded, when))
    said = (C(f"say_{key}", f"Trace, said: {key}", "text" if formula.startswith("FIXED") else "number", formula, when)
            for key, (formula, when) in SAID.items())
    return (*FOUND, *shown, *said)
# fmt: on


def follow(est, path, coat_at):
    """The row of the coat on Views."""
    coat, pick, gallon, hour = (est.row(block, coat_at) for block in ("film", "picks", "gallons", "hours"))
    path.coat_at, path.scenario = coat_at, coat.only or 1.0
    path.sprayed = 1.0 if pick.live else None
    path.live = 1.0 if gallon.live and gallon.place is not None else None
    _film(est, path, coat, est.row("coatings", coat.coating_at))
    if path.live:
        _live(est, path, coat, pick, gallon, hour)
    if path.sprayed:
        _gun(est, path, pick, hour)


def _show(est, path, key, value):
    quantity = FIGURES[key][0]
    shown = value if quantity in EXACT else to_nearest(est, value, quantity)
    if quantity in AT_LEAST:
        shown = max(est.units.from_cell(step(quantity, est.units.system), quantity), shown)
    setattr(path, f"shown_{key}", shown)


def _whole_of(est, value, quantity):
    return f"{floor(est.units.to_cell(value, quantity) + 0.5 + est.terms.slack):,}"


def _fixed_of(est, value, quantity):
    return f"{hundredths(est, value, quantity):,.2f}"


def _percent_of(est, share):
    return float(floor(share * 100 + 0.5 + est.terms.slack))


def _film(est, path, coat, paint):
    for key, value in (
        ("area", coat.coated), ("laid", coat.surface_coats), ("film", coat.wet_film), ("spread", coat.spread)
    ):  # fmt: skip
        _show(est, path, key, value)
    path.set(
        say_area=_whole_of(est, coat.coated, "area"),
        say_laid=_whole_of(est, coat.surface_coats, "area"),
        say_dry=hundredths(est, coat.dry_film or 0.0, "film"),
        say_solids=_percent_of(est, 0.0 if coat.by_spread else paint.volume_solids),
        say_thin=hundredths(est, 1 + coat.thinning, "number"),
        say_cover=f"{floor(shown_constants(est.units, 0)['cover'] + 0.5 + est.terms.slack):,}",
        say_film=hundredths(est, path.shown_film, "film"),
        say_spread=hundredths(est, path.shown_spread, "spread"),
    )


def _live(est, path, coat, pick, gallon, hour):
    surface = est.row("surfaces", coat.surface_at)
    path.purchase_at = (path.scenario - 1) * len(est.rows["gallons"]) + gallon.lead
    buy = est.row("purchases", int(path.purchase_at))
    path.lost = pick.loss if coat.sprays else surface.hand_loss
    path.reach = (1 - path.lost) * (1 - (pick.miss or 0.0))
    path.coating = buy.cost * gallon.need / buy.coats_need + gallon.thinner_cost
    if path.sprayed:
        path.nozzles = gallon.due * est.row("nozzles", pick.size_at).nozzle_price + gallon.change_wages
    path.direct = hour.cost + path.coating + (path.nozzles or 0.0)
    for key, value in (
        ("reach", path.reach), ("need", gallon.need), ("bought", buy.bought), ("clock", hour.elapsed),
        ("wages", hour.cost), ("coating", path.coating),
    ):  # fmt: skip
        _show(est, path, key, value)
    path.set(
        say_lost=_percent_of(est, path.lost),
        say_lands=_percent_of(est, 1 - path.lost),
        say_reach=_percent_of(est, path.reach),
        say_uptake=hundredths(est, coat.mean_uptake, "number"),
        say_wear=_percent_of(est, gallon.over),
        say_need=hundredths(est, path.shown_need, "volume"),
        say_used=_fixed_of(est, buy.coats_need, "volume"),
        say_total=_fixed_of(est, buy.total, "volume"),
        say_paid=_whole_of(est, buy.cost, "money"),
        say_applied=_fixed_of(est, gallon.applied, "volume"),
        say_trigger=_percent_of(est, hour.trigger_share or 0.0),
        say_work=_whole_of(est, coat.work_coats, "area"),
        say_labor=_fixed_of(est, hour.labor, "time"),
        say_wage=_fixed_of(est, coat.wage, "money_hour"),
        say_due=_fixed_of(est, gallon.due, "number"),
        say_direct=_whole_of(est, path.direct, "money"),
    )
    _price(est, path)


def _price(est, path):
    price, cost = (est.rows[block][int(path.scenario) - 1] for block in ("price", "cost"))
    path.priced = 1.0 if price.live else None
    if path.priced:
        path.part = price.total * path.direct / cost.direct if cost.direct else 0.0
        _show(est, path, "part", path.part)
        path.say_all, path.say_job = (_whole_of(est, one, "money") for one in (cost.direct, price.total))


def _gun(est, path, pick, hour):
    path.gun = pick.pressure * pick.gauge_share**2
    for key, value in (
        ("flow", pick.gauge_flow), ("gauge", pick.gauge), ("hand", pick.hand_time), ("trigger", hour.trigger),
        ("nozzles", path.nozzles),
    ):  # fmt: skip
        if value is not None:
            _show(est, path, key, value)
    further = to_nearest(est, pick.step, "width")
    path.set(
        say_laid_film=hundredths(est, to_nearest(est, pick.wet_film, "film"), "film"),
        say_edges=_percent_of(est, pick.miss),
        say_flow=_fixed_of(est, path.shown_flow, "flow"),
        say_gun=_whole_of(est, to_nearest(est, path.gun, "pressure"), "pressure"),
        say_wanted=_whole_of(est, pick.pressure, "pressure"),
        say_drop=_whole_of(est, pick.drop, "pressure"),
        say_most=f"{floor(est.units.to_cell(pick.pressure_most, 'pressure') * (1 + est.terms.slack)):,}",
        say_further=est.units.to_cell(further, "width"),
        say_price=f"{hundredths(est, est.row('nozzles', pick.size_at).nozzle_price, 'money'):,.2f}",
    )
