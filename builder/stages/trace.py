"""Trace: how the figures of one coat came about, a line at a time, in words with the numbers in them.

A second view of the calculation, in the open book: each line is worked out of the workings by formulas, and rounded for
reading alone.
"""

from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.stages.brief import plain
from builder.stages.choice import stroke
from builder.stages.constants import shown_constants
from builder.stages.crew import sign
from builder.stages.in_use import choose, chooser
from builder.stages.path import FIGURES, LINKS, follow, path_columns

# fmt: off
CHOICE, TOP = 4, 7                                     # the rows of the chooser, of the first line
# key, what, where it comes from
LINES = (
    ("area", "Measured", "Takeoff, Openings, Surfaces"),
    ("laid", "To coat", "Paint"),
    ("film", "Wet film", "Coatings, Paint"),
    ("spread", "", "Coatings; geometry"),              # '1 gal covers'
    ("reach", "Reaches it", "Surfaces, Lists, Nozzle sizes"),
    ("need", "Takes", "working Gallons"),
    ("bought", "Bought", "working Purchases"),
    ("flow", "Flow", "Nozzle sizes; Terms: discharge"),
    ("gauge", "Set to", "Coatings, Pumps"),
    ("hand", "Hand", "flow, fan and wet film"),
    ("trigger", "Trigger", "working Hours"),
    ("clock", "On the clock", "Surfaces, Lists"),
    ("wages", "Wages", "Lists: crews; Terms: labor"),
    ("coating", "Coating", "Coatings: packs"),
    ("nozzles", "Nozzles", "Wear budget"),
    ("part", "Of the price", "Price"),
)
MAIN = ("need", "clock", "part")                       # what most people look for


def _units(units):
    named = ("area", "volume", "film", "spread", "pressure", "width", "flow", "money", "money_hour")
    return {one: sign(units.shown(one)) for one in named}


def _sentences(units):
    """Key of a line -> how it came about, as formula text."""
    unit = _units(units)
    return {
        "area": '{own.lines}&" line"&REPT("s",--({own.lines}<>1))&" of Takeoff, openings taken off"',
        "laid": f'{{say_area}}&" {unit["area"]} x "&{{entry.times}}&" coat"&REPT("s",--({{entry.times}}>1))&REPT(" x "'
                '&{gallon.share_told}&" % of it",--(N({gallon.share_told})>0))',
        "film": f'IF({{coat.by_spread}}=1,"bought by spread",{{say_dry}}&" {unit["film"]} dry / "&{{say_solids}}'
                '&" % solids")&REPT(" x "&{say_thin}&" with its thinner",--({say_thin}>1))',
        "spread": f'IF({{coat.by_spread}}=1,"as the data sheet says",{{say_cover}}&" {unit["spread"]} at '
                  f'1 {unit["film"]} x "'
                  f'&{{say_solids}}&" % solids / "&{{say_dry}}&" {unit["film"]} dry")&", with nothing lost"',
        "reach": '{say_lost}&" % lost"&IF({coat.sprays}=1," as overspray, "&{say_edges}&" % past the edges"," '
                 'by hand")&REPT(", in the spread already",{coat.practical})',
        "need": f'{{say_laid}}&" {unit["area"]} / "&{{say_spread}}&" {unit["spread"]}"&REPT(" / "&{{say_reach}}&" %",'
                '1-{coat.practical})&REPT(" x "'
                '&{say_uptake}&" soaked up",--({say_uptake}>1))&REPT(" + "&{say_wear}'
                '&" % for nozzle wear",--({say_wear}>0))',
        "bought": f'"its coats, hose, pail and touch-up: "&{{say_total}}&" {unit["volume"]}; "&{{card.packs}}&", "'
                  f'&{{say_paid}}&" {unit["money"]}"',
        "flow": f'{{pick.orifice}}&" thou orifice at about "&{{say_gun}}&" {unit["pressure"]} at the gun"',
        "gauge": f'{{say_wanted}}&" {unit["pressure"]} wanted at the gun + "&{{say_drop}}&" lost in the hose, to '
                 f'a step of "'
                 '&{constants.step_pressure}&"; never above "&{say_most}',
        "hand": f'"for {stroke(units)}: "&{{say_flow}}&" {unit["flow"]}, of which "&{{say_lands}}&" % lands, laid "'
                f'&{{say_laid_film}}&" {unit["film"]} wet; next pass "&{{say_further}}&" {unit["width"]} further"',
        "trigger": f'{{say_applied}}&" {unit["volume"]} thinned / "&{{say_flow}}&" {unit["flow"]}, slower '
                   f'as the nozzle '
                   'wears; "&{coat.guns}&" gun"&REPT("s",--({coat.guns}>1))',
        "clock": 'IF({coat.sprays}=1,"the trigger is "&{say_trigger}&" % of it; the rest is moving, reaching, '
                 'filling up",'
                 f'{{say_work}}&" {unit["area"]} by hand, "&{{coat.hands}}&" at work")',
        "wages": f'{{say_labor}}&" h of labor x "&{{say_wage}}&" {unit["money_hour"]}, burden and lost time included"',
        "coating": f'"its part, "&{{say_need}}&" of "&{{say_used}}&" {unit["volume"]}, of the "&{{say_paid}}'
                   f'&" {unit["money"]} '
                   'paid"&REPT(", and thinner",--({gallon.thinner_cost}>0))',
        "nozzles": f'{{say_due}}&" of a nozzle at "&{{say_price}}&" {unit["money"]}, and the time to change it"',
        "part": f'{{say_direct}}&" of "&{{say_all}}&" {unit["money"]} direct cost, so the same part of "&{{say_job}}'
                f'&" {unit["money"]}"',
    }


