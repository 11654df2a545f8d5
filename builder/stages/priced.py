"""Price, as people read it: what it is made of in plain words, what is paid when, how sure it is, its parts."""

from itertools import pairwise

from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import from_to, nearest, to_from_to, to_nearest
from builder.stages.brief import plain
from builder.stages.cost import PRICE
from builder.stages.parts import ROOM

# fmt: off
PAGE = "Price"
ITEMS = (  # key, in plain words, what of the price it is
    ("paint", "Paint and thinner", "goes_coatings"),
    ("material", "Nozzles, tape, task material", "goes_material"),
    ("labor", "Labor", "goes_wages"),
    ("travel", "Travel", "goes_travel"),
    ("rental", "Rental", "goes_rental"),
    ("bought_tax", "Tax on purchases", "goes_tax"),
    ("overhead", "Overhead", "goes_overhead"),
    ("contingency", "Contingency", "goes_contingency"),
    ("profit", "Profit", "goes_margin"),
)
RUNS = (*ITEMS, ("tax", "Sales tax", "tax"))    # each adds to those before it, up to the price
SPANS = (  # lines of the page: key, words, the sums it runs from and to
    *((key, words, before, key) for (before, *_), (key, words, _) in pairwise((("nothing",), *ITEMS))),
    ("net", "Price before tax", "nothing", "profit"),
    ("tax", "Sales tax", "profit", "tax"),
    ("total", "Price", "nothing", "tax"),
)
SURE = {"p10": "one job in ten", "p50": "half of all", "p90": "nine in ten"}

SURE_ROW, TOP = 4, 6                            # the first row of each part of the page
PAYMENTS = TOP + len(SPANS) + SECTION
PARTS_TOP = PAYMENTS + 3 + SECTION + 1

SPENT = Block("spent", PRICE.sheet, (
    C("live", "Priced", "count", "{price.live@1}", ""),
    C("to_nothing", "Before the first", "money", "0"),
    *(C(f"to_{key}", f"Price up to: {words}", "money", f"{{to_{before}}}+{{price.{of}@1}}")
      for (before, *_), (key, words, of) in pairwise((("nothing",), *RUNS))),
    *(C(f"share_{key}", f"Share: {words}", "share", f"IF({{to_tax}}=0,0,({{to_{upto}}}-{{to_{before}}})/{{to_tax}})")
      for key, words, before, upto in SPANS),
    *(C(f"told_{key}", f"Cost of {words}, at most", "text", f'FIXED({nearest(f"{{risk.{key}@1}}", "money")},0)')
      for key, words in SURE.items()),
    C("told_sure", "How sure the cost is", "text",
      '"Of jobs like this, one in ten costs less than "&{told_p10}&", half less than "&{told_p50}&", nine in ten less '
      'than "&{told_p90}&" "&{book.currency}&"; "&{price.told_over@1}&" cost more than it brings in."'),
), when="live", form="upright", top=PRICE.top + len(PRICE.columns) + SECTION)


def _look(key):
    return "sum" if key in ("net", "total") else "read"


def _amount(key, words, before, upto):
    """A line's amount, from running sums, so that the lines add up."""
    amount = from_to(f"{{spent.to_{before}}}", f"{{spent.to_{upto}}}", "money")
    if key != "total":
        return C(key, words, "money", amount, look=_look(key))
    return C(key, words, "money", f'IF({{spent.live}}="","",{amount})', "", look=_look(key))


STAGED = '({terms.stages}>1)*({price.stage@1}>0)'
DONE = "When the work is done"

LINES = Block("priced", PAGE, tuple(_amount(*span) for span in SPANS), when="total", form="page", place=2, top=TOP)
SHARES = Block("priced", PAGE, tuple(
    C(f"part_{key}", words, "share", nearest(f"{{spent.share_{key}}}", "share"), beside=key, look=_look(key))
    for key, words, *_ in SPANS), when="total", form="page", place=3, top=TOP)
NAMES = Block("priced", PAGE, (
    C("name_first", "", "text", '"At signing"', look="read"),
    C("name_second", "", "text",
      f'IF({STAGED}=0,"{DONE}","While the work goes on"&REPT(", "&({{terms.stages}}-1)&" times",'
      '--({terms.stages}>2)))',
      look="read"),
    C("name_third", "", "text", f'IF({STAGED}=0,"","{DONE}")', look="read"),
), when="total", form="page", place=0, top=PAYMENTS)
PAID = Block("priced", PAGE, (
    C("first", "", "money", "{price.deposit@1}", look="paid"),
    C("second", "", "money", f"IF({STAGED}=0,{{price.last@1}},{{price.stage@1}})", look="paid"),
    C("third", "", "money", f'IF({STAGED}=0,"",{{price.last@1}})', look="paid"),
), when="total", form="page", place=2, top=PAYMENTS)
SURENESS = Block("priced", PAGE, (
    C("sure", "", "text", 'IF({total}="","No price yet: "&{checks.first},{spent.told_sure})', "", look="line"),
), form="page", place=0, top=SURE_ROW)

