"""Crew card: one column a coat, in the order of the work; what a foreman needs with a gun in hand."""
from builder.sheets.brief import hundredths
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.trade.weather import TODAY

SPRAYED = "sprayed"
UNIT = "{constants.volume_unit}"


def _halves(amount):
    return f"INT({amount}*2+1/2+{{terms.slack}})/2"


def _hand(speed):
    return f'"one second for "&{_halves(f"{speed}*{{constants.hand}}")}&" "&{{constants.hand_unit}}'


def _notch(film):
    """The place of the last notch that a film wets, 0 where it wets none."""
    return f"COUNTIF({{words.notch}},\"<=\"&{film}/{{constants.notch}}*(1+{{terms.slack}}))"


def _gauge(at):
    """What a notched gauge shows (ASTM D4414): the film lies between the last notch that is wet and the first that is dry."""
    dry = f"INDEX({{words.notch}},MIN({at}+1,COUNT({{words.notch}})))*{{constants.notch}}"
    wet = f"INDEX({{words.notch}},MAX(1,{at}))*{{constants.notch}}"
    return f'REPT({wet}&" wet, ",--({at}>0))&{dry}&" "&{{constants.film_unit}}&" dry"'


def _packs(size):
    """'3_x_5_gal ' or nothing: the places of the gaps are filled once all three stand together."""
    number, pack = f"N({{buy.{size}}})", f"{{paint.pack{PACK[size]}_size}}"
    return f'REPT({number}&"_x_"&{hundredths(pack)}&"_"&{UNIT}&" ",--({number}>0))'


PACK = {"large": "3", "middle": "2", "small": "1"}
LINKS = {
    "coat": At("coats", "{coat_at}"), "film": At("films", "{coat_at}"), "pick": At("picks", "{coat_at}"), "gallon": At("gallons", "{coat_at}"),
    "hour": At("hours", "{coat_at}"), "paint": At("coatings", "{film.coating_at}"), "nozzle_size": At("nozzles", "{pick.size_at}"),
    "budget": At("sizes", "{pick.size_at}"), "trial": At("trials", "{pick.used_at}"), "buy": At("purchases", "{purchase_at}")}

CARD = (
    C("no", "Card", "count", label=lambda number: number),
    C("job", "Job", "text", "{bid.job_told}"),
    C("tag", "Coat", "text", '{coat.tag}&""'),
    C("system", "Part of the work", "text", "{film.system}"),
    C("what", "Coating and colour", "text", "{gallon.what}"),
    C("work", "What is done", "text",
      '{coat.coats}&" coat"&REPT("s",--({coat.coats}>1))&", "&INDEX({words.done},{film.method_no})&{gallon.part_told}'),
    C("base", "Kind", "text", 'IF({paint.base}="solvent","SOLVENT: ground pump and pail, no flame, no spark","water-borne")'),
    C("area", "Area", "area", "{film.coated}"),
    C("need", "Coating needed, all coats", "volume", "{gallon.need}"),
    C("packs", "Packs of it for the job", "text", 'SUBSTITUTE(SUBSTITUTE(TRIM({large_told}&{middle_told}&{small_told})," "," + "),"_"," ")'
      '&REPT(" from the owner",--({coat.owner_supplied}="yes"))'),
    C("thin", "Thinner", "text", f'IF({{film.thinning}}=0,"as it comes",{hundredths("{film.thinning}*100")}&" % by volume")'),
    C("nozzle", "Nozzle", "text", "{pick.nozzle}", SPRAYED),
    C("spare", "Have on site", "text", '{on_site}&" of this size, "&{film.guns}&" in use"', SPRAYED),
    C("set_pressure", "Pressure, read while spraying", "pressure", "{pick.set_pressure}", SPRAYED),
    C("pressure_most", "Never above", "pressure", "MIN({nozzle_size.pressure_max},{film.holds})", SPRAYED),
    C("distance", "Distance", "text", '"12 in (30 cm), square to the face; move before you pull the trigger"', SPRAYED),
    C("fan", "Fan of a new nozzle", "width", "{pick.fan}", SPRAYED),
    C("step", "Next pass further by", "width", "{trial.step}", SPRAYED),
    C("hand_first", "Hand, first coat", "text", _hand("{pick.first_speed}"), SPRAYED),
    C("hand", "Hand, later coats", "text", f'IF({{coat.coats}}=1,"",{_hand("{pick.gun_speed}")})', SPRAYED),
    C("wet_film", "Wet film", "film", "{film.wet_film}"),
    C("gauge_first", "Gauge, first coat, at once", "text", _gauge("{notch_first}")),
    C("gauge", "Gauge, later coats", "text", f'IF({{coat.coats}}=1,"",{_gauge("{notch_later}")})'),
    C("wet_most", "Runs and sags above", "film", 'IF({paint.wet_max}="","",{paint.wet_max})'),
    C("change", "Nozzle due for a change", "text",
      f'"after "&{{pick.pays}}&" ("&{_halves("{pick.interval}/{pail}")}&" x "&{hundredths("{pail}")}&" "&{UNIT}&")"', SPRAYED),
    C("recoat", "Next coat after", "time", "{paint.recoat}"),
    C("surface_least", "Surface, coldest", "temperature", 'IF({paint.surface_temperature_min}="","",{paint.surface_temperature_min})'),
    C("surface_most", "Surface, hottest", "temperature", 'IF({paint.surface_temperature_max}="","",{paint.surface_temperature_max})'),
    C("humidity_most", "Air, dampest", "share", 'IF({paint.air_humidity_max}="","",{paint.air_humidity_max})'),
    C("dew_margin", "Surface above the dew point by", "warmth", "{terms.dew_margin}"),
    C("today", "As read on Weather", "text", f'CHOOSE({{weather_no}},{",".join(chr(34) + words + chr(34) for words in TODAY)})'),
    C("hours", "Planned, on the clock", "time", "{hour.elapsed}"),
)

