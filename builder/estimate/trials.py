"""Nozzle check: every coat tried with every size (E6-E16)."""
from builder.records.reasons import COLUMNS, FITS, REASONS, WEIGHT
from builder.trade import film, spray, wear


def trials(est):
    """One row a coat and size: what the size would do there, and why it does not fit."""
    rows = iter(est.rows["trials"])
    sizes = est.rows["nozzles"]
    for coat in est.rows["films"]:
        for size in sizes:
            row = next(rows)
            row.coat, row.size = coat.no, size.no
            if coat.sprayed and size.ready:
                row.nozzle = size.known
                row.loss = coat.loss * size.loss_factor
                if row.loss < est.terms.loss_limit * (1 - est.terms.slack):
                    row.live = 1.0
                    _try(est.terms, row, coat, size)
                    _judge(est.terms, row, coat, size)


def _try(terms, row, coat, size):
    row.pressure = coat.pressure if coat.own_pressure else coat.pressure * size.pressure_factor
    row.step = film.step(size.fan, coat.clear_width, size.lap, terms.slack)
    row.miss = film.miss(coat.solid, coat.clear_width, film.band(size.fan, coat.clear_width))
    row.flow = spray.flow(terms.cd, size.orifice, row.pressure, coat.density)
    row.set_pressure = spray.set_pressure(row.pressure, coat.resistance, row.flow)
    row.material = film.material(coat.wet_film, coat.mean_uptake, row.loss, row.miss)
    row.gun_speed = spray.gun_speed(row.flow, row.loss, coat.wet_film, row.step)
    row.life = wear.life(size.endurance, row.pressure, coat.abrasion)
    row.change_cost = wear.change_cost(size.nozzle_price, terms.change_time, coat.gun_wage)
    row.waste_rate = wear.waste_rate(terms.excess, coat.paint_price, coat.thinning, terms.slow, coat.gun_wage, row.flow)
    row.interval = wear.interval(row.life, row.change_cost, row.waste_rate)
    row.wear = wear.mean_wear(row.interval, row.life)
    gun_time = spray.gun_time(row.material, terms.slow * row.wear, row.flow, coat.work_ratio, coat.handling)
    row.time = spray.elapsed(gun_time, coat.guns, coat.roll_time)
    row.cost = wear.cost(film.paint(row.material, coat.thinning), terms.excess * row.wear, coat.paint_price, row.time * coat.team, coat.wage,
                         row.material, row.change_cost, row.interval)


def _judge(terms, row, coat, size):
    more, less = 1 + terms.slack, 1 - terms.slack
    flags = {
        "lossy": row.loss > terms.loss_plausible * more,
        "over_rated": row.set_pressure > size.pressure_max * more,
        "over_pump": row.set_pressure > coat.holds * more,
        "starves": row.flow * terms.worn_orifice**2 * coat.guns > coat.pump_flow * more,
        "too_small": size.orifice < coat.orifice_min * less,
        "too_large": size.orifice > coat.orifice_max * more,
        "too_narrow": size.fan < coat.fan_min * less,
        "too_wide": size.fan > coat.fan_max * more,
        "too_coarse": size.rank < coat.rank,
        "over_crew": row.flow > coat.crew_flow * more,
        "too_fast": row.gun_speed > coat.fastest * more,
        "too_slow": row.gun_speed / coat.uptake < coat.slowest * less,
    }
    row.set(**{f"not_{column}": sum(WEIGHT[key] for key in reasons if flags[key]) for column, reasons in COLUMNS.items()})
    row.fits = float(not any(flags.values()))
    row.why = next((REASONS[key] for key, flag in flags.items() if flag), FITS)
