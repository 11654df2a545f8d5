"""What the Crew card says of each coat, in the order of the work: figures and sentences, on the sheet Coat words."""

from math import floor

from builder.records.lookups import BESIDE, LOOKUPS
from builder.records.sentences import TODAY
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, step, to_nearest, to_upward, upward
from builder.stages import packs_told
from builder.stages.brief import hundredths, plain, said_hundredths
from builder.stages.constants import shown_constants
from builder.values import same

# fmt: off
SPRAYED = "sprayed"
SOLVENT = "SOLVENT: ground pump and pail, no flame, no spark"
DISTANCE = "12 in (30 cm) from the face, square to it; move before you pull the trigger"
LEAD_FIRST = "old paint may hold lead: test it before it is disturbed (40 CFR 745)"
WEATHER = ("surface_least", "surface_most", "humidity_most")


def sign(unit):
    """A unit as it is said on paper: '°F'."""
    return unit.replace("deg", "°")


def _halves(amount):
    return f"INT({amount}*2+1/2+{{terms.slack}})/2"


def _notch(film):
    """The place of the last notch that a film wets, 0 where it wets none."""
    return f"COUNTIF({{words.notch}},\"<=\"&{film}/{{constants.notch}}*(1+{{terms.slack}}))"


def _gauge(at):
    """What a notched gauge shows (ASTM D4414): the film lies between the last notch that is wet and the first that is
    dry.
    """
    dry = f"INDEX({{words.notch}},MIN({at}+1,COUNT({{words.notch}})))*{{constants.notch}}"
    wet = f"INDEX({{words.notch}},MAX(1,{at}))*{{constants.notch}}"
    return f'REPT("wet at "&{wet}&", ",--({at}>0))&"dry at "&{dry}&" "&{{constants.film_unit}}'


LINKS = {
    "entry": At("coats", "{coat_at}"), "coat": At("film", "{coat_at}"), "pick": At("picks", "{coat_at}"),
    "gallon": At("gallons", "{coat_at}"), "hour": At("hours", "{coat_at}"),
    "paint": At("coatings", "{coat.coating_at}"), "nozzle_size": At("nozzles", "{pick.size_at}"),
    "budget": At("sizes", "{pick.size_at}"),
    "buy": At("purchases", "{purchase_at}")}

FOUND = (
    C("no", "Card", "count", label=lambda number: number),
    C("coat_at", "Card: row of its coat", "count",
      'IF({no}>COUNT({gallons.place}),"",MATCH(SMALL({gallons.place},{no}),{gallons.place},0))', ""),
    C("shown_no", "Card: number, where there is one", "count", "{no}"),
    C("sprayed", "Card: sprayed", "count", 'IF({pick.live}=1,1,"")'),
    C("scenario", "Card: number of its scenario", "count", "IF({gallon.only}=0,1,{gallon.only})"),
    C("purchase_at", "Card: row of its purchase", "count", "({scenario}-1)*COUNT({gallons.no})+{gallon.lead}"),
    *packs_told.columns(),
    C("packs", "Card: packs for the job", "text",
      f'{packs_told.TOGETHER}&REPT(" from the owner",--({{entry.owner_supplied}}="yes"))'),
    C("on_site", "Card: nozzles of its size to have", "count",
      "{budget.usable}+INDEX({sizes.buy},{pick.size_at},{scenario})", SPRAYED),
    C("pail", "Card: largest pack", "volume", "MAX({paint.pack1_volume},{paint.pack2_volume},{paint.pack3_volume})"),
    C("notch_first", "Card: notches wet, first coat", "count", _notch("({gallon.wet_film}*{coat.uptake})")),
    C("notch_later", "Card: notches wet, later coats", "count", _notch("{gallon.wet_film}")),
    C("notch", "Card: notches wet, of the figure", "count", "IF({entry.times}=1,{notch_first},{notch_later})"),
    C("gauge_first", "Card: gauge, first coat", "text", _gauge("{notch_first}")),
    C("gauge", "Card: gauge, later coats", "text", f'IF({{entry.times}}=1,"",{_gauge("{notch_later}")})'),
    *(C(key, f"Card: {words}", quantity, f'IF({{paint.{field}}}="","",{{paint.{field}}})')
      for key, words, quantity, field in (
          ("wet_most", "runs and sags above", "film", "wet_max"),
          ("surface_least", "surface, coldest", "temperature", "surface_temperature_min"),
          ("surface_most", "surface, hottest", "temperature", "surface_temperature_max"),
          ("humidity_most", "air, dampest", "share", "air_humidity_max"))),
    C("weather_no", "Card: what the weather says", "count", 'IF({weather.live}="",1,2+{damp}+2*{outside})'),
    C("damp", "Card: too near the dew point", "count",
      'IF({weather.live}="","",--({weather.surface}-{weather.least}<-{terms.slack}))'),
    C("outside", "Card: outside the coating's limits", "count",
      'IF({weather.live}="","",--((({surface_least}<>"")*({weather.surface}<N({surface_least})-{terms.slack})'
      '+({surface_most}<>"")*({weather.surface}>N({surface_most})+{terms.slack})+({humidity_most}<>"")'
      '*({weather.humidity}>N({humidity_most})+{terms.slack}))>0))'),
    C("today", "Card: as read on Weather", "text",
      f'CHOOSE({{weather_no}},{",".join(chr(34) + words + chr(34) for words in TODAY)})'),
)


