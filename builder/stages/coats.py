"""What belongs to a coat alone, whatever nozzle sprays it (E4-E8, E29, E31, E38, E44, E47-E48, and the limits of
E16).
"""

from builder.records.kinds import KINDS
from builder.records.lookups import BESIDE, place, rank
from builder.records.reasons import FILM_FAULTS
from builder.sheets.alternates import ONLY
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages.constants import WATER_DENSITY
from builder.trade import emission, film, spray, wear
from builder.trade.labor import steps_up
from builder.values import same

# fmt: off
FAULTS = {
    "own_film": '({by_spread}=1)*({entry.dry_film}<>"")',
    "too_many_guns": "({sprays}=1)*({crew.guns}>{pump.guns_max})",
    "too_few_people": "{crew.guns}+{crew.rollers}+{crew.tenders}>{basics.people}",
    "no_roller": "({sprays}=1)*({rolls}=1)*({crew.rollers}=0)",
    "no_roll_rate": '({rolls}=1)*({surface.roll_rate}="")',
    "no_brush_rate": '({sprays}=0)*({rolls}=0)*({surface.brush_rate}="")',
}

def coats_block(units):
    return judging(KINDS["coats"], units,
                   (C("times", "Coat: how often it goes on", "count", 'IF({row.coats}="",1,{row.coats})'),))


