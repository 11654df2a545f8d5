"""What painters know, as bounds on named systems with the shipped catalogs. All of it: common practice, no source."""

import re

import pytest
from support.places import ROOT

from builder.jobs import open_job
from builder.quantities import scale
from builder.stages.estimate import Estimate

FOOT, INCH, THOU, GALLON, PSI, HOUR = (scale(unit) for unit in ("ft", "in", "thou", "gal", "psi", "h"))


@pytest.fixture(scope="module")
def facts():
    opened = open_job(ROOT / "tests/data/facts.yaml", [ROOT / "catalogs"])
    assert not opened.problems
    return opened.estimate


def tried(facts, system):
    """Every size tried on the one coat of a system, as (fan in inches, orifice in thou, row)."""
    coat = next(row for row in facts.rows["film"] if row.system == system)
    rows = [row for row in facts.rows["trials"] if row.coat == coat.no and row.cost]
    return [
        (facts.row("nozzles", row.size_at).fan / INCH, facts.row("nozzles", row.size_at).orifice / THOU, row)
        for row in rows
    ]


@pytest.mark.parametrize("size, fan, orifice", [("310", 6, 10), ("1223", 24, 23), ("515", 10, 15)])
def test_a_size_says_fan_and_orifice(facts, size, fan, orifice):
    row = next(row for row in facts.rows["nozzles"] if row.size == size)
    assert (row.fan / INCH, row.orifice / THOU) == (pytest.approx(fan), pytest.approx(orifice))


@pytest.mark.parametrize(
    "system, psi, fan, orifices",
    [
        ("Inside trim", 2900, 6, (10,)),
        ("Doors in volume", 2900, 10, (10,)),
        ("Boards", 2200, 10, (15,)),
        ("Boards heavy", None, 12, (21,)),
        ("Occupied walls", None, 12, (19,)),
        ("Bare walls", None, 24, (21, 23)),
    ],
)
def test_the_usual_size_fits_and_is_among_the_cheapest(facts, system, psi, fan, orifices):
    coat = next(row for row in facts.rows["film"] if row.system == system)
    assert psi is None or coat.pressure / PSI == pytest.approx(psi, rel=0.05)
    rows = tried(facts, system)
    cheapest = min(row.cost for _, _, row in rows if row.against == 0)
    usual = [
        row for width, orifice, row in rows if round(width) == fan and round(orifice) in orifices and row.against == 0
    ]
    assert usual, "the usual size does not fit"
    assert min(row.cost for row in usual) <= 1.05 * cheapest
    assert any(1 <= row.gun_speed / FOOT <= 3.5 for row in usual)


def test_a_learner_is_kept_to_about_15_thou_outside(facts):
    rows = tried(facts, "Boards by a learner")
    assert any(round(orifice) == 15 and round(fan) == 10 and row.against == 0 for fan, orifice, row in rows)
    assert all(orifice < 16.5 for _, orifice, row in rows if row.against == 0)


def test_block_filler_takes_27_thou_and_more_and_a_pump_that_feeds_it(facts):
    rows = tried(facts, "Block")
    assert any(row.against == 0 for _, _, row in rows)
    assert all(orifice >= 26.5 for _, orifice, row in rows if row.against == 0)
    cheapest = min(row.cost for _, _, row in rows if row.against == 0)
    assert any(
        row.against == 0 and row.cost <= 1.05 * cheapest and 1 <= row.gun_speed / FOOT <= 3.5
        for _, orifice, row in rows
    )


def test_a_larger_orifice_never_costs_more_at_the_trigger_nor_wears_out_sooner(facts):
    for coat in facts.rows["film"]:
        if not coat.sprayed:
            continue
        by_family = {}
        for row in (row for row in facts.rows["trials"] if row.coat == coat.no and row.cost):
            size = facts.row("nozzles", row.size_at)
            by_family.setdefault((size.family, size.fan), []).append((size.orifice, row.material / row.flow, row.life))
        for rows in by_family.values():
            rows.sort()
            for (_, time, life), (_, larger_time, larger_life) in zip(rows, rows[1:]):
                assert larger_time <= time and larger_life >= life


def test_a_15_thou_nozzle_lives_40_to_50_gallons_in_premium_outside_acrylic(facts):
    lives = [
        row.life / GALLON
        for fan, orifice, row in tried(facts, "Boards")
        if round(orifice) == 15 and facts.row("nozzles", row.size_at).family == "standard"
    ]
    assert lives and all(40 <= life <= 50 for life in lives)
    pick = next(row for row in facts.rows["picks"] if row.system == "Boards")
    assert re.fullmatch(r"after \d+ gal; worn out at \d+ gal", pick.change_words) and pick.interval < pick.life


@pytest.mark.parametrize(
    "system, least, most",
    [("Boards", 400, 900), ("Bare walls", 1000, 2000), ("Doors in volume", 250, 400), ("Inside trim", 100, 250)],
)
def test_area_an_hour_of_one_coat_with_one_gun(facts, system, least, most):
    row = next(row for row in facts.rows["hours"] if row.system == system)
    assert least <= row.pace * HOUR / FOOT**2 <= most


def test_every_shipped_size_fits_some_coating_on_some_surface_and_no_family_keeps_to_odd_or_even():
    """A rule of the catalog, not of the trade: sizes are chosen by what coatings and surfaces ask for. With the largest
    pump and hands.
    """
    opened = open_job(ROOT / "tests/data/facts.yaml", [ROOT / "catalogs"])
    surfaces, coatings = ([row["name"] for row in opened.values[block]] for block in ("surfaces", "coatings"))
    pairs = [(surface, coating) for surface in surfaces for coating in coatings]
    fitting, room = set(), opened.estimate.capacity["systems"]
    for first in range(0, len(pairs), room):
        tried = list(enumerate(pairs[first : first + room]))
        alike = {"pump": "Large gas", "crew": "seasoned", "finish": "plain"}
        values = dict(
            opened.values,
            openings=[],
            tasks=[],
            kit=[],
            systems=[{"name": f"S{no}", "surface": surface, **alike} for no, (surface, _) in tried],
            coats=[{"system": f"S{no}", "coating": coating, "coats": 1.0} for no, (_, coating) in tried],
            takeoff=[{"system": f"S{no}", "length": 10.0, "height": 3.0} for no, _ in tried],
        )
        estimate = Estimate(values, opened.units, opened.estimate.capacity)
        fits = {row.size_at for row in estimate.rows["trials"] if row.against == 0}
        fitting |= {row.known for row in estimate.rows["nozzles"] if row.no in fits}
    shipped = [row for row in opened.estimate.rows["nozzles"] if row.known]
    assert {row.known for row in shipped} == fitting and len(shipped) <= opened.estimate.capacity["nozzles"] - 3
    kinds = {(row.family, round(row.orifice / THOU) % 2) for row in shipped}
    assert kinds == {(row.family, odd) for row in shipped for odd in (0, 1)}
