"""Published figures of law, safety, prices, ranges and units: see support/figures.py for the tables."""

from math import exp

import pytest
from support.figures import FT2, KINDS_OF_SOURCE, close, estimate, figures

from builder.quantities import Units
from builder.records.sources import SOURCES
from builder.stages.constants import WATER_DENSITY, shown_constants
from builder.trade import emission, price, risk

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