TOLD = (
    C("coat_at", "Row of its coat", "count", 'IF({no}>COUNT({gallons.place}),"",MATCH(SMALL({gallons.place},{no}),{gallons.place},0))', ""),
    C("sprayed", "Sprayed", "count", 'IF({pick.live}=1,1,"")'),
    C("scenario", "Number of its scenario", "count", "IF({gallon.only}=0,1,{gallon.only})"),
    C("purchase_at", "Row of its purchase", "count", "({scenario}-1)*COUNT({gallons.no})+{gallon.lead}"),
    *(C(f"{size}_told", f"Packs, {size}", "text", _packs(size)) for size in PACK),
    C("on_site", "Nozzles of its size to have", "count", "{budget.usable}+INDEX({sizes.buy},{pick.size_at},{scenario})", SPRAYED),
    C("pail", "Largest pack", "volume", "MAX({paint.pack1_size},{paint.pack2_size},{paint.pack3_size})"),
    C("notch_first", "Notches wet, first coat", "count", _notch("({film.wet_film}*{film.uptake})")),
    C("notch_later", "Notches wet, later coats", "count", _notch("{film.wet_film}")),
    C("weather_no", "What the weather says", "count", 'IF({weather.live}="",1,2+{damp}+2*{outside})'),
    C("damp", "Too near the dew point", "count", 'IF({weather.live}="","",--({weather.surface}-{weather.least}<-{terms.slack}))'),
    C("outside", "Outside the coating's limits", "count",
      'IF({weather.live}="","",--((({surface_least}<>"")*({weather.surface}<N({surface_least})-{terms.slack})'
      '+({surface_most}<>"")*({weather.surface}>N({surface_most})+{terms.slack})+({humidity_most}<>"")*({weather.humidity}>N({humidity_most})+{terms.slack}))>0))'),
)

TOP, NOTES = 6, 40                                     # the row of the card; room for lines of notes below it
NOTES_TOP = TOP + len(CARD) + 1
TOLD_TOP = NOTES_TOP + NOTES + 1                       # what the card is put together from, below the page

CREW = (
    Block("crew_card", "Crew card", CARD, LINKS, "coat_at", "card", top=TOP),
    Block("crew_card", "Crew card", TOLD, LINKS, "coat_at", "card", top=TOLD_TOP),
)
