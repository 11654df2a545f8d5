"""Figures from outside the project, at their printed precision.

Each table is rows of (what goes in, the figure printed, half a unit of its last digit or what the source itself allows,
source). A source begins with a letter. P: its own text was read; S: a secondary page restates it; M: from memory, not
read; D: derived from exact definitions; C: common practice, no source. No figure here ever came from this project's own
output, and units are converted by literals, not by its own table.
"""

import copy
from math import exp, pi

import pytest
from support.places import ROOT

from builder.jobs import open_job
from builder.quantities import Units
from builder.records.lookups import BESIDE
from builder.records.sources import SOURCES
from builder.records.words import WORDS
from builder.stages.constants import WATER_DENSITY, shown_constants
from builder.stages.estimate import Estimate
from builder.trade import emission, film, labor, price, risk, spray, takeoff, wear, weather
from builder.values import day

INCH, FOOT, PSI, POUND = 0.0254, 0.3048, 6894.757293168361, 0.45359237
GALLON = 231 * INCH**3  # NIST Handbook 44 appendix C (P)
MIL, GPM, FT2, HOUR = INCH / 1000, GALLON / 60, FOOT**2, 3600
WATER = 998.2067  # kg/m3 at 20 C (M)
FIRE_WATER = 62.4 * POUND / FOOT**3  # water as handbooks of fire protection take it (S)
KINDS_OF_SOURCE = {"P": "published", "S": "restated", "M": "from memory", "D": "derived", "C": "common practice"}


def figures(names, *rows):
    """Parametrize a test by rows of arguments, `printed` and `within`; the last item, the source, names the case."""
    for row in rows:
        assert row[-1].split()[0] in KINDS_OF_SOURCE, row
    named = [f"{row[-1]}: {', '.join(getattr(one, '__name__', str(one)) for one in row[:-2])}" for row in rows]
    return pytest.mark.parametrize(f"{names}, printed, within", [row[:-1] for row in rows], ids=named)


def close(found, printed, within):
    """The comparison of every table; a figure on the very edge of rounding is let through."""
    assert found == pytest.approx(printed, abs=within * (1 + 1e-9) + abs(printed) * 1e-12, rel=0)


@pytest.fixture(scope="module")
def opened():
    return open_job(None, [ROOT / "catalogs"])


@pytest.fixture(scope="module")
def shipped(opened):
    return opened.estimate


def estimate(opened, job=(), **blocks):
    """The estimate of the blank book's job with facts and blocks replaced."""
    values = copy.deepcopy(opened.values)
    values["job"][0].update(job)
    return Estimate(values | blocks, opened.units, opened.estimate.capacity)


# ---- film
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "solids, dry, unit",
    (0.65, 5 * MIL, FT2 / GALLON, 208.5, 0.05, "D gallon of 231 in3"),
    (0.65, 125e-6, 1000, 5.20, 0.005, "D litre of 1000 cm3"),
    (1.0, MIL, FT2 / GALLON, 1604.1667, 0.00005, "D 231/144*1000"),
)
def test_theoretical_spread(solids, dry, unit, printed, within):
    close(film.theoretical_spread(dry, solids) / unit, printed, within)


@figures("system", ("us", 1604.1667, 0.00005, "D 231/144*1000 mil*ft2/gal"), ("metric", 1000, 1e-9, "D um*m2/L"))
def test_coverage_constant_of_a_book(system, printed, within):
    close(shown_constants(Units(system), 50)["cover"], printed, within)


@figures(
    "spread",
    (105, 15.28, 0.005, "D on UFGS 02761N 3.2.1 (P)"),
    (50, 32.08, 0.005, "D on UFGS 02761N 3.2.1 (P)"),
    (400, 4.01, 0.005, "D gallon of 231 in3"),
)
def test_wet_film_of_a_spread(spread, printed, within):
    close(film.wet_film_of_spread(spread * FT2 / GALLON, 0) / MIL, printed, within)


@figures(
    "spread",
    ("105 ft2/gal", 2.5, 0.10, "P UFGS 02761N 3.2.1, 105 +/- 5 ft2/gal is 2.5 +/- 0.10 m2/L"),
    ("250 ft2/gal", 6.13, 0.0057, "P UFGS 02761N, which cuts 6.1356 off where rounding gives 6.14"),
    ("1 ft2/gal", 0.0245424, 5e-8, "D"),
)
def test_coverage_in_both_systems(spread, printed, within):
    """The product's own conversion: text of a file in one system, cell of a book in the other."""
    close(Units("metric").to_cell(Units("us").parse(spread, "spread"), "spread"), printed, within)


@figures(
    "dry, solids, thinning",
    (2.80, 0.35, 0, 8.0, 0.005 / 0.35, "P MIL-HDBK-1110 procedure 13, 8 mil wet at 35 % dries to 2.80"),
    (2.8, 0.35, 0.10, 8.80, 0.005, "D on ASTM D4414-95(2020) 4.2 (P)"),
    (2.0, 0.40, 0.10, 5.50, 0.005, "D on ASTM D4414-95(2020) 4.2 (P)"),
    (5.0, 0.65, 0.15, 8.846, 0.0005, "D on ASTM D4414-95(2020) 4.2 (P)"),
)
def test_wet_film(dry, solids, thinning, printed, within):
    close(film.wet_film(dry * MIL, solids, thinning) / MIL, printed, within)


