"""Gallons of each coat, and what is bought of each coating and colour (E18-E19)."""
from math import floor

from builder.estimate.scenarios import NAMES, SCENARIOS, included
from builder.records.words import WORDS
from builder.rules import same
from builder.trade import film, packs


def gallons(est):
    for row, coat, layer, pick in zip(est.rows["gallons"], est.rows["coats"], est.rows["films"], est.rows["picks"]):
        row.guns = row.fill = 0.0
        row.live = 1.0 if pick.live or layer.by_hand else None
        if not row.live:
            continue
        row.system_at, row.coating_at, row.only = layer.system_at, layer.coating_at, layer.only
        row.material = layer.hand_material if layer.by_hand else pick.material
        row.over = 0.0 if layer.by_hand else pick.over
        row.applied = layer.surface_coats * row.material * (1 + row.over)
        row.need = film.paint(row.applied, layer.thinning)
        row.thinner = row.need * layer.thinning
        paint = est.row("coatings", row.coating_at)
        row.voc_mass = row.need * (paint.voc or 0.0) + row.thinner * (paint.thinner_voc or 0.0)
        row.thinner_cost = row.thinner * (paint.thinner_price or 0.0)
        owner = coat.owner_supplied is not None and same(coat.owner_supplied) == "yes"
        colour = "" if coat.colour is None else f" / {est.judge.as_text(coat.colour)}"
        row.what = f"{coat.coating}{colour}{' (owner supplies)' if owner else ''}"
        row.size_at = None if layer.by_hand else pick.size_at
        row.due = 0.0 if layer.by_hand else row.applied / pick.interval
        row.change_wages = row.due * est.terms.change_time * (layer.gun_wage or 0.0)
        row.spent = 0.0 if layer.by_hand else row.applied / pick.life
        if layer.sprayed:
            pump = est.row("pumps", layer.pump_at)
            row.guns, row.fill = layer.guns, pump.content + pump.heel
        row.share_told = 0.0 if coat.share is None else float(max(1, floor(coat.share * 100 + 0.5 + est.terms.slack)))
        row.work = _in_words(row, coat, layer, owner, est.judge.as_text)
        if row.applied > 0:
            row.place = float((row.only * 100 + row.system_at) * 100 + row.no)
    first = {}
    for row in est.rows["gallons"]:
        if row.live:
            row.lead = first.setdefault(same(row.what), row.no)


def _in_words(row, coat, layer, owner, as_text):
    """'2 coats of Interior wall flat, sprayed'"""
    count = f"{coat.coats:g} coat{'s' if coat.coats > 1 else ''} of {as_text(coat.coating)}, {WORDS['done'][layer.method_no - 1]}"
    row.part_told = f", on about {row.share_told:g} % of the area" if 0 < row.share_told < 100 else ""
    row.part_told += ", which you supply" if owner else ""
    return count + row.part_told


def purchases(est):
    """One row a scenario and coat; the first coat of each coating and colour buys for all of them."""
    rows = iter(est.rows["purchases"])
    for scenario in SCENARIOS:
        for coat in est.rows["gallons"]:
            row = next(rows)
            row.scenario, row.coat = scenario, coat.no
            row.scenario_name = NAMES[scenario - 1]
            row.coats_need = sum(other.need * included(other, scenario) for other in est.rows["gallons"]
                                 if other.live and other.lead == coat.no) if coat.lead == coat.no else 0.0
            row.live = 1.0 if row.coats_need > 0 else None
            if row.live:
                _buy(est, row, coat)


def _buy(est, row, coat):
    row.what, row.paint_at = coat.what, coat.coating_at
    paint = est.row("coatings", row.paint_at)
    alike = [other for other in est.rows["gallons"] if other.lead == coat.no]
    row.line_fill = max(other.fill * included(other, row.scenario) for other in alike)
    row.touch_up = est.terms.touch_up
    row.total = row.coats_need + row.line_fill + row.touch_up
    offered = tuple((getattr(paint, f"pack{number}_size"), getattr(paint, f"pack{number}_price")) for number in (1, 2, 3))
    bought = packs.least_cost(row.total, offered, est.terms.round_slack)
    row.set(larges=bought.larges, rest=tuple(one.rest for one in bought.rests), rest_cost=tuple(one.cost for one in bought.rests),
            middle_taken=tuple(one.middle for one in bought.rests), case_cost=bought.costs, choice=float(bought.choice),
            small=bought.small, middle=bought.middle, large=bought.large)
    row.rest_choice = tuple(float(one.choice) for one in bought.rests)
    row.middle_fit, row.middle_more = (tuple(one.middles[place] for one in bought.rests) for place in (1, 2))
    row.cost_none, row.cost_fit, row.cost_more = (tuple(one.costs[place] for one in bought.rests) for place in (0, 1, 2))
    row.bought = sum(number * (size or 0.0) for number, (size, _) in zip((row.small, row.middle, row.large), offered))
    owners = same(est.row("coats", coat.no).owner_supplied or "") == "yes"
    row.from_owner, row.cost = (row.bought, 0.0) if owners else (0.0, bought.cost)
    row.left_over = row.bought - row.total
