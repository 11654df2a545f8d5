"""Units and dates as people write them in a file: understood, or answered with what to write instead."""

import pytest
from support.places import EXAMPLES, ROOT

from builder.checking import check
from builder.problems import ERROR, BadValue
from builder.quantities import Units, scale
from builder.values import day

US = Units("us", "USD")
FT, IN = 0.3048, 0.0254  # meters, exact: international yard and pound agreement of 1959


@pytest.mark.parametrize(
    "text, quantity, want",
    [
        ("10'", "length", 10 * FT),
        ("62'6\"", "length", 62 * FT + 6 * IN),
        ("62' 6 1/2\"", "length", 62 * FT + 6.5 * IN),
        ("62'-6\"", "length", 62 * FT + 6 * IN),
        ("10’", "length", 10 * FT),
        ("62’ 6”", "length", 62 * FT + 6 * IN),
        ("62′ 6″", "length", 62 * FT + 6 * IN),
        ("62 Feet 6 inches", "length", 62 * FT + 6 * IN),
        ("62 ft. 6 in.", "length", 62 * FT + 6 * IN),
        ("9½ ft", "length", 9.5 * FT),
        ("19 metres", "length", 19.0),
        ("12 miles", "distance", 12 * 5280 * FT),
        ("4 hours", "time", 4 * 3600.0),
        ("1 hr 30 mins", "time", 1.5 * 3600),
        ("25 minutes", "time", 25 * 60.0),
        ("1 Gallon", "volume", 231 * IN**3),  # the US gallon is 231 cubic inches
        ("4 quarts", "volume", 231 * IN**3),
        ("4 litres", "volume", 0.004),
        ("4 l", "volume", 0.004),
        ("210 sq. ft.", "area", 210 * FT**2),
        ("210 SF", "area", 210 * FT**2),
        ("20 m²", "area", 20.0),
        ("40 microns", "film", 40e-6),
        ("40 μm", "film", 40e-6),
        ("2 mils", "film", 2 * IN / 1000),
        ("38 percent", "share", 0.38),
        ("8 C", "temperature", 281.15),
        ("8 °C", "temperature", 281.15),
        ("50 degrees F", "temperature", 283.15),
        ("50F", "temperature", 283.15),
        ("2200 PSI", "pressure", 2200 * 6894.757293168),  # a pound-force by a square inch, NIST SP 811
        ("250 cps", "viscosity", 0.25),
        ("250 mPa·s", "viscosity", 0.25),
        ("0.5 gallons per minute", "flow", 0.5 * 231 * IN**3 / 60),
        ("0.5 gpm", "flow", 0.5 * 231 * IN**3 / 60),
        ("8 lbs/gallon", "density", 8 * 0.45359237 / (231 * IN**3)),
        ("14 per gallon", "money_volume", 14 / (231 * IN**3)),
    ],
)
def test_a_unit_as_people_write_it_is_understood(text, quantity, want):
    assert US.parse(text, quantity) == pytest.approx(want, rel=1e-9)


@pytest.mark.parametrize(
    "text, quantity, words, hint",
    [
        ("105 KU", "viscosity", "says nothing of how the paint moves through a hose", "at about 500 1/s, in cP"),
        ("8 lb", "length", "'lb' is not a unit of length", "use ft, m"),
        ("25'", "time", "''' is not a unit of time", "use h, s, min"),
        ("1'250 ft", "length", "has an apostrophe between its digits", "write 1250"),
        ("62' 6", "length", "has no unit", "use ft or m"),
        ("128 oz", "volume", "unknown unit 'oz'", "fl oz"),
        ("5 C", "length", "'C' is not a unit of length", "use ft"),
    ],
)
def test_what_is_no_unit_is_answered_with_what_to_write(text, quantity, words, hint):
    with pytest.raises(BadValue) as refused:
        US.parse(text, quantity)
    assert words in refused.value.message and hint in refused.value.hint


def test_every_word_means_a_unit_of_the_list():
    from builder.spellings import SPELLINGS, WORDS, spelled

    assert set(WORDS.values()) <= SPELLINGS.keys()
    assert all(word == word.lower() for word in WORDS)
    assert {spelled(unit) for unit in SPELLINGS} == SPELLINGS.keys()  # none is taken for another
    assert scale(spelled("Square Feet")) == scale("ft2")


@pytest.mark.parametrize("text", ["2026-05-18", "2026/05/18", "2026.5.18", "2026-5-18"])
def test_a_date_with_the_year_first_is_understood(text):
    """18 May 2026 is day 46160: 46023 is 1 January 2026 (126 years from 1900, of them 31 leap, and two days that a
    sheet counts more), and 137 days follow: 31 + 28 + 31 + 30 + 17.
    """
    assert day(text) == 46023 + 137


@pytest.mark.parametrize(
    "text, hint",
    [
        ("18 May 2026", "write 2026-05-18"),
        ("5/18/2026", "write 2026-05-18"),
        ("18.05.2026", "write 2026-05-18"),
        ("4/5/2026", "write year-month-day, as in 2026-05-04"),  # may be either
        ("20260518", "write year-month-day, as in 2026-05-04"),
        ("2026/05-18", "write year-month-day, as in 2026-05-04"),
    ],
)
def test_another_date_is_answered_with_what_to_write(text, hint):
    with pytest.raises(BadValue) as refused:
        day(text)
    assert refused.value.hint == hint


def told(tmp_path, old, new):
    path = tmp_path / "job.yaml"
    text = EXAMPLES["boathouse"].read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))
    found = [problem for problem in check([path], [ROOT / "catalogs"]) if problem.severity == ERROR]
    return [str(problem).removeprefix(f"{path}:").partition(":")[2] for problem in found]


@pytest.mark.parametrize("number", ["1,250 ft", "1,250", "62,5 ft"])
def test_a_comma_in_a_number_is_one_problem_and_no_guess(tmp_path, number):
    (said,) = told(tmp_path, "length: 62 ft", f"length: {number}")
    assert said.endswith(
        f" Length: '{number}' has a comma (write 1200 for a thousand two hundred, 12.5 for twelve and a half)"
    )


def test_what_hangs_on_an_unknown_unit_is_not_told_as_well(tmp_path):
    """A check of several fields, one of which is told already, says nothing."""
    (said,) = told(
        tmp_path, "takeoff:\n", "own: {coatings: [{change: Exterior acrylic satin, dry_film: 40 mu}]}\ntakeoff:\n"
    )
    assert "unknown unit 'mu'" in said
