"""What must hold whatever the figures: doubling, monotone prices, order, alternates, both unit systems."""

import copy

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from support.made_up import ROOM, jobs
from support.places import ROOT

from builder.jobs import open_job
from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.stages.estimate import Estimate
from builder.stages.order import capacities
from builder.trade import film, packs, spray, wear

PLAIN = {
    "deadline": None,
    "derandomize": True,
    "phases": (Phase.generate,),
    "suppress_health_check": [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.function_scoped_fixture],
}


@pytest.fixture(scope="module")
def boathouse():
    return open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"])


def again(opened, *changes):
    """The estimate of a job after `change(values)`, one after another."""
    values = copy.deepcopy(opened.values)
    for change in changes:
        change(values)
    return Estimate(values, opened.units, opened.estimate.capacity)


def setting(block, key, value):
    """A change: one figure of every row of a block."""

    def change(values):
        for row in values[block]:
            row[key] = value

    return change


def scaling(block, key, factor):
    """A change: one figure of every row of a block that has it, times a factor."""

    def change(values):
        for row in values[block]:
            if row.get(key) is not None:
                row[key] *= factor

    return change


def own_nozzles(opened):
    """A change: each coat keeps the nozzle that it has, so that no other pick answers what changes next."""
    nozzles = [row.nozzle for row in opened.estimate.rows["picks"]]

    def change(values):
        for coat, nozzle in zip(values["coats"], nozzles):
            coat["nozzle"] = nozzle

    return change


def net(estimate, scenario=1):
    return estimate.rows["price"][scenario - 1].net


def needs(estimate):
    return [row.need for row in estimate.rows["gallons"] if row.live]


# ---- areas and orders
# ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("factor", [2.0, 3.0])
def test_twice_the_area_needs_twice_the_coating_and_twice_the_hours(boathouse, factor):
    """Every line and every opening counted twice; before packs and whole days."""

    def counted(values):
        for line in values["takeoff"] + values["openings"]:
            line["count"] = factor * (line["count"] or 1.0)

    one, many = boathouse.estimate, again(boathouse, counted)
    assert needs(one) and needs(many) == pytest.approx([factor * need for need in needs(one)], rel=1e-9)
    for block, key in (
        ("hours", "labor"),
        ("hours", "trigger"),
        ("systems", "coated"),
        ("systems", "work"),
        ("systems", "perimeter"),
        ("gallons", "due"),
    ):
        found = [[getattr(row, key) or 0.0 for row in estimate.rows[block]] for estimate in (one, many)]
        assert sum(found[0]) > 0 and found[1] == pytest.approx([factor * each for each in found[0]], rel=1e-9), (
            block,
            key,
        )


@settings(max_examples=12, **PLAIN)
@given(data=st.data())
def test_the_order_of_takeoff_lines_changes_only_order(boathouse, data):
    order = data.draw(st.permutations(range(len(boathouse.values["takeoff"]))))
    turned = again(boathouse, lambda values: values.update(takeoff=[values["takeoff"][place] for place in order]))
    assert needs(turned) == pytest.approx(needs(boathouse.estimate), rel=1e-9)
    assert [net(turned, scenario) for scenario in (1, 2)] == [net(boathouse.estimate, scenario) for scenario in (1, 2)]
    for at, place in enumerate(order):
        assert turned.rows["areas"][at].coated == boathouse.estimate.rows["areas"][place].coated


@settings(max_examples=40, **PLAIN)
@given(data=st.data())
def test_the_order_of_takeoff_lines_of_generated_jobs(data):
    values, units = data.draw(jobs("us"))
    one = Estimate(copy.deepcopy(values), units, capacities(**ROOM))
    other = Estimate(dict(values, takeoff=data.draw(st.permutations(values["takeoff"]))), units, capacities(**ROOM))
    assert all(_alike(row.coated, twin.coated) for row, twin in zip(one.rows["systems"], other.rows["systems"]))
    assert (other.checks.stops, other.checks.looks) == (one.checks.stops, one.checks.looks) and (
        net(other) is None
    ) == (net(one) is None)


# ---- unit systems
# -------------------------------------------------------------------------------------------------------------

WORDED = {"constants", "words"}  # blocks that hold the units themselves


def unlike(us, metric):
    """Every figure of the model that differs: whole numbers at all, others by more than 1e-9 of them."""
    found = []
    for block in us.rows.keys() - WORDED:
        for one, other in zip(us.rows[block], metric.rows[block]):
            # a gauge has other notches in each system
            keys = {key for key in vars(one).keys() | vars(other).keys() if not key.startswith("notch_")}
            found += [
                (block, one.no, key, one, other) for key in keys if not _alike(getattr(one, key), getattr(other, key))
            ]
    return found