FILM = Block("film", "Film", results_first("no coating system fault dry_film wet_film thinning spread loss pressure "
                                           "coated surface_coats", (
    C("no", "Coat", "count", label=lambda number: number),
    C("sound", "Entry without fault", "count", "{entry.sound}", ""),
    C("system_at", "Row of its system", "count", "MATCH({entry.system},{systems.known},0)", "sound"),
    C("coating_at", "Row of its coating", "count", "MATCH({entry.coating},{coatings.known},0)", "sound"),
    C("live", "Worked out", "count", 'IF({system.live}=1,1,"")', "sound"),
    C("system", "System", "text", "{system.name}", "live"),
    C("coating", "Coating", "text", "{paint.name}", "live"),
    C("surface_at", "Row of its surface", "count", "{system.surface_at}", "live"),
    C("pump_at", "Row of its pump", "count", "{system.pump_at}", "live"),
    C("crew_at", "Row of its crew", "count", "{system.crew_at}", "live"),
    C("only", ONLY, "count", "{system.only}", "live"),
    C("method_no", "Number of its method", "count",
      'IF({entry.method}="",{system.method_no},MATCH({entry.method},{words.method},0))', "live"),
    C("sprays", "Sprayed, 0 or 1", "count", "INDEX({words.method_sprays},{method_no})", "live"),
    C("rolls", "Rolled, 0 or 1", "count", "INDEX({words.method_rolls},{method_no})", "live"),
    C("by_spread", "Bought by spread", "count", '--({paint.spread}<>"")', "live"),
    C("practical", "Its spread has the loss in it", "count", '{by_spread}*({paint.spread_is}="practical")', "live"),
    *(C(key, words, "count", f"--(({FAULTS[key]})*1>0)", "live") for key, words in FILM_FAULTS.items()),
    C("faults", "Faults", "count", "SUM({own_film:no_brush_rate})", "live"),
    C("fault", "First fault", "text",
      'IF(N({faults})=0,{entry.fault}&"",INDEX({#own_film:no_brush_rate},1,MATCH(1,{own_film:no_brush_rate},0)))', ""),
    C("passed", "Passed", "count", 'IF({faults}=0,1,"")', "live"),

    C("thinning", "Thinning", "share", '0+IF({entry.thinning}="",{paint.thinning},{entry.thinning})'),
    C("painted", "Bought by film", "count", 'IF({by_spread}=1,"",1)'),
    C("dry_film", "Dry film", "film", 'IF({entry.dry_film}="",{paint.dry_film},{entry.dry_film})', "painted"),
    C("wet_film", "Wet film", "film",
      "(1+{thinning})*IF({by_spread}=1,{constants.cover}/{paint.spread},N({dry_film})/{paint.volume_solids})"),
    C("spread", "Theoretical spread", "spread",
      "IF({by_spread}=1,{paint.spread},{constants.cover}*{paint.volume_solids}/{dry_film})"),
    C("uptake", "Uptake of the first coat", "number", 'IF(({entry.face}="bare")*({by_spread}=0)=1,{surface.uptake},1)'),
    C("mean_uptake", "Mean uptake", "number", "({uptake}+{entry.times}-1)/{entry.times}"),
    C("coats_needed", "Passes this film needs", "count",
      'IF({paint.wet_max}="",1,ROUNDUP(MAX(0,{wet_film}/{paint.wet_max}-{terms.round_slack}),0))'),
    C("sags", "Sags in one pass", "count", "--({coats_needed}>1)"),
    C("voc", "VOC as sprayed, less water", "voc",
      "IF({paint.thinner_voc}=0,0+{paint.voc},({paint.voc}+{thinning}*{paint.thinner_voc})/(1+{thinning}))"),
    C("over_voc", "Above the VOC limit", "count",
      'IF({job.voc_limit}="",0,--({voc}>{job.voc_limit}*(1+{terms.slack})))'),
    C("overthinned", "Thinned beyond its limit", "count", "--({thinning}>{paint.thinning_max}*(1+{terms.slack}))"),
    C("coated", "Coated area", "area", "{system.coated}"),
    C("work", "Work area", "area", "{system.work}"),
    C("measured", "Measured area", "area", "{system.measured}"),
    C("surface_coats", "Coated area times coats", "area",
      '{coated}*{entry.times}*IF({entry.share}="",1,{entry.share})'),
    C("work_coats", "Work area times coats", "area", '{work}*{entry.times}*IF({entry.share}="",1,{entry.share})'),
    C("spots", "Handling of spots over that of one piece", "number",
      'IF({entry.share}="",1,({entry.share}+{terms.walk}*(1-{entry.share}))/{entry.share})'),
    C("work_ratio", "Work over coated area", "number", "IF({coated}=0,1,{work}/{coated})"),
    C("wage", "Wage with burden, of an hour of work", "money_hour",
      'IF({job.wage}="",{crew.wage},{job.wage})*{basics.wage_share}/{basics.productive}'),
    C("guns", "Guns", "count", "{crew.guns}"),
    C("guard_share", "Guards over the area that it coats, one a gun", "per_area",
      "IF({surface_coats}=0,0,{guns}/{surface_coats})", "sprayed"),
    C("hands", "People of the crew", "count", "{crew.guns}+{crew.rollers}+{crew.tenders}"),
    C("paint_price", "Paint price", "money_volume", 'IF({entry.owner_supplied}="yes",0,{paint.price})'),
    C("sprayed", "Sprayed", "count", 'IF({sprays}=1,1,"")'),
    C("by_hand", "By hand", "count", 'IF({sprays}=1,"",1)'),
    C("hand_time", "Time by hand, past what lies between spots too", "area_time",
      "1/IF({rolls}=1,{surface.roll_rate},{surface.brush_rate})"
      "+{surface.handling}*({spots}-1)/{constants.seconds}", "by_hand"),
    C("hand_material", "Material by hand", "yield",
      "{wet_film}*{mean_uptake}/({constants.cover}*IF({practical}=1,1,1-{surface.hand_loss}))", "by_hand"),
    C("hand_film", "Wet film on the face, by hand", "film", "{wet_film}*IF({practical}=1,1-{surface.hand_loss},1)",
      "by_hand"),

    C("loss", "Loss, standard nozzle", "share", "{surface.loss}*{exposure.factor}", "sprayed"),
    C("clear_width", "Width to paint in one go", "width", "{system.shown_width}", "sprayed"),
    C("solid", "Painted share of the face", "share", "{system.shown_solid}", "sprayed"),
    C("pressure", "Gun pressure", "pressure", 'IF({entry.pressure}="",{paint.pressure},{entry.pressure})', "sprayed"),
    C("own_pressure", "Pressure of this coat entered", "count", '--({entry.pressure}<>"")', "sprayed"),
    C("density", "Density as sprayed", "density",
      '({paint.density}+{thinning}*IF({paint.thinner_density}="",{constants.water},{paint.thinner_density}))/(1'
      '+{thinning})', "sprayed"),
    C("hose_guns", "Guns on a hose", "number", '{guns}/MIN({guns},{pump.hose_count})', "sprayed"),
    C("bore", "Bore for a gun, the narrowest of hose and whip", "width",
      'MIN({pump.hose_bore}/{hose_guns},IF({pump.whip_bore}="",{pump.hose_bore}/{hose_guns},{pump.whip_bore}))',
      "sprayed"),
    C("resistance", "Hose loss per flow of a gun", "resistance",
      "{constants.hose}*{paint.viscosity}*({hose_guns}*{pump.run}+{pump.whip_run})", "sprayed"),
    C("holds", "Pump and hose hold", "pressure", "{pump.holds}", "sprayed"),
    C("fed_flow", "Flow of a new nozzle that the pump still feeds once it is worn", "flow",
      "{pump.flow_max}/({guns}*{terms.worn_orifice}^2)", "sprayed"),
    C("crew_flow", "Crew handles", "flow", "{crew.flow_max}", "sprayed"),
    C("team", "People at work", "count", "{crew.guns}+{crew.tenders}+IF({rolls}=1,{crew.rollers},0)", "sprayed"),
    C("team_wage", "Wage of the people at work", "money_hour", "{team}*{wage}", "sprayed"),
    C("change_wage", "Wages while a nozzle is changed", "money", "{terms.change_time}*{team_wage}", "sprayed"),
    C("mixed_price", "Price of what is sprayed, thinned", "money_volume",
      "{paint_price}/(1+{thinning})", "sprayed"),
    C("gun_wage", "Wage of a gun", "money_hour", "{wage}*({crew.guns}+{crew.tenders})/{crew.guns}", "sprayed"),
    C("handling", "Handling", "handling", "{surface.handling}*{crew.handling_factor}*{spots}", "sprayed"),
    C("roll_time", "Rolling behind the gun", "area_time",
      "IF({rolls}=1,{work_ratio}/{surface.roll_rate}/{crew.rollers},0)", "sprayed"),
    C("fastest", "Fastest hand, on a face that takes up no more; a single bare coat is laid slower", "speed",
      "{surface.gun_speed_max}*{crew.gun_speed_factor}*IF({entry.times}=1,{uptake},1)", "sprayed"),
    C("slowest", "Slowest hand", "speed", "{surface.gun_speed_min}", "sprayed"),
    C("fan_min", "Narrowest fan let in", "width", "{surface.fan_min}*(1-{terms.slack})", "sprayed"),
    C("fan_max", "Widest fan let in", "width", "{surface.fan_max}*(1+{terms.slack})", "sprayed"),
    C("orifice_min", "Smallest orifice let in", "orifice", "{paint.orifice_min}*(1-{terms.slack})", "sprayed"),
    C("orifice_max", "Largest orifice let in", "orifice", "{paint.orifice_max}*(1+{terms.slack})", "sprayed"),
    C("rank", "Rank of finish asked", "count", "MAX({system.rank},MATCH({paint.finish},{words.finish},0))", "sprayed"),
    C("smooth", "Smoothest asked", "count", "{system.smooth}", "sprayed"),
    C("abrasion", "Abrasion", "number", "{paint.abrasion}", "sprayed"),
)), {"entry": At("coats", "{no}"), "system": At("systems", "{system_at}"), "paint": At("coatings", "{coating_at}"),
    "surface": At("surfaces", "{surface_at}"), "pump": At("pumps", "{pump_at}"), "crew": At("crews", "{crew_at}"),
    "exposure": At("exposures", "{system.exposure_at}")}, "passed")
