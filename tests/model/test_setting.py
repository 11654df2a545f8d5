"""A nozzle as a person sets it: the step of the gauge, what it does to the hand, the reason in words; wear in lives."""

from math import sqrt

import pytest
from support.editing import small_book
from support.places import SHED
from support.small import CATALOGS

from builder.jobs import open_job
from builder.records.reasons import verdict
from builder.spellings import SPELLINGS

PSI, BAR, FOOT = (SPELLINGS[unit].size for unit in ("psi", "bar", "ft"))


def used(estimate):
    return [row for row in estimate.rows["picks"] if row.live]


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    return small_book("us", tmp_path_factory.mktemp("live"))


@pytest.mark.parametrize("system, step", [("us", 50 * PSI), ("metric", 5 * BAR)])
def test_the_pressure_is_the_next_step_of_the_gauge(system, step):
    """50 psi, 5 bar: common practice, no source."""
    rows = used(open_job(SHED, [CATALOGS], system).estimate)
    assert rows
    for row in rows:
        assert row.gauge / step == pytest.approx(round(row.gauge / step))
        assert -1e-6 * step < row.gauge - row.set_pressure < step and row.gauge <= row.pressure_most * (1 + 1e-6)


def test_a_step_above_the_rating_is_not_taken_but_the_one_below(live):
    """A hose that holds a hair more than what is set lets no whole step above it: the last one under it is set."""
    row = used(live.estimate())[0]
    shown = row.set_pressure / PSI
    assert shown % 50 > 5, "the test needs a pressure between two steps"
    pump = live.estimate().row("film", row.no).pump_at - 1
    with live.changed(("pumps", "hose_pressure_max", pump, shown + 1), ("coats", "nozzle", row.no - 1, row.nozzle)):
        assert live.differences() == []
        again = live.estimate().row("picks", row.no)
    assert (again.gauge_up / PSI, again.gauge / PSI) == pytest.approx((shown // 50 * 50 + 50, shown // 50 * 50))
    # at the gun p, lost R*Q; Q grows with the root of p: q^2 p + q (R Q) = gauge, by the midnight formula
    p, lost, gauge = again.pressure, again.set_pressure - again.pressure, again.gauge
    share = (-lost + sqrt(lost**2 + 4 * p * gauge)) / (2 * p)
    assert again.gauge_speed == pytest.approx(again.gun_speed * share) and share < 1


def test_a_step_that_makes_the_flow_too_high_for_the_crew_is_said(live):
    row = next(row for row in used(live.estimate()) if row.gauge_flow > row.flow * 1.002)
    crew = live.estimate().row("film", row.no).crew_at - 1
    between = live.units.to_cell((row.flow + row.gauge_flow) / 2, "flow")
    with live.changed(("crews", "flow_max", crew, between), ("coats", "nozzle", row.no - 1, row.nozzle)):
        assert live.differences() == []
        again = live.estimate().row("picks", row.no)
    assert again.fits and again.reason.endswith("; so set, the flow is too high for the crew")
    assert "so set" not in row.reason


def test_the_hand_is_told_as_seconds_for_eight_feet_to_the_half(live):
    for row in used(live.estimate()):
        assert abs(row.stroke_time - 8 * FOOT / row.gauge_speed) <= 0.25 + 1e-6 and row.stroke_time % 0.5 == 0
        assert row.stroke_first >= row.stroke_time  # a first coat that soaks in goes slower


def test_an_own_choice_that_does_not_fit_says_so_and_why(live):
    row = used(live.estimate())[0]
    count = live.capacity["nozzles"]
    tried = live.estimate().rows["trials"][(row.no - 1) * count : row.no * count]
    bad = next(one for one in tried if one.against)
    name = live.estimate().row("nozzles", bad.size_at).known
    with live.changed(("coats", "nozzle", row.no - 1, name)):
        assert live.differences() == []
        again = live.estimate().row("picks", row.no)
    assert again.reason.startswith("your choice on Paint") and again.reason.endswith(
        f"; it does not fit: {verdict(bad.against)}"
    )
    assert again.rival == row.pick  # the pick is what it is held against


def test_sizes_that_fit_come_first_by_cost_then_the_others_with_their_reason(live):
    rows = [row for row in live.estimate().rows["ranking"] if row.size_at]
    fitting = [row.cost for row in rows if row.first_at]
    assert 0 < len(fitting) < len(rows) == sum(bool(row.known) for row in live.estimate().rows["nozzles"])
    assert fitting == sorted(fitting) and [bool(row.first_at) for row in rows] == sorted(
        (bool(row.first_at) for row in rows), reverse=True
    )
    assert all((row.verdict == "fits") == bool(row.first_at) for row in rows)
    assert sum(row.compared == "used" for row in rows) == 1


def test_kit_and_what_is_bought_less_what_is_worn_is_what_is_left(live):
    """To the eye, in the tenths that stand there; only sizes that the job uses or the kit holds, most worn first."""
    estimate = live.estimate()
    rows = [row for row in estimate.rows["wear_list"] if row.nozzle]
    held = {row["nozzle"] for row in live.values["kit"] if row["nozzle"]}
    sprayed = {row.nozzle for row in used(estimate) if estimate.row("film", row.no).only == 0}
    assert {row.nozzle for row in rows} == sprayed | held
    for row in rows:
        assert row.left == pytest.approx(max(0, row.kit + row.buy - row.lives))
        assert row.bar.count("■") == min(20, round(row.lives * 10)) and len(row.bar) >= 10
    worn = [row.lives for row in rows]
    total = estimate.rows["wear_total"][0]
    assert worn == sorted(worn, reverse=True) and total.lives == pytest.approx(sum(worn))
    assert total.buy == sum(row.buy for row in rows)


def test_where_nothing_is_measured_the_sheets_say_what_to_do(books):
    rows = books["blank"].estimate.rows
    words = "type lines on Takeoff"
    for text in (rows["pick_list"][0].what, rows["chosen"][0].shown, rows["traced"][0].shown,
                 rows["wear_total"][0].says, rows["card_page"][0].heading):  # fmt: skip
        assert words in text
    assert not any(row.part for row in rows["pick_list"]) and rows["wear_total"][0].nozzle is None


def test_the_parts_of_the_price_that_trace_tells_and_the_tasks_make_the_whole_of_it(books):
    """Proportional: what the coats cost directly, over all direct cost, is their part of the price."""
    from builder.stages.estimate import Estimate

    book = books["small boathouse"]
    price, cost = book.estimate.rows["price"][0], book.estimate.rows["cost"][0]
    parts = []
    for use in book.estimate.rows["in_use"]:
        if use.coat_at and book.estimate.row("film", use.coat_at).only == 0:
            seen = Estimate(book.opened.values, book.opened.units, book.estimate.capacity, {"traced": use.label})
            parts.append(seen.rows["path"][0].part)
    fill = cost.paint - sum(
        row.cost * row.coats_need / row.total
        for row in book.estimate.rows["purchases"]
        if row.live and row.scenario == 1
    )
    rest = cost.task_material + cost.sundries + cost.task_wages + cost.rental + cost.tax
    rest += cost.travel_wages + cost.travel
    assert fill > 0 and sum(parts) == pytest.approx(price.total * (cost.direct - rest) / cost.direct)
