"""Sizes to keep on the van: an example by hand, every choice tried in small seasons, an integer program in large ones."""

import random
from itertools import combinations

import pytest

from builder.trade.carrying import Choice, choices, exchange, merged, saving, trip
from builder.trade.proving import limit, proved, rivals, together

NEAR = pytest.approx


def value(saved, sizes):
    """What some sizes save, said apart from the program: on each coat the most of any."""
    return sum(max(coat) for coat in zip(*(saved[size] for size in sizes)))


def best(saved, count):
    """The most that so many sizes save: every choice is tried."""
    return max(value(saved, sizes) for sizes in combinations(range(len(saved)), count))


def drawn(luck, sizes, coats, fit=0.5, whole=False):
    """Savings at random; whole: small whole ones, of which many are equal."""

    def one():
        return 0.0 if luck.random() > fit else float(luck.randint(1, 4)) if whole else luck.uniform(0.1, 10)

    return tuple(tuple(one() for _ in range(coats)) for _ in range(sizes))


def of_a_trade(luck, sizes, coats):
    """Savings as work has them: a size is an orifice and a fan; a coat wants one of each and takes what is near, the
    dearer the farther; a trip costs what a trip costs.
    """
    offered = luck.sample([(orifice, fan) for orifice in range(9, 33, 2) for fan in range(4, 19, 2)], sizes)
    columns = [[] for _ in offered]
    for _ in range(coats):
        orifice, fan = luck.choice(range(11, 27)), luck.choice((6, 8, 10, 12, 16))
        cost, fetch = luck.lognormvariate(5, 1) * luck.uniform(0.1, 0.4), luck.uniform(25, 50)
        costs = [
            cost * (1 + 0.05 * abs(one - orifice) + 0.03 * abs(other - fan) + luck.uniform(0, 0.02))
            if abs(one - orifice) <= 4 and abs(other - fan) <= 5
            else None
            for one, other in offered
        ]
        least = min((one for one in costs if one is not None), default=0.0)
        for column, one in zip(columns, costs):
            column.append(0.0 if one is None else saving(fetch, least, one))
    return tuple(map(tuple, columns))


# Four coats, three sizes; a trip costs 9 + 1/2 h * 54 = 36. Costs of the coats (none: does not fit):
#         size a   b    c     least   with a trip
# coat 1    100  110  none     100      136
# coat 2    200  none  215     200      236
# coat 3   none   80    90      80      116
# coat 4    900  950   890     890      926      950 with b: the trip is cheaper by 24
FETCH = 9 + 0.5 * 54
COSTS = ((100, 200, None, 900), (110, None, 80, 950), (None, 215, 90, 890))
LEAST = (100, 200, 80, 890)
# saved:   a: 36 + 36 + 0 + 26 = 98     b: 26 + 0 + 36 + 0 = 62     c: 0 + 21 + 26 + 36 = 83
#        a b: 36 + 36 + 36 + 26 = 134   a c: 36 + 36 + 26 + 36 = 134   b c: 26 + 21 + 36 + 36 = 119
#      a b c: 4 * 36 = 144
ALONE, TWO, THREE = 98, 134, 144


def by_hand():
    return tuple(
        tuple(0.0 if cost is None else saving(FETCH, least, cost) for cost, least in zip(costs, LEAST))
        for costs in COSTS
    )


def test_the_example_by_hand():
    assert trip(9.0, 1800.0, 54 / 3600) == NEAR(FETCH)
    found = choices(by_hand(), 9)
    assert [(len(one.sizes), one.saved) for one in found] == [(1, ALONE), (2, TWO), (3, THREE)]
    assert found[0].sizes == (0,) and found[1].sizes in ((0, 1), (0, 2)) and found[2].sizes == (0, 1, 2)
    assert [choices(by_hand(), count)[-1].saved for count in (1, 2, 3)] == [ALONE, TWO, THREE]


def test_a_size_that_costs_more_than_a_trip_saves_nothing_and_never_less():
    assert saving(36.0, 890.0, 950.0) == 0 and saving(36.0, 890.0, 926.0) == 0 and saving(36.0, 890.0, 925.0) == 1


@pytest.mark.parametrize("fit, whole", [(0.3, False), (0.9, False), (0.6, True)])
def test_every_choice_of_small_seasons(fit, whole):
    """All numbers of sizes: the best where it is proved, between what is reached and the limit where it is not."""
    luck = random.Random(f"{fit} {whole}")
    beyond = 0
    for _ in range(120):
        saved = drawn(luck, luck.randint(1, 9), luck.randint(1, 10), fit, whole)
        found = choices(saved, len(saved))
        for count, one in enumerate(found, start=1):
            most = best(saved, count)
            assert one.sizes == tuple(sorted(set(one.sizes))) and len(one.sizes) == count
            assert one.saved == NEAR(value(saved, one.sizes)) and one.saved <= most * (1 + 1e-9) <= one.most * (
                1 + 2e-9
            )
            if count <= 4:
                assert one.saved == NEAR(most) and one.most == NEAR(most)
            beyond += count > 4
        enough = value(saved, range(len(saved)))
        assert enough == 0 or found[-1].saved == NEAR(enough)  # it ends where no further size saves anything
        assert all(one.saved < enough * (1 - 1e-9) for one in found[:-1])
    assert beyond > 5


