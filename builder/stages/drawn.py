"""What the charts of Nozzles draw of the coat that is chosen there: the sizes that fit, and what its nozzle costs over
its life.
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C

# fmt: off
POINTS = 13                    # of the curve, from a quarter of the way to where replacing pays until past the life

CHOICES = Block("choices", "Picks", (
    C("no", "Chart, size", "count", label=lambda number: number),
    C("live", "Charted", "count", 'IF({chosen.coat_at}="","",{pick.live})', ""),
    C("size_at", "Size charted, row", "count", "IF({tried.against}=0,{no},{pick.size_at})"),
    C("fan", "Fan that fits", "width", "{size.fan}"),
    C("flow", "Flow that fits", "flow", "{drawn.flow}"),
    C("used_fan", "Fan used", "width", "{pick.fan}", rows=1),
    C("used_flow", "Flow used", "flow", "{pick.flow}", rows=1),
), {"tried": At("trials", "({chosen.coat_at}-1)*{constants.sizes}+{no}"),
    "drawn": At("trials", "({chosen.coat_at}-1)*{constants.sizes}+{size_at}"),
    "pick": At("picks", "{chosen.coat_at}"), "size": At("nozzles", "{size_at}")}, "live", follows=True)

# of a volume, when the nozzle is changed after so much
COST = "{pick.change_cost}/{%s}+{pick.waste_rate}*{%s}/(2*{pick.life})"

CURVE = Block("curve", "Picks", (
    C("part", "Chart, part of the way", "share", label=lambda number: (number - 1) / (POINTS - 1)),
    C("used_at", "Row charted", "count", 'IF(N(INDEX({choices.live},1))=0,"",{pick.used_at})', ""),
    C("through", "Sprayed through", "volume", "{pick.interval}/4+({pick.life}*(1+1/4)-{pick.interval}/4)*{part}"),
    C("cost", "Nozzles and waste", "money_volume", COST % ("through", "through")),
    C("pays", "Replacing pays at", "volume", "{pick.interval}", rows=1),
    C("pays_cost", "Waste there", "money_volume", COST % ("pays", "pays"), rows=1),
    C("worn", "Worn out at", "volume", "{pick.life}", rows=1),
    C("worn_cost", "Waste then", "money_volume", COST % ("worn", "worn"), rows=1),
), {"pick": At("picks", "{chosen.coat_at}")}, "used_at",
    follows=True)
# fmt: on


def drawn(est):
    coat, count = est.rows["chosen"][0].coat_at, len(est.rows["nozzles"])
    if coat is None:
        return
    pick = est.row("picks", coat)
    for row in est.rows["choices"]:
        row.live = pick.live
    if not pick.live:
        return
    tried = est.rows["trials"][(coat - 1) * count : coat * count]
    for row in est.rows["choices"]:
        row.size_at = float(row.no if tried[row.no - 1].against == 0 else pick.size_at)
        row.fan, row.flow = est.row("nozzles", int(row.size_at)).fan, tried[int(row.size_at) - 1].flow
    est.rows["choices"][0].set(used_fan=pick.fan, used_flow=pick.flow)
    _curve(est, pick)


def _curve(est, pick):
    """Cost of a volume, nozzles and waste, when the nozzle is changed after so much (E14)."""

    def cost(volume):
        return pick.change_cost / volume + pick.waste_rate * volume / (2 * pick.life)

    rows = est.rows["curve"]
    first, last = pick.interval / 4, pick.life * 1.25
    for row in rows:
        row.used_at = pick.used_at
        row.through = first + (last - first) * (row.no - 1) / (len(rows) - 1)
        row.cost = cost(row.through)
    rows[0].set(pays=pick.interval, pays_cost=cost(pick.interval), worn=pick.life, worn_cost=cost(pick.life))