def trace_blocks(units):
    """The sheet Trace, in these units."""
    how = tuple(C(f"how_{key}", f"Trace, words: {key}", "text", text, FIGURES[key][2])
                for key, text in _sentences(units).items())
    lines = (
        Block("trace", "Trace", tuple(C(key, "", FIGURES[key][0], f"{{path.shown_{key}}}") for key, _, _ in LINES),
              form="page", place=1, top=TOP, follows=True),
        Block("trace", "Trace", tuple(C(f"how_{key}", "", "text", f"{{path.how_{key}}}") for key, _, _ in LINES),
              form="page", place=3, top=TOP, follows=True),
    )
    path = Block("path", "Views", (*path_columns(), *how), LINKS, "coat_at", follows=True)
    return (*chooser("traced", "Trace", CHOICE, 1, (CHOICE + 1, 0)), path, *lines)
# fmt: on


def chosen(est):
    choose(est, "traced")


def trace(est):
    coat_at, path, row = est.rows["traced"][0].coat_at, est.rows["path"][0], est.rows["trace"][0]
    if coat_at is None:
        return
    follow(est, path, coat_at)
    for key, words in _said(est, path, coat_at).items():
        setattr(path, f"how_{key}", words)
        row.set(**{key: getattr(path, f"shown_{key}"), f"how_{key}": words})


def _said(est, path, coat_at):
    """Key of a line -> how it came about, of the lines that are worked out."""
    coat, entry, gallon, pick = (est.row(block, coat_at) for block in ("film", "coats", "gallons", "picks"))
    unit = _units(est.units)
    found = _material(est, path, coat, entry, gallon, unit)
    if path.live:
        found |= _bought(est, path, coat, gallon, unit)
    if path.sprayed:
        found |= _gun(est, path, pick, unit)
    if path.sprayed and path.live:
        guns = f"{coat.guns:g} gun{'s' if coat.guns > 1 else ''}"
        found["trigger"] = (
            f"{path.say_applied} {unit['volume']} thinned / {path.say_flow} {unit['flow']}, "
            f"slower as the "
            f"nozzle wears; {guns}"
        )
        found["nozzles"] = f"{path.say_due} of a nozzle at {path.say_price} {unit['money']}, and the time to change it"
    if path.priced:
        money = unit["money"]
        found["part"] = (
            f"{path.say_direct} of {path.say_all} {money} direct cost, so the same part of {path.say_job} {money}"
        )
    return found


def _material(est, path, coat, entry, gallon, unit):
    own, film, spread = est.row("systems", coat.system_at), "bought by spread", "as the data sheet says"
    if not coat.by_spread:
        dry, solids = f"{plain(path.say_dry)} {unit['film']} dry", f"{path.say_solids:g} % solids"
        film = f"{dry} / {solids}"
        spread = f"{path.say_cover} {unit['spread']} at 1 {unit['film']} x {solids} / {dry}"
    film += f" x {plain(path.say_thin)} with its thinner" if path.say_thin > 1 else ""
    share = f" x {gallon.share_told:g} % of it" if gallon.share_told else ""
    lines = f"{own.lines:g} line{'' if own.lines == 1 else 's'}"
    return {
        "area": f"{lines} of Takeoff, openings taken off",
        "laid": f"{path.say_area} {unit['area']} x {entry.times:g} coat{'s' if entry.times > 1 else ''}{share}",
        "film": film,
        "spread": f"{spread}, with nothing lost",
    }


def _bought(est, path, coat, gallon, unit):
    card = next(row for row in est.rows["crew_card"] if row.coat_at == coat.no)
    need = f"{path.say_laid} {unit['area']} / {plain(path.say_spread)} {unit['spread']}"
    need += "" if coat.practical else f" / {path.say_reach:g} %"
    need += f" x {plain(path.say_uptake)} soaked up" if path.say_uptake > 1 else ""
    need += f" + {path.say_wear:g} % for nozzle wear" if path.say_wear > 0 else ""
    thinner = ", and thinner" if gallon.thinner_cost > 0 else ""
    clock = f"{path.say_work} {unit['area']} by hand, {coat.hands:g} at work"
    if coat.sprays:
        clock = f"the trigger is {path.say_trigger:g} % of it; the rest is moving, reaching, filling up"
    return {
        "reach": f"{path.say_lost:g} % lost"
        + (f" as overspray, {path.say_edges:g} % past the edges" if coat.sprays else " by hand")
        + (", in the spread already" if coat.practical else ""),
        "need": need,
        "bought": f"its coats, hose, pail and touch-up: {path.say_total} {unit['volume']}; {card.packs}, "
        f"{path.say_paid} {unit['money']}",
        "clock": clock,
        "wages": f"{path.say_labor} h of labor x {path.say_wage} {unit['money_hour']}, burden and lost time included",
        "coating": f"its part, {plain(path.say_need)} of {path.say_used} {unit['volume']}, of the "
        f"{path.say_paid} "
        f"{unit['money']} paid{thinner}",
    }


def _gun(est, path, pick, unit):
    orifice, step = est.units.to_cell(pick.orifice, "orifice"), shown_constants(est.units, 0)["step_pressure"]
    return {
        "flow": f"{orifice:.10g} thou orifice at about {path.say_gun} {unit['pressure']} at the gun",
        "gauge": f"{path.say_wanted} {unit['pressure']} wanted at the gun + {path.say_drop} lost in the "
        f"hose, to a step of "
        f"{step:g}; never above {path.say_most}",
        "hand": f"for {stroke(est.units)}: {path.say_flow} {unit['flow']}, of which {path.say_lands:g} "
        f"% lands, laid "
        f"{plain(path.say_laid_film)} {unit['film']} wet; next pass {plain(path.say_further)} {unit['width']} further",
    }
