"""Guards to buy: a row a family that says what its guard costs, where a coat is sprayed in that guard and it is not on
the van; one for each gun, once for the job (E48).
"""

from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import BY_SCENARIO, TOTALS, included, most, within
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C

# fmt: off
GUARD_BUYS = Block("guard_buys", "Sizes", (
    C("no", "Family, row", "count", label=lambda number: number),
    C("buy", "Guards to buy", "count",
      f"SUMPRODUCT(LARGE(({{picks.guard_at}}={{no}})*({{gallons.applied}}>0)*({within('gallons', '{@}')})"
      "*{gallons.guns},1))", **BY_SCENARIO),
    C("told", "In words, base, behind those above", "text",
      'IF({no}=1,"",{told^})&REPT(", "&{buy@1}&" "&{family.offered},--({buy@1}>0))'),
    C("cash_all", "Paid for guards, all families", "money", "SUMPRODUCT({*buy@},{families.guard_cost})", **TOTALS),
), {"family": At("families", "{no}")}, "", under="sizes", section="Guards to buy")
# fmt: on


def guards(est):
    told = ""
    for row, family in zip(est.rows["guard_buys"], est.rows["families"]):
        coats = [
            coat
            for coat, pick in zip(est.rows["gallons"], est.rows["picks"])
            if pick.live and pick.guard_at == row.no and coat.applied > 0
        ]
        row.buy = tuple(most(coat.guns * included(coat, scenario) for coat in coats) for scenario in SCENARIOS)
        told += f", {row.buy[0]:g} {est.judge.as_text(family.offered)}" if row.buy[0] else ""
        row.told = told
    families = [row for row in est.rows["families"] if row.sound]
    est.rows["guard_buys"][0].cash_all = tuple(
        sum(est.rows["guard_buys"][row.no - 1].buy[at] * row.guard_cost for row in families)
        for at, _ in enumerate(SCENARIOS)
    )
