"""How much a number of sizes can save at most, and which of them do (E55). Callers check ranges.

`saved` has a tuple a size, each of the same coats in the same order: what the size saves on a coat against a trip to
the store, 0 where it does not fit. What runs over all coats runs in `map`: a season has thousands of them.
"""

from dataclasses import dataclass
from itertools import compress
from operator import gt, sub

ROUNDS, PATIENCE = 120, 6  # of the ascent: at most, and those without a lower limit before its step is halved
CLOSE = 1e-12  # two sums of money closer than this share are one


@dataclass(frozen=True)
class Limit:
    """What no choice of so many sizes saves more than (E55; a Lagrangian dual as in Cornuejols, Fisher and Nemhauser
    1977, from memory).

    Attributes
    ----------
    most : what is saved at most [money]
    rents : what each coat may be saved before a size counts for it [money]
    worth : what each size saves beyond the rents [money]
    """

    most: float
    rents: tuple[float, ...]
    worth: tuple[float, ...]


def together(saved, carried):
    """What each coat is saved by the best of the sizes that are carried (E55; derived).

        the greatest of what the sizes save; nothing without sizes

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]
    carried : numbers of the sizes, from 0 [-]

    Returns
    -------
    what is saved on each coat [money]

    Examples
    --------
    >>> together(((9.0, 0.0), (4.0, 5.0)), (0, 1)), together(((9.0, 0.0), (4.0, 5.0)), ())
    ((9.0, 5.0), (0.0, 0.0))
    """
    best = tuple(0 * one for one in saved[0])
    for size in carried:
        best = tuple(map(max, best, saved[size]))
    return best


def rivals(saved):
    """Sizes but for those that another one equals or beats on every coat: of equal ones the first stays (E55; derived).

        a size leaves where one that saves no less in all saves no less on any coat

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]

    Returns
    -------
    their numbers, from 0, in order [-]

    Examples
    --------
    >>> rivals(((9.0, 0.0), (0.0, 5.0), (8.0, 0.0), (9.0, 0.0)))
    (0, 1)
    """
    kept = []
    for size in sorted(range(len(saved)), key=lambda size: -sum(saved[size])):
        if not any(not any(map(gt, saved[size], saved[other])) for other in kept):
            kept.append(size)
    return tuple(sorted(kept))


def limit(saved, count, reached, rents):
    """The least limit that a dual ascent finds (E55; Cornuejols, Fisher and Nemhauser 1977; its steps: Held, Wolfe and
    Crowder 1974; both from memory).

        sum of the rents + the `count` greatest of: sum over the coats of max(0, saved - rent)

    Whatever the rents, from 0 up, that limits every choice: on a coat it saves no more than the rent and what its sizes
    save beyond it. A rent rises where several of those sizes save more than it, and falls where none does.

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]
    count : how many sizes are carried [-]
    reached : what some choice of so many saves [money]
    rents : where to begin, a coat [money]

    Returns
    -------
    the Limit [money]

    Examples
    --------
    Each of three sizes saves 10 on two of three coats: one saves 20, two save all 30.

    >>> ring = ((10.0, 10.0, 0.0), (0.0, 10.0, 10.0), (10.0, 0.0, 10.0))
    >>> [round(limit(ring, count, reached, (0.0, 0.0, 0.0)).most, 6) for count, reached in ((1, 20.0), (2, 30.0))]
    [20.0, 30.0]
    """
    best, pace, idle = None, 1.0, 0
    served = [tuple(compress(column, column)) for column in saved]
    for _ in range(ROUNDS):
        floor = sum(rents)
        worth = tuple(
            sum([one for one in map(sub, own, compress(rents, column)) if one > 0])
            for own, column in zip(served, saved)
        )
        taken = sorted(range(len(saved)), key=lambda size: -worth[size])[:count]
        most = floor + sum(worth[size] for size in taken)
        if best is None or most < best.most:
            best, idle = Limit(most, tuple(rents), worth), 0
        else:
            idle += 1
        if idle == PATIENCE:
            pace, idle = pace / 2, 0
        over = map(sum, zip(*(map(gt, saved[size], rents) for size in taken)))
        slope = [sizes - 1 if sizes or rent > 0 else 0 for sizes, rent in zip(over, rents)]
        steep = sum(one * one for one in slope)
        if best.most <= reached * (1 + CLOSE) or not steep:
            break
        step = pace * (most - reached) / steep
        rents = [max(rent + step * one, 0.0) for rent, one in zip(rents, slope)]
    return best


