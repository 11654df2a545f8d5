"""What the catalogs and the kit say of a record beyond its fields: a nozzle's fan and orifice, the guard that a family
asks for, a coating's least price, a pump's hose (E10, E38, E48).
"""

from builder.quantities import scale
from builder.records.kinds import KINDS
from builder.records.lookups import rank
from builder.sheets.alternates import BY_SCENARIO
from builder.sheets.grammar import At
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages.constants import INCH, WATER_DENSITY
from builder.stages.sizes import through
from builder.trade import film, spray, wear
from builder.values import is_number, same, size_digits

# fmt: off
OLD = ('IF(ISNUMBER({job.date})*ISNUMBER({row.priced_on})*(N({job.sound})*N({terms.sound})=1),'
       '--({job.date}-{row.priced_on}>{terms.price_age_max}),"")')


def nozzles_block(units):
    return judging(KINDS["nozzles"], units, (
        C("known", "Nozzle", "text", '{row.family}&" "&{row.size}'),
        C("family_at", "Nozzle: row of its family", "count", "MATCH({row.family},{families.known},0)"),
        C("fan", "Nozzle: fan", "width", "2*INT(VALUE({row.size})/100)*{constants.inch}"),
        C("orifice", "Nozzle: orifice", "orifice", "MOD(VALUE({row.size}),100)"),
        C("lap", "Nozzle: lap", "width", '{fan}*(1-IF(ISNUMBER({terms.overlap}),{terms.overlap},0))'),
        C("rank", "Nozzle: rank of finish", "count", "MATCH({family.finish},{words.finish},0)"),
        C("pressure_max", "Nozzle: rated to", "pressure", "{family.pressure_max}"),
        C("endurance", "Nozzle: life times pressure", "endurance",
          "{family.life}*({orifice}/{family.life_orifice})^2*{family.life_pressure}"),
        C("reference_life", "Nozzle: life at reference", "volume", "{endurance}/{family.life_pressure}"),
        C("guard_cost", "Nozzle: price of the guard that it lacks", "money", "{family.guard_cost}"),
        C("in_kit", "Nozzle: usable in the kit", "count", "MIN(1,SUMPRODUCT(--({kit.nozzle_at}={no}),{kit.usable}))"),
        C("old", "Nozzle: price too old", "count", OLD),
    ), {"family": At("families", "{family_at}")})


def families_block(units):
    """A guard of a family is missing where it is not on the van and some family says what it costs."""
    return judging(KINDS["families"], units, (
        C("unlisted", "Family: its guard is not listed", "count",
          '--(({row.guard}<>"")*(SUMPRODUCT(--({guards.known}={row.guard}))=0)=1)'),
        C("offered", "Family: guard that it gives a price for", "text",
          'IF(({row.guard}<>"")*ISNUMBER({row.guard_price})=1,{row.guard},"")'),
        C("guard_at", "Family: row with the price of the guard that it lacks", "count",
          'IF({unlisted}*SUMPRODUCT(--({*offered}={row.guard}))=0,"",MATCH({row.guard},{*offered},0))'),
        C("guard_cost", "Family: price of the guard that it lacks", "money",
          'IF({guard_at}="",0,{asked.guard_price})'),
    ), {"asked": At("families", "{guard_at}")})


def coatings_block(units):
    def price(number):
        volume = f"{{row.pack{number}_volume}}"
        return f'IF({volume}="",{{first_price}},{{row.pack{number}_price}}/{volume})'

    return judging(KINDS["coatings"], units, (
        C("first_price", "Coating: price in pack 1", "money_volume", "{row.pack1_price}/{row.pack1_volume}"),
        C("second_price", "Coating: price in pack 2", "money_volume", price(2)),
        C("third_price", "Coating: price in pack 3", "money_volume", price(3)),
        C("price", "Coating: lowest price", "money_volume", "MIN({first_price:third_price})"),
        C("largest", "Coating: largest pack", "volume",
          "MAX({row.pack1_volume},"
          + ",".join(f'IF({{row.pack{number}_volume}}="",0,{{row.pack{number}_volume}})' for number in (2, 3)) + ")"),
        C("old", "Coating: price too old", "count", OLD),
    ))


