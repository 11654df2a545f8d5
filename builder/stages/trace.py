"""Trace: how the figures of one coat came about, a line at a time, in words with the numbers in them.

A second view of the calculation, in the open book: each line is worked out of the workings by formulas, and rounded for
reading alone.
"""

from math import floor

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages.brief import hundredths, plain, said_hundredths
from builder.stages.choice import stroke
from builder.stages.constants import shown_constants
from builder.stages.crew import sign
from builder.stages.in_use import choose, chooser

# fmt: off
CHOICE, TOP = 4, 7                                     # the rows of the chooser, of the first line
# key, what, quantity of the figure, where it comes from
LINES = (
    ("area", "Measured", "area", "Takeoff, Openings, Surfaces"),
    ("laid", "To coat", "area", "Paint"),
    ("film", "Wet film", "film", "Coatings, Paint"),
    ("spread", "One covers", "spread", "Coatings; geometry"),
    ("reach", "Reaches it", "share", "Surfaces, Lists, Nozzle sizes"),
    ("need", "Takes", "volume", "working Gallons"),
    ("bought", "Bought", "volume", "Shopping; working Purchases"),
    ("flow", "Flow", "flow", "Nozzle sizes; Terms: discharge"),
    ("gauge", "Set to", "pressure", "Coatings, Pumps"),
    ("hand", "Hand", "seconds", "flow, fan, wet film"),
    ("trigger", "Trigger", "time", "working Hours"),
    ("clock", "On the clock", "time", "Surfaces, Lists"),
    ("wages", "Wages", "money", "Lists: crews; Terms: burden"),
    ("coating", "Coating", "money", "Coatings: packs"),
    ("nozzles", "Nozzles", "money", "Wear budget"),
    ("part", "Of the price", "money", "Price"),
)
MAIN = ("need", "clock", "part")                       # what most people look for
AT = {word: At(block, "{coat_at}") for word, block in (
    ("coat", "film"), ("entry", "coats"), ("pick", "picks"), ("gallon", "gallons"), ("hour", "hours"))}
LINKS = {**AT, "paint": At("coatings", "{coat.coating_at}"), "own": At("systems", "{coat.system_at}"),
         "surface": At("surfaces", "{coat.surface_at}"), "trial": At("trials", "{pick.used_at}"),
         "size": At("nozzles", "{pick.size_at}"), "buy": At("purchases", "{purchase_at}"),
         "card": At("crew_card", "MATCH({coat_at},{crew_card.coat_at},0)")}

# What the sentences speak of and no working holds.
PATH = Block("path", "Views", (
    C("coat_at", "Trace: row of its coat", "count", "{traced.coat_at}", ""),
    C("sprayed", "Trace: sprayed", "count", 'IF({pick.live}=1,1,"")'),
    C("laid", "Trace: laid", "count", 'IF((N({gallon.live})=1)*(N({gallon.place})>0)=1,1,"")'),
    C("scenario", "Trace: number of its scenario", "count", "IF({coat.only}=0,1,{coat.only})"),
    C("purchase_at", "Trace: row of its purchase", "count", "({scenario}-1)*COUNT({gallons.no})+{gallon.lead}", "laid"),
    C("reach", "Trace: reaches the face", "share",
      "IF({coat.sprays}=1,(1-{pick.loss})*(1-{pick.miss}),1-{surface.hand_loss})", "laid"),
    C("gun", "Trace: pressure at the gun", "pressure", "{pick.pressure}*{pick.gauge_share}^2", "sprayed"),
    C("coating", "Trace: cost of coating and thinner", "money",
      "{buy.cost}*{gallon.need}/{buy.coats_need}+{gallon.thinner_cost}", "laid"),
    C("nozzles", "Trace: cost of its nozzles", "money",
      "{gallon.due}*{size.nozzle_price}+{gallon.change_wages}", "sprayed"),
    C("direct", "Trace: direct cost of the coat", "money", "{hour.cost}+{coating}+N({nozzles})", "laid"),
    C("priced", "Trace: priced", "count", 'IF(N({price.live@scenario})=1,1,"")', "laid"),
    C("part", "Trace: part of the price", "money", "{price.total@scenario}*{direct}/{cost.direct@scenario}", "priced"),
), LINKS, "coat_at", follows=True)


