"""Crew card: one column a coat, in the order of the work; what a foreman needs with a gun in hand."""

from math import floor

from builder.records.lookups import BESIDE, LOOKUPS
from builder.records.sentences import TODAY
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages import packs_told
from builder.stages.brief import hundredths, plain, said_hundredths
from builder.stages.constants import shown_constants
from builder.values import same

# fmt: off
SPRAYED = "sprayed"
UNIT = "{constants.volume_unit}"


def _said_halves(amount):
    return f"INT({amount}*2+1/2+{{terms.slack}})/2"


def _hand(speed):
    return f'"one second for "&{_said_halves(f"{speed}*{{constants.hand}}")}&" "&{{constants.hand_unit}}'


def _notch(film):
    """The place of the last notch that a film wets, 0 where it wets none."""
    return f"COUNTIF({{words.notch}},\"<=\"&{film}/{{constants.notch}}*(1+{{terms.slack}}))"


def _gauge(at):
    """What a notched gauge shows (ASTM D4414): the film lies between the last notch that is wet and the first that is
    dry.
    """
    dry = f"INDEX({{words.notch}},MIN({at}+1,COUNT({{words.notch}})))*{{constants.notch}}"
    wet = f"INDEX({{words.notch}},MAX(1,{at}))*{{constants.notch}}"
    return f'REPT({wet}&" wet, ",--({at}>0))&{dry}&" "&{{constants.film_unit}}&" dry"'


LINKS = {
    "entry": At("coats", "{coat_at}"), "coat": At("film", "{coat_at}"), "pick": At("picks", "{coat_at}"),
    "gallon": At("gallons", "{coat_at}"),
    "hour": At("hours", "{coat_at}"), "paint": At("coatings", "{coat.coating_at}"),
    "nozzle_size": At("nozzles", "{pick.size_at}"),
    "budget": At("sizes", "{pick.size_at}"), "trial": At("trials", "{pick.used_at}"),
    "buy": At("purchases", "{purchase_at}")}

CARD = (
    C("no", "Card", "count", label=lambda number: number),
    C("job", "Job", "text", "{bid.job_told}"),
    C("tag", "Coat", "text", '{entry.tag}&""'),
    C("system", "Part of the work", "text", "{coat.system}"),
    C("what", "Coating and color", "text", "{gallon.what}"),
    C("work", "What is done", "text",
      '{entry.coats}&" coat"&REPT("s",--({entry.coats}>1))&", "&INDEX({words.done},{coat.method_no})'
      '&{gallon.part_told}'),
    C("base", "Kind", "text",
      'IF({paint.base}="solvent","SOLVENT: ground pump and pail, no flame, no spark","water-borne")'),
    C("area", "Area", "area", "{coat.coated}"),
    C("need", "Coating needed, all coats", "volume", "{gallon.need}"),
    C("packs", "Packs of it for the job", "text",
      f'{packs_told.TOGETHER}&REPT(" from the owner",--({{entry.owner_supplied}}="yes"))'),
    C("thin", "Thinner", "text",
      f'IF({{coat.thinning}}=0,"unthinned",{said_hundredths("{coat.thinning}*100")}&" % by volume")'),
    C("nozzle", "Nozzle", "text", "{pick.nozzle}", SPRAYED),
    C("spare", "Have on site", "text", '{on_site}&" of this size, "&{coat.guns}&" in use"', SPRAYED),
    C("set_pressure", "Pressure, read while spraying", "pressure", "{pick.set_pressure}", SPRAYED),
    C("pressure_most", "Never above", "pressure", "MIN({nozzle_size.pressure_max},{coat.holds})", SPRAYED),
    C("distance", "Distance", "text", '"12 in (30 cm), square to the face; move before you pull the trigger"', SPRAYED),
    C("fan", "Fan of a new nozzle", "width", "{pick.fan}", SPRAYED),
    C("step", "Next pass further by", "width", "{trial.step}", SPRAYED),
    C("hand_first", "Hand, first coat", "text", _hand("{pick.first_speed}"), SPRAYED),
    C("hand", "Hand, later coats", "text", f'IF({{entry.coats}}=1,"",{_hand("{pick.gun_speed}")})', SPRAYED),
    C("wet_film", "Wet film", "film", "{coat.wet_film}"),
    C("gauge_first", "Gauge, first coat, at once", "text", _gauge("{notch_first}")),
    C("gauge", "Gauge, later coats", "text", f'IF({{entry.coats}}=1,"",{_gauge("{notch_later}")})'),
    C("wet_most", "Runs and sags above", "film", 'IF({paint.wet_max}="","",{paint.wet_max})'),
    C("change", "Nozzle due for a change", "text",
      f'"after "&{{pick.pays}}&" ("&{_said_halves("{pick.interval}/{pail}")}&" x "&{said_hundredths("{pail}")}&" "'
      f'&{UNIT}&")"', SPRAYED),
    C("recoat", "Next coat after", "time", "{paint.recoat}"),
    C("surface_least", "Surface, coldest", "temperature",
      'IF({paint.surface_temperature_min}="","",{paint.surface_temperature_min})'),
    C("surface_most", "Surface, hottest", "temperature",
      'IF({paint.surface_temperature_max}="","",{paint.surface_temperature_max})'),
    C("humidity_most", "Air, dampest", "share", 'IF({paint.air_humidity_max}="","",{paint.air_humidity_max})'),
    C("dew_margin", "Surface above the dew point by", "warmth", "{terms.dew_margin}"),
    C("today", "As read on Weather", "text",
      f'CHOOSE({{weather_no}},{",".join(chr(34) + words + chr(34) for words in TODAY)})'),
    C("hours", "Planned, on the clock", "time", "{hour.elapsed}"),
)

