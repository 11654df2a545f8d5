"""What must hold of money whatever the figures: prices rise with costs, every cost counts once, an alternate is the
difference it makes.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.changing import again, net, own_nozzles, scaling, setting
from support.slow import some

from builder.trade import packs

# ---- money
# --------------------------------------------------------------------------------------------------------------------


@settings(max_examples=100)
@given(need=st.floats(0.01, 80), more=st.floats(0.01, 5), prices=st.tuples(st.floats(1, 50), st.floats(1, 400)))
def test_more_is_never_cheaper(need, more, prices):
    """A larger need, or a dearer pack of either size."""

    def cost(need, small, large):
        return packs.least_cost(need, ((1.0, small), (5.0, large), (None, None)), 1e-9).cost

    small, large = prices
    least = cost(need, small, large) * (1 - 1e-9)
    assert (
        cost(need + more, small, large) >= least
        and cost(need, small + more, large) >= least
        and cost(need, small, large + more) >= least
    )


def as_hired(values):
    """Every pump is rented, overhead is charged by the hour, thinner costs money and is used."""
    setting("pumps", "rental", 60.0)(values)
    setting("terms", "overhead_basis", "labor hours")(values)
    setting("coats", "thinning", 0.02)(values)
    setting("coatings", "thinner_price", 4000.0)(values)


COSTS = [
    ("crews", "wage"),
    ("coatings", "pack1_price"),
    ("coatings", "pack2_price"),
    ("nozzles", "nozzle_price"),
    ("access", "rental_20"),
    ("terms", "sundries"),
    ("terms", "burden_compensation"),
    ("terms", "leave"),
    ("terms", "unproductive"),
    ("terms", "walk"),
    ("terms", "travel_rate"),
    ("job", "travel_time"),
    ("job", "distance"),
    ("terms", "overhead"),
    ("terms", "purchase_tax"),
    ("terms", "margin"),
    ("terms", "percentile"),
    ("rates", "area_material"),
    ("rates", "length_material"),
    ("pumps", "rental"),
    ("terms", "overhead_hour"),
    ("coatings", "thinner_price"),
]


@pytest.mark.parametrize("block, key", some([*COSTS, ("terms", "change_time")], 4))
@pytest.mark.parametrize("factor", [1.02, 1.15])
def test_the_price_rises_with_every_cost(boathouse, block, key, factor):
    changes = [own_nozzles(boathouse)] + [as_hired] * ((block, key) in COSTS[-3:])
    before, after = again(boathouse, *changes), again(boathouse, *changes, scaling(block, key, factor))
    assert after.rows["price"][0].asked > before.rows["price"][0].asked and net(after) >= net(before)
    if block != "terms" or key not in ("margin", "percentile"):
        assert after.rows["cost"][0].cost > before.rows["cost"][0].cost


@pytest.mark.slow
@pytest.mark.parametrize(
    "key, before, after",
    [
        ("contingency", 0.0, 0.05),
        ("contingency", 0.05, 0.12),
        ("wage", 0.006, 0.007),
        ("margin", 0.1, 0.12),
        ("overhead", 0.1, 0.12),
        ("minimum", 1e5, 1.1e5),
        ("travel_time", 0.0, 3600.0),
        ("vehicles", 1.0, 2.0),
    ],
)
def test_the_price_rises_with_every_figure_of_the_job_itself(boathouse, key, before, after):
    assert net(again(boathouse, setting("job", key, after))) > net(again(boathouse, setting("job", key, before)))


def test_tax_is_added_to_the_price(boathouse):
    taxed = again(boathouse, setting("terms", "sales_tax", 0.08))
    assert net(taxed) == net(boathouse.estimate) and taxed.rows["price"][0].total == pytest.approx(1.08 * net(taxed))


@pytest.mark.parametrize("deposit, stages", [(0.0, 1.0), (0.25, 2.0), (0.33, 3.0), (0.5, 7.0)])
def test_payments_add_up_to_the_total(boathouse, deposit, stages):
    for row in again(boathouse, setting("terms", "deposit", deposit), setting("terms", "stages", stages)).rows["price"][
        :2
    ]:
        assert (
            row.deposit + (stages - 1) * row.stage + row.last == pytest.approx(row.total)
            and min(row.deposit, row.stage) >= 0
            and row.last >= row.stage
        )


def test_every_cost_is_counted_once(boathouse):
    """The price of a job comes apart into its purchases, hours, nozzles and rental again."""
    estimate = boathouse.estimate
    cost = estimate.rows["cost"][0]
    assert (
        cost.paint
        == pytest.approx(sum(row.cost for row in estimate.rows["purchases"] if row.live and row.scenario == 1))
        and cost.paint > 0
    )
    assert (
        cost.direct == pytest.approx(cost.materials + cost.wages + cost.rental + cost.travel + cost.tax)
        and min(cost.materials, cost.wages, cost.rental, cost.travel, cost.tax) > 0
    )
    assert cost.cost == pytest.approx(cost.direct * (1 + estimate.terms.overhead))
    assert all(row.bought >= row.total * (1 - 1e-9) for row in estimate.rows["purchases"] if row.live)


# ---- alternates
# ---------------------------------------------------------------------------------------------------------------


def railings_as_b(values):
    next(row for row in values["systems"] if row["name"] == "Railings")["alternate"] = "B"


def without(*names):
    """A change: some systems and all that belongs to them are gone."""

    def change(values):
        values["systems"] = [row for row in values["systems"] if row["name"] not in names]
        for block in ("coats", "takeoff", "tasks"):
            values[block] = [row for row in values[block] if row["system"] not in names]
        tags = {row["tag"] for row in values["takeoff"]}
        values["openings"] = [row for row in values["openings"] if row["line"] in tags]

    return change


def into_the_base(name):
    """A change: an alternate belongs to the base."""

    def change(values):
        next(row for row in values["systems"] if row["name"] == name)["alternate"] = None

    return change


def test_an_alternate_is_priced_as_the_difference_it_makes(boathouse):
    """Base and A together are the job whose base holds A, but for its days, which are those of the base and what its
    steps add: within one, and the price within a day's work. The alternate's price is the difference to the base.
    """
    both = again(boathouse, railings_as_b)
    base = net(again(boathouse, without("Club room", "Railings")))
    assert net(both) == base
    for name, other, scenario in (("Club room", "Railings", 2), ("Railings", "Club room", 3)):
        whole = again(boathouse, without(other), into_the_base(name))
        assert abs(both.rows["days"][scenario - 1].days - whole.rows["days"][0].days) <= 1
        assert both.rows["days"][scenario - 1].coat_labor == pytest.approx(whole.rows["days"][0].coat_labor)
        assert net(both, scenario) == pytest.approx(net(whole), rel=0.02)
        difference = both.rows["price"][scenario - 1].difference
        assert difference == pytest.approx(net(both, scenario) - base) and difference > 0
    assert net(both, 4) is None  # no system belongs to C


def test_alternates_do_not_see_each_other(boathouse):
    """With one alternate gone, base and the other are what they were."""
    both = again(boathouse, railings_as_b)
    for name, scenario in (("Club room", 3), ("Railings", 2)):
        gone = again(boathouse, railings_as_b, without(name))
        assert (net(gone), net(gone, scenario)) == (net(both), net(both, scenario))
        assert gone.rows["price"][scenario - 1].difference == both.rows["price"][scenario - 1].difference