def _whole(amount):
    return f"FIXED(INT(({amount})+1/2+{{terms.slack}}),0)"


def _percent(share):
    return f"INT(({share})*100+1/2+{{terms.slack}})"


def figures():
    """Key of a line -> its figure, unrounded, and the column without which it is blank."""
    return {
        "area": ("{coat.coated}", "coat_at"), "laid": ("{coat.surface_coats}", "coat_at"),
        "film": ("{coat.wet_film}", "coat_at"), "spread": ("{coat.spread}", "coat_at"), "reach": ("{reach}", "laid"),
        "need": ("{gallon.need}", "laid"), "bought": ("{buy.bought}", "laid"), "flow": ("{pick.gauge_flow}", "sprayed"),
        "gauge": ("{pick.gauge}", "sprayed"),
        "hand": ("IF({entry.coats}=1,{pick.stroke_first},{pick.stroke_time})", "sprayed"),
        "trigger": ("{hour.trigger}", "sprayed"), "clock": ("{hour.elapsed}", "laid"), "wages": ("{hour.cost}", "laid"),
        "coating": ("{coating}", "laid"), "nozzles": ("{nozzles}", "sprayed"), "part": ("{part}", "priced"),
    }


def sentences(units):
    """Key of a line -> how it came about, as formula text."""
    unit = {one: sign(units.shown(one)) for one in ("area", "volume", "film", "spread", "pressure", "width", "flow")}
    area, laid = (_whole(one) for one in ("{coat.coated}", "{coat.surface_coats}"))
    money = f'&" {units.shown("money")}'
    covers, need, flow = (nearest(*one) for one in (
        ("{coat.spread}", "spread"), ("{gallon.need}", "volume"), ("{pick.gauge_flow}", "flow")))
    return {
        "area": '{own.lines}&" line"&REPT("s",--({own.lines}<>1))&" of Takeoff for "&{coat.system}&", openings taken off"',
        "laid": f'{area}&" {unit["area"]} x "&{{entry.coats}}&" coat"&REPT("s",--({{entry.coats}}>1))&REPT(" x "'
                '&{gallon.share_told}&" % of it",--(N({gallon.share_told})>0))',
        "film": f'IF({{coat.by_spread}}=1,"bought by spread",{said_hundredths("N({coat.dry_film})")}&" {unit["film"]} dry / "'
                f'&{_percent("{paint.volume_solids}")}&" % solids")&REPT(" x "&{said_hundredths("(1+{coat.thinning})")}'
                '&" with its thinner",--({coat.thinning}>0))',
        "spread": f'IF({{coat.by_spread}}=1,"as the data sheet says",{_whole("{constants.cover}")}&" {unit["spread"]} at 1 '
                  f'{unit["film"]} x "&{_percent("{paint.volume_solids}")}&" % solids / "'
                  f'&{said_hundredths("N({coat.dry_film})")}&" {unit["film"]} dry")&", with nothing lost"',
        "reach": f'IF({{coat.sprays}}=1,{_percent("{pick.loss}")}&" % lost as overspray, "&{_percent("{pick.miss}")}&" % '
                 f'past the edges",{_percent("{surface.hand_loss}")}&" % lost by hand")',
        "need": f'{laid}&" {unit["area"]} / "&{covers}&" {unit["spread"]} / "&{_percent("{reach}")}&" %"&REPT(" x "'
                f'&{said_hundredths("{coat.mean_uptake}")}&" soaked up",--({{coat.mean_uptake}}>1))&REPT(" + "'
                f'&{_percent("{gallon.over}")}&" % for nozzle wear",--({{gallon.over}}>0))',
        "bought": f'"its coats, hose, pail and touch-up: "&{said_hundredths("{buy.total}")}&" {unit["volume"]}; "'
                  f'&{{card.packs}}&", "&{_whole("{buy.cost}")}{money}"',
        "flow": f'{{pick.orifice}}&" thou orifice at about "&{_whole("{gun}")}&" {unit["pressure"]} at the gun"',
        "gauge": f'{_whole("{pick.pressure}")}&" {unit["pressure"]} wanted at the gun + "&{_whole("{pick.drop}")}&" lost in '
                 f'the hose, to a step of "&{{constants.step_pressure}}&"; never above "&{_whole("{pick.pressure_most}")}',
        "hand": f'"for {stroke(units)}: "&{flow}&" {unit["flow"]}, of which "&{_percent("1-{pick.loss}")}&" % lands, laid "'
                f'&{said_hundredths("{coat.wet_film}")}&" {unit["film"]} wet; next pass "'
                f'&{nearest("{trial.step}", "width")}&" {unit["width"]} further"',
        "trigger": f'{said_hundredths("{gallon.applied}")}&" {unit["volume"]} thinned / "&{flow}&" {unit["flow"]}, "'
                   '&"slower as the nozzle wears; "&{coat.guns}&" gun"&REPT("s",--({coat.guns}>1))',
        "clock": f'IF({{coat.sprays}}=1,"the trigger is "&{_percent("N({hour.trigger_share})")}&" % of it; the rest is '
                 f'moving, reaching, filling up",{_whole("{coat.work_coats}")}&" {unit["area"]} by hand, "&{{coat.hands}}'
                 '&" at work")',
        "wages": f'{said_hundredths("{hour.labor}")}&" h of labor x "&FIXED({said_hundredths("{coat.wage}")},2)'
                 f'&" {units.shown("money_hour")}, burden included"',
        "coating": f'"its "&{need}&" {unit["volume"]} of "&{said_hundredths("{buy.coats_need}")}&" bought for "'
                   f'&{_whole("{buy.cost}")}{money}"&REPT(", and thinner",--({{gallon.thinner_cost}}>0))',
        "nozzles": f'{said_hundredths("{gallon.due}")}&" of a nozzle at "&FIXED({said_hundredths("{size.nozzle_price}")},2)'
                   f'{money}, and the time to change it"',
        "part": f'{_whole("{direct}")}&" of "&{_whole("{cost.direct@scenario}")}{money} direct cost, so the same part of "'
                f'&{_whole("{price.total@scenario}")}{money}"',
    }