def said_block(units):
    """What the card says, in the units of the book."""
    named = ("area", "volume", "width", "film", "pressure", "temperature", "warmth")
    unit = {one: sign(units.shown(one)) for one in named}
    area, hours, fan = (
        nearest(amount, quantity)
        for amount, quantity in (("{coat.coated}", "area"), ("{hour.elapsed}", "time"), ("{pick.fan}", "width")))
    need = upward("{gallon.need}", "volume")           # as on Shopping
    hours = f"MAX({{constants.step_time}},{hours})"    # a little is not told as none
    least, most = (f"INT(N({{surface_{one}}})+1/2+{{terms.slack}})" for one in ("least", "most"))
    warmth = said_hundredths("{terms.dew_margin}")
    said = (
        C("title", "Part of the work", "text", '{coat.system}&IF({entry.tag}="",""," ("&{entry.tag}&")")'),
        C("what", "Coating and color", "text", "{gallon.what}"),
        C("work", "What is done", "text",
          '{entry.times}&" coat"&REPT("s",--({entry.times}>1))&", "&INDEX({words.done},{coat.method_no})'
          '&{gallon.part_told}'),
        C("head", "Both in one line", "text", '{work}&": "&{what}'),
        C("nozzle", "Nozzle", "text", '{nozzle_size.size}&""', SPRAYED),
        C("nozzle_note", "Nozzle: family, fan, spare", "text",
          f'{{nozzle_size.family}}&", new fan "&{fan}&" {unit["width"]}; have "&{{on_site}}&", "&{{coat.guns}}'
          '&" in use"', SPRAYED),
        C("set_to", "Set to", "pressure", "{pick.gauge}", SPRAYED),
        C("set_to_note", "Set to: never above", "text",
          f'"never above "&FIXED(INT({{pick.pressure_most}}*(1+{{terms.slack}})),0)&" {unit["pressure"]}; '
          'read while spraying"', SPRAYED),
        C("hand", "Hand", "text", '{pick.hand_time}&" s"', SPRAYED),
        C("further", "Next pass further by", "width", nearest("{pick.step}", "width"), SPRAYED),
        C("first_told", "Hand of the first coat, where it differs", "text",
          'REPT("first coat "&{pick.stroke_first}&" s; ",({entry.times}>1)*({pick.stroke_first}<>{pick.stroke_time}))',
          SPRAYED),
        C("hand_note", "Hand: first coat, next pass", "text",
          f'{{first_told}}&"next pass "&{{further}}&" {unit["width"]} further"', SPRAYED),
        C("film", "Gauge", "text",
          'REPT("under ",--({notch}=0))&INDEX({words.notch},MAX(1,{notch}))*{constants.notch}'),
        C("film_note", "Gauge: wet and dry", "text",
          'IF({entry.times}=1,{gauge_first}&", at once",{gauge})&REPT("; first coat "&{gauge_first},({entry.times}>1)'
          '*({notch_first}<>{notch_later}))'),
        C("fan_worn", "Fan of a worn nozzle", "width", nearest("{pick.fan}*{terms.worn_fan}", "width"), SPRAYED),
        C("change", "Change after", "text", "{pick.pays}", SPRAYED),
        C("change_note", "Change after: in packs, or by the fan", "text",
          f'"that is "&{_halves("{pick.interval}/{pail}")}&" x "&{said_hundredths("{pail}")}&" {unit["volume"]}; or '
          f'when '
          f'the fan is "&{{fan_worn}}&" {unit["width"]}"', SPRAYED),
        C("next", "Next coat", "text", said_hundredths("{paint.recoat}") + '&" h"'),
        C("area", "Area", "text", f"FIXED({area},0)"),
        C("amount", "Area and need", "text",
          f'{{area}}&" {unit["area"]} · needs "&{need}&" {unit["volume"]} in all · "&{{packs}}&" for the job · "'),
        C("thin", "Thinner", "text",
          f'IF({{coat.thinning}}=0,"unthinned","thin by "&{said_hundredths("{coat.thinning}*100")}&" % by volume")'),
        C("line_work", "Line: how much", "text", f'{{amount}}&{{thin}}&" · about "&{hours}&" h on the clock"'),
        C("wet", "Wet film", "number", said_hundredths(nearest("{gallon.wet_film}", "film"))),
        C("sags", "Where it runs", "text",
          f'REPT(", runs and sags above "&{said_hundredths(nearest("N({wet_most})", "film"))}'
          f'&" {unit["film"]}",--({{wet_most}}<>""))'),
        C("line_film", "Line: film and gun", "text",
          f'"wet film "&{{wet}}&" {unit["film"]}"&{{sags}}&REPT(" · {DISTANCE}",N({{sprayed}}))'),
        C("between", "Limits of its surface", "text",
          f'REPT(" from "&{least},--({{surface_least}}<>""))&REPT(" to "&{most},--({{surface_most}}<>""))'),
        C("limits", "Limits of its weather", "text",
          f'"surface"&{{between}}&REPT(" {unit["temperature"]},",--({{between}}<>""))&" "&{warmth}'
          f'&" {unit["warmth"]} above '
          'the dew point"'),
        C("line_weather", "Line: weather", "text",
          '{limits}&REPT(", air to "&INT(N({humidity_most})*100+1/2)&" % humidity",--({humidity_most}<>""))'
          '&" · today: "'
          '&{today}'),
        C("line_care", "Line: what to beware of", "text",
          f'IF({{paint.base}}="solvent","{SOLVENT}","water-borne")&REPT(" · {LEAD_FIRST}",--(N({{checks.lead}})>0))'),
    )
    return Block("crew_card", "Coat words", (*FOUND, *said), LINKS, "coat_at")
