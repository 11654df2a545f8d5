"""In what order coats go on and when: one gun lane, one hand lane (E36). Callers check ranges.

Times of work are productive hours since the first morning, as `working_days` counts them.
"""

from dataclasses import dataclass
from math import exp

from builder.trade.working_days import first_day, lost_share, ready_at

NEVER = 3.6e12  # s: later than any work
GUSTS = 1.4  # variance of what weather takes, over that of single days: found by drawing jobs


@dataclass(frozen=True)
class Step:
    """One pass of one coat over a system, or the tasks before it (E36; derived).

    Attributes
    ----------
    time : productive time of it, without weather [s]
    recoat : from its end until the next may begin, on the clock [s]
    weather : times the month's share that it loses to weather [-]
    always : share that it loses in any month [-]
    pump : number of the pump that it takes, 0 for none [-]
    load : number of what is in that pump: one coating in one color [-]
    rented : 1 where it needs a rented machine, else 0 [-]
    """

    time: float
    recoat: float
    weather: float = 0.0
    always: float = 0.0
    pump: int = 0
    load: int = 0
    rented: int = 0


@dataclass(frozen=True)
class Placed:
    """When a step is done (E36; derived).

    Attributes
    ----------
    system : number of its system, from 0 [-]
    place : its place among the steps of the system, from 0 [-]
    start : work hour at which it begins [s]
    end : work hour at which it ends [s]
    ready : work hour from which the next of its system may begin [s]
    lost : share of its time that weather takes [-]
    changed : whether its pump is filled anew for it [-]
    """

    system: int
    place: int
    start: float
    end: float
    ready: float
    lost: float
    changed: bool


def _lost(step, start, days):
    day = min(first_day(start, days.hours, days.slack), len(days.months) - 1)
    return lost_share(days.months[day], step.weather, step.always)


def by_hand(begin, tasks, people, hands, days):
    """When each system's tasks are done by the people beside the gun, in the order given (E36; derived).

        each begins where the one before ends and takes labor / hands / (1 - lost); those of the first system all people
        do, so that the gun begins when they are done

    Parameters
    ----------
    begin : work hour at which they begin [s]
    tasks : a Step a system, its time the labor of all; None where it has none [s]
    people : people on the job [-]
    hands : people beside the team of the gun, above 0 [-]
    days : the working days [s]

    Returns
    -------
    work hour from which each system may be coated [s]

    Examples
    --------
    Two people for twelve hours of the first system, one of them for three of the second; the third has no tasks.

    >>> from builder.trade.working_days import Days
    >>> week = Days(6.0, 1.0, (0.0, 24.0, 48.0), (0.0, 0.0, 0.0), 1e-9)
    >>> by_hand(0.0, (Step(12.0, 0.0), Step(3.0, 0.0), None), 2, 1, week)
    (6.0, 9.0, 0.0)
    """
    now, at_it, ready = begin, people, []
    for task in tasks:
        if task is not None:
            now += task.time / at_it / (1 - _lost(task, now, days))
        at_it = hands
        ready.append(begin if task is None else now)
    return tuple(ready)


