"""Working days on which nothing was done, month by month: what the weather took, as far as a log can tell (E56)."""

from collections import defaultdict
from collections.abc import Collection, Iterator

from builder.learning.closed import Lesson, Target
from builder.records.terms import MONTHS
from builder.stages.estimate import Estimate
from builder.trade.labor import workday
from builder.values import to_date

ELSEWHERE = 5  # working days in a row without an entry, beyond which the crew was elsewhere
TENTH = 10  # working days of a month from which on a job counts whole
YEARS = 800  # days between first and last that a log may have: a slip of the pen in a year is no winter


def days_lost(est: Estimate, logged: Collection[float]) -> Iterator[Lesson]:
    """The share of working days that each month lost, of a job in the open."""
    exposure = est.row("exposures", est.basics.exposure_at)
    if not exposure or not exposure.weather or not logged or max(logged) - min(logged) > YEARS:
        return
    holidays = {row.date for row in est.rows["holidays"] if row.sound}
    lost: defaultdict[int, int] = defaultdict(int)
    days: defaultdict[int, int] = defaultdict(int)
    for gap in _gaps(sorted(logged), holidays):
        for day in gap if len(gap) <= ELSEWHERE else ():
            lost[to_date(day).month] += 1
            days[to_date(day).month] += 1
    for day in sorted(logged)[1:]:  # a job begins with a day of work, whatever the weather: that day tells nothing
        days[to_date(day).month] += 1
    for month, number in sorted(days.items()):
        key = f"lost_{MONTHS[month - 1][:3].lower()}"
        yield Lesson(Target("terms", "", key), lost[month] / number / exposure.weather, min(1.0, number / TENTH))


def _gaps(logged: list[float], holidays: Collection[float]) -> Iterator[list[float]]:
    """The working days between one entry and the next."""
    for one, following in zip(logged, logged[1:]):
        day, gap = workday(one + 1, 1, holidays), []
        while day < following:
            gap.append(day)
            day = workday(day + 1, 1, holidays)
        yield gap
