"""Price, as people read it: what it is made of in plain words, what is paid when, how sure it is, its parts."""

from itertools import pairwise

from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import from_to, nearest, to_from_to, to_nearest
from builder.stages.brief import plain
from builder.stages.cost import PRICE

# fmt: off
PAGE = "Price"
ITEMS = (  # key, in plain words, what of the price it is
    ("paint", "Paint and thinner", "goes_coatings"),
    ("material", "Nozzles, tape, task material", "goes_material"),
    ("labor", "Labor", "goes_wages"),
    ("rental", "Rental", "goes_rental"),
    ("bought_tax", "Tax on purchases", "goes_tax"),
    ("overhead", "Overhead", "goes_overhead"),
    ("contingency", "Contingency", "goes_contingency"),
    ("profit", "Profit", "goes_margin"),
)
NET, TAX, TOTAL = ("net", "Price before tax"), ("tax", "Sales tax", "tax"), ("total", "Price")
RUNS = (*ITEMS, TAX)                            # each adds to those before it, up to the price
SURE = {"p10": "one job in ten", "p50": "half of all", "p90": "nine in ten"}

TOP = 6                                         # the first row of each part of the page
PAYMENTS = TOP + len(ITEMS) + len((NET, TAX, TOTAL)) + SECTION
SURE_ROW = PAYMENTS + 3 + 1
PARTS_TOP = SURE_ROW + 1 + SECTION

SPENT = Block("spent", PRICE.sheet, (
    C("live", "Priced", "count", "{price.live@1}", ""),
    C("to_nothing", "Before the first", "money", "0"),
    *(C(f"to_{key}", f"Price up to: {words}", "money", f"{{to_{before}}}+{{price.{of}@1}}")
      for (before, *_), (key, words, of) in pairwise((("nothing",), *RUNS))),
    *(C(f"share_{key}", "Share up to there", "share", f"IF({{to_tax}}=0,0,{{to_{key}}}/{{to_tax}})")
      for key, *_ in (("nothing",), *RUNS)),
    *(C(f"told_{key}", f"Cost of {words}, at most", "text", f'FIXED({nearest(f"{{risk.{key}@1}}", "money")},0)')
      for key, words in SURE.items()),
), when="live", form="upright", top=PRICE.top + len(PRICE.columns) + SECTION)


def _run(kind, before, key, quantity):
    return from_to(f"{{spent.{kind}_{before}}}", f"{{spent.{kind}_{key}}}", quantity)


def _column(kind, quantity, name, **beside):
    """The amounts of the lines, or their shares."""
    def line(key, formula, look, when=None):
        return C(name(key), LABELS[key], quantity, formula, when, look=look,
                 **{what: of(key) for what, of in beside.items()})

    def whole(upto):
        return nearest(f"{{spent.{kind}_{upto}}}", quantity)

    yield from (line(key, _run(kind, before, key, quantity), "read")
                for (before, *_), (key, *_) in pairwise((("nothing",), *ITEMS)))
    yield line("net", whole("profit"), "sum")
    yield line("tax", _run(kind, "profit", "tax", quantity), "read")
    total = whole("tax")
    yield line("total", f'IF({{spent.live}}="","",{total})', "sum", "")


LABELS = {key: words for key, words, *_ in (*ITEMS, NET, TAX, TOTAL)}
STAGED = '({terms.stages}>1)*({price.stage@1}>0)'
DONE = "When the work is done"

LINES = Block("priced", PAGE, tuple(_column("to", "money", str)), when="total", form="page", place=2, top=TOP)
SHARES = Block("priced", PAGE, tuple(_column("share", "share", "part_{}".format, beside=str)), when="total",
               form="page", place=3, top=TOP)
NAMES = Block("priced", PAGE, (
    C("name_first", "", "text", '"At signing"', look="read"),
    C("name_second", "", "text",
      f'IF({STAGED}=0,"{DONE}",REPT(({{terms.stages}}-1)&" x ",--({{terms.stages}}>2))&"While the work goes on")',
      look="read"),
    C("name_third", "", "text", f'IF({STAGED}=0,"","{DONE}")', look="read"),
), when="total", form="page", place=0, top=PAYMENTS)
PAID = Block("priced", PAGE, (
    C("first", "", "money", "{price.deposit@1}", look="paid"),
    C("second", "", "money", f"IF({STAGED}=0,{{price.last@1}},{{price.stage@1}})", look="paid"),
    C("third", "", "money", f'IF({STAGED}=0,"",{{price.last@1}})', look="paid"),
), when="total", form="page", place=2, top=PAYMENTS)
SURENESS = Block("priced", PAGE, (
    C("sure", "", "text",
      '"Of jobs like this one in ten costs less than "&{spent.told_p10}&", half less than "&{spent.told_p50}&", nine in '
      'ten less than "&{spent.told_p90}&" "&{book.currency}&"; "&{price.told_over}&" cost more than this brings in."',
      look="line"),
), when="total", form="page", place=0, top=SURE_ROW)