@figures(
    "function, arguments",
    (
        film.wet_film_of_spread,
        (150 * FT2 / GALLON * MIL, 0.10),
        11.764,
        5e-4,
        "D mil: 1604.1667 / 150 and a tenth more of thinner",
    ),
    (film.mean_uptake, (1.2, 2), 1.1, 1e-12, "D 1.2 for the first coat of two, 1 for the second"),
    (film.loss, (0.20, 0.9, 1.15), 0.207, 1e-12, "D 20 %, a tenth less, 15 % more"),
    (film.lap, (10, 0.4), 6, 1e-12, "D a 10-in fan, 40 % of it on the pass before"),
    (film.step, (10, 8, 5), 10, 0, "D a board of 8 in under a fan of 10 takes one pass"),
    (film.step, (10, 10, 5), 10, 0, "D and so does one of 10 in"),
    (film.step, (10, 10.001, 5), 5, 0, "D a wider face takes several"),
    (film.step, (10, 10.001, 5, 0.01), 10, 0, "D but for the slack"),
    (film.miss, (0.4, 36, 40), 0.64, 1e-12, "D railings, two fifths solid, 36 of 40 in swept: 14.4 of 40 hit"),
    (
        film.material,
        (9, 1.2, 0.25, 0.20),
        18,
        1e-12,
        "D 10.8 wet, three quarters not lost, four fifths on the face: .6 lands",
    ),
    (film.paint, (1.1, 0.10), 1.0, 1e-12, "D 1.1 L holds a litre of paint and a tenth of thinner"),
    (film.thinned_density, (1200, 0.25, 800), 1120, 1e-9, "D a litre of 1.2 kg and a quarter of .8: 1.4 kg in 1.25 L"),
)
def test_films_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


# ---- flow
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "orifice",
    *(
        (
            orifice,
            flow,
            0.003 * flow,
            "S NFPA 291, 29.84 c d2 sqrt(P), +/- 0.3 %; c = .62 Encyclopaedia Britannica 11th ed., Hydraulics 17 (P)",
        )
        for orifice, flow in ((0.013, 0.1398), (0.015, 0.1862), (0.017, 0.2391), (0.021, 0.3649))
    ),
)
def test_orifice_law(orifice, printed, within):
    close(spray.flow(0.62, orifice * INCH, 2000 * PSI, WATER) / GPM, printed, within)


@figures(
    "c, orifice, pressure",
    (1.0, 1.0, 1, 29.83, 0.005, "S pages on fire flow tests, Q = 29.83 c d2 sqrt(P)"),
    (0.90, 2.5, 40, 1061, 0.5, "S a worked hydrant test with NFPA 291's c = .9"),
)
def test_flow_of_hydrants(c, orifice, pressure, printed, within):
    close(spray.flow(c, orifice * INCH, pressure * PSI, FIRE_WATER) / GPM, printed, within)


@figures(
    "orifice",
    *(
        (orifice, flow, 0.005, "M common practice, water at 2000 psi")
        for orifice, flow in ((0.013, 0.18), (0.015, 0.24), (0.017, 0.31), (0.021, 0.47), (0.025, 0.67), (0.031, 1.03))
    ),
    *(
        (orifice, flow, 0.01, "M common practice, no one coefficient fits all nine to two figures: within .01")
        for orifice, flow in ((0.019, 0.38), (0.023, 0.57), (0.027, 0.77))
    ),
)
def test_water_flow_of_airless_nozzles(shipped, orifice, printed, within):
    """What the coefficient of the shipped terms stands for."""
    close(spray.flow(shipped.terms.cd, orifice * INCH, 2000 * PSI, WATER) / GPM, printed, within)


@figures(
    "density",
    *(
        (density, factor, 0.005, "P Nebraska CropWatch 2016, Georgia Extension; water 8.34 lb/gal there")
        for density, factor in ((10, 1.10), (10.65, 1.13), (11, 1.15), (12, 1.20))
    ),
)
def test_flow_falls_with_density(density, printed, within):
    water, heavy = (spray.flow(0.8, 15 * MIL, 2000 * PSI, one * POUND / GALLON) for one in (8.34, density))
    close(water / heavy, printed, within)


@figures(
    "before, after",
    (1000, 2000, 1.41421, 5e-6, "S NFPA 291"),
    (2200, 1100, 0.707, 5e-4, "D"),
    (20, 80, 2, 1e-12, "M sprayer guides, four times the pressure for twice the flow"),
)
def test_flow_follows_the_root_of_pressure(before, after, printed, within):
    one, other = (spray.flow(0.62, 15 * MIL, pressure * PSI, WATER) for pressure in (before, after))
    close(other / one, printed, within)


