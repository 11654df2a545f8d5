"""Text in a cell where a number or a date belongs: understood, or refused with the reason."""

import datetime

import pytest

from builder.problems import BadValue
from builder.quantities import Units, scale
from builder.records.kinds import KINDS
from builder.returned.typed import understood
from builder.values import EPOCH

US, METRIC = Units("us", "USD"), Units("metric", "EUR")
LENGTH, DRY, DATE, TAG = (
    KINDS[kind].field_of[key]
    for kind, key in (("takeoff", "length"), ("coats", "dry_film"), ("job", "date"), ("takeoff", "tag"))
)
MARGIN, MINIMUM, AREA, AIR, BURDEN, COUNT, WAGE, HIRE = (
    KINDS[kind].field_of[key]
    for kind, key in (
        ("job", "margin"),
        ("job", "minimum"),
        ("tasks", "area"),
        ("weather", "air"),
        ("terms", "burden"),
        ("takeoff", "count"),
        ("job", "wage"),
        ("pumps", "rental"),
    )
)


def day(year, month, number):
    return float((datetime.date(year, month, number) - EPOCH).days)


@pytest.mark.parametrize(
    "text, one, units, want",
    [
        ("12,5", LENGTH, US, 12.5 * scale("ft")),
        ("12,5", LENGTH, METRIC, 12.5),
        ("14 ft", LENGTH, METRIC, 14 * scale("ft")),
        ("14ft", LENGTH, US, 14 * scale("ft")),
        ("7' 6\"", LENGTH, US, 7.5 * scale("ft")),
        ("7′6″", LENGTH, US, 7.5 * scale("ft")),
        ("7' - 6 1/2\"", LENGTH, US, (7 + 6.5 / 12) * scale("ft")),
        ("90''", LENGTH, US, 7.5 * scale("ft")),
        ("14 feet", LENGTH, US, 14 * scale("ft")),
        ("14 ft 6 in", LENGTH, US, 14.5 * scale("ft")),
        ("1,200.5 ft", LENGTH, US, 1200.5 * scale("ft")),
        ("1.200,5", LENGTH, METRIC, 1200.5),
        ("\u00a012\u00a0", LENGTH, METRIC, 12.0),
        ("43 um", DRY, US, 43e-6),
        ("2 mils", DRY, METRIC, 2 * scale("mil")),
        ("38 %", MARGIN, US, 0.38),
        ("38 percent", MARGIN, US, 0.38),
        ("0.38", MARGIN, US, 0.38),
        ("$1,250.00", MINIMUM, US, 1250.0),
        ("1250 EUR", MINIMUM, METRIC, 1250.0),
        ("120 sq ft", AREA, METRIC, 120 * scale("ft2")),
        ("120 m²", AREA, US, 120.0),
        ("20 °C", AIR, US, 293.15),
        ("68 F", AIR, METRIC, 293.15),
        ("40.", LENGTH, METRIC, 40.0),
        (".5", LENGTH, METRIC, 0.5),
        ("9 1/2", LENGTH, METRIC, 9.5),
        ("1/2", LENGTH, METRIC, 0.5),
        ("+5", LENGTH, METRIC, 5.0),
        ("9 1/2", LENGTH, US, 9.5 * scale("ft")),
        ("9½", LENGTH, METRIC, 9.5),
        ("6½ in", LENGTH, US, 6.5 * scale("in")),
        ("¾", LENGTH, METRIC, 0.75),
        ("40.", MINIMUM, US, 40.0),
        ("9 1/2", COUNT, US, 9.5),
        ("9 1/2", WAGE, US, 9.5 / 3600),
        ("-9 1/2", AIR, METRIC, 273.15 - 9.5),
        ("1 062", LENGTH, METRIC, 1062.0),
        ("1 062,5", LENGTH, METRIC, 1062.5),
        ("1\u2009062.5", LENGTH, METRIC, 1062.5),
        ("1\u00a0234\u202f567", MINIMUM, US, 1234567.0),
        ("$1 250.00", MINIMUM, US, 1250.0),
        ("1 062 mm", LENGTH, METRIC, 1.062),
        ("12 500 sq ft", AREA, METRIC, 12500 * scale("ft2")),
        ("١٢", LENGTH, METRIC, 12.0),
        ("１２.５ m", LENGTH, METRIC, 12.5),
        ("１８ %", MARGIN, US, 0.18),
        ("1", MARGIN, US, 1.0),
        ("150 %", BURDEN, US, 1.5),
        ("1.5", BURDEN, US, 1.5),
        ("65 /day", HIRE, US, 65.0),
        ("320 mPa.s", KINDS["coatings"].field_of["viscosity"], US, 0.32),
        ("2026-05-04", DATE, US, day(2026, 5, 4)),
        ("4 May 2026", DATE, US, day(2026, 5, 4)),
        ("May 4, 2026", DATE, US, day(2026, 5, 4)),
        ("04.05.2026", DATE, METRIC, day(2026, 5, 4)),
        ("5/14/2026", DATE, US, day(2026, 5, 14)),
        ("14/5/2026", DATE, METRIC, day(2026, 5, 14)),
    ],
)
def test_what_a_person_types_is_understood(text, one, units, want):
    assert understood(text, one, units) == pytest.approx(want, rel=1e-13)


@pytest.mark.parametrize(
    "text, one, words",
    [
        ("1,200", LENGTH, "'1,200' can mean 1200 or 1.200"),
        ("about twelve", LENGTH, "'about twelve' is not a number with a unit"),
        ("14 lb", LENGTH, "'lb' is not a unit of length"),
        ("14 gal", LENGTH, "'gal' is not a unit of length"),
        ("4/5/2026", DATE, "'4/5/2026' can be read as two dates"),
        ("next week", DATE, "'next week' is not a date"),
        ("2026-13-45", DATE, "2026-13-45 is not a date"),
        ("#REF!", LENGTH, "the cell shows the error #REF!"),
        ("TRUE", LENGTH, "'TRUE' is not a number"),
        ("nan", LENGTH, "'nan' is not a number with a unit"),
        ("18", MARGIN, "'18' has no % sign"),
        ("18,5", MARGIN, "'18.5' has no % sign"),
        ("1 1/2", MARGIN, "'1 1/2' has no % sign"),
        ("35", BURDEN, "'35' has no % sign"),
        ("1'250", MINIMUM, "'1'250' has an apostrophe between its digits"),
        ("1'250", LENGTH, "'1'250' has an apostrophe between its digits"),
        ("12 50", LENGTH, "'12 50' has a space between its digits"),
        ("1 0625", LENGTH, "has a space"),
        ("0 062", LENGTH, "has a space"),
        ("1 062,500", LENGTH, "'1062,500' can mean 1062500 or 1062.500"),
        ("5-", LENGTH, "'5-' is not a number"),
        ("--5", LENGTH, "'--5' is not a number"),
        ("1/0", LENGTH, "'1/0' is not a number"),
        ("9" * 5000, LENGTH, "9' is not a number"),
        ("0517", LENGTH, "begins with a 0"),
        ("1e3", LENGTH, "has an exponent"),
        ("0x10", LENGTH, "unknown unit 'x'"),
    ],
)
def test_what_may_mean_two_things_or_none_is_refused(text, one, words):
    with pytest.raises(BadValue, match=words.replace("(", r"\(").replace("?", r"\?")):
        understood(text, one, US)


def test_a_number_typed_for_a_name_is_that_name():
    assert understood(12.0, TAG, US) == "12"
    assert understood("North\u00a0side\u200b", TAG, US) == "North side"
