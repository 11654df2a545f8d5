"""Days of a log that the weather took, counted by hand on a calendar."""

from random import Random
from types import SimpleNamespace as Row

import pytest

from builder.learning.site import TENTH, days_lost
from builder.values import day


class Open:
    """As much of an estimate as is looked at."""

    def __init__(self, weather=1.0, holidays=()):
        self.basics = Row(exposure_at=1)
        self.exposure = Row(weather=weather)
        self.rows = {"holidays": [Row(date=day(one), sound=1.0) for one in holidays]}

    def row(self, block, no):
        assert (block, no) == ("exposures", 1)
        return self.exposure


def _said(est, *dates):
    return {one.target.key: (one.value, one.weight) for one in days_lost(est, {day(date) for date in dates})}


def test_a_week_with_two_days_of_rain():
    """Monday June 1 to Friday June 5, 2026, without Tuesday and Wednesday: two of the four after the first, which is
    worked by definition; four days of the ten that count whole.
    """
    assert _said(Open(), "2026-06-01", "2026-06-04", "2026-06-05") == {"lost_jun": (0.5, 0.4)}


def test_weekends_and_holidays_are_not_lost():
    """Friday July 3, 2026 is taken off, the 4th is a Saturday: from Thursday to Monday nothing is lost."""
    est = Open(holidays=["2026-07-03"])
    assert _said(est, "2026-07-02", "2026-07-06") == {"lost_jul": (0.0, 0.1)}
    assert _said(Open(), "2026-07-02", "2026-07-06") == {"lost_jul": (0.5, 0.2)}


def test_each_month_has_its_own():
    """Friday May 29 and Thursday June 4: Monday to Wednesday, June 1 to 3, are lost in June."""
    assert _said(Open(), "2026-05-29", "2026-06-04") == {"lost_jun": (0.75, 0.4)}


def test_a_crew_that_was_elsewhere_is_no_weather():
    """From Friday June 5 to Monday June 15 are five working days: rain; to Tuesday June 16 six: another job."""
    assert _said(Open(), "2026-06-05", "2026-06-15") == {"lost_jun": (pytest.approx(5 / 6), 0.6)}
    assert _said(Open(), "2026-06-05", "2026-06-16") == {"lost_jun": (0.0, 0.1)}


def test_a_sheltered_site_loses_part_of_what_the_month_does():
    """Half of the weather counts there: one day of two is what a month of all days would take; under a roof nothing is
    learned of it.
    """
    assert _said(Open(weather=0.5), "2026-06-01", "2026-06-03")["lost_jun"][0] == 1.0
    assert _said(Open(weather=0.0), "2026-06-01", "2026-06-03") == {}


def test_a_slip_of_the_pen_in_a_year_says_nothing():
    assert _said(Open(), "2026-06-01", "2062-06-03") == {}
    assert _said(Open()) == {}


def test_many_jobs_tell_the_share_that_drew_them():
    """Days lost with a chance of 0.3, a job of five days of work: days lost of all days after the first are 0.3 but for
    runs beyond five, 0.3^6 of them (two standard deviations of 3,400 days are 0.016).
    """
    draw, lost, days = Random(6), 0.0, 0.0
    for _ in range(600):
        dates, at = [day("2026-06-01")], 0
        while len(dates) < 5:
            at += 1
            if draw.random() >= 0.3:
                dates.append(day("2026-06-01") + at + 2 * (at // 5))
        for one in days_lost(Open(), set(dates)):
            number = one.weight * TENTH
            lost, days = lost + one.value * number, days + number
    assert 0.28 <= lost / days <= 0.32