LINE = {"line": At("parts", "ROW()-ROW({#name})")}
RULE = ("Each part bears its own paint, nozzles, wages and tasks; all else is shared in proportion. Rounded so that "
        "the parts add up.")
EMPTY = "Nothing is measured yet: type the first line on Takeoff."


def part(key, title, quantity):
    """A figure of a line, to the nearest step."""
    figure = f"{{line.{key}}}"
    return C(key, title, quantity, f'IF({figure}="","",{nearest(figure, quantity)})', look="read")


def part_money():
    """A line's price, from running sums, so that lines add up; and its share."""
    return (C("money", "Price", "money", f'IF({{line.priced}}="","",'
              f'{from_to("{line.price_from}", "{line.price_to}", "money")})', look="read"),
            part("share", "Share", "share"))


def part_name():
    return C("name", "Part", "text", '{line.name}&""', "", look="read")


def rule(key):
    """What is said above the parts."""
    return C(key, "", "text", f'IF(COUNT({{part_cost.line_at}})=0,"{EMPTY}","{RULE}")', "", look="quiet")


PART_LINES = (
    Block("priced_parts", PAGE, (part_name(),), LINE, form="list", place=0, top=PARTS_TOP),
    Block("priced_parts", PAGE, part_money(), LINE, "name", "list", 2, PARTS_TOP),
)
NOTE = Block("priced", PAGE, (rule("rule"),), form="page", place=2, top=PARTS_TOP - 2)
BLOCKS = (SPENT, LINES, SHARES, NAMES, PAID, SURENESS, NOTE, *PART_LINES)
# fmt: on


def rows():
    """Rows of the blocks of this stage."""
    return {"spent": 1, "priced": 1, "priced_parts": ROOM}


def priced(est):
    row, price = est.rows["priced"][0], est.rows["price"][0]
    row.rule = RULE if est.rows["parts"][0].count else EMPTY
    read_parts(est, "priced_parts")
    if not price.live:
        row.sure = f"No price yet: {est.checks.first or ''}"
        return
    spent = est.rows["spent"][0]
    _run_up(est, spent, price)
    for key, _, before, upto in SPANS:
        amount = to_from_to(est, getattr(spent, f"to_{before}"), getattr(spent, f"to_{upto}"), "money")
        row.set(**{key: amount, f"part_{key}": to_nearest(est, getattr(spent, f"share_{key}"), "share")})
    _pay(est, row, price)
    row.sure = spent.told_sure


def _run_up(est, spent, price):
    spent.live, spent.to_nothing, run = 1.0, 0.0, 0.0
    for key, _, of in RUNS:
        run += getattr(price, of)
        setattr(spent, f"to_{key}", run)
    for key, _, before, upto in SPANS:
        part = getattr(spent, f"to_{upto}") - getattr(spent, f"to_{before}")
        setattr(spent, f"share_{key}", part / run if run else 0.0)
    for key in SURE:
        shown = est.units.to_cell(to_nearest(est, getattr(est.rows["risk"][0], key), "money"), "money")
        setattr(spent, f"told_{key}", f"{shown:,.0f}")
    spent.told_sure = (
        f"Of jobs like this, one in ten costs less than {spent.told_p10}, half less than {spent.told_p50}, nine in ten "
        f"less than {spent.told_p90} {est.units.currency}; {price.told_over} cost more than it brings in."
    )


def _pay(est, row, price):
    stages = est.terms.stages
    staged = stages > 1 and price.stage > 0
    row.name_first, row.first = "At signing", price.deposit
    row.name_second, row.second = DONE, price.last
    if staged:
        row.name_second = f"While the work goes on{f', {plain(stages - 1)} times' if stages > 2 else ''}"
        row.second, row.name_third, row.third = price.stage, DONE, price.last


def read_parts(est, block):
    """The parts of the price as a page shows them."""
    for row, line in zip(est.rows[block], est.rows["parts"]):
        row.name = line.name
        if not line.priced:
            continue
        row.money = to_from_to(est, line.price_from, line.price_to, "money")
        if line.share is not None:
            row.share = to_nearest(est, line.share, "share")
