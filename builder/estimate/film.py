"""What belongs to a coat alone, whatever nozzle sprays it (E4-E8, and the limits of E16)."""
from builder.estimate.areas import place
from builder.estimate.constants import WATER_DENSITY
from builder.estimate.scenarios import copies, most
from builder.estimate.stock import rank
from builder.records.reasons import FILM_FAULTS
from builder.records.words import BESIDE
from builder.rules import same
from builder.trade import emission, film, spray
from builder.trade.labor import steps_up


def films(est):
    for row, coat in zip(est.rows["films"], est.rows["coats"]):
        row.entered = coat.ready
        if not row.entered:
            row.fault = coat.fault
            continue
        row.system_at = est.judge.at("systems", coat.system)
        row.coating_at = est.judge.at("coatings", coat.coating)
        system, paint = est.row("systems", row.system_at), est.row("coatings", row.coating_at)
        row.live = system.live
        if not row.live:
            continue
        row.system, row.coating = system.name, paint.name
        crew, surface = est.row("crews", system.crew_at), est.row("surfaces", system.surface_at)
        row.surface_at, row.pump_at, row.crew_at = system.surface_at, system.pump_at, system.crew_at
        row.only = system.only
        row.method_no = system.method_no if coat.method is None else place("method", coat.method)
        row.sprays, row.rolls = (BESIDE[f"method_{key}"][row.method_no - 1] for key in ("sprays", "rolls"))
        row.by_spread = float(paint.spread is not None)
        _faults(row, coat, crew, surface, est.row("pumps", row.pump_at), est.job.people)
        if row.sound:
            _film(est, row, coat, paint, surface)
            _work(est, row, coat, paint, surface, crew, system)
            if row.sprayed:
                _spray(est, row, coat, paint, surface, crew, system)


def _faults(row, coat, crew, surface, pump, people):
    """Choices that are each allowed and do not go together."""
    flags = {
        "own_film": row.by_spread and coat.dry_film is not None,
        "too_many_guns": row.sprays and crew.guns > pump.guns_max,
        "too_few_people": crew.guns + crew.rollers + crew.tenders > people,
        "no_roller": row.sprays and row.rolls and crew.rollers == 0,
        "no_roll_rate": row.rolls and surface.roll_rate is None,
        "no_brush_rate": not row.sprays and not row.rolls and surface.brush_rate is None,
    }
    row.set(**{key: float(bool(flag)) for key, flag in flags.items()})
    row.faults = float(sum(map(bool, flags.values())))
    row.fault = next((FILM_FAULTS[key] for key, flag in flags.items() if flag), None)
    row.sound = None if row.faults else 1.0


def _film(est, row, coat, paint, surface):
    row.thinning = (paint.thinning or 0.0) if coat.thinning is None else coat.thinning
    if row.by_spread:
        row.wet_film = film.wet_film_of_spread(paint.spread, row.thinning)
        row.spread = paint.spread
    else:
        row.painted = 1.0
        row.dry_film = paint.dry_film if coat.dry_film is None else coat.dry_film
        row.wet_film = film.wet_film(row.dry_film, paint.volume_solids, row.thinning)
        row.spread = film.theoretical_spread(row.dry_film, paint.volume_solids)
    bare = coat.face is not None and same(coat.face) == "bare"
    row.uptake = surface.uptake if bare and not row.by_spread else 1.0
    row.mean_uptake = film.mean_uptake(row.uptake, coat.coats)
    slack = est.terms.round_slack
    row.coats_needed = 1.0 if paint.wet_max is None else steps_up(row.wet_film / paint.wet_max, 1, slack)
    row.sags = float(row.coats_needed > 1)
    thinner_voc = paint.thinner_voc or 0.0
    row.voc = emission.thinned_voc(paint.voc or 0.0, row.thinning if thinner_voc else 0.0, thinner_voc)
    row.over_voc = float(est.job.voc_limit is not None and row.voc > est.job.voc_limit * (1 + est.terms.slack))
    row.overthinned = float(row.thinning > (paint.thinning_max or 0.0) * (1 + est.terms.slack))


def _work(est, row, coat, paint, surface, crew, system):
    row.coated, row.work, row.measured = system.coated, system.work, system.measured
    row.surface_coats = row.coated * coat.coats * (1.0 if coat.share is None else coat.share)
    row.work_coats = row.work * coat.coats * (1.0 if coat.share is None else coat.share)
    row.work_ratio = row.work / row.coated if row.coated else 1.0
    row.chain = coat.coats * paint.recoat
    row.wage = (crew.wage if est.job.wage is None else est.job.wage) * (1 + est.terms.burden)
    row.guns = crew.guns
    row.hands = crew.guns + crew.rollers + crew.tenders
    row.paint_price = 0.0 if coat.owner_supplied is not None and same(coat.owner_supplied) == "yes" else paint.price
    if row.sprays:
        row.sprayed = 1.0
    else:
        row.by_hand = 1.0
        row.hand_rate = surface.roll_rate if row.rolls else surface.brush_rate
        row.hand_material = film.material(row.wet_film, row.mean_uptake, surface.hand_loss, 0.0)


def _spray(est, row, coat, paint, surface, crew, system):
    pump = est.row("pumps", row.pump_at)
    row.loss = film.loss(surface.loss, 1.0, est.row("exposures", system.exposure_at).factor)
    row.clear_width, row.solid = system.shown_width, system.shown_solid
    row.pressure = paint.pressure if coat.pressure is None else coat.pressure
    row.own_pressure = float(coat.pressure is not None)
    row.density = film.thinned_density(paint.density, row.thinning, WATER_DENSITY if paint.thinner_density is None else paint.thinner_density)
    row.resistance = spray.resistance(paint.viscosity, row.guns, pump.run)
    row.holds, row.pump_flow = pump.holds, pump.flow_max
    row.crew_flow = crew.flow_max
    row.team = crew.guns + crew.tenders + (crew.rollers if row.rolls else 0.0)
    row.gun_wage = row.wage * (crew.guns + crew.tenders) / crew.guns
    row.handling = surface.handling * crew.handling_factor
    row.roll_time = row.work_ratio / surface.roll_rate / crew.rollers if row.rolls else 0.0
    row.fastest, row.slowest = surface.gun_speed_max * crew.gun_speed_factor, surface.gun_speed_min
    row.fan_min, row.fan_max = surface.fan_min, surface.fan_max
    row.orifice_min, row.orifice_max = paint.orifice_min, paint.orifice_max
    row.rank = max(system.rank, rank(paint.finish))
    row.smooth = system.smooth
    row.abrasion = paint.abrasion


def chains(est):
    """Drying time that a system's coats need one after another, in each scenario (E21)."""
    for system in est.rows["systems"]:
        if system.live:
            total = sum(row.chain for row in est.rows["films"] if row.sound and row.system_at == system.no)
            system.coat_rows = float(sum(bool(row.sound) and row.system_at == system.no for row in est.rows["films"]))
            busy = float(system.lines > 0)
            system.chain = tuple(total * busy * flag for flag in system.scenarios)
    est.rows["systems"][0].chain_most = copies(est.rows["systems"], "chain", most)
