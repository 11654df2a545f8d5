"""What must hold whatever the figures: doubling, order, both unit systems, nozzles."""

import copy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.changing import again, needs, net, setting
from support.made_up import ROOM, jobs
from support.places import ROOT
from support.slow import examples

from builder.jobs import open_job
from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.stages.estimate import Estimate
from builder.stages.order import capacities
from builder.trade import film, spray, wear

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


@settings(max_examples=12)
@given(data=st.data())
def test_the_order_of_takeoff_lines_changes_only_order(boathouse, data):
    order = data.draw(st.permutations(range(len(boathouse.values["takeoff"]))))
    turned = again(boathouse, lambda values: values.update(takeoff=[values["takeoff"][place] for place in order]))
    assert needs(turned) == pytest.approx(needs(boathouse.estimate), rel=1e-9)
    assert [net(turned, scenario) for scenario in (1, 2)] == [net(boathouse.estimate, scenario) for scenario in (1, 2)]
    for at, place in enumerate(order):
        assert turned.rows["areas"][at].coated == boathouse.estimate.rows["areas"][place].coated


@examples(12, 100)
def test_the_order_of_takeoff_lines_of_generated_jobs(count):
    @settings(max_examples=count)
    @given(data=st.data())
    def holds(data):
        values, units = data.draw(jobs("us"))
        one = Estimate(copy.deepcopy(values), units, capacities(**ROOM))
        other = Estimate(dict(values, takeoff=data.draw(st.permutations(values["takeoff"]))), units, capacities(**ROOM))
        assert all(_alike(row.coated, twin.coated) for row, twin in zip(one.rows["systems"], other.rows["systems"]))
        assert (other.checks.stops, other.checks.open, net(other) is None) == (
            one.checks.stops,
            one.checks.open,
            net(one) is None,
        )

    holds()


# ---- unit systems
# -------------------------------------------------------------------------------------------------------------

# blocks that hold the units themselves, or figures rounded in them
WORDED = {"constants", "words", "summary", "summary_parts", "shopping", "pick_list", "size_list", "wear_list", "worn",
          "wear_total", "crew_card", "card_strip", "path", "trace", "progress_list"}  # fmt: skip
# a gauge has other notches and other steps in each system
GAUGED = ("notch_", "gauge", "set_too_", "stroke_", "hand_time")
# what is divided by where nothing was planned: one of the book's own units
ALL_OF_NOTHING = ("all_area",)
# of fit: area that money pays for, in the book's units
WORTH = ("worth", "most", "kit_most", "pick_most", "next_most")


def unlike(us, metric):
    """Every figure of the model that differs: whole numbers at all, others by more than 1e-9 of them."""
    found = []
    for block in us.rows.keys() - WORDED:
        for one, other in zip(us.rows[block], metric.rows[block]):
            keys = {key for key in vars(one).keys() | vars(other).keys() if not key.startswith(GAUGED + ALL_OF_NOTHING)}
            found += [
                (block, one.no, key)
                for key in keys
                if not _alike(_figure(us, block, one, key), _figure(metric, block, other, key))
            ]
    return found


def _figure(estimate, block, row, key):
    """A figure of a row, free of the units of its book."""
    figure = getattr(row, key)
    if block == "fit" and key in WORTH and figure is not None:
        of = estimate.units.to_cell(1.0, "money_area")
        return tuple(of * one for one in figure) if isinstance(figure, tuple) else of * figure
    return figure


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


@pytest.mark.slow
@examples(12, 100)
def test_generated_jobs_agree_in_both_systems(count):
    @settings(max_examples=count)
    @given(jobs("us"))
    def holds(job):
        values, units = job
        metric = Units("metric", units.currency, units.exchange)
        settled = {
            block: [
                {field.key: metric.settle(row.get(field.key), field.quantity) for field in KINDS[block].fields}
                for row in rows
            ]
            for block, rows in values.items()
        }
        assert unlike(Estimate(values, units, capacities(**ROOM)), Estimate(settled, metric, capacities(**ROOM))) == []

    holds()


# ---- nozzles
# ------------------------------------------------------------------------------------------------------------------


@settings(max_examples=100)
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
    found = [(row, twin) for row, twin in zip(one.rows["trials"], other.rows["trials"]) if row.cost and twin.cost]
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
    assert all(twin.gun_speed >= row.gun_speed for row, twin in found)
    picks = zip(one.rows["picks"], other.rows["picks"])
    used = [(row, twin) for row, twin in picks if row.live and row.size_at == twin.size_at]
    assert all(twin.step <= row.step for row, twin in used)
    assert all(twin.step * twin.gun_speed == pytest.approx(row.step * row.gun_speed) for row, twin in used)
    assert any(twin.step < row.step for row, twin in used)


def test_more_overlap_never_saves_time(boathouse):
    one, other = again(boathouse, setting("terms", "overlap", 0.5)), again(boathouse, setting("terms", "overlap", 0.6))
    assert all(twin.time >= row.time * (1 - 1e-9) for row, twin in pairs_of_trials(one, other))


def test_a_nozzle_that_does_not_fit_changes_no_pick(boathouse):
    """99 thou: too large for every coating, in every family."""

    def add(values):
        values["nozzles"] += [dict(values["nozzles"][0], family=row["name"], size="1299") for row in values["families"]]

    added = again(boathouse, add)
    large = {row.no for row in added.rows["nozzles"] if row.known and row.known.endswith(" 1299")}
    tried = [row for row in added.rows["trials"] if row.size_at in large and row.loss is not None]
    assert len({row.size_at for row in tried}) == 3
    assert any(row.cost for row in tried) and not any(row.against == 0 for row in tried)
    for key in ("pick", "next", "nozzle", "cost", "fitting"):
        assert [getattr(row, key) for row in added.rows["picks"]] == [
            getattr(row, key) for row in boathouse.estimate.rows["picks"]
        ]
    assert needs(added) == needs(boathouse.estimate) and net(added) == net(boathouse.estimate)


@settings(max_examples=100)
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