# fmt: on


def films(est):
    for row, entry in zip(est.rows["film"], est.rows["coats"]):
        row.sound = entry.sound
        if not row.sound:
            row.fault = entry.fault
            continue
        entry.times = 1.0 if entry.coats is None else entry.coats
        row.system_at = est.judge.at("systems", entry.system)
        row.coating_at = est.judge.at("coatings", entry.coating)
        system, paint = est.row("systems", row.system_at), est.row("coatings", row.coating_at)
        row.live = system.live
        if not row.live:
            continue
        row.system, row.coating = system.name, paint.name
        crew, surface = est.row("crews", system.crew_at), est.row("surfaces", system.surface_at)
        row.surface_at, row.pump_at, row.crew_at = system.surface_at, system.pump_at, system.crew_at
        row.only = system.only
        row.method_no = system.method_no if entry.method is None else place("method", entry.method)
        row.sprays, row.rolls = (BESIDE[f"method_{key}"][row.method_no - 1] for key in ("sprays", "rolls"))
        row.by_spread = float(paint.spread is not None)
        row.practical = row.by_spread * float(same(paint.spread_is) == "practical")
        _faults(row, entry, crew, surface, est.row("pumps", row.pump_at), est.basics.people)
        if row.passed:
            _film(est, row, entry, paint, surface)
            _work(est, row, entry, paint, surface, crew, system)
            if row.sprayed:
                _spray(est, row, entry, paint, surface, crew, system)