def test_the_proof_does_not_hang_on_where_it_begins():
    """From any sizes, the worst too, and from any rents."""
    luck = random.Random(5)
    for _ in range(60):
        saved = drawn(luck, 8, 12)
        for count in (1, 2, 3, 4, 5):
            begin = tuple(range(count))
            rents = tuple(luck.uniform(0, 5) for _ in range(12))
            at_most = limit(saved, count, value(saved, begin), rents)
            assert value(saved, proved(saved, count, begin, at_most)) == NEAR(best(saved, count))


def test_a_limit_is_never_below_the_best_nor_above_all():
    luck = random.Random(6)
    for _ in range(60):
        saved = drawn(luck, 7, 9)
        for count in (1, 2, 3, 6):
            most = best(saved, count)
            found = limit(saved, count, most, (0.0,) * 9)
            alone = sorted(map(sum, saved), reverse=True)
            assert most * (1 - 1e-9) <= found.most <= sum(alone[:count]) * (1 + 1e-9)


def test_a_limit_where_no_choice_reaches_it():
    """Each of three sizes serves two of three coats, and one saves 20 of 30: with rents of 5 each size is worth
    2 * 5 = 10 more, 15 + 10 = 25; without rents 20, which is reached.
    """
    ring = ((10.0, 10.0, 0.0), (0.0, 10.0, 10.0), (10.0, 0.0, 10.0))
    assert limit(ring, 1, 20.0, (5.0,) * 3).most == NEAR(20.0)
    four = tuple(tuple(10.0 * (coat in pair) for coat in range(4)) for pair in combinations(range(4), 2))
    # of six pairs of four coats two serve all: halves of four pairs do no better
    assert limit(four, 2, 40.0, (0.0,) * 4).most == NEAR(40.0)


def test_an_exchange_ends_where_no_swap_saves_more():
    luck = random.Random(7)
    for _ in range(60):
        saved = drawn(luck, 8, 10)
        begin = tuple(luck.sample(range(8), 3))
        found = exchange(saved, begin)
        reached = value(saved, found)
        assert reached >= value(saved, begin) and len(set(found)) == 3
        for leaves in found:
            for comes in set(range(8)) - set(found):
                assert value(saved, {*found, comes} - {leaves}) <= reached * (1 + 1e-9)


def test_coats_alike_are_taken_as_one_and_sizes_that_never_win_are_left_out():
    luck = random.Random(8)
    for _ in range(60):
        saved = drawn(luck, 5, 30, whole=True)
        fewer = merged(saved)
        assert len(fewer[0]) < 30 or len(set(zip(*saved))) == 30
        for count in (1, 2, 3):
            for sizes in combinations(range(5), count):
                assert value(saved, sizes) == NEAR(sum(together(fewer, sizes)))
            among = [saved[size] for size in rivals(saved)]
            assert best(among, min(count, len(among))) == NEAR(best(saved, count))


def test_where_nothing_is_saved_nothing_is_carried():
    assert choices(((0.0, 0.0), (0.0, 0.0)), 3) == ()
    assert choices(((0.0, 7.0), (0.0, 7.0)), 3) == (Choice((0,), 7.0, 7.0),)


def optimum(pywraplp, saved, count):
    """The most that so many sizes save, by an integer program."""
    solver = pywraplp.Solver.CreateSolver("SCIP")
    carried = [solver.BoolVar("") for _ in saved]
    solver.Add(sum(carried) <= count)
    gains = []
    for coat in range(len(saved[0])):
        uses = [(solver.NumVar(0, 1, ""), saved[size][coat], size) for size in range(len(saved)) if saved[size][coat]]
        for use, one, size in uses:
            solver.Add(use <= carried[size])
            gains.append(one * use)
        if uses:
            solver.Add(sum(use for use, *_ in uses) <= 1)
    solver.Maximize(sum(gains))
    assert solver.Solve() == pywraplp.Solver.OPTIMAL
    return solver.Objective().Value()


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(50))
def test_an_integer_program_finds_none_that_save_more(seed):
    """50 sizes; 80 to 200 coats as work has them, and 40 at random, where limits are far from the best."""
    pywraplp = pytest.importorskip("ortools.linear_solver.pywraplp", reason="pip install -e '.[test]'")
    luck = random.Random(seed)
    saved = drawn(luck, 50, 40, 0.2) if seed % 5 == 4 else of_a_trade(luck, 50, luck.randint(80, 200))
    found = choices(saved, 4)
    assert len(found) == 4
    for count, one in enumerate(found, start=1):
        assert one.saved == NEAR(optimum(pywraplp, saved, count), rel=1e-6), count
