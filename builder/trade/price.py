"""From cost to price (E22, E42, E43). Nothing here checks its range: callers do."""

from math import floor


def selling_price(cost, margin, overhead_of_sales):
    """The price of which a share is profit and a share pays the office (E22; derived).

        selling_price = cost / (1 - margin - overhead_of_sales)

    For shares that are together below 1: no price earns more than itself.

    Parameters
    ----------
    cost : what the job costs [money]
    margin : profit over price [-]
    overhead_of_sales : the office's share of the price [-]

    Returns
    -------
    price before tax [money]

    Examples
    --------
    10000 / 0.65.

    >>> round(selling_price(10000.0, 0.20, 0.15), 2)
    15384.62
    """
    return cost / (1 - margin - overhead_of_sales)


def cost_paid(price, margin, overhead_of_sales):
    """The cost that a price pays once its profit and the office have their shares of it (E42; derived).

        cost_paid = price * (1 - margin - overhead_of_sales)

    Parameters
    ----------
    price : price before tax [money]
    margin : profit over price, 0 for a job that earns nothing [-]
    overhead_of_sales : the office's share of the price [-]

    Returns
    -------
    cost at which nothing is left over [money]

    Examples
    --------
    Of 10000 the office takes 1500.

    >>> cost_paid(10000.0, 0.0, 0.15)
    8500.0
    """
    return price * (1 - margin - overhead_of_sales)


def payable(amount, step, slack):
    """An amount in whole cents, or the least that its currency pays, half of one rounded up (E43; common practice, no
    source).

        payable = floor(amount / step + 1/2 + slack) * step

    Parameters
    ----------
    amount : what is reckoned [money]
    step : the least that can be paid [money]
    slack : part of a step that is rounding [-]

    Returns
    -------
    whole steps [money]

    Examples
    --------
    In cents, and in yen.

    >>> round(payable(70.035, 0.01, 1e-6), 9), payable(12345.7, 1.0, 1e-6)
    (70.04, 12346.0)
    """
    return floor(amount / step + 0.5 + slack) * step


def markup(margin):
    """The markup on cost that equals a margin on price (E22; derived).

        markup = margin / (1 - margin)

    Parameters
    ----------
    margin : profit over price, below 1 [-]

    Returns
    -------
    profit over cost [-]

    Examples
    --------
    40 % of the price is 2/3 of the cost.

    >>> round(markup(0.4), 4)
    0.6667
    """
    return margin / (1 - margin)
