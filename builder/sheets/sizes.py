"""Sizes: the wear budget (E20)."""
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.stock import SCENARIOS, total, within


def _used(key):
    return f"SUMPRODUCT(--({{gallons.size_at}}={{no}}),{within('gallons', '{@}')},{{gallons.{key}}})"


WANTED = "ROUNDUP({guns}*(1+{terms.spares})-{terms.round_slack},0)-{usable}"

SIZES = Block("sizes", "Sizes", results_first("no nozzle applied buy left due cash wear_cost", (
    C("no", "Size, row", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF(({nozzle.ready}=1)*({terms.ready}=1)=1,1,"")', ""),
    C("nozzle", "Nozzle", "text", "{nozzle.known}"),
    C("applied", "Sprayed through it, base", "volume",
      "SUMPRODUCT(--({gallons.size_at}={no}),--({gallons.only}=0),{gallons.applied})"),
    C("due", "Nozzles due", "number", _used("due"), **SCENARIOS),
    C("spent", "Lives spent", "number", _used("spent"), **SCENARIOS),
    C("ratio", "Due over spent", "number", "IF({spent@}=0,1,{due@}/{spent@})", **SCENARIOS),
    C("guns", "Guns that use it", "count", "SUMPRODUCT(LARGE(({gallons.size_at}={no})*{gallons.guns},1))"),
    C("usable", "Usable in the kit", "count", "SUMPRODUCT(--({kit.nozzle_at}={no}),{kit.usable})"),
    C("left", "Left in the kit", "number", "SUMPRODUCT(({kit.nozzle_at}={no})*({days.no}={@}),{kit.left})", **SCENARIOS),
    C("buy", "Buy", "count", f"({{due@}}>0)*MAX(ROUNDUP(MAX(0,{{due@}}-{{left@}}-{{terms.round_slack}}),0),{WANTED},0)", **SCENARIOS),
    C("wear_cost", "Cost by wear", "money", "{due@}*{nozzle.nozzle_price}", **SCENARIOS),
    C("cash", "Cash at the counter", "money", "{buy@}*{nozzle.nozzle_price}", **SCENARIOS),
    total("wear_cost", "Cost by wear, all sizes", "money"),
    total("cash", "Cash at the counter, all sizes", "money"),
)), {"nozzle": At("nozzles", "{no}")}, "live")
