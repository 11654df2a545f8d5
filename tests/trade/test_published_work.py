"""Published figures of areas, hours, days and weather: see support/figures.py for the tables."""

import pytest
from support.figures import FOOT, FT2, HOUR, close, estimate, figures

from builder.records.lookups import BESIDE
from builder.records.words import WORDS
from builder.trade import labor, takeoff, weather, working_days
from builder.values import day

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
    ("Flat", 1.00, 2, "D length times height"),
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
        takeoff=[{"system": "House", "profile": "Flat", "length": 120 * FOOT, "height": 15 * FOOT}],
    )
    close(made.rows["hours"][0].labor / HOUR, printed, within)


@figures(
    "function, arguments",
    (labor.steps_up, (21, 4, 1e-9), 24, 0, "D six steps of 4 h hold 21"),
    (labor.steps_up, (8, 4, 1e-9), 8, 0, "D two hold 8"),
    (labor.steps_up, (8 + 1e-10, 4, 1e-9), 8, 0, "D and what is as good as 8"),
    (labor.steps_up, (0, 4, 1e-9), 0, 0, "D nothing takes none"),
    (working_days.useful_hours, (8, 1.5, 2, 1), 7.25, 1e-12, "D two people for 8 h, 1.5 h of setting up"),
    (working_days.lost_share, (0.2, 0.5, 0), 0.1, 1e-12, "D a fifth of the days, where half of it counts"),
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
