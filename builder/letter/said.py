"""What every letter says alike: money, what was typed, dates."""

import datetime

from builder.letter.draft import one_line
from builder.quantities import Units, Value
from builder.sheets.judging import Judge
from builder.sheets.rows import Row
from builder.values import to_date


def money(amount: float, units: Units) -> str:
    """'4,562.00 USD'"""
    return f"{units.amount(units.to_cell(amount, 'money'))} {one_line(units.currency, 20)}"


def said(value: Value, most: int = 400) -> str:
    """What was typed as a name, in one line; '' for blank."""
    return "" if value is None else one_line(Judge.as_text(value), most)


def day_of(value: float | None, job: Row) -> datetime.date | None:
    """A date of a job without a fault."""
    return to_date(value) if job.sound and value is not None else None


def spelled_date(day: datetime.date) -> str:
    """'5 June 2026'"""
    return f"{day.day} {day:%B %Y}"
