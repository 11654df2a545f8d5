"""What the charts of Picks draw: the sizes that fit the coat that wears most nozzles, and what its nozzle costs over its life."""

POINTS = 13                    # of the curve, from a quarter of the way to where replacing pays until past the life


def most(est):
    """Marks the coats that wear most nozzles."""
    live = [row for row in est.rows["gallons"] if row.live]
    largest = max((row.due for row in live), default=0.0)
    for row in live:
        row.most = float(row.due > 0 and row.due >= largest * (1 - est.terms.slack))


def drawn(est):
    coat = next((row.no for row in est.rows["gallons"] if row.most), None)
    if coat is None:
        return
    count = len(est.rows["nozzles"])
    pick = est.row("picks", coat)
    tried = est.rows["trials"][(coat - 1) * count:coat * count]
    for row in est.rows["choices"]:
        row.coat = float(coat)
        row.size_at = float(row.no if tried[row.no - 1].fits else pick.size_at)
        row.fan, row.flow = est.row("nozzles", int(row.size_at)).fan, tried[int(row.size_at) - 1].flow
    est.rows["choices"][0].set(used_fan=pick.fan, used_flow=pick.flow)
    _curve(est, pick, tried[int(pick.size_at) - 1])


def _curve(est, pick, used):
    """Cost of a volume, nozzles and waste, when the nozzle is changed after so much (E14)."""
    def cost(volume):
        return used.change_cost / volume + used.waste_rate * volume / (2 * used.life)

    rows = est.rows["curve"]
    first, last = used.interval / 4, used.life * 1.25
    for row in rows:
        row.used_at = pick.used_at
        row.through = first + (last - first) * (row.no - 1) / (len(rows) - 1)
        row.cost = cost(row.through)
    rows[0].set(pays=used.interval, pays_cost=cost(used.interval), worn=used.life, worn_cost=cost(used.life))
