"""The promised hour, tried: ten jobs that nothing was tuned on, each drawn ten thousand times.

Drawn are how long the work takes, one factor for the job, and the weather of every day: a day is lost to all outdoor
steps that its weather is bad enough for, or to none. The gun keeps to the planned order.
"""

import random
from statistics import NormalDist

import numpy
import pytest

from builder.trade.risk import sigma
from builder.trade.schedule import Step, halted, promised, sequence
from builder.trade.working_days import Days

DRAWS, AIM, LISTED = 10_000, 0.8, 160
LOST = (0.6, 0.55, 0.4, 0.25, 0.15, 0.12, 0.1, 0.1, 0.15, 0.25, 0.45, 0.6, 0.6, 0.55)  # invented, by month
SCORE = NormalDist().inv_cdf(AIM)


def drawn(seed):
    """(steps of each system, days, spread): a job of the season, of two weeks and more."""
    luck = random.Random(seed)
    hours = luck.choice((6.0, 6.5, 7.25))
    begin = luck.randint(0, 4)
    days = tuple(24.0 * ((day + begin) // 5 * 7 + (day + begin) % 5 - begin) for day in range(LISTED))
    month = luck.randint(3, 6)
    months = tuple(LOST[month + day // 21] for day in range(LISTED))

    def system():
        weather = luck.choice((0.0, 0.5, 1.0, 1.0))
        recoat = luck.choice((2.0, 4.0, 12.0, 24.0))
        return tuple(Step(luck.uniform(1, 14), recoat, weather) for _ in range(luck.randint(1, 4)))

    steps = tuple(system() for _ in range(luck.randint(4, 8)))
    spread = sigma(luck.uniform(0.8, 0.95), luck.uniform(1.1, 1.5))
    return steps, Days(hours, 8 / hours, days, months, 1e-9), spread


def ends(steps, days, spread, order, seed):
    """The work hour at which each of the drawn jobs is done."""
    luck = numpy.random.default_rng(seed)
    factor = numpy.exp(spread * luck.standard_normal(DRAWS))
    weather = luck.random((DRAWS, LISTED))
    mornings, months = numpy.array(days.mornings), numpy.array(days.months)
    now, dry, every = numpy.zeros(DRAWS), [numpy.zeros(DRAWS) for _ in steps], numpy.arange(DRAWS)
    for one in order:
        step = steps[one.system][one.place]
        now, left = numpy.maximum(now, dry[one.system]), step.time * factor
        while (left > 1e-9).any():
            day = numpy.floor(now / days.hours + 1e-9).astype(int)
            today = numpy.minimum(left, (day + 1) * days.hours - now)
            stopped = weather[every, day] < months[day] * step.weather
            busy = left > 1e-9
            left = numpy.where(busy & ~stopped, left - today, left)
            now = numpy.where(busy, numpy.where(stopped, (day + 1) * days.hours, now + today), now)
        day = numpy.maximum(0, numpy.ceil(now / days.hours - 1e-9) - 1).astype(int)
        clock = mornings[day] + (now - days.hours * day) * days.stretch + step.recoat
        begun = numpy.searchsorted(mornings, clock, side="right") - 1
        again = days.hours * begun + numpy.minimum(days.hours, (clock - mornings[begun]) / days.stretch)
        dry[one.system] = numpy.maximum(now, again)
    return now


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(7000, 7010))
def test_the_promised_hour_is_kept_in_eight_jobs_of_ten(seed):
    """77 to 83 % where 80 are aimed at, before it is rounded up to a whole day."""
    steps, days, spread = drawn(seed)
    order = sequence(0.0, (0.0,) * len(steps), steps, days, 1e-6)
    work, outdoor = order[-1].end, [one for one in order if one.lost > 0]
    open_time = sum(one.end - one.start for one in outdoor)
    lost = sum((one.end - one.start) * one.lost for one in outdoor)
    stopped = halted(tuple(one.lost for one in order), days.hours)
    hour = promised(work, stopped, spread, SCORE, days.hours, lost, lost / open_time if open_time else 0.0)
    kept = float((ends(steps, days, spread, order, seed) <= hour + 1e-9).mean())
    print(f"{work:.0f} h, {lost:.0f} lost, spread {spread:.2f}: promised {hour:.0f} h, kept in {kept:.1%}")
    assert 0.77 <= kept <= 0.83
