"""Values that a rule allows and that are hardly meant: told as warnings."""
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from builder.quantities import scale

KG_PER_L = scale("kg/L")


@dataclass(frozen=True)
class Doubt:
    """A doubt about one field of a faultless row; `hit` takes the row."""

    block: str
    key: str
    hit: Callable[[Any], bool]
    message: str
    hint: str


def _dearer_before(row: Any) -> bool:
    """A larger pack that costs less than the pack before."""
    prices = [price for price in (row.pack1_price, row.pack2_price, row.pack3_price) if price is not None]
    return any(after <= before for before, after in zip(prices, prices[1:]))


def _sags(row: Any) -> bool:
    return row.volume_solids is not None and row.wet_max is not None and row.dry_film / row.volume_solids > row.wet_max


DOUBTS = (
    Doubt("coatings", "volume_solids", lambda row: row.volume_solids is not None and row.volume_solids < 0.15,
          "volume solids are low for a paint", "is the decimal point right? stains and sealers are bought by spread"),
    Doubt("coatings", "density", lambda row: row.density < 0.75 * KG_PER_L, "lighter than any solvent", "is the unit right?"),
    Doubt("coatings", "pack2_price", _dearer_before, "a larger pack costs less than a smaller one", "is the price of the right pack?"),
    Doubt("coatings", "wet_max", _sags, "its own dry film is wetter than it can hold in one coat", "is the dry film that of one coat?"),
    Doubt("coatings", "pack1_price", lambda row: row.pack1_price == 0, "a pack that costs nothing", "for a coating the owner supplies, say so on the job"),
    Doubt("coatings", "orifice_max", lambda row: row.orifice_max > 4 * row.orifice_min, "a very wide range of orifices", "is the unit right?"),
    Doubt("nozzles", "nozzle_price", lambda row: row.nozzle_price == 0, "a nozzle that costs nothing", "what would you pay for it?"),
    Doubt("surfaces", "loss", lambda row: row.loss > 0.5, "more than half is lost", "is the decimal point right?"),
    Doubt("surfaces", "gun_speed_max", lambda row: row.gun_speed_max > 2.0, "a hand faster than 2 m/s", "is the unit right?"),
    Doubt("crews", "wage", lambda row: row.wage == 0, "a crew that works for nothing", "what does an hour of one person cost you?"),
    Doubt("profiles", "paint_coefficient", lambda row: row.paint_coefficient is not None and row.paint_coefficient > 2 * row.coefficient,
          "takes far more paint than it measures", "painted over flat area"),
)
