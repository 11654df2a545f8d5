"""What the formulas take from the unit system: scales between the shown units, and a few bounds.

The model works in SI and needs none of the scales; a test holds them against `trade`.
"""
from math import pi

from builder.quantities import ZERO, scale
from builder.records.reasons import WEIGHT
from builder.rules import NAME_LENGTH, ORIFICE_LEAST, SIZE_LEAST, SIZE_MOST
from builder.trade.spread import DECILES, NORMAL
from builder.trade.weather import ICE

WATER_DENSITY = 998.2067       # kg/m3 at 20 C
LEAD_YEAR = 1978.0                                           # 40 CFR 745.83: homes built before it
LEAD_INSIDE, LEAD_OUTSIDE = 6 * scale("ft2"), 20 * scale("ft2")   # minor work: up to 6 ft2 a room, 20 ft2 outside
INCH = scale("in")
CLOCK = 24 * 3600.0            # seconds of a day on the clock: coats dry at night too
WHOLE = 1e-6                   # how far from whole a multiple of packs may be


def shown_constants(units, sizes):
    """key -> figure for the Constants sheet: scales in the units of the book, and what has a quantity of its own in SI."""
    warm = units.shown("temperature")
    unit = {name: units.scale(name) for name in ("film", "area", "volume", "flow", "width", "length", "speed", "pressure",
                                                  "density", "orifice", "viscosity", "time", "handling", "area_time", "resistance", "run", "voc", "mass")}
    return {
        "cover": unit["volume"] / (unit["film"] * unit["area"]),
        "jet": pi / 4 * unit["orifice"] ** 2 * (2 * unit["pressure"] / unit["density"]) ** 0.5 / unit["flow"],
        "hose": 128 / pi * unit["viscosity"] * unit["run"] / unit["resistance"],
        "run": unit["length"] / unit["width"] ** 4 / unit["run"],
        "reynolds": 4 / pi * unit["density"] * unit["flow"] / (unit["width"] * unit["viscosity"]),
        "bore": pi / 4 * unit["length"] * unit["width"] ** 2 / unit["volume"],
        "pace": unit["flow"] / (unit["film"] * unit["width"] * unit["speed"]),
        "hour": unit["flow"] * unit["time"] / unit["volume"],
        "seconds": unit["area_time"] / unit["handling"],
        "voc": unit["volume"] * unit["voc"] / unit["mass"],
        "inch": INCH / unit["width"],
        "water": WATER_DENSITY,
        "lead_year": LEAD_YEAR, "lead_inside": LEAD_INSIDE, "lead_outside": LEAD_OUTSIDE,
        "deciles": DECILES, "score_10": NORMAL.inv_cdf(0.1), "score_50": 0.0, "score_80": NORMAL.inv_cdf(0.8), "score_90": NORMAL.inv_cdf(0.9),
        "freezing": (ICE - ZERO[warm]) / scale(warm), "degree": scale(warm),
        "money_step": units.money_step, "money_decimals": float(units.cents),
        "clock": CLOCK, "tenth": 0.1,
        **{f"reason_{key}": weight for key, weight in WEIGHT.items()},
        "notch": 1.0 if units.system == "us" else 25.0,
        "hand": unit["speed"] / scale("in" if units.system == "us" else "cm"), "hand_unit": "in" if units.system == "us" else "cm",
        "film_unit": units.shown("film"),
        "volume_unit": units.shown("volume"),
        "sizes": float(sizes),
        "size_least": float(SIZE_LEAST), "size_most": float(SIZE_MOST), "orifice_least": float(ORIFICE_LEAST),
        "name_length": float(NAME_LENGTH), "whole": WHOLE,
    }