def _faults(row, entry, crew, surface, pump, people):
    """Choices that are each allowed and do not go together."""
    flags = {
        "own_film": row.by_spread and entry.dry_film is not None,
        "too_many_guns": row.sprays and crew.guns > pump.guns_max,
        "too_few_people": crew.guns + crew.rollers + crew.tenders > people,
        "no_roller": row.sprays and row.rolls and crew.rollers == 0,
        "no_roll_rate": row.rolls and surface.roll_rate is None,
        "no_brush_rate": not row.sprays and not row.rolls and surface.brush_rate is None,
    }
    row.set(**{key: float(bool(flag)) for key, flag in flags.items()})
    row.faults = float(sum(map(bool, flags.values())))
    row.fault = next((FILM_FAULTS[key] for key, flag in flags.items() if flag), None)
    row.passed = None if row.faults else 1.0


def _film(est, row, entry, paint, surface):
    row.thinning = (paint.thinning or 0.0) if entry.thinning is None else entry.thinning
    if row.by_spread:
        row.wet_film = film.wet_film_of_spread(paint.spread, row.thinning)
        row.spread = paint.spread
    else:
        row.painted = 1.0
        row.dry_film = paint.dry_film if entry.dry_film is None else entry.dry_film
        row.wet_film = film.wet_film(row.dry_film, paint.volume_solids, row.thinning)
        row.spread = film.theoretical_spread(row.dry_film, paint.volume_solids)
    bare = entry.face is not None and same(entry.face) == "bare"
    row.uptake = surface.uptake if bare and not row.by_spread else 1.0
    row.mean_uptake = film.mean_uptake(row.uptake, entry.times)
    slack = est.terms.round_slack
    row.coats_needed = 1.0 if paint.wet_max is None else steps_up(row.wet_film / paint.wet_max, 1, slack)
    row.sags = float(row.coats_needed > 1)
    thinner_voc = paint.thinner_voc or 0.0
    row.voc = emission.thinned_voc(paint.voc or 0.0, row.thinning if thinner_voc else 0.0, thinner_voc)
    row.over_voc = float(est.job.voc_limit is not None and row.voc > est.job.voc_limit * (1 + est.terms.slack))
    row.overthinned = float(row.thinning > (paint.thinning_max or 0.0) * (1 + est.terms.slack))


