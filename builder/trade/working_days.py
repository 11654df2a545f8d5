"""Working days and the clock: when a coat may go on the one below, what weather takes (E31, E36, E47 f). Callers check
ranges.

Work is counted in productive hours since the first morning, here `work`; a working day has the same number of them. The
clock runs from the first morning too, day and night. Dates are the caller's.
"""

from bisect import bisect_right
from dataclasses import dataclass
from math import ceil, floor

LOST_MOST = 0.9  # of a day's work to weather; a job of which more is lost is none


@dataclass(frozen=True)
class Days:
    """The working days of a job (E36; derived).

    Attributes
    ----------
    hours : productive time of each [s]
    stretch : clock time from the first to the last of it, breaks included, over `hours` [-]
    mornings : when each begins, on the clock since the first morning; ascending [s]
    months : share of its work that weather takes in the open [-]
    slack : part of a day that is rounding [-]
    """

    hours: float
    stretch: float
    mornings: tuple
    months: tuple
    slack: float


def useful_hours(on_site, visits, people, productive):
    """Productive time of a working day (E31, E36; derived).

        useful_hours = (on_site - visits / people) * productive

    0 or less where a visit's own work fills the day: callers make that a fault.

    Parameters
    ----------
    on_site : working time of a day, less travel that is part of it [s]
    visits : labor that every visit takes, all people [s]
    people : people on the job [-]
    productive : share of the time that is work: no breaks, no waiting [-]

    Returns
    -------
    time [s]

    Examples
    --------
    Eight hours; two people set up in half an hour each; nine tenths of the rest.

    >>> useful_hours(28800.0, 3600.0, 2, 0.9)
    24300.0
    """
    return (on_site - visits / people) * productive


def first_day(work, hours, slack):
    """The day, from 0, on which what begins at a work hour begins (E36; derived).

        first_day = floor(work / hours + slack)

    Parameters
    ----------
    work : work hour [s]
    hours : productive time of a day [s]
    slack : part of a day that is rounding [-]

    Returns
    -------
    whole days before it [-]

    Examples
    --------
    What begins where a day ends begins the next morning.

    >>> first_day(0.0, 7.0, 1e-9), first_day(6.9, 7.0, 1e-9), first_day(7.0, 7.0, 1e-9)
    (0, 0, 1)
    """
    return floor(work / hours + slack)


def last_day(work, hours, slack):
    """The day, from 0, on which what ends at a work hour ends (E36; derived).

        last_day = max(0, ceil(work / hours - slack) - 1)

    What ends exactly at a day's end ends that evening, and dries that night.

    Parameters
    ----------
    work : work hour [s]
    hours : productive time of a day [s]
    slack : part of a day that is rounding [-]

    Returns
    -------
    whole days before it [-]

    Examples
    --------
    >>> last_day(0.0, 7.0, 1e-9), last_day(7.0, 7.0, 1e-9), last_day(7.1, 7.0, 1e-9)
    (0, 0, 1)
    """
    return max(0, ceil(work / hours - slack) - 1)


def clock_of(work, day, hours, stretch, morning):
    """The clock when a work hour of a day is reached (E36; derived).

        clock_of = morning + (work - hours * day) * stretch

    Parameters
    ----------
    work : work hour [s]
    day : the day it lies on, from 0 [-]
    hours : productive time of a day [s]
    stretch : clock time of a working day over its productive time [-]
    morning : when that day begins, on the clock [s]

    Returns
    -------
    clock time since the first morning [s]

    Examples
    --------
    Three of six hours, one of them lost to breaks: half past three hours into the second day.

    >>> clock_of(9.0, 1, 6.0, 7 / 6, 24.0)
    27.5
    """
    return morning + (work - hours * day) * stretch


def work_at(clock, hours, stretch, mornings):
    """The first work hour that is not before a time on the clock (E36; derived).

        work_at = hours * d + min(hours, (clock - mornings[d]) / stretch), d the last day that has begun

    After hours, at night and on days off that is the end of the day before, which is the next morning's begin.

    Parameters
    ----------
    clock : clock time since the first morning, not negative [s]
    hours : productive time of a day [s]
    stretch : clock time of a working day over its productive time [-]
    mornings : when each day begins, on the clock [s]

    Returns
    -------
    work hour [s]

    Examples
    --------
    At noon of the second day; in the night after it.

    >>> work_at(27.0, 6.0, 1.0, (0.0, 24.0, 48.0)), work_at(40.0, 6.0, 1.0, (0.0, 24.0, 48.0))
    (9.0, 12.0)
    """
    day = bisect_right(mornings, clock) - 1
    return hours * day + min(hours, (clock - mornings[day]) / stretch)


def ready_at(work, recoat, days):
    """The work hour from which the next coat may go on one that ends at `work` (E36; derived).

        ready_at = max(work, work_at(clock_of(work) + recoat))

    Parameters
    ----------
    work : work hour at which a coat ends [s]
    recoat : how long it dries, on the clock [s]
    days : the working days [s]

    Returns
    -------
    work hour [s]

    Examples
    --------
    A day of six hours: what ends in the evening and dries four hours goes on the next morning, what ends an hour after
    the morning goes on after five.

    >>> week = Days(6.0, 1.0, (0.0, 24.0, 48.0), (0.0, 0.0, 0.0), 1e-9)
    >>> ready_at(6.0, 4.0, week), ready_at(1.0, 4.0, week)
    (6.0, 5.0)
    """
    day = min(last_day(work, days.hours, days.slack), len(days.mornings) - 1)
    clock = clock_of(work, day, days.hours, days.stretch, days.mornings[day])
    return max(work, work_at(clock + recoat, days.hours, days.stretch, days.mornings))


def lost_share(month, weather, always):
    """Share of the time of an outdoor step that weather takes (E47 f; common practice, no source).

        lost_share = min(0.9, month * weather + always)

    Parameters
    ----------
    month : share of a month's work that is lost in the open [-]
    weather : how much of that counts where the step is: 0 indoors, 1 in the open [-]
    always : share that is lost in any month [-]

    Returns
    -------
    share [-]

    Examples
    --------
    >>> lost_share(0.2, 0.5, 0.0), lost_share(0.8, 1.5, 0.0)
    (0.1, 0.9)
    """
    return min(LOST_MOST, month * weather + always)