TOLD = (
    C("coat_at", "Row of its coat", "count",
      'IF({no}>COUNT({gallons.place}),"",MATCH(SMALL({gallons.place},{no}),{gallons.place},0))', ""),
    C("sprayed", "Sprayed", "count", 'IF({pick.live}=1,1,"")'),
    C("scenario", "Number of its scenario", "count", "IF({gallon.only}=0,1,{gallon.only})"),
    C("purchase_at", "Row of its purchase", "count", "({scenario}-1)*COUNT({gallons.no})+{gallon.lead}"),
    *packs_told.columns(),
    C("on_site", "Nozzles of its size to have", "count", "{budget.usable}+INDEX({sizes.buy},{pick.size_at},{scenario})",
      SPRAYED),
    C("pail", "Largest pack", "volume", "MAX({paint.pack1_volume},{paint.pack2_volume},{paint.pack3_volume})"),
    C("notch_first", "Notches wet, first coat", "count", _notch("({coat.wet_film}*{coat.uptake})")),
    C("notch_later", "Notches wet, later coats", "count", _notch("{coat.wet_film}")),
    C("weather_no", "What the weather says", "count", 'IF({weather.live}="",1,2+{damp}+2*{outside})'),
    C("damp", "Too near the dew point", "count",
      'IF({weather.live}="","",--({weather.surface}-{weather.least}<-{terms.slack}))'),
    C("outside", "Outside the coating's limits", "count",
      'IF({weather.live}="","",--((({surface_least}<>"")*({weather.surface}<N({surface_least})-{terms.slack})'
      '+({surface_most}<>"")*({weather.surface}>N({surface_most})+{terms.slack})+({humidity_most}<>"")'
      '*({weather.humidity}>N({humidity_most})+{terms.slack}))>0))'),
)

TOP, NOTES = 6, 40                                     # the row of the card; room for lines of notes below it
NOTES_TOP = TOP + len(CARD) + 1
TOLD_TOP = NOTES_TOP + NOTES + 1                       # what the card is put together from, below the page

CREW = (
    Block("crew_card", "Crew card", CARD, LINKS, "coat_at", "card", top=TOP),
    Block("crew_card", "Crew card", TOLD, LINKS, "coat_at", "card", top=TOLD_TOP),
)

# fmt: on


def crew(est):
    order = sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)
    for row, gallon in zip(est.rows["crew_card"], order):
        row.coat_at, row.job = gallon.no, est.rows["bid"][0].job_told
        entry, coat, pick = (est.row(block, gallon.no) for block in ("coats", "film", "picks"))
        paint = est.row("coatings", coat.coating_at)
        _work(est, row, entry, coat, gallon, paint)
        _film(est, row, coat, entry.coats)
        _weather(est, row, paint)
        row.sprayed = 1.0 if pick.live else None
        if row.sprayed:
            _spray(est, row, coat, pick, entry.coats)


