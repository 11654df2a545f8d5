"""What is bought, and what each coat takes, gathered for Shopping: a row each on workings, the used ones found by their
place.
"""

from math import floor

from builder.records.lookups import LOOKUPS
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages import packs_told
from builder.stages.brief import hundredths, plain, said_hundredths
from builder.stages.counter import COUNTER_FACTS, SHEET
from builder.values import same

# fmt: off
PRICED = "N({price.live@1})"
OWNER = " from the owner"

BOUGHT = Block("bought", SHEET, (
    C("no", "Coat that buys", "count", label=lambda number: number),
    C("live", "Bought for the base", "count", f'IF({PRICED}*N({{buy.live}})=1,1,"")', ""),
    C("place", "Row, where bought", "count", "{no}"),
    C("coating", "Coating", "text", '{entry.coating}&""'),
    C("color", "Color", "text", '{entry.color}&""'),
    C("need", "Needed, hose and touch-up too", "volume", "{buy.total}"),
    *packs_told.columns(),
    C("packs", "Packs", "text", f'{packs_told.TOGETHER}&REPT("{OWNER}",--({{entry.owner_supplied}}="yes"))'),
    C("cost", "Cost", "money", "{buy.cost}"),
), {"entry": At("coats", "{no}"), "buy": At("purchases", "{no}"), "paint": At("coatings", "{buy.paint_at}")}, "live",
    top=5 + len(COUNTER_FACTS) + SECTION + 2)

NOZZLE_BUYS = Block("nozzle_buys", SHEET, (
    C("no", "Size, row", "count", label=lambda number: number),
    C("place", "Row, where bought", "count", f'IF({PRICED}*N({{size.buy@1}})>0,{{no}},"")', ""),
    C("nozzle", "Nozzle", "text", "{size.nozzle}"),
    C("number", "To buy", "count", "{size.buy@1}"),
    C("told", "To buy, in words", "text", '{number}&" new"'),
    C("kit", "In the kit", "text", 'IF({size.usable}=0,"none in your kit",{size.usable}&" usable in your kit")'),
    C("cost", "Cost", "money", "{size.buy@1}*{size.price}"),
), {"size": At("sizes", "{no}")}, "place", under="bought", section="Nozzles to buy")

# Lines after paint and nozzles: what is bought, then what adds it up.
OTHERS = ("Nozzle guards", "Thinner", "Material of the tasks", "Tape, paper, plastic, rags", "Tax on purchases",
          "To pay", "Nozzles by wear, not new", "Purchases in the price")
OTHER_BUYS = Block("other_buys", SHEET, (
    C("no", "Number", "count", label=lambda number: number),
    C("called", "Line", "text", label=lambda number: OTHERS[number - 1]),
    C("live", "Priced", "count", "{counter.live}", ""),
    C("tested", "Nothing of it, no line", "money",
      "CHOOSE({no},{counter.guards},{counter.thinner},{counter.task_material},{counter.sundries},{counter.tax},"
      "{counter.total},{counter.wear},{counter.wear})"),
    C("place", "Row, where shown", "count", 'IF(ABS({tested})>={constants.money_step}/2,{no},"")'),
    C("which", "Of what", "text",
      'CHOOSE({no},"not on the van","","","",{counter.told_tax},"","as Price bears them","")'),
    C("told", "How much", "text",
      'CHOOSE({no},MID({counter.told_guards},2+1,LEN({counter.told_guards})),{counter.told_thinner},'
      '"as the tasks say",{counter.told_sundries},"","","","")'),
    C("own", "Adds", "money",
      "CHOOSE({no},{counter.guards},{counter.thinner},{counter.task_material},{counter.sundries},{counter.tax},0,0,0)"),
    C("sum", "A sum up to here", "money",
      "CHOOSE({no},0,0,0,0,0,{counter.total},{counter.in_price},{counter.in_price})"),
    C("less", "Less what stands above", "money", "CHOOSE({no},0,0,0,0,0,0,{counter.total},0)"),
), when="live", under="nozzle_buys", section="What else is bought, and the sums")

