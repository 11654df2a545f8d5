"""Hours of tasks, days, visits, dates (E21, E27, E28, E31, E32, E44, E57). Nothing checks ranges here: callers do."""

from math import ceil


def steps_up(amount, step, slack):
    """An amount rounded up to whole steps, a slack forgiven first (E21; derived).

        steps_up = ceil(max(0, amount / step - slack)) * step

    Parameters
    ----------
    amount : what is to be rounded [any]
    step : size of a step, in the same unit [any]
    slack : part of a step that is rounding [-]

    Returns
    -------
    whole steps, in the same unit [any]

    Examples
    --------
    >>> steps_up(2.2, 0.5, 1e-9), steps_up(2.5 + 1e-12, 0.5, 1e-9), steps_up(-1.0, 0.5, 1e-9)
    (2.5, 2.5, 0.0)
    """
    return ceil(max(0.0, amount / step - slack)) * step


def each_time(amount, rate, people):
    """Time of each of some people who share a task, by a rate that is one person's (E27; derived).

        each_time = amount / rate / people

    What is paid, `each_time` times people, is the same for any number of them.

    Parameters
    ----------
    amount : what is to be done [m**2]
    rate : what one person does in a time [m**2/s]
    people : people at it at once [-]

    Returns
    -------
    time of each [s]

    Examples
    --------
    400 at 100 an hour: two people take two hours.

    >>> each_time(400.0, 100.0, 2)
    2.0
    """
    return amount / rate / people


def slower(work, amount):
    """How much slower a task is where its lines are reached from ladder, lift or scaffold (E28; derived).

        slower = work / amount, 1 where nothing is measured

    `work` is the same amount, each line of it times the work factor of its access. Rates are those of work from the
    ground; what is done on the ground (floors, set-up) is not slower.

    Parameters
    ----------
    work : amount, each line times the factor of its access [m**2]
    amount : area, or edge or number of openings, of those lines [m**2]

    Returns
    -------
    factor on the time of the task [-]

    Examples
    --------
    300 from the ground and 100 from a ladder of factor 2: 500 over 400. Nothing measured.

    >>> slower(500.0, 400.0), slower(0.0, 0.0)
    (1.25, 1.0)
    """
    return work / amount if amount else 1.0


def overtime(week, plain, share):
    """What overtime adds to the wage of each hour of a week, all hours alike (E57; derived).

        added = share * (hours beyond the plain ones) / hours

    Parameters
    ----------
    week : worked in a week [s]
    plain : of them at the plain wage, at most [s]
    share : of the wage, on top of it, for the others [-]

    Returns
    -------
    share of the wage [-]

    Examples
    --------
    46 hours at 12, the 6 beyond 40 at half as much again [1]: 588. 40 hours have none.

    >>> round(46 * 12 * (1 + overtime(46.0, 40.0, 0.5)), 9), overtime(40.0, 40.0, 0.5)
    (588.0, 0.0)

    References
    ----------
    [1] 29 CFR 778.110 (a) (read).
    """
    return share * max(0.0, 1 - plain / week)


def burden(shares, leave, year):
    """What an hour costs beside its wage, over the wage (E44; derived).

        burden = sum of shares + leave / (year - leave)

    Paid leave is earned in the hours that are worked.

    Parameters
    ----------
    shares : insurance, taxes and the like, of the wage, added up [-]
    leave : paid and not worked, a year, less than the year [s]
    year : paid a year [s]

    Returns
    -------
    share of the wage [-]

    Examples
    --------
    Nine lines of 42.15 % [1], a wage of 20: 28.43. 80 of 2,080 hours of leave: 4 %.

    >>> lines = (7.65, 1, 10, 12, 4, 2, 2, 1, 2.5)
    >>> round(20 * (1 + burden(sum(lines) / 100, 0.0, 2080.0)), 2), burden(0.0, 80.0, 2080.0)
    (28.43, 0.04)

    References
    ----------
    [1] A trade magazine's worked burden (read).
    """
    return shares + leave / (year - leave)


def productive(unproductive, day_hours):
    """Share of a working day in which work is done (E31; three quarters of an hour of eight: common practice, no
    source).

        productive = 1 - unproductive / day_hours

    Rates, handling and trigger are times of work; what is paid for them is time of work over this share. Not so hours
    that a person states, set-up and clean-up of a visit, travel: they are paid as they are.

    Parameters
    ----------
    unproductive : breaks, waiting, moving about, of one person a day, less than the day [s]
    day_hours : working time of a day [s]

    Returns
    -------
    share of it [-]

    Examples
    --------
    An hour and a half of eight.

    >>> productive(5400.0, 28800.0)
    0.8125
    """
    return 1 - unproductive / day_hours


def travel(visits, many, one_way):
    """Time of all people, or way of all vehicles, to the site and back (E32; derived).

        travel = visits * many * 2 * one_way

    Parameters
    ----------
    visits : days on which somebody comes [-]
    many : people, or vehicles, each visit [-]
    one_way : time or distance from the yard to the site [any]

    Returns
    -------
    time or distance of all, in the same unit [any]

    Examples
    --------
    Six visits of two people, half an hour away.

    >>> travel(6, 2, 1800.0) / 3600
    12.0
    """
    return visits * many * 2 * one_way


def workday(start, days, holidays):
    """The last of a number of working days, Monday to Friday less holidays (E21; common practice, no source).

        the first is `start`, or the next working day after it; the day before `start` where days is 0 or less

    Parameters
    ----------
    start : day number as spreadsheets count, 1 a Sunday, 2 a Monday [day]
    days : working days, whole [day]
    holidays : day numbers not worked [day]

    Returns
    -------
    day number [day]

    Examples
    --------
    From Monday 2 a week lasts to Friday 6; from Saturday 7 two days last to Tuesday 10, to Wednesday 11 where Monday is
    a holiday.

    >>> workday(2, 5, ()), workday(7, 2, ()), workday(7, 2, (9,)), workday(2, 0, ())
    (6, 10, 11, 1)
    """
    day, left = start - 1, days
    while left > 0:
        day += 1
        if (day - 1) % 7 not in (0, 6) and day not in holidays:
            left -= 1
    return day
