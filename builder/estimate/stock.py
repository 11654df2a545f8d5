"""What the catalogues say of a record beyond its fields: a nozzle's fan and orifice, a coating's least price, a pump's hose."""
from builder.estimate.constants import INCH, WATER_DENSITY
from builder.quantities import scale
from builder.records.words import WORDS
from builder.rules import is_number, same, size_digits
from builder.trade import film, spray, wear

THOU = scale("thou")


def rank(word):
    """The place of a finish word, from 1."""
    return float(list(map(same, WORDS["finish"])).index(same(word)) + 1)


def nozzle_name(row):
    """'standard 515'"""
    size = row.size if isinstance(row.size, str) else f"{row.size:g}"
    return f"{row.family} {size}"


def nozzles(est):
    """Fan and orifice from the size, the rest from the family."""
    for row in est.rows["nozzles"]:
        if not row.ready:
            continue
        row.family_at = est.judge.at("families", row.family)
        family = est.row("families", row.family_at)
        digits = size_digits(row.size)
        row.set(fan=2 * (digits // 100) * INCH, orifice=digits % 100 * THOU, loss_factor=family.loss_factor,
                pressure_factor=family.pressure_factor, rank=rank(family.finish), pressure_max=family.pressure_max)
        overlap = est.terms.overlap if is_number(est.terms.overlap) else 0.0
        row.lap = film.lap(row.fan, overlap)
        row.endurance = wear.endurance(family.life, row.orifice, family.life_orifice, family.life_pressure)
        row.reference_life = wear.life(row.endurance, family.life_pressure, 1)


def coatings(est):
    """Least price per volume among the packs."""
    for row in est.rows["coatings"]:
        if row.ready:
            packs = ((row.pack1_size, row.pack1_price), (row.pack2_size, row.pack2_price), (row.pack3_size, row.pack3_price))
            row.first_price, row.second_price, row.third_price = (
                row.pack1_price / row.pack1_size if size is None else price / size for size, price in packs)
            row.price = min(row.first_price, row.second_price, row.third_price)


def pumps(est):
    """Hose and whip as one: resistance, content, and the pressure the weakest of pump, hose and whip holds."""
    for row in est.rows["pumps"]:
        row.live = 1.0 if row.ready and est.job.ready else None
        if not row.live:
            continue
        row.length = row.hose_length if est.job.hose_length is None else est.job.hose_length
        row.run = spray.hose_run(row.length, row.hose_bore)
        row.content = spray.hose_volume(row.length, row.hose_bore)
        if row.whip_length is not None:
            row.run += spray.hose_run(row.whip_length, row.whip_bore)
            row.content += spray.hose_volume(row.whip_length, row.whip_bore)
        row.holds = min(value for value in (row.pressure_max, row.hose_pressure_max, row.whip_pressure_max) if value is not None)
        row.narrowest = min(value for value in (row.hose_bore, row.whip_bore) if value is not None)


def kit(est):
    """How worn each nozzle of the kit is: the worst of what volume, fan and flow say."""
    for row in est.rows["kit"]:
        row.live = 1.0 if row.ready and est.terms.ready else None
        if not row.live:
            continue
        row.nozzle_at = est.judge.at("nozzles", row.nozzle)
        size = est.row("nozzles", row.nozzle_at)
        row.worn_volume = wear.worn_by_volume(row.used or 0.0, size.reference_life)
        row.worn_fan = 0.0 if row.fan is None else wear.worn_by_fan(row.fan, size.fan, est.terms.worn_fan)
        row.new_flow = spray.flow(est.terms.cd, size.orifice, est.terms.test_pressure, WATER_DENSITY)
        row.worn_flow = 0.0 if row.flow is None else wear.worn_by_flow(row.flow, row.new_flow, est.terms.worn_orifice)
        row.worn = max(row.worn_volume, row.worn_fan, row.worn_flow)
        row.usable = float(row.worn < 1 - est.terms.slack)
    for size in est.rows["nozzles"]:
        if size.ready:
            size.in_kit = float(any(row.usable and row.nozzle_at == size.no for row in est.rows["kit"]))


def holidays(est):
    """The days off as numbers; 1, a Sunday long past, where the row is blank or faulty."""
    for row in est.rows["holidays"]:
        row.day = row.date if row.ready else 1.0


def ages(est):
    """Which prices are older on the day of the estimate than the terms allow."""
    if est.job.date is None or not est.job.ready or not est.terms.ready:
        return
    for block in ("coatings", "nozzles"):
        for row in est.rows[block]:
            if row.ready and row.priced_on is not None:
                row.old = float(est.job.date - row.priced_on > est.terms.price_age_max)
