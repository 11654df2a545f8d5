"""The closed list of spellings that a file or a sheet may use for a unit, what each is worth, and the words that people
write for them. The only user of pint.

The table was worked out by pint and is held to it, bit for bit, by `tests/trade/test_units.py`; so no command waits for
pint, and no figure hangs on its version. pint is asked for one thing more: what a unit outside the list would be in one
of the list, for the message that refuses it. It is not accepted. What pint makes of a word is not always what a painter
means: its `mil` is an angle, its `c` the speed of light, its `dft` a tenth of a foot.
"""

import functools
import re
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    import pint


class Unit(NamedTuple):
    """What pint calls a unit, the SI value of one, and its dimension in SI base units."""

    pint: str
    size: float
    dimension: str


SPELLINGS = {
    "ft": Unit("foot", 0.30479999999999996, "m"),
    "in": Unit("inch", 0.0254, "m"),
    "yd": Unit("yard", 0.9144, "m"),
    "m": Unit("meter", 1.0, "m"),
    "cm": Unit("centimeter", 0.01, "m"),
    "mm": Unit("millimeter", 0.001, "m"),
    "mi": Unit("mile", 1609.344, "m"),
    "km": Unit("kilometer", 1000.0, "m"),
    "mil": Unit("thou", 2.5399999999999997e-05, "m"),
    "thou": Unit("thou", 2.5399999999999997e-05, "m"),
    "um": Unit("micrometer", 1e-06, "m"),
    "µm": Unit("micrometer", 1e-06, "m"),
    "ft2": Unit("foot**2", 0.09290303999999999, "m2"),
    "m2": Unit("meter**2", 1.0, "m2"),
    "gal": Unit("gallon", 0.0037854117839999993, "m3"),
    "qt": Unit("quart", 0.0009463529459999998, "m3"),
    "pt": Unit("pint", 0.0004731764729999999, "m3"),
    "fl oz": Unit("fluid_ounce", 2.9573529562499994e-05, "m3"),
    "L": Unit("liter", 0.0010000000000000002, "m3"),
    "mL": Unit("milliliter", 1.0000000000000002e-06, "m3"),
    "ft2/gal": Unit("foot**2/gallon", 24.54238674711116, "m-1"),
    "m2/L": Unit("meter**2/liter", 999.9999999999999, "m-1"),
    "gal/ft2": Unit("gallon/foot**2", 0.040745833333333335, "m"),
    "L/m2": Unit("liter/meter**2", 0.0010000000000000002, "m"),
    "lb/gal": Unit("pound/gallon", 119.82642731689667, "kg m-3"),
    "kg/L": Unit("kilogram/liter", 999.9999999999999, "kg m-3"),
    "kg/m3": Unit("kilogram/meter**3", 1.0, "kg m-3"),
    "g/mL": Unit("gram/milliliter", 999.9999999999999, "kg m-3"),
    "g/L": Unit("gram/liter", 0.9999999999999999, "kg m-3"),
    "lb": Unit("pound", 0.4535923700000001, "kg"),
    "kg": Unit("kilogram", 1.0, "kg"),
    "cP": Unit("centipoise", 0.001, "kg m-1 s-1"),
    "mPa.s": Unit("millipascal*second", 0.001, "kg m-1 s-1"),
    "Pa.s": Unit("pascal*second", 1.0, "kg m-1 s-1"),
    "psi": Unit("psi", 6894.7572931683635, "kg m-1 s-2"),
    "bar": Unit("bar", 100000.0, "kg m-1 s-2"),
    "MPa": Unit("megapascal", 1000000.0, "kg m-1 s-2"),
    "kPa": Unit("kilopascal", 1000.0, "kg m-1 s-2"),
    "gal/min": Unit("gallon/minute", 6.309019639999999e-05, "m3 s-1"),
    "L/min": Unit("liter/minute", 1.666666666666667e-05, "m3 s-1"),
    "L/h": Unit("liter/hour", 2.7777777777777787e-07, "m3 s-1"),
    "gal/h": Unit("gallon/hour", 1.0515032733333332e-06, "m3 s-1"),
    "ft/s": Unit("foot/second", 0.30479999999999996, "m s-1"),
    "ft/min": Unit("foot/minute", 0.0050799999999999994, "m s-1"),
    "m/s": Unit("meter/second", 1.0, "m s-1"),
    "m/min": Unit("meter/minute", 0.016666666666666666, "m s-1"),
    "s": Unit("second", 1.0, "s"),
    "min": Unit("minute", 60.0, "s"),
    "h": Unit("hour", 3600.0, "s"),
    "day": Unit("day", 86400.0, "s"),
    "s/ft2": Unit("second/foot**2", 10.763910416709724, "m-2 s"),
    "s/m2": Unit("second/meter**2", 1.0, "m-2 s"),
    "min/ft2": Unit("minute/foot**2", 645.8346250025835, "m-2 s"),
    "min/m2": Unit("minute/meter**2", 60.0, "m-2 s"),
    "h/ft2": Unit("hour/foot**2", 38750.07750015501, "m-2 s"),
    "h/m2": Unit("hour/meter**2", 3600.0, "m-2 s"),
    "ft2/h": Unit("foot**2/hour", 2.5806399999999997e-05, "m2 s-1"),
    "m2/h": Unit("meter**2/hour", 0.0002777777777777778, "m2 s-1"),
    "ft/h": Unit("foot/hour", 8.466666666666666e-05, "m s-1"),
    "m/h": Unit("meter/hour", 0.0002777777777777778, "m s-1"),
    "psi.min/gal": Unit("psi*minute/gallon", 109284131.07885595, "kg m-4 s-1"),
    "bar.min/L": Unit("bar*minute/liter", 5999999999.999999, "kg m-4 s-1"),
    "psi.gal": Unit("psi*gallon", 26.09949550537946, "kg m2 s-2"),
    "bar.L": Unit("bar*liter", 100.00000000000003, "kg m2 s-2"),
    "1/in3": Unit("1/inch**3", 61023.7440947323, "m-3"),
    "1/mm3": Unit("1/millimeter**3", 999999999.9999999, "m-3"),
    "/gal": Unit("1/gallon", 264.1720523581485, "m-3"),
    "/L": Unit("1/liter", 999.9999999999999, "m-3"),
    "/ft2": Unit("1/foot**2", 10.763910416709724, "m-2"),
    "/m2": Unit("1/meter**2", 1.0, "m-2"),
    "/ft": Unit("1/foot", 3.2808398950131235, "m-1"),
    "/m": Unit("1/meter", 1.0, "m-1"),
    "/mi": Unit("1/mile", 0.0006213711922373339, "m-1"),
    "/km": Unit("1/kilometer", 0.001, "m-1"),
    "/h": Unit("1/hour", 0.0002777777777777778, "s-1"),
    "/day": Unit("1", 1.0, ""),
    "K": Unit("kelvin", 1.0, "K"),
    "degC": Unit("kelvin", 1.0, "K"),
    "degF": Unit("kelvin*5/9", 0.5555555555555556, "K"),
    "%": Unit("0.01", 0.01, ""),
    "": Unit("1", 1.0, ""),
}
# Unit of the list -> what else people write for it, in small letters; capitals, and a dot behind a word, do not count.
_SAID = {
    "ft": "', ' -, '-, feet, foot, ft",
    "in": "\", '', inches, inch, in",
    "yd": "yards, yard, yds, yd",
    "m": "meters, meter, metres, metre, m",
    "cm": "centimeters, centimeter, centimetres, centimetre, cm",
    "mm": "millimeters, millimeter, millimetres, millimetre, mm",
    "mi": "miles, mile, mi",
    "km": "kilometers, kilometer, kilometres, kilometre, km",
    "mil": "mils, mil",
    "thou": "thousandths, thousandth",
    "um": "microns, micron",
    "ft2": "square feet, square foot, sq feet, sq foot, sq ft, sqft, sf, ft2",
    "m2": "square meters, square meter, square metres, square metre, sq m, sqm, m2",
    "gal": "gallons, gallon, gals, gal",
    "qt": "quarts, quart, qts, qt",
    "pt": "pints, pint, pts, pt",
    "fl oz": "fluid ounces, fluid ounce",
    "L": "liters, liter, litres, litre, l",
    "mL": "milliliters, milliliter, millilitres, millilitre, ml",
    "lb": "pounds, pound, lbs, lb",
    "kg": "kilograms, kilogram, kg",
    "cP": "centipoise, cps, cp",
    "mPa.s": "mpas, mpa.s, mpa·s, mpa s",
    "psi": "psi",
    "bar": "bars, bar",
    "gal/min": "gpm",
    "L/min": "lpm",
    "h": "hours, hour, hrs, hr, h",
    "min": "minutes, minute, mins, min",
    "s": "seconds, second, secs, sec",
    "day": "days",
    "degF": "fahrenheit, degrees f, deg f, °f, f, degf",
    "degC": "celsius, degrees c, deg c, °c, c, degc",
    "%": "percent, per cent, pct",
}
WORDS = {word: unit for unit, words in _SAID.items() for word in words.split(", ")}
KREBS = ("ku", "krebs", "krebs units")  # of a viscosity read with a slow paddle


