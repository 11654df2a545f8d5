"""Nozzle check: every coat tried with every size, and why it does not fit (E6-E16, E47, E48)."""

from builder.records.reasons import WEIGHT
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.trade import film, spray, wear

# fmt: off
TESTS = {
    "lossy": "{loss}>{terms.loss_plausible}*(1+{terms.slack})",
    "over_rated": "{set_pressure}>{size.pressure_max}*(1+{terms.slack})",
    "over_pump": "{set_pressure}>{coat.holds}*(1+{terms.slack})",
    "starves": "{flow}>{coat.fed_flow}*(1+{terms.slack})",
    "too_small": "{size.orifice}<{coat.orifice_min}",
    "too_large": "{size.orifice}>{coat.orifice_max}",
    "too_narrow": "{size.fan}<{coat.fan_min}",
    "too_wide": "{size.fan}>{coat.fan_max}",
    "too_coarse": "{size.rank}<{coat.rank}",
    "over_crew": "{flow}>{coat.crew_flow}*(1+{terms.slack})",
    "too_fast": "{gun_speed}>{coat.fastest}*(1+{terms.slack})",
    "too_slow": "{gun_speed}/{coat.uptake}<{coat.slowest}*(1-{terms.slack})",
}


# What speaks against a size, in three steps. Each reason doubles what stands before it and adds 1 where it holds, so
# that the last column is the sum of the weights of all that hold: 0 where the size fits.
STEPS = {
    "against_pump": ("Against it: loss, ratings, pump", ("lossy", "over_rated", "over_pump", "starves")),
    "against_shape": ("Against it: those, orifice and fan", ("too_small", "too_large", "too_narrow", "too_wide")),
    "against": ("Against it: all reasons, each by its weight", ("too_coarse", "over_crew", "too_fast", "too_slow")),
}


def _against():
    sum_of = ""
    for key, (title, reasons) in STEPS.items():
        for reason in reasons:
            sum_of = f"({sum_of})*2+({TESTS[reason]})" if sum_of else f"({TESTS[reason]})"
        yield C(key, title, "count", sum_of)
        sum_of = f"{{{key}}}"


