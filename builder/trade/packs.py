"""Whole packs at least cost (E19).

With sizes that are whole multiples, the number of a larger pack is none, as many as fit, or one more
at each level; the least of these cases is the least of all. A test holds that against brute force.
"""
from dataclasses import dataclass
from math import ceil, floor


def whole(amount, slack):
    """A number of packs rounded up; `slack` is forgiven first. Returns [-]."""
    return float(ceil(max(0.0, amount - slack)))


def options(need, size, slack):
    """None, as many as fit in `need`, one more. need, size (or None) [m3]. Returns three numbers [-]."""
    if size is None:
        return (0.0, 0.0, 0.0)
    return (0.0, float(floor(need / size + slack)), whole(need / size, slack))


def first_least(costs, slack):
    """The place of the least cost, the earlier of two that differ by less than `slack`. Returns 0, 1 or 2."""
    bound = min(costs) * (1 + slack)
    return next(place for place, cost in enumerate(costs) if cost <= bound)


@dataclass(frozen=True)
class Rest:
    """What the two smaller packs make of a rest: `middles` tried, `costs` of each, the choice (from 1) among them."""

    rest: float
    middles: tuple
    costs: tuple
    choice: int
    cost: float
    middle: float


@dataclass(frozen=True)
class Purchase:
    """`larges` tried, the rest each leaves, `costs` of each, the choice (from 1) among them, the numbers bought."""

    larges: tuple
    rests: tuple
    costs: tuple
    choice: int
    small: float
    middle: float
    large: float
    cost: float


def _rest(rest, packs, slack):
    (size, price), (middle_size, middle_price) = packs[:2]
    middles = options(rest, middle_size, slack)
    costs = tuple(number * (middle_price or 0.0) + whole((rest - number * (middle_size or 0.0)) / size, slack) * price for number in middles)
    best = first_least(costs, slack)
    return Rest(rest, middles, costs, best + 1, costs[best], middles[best])


def least_cost(need, packs, slack):
    """How many of each pack cover `need` for the least money (E19).

    need [m3]; packs: three (size [m3], price [money]) from small to large, (None, None) for a pack not
    offered, each size a whole multiple of the one before; slack [-]. Returns a Purchase.
    """
    size, price = packs[2]
    larges = options(need, size, slack)
    rests = tuple(_rest(max(0.0, need - number * (size or 0.0)), packs, slack) for number in larges)
    costs = tuple(number * (price or 0.0) + rest.cost for number, rest in zip(larges, rests))
    choice = first_least(costs, slack)
    chosen = rests[choice]
    small = whole((chosen.rest - chosen.middle * (packs[1][0] or 0.0)) / packs[0][0], slack)
    return Purchase(larges, rests, costs, choice + 1, small, chosen.middle, larges[choice], costs[choice])
