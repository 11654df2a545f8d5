"""What is paid at the counter, and what the price bears of it: nozzles stand in the price by wear, at the counter by
the piece (E20, E22).
"""

from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.stages.brief import hundredths, plain, said_hundredths

# fmt: off
SHEET = "Shopping workings"
COUNTER_FACTS = (
    C("live", "Priced", "count", "{price.live@1}", ""),
    C("thinner", "Thinner", "money", "{cost.thinner@1}"),
    C("guards", "Guards", "money", "{cost.guards@1}"),
    C("told_guards", "Guards in words", "text", "INDEX({guard_buys.told},COUNT({guard_buys.no}))"),
    C("task_material", "Material of tasks", "money", "{cost.task_material@1}"),
    C("sundries", "Sundries", "money", "{cost.sundries@1}"),
    C("untaxed", "At the counter, before tax", "money",
      "{cost.paint@1}+{thinner}+{cost.nozzles_cash@1}+{guards}+{task_material}+{sundries}"),
    C("tax", "Tax on it", "money", "{terms.purchase_tax}*{untaxed}"),
    C("total", "At the counter", "money", "{untaxed}+{tax}"),
    C("in_price", "Purchases in the price, with tax", "money", "{cost.materials@1}*(1+{terms.purchase_tax})"),
    C("wear", "More in the price than at the counter", "money", "{in_price}-{total}"),
    C("thinner_volume", "Thinner to buy", "volume", "SUMPRODUCT(--({gallons.only}=0),{gallons.thinner})"),
    C("told_thinner", "The same in words", "text",
      f'{said_hundredths("{thinner_volume}")}&" "&{{constants.volume_unit}}'),
    C("told_sundries", "Sundries in words", "text",
      f'{said_hundredths("{terms.sundries}*100")}&" % of paint and thinner"'),
    C("told_tax", "Tax in words", "text", f'{said_hundredths("{terms.purchase_tax}*100")}&" %"'),
)
COUNTER = Block("counter", SHEET, COUNTER_FACTS, when="live", form="upright")
# fmt: on


def counter(est):
    row, cost, terms = est.rows["counter"][0], est.rows["cost"][0], est.terms
    row.live = est.rows["price"][0].live
    if not row.live:
        return
    row.thinner, row.task_material, row.sundries = cost.thinner, cost.task_material, cost.sundries
    row.guards, row.told_guards = cost.guards, est.rows["guard_buys"][-1].told
    row.untaxed = cost.paint + row.thinner + cost.nozzles_cash + row.guards + row.task_material + row.sundries
    row.tax = terms.purchase_tax * row.untaxed
    row.total = row.untaxed + row.tax
    row.in_price = cost.materials * (1 + terms.purchase_tax)
    row.wear = row.in_price - row.total
    row.thinner_volume = sum(one.thinner for one in est.rows["gallons"] if one.live and one.only == 0)
    row.told_thinner = f"{plain(hundredths(est, row.thinner_volume, 'volume'))} {est.units.shown('volume')}"
    row.told_sundries = f"{plain(hundredths(est, terms.sundries * 100, 'number'))} % of paint and thinner"
    row.told_tax = f"{plain(hundredths(est, terms.purchase_tax * 100, 'number'))} %"