def _work(est, row, entry, paint, surface, crew, system):
    row.coated, row.work, row.measured = system.coated, system.work, system.measured
    row.surface_coats = row.coated * entry.times * (1.0 if entry.share is None else entry.share)
    row.work_coats = row.work * entry.times * (1.0 if entry.share is None else entry.share)
    row.spots = 1.0 if entry.share is None else spray.spot_handling(entry.share, est.terms.walk or 0.0)
    row.work_ratio = row.work / row.coated if row.coated else 1.0
    wage = crew.wage if est.job.wage is None else est.job.wage
    row.wage = wage * est.basics.wage_share / est.basics.productive
    row.guns = crew.guns
    row.hands = crew.guns + crew.rollers + crew.tenders
    row.paint_price = 0.0 if entry.owner_supplied is not None and same(entry.owner_supplied) == "yes" else paint.price
    if row.sprays:
        row.sprayed = 1.0
    else:
        row.by_hand = 1.0
        rate = surface.roll_rate if row.rolls else surface.brush_rate
        row.hand_time = spray.hand_time(rate, surface.handling, row.spots)
        row.hand_film = film.on_face(row.wet_film, surface.hand_loss, 0.0, row.practical)
        row.hand_material = film.material(row.hand_film, row.mean_uptake, surface.hand_loss, 0.0)


def _spray(est, row, entry, paint, surface, crew, system):
    pump = est.row("pumps", row.pump_at)
    row.loss = film.loss(surface.loss, 1.0, est.row("exposures", system.exposure_at).factor)
    row.clear_width, row.solid = system.shown_width, system.shown_solid
    row.pressure = paint.pressure if entry.pressure is None else entry.pressure
    row.own_pressure = float(entry.pressure is not None)
    row.density = film.thinned_density(
        paint.density, row.thinning, WATER_DENSITY if paint.thinner_density is None else paint.thinner_density
    )
    row.hose_guns = spray.guns_on_hose(row.guns, pump.hose_count)
    row.bore = min(pump.hose_bore / row.hose_guns, pump.whip_bore or pump.hose_bore)
    row.resistance = spray.resistance(paint.viscosity, row.hose_guns, pump.run)
    row.resistance += spray.resistance(paint.viscosity, 1.0, pump.whip_run)
    row.holds = pump.holds
    row.fed_flow = pump.flow_max / (row.guns * est.terms.worn_orifice**2)
    row.crew_flow = crew.flow_max
    row.team = crew.guns + crew.tenders + (crew.rollers if row.rolls else 0.0)
    row.team_wage = row.team * row.wage
    row.change_wage = est.terms.change_time * row.team_wage
    row.mixed_price = row.paint_price / (1 + row.thinning)
    row.gun_wage = row.wage * (crew.guns + crew.tenders) / crew.guns
    row.handling = surface.handling * crew.handling_factor * row.spots
    row.roll_time = row.work_ratio / surface.roll_rate / crew.rollers if row.rolls else 0.0
    row.fastest = surface.gun_speed_max * crew.gun_speed_factor * (row.uptake if entry.times == 1 else 1.0)
    row.slowest = surface.gun_speed_min
    less, more = 1 - est.terms.slack, 1 + est.terms.slack
    row.fan_min, row.fan_max = surface.fan_min * less, surface.fan_max * more
    row.orifice_min, row.orifice_max = paint.orifice_min * less, paint.orifice_max * more
    row.rank = max(system.rank, rank(paint.finish))
    row.guard_share = wear.guard_share(row.guns, row.surface_coats)
    row.smooth = system.smooth
    row.abrasion = paint.abrasion


def counts(est):
    """How many coats each system has."""
    for system in est.rows["systems"]:
        if system.live:
            system.coat_rows = float(sum(bool(row.passed) and row.system_at == system.no for row in est.rows["film"]))