def trials_block(sizes):
    """`sizes`: rows of the nozzle catalog, spare ones included."""
    return Block("trials", "Nozzle check", results_first("coat size_at against cost flow gun_speed set_pressure", (
        C("coat", "Coat", "count", label=lambda number: (number - 1) // sizes + 1),
        C("size_at", "Size, row", "count", label=lambda number: (number - 1) % sizes + 1),
        C("loss", "Loss", "share", 'IF(({coat.sprayed}=1)*({size.sound}=1)=1,{coat.loss}*{family.loss_factor},"")', ""),
        C("pressure", "Gun pressure; blank where next to nothing would land", "pressure",
          "IF({loss}<{terms.loss_limit}*(1-{terms.slack}),"
          "{coat.pressure}*({coat.own_pressure}+(1-{coat.own_pressure})*{family.pressure_factor}),\"\")", "loss"),
        C("miss", "Miss", "share", "1-{coat.solid}*{coat.clear_width}/MAX({size.fan},{coat.clear_width}+{size.fan}/4)"),
        C("flow", "Flow", "flow", "{terms.cd}*{constants.jet}*{size.orifice}^2*SQRT({pressure}/{coat.density})"),
        C("set_pressure", "Set pressure", "pressure", "{pressure}+{coat.resistance}*{flow}"),
        C("material", "Material", "yield",
          "{coat.wet_film}*{coat.mean_uptake}/({constants.cover}*IF({coat.practical}=1,1,(1-{loss})*(1-{miss})))"),
        C("gun_speed", "Hand speed", "speed",
          "{constants.pace}*{flow}*IF({coat.practical}=1,1/(1-{miss}),1-{loss})"
          "/({coat.wet_film}*IF({coat.clear_width}<={size.fan}*(1+{terms.slack}),{size.fan},{size.lap}))"),
        C("life", "Life", "volume", "{size.endurance}/({pressure}*{coat.abrasion})"),
        C("interval", "Replace after", "volume",
          "{life}/SQRT(MAX(1,{life}*({terms.excess}*{coat.mixed_price}+{terms.slow}*{coat.gun_wage}/({flow}"
          "*{constants.hour}))/(2*({size.nozzle_price}+{coat.change_wage}))))"),
        C("time", "Elapsed per area", "area_time",
          "MAX(({material}*(1+{terms.slow}*{interval}/(2*{life}))/({flow}*{constants.hour})+{coat.work_ratio}"
          "*{coat.handling}/{constants.seconds})/{coat.guns},{coat.roll_time})"),
        C("cost", "Cost per area", "money_area",
          "{material}*(1+{terms.excess}*{interval}/(2*{life}))*({coat.mixed_price}+({size.nozzle_price}+{coat.change_wage})/{interval})"
          "+{time}*{coat.team_wage}+{size.guard_cost}*{coat.guard_share}"),
        *_against(),
    )), {"coat": At("film", "{coat}"), "size": At("nozzles", "{size_at}"),
        "family": At("families", "{size.family_at}")}, "pressure")
# fmt: on


def trials(est):
    """One row a coat and size: what the size would do there, and why it does not fit."""
    rows = iter(est.rows["trials"])
    sizes = est.rows["nozzles"]
    for coat in est.rows["film"]:
        for size in sizes:
            row = next(rows)
            row.coat, row.size_at = coat.no, size.no
            if coat.sprayed and size.sound:
                family = est.row("families", size.family_at)
                row.loss = coat.loss * family.loss_factor
                if row.loss < est.terms.loss_limit * (1 - est.terms.slack):
                    row.pressure = coat.pressure * (1.0 if coat.own_pressure else family.pressure_factor)
                    _try(est.terms, row, coat, size)
                    row.cost += size.guard_cost * coat.guard_share
                    _judge(est.terms, row, coat, size)


def _try(terms, row, coat, size):
    row.miss = film.miss(coat.solid, coat.clear_width, film.band(size.fan, coat.clear_width))
    row.flow = spray.flow(terms.cd, size.orifice, row.pressure, coat.density)
    row.set_pressure = spray.set_pressure(row.pressure, coat.resistance, row.flow)
    laid = film.on_face(coat.wet_film, row.loss, row.miss, coat.practical)
    row.material = film.material(laid, coat.mean_uptake, row.loss, row.miss)
    row.gun_speed = spray.gun_speed(
        row.flow, row.loss, laid, film.step(size.fan, coat.clear_width, size.lap, terms.slack)
    )
    row.life = wear.life(size.endurance, row.pressure, coat.abrasion)
    change_cost = wear.change_cost(size.nozzle_price, terms.change_time, coat.team * coat.wage)
    waste_rate = wear.waste_rate(terms.excess, coat.paint_price, coat.thinning, terms.slow, coat.gun_wage, row.flow)
    row.interval = wear.interval(row.life, change_cost, waste_rate)
    mean_wear = wear.mean_wear(row.interval, row.life)
    gun_time = spray.gun_time(row.material, terms.slow * mean_wear, row.flow, coat.work_ratio, coat.handling)
    row.time = spray.elapsed(gun_time, coat.guns, coat.roll_time)
    row.cost = wear.cost(
        film.paint(row.material, coat.thinning),
        terms.excess * mean_wear,
        coat.paint_price,
        row.time * coat.team,
        coat.wage,
        row.material,
        change_cost,
        row.interval,
    )


def _judge(terms, row, coat, size):
    more, less = 1 + terms.slack, 1 - terms.slack
    holds = {
        "lossy": row.loss > terms.loss_plausible * more,
        "over_rated": row.set_pressure > size.pressure_max * more,
        "over_pump": row.set_pressure > coat.holds * more,
        "starves": row.flow > coat.fed_flow * more,
        "too_small": size.orifice < coat.orifice_min,
        "too_large": size.orifice > coat.orifice_max,
        "too_narrow": size.fan < coat.fan_min,
        "too_wide": size.fan > coat.fan_max,
        "too_coarse": size.rank < coat.rank,
        "over_crew": row.flow > coat.crew_flow * more,
        "too_fast": row.gun_speed > coat.fastest * more,
        "too_slow": row.gun_speed / coat.uptake < coat.slowest * less,
    }
    row.against = sum(WEIGHT[key] for key, held in holds.items() if held)
    row.against_pump, row.against_shape = row.against // 2**8, row.against // 2**4