@figures("orifice", (15, 0.213, 5e-4, "D 10.6 lb/gal, 2000 psi, c = .80"))
def test_flow_of_paint(orifice, printed, within):
    flow = spray.flow(0.80, orifice * MIL, 2000 * PSI, 10.6 * POUND / GALLON) / GPM
    close(flow, printed, within)
    close(5 / flow, 23.5, 0.05)  # D: minutes of trigger in a 5-gal pail


def test_another_fan_leaves_the_flow_alone(shipped):
    """P: MIL-HDBK-1110 p. 123, the same orifice at another fan gives the same flow."""
    by_orifice = {}
    for row in (
        row for row in shipped.rows["trials"] if row.live and row.coat == 2 and row.nozzle.startswith("standard")
    ):
        size = shipped.row("nozzles", row.size_at)
        by_orifice.setdefault(size.orifice, {})[size.fan] = row.flow
    assert max(map(len, by_orifice.values())) >= 3
    assert all(len(set(flows.values())) == 1 for flows in by_orifice.values())


def test_airless_practice(shipped):
    """P: MIL-HDBK-1110 7.5.4.2, 1000 to 3000 psi; 9.6.8.1, each pass half over the one before. Stains and sealers that
    soak in are no film.
    """
    assert shipped.terms.overlap == 0.5
    films = [row.pressure / PSI for row in shipped.rows["coatings"] if row.sound and row.volume_solids]
    assert len(films) > 10 and all(1000 <= pressure <= 3000 for pressure in films)


# ---- hose
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "length, bore, unit",
    (50, 1 / 4, GALLON, 0.1275, 5e-5, "D gal in 50 ft of hose"),
    (50, 3 / 8, GALLON, 0.287, 5e-4, "D gal in 50 ft of hose"),
    (1, 12 * (4 / pi) ** 0.5, GALLON, 7.481, 5e-4, "P NIST Handbook 44 appendix C, gallons in a cubic foot"),
    (
        11.31,
        4.026,
        FOOT**3,
        1,
        0.0005,
        "P US standard pipe, Hawkins, Self-Help Mechanical Drawing, 11.31 ft of 4-in pipe hold a cubic foot",
    ),
    (
        4.98,
        6.065,
        FOOT**3,
        1,
        0.001,
        "P US standard pipe, Hawkins, Self-Help Mechanical Drawing, 4.98 ft of 6-in pipe hold a cubic foot",
    ),
)
def test_what_a_hose_holds(length, bore, unit, printed, within):
    close(spray.hose_volume(length * FOOT, bore * INCH) / unit, printed, within)


@figures(
    "bore",
    (1 / 4, 874, 0.5, "D Hagen-Poiseuille, 100 ft, 250 cP, .5 gal/min"),
    (3 / 8, 173, 0.5, "D Hagen-Poiseuille, 100 ft, 250 cP, .5 gal/min"),
)
def test_what_a_hose_loses(bore, printed, within):
    close(spray.resistance(0.25, 1, spray.hose_run(100 * FOOT, bore * INCH)) * 0.5 * GPM / PSI, printed, within)


@figures(
    "viscosity, length, bore, loss",
    (
        0.18,
        10,
        0.06,
        4.9 * 900 * 9.807,
        0.0076,
        0.00005,
        "M White, Fluid Mechanics, ch. 6: oil in an inclined pipe, head loss 4.9 m",
    ),
    (0.1, 300, 0.05, 68.43e4, 0.0035, 0.000005, "M Bansal, Fluid Mechanics, ch. on viscous flow: 68.43 N/cm2"),
)
def test_laminar_flow_of_textbooks(viscosity, length, bore, loss, printed, within):
    close(loss / spray.resistance(viscosity, 1, spray.hose_run(length, bore)), printed, within)


@figures(
    "density, flow, bore, viscosity",
    (900, 0.0076, 0.06, 0.18, 810, 5, "M White, Fluid Mechanics, ch. 6, the same oil"),
    (900, 0.0035, 0.05, 0.1, 802, 0.5, "M Bansal, Fluid Mechanics, the same oil"),
)
def test_reynolds_number_of_textbooks(density, flow, bore, viscosity, printed, within):
    close(spray.reynolds(density, flow, bore, viscosity), printed, within)


def test_laminar_below_2000(shipped):
    """M: any text on fluid mechanics, flow in a pipe is laminar below a Reynolds number of about 2000."""
    assert shipped.terms.reynolds_max == 2000


# ---- wear
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "before, after",
    (17, 21, 1.526, 5e-4, "D"),
    (17, 21, 1.53, 0.005, "D flow and film +53 %"),
    (15, 17, 1.28, 0.005, "C flow grown by 28 % is worn"),
    (1.0, 1.0488, 1.10, 1.1e-4, "P USGA Green Section 2016, 10 % more flow is worn: within what 1.0488 is rounded to"),
)
def test_flow_grows_with_the_area_of_the_orifice(before, after, printed, within):
    new, worn = (spray.flow(0.8, orifice * MIL, 2000 * PSI, WATER) for orifice in (before, after))
    close(worn / new, printed, within)
    # at one speed of hand, the film grows so
    close(spray.gun_speed(worn, 0, MIL, INCH) / spray.gun_speed(new, 0, MIL, INCH), printed, within)
    close(wear.worn_by_flow(printed, 1.0, after / before), 1, within / (printed - 1))