HIRED = "--(ISNUMBER({row.rental})+ISNUMBER({row.rental_5})+ISNUMBER({row.rental_20})>0)"


def pumps_block(units):
    whip_run = 'IF({row.whip_length}="",0,{constants.run}*{row.whip_length}/{row.whip_bore}^4)'
    content = ('{constants.bore}*({length}*{row.hose_bore}^2'
               '+IF({row.whip_length}="",0,{row.whip_length}*{row.whip_bore}^2))')

    def least(*keys):
        """Of pump, hose and a whip that may be missing."""
        *others, whip = (f"{{row.{key}}}" for key in keys)
        return f'MIN({",".join(others)},IF({whip}="",{others[0]},{whip}))'

    return judging(KINDS["pumps"], units, (
        C("live", "Pump: worked out", "count", 'IF({job.sound}=1,1,"")'),
        C("length", "Pump: hose length", "length", 'IF({job.hose_length}="",{row.hose_length},{job.hose_length})',
          "live"),
        C("run", "Pump: length over bore^4, hose", "run", "{constants.run}*{length}/{row.hose_bore}^4", "live"),
        C("whip_run", "Pump: length over bore^4, whip", "run", whip_run, "live"),
        C("content", "Pump: hose and whip hold", "volume", content, "live"),
        C("holds", "Pump: weakest rating", "pressure", least("pressure_max", "hose_pressure_max", "whip_pressure_max"),
          "live"),
        C("hired", "Pump: rented", "count", HIRED, "live"),
        C("hose_count", "Pump: hoses", "count", 'IF({row.hoses}="",1,{row.hoses})', "live"),
    ))


def kit_block(units):
    return judging(KINDS["kit"], units, (
        C("live", "Kit: worked out", "count", 'IF({terms.sound}=1,1,"")'),
        C("nozzle_at", "Kit: row of its size", "count", "MATCH({row.nozzle},{nozzles.known},0)", "live"),
        C("worn_volume", "Kit: worn by volume", "share", "{row.used}/{size.reference_life}", "live"),
        C("worn_fan", "Kit: worn by fan", "share",
          'IF({row.fan}="",0,MAX(0,(1-{row.fan}/{size.fan})/(1-{terms.worn_fan})))', "live"),
        C("new_flow", "Kit: flow of water when new", "flow",
          "{terms.cd}*{constants.jet}*{size.orifice}^2*SQRT({terms.test_pressure}/{constants.water})", "live"),
        C("worn_flow", "Kit: worn by flow", "share",
          'IF({row.flow}="",0,MAX(0,({row.flow}/{new_flow}-1)/({terms.worn_orifice}^2-1)))', "live"),
        C("worn", "Kit: worn", "share", "MAX({worn_volume},{worn_fan},{worn_flow})", "live"),
        C("usable", "Kit: usable", "count", "--({worn}<1-{terms.slack})", "live"),
        C("unguarded", "Kit: its guard is not listed", "count", "{family.unlisted}", "live"),
        C("spent", "Kit: lives that the job spends of its size", "number", through("{nozzle_at}", "spent"), "live",
          **BY_SCENARIO),
        C("left", "Kit: left in", "share", "MAX(0,1-{worn}*IF({spent@}=0,1,{wear.due@}/{spent@}))", "live",
          **BY_SCENARIO),
    ), {"size": At("nozzles", "{nozzle_at}"), "wear": At("sizes", "{nozzle_at}"),
        "family": At("families", "{size.family_at}")})


def access_block(units):
    return judging(KINDS["access"], units, (
        C("live", "Access: worked out", "count", 'IF({terms.sound}=1,1,"")'),
        C("hired", "Access: rented", "count", HIRED, "live"),
    ))


def holidays_block(units):
    return judging(KINDS["holidays"], units, (C("day", "Holiday: day", "count", "IF({sound}=1,{row.date},1)", ""),))


THOU = scale("thou")


def nozzle_name(row):
    """'standard 515'; None where no size is said."""
    if row.size is None:
        return None
    size = row.size if isinstance(row.size, str) else f"{row.size:g}"
    return f"{row.family} {size}"
# fmt: on


