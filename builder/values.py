"""Values as a cell holds them: numbers, texts compared as spreadsheets compare them, dates as day numbers, nozzle
sizes.
"""

import datetime
from typing import TypeGuard, overload

from builder.problems import BadValue
from builder.quantities import Value

EPOCH = datetime.date(1899, 12, 30)  # day 0 of spreadsheet dates


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
    """'2026-05-04' -> the spreadsheet's day number. BadValue for anything else."""
    try:
        return float((datetime.date.fromisoformat(text.strip()) - EPOCH).days)
    except ValueError:
        raise BadValue(f"'{text}' is not a date", "write year-month-day, as in 2026-05-04") from None


def to_date(number: float) -> datetime.date:
    """A spreadsheet's day number -> the date."""
    return EPOCH + datetime.timedelta(days=int(number))


SIZE_LEAST, SIZE_MOST, ORIFICE_LEAST = 105, 2499, 5


def size_digits(value: float | str) -> int | None:
    """515, '515' -> 515; None for what is no nozzle size."""
    text = f"{value:g}" if is_number(value) else str(value)
    if not (text.isascii() and text.isdigit() and str(int(text)) == text):
        return None
    number = int(text)
    return number if SIZE_LEAST <= number <= SIZE_MOST and number % 100 >= ORIFICE_LEAST else None