@figures(
    "new, worn",
    (12, 9, 1, 1e-12, "C a fan a quarter narrower is worn"),
    (10, 7.5, 1, 1e-12, "C a fan a quarter narrower is worn"),
)
def test_a_fan_a_quarter_narrower_is_worn(shipped, new, worn, printed, within):
    close(wear.worn_by_fan(worn * INCH, new * INCH, shipped.terms.worn_fan), printed, within)


@figures(
    "setup, demand, holding",
    (8, 1300, 0.225, 304.0, 0.05, "S Snyder and Shen, Fundamentals of Supply Chain Theory, example 3.1: 304.0"),
    (20, 50000, 0.25, 2828, 0.5, "S an exercise on order quantities, fasteners"),
    (100, 1200, 1.5, 400, 0.5, "S an exercise on order quantities"),
    (12, 3120, 0.005, 3870, 0.5, "M Nahmias, Production and Operations Analysis, example 4.1, pencils"),
)
def test_least_cost_interval_is_an_economic_order_quantity(setup, demand, holding, printed, within):
    """A change of nozzle is an order, what is wasted at the end of life over that life is the cost of holding; life is
    taken long.
    """
    close(wear.interval(10 * demand, setup, 10 * holding), printed, within)


@figures(
    "function, arguments",
    (wear.endurance, (45, 45, 15, 2200), 891000, 1e-6, "D three times the orifice, nine times the life, at 2200 psi"),
    (wear.life, (99000, 1100, 3), 30, 1e-9, "D half the pressure, a paint three times as rough"),
    (wear.worn_by_volume, (18, 45), 0.4, 1e-12, "D 18 of 45 gal"),
    (wear.worn_by_fan, (13, 12, 0.75), 0, 0, "D wider than new is not worn"),
    (wear.worn_by_flow, (0.9, 1.0, 1.1), 0, 0, "D less than new is not worn"),
    (
        wear.waste_rate,
        (0.05, 44, 0.10, 0.10, 30, 12),
        2.25,
        1e-12,
        "D 5 % of a gallon that is a tenth thinner, 10 % of its time: 2 and .25",
    ),
    (wear.interval, (45, 40, 0), 45, 0, "D nothing wasted, used until worn out"),
    (
        wear.cost,
        (2, 0.1, 5, 3, 4, 2.5, 40, 10),
        34,
        1e-12,
        "D 11 of paint, 12 of wages, 2.75 of the 10 that a change for 40 serves",
    ),
)
def test_wear_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


# ---- hand
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "width",
    (12, 119.5, 0.05, "D .18616 gal/min, 6 mil wet, 10-in fan, half overlapped: ft/min"),
    (5, 49.77, 0.005, "D the same, ft2/min: a lap of 5 in"),
)
def test_travel_speed(width, printed, within):
    speed = spray.gun_speed(0.18616 * GPM, 0, 6 * MIL, film.lap(10 * INCH, 0.5))
    close(speed * width * INCH * 60 / FT2, printed, within)


@figures(
    "function, arguments",
    (spray.gun_speed, (3, 0.2, 0.01, 40), 6, 1e-12, "D 2.4 of 3 lands, .4 a length"),
    (spray.gun_time, (0.02, 0.5, 0.01, 1.5, 4), 9, 1e-12, "D .03 at .01 a second, and 4 s on half as much again"),
    (spray.elapsed, (7, 2, 3), 3.5, 1e-12, "D two guns take half the time"),
    (spray.elapsed, (7, 2, 5), 5, 1e-12, "D unless the roller behind is slower"),
    (
        spray.set_pressure,
        (2200, 800, 0.25),
        2400,
        1e-9,
        "D 800 psi lost for a gallon a minute, a quarter of it flowing",
    ),
)
def test_hands_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


# ---- areas
# --------------------------------------------------------------------------------------------------------------------


@figures("width, height", (3, 7, 20, 0, "D a door of 3 x 7 ft"))
def test_edge_of_an_opening(width, height, printed, within):
    close(takeoff.opening_perimeter(width, height), printed, within)


@figures(
    "size",
    (0.5, 0, 0, "P IS 1200-13:1994 cl. 3.2, up to 0.5 m2 none"),
    (0.51, 1 / 2, 0, "P IS 1200-13:1994 cl. 3.2, up to 3 m2 one face of two"),
    (3.0, 1 / 2, 0, "P IS 1200-13:1994 cl. 3.2, up to 3 m2 one face of two"),
    (3.01, 1, 0, "P IS 1200-13:1994 cl. 3.2, above 3 m2 both"),
)
def test_share_of_an_opening(size, printed, within):
    close(takeoff.opening_share(size, 0.5, 3.0, 2), printed, within)