def trace_blocks(units):
    """The sheet Trace, in these units."""
    shown, said = figures(), sentences(units)
    path = []
    for key, _, quantity, _ in LINES:
        formula, when = shown[key]
        rounded = formula if quantity in ("seconds", "pressure") else nearest(formula, quantity)
        path += [C(f"shown_{key}", f"Trace, figure: {key}", quantity, rounded, when),
                 C(f"how_{key}", f"Trace, words: {key}", "text", said[key], when)]
    figure, how = (
        Block("trace", "Trace", tuple(
            C(f"{what}{key}", "", quantity if what == "" else "text",
              f"{{path.{'shown' if what == '' else 'how'}_{key}}}") for key, _, quantity, _ in LINES
        ), form="page", place=place, top=TOP, follows=True)
        for what, place in (("", 1), ("how_", 3)))
    return (*chooser("traced", "Trace", CHOICE, 1),
            Block("path", "Views", (*PATH.columns, *path), LINKS, "coat_at", follows=True), figure, how)
# fmt: on


def chosen(est):
    choose(est, "traced")


def trace(est):
    coat_at, path, row = est.rows["traced"][0].coat_at, est.rows["path"][0], est.rows["trace"][0]
    path.coat_at = coat_at
    if coat_at is None:
        return
    _path(est, path, coat_at)
    for key, (value, words) in _lines(est, path, coat_at).items():
        quantity = next(one for name, _, one, _ in LINES if name == key)
        exact = quantity in ("seconds", "pressure")
        setattr(path, f"shown_{key}", value if exact else to_nearest(est, value, quantity))
        setattr(path, f"how_{key}", words)
        row.set(**{key: getattr(path, f"shown_{key}"), f"how_{key}": words})