def spelled(word: str) -> str:
    """'Gallons per minute' -> 'gal/min': a unit as people write it, as the list spells it; '' for any other."""
    if word in SPELLINGS:
        return word
    plain = " ".join(re.sub(r"\.(?= |$)", " ", word.lower()).split())
    if plain in WORDS:
        return WORDS[plain]
    parts = [WORDS.get(part, part) for part in re.split(r" ?(?:/|\bper\b) ?", plain)]
    ratio = "/".join(parts)
    return ratio if len(parts) > 1 and ratio in SPELLINGS else ""


_BASES = (("kg", "[mass]"), ("m", "[length]"), ("s", "[time]"), ("K", "[temperature]"))


@functools.cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint

    return pint.UnitRegistry()


def measured(expression: str) -> tuple[float, str | None]:
    """The SI value and the dimension of what pint calls `expression`; the dimension is None where it has others than
    those of the list.
    """
    one: Any = _registry().Quantity(expression).to_base_units()
    powers = dict(one.dimensionality)
    found = " ".join(
        f"{base}{'' if power == 1 else f'{power:g}'}" for base, name in _BASES if (power := powers.pop(name, 0))
    )
    return float(one.magnitude), None if powers else found


def in_terms_of(word: str, spelling: str) -> str:
    """'yards', 'ft' -> '1 yard is 3 ft'; '' for a word that pint does not know or that measures something else.

    A unit with a prefix must spell it out: millimeters, but not dft.
    """
    name = word.replace(" ", "_").lower()
    if not (name.isascii() and name.replace("_", "").isalpha()):
        return ""
    for prefix, unit, _ in _registry().parse_unit_name(name):
        size, dimension = measured(prefix + unit)
        if name.startswith(prefix) and dimension == SPELLINGS[spelling].dimension:
            return f"1 {(prefix + unit).replace('_', ' ')} is {size / SPELLINGS[spelling].size:.5g} {spelling}"
    return ""
