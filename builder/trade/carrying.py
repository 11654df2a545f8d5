"""Which nozzle sizes to keep on the van (E55): those with which a season's coats, and the trips to the store for what
is not there, cost least. Callers check ranges.

It is the p-median problem with a way out: each coat is served by the best of `count` sizes, or by a trip that fetches
the best of all. `saved` has a tuple a size, each of the same coats in the same order: what the size saves on a coat
against a trip, 0 where it does not fit.
"""

from collections import Counter
from dataclasses import dataclass

from builder.trade.proving import CLOSE, limit, proved, rivals, together

SURE = 4  # so many sizes are proved best; of more the limit says how far they may be from it


@dataclass(frozen=True)
class Choice:
    """Sizes to carry (E55; derived).

    Attributes
    ----------
    sizes : their numbers, from 0, in order [-]
    saved : what they save against a trip for every coat [money]
    most : what no choice of so many saves more than [money]
    """

    sizes: tuple[int, ...]
    saved: float
    most: float


def trip(money, time, wage):
    """What a trip to the store costs (E55; derived).

        money + time * wage

    Parameters
    ----------
    money : what it costs beside wages [money]
    time : of one person [s]
    wage : of an hour of work, with burden [money/s]

    Returns
    -------
    cost [money]

    Examples
    --------
    >>> trip(9.0, 2700.0, 0.01)
    36.0
    """
    return money + time * wage


def saving(fetch, least, cost):
    """What a size on the van saves on a coat (E55; derived).

        max(0, fetch + least - cost)

    A trip brings back the size that costs least, and where it costs less with the trip than a size on the van, it is
    made.

    Parameters
    ----------
    fetch : cost of a trip to the store [money]
    least : cost of the coat with the best of all sizes [money]
    cost : cost of the coat with this size, which fits it [money]

    Returns
    -------
    what is saved [money]

    Examples
    --------
    >>> saving(36.0, 410.0, 425.0), saving(36.0, 410.0, 500.0)
    (21.0, 0.0)
    """
    return max(fetch + least - cost, 0 * fetch)


def merged(saved):
    """The same with coats on which each size saves alike taken as one, and without those on which none does (E55;
    derived).

        what a size saves on one of them * their number

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]

    Returns
    -------
    the same of fewer coats [money]

    Examples
    --------
    >>> merged(((9.0, 4.0, 9.0, 0.0), (0.0, 5.0, 0.0, 0.0)))
    ((18.0, 4.0), (0.0, 5.0))
    """
    rows = {row: number for row, number in Counter(zip(*saved)).items() if any(row)}
    return tuple(tuple(row[size] * number for row, number in rows.items()) for size in range(len(saved)))


def exchange(saved, carried):
    """Sizes one of which exchanged for another saves no more (E55; vertex substitution, Teitz and Bart 1968, from
    memory).

        the exchange that saves most is made, until none saves more

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]
    carried : numbers of the sizes to begin with, from 0 [-]

    Returns
    -------
    numbers of the sizes, in order [-]

    Examples
    --------
    >>> exchange(((9.0, 0.0, 0.0), (8.0, 0.0, 7.0), (0.0, 6.0, 5.0)), (0, 2))
    (1, 2)
    """
    reached, better = sum(together(saved, carried)), tuple(carried)
    while better:
        carried, better = better, ()
        for leaves in carried:
            stay = tuple(size for size in carried if size != leaves)
            others = together(saved, stay)
            for comes in set(range(len(saved))) - set(carried):
                now = sum(map(max, others, saved[comes]))
                if now > reached * (1 + CLOSE):
                    reached, better = now, (*stay, comes)
    return tuple(sorted(carried))


def choices(saved, most):
    """The sizes to carry: the best one, the best two and so on (E55; proved up to four, Cornuejols, Fisher and
    Nemhauser 1977; exchanged beyond, Teitz and Bart 1968; both from memory).

        of each number of sizes those that save most against a trip for every coat

    Of more than four, `most` of a Choice says how far it may be from the best. It ends where no further size saves
    anything.

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]
    most : the most sizes to carry, 1 or more [-]

    Returns
    -------
    a Choice for each number of sizes, from one [money]

    Examples
    --------
    The one that saves most alone is not among the best two; with those every coat has what suits it best.

    >>> for one in choices(((9.0, 6.0, 6.0, 0.0), (9.0, 9.0, 0.0, 0.0), (0.0, 0.0, 9.0, 9.0)), 3):
    ...     print(one.sizes, one.saved)
    (0,) 21.0
    (1, 2) 36.0
    """
    names = rivals(saved)
    saved = merged(tuple(saved[size] for size in names))
    found, sizes, rents = [], (), tuple(0 * one for one in saved[0])
    enough = sum(together(saved, range(len(saved))))
    while len(sizes) < most and sum(together(saved, sizes)) < enough * (1 - CLOSE):
        sizes = exchange(saved, (*sizes, _next(saved, sizes)))
        at_most = limit(saved, len(sizes), sum(together(saved, sizes)), rents)
        rents, least = at_most.rents, min(at_most.most, enough)
        by_worth = sorted(range(len(saved)), key=lambda size: -at_most.worth[size])[: len(sizes)]
        sizes = max(sizes, exchange(saved, by_worth), key=lambda one: sum(together(saved, one)))
        if len(sizes) <= SURE:
            sizes = proved(saved, len(sizes), sizes, at_most)
            least = sum(together(saved, sizes))
        reached = sum(together(saved, sizes))
        found.append(Choice(tuple(names[size] for size in sizes), reached, max(least, reached)))
    return tuple(found)


def _next(saved, carried):
    """The size that saves most beside those that are carried, the first of equal ones."""
    there = together(saved, carried)
    others = [size for size in range(len(saved)) if size not in carried]
    return max(others, key=lambda size: sum(map(max, there, saved[size])))
