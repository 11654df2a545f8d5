"""What the formulas take from the unit system: scales between the shown units, and a few bounds.

The model works in SI and needs none of the scales; a test holds them against `trade`.
"""

from math import pi

from builder.quantities import ZERO, scale
from builder.records.catalogs import WHOLE
from builder.records.rules import NAME_LENGTH
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import STEPS, step
from builder.stages import paging
from builder.trade.rental import MONTH, WEEK
from builder.trade.risk import DECILES, NORMAL
from builder.trade.schedule import GUSTS, NEVER
from builder.trade.weather import ICE
from builder.trade.working_days import LOST_MOST
from builder.values import ORIFICE_LEAST, SIZE_LEAST, SIZE_MOST

LENGTHS = {"foot": "ft", "inch": "in", "meter": "m", "centimeter": "cm", "millimeter": "mm"}

# fmt: off
CONSTANTS = Block("constants", "Constants", (
    C("cover", "Film and area of one volume",
      note="K of the film equations: area that one volume covers at a film of 1"),
    C("jet", "Flow of an orifice of 1 at pressure 1 and density 1",
      note="pi/4 * d^2 * sqrt(2 p / rho), before the discharge coefficient"),
    C("hose", "Hose loss per flow", note="128 / pi, Hagen-Poiseuille"),
    C("run", "Length over bore^4"), C("reynolds", "Reynolds number", note="4 / pi"),
    C("bore", "Content of a hose", note="pi / 4"),
    C("pace", "Hand speed of a flow on a film and step"), C("hour", "Flow times an hour, as a volume"),
    C("seconds", "Seconds of an hour"),
    C("inch", "An inch in widths of this book"),
    *(C(f"{one}_long", f"{one.capitalize()} in lengths of this book") for one in LENGTHS),
    C("water", "Density of water at 20 C", "density", note="998.2067 kg/m3"),
    C("money_step", "Smallest amount that can be paid",
      note="a cent, a yen: the currency's minor unit, ISO 4217, from memory"),
    C("money_decimals", "Decimals of it", "count"),
    C("clock", "Hours of a day on the clock", "time"),
    C("monday", "A Monday, where a job has no first day", "date", note="its holidays are not asked for"),
    C("tie", "Times closer than this are the same", "time"),
    C("never", "Later than any work", "time"),
    C("gusts", "Variance of what weather takes, over that of single days", note="found by drawing jobs"),
    C("lost_most", "Weather takes at most", "share"),
    C("week_days", "Working days of a week", "count"),
    C("month_days", "Working days of a month's rental", "count"),
    C("year", "Hours that are paid a year", "time", note="52 weeks of 40 h"),
    C("tenth", "A tenth, to which percent are said in words"),
    C("voc", "VOC of a volume, as a mass"),
    C("lead_year", "Old lead paint is likely before", "year", note="40 CFR 745.83"),
    C("lead_inside", "Minor work in a room, up to", "area", note="6 ft2, 40 CFR 745.83"),
    C("lead_outside", "Minor work outside, up to", "area", note="20 ft2, 40 CFR 745.83"),
    C("deciles", "Standard deviations from P10 to P90", note="of the normal distribution"),
    C("score_10", "Standard score of P10"), C("score_50", "Standard score of P50"),
    C("score_80", "Standard score of P80"), C("score_90", "Standard score of P90"),
    C("freezing", "Freezing point of water", note="in the degrees of this book"),
    C("degree", "A degree of this book in degrees Celsius"),
    C("notch", "A notch of 1 mil on a gauge of this book", note="1 mil: ASTM D4414; 25 um: common practice"),
    C("stroke", "Stroke by which a hand is told", "length", note="in so many seconds"),
    C("batch", "Area for which costs of sizes are told", "area"),
    C("squares", "Squares of the life of a nozzle", "count"),
    C("strip_rows", "Rows of a coat on the Crew card", "count"),
    C("page_coats", "Coats on a printed sheet of it", "count"),
    C("page_rows", "Rows of a printed sheet of it", "count"),
    C("quote", "Sign of inches", "text"),
    C("film_unit", "Unit of film", "text"),
    C("volume_unit", "Unit of volume", "text"),
    C("sizes", "Rows of the nozzle catalog", "count"), C("size_least", "Smallest nozzle size", "count"),
    C("size_most", "Largest nozzle size", "count"),
    C("orifice_least", "Smallest orifice of a size", "count"),
    *(C(f"step_{quantity}", f"People read to the nearest, {quantity}", note="in the unit of this book")
      for quantity in STEPS),
    C("name_length", "Characters of a name, at most", "count"),
    C("whole", "How far from whole a multiple of packs may be")), form="upright")

