"""Wear budget: nozzles due and spent per size, what the kit still gives, what to buy (E20)."""

from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import BY_SCENARIO, TOTALS, included, within
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.trade.packs import whole


# fmt: off
def through(size, key):
    """Of the coats that are sprayed through a size, the sum in a scenario."""
    return f"SUMPRODUCT(--({{gallons.size_at}}={size}),{within('gallons', '{@}')},{{gallons.{key}}})"


WANTED = "ROUNDUP({guns}*(1+{terms.spares})-{terms.round_slack},0)-{usable}"

SIZES = Block("sizes", "Sizes", results_first("no nozzle applied buy left due", (
    C("no", "Size, row", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF(({nozzle.sound}=1)*({terms.sound}=1)=1,1,"")', ""),
    C("nozzle", "Nozzle", "text", "{nozzle.known}"),
    C("applied", "Sprayed through it, base", "volume",
      "SUMPRODUCT(--({gallons.size_at}={no}),--({gallons.only}=0),{gallons.applied})"),
    C("due", "Nozzles due", "number", through("{no}", "due"), **BY_SCENARIO),
    C("guns", "Guns that use it", "count", "SUMPRODUCT(LARGE(({gallons.size_at}={no})*{gallons.guns},1))"),
    C("usable", "Usable in the kit", "count", "SUMPRODUCT(--({kit.nozzle_at}={no}),{kit.usable})"),
    C("left", "Left in the kit", "number", "SUMPRODUCT(({kit.nozzle_at}={no})*({days.no}={@}),{kit.left})",
      **BY_SCENARIO),
    C("buy", "Buy", "count", f"({{due@}}>0)*MAX(ROUNDUP(MAX(0,{{due@}}-{{left@}}-{{terms.round_slack}}),0),{WANTED},0)",
      **BY_SCENARIO),
    C("price", "Price", "money", "{nozzle.nozzle_price}"),
    C("held", "In the kit, usable or not", "count", "SUMPRODUCT(--({kit.nozzle_at}={no}),{kit.live})"),
    C("rank", "Order on the wear budget, the greatest first", "number",
      'IF(({due@1}>0)+({held}>0)>0,{due@1}-{terms.slack}*{no},"")'),
    C("wear_cost_all", "Cost by wear, all sizes", "money", "SUMPRODUCT({*due@},{*price})", **TOTALS),
    C("cash_all", "Cash at the counter, all sizes", "money", "SUMPRODUCT({*buy@},{*price})", **TOTALS),
)), {"nozzle": At("nozzles", "{no}")}, "live")
# fmt: on


def _of_scenarios(coats, key):
    return tuple(sum(getattr(coat, key) * included(coat, scenario) for coat in coats) for scenario in SCENARIOS)


def sizes(est):
    kit = [row for row in est.rows["kit"] if row.live]
    for row, nozzle in zip(est.rows["sizes"], est.rows["nozzles"]):
        row.live = 1.0 if nozzle.sound and est.terms.sound else None
        if not row.live:
            continue
        row.nozzle = nozzle.known
        used = [coat for coat in est.rows["gallons"] if coat.size_at == row.no]
        row.due = _of_scenarios(used, "due")
        row.applied = sum(coat.applied * included(coat, 1) for coat in used)
    for row in kit:
        size = est.row("sizes", row.nozzle_at)
        row.spent = _of_scenarios([coat for coat in est.rows["gallons"] if coat.size_at == row.nozzle_at], "spent")
        ratios = (due / spent if spent else 1.0 for due, spent in zip(size.due, row.spent))
        row.left = tuple(max(0.0, 1 - row.worn * one) for one in ratios)
    rows = est.rows["sizes"]
    for row, nozzle in zip(rows, est.rows["nozzles"]):
        if not row.live:
            continue
        row.guns = max((coat.guns for coat in est.rows["gallons"] if coat.size_at == row.no), default=0.0)
        own = [one for one in kit if one.nozzle_at == row.no]
        row.usable, row.held = sum(one.usable for one in own), float(len(own))
        row.rank = row.due[0] - est.terms.slack * row.no if row.due[0] > 0 or own else None
        row.left = tuple(sum(one.left[scenario - 1] for one in own) for scenario in SCENARIOS)
        wanted = whole(row.guns * (1 + est.terms.spares), est.terms.round_slack) - row.usable
        row.buy = tuple(
            max(whole(due - left, est.terms.round_slack), wanted, 0.0) if due > 0 else 0.0
            for due, left in zip(row.due, row.left)
        )
        row.price = nozzle.nozzle_price
    rows[0].set(
        **{
            f"{key}_all": tuple(
                sum(getattr(row, of)[at] * row.price for row in rows if row.live) for at, _ in enumerate(SCENARIOS)
            )
            for key, of in (("wear_cost", "due"), ("cash", "buy"))
        }
    )