def _path(est, path, coat_at):
    """What the sentences speak of and no working holds."""
    coat, pick, gallon, hour = (est.row(block, coat_at) for block in ("film", "picks", "gallons", "hours"))
    path.sprayed = 1.0 if pick.live else None
    path.laid = 1.0 if gallon.live and gallon.place is not None else None
    path.scenario = coat.only or 1.0
    if not path.laid:
        return
    path.purchase_at = (path.scenario - 1) * len(est.rows["gallons"]) + gallon.lead
    surface = est.row("surfaces", coat.surface_at)
    path.reach = (1 - pick.loss) * (1 - pick.miss) if coat.sprays else 1 - surface.hand_loss
    buy = est.row("purchases", int(path.purchase_at))
    path.coating = buy.cost * gallon.need / buy.coats_need + gallon.thinner_cost
    if path.sprayed:
        path.gun = pick.pressure * pick.gauge_share**2
        path.nozzles = gallon.due * est.row("nozzles", pick.size_at).nozzle_price + gallon.change_wages
    path.direct = hour.cost + path.coating + (path.nozzles or 0.0)
    at = int(path.scenario) - 1
    path.priced = 1.0 if est.rows["price"][at].live else None
    if path.priced:
        path.part = est.rows["price"][at].total * path.direct / est.rows["cost"][at].direct


class _Said:
    """Figures in words, in the units of the book."""

    def __init__(self, est):
        self.est, self.units, self.slack = est, est.units, est.terms.slack

    def whole(self, value, quantity):
        return f"{floor(self.units.to_cell(value, quantity) + 0.5 + self.slack):,}"

    def percent(self, share):
        return f"{floor(share * 100 + 0.5 + self.slack)} %"

    def near(self, value, quantity):
        return plain(self.units.to_cell(to_nearest(self.est, value, quantity), quantity))

    def fine(self, value, quantity):
        return plain(hundredths(self.est, value, quantity))

    def unit(self, quantity):
        return sign(self.units.shown(quantity))


def _lines(est, path, coat_at):
    """Key of a line -> its figure and how it came about, of the lines that are worked out."""
    coat, entry, gallon, pick = (est.row(block, coat_at) for block in ("film", "coats", "gallons", "picks"))
    said = _Said(est)
    found = _material(est, said, coat, entry, gallon)
    if path.laid:
        found |= _bought(est, said, path, coat, gallon, pick)
        found |= _time(said, path, coat, est.row("hours", coat_at))
    if path.sprayed:
        found |= _gun(est, said, path, coat, entry, pick)
        if path.laid:
            found |= _worn(est, said, path, coat, gallon, pick, est.row("hours", coat_at))
    if path.priced:
        at, money = int(path.scenario) - 1, said.unit("money")
        found["part"] = (
            path.part,
            f"{said.whole(path.direct, 'money')} of {said.whole(est.rows['cost'][at].direct, 'money')} {money} direct "
            f"cost, so the same part of {said.whole(est.rows['price'][at].total, 'money')} {money}",
        )
    return found


def _material(est, said, coat, entry, gallon):
    paint, own = est.row("coatings", coat.coating_at), est.row("systems", coat.system_at)
    count = f"{entry.coats:g} coat{'s' if entry.coats > 1 else ''}"
    share = f" x {gallon.share_told:g} % of it" if gallon.share_told else ""
    film, spread = "bought by spread", "as the data sheet says"
    if not coat.by_spread:
        solids, dry = said.percent(paint.volume_solids), said.fine(coat.dry_film, "film")
        cover = floor(shown_constants(est.units, 0)["cover"] + 0.5 + said.slack)
        film = f"{dry} {said.unit('film')} dry / {solids} solids"
        spread = f"{cover:,} {said.unit('spread')} at 1 {said.unit('film')} x {solids} solids / {dry} {said.unit('film')} dry"
    if coat.thinning:
        film += f" x {said.fine(1 + coat.thinning, 'number')} with its thinner"
    return {
        "area": (
            coat.coated,
            f"{own.lines:g} line{'' if own.lines == 1 else 's'} of Takeoff for {coat.system}, openings taken off",
        ),
        "laid": (coat.surface_coats, f"{said.whole(coat.coated, 'area')} {said.unit('area')} x {count}{share}"),
        "film": (coat.wet_film, film),
        "spread": (coat.spread, f"{spread}, with nothing lost"),
    }


