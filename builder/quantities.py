"""Quantities: text with a unit -> SI -> the unit a sheet shows.

Inside, every number is SI and every amount of money is in the catalogs' currency. Two borders
convert: text on load (`Units.parse`), cells on writing and reading (`Units.to_cell`, `from_cell`).
"""

import functools
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias, overload

from builder.numerals import avoid, plain, terms_of
from builder.problems import BadValue
from builder.spellings import KREBS, SPELLINGS, in_terms_of, spelled

Value: TypeAlias = float | str | None  # of a field: in SI, None is blank; text is a name, or what was not understood

SYSTEMS = ("us", "metric")

ZERO = {"degC": 273.15, "degF": 273.15 - 32 * 5 / 9}  # kelvin at the scale's own zero

# Days are counted, not measured, so money a day is money for each.
# quantity -> unit shown in US books, unit shown in metric books, decimals shown in each.
SHOWN = {
    "length": ("ft", "m", 2, 2),
    "distance": ("mi", "km", 1, 1),  # to the site
    "width": ("in", "mm", 1, 0),
    "film": ("mil", "um", 2, 0),
    "orifice": ("thou", "thou", 0, 0),
    "area": ("ft2", "m2", 0, 1),
    "volume": ("gal", "L", 2, 1),
    "spread": ("ft2/gal", "m2/L", 0, 2),
    "yield": ("gal/ft2", "L/m2", 5, 4),
    "density": ("lb/gal", "kg/L", 2, 3),
    "viscosity": ("cP", "cP", 0, 0),
    "pressure": ("psi", "bar", 0, 0),
    "flow": ("gal/min", "L/min", 3, 2),
    "speed": ("ft/s", "m/s", 2, 2),
    "rate": ("ft2/h", "m2/h", 0, 1),
    "length_rate": ("ft/h", "m/h", 0, 1),
    "count_rate": ("/h", "/h", 2, 2),
    "time": ("h", "h", 2, 2),
    "per_area": ("/ft2", "/m2", 5, 4),
    "area_time": ("h/ft2", "h/m2", 5, 4),
    "handling": ("s/ft2", "s/m2", 2, 1),
    "resistance": ("psi.min/gal", "bar.min/L", 0, 1),
    "endurance": ("psi.gal", "bar.L", 0, 0),
    "run": ("1/in3", "1/mm3", 0, 2),
    "voc": ("g/L", "g/L", 0, 0),
    "mass": ("lb", "kg", 1, 1),
    "temperature": ("degF", "degC", 0, 0),
    "warmth": ("degF", "degC", 0, 1),  # warmth: a difference of temperatures
    "money": ("", "", 2, 2),
    "money_volume": ("/gal", "/L", 2, 2),
    "money_area": ("/ft2", "/m2", 4, 4),
    "money_length": ("/ft", "/m", 2, 2),
    "money_distance": ("/mi", "/km", 2, 2),
    "money_hour": ("/h", "/h", 2, 2),
    "money_day": ("/day", "/day", 2, 2),
    "share": ("", "", 3, 3),
    "number": ("", "", 3, 3),
    "count": ("", "", 0, 0),
    "days": ("day", "day", 1, 1),
    "date": ("", "", 0, 0),
    "year": ("", "", 0, 0),
    "lives": ("", "", 1, 1),  # of nozzles
    "seconds": ("s", "s", 1, 1),
    "text": ("", "", 0, 0),
}
FAR = ("mi", "km")  # of roads alone: a slip of the pen in mil or mm is no mile
PLAIN = ("number", "count", "days", "date", "year", "lives", "text")  # no unit: the value is its own cell


def scale(unit: str) -> float:
    """The SI value of one `unit` of the closed list; KeyError for any other spelling."""
    return SPELLINGS[unit].size


@functools.cache
def units_of(quantity: str) -> list[str]:
    """Every spelling that can stand behind a number of this quantity, the shown ones first."""
    first = [unit for unit in SHOWN[quantity][:2] if unit and quantity not in PLAIN]
    if not first:
        return ["%"] if quantity == "share" else []
    return list(dict.fromkeys(first + [unit for unit in SPELLINGS if unit and _shape(unit) == _shape(first[0])]))


def _shape(unit: str) -> tuple[str, bool, bool, bool, bool]:
    """What two units must share to measure one quantity: gal/ft2 is a length to pint, not to a contractor."""
    return SPELLINGS[unit].dimension, unit.find("/") > 0, unit.startswith("/"), unit in ZERO, unit.lstrip("/") in FAR


def _alone(unit: str) -> bool:
    """Whether one word may name it: a ratio, or a scale with a zero of its own, is not told by its dimension."""
    return "/" not in unit and unit not in ZERO


# Decimals of what can be paid in a currency, where they are not two: the minor units of ISO 4217, from memory.
MINOR_UNITS = {
    **dict.fromkeys("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF".split(), 0),
    **dict.fromkeys("BHD IQD JOD KWD LYD OMR TND".split(), 3),
}


