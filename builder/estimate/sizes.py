"""Wear budget: nozzles due and spent per size, what the kit still gives, what to buy (E20)."""
from builder.estimate.scenarios import SCENARIOS, copies, included
from builder.trade.packs import whole


def sizes(est):
    kit = [row for row in est.rows["kit"] if row.live]
    for row, nozzle in zip(est.rows["sizes"], est.rows["nozzles"]):
        row.live = 1.0 if nozzle.ready and est.terms.ready else None
        if not row.live:
            continue
        row.nozzle = nozzle.known
        used = [coat for coat in est.rows["gallons"] if coat.size_at == row.no]
        row.due, row.spent = (tuple(sum(getattr(coat, key) * included(coat, scenario) for coat in used) for scenario in SCENARIOS)
                              for key in ("due", "spent"))
        row.ratio = tuple(due / spent if spent else 1.0 for due, spent in zip(row.due, row.spent))
        row.applied = sum(coat.applied * included(coat, 1) for coat in used)
    for row in kit:
        ratio = est.row("sizes", row.nozzle_at).ratio
        row.left = tuple(max(0.0, 1 - row.worn * one) for one in ratio)
    for row, nozzle in zip(est.rows["sizes"], est.rows["nozzles"]):
        if not row.live:
            continue
        row.guns = max((coat.guns for coat in est.rows["gallons"] if coat.size_at == row.no), default=0.0)
        own = [one for one in kit if one.nozzle_at == row.no]
        row.usable = sum(one.usable for one in own)
        row.left = tuple(sum(one.left[scenario - 1] for one in own) for scenario in SCENARIOS)
        wanted = whole(row.guns * (1 + est.terms.spares), est.terms.round_slack) - row.usable
        row.buy = tuple(max(whole(due - left, est.terms.round_slack), wanted, 0.0) if due > 0 else 0.0 for due, left in zip(row.due, row.left))
        row.wear_cost = tuple(due * nozzle.nozzle_price for due in row.due)
        row.cash = tuple(number * nozzle.nozzle_price for number in row.buy)
    rows = est.rows["sizes"]
    rows[0].set(wear_cost_all=copies(rows, "wear_cost"), cash_all=copies(rows, "cash"))
