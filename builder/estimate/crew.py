"""Crew card: what a foreman needs to know of each coat, in words."""
from math import floor

from builder.estimate.brief import hundredths, plain
from builder.estimate.constants import shown_constants
from builder.records.words import BESIDE, WORDS
from builder.rules import same
from builder.trade.weather import TODAY

PACKS = (("large", 3), ("middle", 2), ("small", 1))


def crew(est):
    order = sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)
    for row, gallon in zip(est.rows["crew_card"], order):
        row.coat_at, row.job = gallon.no, est.rows["bid"][0].job_told
        coat, film, pick = (est.row(block, gallon.no) for block in ("coats", "films", "picks"))
        paint = est.row("coatings", film.coating_at)
        _work(est, row, coat, film, gallon, paint)
        _film(est, row, film, coat.coats)
        _weather(est, row, paint)
        row.sprayed = 1.0 if pick.live else None
        if row.sprayed:
            _spray(est, row, film, pick, coat.coats)


def _halves(est, amount):
    return plain(floor(amount * 2 + 0.5 + est.terms.slack) / 2)


def _work(est, row, coat, film, gallon, paint):
    row.tag = None if coat.tag is None else est.judge.as_text(coat.tag)
    row.system, row.what = film.system, gallon.what
    row.work = f"{coat.coats:g} coat{'s' if coat.coats > 1 else ''}, {WORDS['done'][film.method_no - 1]}{gallon.part_told}"
    row.base = "SOLVENT: ground pump and pail, no flame, no spark" if same(paint.base) == "solvent" else "water-borne"
    row.area, row.need, row.hours = film.coated, gallon.need, est.row("hours", gallon.no).elapsed
    row.thin = f"{plain(hundredths(est, film.thinning * 100, 'number'))} % by volume" if film.thinning else "as it comes"
    row.recoat, row.wet_most = paint.recoat, paint.wet_max
    row.scenario = gallon.only or 1.0
    row.purchase_at = (row.scenario - 1) * len(est.rows["gallons"]) + gallon.lead
    bought = est.row("purchases", int(row.purchase_at))
    row.pail = max(size for _, number in PACKS if (size := getattr(paint, f"pack{number}_size")) is not None)
    told = []
    for key, number in PACKS:
        packs, size = getattr(bought, key) or 0, getattr(paint, f"pack{number}_size")
        if packs:
            told.append(f"{packs:g} x {plain(hundredths(est, size, 'volume'))} {est.units.shown('volume')}")
            setattr(row, f"{key}_told", told[-1].replace(" ", "_") + " ")
    row.packs = " + ".join(told) + (" from the owner" if same(coat.owner_supplied or "") == "yes" else "")


def _film(est, row, film, coats):
    row.wet_film = film.wet_film
    step = shown_constants(est.units, 0)["notch"]
    for key, wet, gauge in (("first", film.wet_film * film.uptake, "gauge_first"), ("later", film.wet_film, "gauge")):
        most = est.units.to_cell(wet, "film") / step * (1 + est.terms.slack)
        under = sum(notch <= most for notch in BESIDE["notch"])
        wetted = f"{plain(BESIDE['notch'][under - 1] * step)} wet, " if under else ""
        dry = plain(BESIDE["notch"][min(under, len(BESIDE["notch"]) - 1)] * step)
        setattr(row, f"notch_{key}", float(under))
        if key == "first" or coats > 1:
            setattr(row, gauge, f"{wetted}{dry} {est.units.shown('film')} dry")


def _weather(est, row, paint):
    read, slack = est.rows["weather"][0], est.terms.slack
    row.surface_least, row.surface_most, row.humidity_most = paint.surface_temperature_min, paint.surface_temperature_max, paint.air_humidity_max
    row.dew_margin, row.weather_no = est.terms.dew_margin, 1.0
    if read.live:
        row.damp = float(read.surface - read.least < -slack)
        row.outside = float(row.surface_least is not None and read.surface < row.surface_least - slack
                            or row.surface_most is not None and read.surface > row.surface_most + slack
                            or row.humidity_most is not None and read.humidity > row.humidity_most + slack)
        row.weather_no = 2 + row.damp + 2 * row.outside
    row.today = TODAY[int(row.weather_no) - 1]


def _spray(est, row, film, pick, coats):
    size, budget = est.row("nozzles", pick.size_at), est.row("sizes", pick.size_at)
    row.nozzle, row.set_pressure, row.fan = pick.nozzle, pick.set_pressure, pick.fan
    row.on_site = budget.usable + budget.buy[int(row.scenario) - 1]
    row.spare = f"{row.on_site:g} of this size, {film.guns:g} in use"
    row.pressure_most = min(size.pressure_max, film.holds)
    row.distance = "12 in (30 cm), square to the face; move before you pull the trigger"
    row.step = est.row("trials", int(pick.used_at)).step
    scales = shown_constants(est.units, 0)
    for key, speed in (("hand_first", pick.first_speed), ("hand", pick.gun_speed)):
        if key == "hand_first" or coats > 1:
            setattr(row, key, f"one second for {_halves(est, est.units.to_cell(speed, 'speed') * scales['hand'])} {scales['hand_unit']}")
    row.change = (f"after {pick.pays} ({_halves(est, pick.interval / row.pail)} x {plain(hundredths(est, row.pail, 'volume'))} "
                  f"{est.units.shown('volume')})")