# fmt: on


def crew(est):
    order = sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)
    for row, gallon in zip(est.rows["crew_card"], order):
        row.coat_at, row.shown_no = gallon.no, float(row.no)
        entry, coat, pick = (est.row(block, gallon.no) for block in ("coats", "film", "picks"))
        paint = est.row("coatings", coat.coating_at)
        row.sprayed = 1.0 if pick.live else None
        _work(est, row, entry, coat, gallon, paint)
        _film(est, row, gallon.wet_film, coat.uptake, entry.times)
        _weather(est, row, paint)
        if row.sprayed:
            _spray(est, row, coat, pick, entry.times)


def _said(est, value, quantity):
    """A figure in words, to hundredths."""
    return plain(hundredths(est, value, quantity))


def _near(est, value, quantity):
    """A figure in words, to the step to which people read it."""
    return plain(hundredths(est, to_nearest(est, value, quantity), quantity))


def _degrees(est, temperature):
    """A temperature in words, to whole degrees."""
    return floor(est.units.to_cell(temperature, "temperature") + 0.5 + est.terms.slack)


def _work(est, row, entry, coat, gallon, paint):
    units = est.units
    row.title = est.judge.as_text(coat.system) + ("" if entry.tag is None else f" ({est.judge.as_text(entry.tag)})")
    row.what = gallon.what
    row.work = (
        f"{entry.times:g} coat{'s' if entry.times > 1 else ''}, {LOOKUPS['done'][coat.method_no - 1]}{gallon.part_told}"
    )
    row.head = f"{row.work}: {row.what}"
    row.next = f"{_said(est, paint.recoat, 'time')} h"
    row.scenario = gallon.only or 1.0
    row.purchase_at = (row.scenario - 1) * len(est.rows["gallons"]) + gallon.lead
    _bought(est, row, paint, est.row("purchases", int(row.purchase_at)))
    row.packs += " from the owner" if same(entry.owner_supplied or "") == "yes" else ""
    row.thin = f"thin by {_said(est, coat.thinning * 100, 'number')} % by volume" if coat.thinning else "unthinned"
    area = est.units.to_cell(to_nearest(est, coat.coated, "area"), "area")
    row.area = f"{area:,.0f}"
    need = _said(est, to_upward(est, gallon.need, "volume"), "volume")
    row.amount = (
        f"{row.area} {units.shown('area')} · needs {need} {units.shown('volume')} in all · {row.packs} for the job · "
    )
    hours = float(_near(est, est.row("hours", gallon.no).elapsed, "time"))
    row.line_work = f"{row.amount}{row.thin} · about {plain(max(hours, step('time', units.system)))} h on the clock"
    row.line_care = SOLVENT if same(paint.base) == "solvent" else "water-borne"
    row.line_care += f" · {LEAD_FIRST}" if est.checks.lead else ""