def _bought(est, said, path, coat, gallon, pick):
    surface, volume, money = est.row("surfaces", coat.surface_at), said.unit("volume"), said.unit("money")
    buy = est.row("purchases", int(path.purchase_at))
    card = next(row for row in est.rows["crew_card"] if row.coat_at == coat.no)
    lost = f"{said.percent(surface.hand_loss)} lost by hand"
    if coat.sprays:
        lost = f"{said.percent(pick.loss)} lost as overspray, {said.percent(pick.miss)} past the edges"
    need = (
        f"{said.whole(coat.surface_coats, 'area')} {said.unit('area')} / {said.near(coat.spread, 'spread')} "
        f"{said.unit('spread')} / {said.percent(path.reach)}"
    )
    need += f" x {said.fine(coat.mean_uptake, 'number')} soaked up" if coat.mean_uptake > 1 else ""
    need += f" + {said.percent(gallon.over)} for nozzle wear" if gallon.over > 0 else ""
    cost = f"{said.whole(buy.cost, 'money')} {money}"
    return {
        "reach": (path.reach, lost),
        "need": (gallon.need, need),
        "bought": (
            buy.bought,
            f"its coats, hose, pail and touch-up: {said.fine(buy.total, 'volume')} {volume}; {card.packs}, {cost}",
        ),
        "coating": (
            path.coating,
            f"its {said.near(gallon.need, 'volume')} {volume} of {said.fine(buy.coats_need, 'volume')} bought for {cost}"
            + (", and thinner" if gallon.thinner_cost > 0 else ""),
        ),
    }


def _gun(est, said, path, coat, entry, pick):
    pressure = said.unit("pressure")
    step = plain(shown_constants(est.units, 0)["step_pressure"])
    further = said.near(est.row("trials", int(pick.used_at)).step, "width")
    return {
        "flow": (
            pick.gauge_flow,
            f"{said.fine(pick.orifice, 'orifice')} thou orifice at about "
            f"{said.whole(path.gun, 'pressure')} {pressure} at the gun",
        ),
        "gauge": (
            pick.gauge,
            f"{said.whole(pick.pressure, 'pressure')} {pressure} wanted at the gun + {said.whole(pick.drop, 'pressure')} "
            f"lost in the hose, to a step of {step}; never above {said.whole(pick.pressure_most, 'pressure')}",
        ),
        "hand": (
            pick.stroke_first if entry.coats == 1 else pick.stroke_time,
            f"for {stroke(est.units)}: {said.near(pick.gauge_flow, 'flow')} {said.unit('flow')}, of which "
            f"{said.percent(1 - pick.loss)} lands, laid {said.fine(coat.wet_film, 'film')} {said.unit('film')} wet; "
            f"next pass {further} {said.unit('width')} further",
        ),
    }


def _time(said, path, coat, hour):
    by_hand = f"{said.whole(coat.work_coats, 'area')} {said.unit('area')} by hand, {coat.hands:g} at work"
    sprayed = (
        f"the trigger is {said.percent(hour.trigger_share or 0.0)} of it; the rest is moving, reaching, filling up"
    )
    wage = f"{hundredths(said.est, coat.wage, 'money_hour'):,.2f} {said.unit('money_hour')}"
    return {
        "clock": (hour.elapsed, sprayed if coat.sprays else by_hand),
        "wages": (hour.cost, f"{said.fine(hour.labor, 'time')} h of labor x {wage}, burden included"),
    }


def _worn(est, said, path, coat, gallon, pick, hour):
    price = hundredths(est, est.row("nozzles", pick.size_at).nozzle_price, "money")
    return {
        "trigger": (
            hour.trigger,
            f"{said.fine(gallon.applied, 'volume')} {said.unit('volume')} thinned / {said.near(pick.gauge_flow, 'flow')} "
            f"{said.unit('flow')}, slower as the nozzle wears; {coat.guns:g} gun{'s' if coat.guns > 1 else ''}",
        ),
        "nozzles": (
            path.nozzles,
            f"{said.fine(gallon.due, 'number')} of a nozzle at {price:,.2f} {said.unit('money')}, and the time to change it",
        ),
    }
