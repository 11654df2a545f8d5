"""Days, visits and dates (E21)."""
from math import ceil


def steps_up(amount, step, slack):
    """An amount rounded up to whole steps; `slack` steps are forgiven first. amount, step: one unit. Returns the same."""
    return ceil(max(0.0, amount / step - slack)) * step


def useful_day(people, day_hours, visit_hours):
    """Labour one visit leaves after its fixed work (E21). people [-]; day_hours, visit_hours [s]. Returns [s]."""
    return people * day_hours - visit_hours


def weather_days(days, lost):
    """Calendar of working days with the share `lost` to weather (E21). Returns days."""
    return days / (1 - lost)


def workday(start, days, holidays):
    """The last of `days` working days, the first being `start` or the next working day after it (Monday to Friday).

    start, holidays: spreadsheet day numbers (day 1 a Sunday, 2 a Monday); days: whole. Returns a day number.
    """
    day, left = start - 1, days
    while left > 0:
        day += 1
        if (day - 1) % 7 not in (0, 6) and day not in holidays:
            left -= 1
    return day
