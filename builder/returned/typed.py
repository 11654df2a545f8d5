"""What a person typed into a cell as text, where a number or a date belongs: understood, or refused in words."""

import re

from builder.numerals import APOSTROPHE, avoid, bare, plain
from builder.problems import BadValue
from builder.quantities import Units, Value
from builder.records.fields import Field
from builder.records.rules import Rule
from builder.values import any_day

_QUOTES = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "\u00a0": " ", "\u202f": " ", "\u2009": " "})
_MONEY_SIGNS = re.compile(r"[$€£]")
_GROUPS = re.compile(r"(?<![\w.,/])[1-9]\d{0,2}(?: \d{3})+(?![\d/])")  # 1 062: nobody means 1 ft 062 in
# ECMA-376 part 1, 18.18.11 and 18.17.3
ERRORS = ("#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!")


def _decimal_point(text: str) -> str:
    """'12,5' -> '12.5', '1,200.50' -> '1200.50'. BadValue where a comma may be either."""
    found = re.search(r"\d[\d.,]*[.,][\d.,]*\d", text)
    if not found or "," not in found[0]:
        return text
    number = found[0]
    if "." in number:
        last = max(number.rfind("."), number.rfind(","))
        whole, part = number[:last].replace(".", "").replace(",", ""), number[last + 1 :]
    elif number.count(",") == 1 and len(number) - number.index(",") - 1 != 3:
        whole, part = number.split(",")
    else:
        plain = number.replace(",", "")
        other = f" or {number.replace(',', '.')}" if number.count(",") == 1 else ""
        raise BadValue(f"'{text}' can mean {plain}{other}", "type the number without a comma")
    return text.replace(number, f"{whole}.{part}")


def _number(text: str, one: Field, units: Units) -> float:
    """A number without a unit is in that of its column."""
    quantity, said = one.quantity, plain(text)
    avoid(said, (APOSTROPHE,))
    said = _decimal_point(_GROUPS.sub(lambda found: found[0].replace(" ", ""), said))
    if quantity.startswith("money"):
        said = _MONEY_SIGNS.sub("", said.replace(units.currency, "") if units.currency else said).strip()
    number = None if quantity == "share" else bare(said)
    return units.parse(said, quantity, one.unmarked) if number is None else units.from_cell(number, quantity)


def _text(value: float | str, name: bool) -> str | None:
    """A number that was typed where a name belongs, as the name; text without letters that cannot be shown, a name
    without spaces around it.
    """
    if not isinstance(value, str):
        return f"{value:.15g}"
    text = "".join(letter for letter in value.translate(_QUOTES) if letter.isprintable() or letter in "\n\t")
    return (text.strip() if name else text) or None


def understood(value: Value, one: Field, units: Units) -> Value:
    """The value of a field as its rule wants it, from what a cell holds. BadValue where that cannot be told."""
    if value is None:
        return None
    if value in ERRORS:
        raise BadValue(f"the cell shows the error {value}", "type the value that belongs there")
    if one.quantity == "text":
        return _text(value, type(one.rule) is not Rule)
    if not isinstance(value, str):
        return value
    try:
        return units.settle(any_day(value) if one.quantity == "date" else _number(value, one, units), one.quantity)
    except (ArithmeticError, ValueError):  # ValueError: more digits than the language counts
        raise BadValue(f"'{value}' is not a number") from None