@figures(
    "width, height",
    *(
        (width, height, area, 1e-9, "D on IS 1200-13:1994 cl. 3.2 (P), a wall of 10 x 3 m, both faces")
        for width, height, area in ((0.5, 1.0, 60), (1.0, 2.0, 58), (1.5, 2.0, 57), (2.0, 2.0, 52))
    ),
)
def test_openings_in_a_wall(opened, width, height, printed, within):
    made = estimate(
        opened,
        {"opening_none": 0.5, "opening_both": 3.0},
        takeoff=[{"tag": "W", "system": "Block", "length": 10.0, "height": 3.0, "sides": 2.0}],
        openings=[{"line": "W", "width": width, "height": height}],
    )
    close(made.rows["areas"][0].coated, printed, within)


TABLE_1 = "S IS 1200-15:1987 table 1, four copies agree"
ALL_OVER = "S IS 1200-15:1987 for what is painted all over"
PROFILES = (
    ("Panelled door", 1.30, 2, TABLE_1),
    ("Ledged and battened door", 1.30, 2, TABLE_1),
    ("Flush door", 1.20, 2, TABLE_1),
    ("Weather boarding", 1.20, 2, TABLE_1),
    ("Glazed timber", 0.80, 2, TABLE_1),
    ("Louvered", 1.80, 2, TABLE_1),
    ("Carved", 2.00, 2, TABLE_1),
    ("Match boarding", 1.05, 2, TABLE_1),
    ("Plain sheet steel door", 1.10, 2, TABLE_1),
    ("Glazed steel", 0.50, 2, TABLE_1),
    ("Corrugated steel door", 1.25, 2, TABLE_1),
    ("Trellis", 2.00, 1, ALL_OVER),
    ("Collapsible gate", 1.50, 1, ALL_OVER),
    ("Tile battening", 0.80, 1, ALL_OVER),
    ("Railings and grilles", 1.00, 1, ALL_OVER),
    ("Corrugated steel sheet", 1.14, 2, "P IS 1200-13:1994 cl. 3.4"),
    ("Corrugated cement sheet", 1.20, 2, "P IS 1200-13:1994 cl. 3.4"),
    ("Semi-corrugated cement sheet", 1.10, 2, "P IS 1200-13:1994 cl. 3.4"),
    ("Lap boards", 10 / 9, 2, "P Radford, volume 10, 1909, a ninth more"),
)


@pytest.fixture(scope="module")
def faces(opened):
    """Profile -> measured area of one square metre with both sides."""
    lines = [{"system": "Block", "profile": name, "length": 1.0, "height": 1.0, "sides": 2.0} for name, *_ in PROFILES]
    return {line["profile"]: row.measured for line, row in zip(lines, estimate(opened, takeoff=lines).rows["areas"])}


@figures(
    "name, standard, covered",
    *(
        (name, " ".join(source.split()[1:3]), covered, coefficient, 1e-9, source)
        for name, coefficient, covered, source in PROFILES
    ),
)
def test_profile_coefficients(shipped, faces, name, standard, covered, printed, within):
    """The catalog's figure, the standard it names, and the faces that one flat area stands for."""
    profile = shipped.judge.find("profiles", name)
    close(profile.coefficient, printed, within)
    assert profile.standard.startswith(standard)
    close(faces[name], printed * covered, within)


def test_every_shipped_profile_is_held_to_its_standard(shipped):
    assert {row.name for row in shipped.rows["profiles"] if row.sound} == {name for name, *_ in PROFILES}


@figures(
    "profile, length, height, sides, unit",
    ("Panelled door", 3, 7, 1, FOOT, 27.3, 0.05, "S IS 1200-15, 3 x 7 ft"),
    ("Panelled door", 3, 7, 2, FOOT, 54.6, 0.05, "S IS 1200-15, 3 x 7 ft"),
    ("Panelled door", 0.9, 2.1, 2, 1, 4.914, 0.0005, "S IS 1200-15, .9 x 2.1 m"),
    ("Lap boards", 90, 10, 1, FOOT, 1000, 0.5, "P Radford, volume 10, 1909, 900 ft2 of lap boards"),
)
def test_worked_faces(shipped, profile, length, height, sides, unit, printed, within):
    gross = takeoff.gross(1, length * unit, height * unit)
    close(
        takeoff.measured(gross, 0, shipped.judge.find("profiles", profile).coefficient, sides) / unit**2,
        printed,
        within,
    )


