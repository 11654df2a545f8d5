"""Whole packs at least cost (E19). Nothing here checks its range: callers do.

With sizes that are whole multiples, the number of a larger pack is none, as many as fit, or one more
at each level; the least of these cases is the least of all. A test holds that against brute force.
"""

from dataclasses import dataclass
from math import ceil, floor


def whole(amount, slack):
    """A number of packs rounded up, a slack forgiven first (E19; derived).

        whole = ceil(max(0, amount - slack))

    Parameters
    ----------
    amount : packs, in fractions [-]
    slack : excess that is rounding, not paint [-]

    Returns
    -------
    whole packs [-]

    Examples
    --------
    >>> whole(2.2, 1e-9), whole(2.0 + 1e-12, 1e-9), whole(-1.0, 1e-9)
    (3.0, 2.0, 0.0)
    """
    return float(ceil(max(0.0, amount - slack)))


def options(need, size, slack):
    """Numbers of one pack worth trying: none, as many as fit, one more (E19; derived).

        0, floor(need / size + slack), floor(need / size + slack) + 1; thrice 0 where the size is not offered

    Parameters
    ----------
    need : volume to cover [m**3]
    size : volume of the pack, None where not offered [m**3]
    slack : part of a pack that is rounding [-]

    Returns
    -------
    three numbers of packs [-]

    Examples
    --------
    >>> options(12.0, 5.0, 1e-9), options(10.0, 5.0, 1e-9), options(12.0, None, 1e-9)
    ((0.0, 2.0, 3.0), (0.0, 2.0, 3.0), (0.0, 0.0, 0.0))
    """
    if size is None:
        return (0.0, 0.0, 0.0)
    fit = float(floor(need / size + slack))
    return (0.0, fit, fit + 1)


def first_least(costs, slack):
    """The place of the least cost, the earlier of two that differ by less than the slack (E19; derived).

        first place whose cost <= min(costs) * (1 + slack)

    Parameters
    ----------
    costs : what each case costs, 0 or more [money]
    slack : relative difference that is rounding [-]

    Returns
    -------
    place, counted from 0 [-]

    Examples
    --------
    >>> first_least((30.0, 28.0, 29.0), 1e-9), first_least((28.0 + 1e-12, 28.0, 29.0), 1e-9)
    (1, 0)
    """
    bound = min(costs) * (1 + slack)
    return next(place for place, cost in enumerate(costs) if cost <= bound)


@dataclass(frozen=True)
class Rest:
    """What the two smaller packs make of a rest (E19; derived).

    Attributes
    ----------
    rest : volume the larger packs leave [m**3]
    middles : numbers of the middle pack tried [-]
    costs : cost of each [money]
    choice : which of them, counted from 1 [-]
    cost : its cost [money]
    middle : its number of middle packs [-]
    """

    rest: float
    middles: tuple
    costs: tuple
    choice: int
    cost: float
    middle: float


@dataclass(frozen=True)
class Purchase:
    """The packs to buy, and the cases they were chosen from (E19; derived).

    Attributes
    ----------
    larges : numbers of the large pack tried [-]
    rests : the Rest that each leaves [m**3, money]
    costs : cost of each [money]
    choice : which of them, counted from 1 [-]
    small : small packs to buy [-]
    middle : middle packs to buy [-]
    large : large packs to buy [-]
    cost : what they cost [money]
    """

    larges: tuple
    rests: tuple
    costs: tuple
    choice: int
    small: float
    middle: float
    large: float
    cost: float


def _of(number, figure):
    """A number of packs times the size or price of one; none are taken of a pack that is not offered."""
    return number * (figure or 0.0)


def _rest(rest, packs, slack):
    """The cheapest of the cases of the middle pack, small packs making up what is left."""
    (size, price), (middle_size, middle_price) = packs[:2]
    middles = options(rest, middle_size, slack)
    costs = tuple(
        _of(number, middle_price) + whole((rest - _of(number, middle_size)) / size, slack) * price for number in middles
    )
    best = first_least(costs, slack)
    return Rest(rest, middles, costs, best + 1, costs[best], middles[best])


def least_cost(need, packs, slack):
    """How many of each pack cover `need` for the least money (E19; derived).

        least of small * price + middle * price + large * price with small * size + middle * size + large * size >= need

    Least of all only where each size is a whole multiple of the one before.

    Parameters
    ----------
    need : volume to cover [m**3]
    packs : three (size, price) from small to large, (None, None) for one not offered [m**3, money]
    slack : part of a pack, or of a cost, that is rounding [-]

    Returns
    -------
    a Purchase: numbers of packs and what they cost [-, money]

    Examples
    --------
    34 L of packs of 1, 5 and 20 L: one large (180), two middle (100), four small (44); all large would be 360, no large
    344.

    >>> bought = least_cost(0.034, ((0.001, 11.0), (0.005, 50.0), (0.020, 180.0)), 1e-9)
    >>> bought.small, bought.middle, bought.large, bought.cost
    (4.0, 2.0, 1.0, 324.0)
    >>> bought.larges, bought.costs, bought.choice
    ((0.0, 1.0, 2.0), (344.0, 324.0, 360.0), 2)
    >>> bought.rests[1].middles, bought.rests[1].costs, bought.rests[1].choice
    ((0.0, 2.0, 3.0), (154.0, 144.0, 150.0), 2)
    """
    size, price = packs[2]
    larges = options(need, size, slack)
    rests = tuple(_rest(max(0.0, need - _of(number, size)), packs, slack) for number in larges)
    costs = tuple(_of(number, price) + rest.cost for number, rest in zip(larges, rests))
    choice = first_least(costs, slack)
    chosen = rests[choice]
    small = whole((chosen.rest - _of(chosen.middle, packs[1][0])) / packs[0][0], slack)
    return Purchase(larges, rests, costs, choice + 1, small, chosen.middle, larges[choice], costs[choice])