def sequence(begin, ready, steps, days, tie):
    """The steps of all systems in the order in which one gun does them (E36; a list rule of our own, tried against the
    optimum in tests/trade/test_schedule_optimum.py).

        next: of the systems that could go on soonest, the one with most steps left; then one for which the pump is not
        filled anew, then one for which a machine is rented, then the first

    Parameters
    ----------
    begin : work hour at which the gun is free [s]
    ready : work hour from which each system may be coated [s]
    steps : of each system, its Steps in order [s]
    days : the working days [s]
    tie : times that differ by less are the same [s]

    Returns
    -------
    each step as Placed, in order [s]

    Examples
    --------
    One coat dries while the other system is coated.

    >>> from builder.trade.working_days import Days
    >>> week = Days(6.0, 1.0, (0.0, 24.0, 48.0), (0.0, 0.0, 0.0), 1e-9)
    >>> coats = ((Step(2.0, 1.0), Step(2.0, 1.0)), (Step(1.0, 1.0),))
    >>> [(one.system, one.start, one.end) for one in sequence(0.0, (0.0, 0.0), coats, week, 1e-6)]
    [(0, 0.0, 2.0), (1, 2.0, 3.0), (0, 3.0, 5.0)]
    """
    able, done, loaded, now, placed = list(ready), [0] * len(steps), {}, begin, []
    for _ in range(sum(map(len, steps))):
        left = [system for system, own in enumerate(steps) if done[system] < len(own)]
        soonest = max(now, min(able[system] for system in left))

        def worth(system):
            step = steps[system][done[system]]
            kept = step.pump == 0 or loaded.get(step.pump) == step.load
            return len(steps[system]) - done[system], kept, step.rented, -system

        system = max((one for one in left if able[one] <= soonest + tie), key=worth)
        step = steps[system][done[system]]
        start = max(now, able[system])
        lost = _lost(step, start, days)
        now = start + step.time / (1 - lost)
        able[system] = ready_at(now, step.recoat, days)
        changed = step.pump > 0 and loaded.get(step.pump) != step.load
        if step.pump:
            loaded[step.pump] = step.load
        placed.append(Placed(system, done[system], start, now, able[system], lost, changed))
        done[system] += 1
    return tuple(placed)


def finish(lanes, labor, people, share, last):
    """The work hour at which a job is done (E36; derived).

        finish = max(lanes, labor / people / (1 - share)) + last / people

    Parameters
    ----------
    lanes : when both lanes have ended [s]
    labor : all labor but what comes last [s]
    people : people on the job [-]
    share : of the time of the gun that weather takes, below 1 [-]
    last : labor that comes last, such as cleaning pumps [s]

    Returns
    -------
    work hour [s]

    Examples
    --------
    >>> finish(20.0, 50.0, 2, 0.0, 4.0), finish(20.0, 30.0, 2, 0.5, 4.0), finish(20.0, 30.0, 2, 0.0, 4.0)
    (27.0, 32.0, 22.0)
    """
    return max(lanes, labor / people / (1 - share)) + last / people


def halted(lost, hours):
    """Work hours that bad days take from steps they would not stop: what follows an outdoor step on its day, half a day
    on the mean (E36; derived, tried by drawing in tests/trade/test_schedule_promise.py).

        halted = sum of max(0, lost before - lost after) * hours / 2

    Parameters
    ----------
    lost : share that weather takes of each step, in the order of the work [-]
    hours : productive time of a day [s]

    Returns
    -------
    time [s]

    Examples
    --------
    >>> halted((0.2, 0.0, 0.3, 0.1), 10.0)
    2.0
    """
    return sum((max(0.0, one - other) for one, other in zip(lost, lost[1:])), 0.0) * hours / 2


def promised(work, stopped, spread, score, hours, lost, share):
    """The work hour that holds with a chance, from the planned one (E36; derived: two doubts added as squares, that of
    the weather 1.4 times as large since a bad day takes what follows it too, a figure found by drawing jobs and tried
    on others in tests/trade/test_schedule_promise.py).

        promised = work + stopped + sqrt((work * (exp(score * spread) - 1))^2
                                         + 1.4 * score^2 * hours * lost / (1 - share))

    Parameters
    ----------
    work : work hour at the median of area and time [s]
    stopped : what bad days take from steps they would not stop [s]
    spread : standard deviation of the logarithm of area times time [-]
    score : standard score of the chance, 0 for every other job [-]
    hours : productive time of a day: weather takes whole days [s]
    lost : time that weather takes [s]
    share : of the time of outdoor steps, below 1 [-]

    Returns
    -------
    work hour [s]

    Examples
    --------
    >>> promised(100.0, 0.0, 0.0, 0.84, 7.0, 0.0, 0.0), promised(100.0, 2.0, 0.0, 1.0, 5.0, 7.0, 0.0)
    (100.0, 109.0)
    """
    from_spread = work * (exp(score * spread) - 1)
    from_weather = GUSTS * score**2 * hours * lost / (1 - share)
    return work + stopped + (from_spread**2 + from_weather) ** 0.5