def _halves(est, amount):
    return plain(floor(amount * 2 + 0.5 + est.terms.slack) / 2)


def _work(est, row, entry, coat, gallon, paint):
    row.tag = None if entry.tag is None else est.judge.as_text(entry.tag)
    row.system, row.what = coat.system, gallon.what
    row.work = (
        f"{entry.coats:g} coat{'s' if entry.coats > 1 else ''}, {LOOKUPS['done'][coat.method_no - 1]}{gallon.part_told}"
    )
    row.base = "SOLVENT: ground pump and pail, no flame, no spark" if same(paint.base) == "solvent" else "water-borne"
    row.area, row.need, row.hours = coat.coated, gallon.need, est.row("hours", gallon.no).elapsed
    row.thin = f"{plain(hundredths(est, coat.thinning * 100, 'number'))} % by volume" if coat.thinning else "unthinned"
    row.recoat, row.wet_most = paint.recoat, paint.wet_max
    row.scenario = gallon.only or 1.0
    row.purchase_at = (row.scenario - 1) * len(est.rows["gallons"]) + gallon.lead
    bought = est.row("purchases", int(row.purchase_at))
    row.pail = max(size for number in (1, 2, 3) if (size := getattr(paint, f"pack{number}_volume")) is not None)
    row.set(**packs_told.parts(est, bought, paint))
    row.packs = packs_told.together(row) + (" from the owner" if same(entry.owner_supplied or "") == "yes" else "")


def _film(est, row, coat, coats):
    row.wet_film = coat.wet_film
    step = shown_constants(est.units, 0)["notch"]
    for key, wet, gauge in (("first", coat.wet_film * coat.uptake, "gauge_first"), ("later", coat.wet_film, "gauge")):
        most = est.units.to_cell(wet, "film") / step * (1 + est.terms.slack)
        under = sum(notch <= most for notch in BESIDE["notch"])
        wetted = f"{plain(BESIDE['notch'][under - 1] * step)} wet, " if under else ""
        dry = plain(BESIDE["notch"][min(under, len(BESIDE["notch"]) - 1)] * step)
        setattr(row, f"notch_{key}", float(under))
        if key == "first" or coats > 1:
            setattr(row, gauge, f"{wetted}{dry} {est.units.shown('film')} dry")


def _weather(est, row, paint):
    read, slack = est.rows["weather"][0], est.terms.slack
    row.surface_least, row.surface_most, row.humidity_most = (
        paint.surface_temperature_min,
        paint.surface_temperature_max,
        paint.air_humidity_max,
    )
    row.dew_margin, row.weather_no = est.terms.dew_margin, 1.0
    if read.live:
        row.damp = float(read.surface - read.least < -slack)
        row.outside = float(
            row.surface_least is not None
            and read.surface < row.surface_least - slack
            or row.surface_most is not None
            and read.surface > row.surface_most + slack
            or row.humidity_most is not None
            and read.humidity > row.humidity_most + slack
        )
        row.weather_no = 2 + row.damp + 2 * row.outside
    row.today = TODAY[int(row.weather_no) - 1]


def _spray(est, row, coat, pick, coats):
    size, budget = est.row("nozzles", pick.size_at), est.row("sizes", pick.size_at)
    row.nozzle, row.set_pressure, row.fan = pick.nozzle, pick.set_pressure, pick.fan
    row.on_site = budget.usable + budget.buy[int(row.scenario) - 1]
    row.spare = f"{row.on_site:g} of this size, {coat.guns:g} in use"
    row.pressure_most = min(size.pressure_max, coat.holds)
    row.distance = "12 in (30 cm), square to the face; move before you pull the trigger"
    row.step = est.row("trials", int(pick.used_at)).step
    scales = shown_constants(est.units, 0)
    for key, speed in (("hand_first", pick.first_speed), ("hand", pick.gun_speed)):
        if key == "hand_first" or coats > 1:
            hand = _halves(est, est.units.to_cell(speed, "speed") * scales["hand"])
            setattr(row, key, f"one second for {hand} {scales['hand_unit']}")
    row.change = (
        f"after {pick.pays} ({_halves(est, pick.interval / row.pail)} x {plain(hundredths(est, row.pail, 'volume'))} "
        f"{est.units.shown('volume')})"
    )
