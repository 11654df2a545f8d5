"""What a person typed into a cell as text, where a number or a date belongs: understood, or refused in words."""

import datetime
import re
import unicodedata

from builder.problems import BadValue
from builder.quantities import APOSTROPHE, Units, Value, ascii_digits, avoid, bare
from builder.records.fields import Field
from builder.records.rules import Rule
from builder.values import EPOCH

# How people write units -> the spelling of spellings.SPELLINGS; the longer first.
WORDS = (
    ("square feet", "ft2"),
    ("sq. ft.", "ft2"),
    ("sq ft", "ft2"),
    ("sqft", "ft2"),
    ("sq m", "m2"),
    ("gallons", "gal"),
    ("gallon", "gal"),
    ("litres", "L"),
    ("liters", "L"),
    ("litre", "L"),
    ("liter", "L"),
    ("l", "L"),
    ("feet", "ft"),
    ("foot", "ft"),
    ("inches", "in"),
    ("inch", "in"),
    ("metres", "m"),
    ("meters", "m"),
    ("metre", "m"),
    ("meter", "m"),
    ("mils", "mil"),
    ("hours", "h"),
    ("hour", "h"),
    ("hrs", "h"),
    ("hr", "h"),
    ("minutes", "min"),
    ("percent", "%"),
    ("°f", "degF"),
    ("°c", "degC"),
    ("f", "degF"),
    ("c", "degC"),
)
_WORDS = {word: unit for word, unit in WORDS}
_UNIT = re.compile("|".join(rf"(?<![a-z/]){re.escape(word)}(?![a-z0-9/])" for word, _ in WORDS), re.IGNORECASE)
_OPENING = str.maketrans({"‘": "'", "“": '"'})  # typed for feet and inches too
_QUOTES = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "\u00a0": " ", "\u202f": " ", "\u2009": " "})
_MONEY_SIGNS = re.compile(r"[$€£]")
_LENGTHS = re.compile(r"(?<![a-z/])(?:ft|in|yd|mm|cm|m)(?![a-z0-9/])", re.IGNORECASE)
_FEET = re.compile(r"""(\d(?:[\d./ ]*\d)?)\s*'(?!')\s*-?""")
_INCHES = re.compile(r"""(\d(?:[\d./ ]*\d)?)\s*(?:"|'')""")
_FRACTION = re.compile(r"(?<=\d)(?=[¼-¾⅐-⅞])")  # 9½
_GROUPS = re.compile(r"(?<![\w.,/])[1-9]\d{0,2}(?: \d{3})+(?![\d/])")  # 1 062: nobody means 1 ft 062 in
# ECMA-376 part 1, 18.18.11 and 18.17.3
ERRORS = ("#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!")
MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)


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


def _plain(text: str) -> str:
    """The text in the letters of a file: 'm²' as 'm2', '9½' as '9 1/2', digits of any script as 0 to 9."""
    letters = unicodedata.normalize("NFKC", _FRACTION.sub(" ", text)).replace("\u2044", "/").replace("\u03bc", "u")
    return ascii_digits(letters.translate(_QUOTES).translate(_OPENING)).strip()


def _number(text: str, one: Field, units: Units) -> float:
    """A number without a unit is in that of its column."""
    quantity, said = one.quantity, _plain(text)
    avoid(said, (APOSTROPHE,))
    said = _decimal_point(_GROUPS.sub(lambda found: found[0].replace(" ", ""), said))
    if quantity.startswith("money"):
        said = _MONEY_SIGNS.sub("", said.replace(units.currency, "") if units.currency else said).strip()
    if quantity in ("length", "width"):
        said = _INCHES.sub(r"\1 in ", _FEET.sub(r"\1 ft ", said)).strip()
        said = _LENGTHS.sub(lambda unit: unit[0].lower(), said)
    said = _UNIT.sub(lambda match: _WORDS[match[0].lower()], said)
    number = None if quantity == "share" else bare(said)
    return units.parse(said, quantity, one.unmarked) if number is None else units.from_cell(number, quantity)


def _days(year: str | int, month: str | int, day: str | int) -> float:
    try:
        return float((datetime.date(int(year), int(month), int(day)) - EPOCH).days)
    except ValueError:
        raise BadValue(f"{year}-{month}-{day} is not a date", "write year-month-day, as in 2026-05-04") from None


def _date(text: str) -> float:
    """A day number. Day and month are told apart by words, by dots (day first), or by a number over 12;
    else BadValue.
    """
    said = _plain(text)
    if found := re.fullmatch(r"(\d{4})-(\d\d?)-(\d\d?)(?:[T ]00:00(?::00)?)?", said):
        return _days(*found.groups())
    if found := re.fullmatch(r"(\d\d?)\.\s*(\d\d?)\.\s*(\d{4})", said):
        return _days(found[3], found[2], found[1])
    if found := re.fullmatch(r"(\d\d?)/(\d\d?)/(\d{4})", said):
        first, second = int(found[1]), int(found[2])
        if first > 12 or second > 12 or first == second:
            return (
                _days(found[3], min(first, second), max(first, second))
                if max(first, second) > 12
                else _days(found[3], first, second)
            )
        raise BadValue(
            f"'{text}' can be read as two dates",
            f"write year-month-day: {found[3]}-{first:02}-{second:02} or {found[3]}-{second:02}-{first:02}",
        )
    words = re.findall(r"[a-z]+|\d+", said.lower())
    months = [
        number
        for word in words
        for number, name in enumerate(MONTHS, start=1)
        if len(word) >= 3 and name.startswith(word)
    ]
    numbers = [word for word in words if word.isdigit()]
    if len(months) == 1 and len(numbers) == 2 and len(words) == 3 and len(numbers[1]) == 4:
        return _days(numbers[1], months[0], numbers[0])
    raise BadValue(f"'{text}' is not a date", "write year-month-day, as in 2026-05-04")


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
        return units.settle(_date(value) if one.quantity == "date" else _number(value, one, units), one.quantity)
    except (ArithmeticError, ValueError):  # ValueError: more digits than the language counts
        raise BadValue(f"'{value}' is not a number") from None
