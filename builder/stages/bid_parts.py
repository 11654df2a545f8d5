"""Parts on the bid (E46): where Terms show them, the price of each part, the tax on them, and the price they add up
to, to the cent.
"""

from builder.records.checklist import PARTS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.own_costs import SHEET
from builder.values import same

# fmt: off
ROOM = PARTS + 2                                        # the tax and the price below them
TAX, PRICE = "Sales tax", "Price"
NUMBER = "ROW()-ROW({#part})"
PLACE = 2                                               # the first column on the page, from A = 0

LISTED = Block("bid_parts", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("count", "Parts on the bid", "count",
      'IF(N({price.live@1})=1,COUNT({part_cost.line_at})*({terms.show_parts}="yes"),0)', "", rows=1),
    C("taxed", "A line of tax", "count", "IF({count}=0,0,--({price.tax@1}>0))", "", rows=1),
    C("kind", "1 a part, 2 tax, 3 the price", "count",
      'IF(({*count}=0)+({no}>{*count}+{*taxed}+1)>0,"",1+({no}>{*count})+({no}>{*count}+{*taxed}))', ""),
    C("amount", "Amount", "money", "CHOOSE({kind},{line.price},{price.tax@1},{price.total@1})"),
), {"line": At("parts", "{no}")}, "kind", under="parts", section="Parts on the bid")


def page(top):
    """What stands on the Bid beside the price, its heading in the row `top`; nothing where no part is shown."""
    heading = 'IF(COUNT({bid_parts.kind})=0,"","Price by part ("&{book.currency}&")")'
    return (
        Block("bid", "Bid", (C("parts_heading", "", "text", heading, "", look="section"),), form="page", place=PLACE,
              top=top),
        Block("bid_parts", "Bid", (
            C("part", "", "text", f'IF({{own.kind}}="","",CHOOSE({{own.kind}},{{line.name}},"{TAX}","{PRICE}"))', "",
              look="shrunk", at=(0, 0)),
            C("money", "", "money", "{own.amount}", "", look="paid_line", at=(0, 1)),
        ), {"own": At("bid_parts", NUMBER), "line": At("parts", NUMBER)}, form="strip", place=PLACE, top=top + 1),
    )
# fmt: on


def bid_parts(est):
    """The parts of the base, the tax on them, the price."""
    rows, price = est.rows["bid_parts"], est.rows["price"][0]
    shown = price.live and est.terms.show_parts is not None and same(est.terms.show_parts) == "yes"
    parts = [line for line in est.rows["parts"] if line.base_at] if shown else []
    rows[0].set(count=float(len(parts)), taxed=float(bool(parts) and price.tax > 0))
    if not parts:
        return
    lines = [(1.0, line.name, line.price) for line in parts]
    lines += [(2.0, TAX, price.tax)] if rows[0].taxed else []
    for row, (kind, name, amount) in zip(rows, (*lines, (3.0, PRICE, price.total))):
        row.set(kind=kind, part=name, amount=amount, money=amount)
    est.rows["bid"][0].parts_heading = f"Price by part ({est.units.currency})"