def _alike(one, other):
    if isinstance(one, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    if isinstance(one, str) or one is None:
        return type(one) is type(other)  # words tell figures in the book's own units
    if one == int(one) and abs(one) < 1e5:
        return other == pytest.approx(one, abs=1e-9, rel=0)
    return other == pytest.approx(one, rel=1e-9)


def test_us_and_metric_books_of_one_job_agree(boathouse):
    """Inputs settle at 15 digits of each system's own units, so quantities agree to 1e-9 and counts exactly."""
    us, metric = boathouse.estimate, open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"], "metric").estimate
    assert metric.units.system == "metric" and unlike(us, metric) == []
    for block, keys in (
        ("purchases", ("small", "middle", "large")),
        ("sizes", ("buy",)),
        ("days", ("days", "visits", "finish")),
        ("picks", ("nozzle", "next")),
        ("price", ("net", "total", "deposit", "stage")),
    ):
        for key in keys:
            assert [getattr(row, key) for row in metric.rows[block]] == [getattr(row, key) for row in us.rows[block]], (
                block,
                key,
            )
    assert us.rows["price"][0].net > 0 and any(row.large for row in us.rows["purchases"])


@settings(max_examples=40, **PLAIN)
@given(data=st.data())
def test_generated_jobs_agree_in_both_systems(data):
    values, units = data.draw(jobs("us"))
    metric = Units("metric", units.currency, units.exchange)
    settled = {
        block: [
            {field.key: metric.settle(row.get(field.key), field.quantity) for field in KINDS[block].fields}
            for row in rows
        ]
        for block, rows in values.items()
    }
    assert unlike(Estimate(values, units, capacities(**ROOM)), Estimate(settled, metric, capacities(**ROOM))) == []


# ---- nozzles
# ------------------------------------------------------------------------------------------------------------------


@settings(max_examples=100, **PLAIN)
@given(
    orifice=st.floats(1e-4, 1e-3),
    pressure=st.floats(1e6, 4e7),
    density=st.floats(600, 2500),
    growth=st.floats(1.0001, 2),
    worn=st.floats(0.5, 3),
)
def test_a_worn_nozzle_never_throws_less(orifice, pressure, density, growth, worn):
    new = spray.flow(0.8, orifice, pressure, density)
    assert spray.flow(0.8, orifice * growth, pressure, density) > new
    assert (
        spray.flow(0.8, orifice, pressure * growth, density)
        > new
        > spray.flow(0.8, orifice, pressure, density * growth)
    )
    assert wear.worn_by_flow(worn * growth, 1.0, 17 / 15) >= wear.worn_by_flow(worn, 1.0, 17 / 15) >= 0


def test_a_nozzle_of_the_kit_that_throws_more_is_more_worn(boathouse):
    def measured(flow):
        return again(boathouse, setting("kit", "used", None), setting("kit", "fan", None), setting("kit", "flow", flow))

    less, more = ([row.worn for row in measured(flow).rows["kit"] if row.live] for flow in (2.0e-5, 2.2e-5))
    assert len(less) == 5 and all(one <= other for one, other in zip(less, more)) and sum(less) < sum(more)


def pairs_of_trials(one, other):
    """The rows of the nozzle check that both estimates could work out."""
    found = [(row, twin) for row, twin in zip(one.rows["trials"], other.rows["trials"]) if row.live and twin.live]
    assert len(found) > 100
    return found


@pytest.mark.parametrize("less, more", [(0.3, 0.5), (0.5, 0.6)])
def test_more_overlap_never_covers_more_a_pass_nor_slows_the_hand(boathouse, less, more):
    """The film being the same, narrower passes must be swept faster: what a pass covers a second is the same, and never
    more.
    """
    one, other = (
        again(boathouse, setting("terms", "overlap", less)),
        again(boathouse, setting("terms", "overlap", more)),
    )
    found = pairs_of_trials(one, other)
    assert all(twin.step <= row.step and twin.gun_speed >= row.gun_speed for row, twin in found)
    assert all(twin.step * twin.gun_speed == pytest.approx(row.step * row.gun_speed) for row, twin in found)
    assert any(twin.step < row.step for row, twin in found)


def test_more_overlap_never_saves_time(boathouse):
    one, other = again(boathouse, setting("terms", "overlap", 0.5)), again(boathouse, setting("terms", "overlap", 0.6))
    assert all(twin.time >= row.time * (1 - 1e-9) for row, twin in pairs_of_trials(one, other))


def test_a_nozzle_that_does_not_fit_changes_no_pick(boathouse):
    """99 thou: too large for every coating, in every family."""

    def add(values):
        values["nozzles"] += [dict(values["nozzles"][0], family=row["name"], size="1299") for row in values["families"]]

    added = again(boathouse, add)
    tried = [row for row in added.rows["trials"] if row.nozzle and row.nozzle.endswith(" 1299")]
    assert (
        len({row.nozzle for row in tried}) == 3
        and any(row.live for row in tried)
        and not any(row.fits for row in tried)
    )
    for key in ("pick", "next", "nozzle", "cost", "fitting"):
        assert [getattr(row, key) for row in added.rows["picks"]] == [
            getattr(row, key) for row in boathouse.estimate.rows["picks"]
        ]
    assert needs(added) == needs(boathouse.estimate) and net(added) == net(boathouse.estimate)


@settings(max_examples=100, **PLAIN)
@given(
    loss=st.floats(0, 0.8),
    more=st.floats(0.01, 0.1),
    clear=st.floats(0.1, 4),
    fan=st.floats(0.1, 0.6),
    solids=st.floats(0.2, 0.8),
    thinning=st.floats(0, 0.3),
)
def test_a_film_takes_at_least_itself(loss, more, clear, fan, solids, thinning):
    """No loss, miss or thinning makes a film cheaper: the paint is at least dry film over solids, more with more loss,
    less on a wider face.
    """

    def paint(loss, clear):
        band = film.band(fan, clear)
        return film.paint(
            film.material(film.wet_film(4e-5, solids, thinning), 1.0, loss, film.miss(1.0, clear, band)), thinning
        )

    assert paint(loss + more, clear) > paint(loss, clear) >= 4e-5 / solids * (1 - 1e-12)
    assert paint(loss, clear * (1 + more)) <= paint(loss, clear) * (1 + 1e-12)


# ---- money
# --------------------------------------------------------------------------------------------------------------------


@settings(max_examples=100, **PLAIN)
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
    ("access", "rental"),
    ("terms", "sundries"),
    ("terms", "burden"),
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


@pytest.mark.parametrize("block, key", [*COSTS, ("terms", "change_time")])
@pytest.mark.parametrize("factor", [1.02, 1.15])
def test_the_price_rises_with_every_cost(boathouse, block, key, factor):
    changes = [own_nozzles(boathouse)] + [as_hired] * ((block, key) in COSTS[-3:])
    before, after = again(boathouse, *changes), again(boathouse, *changes, scaling(block, key, factor))
    assert after.rows["price"][0].asked > before.rows["price"][0].asked and net(after) >= net(before)
    if block != "terms" or key not in ("margin", "percentile"):
        assert after.rows["cost"][0].cost > before.rows["cost"][0].cost


@pytest.mark.parametrize(
    "key, before, after",
    [
        ("contingency", 0.0, 0.05),
        ("contingency", 0.05, 0.12),
        ("wage", 0.006, 0.007),
        ("margin", 0.1, 0.12),
        ("overhead", 0.1, 0.12),
        ("minimum", 1e5, 1.1e5),
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
        cost.direct == pytest.approx(cost.materials + cost.wages + cost.rental + cost.tax)
        and min(cost.materials, cost.wages, cost.rental, cost.tax) > 0
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
    """Base and A together are the job whose base holds A; the alternate's price is what that job costs more than the
    base alone.
    """
    both = again(boathouse, railings_as_b)
    base = net(again(boathouse, without("Club room", "Railings")))
    assert net(both) == base
    for name, other, scenario in (("Club room", "Railings", 2), ("Railings", "Club room", 3)):
        with_it = net(again(boathouse, without(other), into_the_base(name)))
        assert net(both, scenario) == with_it
        assert both.rows["price"][scenario - 1].difference == pytest.approx(with_it - base) and with_it > base
    assert net(both, 4) is None  # no system belongs to C


def test_alternates_do_not_see_each_other(boathouse):
    """With one alternate gone, base and the other are what they were."""
    both = again(boathouse, railings_as_b)
    for name, scenario in (("Club room", 3), ("Railings", 2)):
        gone = again(boathouse, railings_as_b, without(name))
        assert (net(gone), net(gone, scenario)) == (net(both), net(both, scenario))
        assert gone.rows["price"][scenario - 1].difference == both.rows["price"][scenario - 1].difference