@figures(
    "shape, length, height",
    ("rectangle", 48, 8, 384, 0.5, "D walls of a room 12 x 12 x 8 ft"),
    ("rectangle", 12, 12, 144, 0.5, "D its ceiling"),
    ("triangle", 24, 8, 96, 0.5, "D gable 24 wide 8 high"),
    ("rectangle", 120, 15, 1800, 0.5, "S a house 20 x 40 ft at 15 ft effective"),
    ("strip", 1, (2 * 12 + 4 * 6) / 12, 4.0, 0.05, "S steel sections, girth 2 webs and 4 flanges: I of 12 x 6 in"),
    ("cylinder", 1, 12 / 12, 3.14, 0.005, "P UFC 3-220-01A table B-1, ft2 outside a foot of pipe 12 in across"),
    ("cylinder", 1, 12.75 / 12, 3.34, 0.005, "P UFC 3-220-01A table B-1, ft2 outside a foot of pipe 12.75 in across"),
    *(
        (
            "cylinder",
            1,
            across,
            girth,
            0.0005,
            "P US standard pipe, Hawkins, Self-Help Mechanical Drawing, girth in inches",
        )
        for across, girth in (
            (2.375, 7.461),
            (3.5, 10.996),
            (4.5, 14.137),
            (6.625, 20.813),
            (8.625, 27.096),
            (10.75, 33.772),
        )
    ),
)
def test_areas(shape, length, height, printed, within):
    close(takeoff.gross(BESIDE["shape_factor"][WORDS["shape"].index(shape)], length, height), printed, within)


# ---- hours and days
# -----------------------------------------------------------------------------------------------------------


@figures(
    "rate",
    (150, 12, 0.5, "P Griffith, Carpentry, 1916, 1800 ft2 of first coat"),
    (90, 20, 0.5, "P Griffith, Carpentry, 1916, 1800 ft2 of second coat"),
)
def test_brush_labor(opened, rate, printed, within):
    boards = dict(opened.values["surfaces"][0], name="Boards", brush_rate=rate * FT2 / HOUR)
    made = estimate(
        opened,
        surfaces=[*opened.values["surfaces"], boards],
        systems=[{"name": "House", "surface": "Boards", "method": "brush"}],
        coats=[{"system": "House", "coating": "Exterior primer", "coats": 1.0, "face": "sealed"}],
        takeoff=[{"system": "House", "length": 120 * FOOT, "height": 15 * FOOT}],
    )
    close(made.rows["hours"][0].labor / HOUR, printed, within)


@figures(
    "function, arguments",
    (labor.steps_up, (21, 4, 1e-9), 24, 0, "D six steps of 4 h hold 21"),
    (labor.steps_up, (8, 4, 1e-9), 8, 0, "D two hold 8"),
    (labor.steps_up, (8 + 1e-10, 4, 1e-9), 8, 0, "D and what is as good as 8"),
    (labor.steps_up, (0, 4, 1e-9), 0, 0, "D nothing takes none"),
    (labor.useful_day, (2, 8, 1.5), 14.5, 1e-12, "D two people for 8 h, 1.5 h of setting up"),
    (labor.weather_days, (9, 0.1), 10, 1e-12, "D one day of ten is lost"),
)
def test_days_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


@figures(
    "start, days, off",
    ("2009-11-01", 20, ("2009-11-11", "2009-11-26"), "2009-12-01", 0, "P a spreadsheet program's manual of 2009"),
    ("2007-05-06", 30, ("2007-05-28",), "2007-06-18", 0, "P a spreadsheet course of 2003"),
    ("2008-10-01", 151, (), "2009-04-30", 0, "M a spreadsheet program's help on working days"),
    (
        "2008-10-01",
        151,
        ("2008-11-26", "2008-12-04", "2009-01-21"),
        "2009-05-05",
        0,
        "M a spreadsheet program's help on working days",
    ),
)
def test_working_days(start, days, off, printed, within):
    """The manuals count from the day after `start`."""
    close(labor.workday(day(start) + 1, days, set(map(day, off))), day(printed), within)


@figures("date", ("2008-01-01", 39448, 0, "M a spreadsheet program's help: day number 39448"))
def test_day_numbers(date, printed, within):
    close(day(date), printed, within)


# ---- weather
# ------------------------------------------------------------------------------------------------------------------


@figures(
    "celsius, humidity",
    *(
        (
            celsius,
            humidity,
            dew,
            0.03,
            "P ASHRAE 2017 as in the tests of a reference library; Magnus, WMO-No. 8 (S), holds within .03 C",
        )
        for celsius, humidity, dew in (
            (20, 0.50, 9.26),
            (25, 0.60, 16.69),
            (30, 0.70, 23.93),
            ((70 - 32) / 1.8, 0.50, (50.5 - 32) / 1.8),
        )
    ),
)
def test_dew_point(shipped, celsius, humidity, printed, within):
    close(
        weather.dew_point(celsius + 273.15, humidity, shipped.terms.dew_slope, shipped.terms.dew_offset) - 273.15,
        printed,
        within,
    )


