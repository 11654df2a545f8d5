"""What a rented machine costs for the days it is on site (E33). Callers check ranges."""

from math import ceil, floor

WEEK, MONTH = 5, 20  # working days of the longer rates


def offered(day, week, month):
    """Rates for one, five and twenty working days, each that is not offered made up of the others (E33; derived).

        a day costs what the shortest rate offered costs; five days at most five times a day, twenty four times five

    Parameters
    ----------
    day : rate of a day, None where not offered [money]
    week : rate of five working days, None where not offered [money]
    month : rate of twenty working days, None where not offered [money]

    Returns
    -------
    three rates, all 0 where nothing is offered [money]

    Examples
    --------
    >>> offered(100.0, None, None), offered(None, 300.0, None)
    ((100.0, 500.0, 2000.0), (300.0, 300.0, 1200.0))
    """
    one = next((rate for rate in (day, week, month) if rate is not None), 0.0)
    five = one * WEEK if week is None else week
    return one, five, five * (MONTH // WEEK) if month is None else month


def short_rental(days, one, five):
    """The least that days and weeks cost for a number of days (E33; derived).

        the number of fives is none, as many as fit or one more, then days for the rest

    Parameters
    ----------
    days : whole working days [-]
    one : rate of a day [money]
    five : rate of five [money]

    Returns
    -------
    money [money]

    Examples
    --------
    >>> short_rental(4, 100.0, 300.0), short_rental(7, 100.0, 350.0)
    (300.0, 550.0)
    """
    fit = floor(days / WEEK)
    return min(days * one, fit * five + (days - fit * WEEK) * one, ceil(days / WEEK) * five)


def least_rental(days, one, five, twenty):
    """The least that whole mixes of three rates cost for a number of days (E33; derived).

        the number of twenties is none, as many as fit or one more, then that of fives; days for the rest

    Parameters
    ----------
    days : whole working days [-]
    one : rate of a day [money]
    five : rate of five [money]
    twenty : rate of twenty [money]

    Returns
    -------
    money [money]

    Examples
    --------
    Four days at 100 are dearer than a week at 300; eight days are a week and three days, or two weeks.

    >>> least_rental(4, 100.0, 300.0, 900.0), least_rental(8, 100.0, 300.0, 900.0), least_rental(7, 100.0, 350.0, 900.0)
    (300.0, 600.0, 550.0)
    """
    return min(
        many * twenty + short_rental(max(0, days - many * MONTH), one, five)
        for many in (0, floor(days / MONTH), ceil(days / MONTH))
    )
