"""Values as a cell holds them: numbers, texts compared as spreadsheets compare them, dates as day numbers, nozzle
sizes.
"""

import contextlib
import datetime
import re
from typing import TypeGuard, overload

from builder.numerals import plain
from builder.problems import BadValue
from builder.quantities import Value

EPOCH = datetime.date(1899, 12, 30)  # day 0 of spreadsheet dates
YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d\d?)\2(\d\d?)", re.ASCII)
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


@overload
def same(value: str) -> str: ...
@overload
def same(value: Value) -> Value: ...
def same(value: Value) -> Value:
    """The form in which spreadsheet programs compare names: case does not count."""
    return value.casefold() if isinstance(value, str) else value


def is_number(value: object) -> TypeGuard[float]:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def day(text: str) -> float:
    """'2026-05-04' -> the spreadsheet's day number, by the year first, then month and day. BadValue for anything else,
    which says what to write where one date alone can be meant.
    """
    if found := YEAR_FIRST.fullmatch(text.strip()):
        return _days(found[1], found[3], found[4])
    hint = "write year-month-day, as in 2026-05-04"
    with contextlib.suppress(BadValue):
        hint = f"write {to_date(any_day(text)).isoformat()}"
    raise BadValue(f"'{text}' is not a date", hint)


def _days(year: str | int, month: str | int, day: str | int) -> float:
    try:
        return float((datetime.date(int(year), int(month), int(day)) - EPOCH).days)
    except ValueError:
        raise BadValue(f"{year}-{month}-{day} is not a date", "write year-month-day, as in 2026-05-04") from None


def any_day(text: str) -> float:
    """A day number. Day and month are told apart by words, by dots (day first), or by a number over 12;
    else BadValue.
    """
    said = plain(text)
    if found := YEAR_FIRST.fullmatch(re.sub(r"[T ]00:00(?::00)?$", "", said)):
        return _days(found[1], found[3], found[4])
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


def to_date(number: float) -> datetime.date:
    """A spreadsheet's day number -> the date."""
    return EPOCH + datetime.timedelta(days=int(number))


def day_text(number: float) -> str:
    """A spreadsheet's day number -> '2026-05-04'; the number where no calendar has that day, as of 20260504 typed."""
    try:
        return to_date(number).isoformat()
    except OverflowError:
        return f"{number:.10g}"


SIZE_LEAST, SIZE_MOST, ORIFICE_LEAST = 105, 2499, 5


def size_digits(value: float | str) -> int | None:
    """515, '515' -> 515; None for what is no nozzle size."""
    text = f"{value:g}" if is_number(value) else str(value)
    if not (text.isascii() and text.isdigit() and str(int(text)) == text):
        return None
    number = int(text)
    return number if SIZE_LEAST <= number <= SIZE_MOST and number % 100 >= ORIFICE_LEAST else None