@figures(
    "celsius",
    (0, 611.2, 0.05, "S WMO-No. 8, over water at 0 C"),
    (25, 3169.7, 0.005 * 3169.7, "P ASHRAE 2017 as in the tests of a reference library; Magnus holds within 0.5 %"),
    *(
        (
            celsius,
            1000 * kilo,
            5 * kilo,
            "S Handbook of Chemistry and Physics 1992, vapour pressure of water; Magnus holds within 0.5 %",
        )
        for celsius, kilo in (
            (0, 0.61129),
            (5, 0.8726),
            (10, 1.2281),
            (15, 1.7056),
            (20, 2.3388),
            (25, 3.169),
            (30, 4.2455),
            (35, 5.6267),
            (40, 7.3814),
            (50, 12.344),
        )
    ),
)
def test_saturation_pressure(celsius, printed, within):
    close(weather.saturation_pressure(celsius + 273.15), printed, within)


@figures(
    "scale",
    (1, 3, 0, "P FHWA-RD-98-084, MIL-HDBK-1110 9.6.6, 3 C"),
    (1.8, 5, 0.5, "P FHWA-RD-98-084, MIL-HDBK-1110 9.6.6, 5 F, a whole degree"),
)
def test_surface_above_the_dew_point(shipped, scale, printed, within):
    close(shipped.terms.dew_margin * scale, printed, within)
    assert weather.dry_enough(285.5, 282.5, 3.0) and weather.dry_enough(285.6, 282.5, shipped.terms.dew_margin)
    assert not weather.dry_enough(285.4, 282.5, shipped.terms.dew_margin)


# ---- law and safety
# -----------------------------------------------------------------------------------------------------------


@figures(
    "volatile, water, volume",
    (0.5, 0.4, 0.001, 166.67, 0.005, "M 40 CFR 59 (symbols P), 500 g volatile, 400 g water, a litre"),
)
def test_voc_less_water(volatile, water, volume, printed, within):
    close(emission.voc_less_water(volatile, water, volume, 1000), printed, within)


@figures(
    "voc, thinning, thinner",
    (400, 0.25, 780, 476, 1e-9, "D 400 g in a litre and 195 g in a quarter of one: 595 g in 1.25 L"),
)
def test_voc_of_a_thinned_coating(voc, thinning, thinner, printed, within):
    close(emission.thinned_voc(voc, thinning, thinner), printed, within)


LEAD = "P 40 CFR 745.83"


@figures(
    "built, building, inside, outside, windows",
    (1977, "home", 6.1, 0, None, 1, 0, f"{LEAD} more than 6 ft2 in a room"),
    (1977, "home", 6, 20, None, 0, 0, f"{LEAD} minor work"),
    (1977, "home", 0, 20.1, None, 1, 0, f"{LEAD} more than 20 ft2 outside"),
    (1977, "child-occupied", 0, 20.1, None, 1, 0, f"{LEAD} child-occupied"),
    (1978, "home", 100, 100, "yes", 0, 0, f"{LEAD} not before 1978"),
    (1950, "home", 0, 0, "yes", 1, 0, f"{LEAD} windows are never minor"),
    (1950, "home", 0, 0, "no", 0, 0, f"{LEAD} nothing disturbed"),
    (1950, "other", 100, 100, None, 0, 0, f"{LEAD} no home"),
)
def test_lead_safe_rule(opened, built, building, inside, outside, windows, printed, within):
    """Homes and child-occupied buildings before 1978; up to 6 ft2 a room and 20 ft2 outside is minor; windows never
    are.
    """
    made = estimate(
        opened,
        {
            "built": float(built),
            "building": building,
            "disturbed_inside": inside * FT2,
            "disturbed_outside": outside * FT2,
            "windows_replaced": windows,
        },
    )
    close(made.checks.lead, printed, within)


