"""Values that a rule allows and that are probably a mistake: told as warnings."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from builder.quantities import scale

# fmt: off
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
          "volume solids below 15 % are low for a paint",
          "check the decimal point; stains and sealers are bought by spread"),
    Doubt("coatings", "density", lambda row: row.density < 0.75 * KG_PER_L, "density below that of any solvent",
          "check the unit"),
    Doubt("coatings", "pack2_price", _dearer_before, "a larger pack costs less than a smaller one",
          "check which pack the price is for"),
    Doubt("coatings", "wet_max", _sags, "its dry film goes on wetter than its maximum wet film",
          "check that the dry film is that of one coat"),
    Doubt("coatings", "pack1_price", lambda row: row.pack1_price == 0, "a pack price of 0",
          "where the owner supplies the coating, say so on Paint"),
    Doubt("coatings", "orifice_max", lambda row: row.orifice_max > 4 * row.orifice_min,
          "largest orifice over 4 times the smallest", "check the unit"),
    Doubt("nozzles", "nozzle_price", lambda row: row.nozzle_price == 0, "a price of 0",
          "enter what you would pay for one"),
    Doubt("surfaces", "loss", lambda row: row.loss > 0.5, "more than half of the paint is lost",
          "check the decimal point"),
    Doubt("surfaces", "gun_speed_max", lambda row: row.gun_speed_max > 2.0, "fastest hand over 2 m/s (6.6 ft/s)",
          "check the unit"),
    Doubt("crews", "wage", lambda row: row.wage == 0, "a wage of 0", "enter what an hour of one person costs you"),
    Doubt("profiles", "paint_coefficient",
          lambda row: row.paint_coefficient is not None and row.paint_coefficient > 2 * row.coefficient,
          "paint coefficient over twice the coefficient", "enter painted area over flat area"),
)