def _bought(est, row, paint, bought):
    row.pail = max(size for _, at in packs_told.PACKS if (size := getattr(paint, f"pack{at}_volume")) is not None)
    row.set(**packs_told.parts(est, bought, paint))
    row.packs = packs_told.together(row)


def _film(est, row, later, uptake, coats):
    notch, unit = shown_constants(est.units, 0)["notch"], est.units.shown("film")
    told = {}
    for key, wet in (("first", later * uptake), ("later", later)):
        most = est.units.to_cell(wet, "film") / notch * (1 + est.terms.slack)
        under = sum(one <= most for one in BESIDE["notch"])
        wetted = f"wet at {plain(BESIDE['notch'][under - 1] * notch)}, " if under else ""
        dry = plain(BESIDE["notch"][min(under, len(BESIDE["notch"]) - 1)] * notch)
        setattr(row, f"notch_{key}", float(under))
        told[key] = f"{wetted}dry at {dry} {unit}"
    row.gauge_first, row.gauge = told["first"], told["later"] if coats > 1 else None
    row.notch = row.notch_first if coats == 1 else row.notch_later
    row.film = ("" if row.notch else "under ") + plain(BESIDE["notch"][max(1, int(row.notch)) - 1] * notch)
    row.film_note = row.gauge or f"{row.gauge_first}, at once"
    if coats > 1 and row.notch_first != row.notch_later:
        row.film_note += f"; first coat {row.gauge_first}"
    row.wet = hundredths(est, to_nearest(est, later, "film"), "film")
    row.line_film = f"wet film {plain(row.wet)} {unit}"


def _weather(est, row, paint):
    read, slack = est.rows["weather"][0], est.terms.slack
    row.wet_most, row.humidity_most = paint.wet_max, paint.air_humidity_max
    row.surface_least, row.surface_most = paint.surface_temperature_min, paint.surface_temperature_max
    row.weather_no = 1.0
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
    if row.wet_most is not None:
        row.sags = f", runs and sags above {_near(est, row.wet_most, 'film')} {est.units.shown('film')}"
        row.line_film += row.sags
    row.between = "" if row.surface_least is None else f" from {_degrees(est, row.surface_least)}"
    row.between += "" if row.surface_most is None else f" to {_degrees(est, row.surface_most)}"
    row.limits = f"surface{row.between}"
    row.limits += f" {sign(est.units.shown('temperature'))}," if row.between else ""
    row.limits += f" {_said(est, est.terms.dew_margin, 'warmth')} {sign(est.units.shown('warmth'))} above the dew point"
    damp = "" if row.humidity_most is None else f", air to {floor(row.humidity_most * 100 + 0.5)} % humidity"
    row.line_weather = f"{row.limits}{damp} · today: {row.today}"


def _spray(est, row, coat, pick, coats):
    units, size, budget = est.units, est.row("nozzles", pick.size_at), est.row("sizes", pick.size_at)
    row.on_site = budget.usable + budget.buy[int(row.scenario) - 1]
    row.nozzle = est.judge.as_text(size.size)
    row.nozzle_note = (
        f"{est.judge.as_text(size.family)}, new fan {_near(est, pick.fan, 'width')} {units.shown('width')}; "
        f"have {row.on_site:g}, {coat.guns:g} in use"
    )
    row.set_to = pick.gauge
    most = floor(units.to_cell(pick.pressure_most, "pressure") * (1 + est.terms.slack))
    row.set_to_note = f"never above {most:,} {units.shown('pressure')}; read while spraying"
    row.hand = f"{plain(pick.hand_time)} s"
    differs = coats > 1 and pick.stroke_first != pick.stroke_time
    row.first_told = f"first coat {plain(pick.stroke_first)} s; " if differs else ""
    row.further = to_nearest(est, pick.step, "width")
    row.hand_note = f"{row.first_told}next pass {_said(est, row.further, 'width')} {units.shown('width')} further"
    row.change, row.fan_worn = pick.pays, to_nearest(est, pick.fan * est.terms.worn_fan, "width")
    pails = plain(floor(pick.interval / row.pail * 2 + 0.5 + est.terms.slack) / 2)
    row.change_note = (
        f"that is {pails} x {_said(est, row.pail, 'volume')} {units.shown('volume')}; "
        f"or when the fan is {_said(est, row.fan_worn, 'width')} {units.shown('width')}"
    )
    row.line_film += f" · {DISTANCE}"