@dataclass(frozen=True)
class Units:
    """One book's own units: a system, a currency, and that currency's worth of one catalog unit of money."""

    system: str = "us"
    currency: str = ""
    exchange: float = 1.0

    def _unit(self, quantity: str) -> str:
        return SHOWN[quantity][:2][SYSTEMS.index(self.system)]

    def shown(self, quantity: str) -> str:
        """The unit behind a number of this quantity, as a header shows it."""
        unit = self._unit(quantity)
        if quantity.startswith("money"):
            return self.currency + unit
        return unit

    @property
    def cents(self) -> int:
        """Decimals of an amount that can be paid: two, for a currency that is not listed."""
        return MINOR_UNITS.get(self.currency.upper(), 2)

    @property
    def money_step(self) -> float:
        """The least amount that can be paid, as it is shown: a cent, a yen."""
        return 10.0**-self.cents

    def amount(self, shown: float, sign: str = "") -> str:
        """A shown amount of money in words: '48,230.00', '48,230' in yen."""
        return f"{shown:{sign},.{self.cents}f}"

    def decimals(self, quantity: str) -> int:
        if quantity == "money":
            return self.cents
        return SHOWN[quantity][2:][SYSTEMS.index(self.system)]

    def scale(self, quantity: str) -> float:
        """Internal value of one shown unit."""
        size = scale(self._unit(quantity))
        return size / self.exchange if quantity.startswith("money") else size

    @overload
    def to_cell(self, value: float, quantity: str) -> float: ...
    @overload
    def to_cell(self, value: Value, quantity: str) -> float | str: ...

    def to_cell(self, value: Value, quantity: str) -> float | str:
        """Internal value -> what the cell holds; blank is ''; text stays text."""
        if value is None:
            return ""
        if quantity in PLAIN or isinstance(value, str):
            return value
        if quantity == "temperature":
            unit = self._unit(quantity)
            return (value - ZERO[unit]) / scale(unit)
        return value / self.scale(quantity)

    @overload
    def from_cell(self, value: float, quantity: str) -> float: ...
    @overload
    def from_cell(self, value: Value, quantity: str) -> Value: ...

    def from_cell(self, value: Value, quantity: str) -> Value:
        """What a cell holds -> internal value; blank is None; text stays text."""
        if value is None or value == "":
            return None
        if quantity in PLAIN or isinstance(value, str):
            return value
        if quantity == "temperature":
            unit = self._unit(quantity)
            return value * scale(unit) + ZERO[unit]
        return value * self.scale(quantity)

    def settle(self, value: Value, quantity: str) -> Value:
        """The value as the book will hold it: 15 digits of the shown unit, so that a read-back changes nothing."""
        shown = self.to_cell(value, quantity)
        if isinstance(shown, float):
            shown = float(f"{shown:.15g}")
        return self.from_cell(shown, quantity)

    def to_text(self, value: Value, quantity: str) -> str:
        """Internal value -> the text of a file that `parse` reads as the same value, in the unit the book shows; text
        stays text.
        """
        shown = self.to_cell(value, quantity)
        if isinstance(shown, str):
            return shown
        number = Decimal(f"{shown:.15g}") * (100 if quantity == "share" else 1)
        unit = "%" if quantity == "share" else "" if quantity in PLAIN else self._unit(quantity)
        digits = f"{number:f}"
        return f"{digits.rstrip('0').rstrip('.') if '.' in digits else digits} {unit}".rstrip()

    def parse(self, text: str, quantity: str, unmarked: float = 1.0) -> float:
        """Text of a file -> internal value. BadValue says what is allowed instead.

        unmarked: the most that a share may be without its %; nobody means 1800 % who writes 18.
        """
        text = text.strip()
        example = units_of(quantity)
        avoid(text)
        try:
            terms = terms_of(plain(text))
        except (ValueError, ZeroDivisionError, OverflowError):
            wanted = (
                f"a number with a unit, such as '1 {example[0]}'"
                if example and quantity != "share"
                else "a plain number"
            )
            raise BadValue(f"'{text}' is not {wanted}", "write digits and a decimal point, as in 12.5") from None
        if (
            quantity == "share"
            and terms[0][1] == ""
            or quantity in PLAIN
            or (quantity.startswith("money") and not example)
        ):
            if len(terms) > 1 or terms[0][1]:
                raise BadValue(f"'{text}' has a unit or text after the number", "write the number alone")
            if quantity == "share" and terms[0][0] > unmarked:
                raise BadValue(f"'{text}' has no % sign", f"write '{text} %' or {terms[0][0] / 100:.10g}")
            return terms[0][0] / (self.exchange if quantity.startswith("money") else 1.0)
        total = zero = 0.0
        for number, unit in terms:
            if unit == "" and quantity in ("money_hour", "money_day"):
                unit = example[0]
            if unit == "":
                raise BadValue(
                    f"'{text}' has no unit", "use " + " or ".join(example[:2]) + f", as in '{number:g} {example[0]}'"
                )
            known = spelled(unit)
            if quantity == "viscosity" and unit.lower() in KREBS:
                raise BadValue(
                    f"'{text}' is read with a slow paddle, and says nothing of how the paint moves through a hose",
                    "write its viscosity at about 500 1/s, in cP; 250 cP is usual for wall paint",
                )
            if not known:
                worth = in_terms_of(unit, example[0]) if _alone(example[0]) else ""
                raise BadValue(f"unknown unit '{unit}'", f"{worth}{'; ' if worth else ''}use " + ", ".join(example))
            if known not in example:
                told = "is not a %" if quantity == "share" else f"is not a unit of {quantity.replace('_', ' ')}"
                raise BadValue(f"'{unit}' {told}", "use " + ", ".join(example))
            total += number * scale(known)
            zero = ZERO.get(known, 0.0)
        if quantity == "temperature":
            total += zero
        return total / (self.exchange if quantity.startswith("money") else 1.0)