def proved(saved, count, carried, at_most):
    """The sizes that save most, so many of them (E55; branch and bound; derived, its bounds: a Limit, and that each
    further size saves the less the more are carried, Nemhauser, Wolsey and Fisher 1978, from memory).

        what is carried + the greatest of what each other size adds to it; or the sum of a Limit's rents + the worth of
        what is carried + the greatest of the others' worth: where either is no more than what is reached, no more
        is found

    Parameters
    ----------
    saved : what a size saves on each coat, a tuple a size [money]
    count : how many sizes are carried [-]
    carried : numbers of sizes to begin with, the better the sooner done [-]
    at_most : a Limit of so many [money]

    Returns
    -------
    numbers of the sizes, in order; `carried` where none save more [-]

    Examples
    --------
    >>> four = ((9.0, 0.0, 0.0), (8.0, 0.0, 7.0), (0.0, 6.0, 5.0), (8.0, 5.0, 0.0))
    >>> proved(four, 2, (0, 2), limit(four, 2, 20.0, (0.0, 0.0, 0.0)))
    (1, 2)
    """
    search = _Search(sum(together(saved, carried)), carried, at_most.worth)
    search.branch((), 0 * at_most.most, sum(at_most.rents), dict(enumerate(saved)), min(count, len(saved)))
    return search.carried


def _beyond(column, own):
    """What a size adds on each coat where another one, whose coats are `own`, is carried too."""
    adds = list(column)
    for no, one in own:
        adds[no] = adds[no] - one if adds[no] > one else 0 * one
    return adds


class _Search:
    """The sizes that save most by now. worth: of each size, of a Limit."""

    def __init__(self, reached, carried, worth):
        self.reached, self.carried, self.worth = reached, carried, worth

    def branch(self, carried, held, floor, columns, left):
        """Every choice of the carried sizes and `left` of some others that may save more.

        held: what the carried ones save; floor: sum of the rents and their worth; columns: size -> what it adds to
        them on each coat.
        """
        adds = self._hopeful({size: sum(column) for size, column in columns.items()}, held, left)
        order = sorted(adds, key=lambda size: -adds[size])
        if left == 1:
            for size in order[:1]:
                self._found((*carried, size), held + adds[size])
        elif left == 2:
            self._pairs(carried, held, columns, adds, order)
        else:
            for place, size in enumerate(order):
                now, onto = held + adds[size], floor + self.worth[size]
                others = self._hopeful({other: adds[other] for other in order[place + 1 :]}, now, left - 1)
                others = self._hopeful({other: self.worth[other] for other in others}, onto, left - 1)
                own = [(no, one) for no, one in enumerate(columns[size]) if one]
                beyond = {other: _beyond(columns[other], own) for other in others}
                self.branch((*carried, size), now, onto, beyond, left - 1)

    def _hopeful(self, figures, held, left):
        """Those of some sizes that so many of the greatest figures beside them lift above what is reached."""
        top = sorted(figures.values(), reverse=True)[:left]
        if len(top) < left:
            return {}
        missing = self.reached * (1 + CLOSE) - held - sum(top[:-1])
        return {size: figure for size, figure in figures.items() if min(figure, top[-1]) > missing}

    def _pairs(self, carried, held, columns, adds, order):
        """Two more: on the coats of the first, the second adds what it has more than the first."""
        for place, size in enumerate(order):
            column = columns[size]
            own = tuple(compress(column, column))
            for other in order[place + 1 :]:
                both = held + adds[size] + adds[other]
                if both <= self.reached * (1 + CLOSE):
                    break
                beside = tuple(compress(columns[other], column))
                more = sum([one for one in map(sub, beside, own) if one > 0])
                self._found((*carried, size, other), both - sum(beside) + more)

    def _found(self, carried, reached):
        if reached > self.reached * (1 + CLOSE):
            self.reached, self.carried = reached, tuple(sorted(carried))