LINE = {"line": At("parts", "ROW()-ROW({#name})")}
RULE = ("Each part bears its own paint, nozzles, wages and tasks; all else is shared in proportion. Rounded so that "
        "the parts add up.")
EMPTY = "Nothing is measured yet: type the first line on Takeoff."


def part_money():
    """A line's price, from running sums, so that lines add up; and its share."""
    return (C("money", "Price", "money", f'IF({{line.priced}}="","",'
              f'{from_to("{line.price_from}", "{line.price_to}", "money")})', look="read"),
            C("share", "Share", "share",
              f'IF(N({{line.share_to}})=0,"",{from_to("{line.share_from}", "{line.share_to}", "share")})', look="read"))


def part_name():
    return C("name", "Part of the work", "text", '{line.name}&""', "", look="read")


def rule(key):
    """What is said above the parts."""
    return C(key, "", "text", f'IF(COUNT({{system_cost.place}})=0,"{EMPTY}","{RULE}")', "", look="quiet")


PART_LINES = (
    Block("priced_parts", PAGE, (part_name(),), LINE, form="list", place=0, top=PARTS_TOP),
    Block("priced_parts", PAGE, part_money(), LINE, "name", "list", 2, PARTS_TOP),
)
NOTE = Block("priced", PAGE, (rule("rule"),), form="page", place=2, top=PARTS_TOP - 2)
BLOCKS = (SPENT, LINES, SHARES, NAMES, PAID, SURENESS, NOTE, *PART_LINES)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    return {"spent": 1, "priced": 1, "priced_parts": capacity["systems"] + 4}


def priced(est):
    row, price = est.rows["priced"][0], est.rows["price"][0]
    row.rule = RULE if est.rows["parts"][0].count else EMPTY
    read_parts(est, "priced_parts")
    if not price.live:
        return
    spent = est.rows["spent"][0]
    _run_up(est, spent, price)
    for kind, quantity, name in (("to", "money", "{}"), ("share", "share", "part_{}")):
        runs = {key: getattr(spent, f"{kind}_{key}") for key, *_ in (("nothing",), *RUNS)}
        for (before, *_), (key, *_) in pairwise((("nothing",), *RUNS)):
            setattr(row, name.format(key), to_from_to(est, runs[before], runs[key], quantity))
        setattr(row, name.format("net"), to_nearest(est, runs["profit"], quantity))
        setattr(row, name.format("total"), to_nearest(est, runs["tax"], quantity))
    _pay(est, row, price)
    row.sure = (
        f"Of jobs like this one in ten costs less than {spent.told_p10}, half less than {spent.told_p50}, nine in ten "
        f"less than {spent.told_p90} {est.units.currency}; {price.told_over} cost more than this brings in."
    )


def _run_up(est, spent, price):
    spent.live, spent.to_nothing, run = 1.0, 0.0, 0.0
    for key, _, of in RUNS:
        run += getattr(price, of)
        setattr(spent, f"to_{key}", run)
    for key, *_ in (("nothing",), *RUNS):
        setattr(spent, f"share_{key}", getattr(spent, f"to_{key}") / run if run else 0.0)
    for key in SURE:
        shown = est.units.to_cell(to_nearest(est, getattr(est.rows["risk"][0], key), "money"), "money")
        setattr(spent, f"told_{key}", f"{shown:,.0f}")


def _pay(est, row, price):
    stages = est.terms.stages
    staged = stages > 1 and price.stage > 0
    row.name_first, row.first = "At signing", price.deposit
    row.name_second, row.second = DONE, price.last
    if staged:
        row.name_second = f"{plain(stages - 1) + ' x ' if stages > 2 else ''}While the work goes on"
        row.second, row.name_third, row.third = price.stage, DONE, price.last


def read_parts(est, block):
    """The parts of the price as a page shows them."""
    for row, line in zip(est.rows[block], est.rows["parts"]):
        row.name = line.name
        if not line.priced:
            continue
        row.money = to_from_to(est, line.price_from, line.price_to, "money")
        if line.share_to:
            row.share = to_from_to(est, line.share_from, line.share_to, "share")
