"""What must hold whatever the figures: doubling, monotone prices, order, alternates, both unit systems."""
import copy

import pytest
from conftest import ROOT

from builder.estimate.estimate import Estimate
from builder.jobs import open_job
from builder.trade import spray


@pytest.fixture(scope="module")
def boathouse():
    return open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"])


def again(opened, change):
    """The estimate of a job after `change(values)`."""
    values = copy.deepcopy(opened.values)
    change(values)
    return Estimate(values, opened.units, opened.estimate.capacity)


def net(estimate, scenario=1):
    return estimate.rows["price"][scenario - 1].net


def needs(estimate):
    return [row.need for row in estimate.rows["gallons"] if row.live]


def test_twice_the_area_needs_twice_the_coating(boathouse):
    def twice(values):
        values["openings"] = []
    def doubled(values):
        twice(values)
        for line in values["takeoff"]:
            line["count"] = 2 * (line["count"] or 1.0)
    one, two = again(boathouse, twice), again(boathouse, doubled)
    assert needs(two) == pytest.approx([2 * need for need in needs(one)], rel=1e-9)


def test_us_and_metric_builds_of_one_job_agree(boathouse):
    """Inputs settle at 15 digits of each system's own units, so quantities agree to 1e-9 and counts exactly."""
    metric = open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"], "metric").estimate
    us = boathouse.estimate
    assert needs(metric) == pytest.approx(needs(us), rel=1e-9)
    assert [row.nozzle for row in metric.rows["picks"]] == [row.nozzle for row in us.rows["picks"]]
    assert [row.buy for row in metric.rows["sizes"]] == [row.buy for row in us.rows["sizes"]]
    metric_packs, us_packs = ([(row.small, row.middle, row.large) for row in one.rows["purchases"]] for one in (metric, us))
    assert metric_packs == us_packs
    assert net(metric) == net(us) and metric.rows["days"][0].days == us.rows["days"][0].days


def test_a_worn_nozzle_never_throws_less(boathouse):
    worn = boathouse.estimate.terms.worn_orifice
    for size in boathouse.estimate.rows["nozzles"]:
        if size.ready:
            assert spray.flow(0.8, size.orifice * worn, 15e6, 1200) >= spray.flow(0.8, size.orifice, 15e6, 1200)


COSTS = [("crews", "wage"), ("coatings", "pack1_price"), ("coatings", "pack2_price"), ("nozzles", "nozzle_price"), ("reaches", "hire"),
         ("terms", "sundries"), ("terms", "burden"), ("terms", "overhead"), ("terms", "purchase_tax"), ("terms", "margin"), ("terms", "minimum")]


@pytest.mark.parametrize("block, key", COSTS)
@pytest.mark.parametrize("factor", [1.05, 1.4])
def test_the_price_never_falls_when_a_cost_rises(boathouse, block, key, factor):
    """Own nozzles are fixed, so that no other pick answers the change."""
    nozzles = [row.nozzle for row in boathouse.estimate.rows["picks"]]
    def fixed(values):
        for coat, nozzle in zip(values["coats"], nozzles):
            coat["nozzle"] = nozzle
    def dearer(values):
        fixed(values)
        for row in values[block]:
            if row.get(key) is not None:
                row[key] *= factor
    assert net(again(boathouse, dearer)) >= net(again(boathouse, fixed))


def test_the_order_of_takeoff_lines_changes_only_order(boathouse):
    turned = again(boathouse, lambda values: values["takeoff"].reverse())
    assert needs(turned) == pytest.approx(needs(boathouse.estimate), rel=1e-9) and net(turned) == net(boathouse.estimate)


def test_a_nozzle_that_does_not_fit_changes_no_pick(boathouse):
    def add(values):
        values["nozzles"].append(dict(values["nozzles"][0], size="1299"))       # 99 thou: too large for every coating
    assert [row.pick for row in again(boathouse, add).rows["picks"]] == [row.pick for row in boathouse.estimate.rows["picks"]]


def test_alternates_add_up(boathouse):
    """An alternate's price is the difference to the base; each is priced against the base alone."""
    def second(values):
        next(row for row in values["systems"] if row["name"] == "Railings")["alternate"] = "B"
    def without(name):
        def change(values):
            second(values)
            values["systems"] = [row for row in values["systems"] if row["name"] != name]
            for block in ("coats", "takeoff", "tasks"):
                values[block] = [row for row in values[block] if row["system"] != name]
            tags = {row["tag"] for row in values["takeoff"]}
            values["openings"] = [row for row in values["openings"] if row["line"] in tags]
        return change
    both = again(boathouse, second)
    assert [both.rows["price"][at].difference for at in (1, 2)] == pytest.approx([net(both, scenario) - net(both) for scenario in (2, 3)])
    for name, scenario in (("Club room", 2), ("Railings", 3)):
        gone = again(boathouse, without(name))
        assert net(gone) == net(both)
        other = 5 - scenario
        assert net(gone, other) == net(both, other)