@pytest.mark.parametrize(
    "topic, words, kind",
    [
        ("Injection", ("100 psi", "surgical emergency"), "P"),  # orthopaedic text chapter
        # the lock or the guard, at 1000 psi and more
        ("Guards", ("Trigger lock", "guard", "29 CFR 1926.302(b)(8)-(9)"), "M"),
        ("Lead-safe work", ("before 1978", "6 ft2 a room", "20 ft2 outside", "windows never", "40 CFR 745.83"), "P"),
        ("Surface above the dew point", ("3 C, 5 F", "every four hours", "FHWA-RD-98-084", "MIL-HDBK-1110 9.6.6"), "P"),
        ("Openings", ("0.5 and 3 m2", "IS 1200-13:1994 cl. 3.2"), "P"),
        ("Overlap", ("Half of each pass", "MIL-HDBK-1110 9.6.8.1"), "P"),
        ("Coverage", ("1604.17 ft2 at 1 mil", "1000 m2 at 1 um", "231 cubic inches"), "D"),
        ("Dew point", ("17.62 and 243.12 C", "WMO-No. 8"), "S"),
        ("Price", ("margin 40 % is markup 66.7 %",), "D"),
        # MIL-HDBK-1110 9.6.8.1 (P): 12 to 15 in from the face
        ("Nozzle sizes", ("at 12 inches",), "C"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_the_sheet_sources_says(topic, words, kind):
    (source,) = (one for one in SOURCES if one.topic == topic)
    assert [word for word in words if word not in f"{source.says} {source.source}"] == []
    assert source.kind == KINDS_OF_SOURCE[kind]


# ---- price and range
# ----------------------------------------------------------------------------------------------------------


@figures(
    "margin",
    *(
        (margin, markup, 5e-4, "D definition of margin and markup")
        for margin, markup in ((0.10, 0.111), (0.20, 0.250), (0.25, 0.333), (0.30, 0.429), (0.40, 0.667), (0.50, 1.000))
    ),
)
def test_markup(margin, printed, within):
    close(price.markup(margin), printed, within)


@figures(
    "margin, overhead",
    (0.20, 0.15, 15385, 0.5, "D 10,000 of direct cost"),
    (0.20, 0.0, 12500, 0.5, "D 10,000 of direct cost"),
)
def test_selling_price(margin, overhead, printed, within):
    close(price.selling_price(10000, margin, overhead), printed, within)


@figures(
    "key",
    ("score_10", -1.2816, 5e-5, "M normal table"),
    ("score_50", 0, 5e-5, "M normal table"),
    ("score_80", 0.8416, 5e-5, "M normal table"),
    ("score_90", 1.2816, 5e-5, "M normal table"),
    ("deciles", 2.5631, 5e-5, "M normal table, twice 1.28155"),
)
def test_normal_scores_of_a_book(key, printed, within):
    close(shown_constants(Units("us"), 50)[key], printed, within)


@figures(
    "score",
    *(
        (score, below, 5e-5, "S normal table in a course on statistics")
        for score, below in (
            (0.0, 0.5000),
            (0.84, 0.7995),
            (1.0, 0.8413),
            (1.28, 0.8997),
            (1.64, 0.9495),
            (-1.0, 1 - 0.8413),
        )
    ),
)
def test_chance_of_a_lognormal_is_that_of_the_normal_table(score, printed, within):
    close(1 - risk.chance_above(200 + exp(score), exp(0.5), 1.0, 200), printed, within)
    close(risk.percentile(exp(0.5), 1.0, score, 200), 200 + exp(score), 1e-9)


@figures(
    "moment",
    ("mean_factor", 1.6487, 5e-5, "D root of e, of a lognormal with spread 1"),
    ("growth", 2.7183, 5e-5, "D e, of a lognormal with spread 1"),
)
def test_moments_of_a_lognormal(moment, printed, within):
    close(risk.mean_factor(0.0, 1.0) if moment == "mean_factor" else risk.growth(1.0), printed, within)


@figures(
    "cost",
    (99, 1, 0, "D 20 for sure and 80 more for sure are above 99"),
    (101, 0, 0, "D but not above 101"),
    (20, 1, 0, "D and above what is sure"),
)
def test_chance_where_nothing_is_uncertain(cost, printed, within):
    close(risk.chance_above(cost, 80, risk.log_sigma(1e-9, 1e-6), 20), printed, within)
    # uncertain, yet never below what is sure
    assert risk.chance_above(20, 80, 0.5, 20) == risk.chance_above(5, 80, 0.5, 20) == 1


# ---- units
# --------------------------------------------------------------------------------------------------------------------


@figures(
    "text, quantity",
    ("1 gal", "volume", 3.785411784e-3, 5e-13, "M NIST SP 811"),
    ("1 psi", "pressure", 6894.757293, 5e-7, "M NIST SP 811"),
    ("1 mil", "film", 25.4e-6, 1e-18, "D"),
    ("1 thou", "orifice", 25.4e-6, 1e-18, "D"),
    ("1 fl oz", "volume", 2.957353e-5, 5e-12, "M NIST SP 811"),
    ("1 qt", "volume", 9.463529e-4, 5e-11, "M NIST SP 811"),
    ("5 gal", "volume", 18.927e-3, 5e-7, "M a pail in litres"),
    ("1 gal/min", "flow", 6.309020e-5, 5e-12, "M NIST SP 811"),
    ("1 lb/gal", "density", 119.8264, 5e-5, "D pound and gallon; NIST SP 811 (M)"),
    ("1 lb/gal", "voc", 119.8264, 5e-5, "D pound and gallon, in g/L"),
    ("1 ft2", "area", 9.290304e-2, 5e-9, "M NIST SP 811"),
    ("1 ft/min", "speed", 5.08e-3, 1e-12, "M NIST SP 811"),
    ("1 lb", "mass", 0.45359237, 1e-15, "M NIST SP 811"),
    ("1 cP", "viscosity", 1e-3, 1e-15, "D"),
    ("50 degF", "temperature", 283.15, 1e-9, "D 10 C"),
    ("212 degF", "temperature", 373.15, 1e-9, "D 100 C"),
)
def test_units_of_a_file(text, quantity, printed, within):
    close(Units("us").parse(text, quantity), printed, within)


@figures("system", ("metric", 0.9982067, 5e-8, "M water at 20 C, kg/L"), ("us", 8.33, 0.005, "M water at 20 C, lb/gal"))
def test_density_of_water(system, printed, within):
    close(Units(system).to_cell(WATER_DENSITY, "density"), printed, within)