TAKES = Block("takes", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("live", "Used", "count", f'IF(({PRICED}=1)*({{no}}<=COUNT({{gallons.place}}))=1,1,"")', ""),
    C("coat_at", "Row of its coat", "count", "MATCH(SMALL({gallons.place},{no}),{gallons.place},0)"),
    C("what", "System", "text",
      '{coat.system}&REPT(" (alternate "&INDEX({words.alternate},MAX(1,{coat.only}-1))&")",--({coat.only}>0))'),
    C("paint", "Coating and color", "text", '{coat.coating}&IF({entry.color}="","",", "&{entry.color})'),
    C("area", "Area", "area", "{coat.coated}"),
    C("need", "Takes, all its coats", "volume", "{gallon.need}"),
    C("loss", "Lost on the way", "share", "IF({coat.by_hand}=1,{surface.hand_loss},{pick.loss})"),
    C("told_film", "Wet film", "text",
      f'{said_hundredths(nearest("{gallon.wet_film}", "film"))}&" "&{{constants.film_unit}}&" wet"'),
    C("told", "In words", "text",
      '{entry.times}&" x "&{told_film}&REPT(", "&INT({loss}*100+1/2+{terms.slack})&" % lost",--({loss}>0))'),
), {"coat": At("film", "{coat_at}"), "entry": At("coats", "{coat_at}"), "gallon": At("gallons", "{coat_at}"),
    "pick": At("picks", "{coat_at}"), "surface": At("surfaces", "INDEX({systems.surface_at},{coat.system_at})")},
    "live", under="other_buys", section="What each coat takes")
# fmt: on

BLOCKS = (BOUGHT, NOZZLE_BUYS, OTHER_BUYS, TAKES)


def rows(capacity):
    """Rows of the blocks of this stage."""
    coats = capacity["coats"]
    return {"bought": coats, "nozzle_buys": capacity["nozzles"], "other_buys": len(OTHERS), "takes": coats}


def buying(est):
    """Rows that stay blank without a price."""
    for row, called in zip(est.rows["other_buys"], OTHERS):
        row.called = called
    if not est.rows["price"][0].live:
        return
    for row, buy, entry in zip(est.rows["bought"], est.rows["purchases"], est.rows["coats"]):
        if buy.live:
            _paint(est, row, buy, entry)
    for row, size in zip(est.rows["nozzle_buys"], est.rows["sizes"]):
        if size.live and size.buy[0] > 0:
            row.place, row.nozzle, row.number = float(row.no), size.nozzle, size.buy[0]
            row.kit = f"{plain(size.usable)} usable in your kit" if size.usable else "none in your kit"
            row.told, row.cost = f"{plain(row.number)} new", size.buy[0] * size.price
    _others(est, est.rows["counter"][0])
    order = sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)
    for row, gallon in zip(est.rows["takes"], order):
        _takes(est, row, gallon)


def _text(est, value):
    return "" if value is None else est.judge.as_text(value)


def _paint(est, row, buy, entry):
    paint = est.row("coatings", buy.paint_at)
    row.live, row.place, row.need, row.cost = 1.0, float(row.no), buy.total, buy.cost
    row.coating, row.color = _text(est, entry.coating), _text(est, entry.color)
    row.set(**packs_told.parts(est, buy, paint))
    row.packs = packs_told.together(row) + (OWNER if same(entry.owner_supplied or "") == "yes" else "")


def _others(est, paid):
    least = est.units.money_step * est.units.scale("money") / 2
    lines = (  # what is tested, of what, how much, what it adds, what it sums, less what stands above
        (paid.guards, "not on the van", paid.told_guards[2:], paid.guards, 0.0, 0.0),
        (paid.thinner, "", paid.told_thinner, paid.thinner, 0.0, 0.0),
        (paid.task_material, "", "as the tasks say", paid.task_material, 0.0, 0.0),
        (paid.sundries, "", paid.told_sundries, paid.sundries, 0.0, 0.0),
        (paid.tax, paid.told_tax, "", paid.tax, 0.0, 0.0),
        (paid.total, "", "", 0.0, paid.total, 0.0),
        (paid.wear, "as Price bears them", "", 0.0, paid.in_price, paid.total),
        (paid.wear, "", "", 0.0, paid.in_price, 0.0),
    )
    for row, line in zip(est.rows["other_buys"], lines):
        row.live = 1.0
        row.tested, row.which, row.told, row.own, row.sum, row.less = line
        row.place = float(row.no) if abs(row.tested) >= least else None


def _takes(est, row, gallon):
    coat, entry = est.row("film", gallon.no), est.row("coats", gallon.no)
    surface = est.row("surfaces", est.row("systems", coat.system_at).surface_at)
    row.live, row.coat_at, row.area, row.need = 1.0, float(gallon.no), coat.coated, gallon.need
    alternate = f" (alternate {LOOKUPS['alternate'][int(coat.only) - 2]})" if coat.only else ""
    color = "" if entry.color is None else f", {_text(est, entry.color)}"
    row.what, row.paint = f"{coat.system}{alternate}", f"{coat.coating}{color}"
    row.loss = surface.hand_loss if coat.by_hand else est.row("picks", gallon.no).loss
    film = hundredths(est, to_nearest(est, gallon.wet_film, "film"), "film")
    row.told_film = f"{plain(film)} {est.units.shown('film')} wet"
    lost = f", {floor(row.loss * 100 + 0.5 + est.terms.slack)} % lost" if row.loss > 0 else ""
    row.told = f"{plain(entry.times)} x {row.told_film}{lost}"