def families(est):
    """Which families ask for a guard that is not on the van, and what it costs."""
    listed = {same(row.known) for row in est.rows["guards"] if row.sound}
    sound = [row for row in est.rows["families"] if row.sound]
    prices = {}
    for row in sound:
        row.unlisted = float(row.guard is not None and same(row.guard) not in listed)
        row.offered = "" if row.guard is None or row.guard_price is None else row.guard
        if row.offered != "":
            prices.setdefault(same(row.guard), row)
    for row in sound:
        priced = prices.get(same(row.guard)) if row.unlisted else None
        row.guard_at, row.guard_cost = (priced.no, priced.guard_price) if priced else (None, 0.0)


def nozzles(est):
    """Fan and orifice from the size, the rest from the family."""
    for row in est.rows["nozzles"]:
        if not row.sound:
            continue
        row.family_at = est.judge.at("families", row.family)
        family = est.row("families", row.family_at)
        digits = size_digits(row.size)
        row.set(
            fan=2 * (digits // 100) * INCH,
            orifice=digits % 100 * THOU,
            rank=rank(family.finish),
            pressure_max=family.pressure_max,
            guard_cost=family.guard_cost,
        )
        overlap = est.terms.overlap if is_number(est.terms.overlap) else 0.0
        row.lap = film.lap(row.fan, overlap)
        row.endurance = wear.endurance(family.life, row.orifice, family.life_orifice, family.life_pressure)
        row.reference_life = wear.life(row.endurance, family.life_pressure, 1)


def coatings(est):
    """Least price per volume among the packs."""
    for row in est.rows["coatings"]:
        if row.sound:
            packs = (
                (row.pack1_volume, row.pack1_price),
                (row.pack2_volume, row.pack2_price),
                (row.pack3_volume, row.pack3_price),
            )
            row.first_price, row.second_price, row.third_price = (
                row.pack1_price / row.pack1_volume if size is None else price / size for size, price in packs
            )
            row.price = min(row.first_price, row.second_price, row.third_price)
            row.largest = max(volume or 0.0 for volume, _ in packs)


def pumps(est):
    """Hose and whip: resistance, content, and the pressure the weakest of pump, hose and whip holds."""
    for row in est.rows["pumps"]:
        row.live = 1.0 if row.sound and est.job.sound else None
        if not row.live:
            continue
        row.hired, row.hose_count = _hired(row), row.hoses or 1.0
        row.length = row.hose_length if est.job.hose_length is None else est.job.hose_length
        row.run = spray.hose_run(row.length, row.hose_bore)
        row.content = spray.hose_volume(row.length, row.hose_bore)
        row.whip_run = 0.0
        if row.whip_length is not None:
            row.whip_run = spray.hose_run(row.whip_length, row.whip_bore)
            row.content += spray.hose_volume(row.whip_length, row.whip_bore)
        row.holds = min(
            value for value in (row.pressure_max, row.hose_pressure_max, row.whip_pressure_max) if value is not None
        )


def kit(est):
    """How worn each nozzle of the kit is: the worst of what volume, fan and flow say."""
    for row in est.rows["kit"]:
        row.live = 1.0 if row.sound and est.terms.sound else None
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
        row.unguarded = est.row("families", size.family_at).unlisted
    for size in est.rows["nozzles"]:
        if size.sound:
            size.in_kit = float(any(row.usable and row.nozzle_at == size.no for row in est.rows["kit"]))


def _hired(row):
    """Whether a pump or an access is rented, at any rate."""
    return float(any(rate is not None for rate in (row.rental, row.rental_5, row.rental_20)))


def holidays(est):
    """The days off as numbers; 1, a Sunday long past, where the row is blank or faulty."""
    for row in est.rows["holidays"]:
        row.day = row.date if row.sound else 1.0


def access(est):
    """Which ladders, lifts and scaffolds are rented."""
    for row in est.rows["access"]:
        row.live = 1.0 if row.sound and est.terms.sound else None
        if row.live:
            row.hired = _hired(row)


def ages(est):
    """Which prices are older on the day of the estimate than the terms allow."""
    if est.job.date is None or not est.job.sound or not est.terms.sound:
        return
    for block in ("coatings", "nozzles"):
        for row in est.rows[block]:
            if row.sound and row.priced_on is not None:
                row.old = float(est.job.date - row.priced_on > est.terms.price_age_max)