WATER_DENSITY = 998.2067       # kg/m3 at 20 C
LEAD_YEAR = 1978.0                                           # 40 CFR 745.83: homes built before it
LEAD_INSIDE, LEAD_OUTSIDE = 6 * scale("ft2"), 20 * scale("ft2")   # minor work: up to 6 ft2 a room, 20 ft2 outside
INCH = scale("in")
STROKE = {"us": 8 * scale("ft"), "metric": 2.5}              # about as far as an arm and a step reach
SQUARES = 10.0                 # a tenth of a life is what can be told by eye
BATCH = {"us": 1000 * scale("ft2"), "metric": 100.0}
YEAR = 2080 * 3600.0           # seconds that are paid a year: 52 weeks of 40 h
CLOCK = 24 * 3600.0            # seconds of a day on the clock: coats dry at night too
MONDAY = 36892.0               # 2001-01-01 as spreadsheets count days
TIE = 0.0036                   # s: a millionth of an hour


def shown_constants(units, sizes):
    """key -> figure for the Constants sheet: scales in the units of the book, and what has a quantity of
    its own in SI.
    """
    warm = units.shown("temperature")
    unit = {name: units.scale(name) for name in ("film", "area", "volume", "flow", "width", "length", "speed",
                                                 "pressure",
                                                  "density", "orifice", "viscosity", "time", "handling", "area_time",
                                                  "resistance", "run", "voc", "mass")}
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
        **{f"{one}_long": scale(name) / unit["length"] for one, name in LENGTHS.items()},
        "water": WATER_DENSITY,
        "lead_year": LEAD_YEAR, "lead_inside": LEAD_INSIDE, "lead_outside": LEAD_OUTSIDE,
        "deciles": DECILES, "score_10": NORMAL.inv_cdf(0.1), "score_50": 0.0, "score_80": NORMAL.inv_cdf(0.8),
        "score_90": NORMAL.inv_cdf(0.9),
        "freezing": (ICE - ZERO[warm]) / scale(warm), "degree": scale(warm),
        "money_step": units.money_step, "money_decimals": float(units.cents),
        "clock": CLOCK, "year": YEAR, "tenth": 0.1,
        "monday": MONDAY, "tie": TIE, "never": NEVER, "gusts": GUSTS, "lost_most": LOST_MOST,
        "week_days": float(WEEK), "month_days": float(MONTH),
        "notch": 1.0 if units.system == "us" else 25.0,
        "stroke": STROKE[units.system], "batch": BATCH[units.system], "squares": SQUARES,
        "strip_rows": float(paging.PITCH), "page_coats": float(paging.EACH), "page_rows": float(paging.PAGE),
        "quote": '"',
        "film_unit": units.shown("film"),
        "volume_unit": units.shown("volume"),
        "sizes": float(sizes),
        "size_least": float(SIZE_LEAST), "size_most": float(SIZE_MOST), "orifice_least": float(ORIFICE_LEAST),
        **{f"step_{quantity}": step(quantity, units.system) for quantity in STEPS},
        "name_length": float(NAME_LENGTH), "whole": WHOLE,
    }
# fmt: on
