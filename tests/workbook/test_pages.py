"""The pages that are handed on: the bid tells the customer all of it and nothing of cost; the crew card tells what the
model says.
"""

import re

import pytest
from support.editing import LiveBook
from support.engines import Values
from support.places import ROOT, SHED
from support.small import CATALOGS as FEW_SIZES

from builder.jobs import open_job
from builder.records.cautions import CAUTIONS
from builder.records.rules import NAME_LENGTH
from builder.records.sentences import TODAY
from builder.stages import strips
from builder.stages.estimate import Estimate
from builder.stages.order import capacities

SMALL = {"takeoff": 9, "coats": 7, "nozzles": 14, "openings": 8, "tasks": 8, "kit": 4, "systems": 6}


def shed(folder, **job):
    opened = open_job(SHED, [FEW_SIZES])
    opened.values["job"][0].update(job)
    return LiveBook(opened.values, opened.units, folder, **SMALL)


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    return shed(tmp_path_factory.mktemp("shed"))


def page(path, title):
    """Every text and number that stands on a sheet, row by row."""
    return [[cell for cell in row if cell is not None] for row in Values(path).book[title].iter_rows(values_only=True)]


def test_the_bid_says_price_work_and_conditions_and_no_cost(books):
    book = books["boathouse"]
    bid, price = book.estimate.rows["bid"][0], book.estimate.rows["price"][0]
    told = "\n".join(str(cell) for row in page(book.path, "Bid")[4:] for cell in row)
    for part in (
        "Ferrymoor boathouse",
        f"{price.total:,.2f} USD",
        "until 20 May 2026",
        "Cladding lower (Lap siding)",
        "2 coats of Exterior acrylic satin, sprayed",
        "Wash down, Scrape loose paint",
        "Rotten boards",
        "Alternate A",
        f"{book.estimate.rows['price'][1].difference:,.2f} USD more",
    ):
        assert part in told, part
    secret = [getattr(price, key) for key in ("cost", "contingency", "protected", "asked", "margin", "kept")] + [
        book.estimate.rows["days"][0].labor
    ]
    assert not any(f"{amount:,.2f}" in told for amount in secret) and not re.search(
        "margin|overhead|wage|hours", told, re.IGNORECASE
    )
    assert price.total == pytest.approx(price.deposit + price.stage + price.last) and bid.lead is None


def test_an_incomplete_bid_names_what_is_missing_and_shows_no_figure(live):
    with live.changed(("takeoff", "length", 0, "twelve")):
        assert live.differences() == []
        rows = live.estimate().rows
    bid = rows["bid"][0]
    assert bid.state and bid.missing == (
        "Takeoff, row 5: length: enter a number from 0 to 5,000 ft, or feet and inches as 14' 6 1/2\""
    )
    assert {bid.price, bid.deposit, bid.last, bid.until, bid.accepted, bid.name_price} == {None}
    assert not any(row.coat_at for row in rows["scope"])


def test_the_bid_speaks_of_lead_where_the_lead_check_looks(live):
    """40 CFR 745.83: a home of before 1978 with more than 20 ft2 disturbed outside."""
    for area, told in ((20.0, False), (21.0, True)):
        with live.changed(
            ("job", "built", 0, 1971.0), ("job", "building", 0, "home"), ("job", "disturbed_outside", 0, area)
        ):
            assert live.differences() == []
            assert ("lead-safe" in (live.estimate().rows["bid"][0].lead or "")) is told, area


def test_a_task_stands_once_on_the_bid_and_that_of_an_alternate_alone_does_not(books):
    tasks = books["boathouse"].estimate.rows["bid"][0].tasks.split(", ")
    assert len(tasks) == len(set(tasks)) and tasks.count("Wash down") == 1
    values = open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"]).values
    values["tasks"] = [row for row in values["tasks"] if row["system"] == "Club room"]
    assert Estimate(values, books["boathouse"].opened.units, capacities()).rows["bid"][0].tasks is None


@pytest.mark.slow
def test_a_long_text_has_a_row_as_high_as_it_needs(tmp_path):
    book = shed(tmp_path, exclusions="Racks and boats are moved by others. " * 10)
    row = next(row for row in Values(tmp_path / "live.xlsx").book["Bid"].iter_rows() if row[0].value == "Not included")[
        1
    ]
    # 370 letters, at most 64 a line, lines of 12 points
    assert row.value.startswith("Racks") and row.parent.row_dimensions[row.row].height >= 6 * 12
    assert book.differences() == []


@pytest.mark.slow
def test_long_names_and_a_price_of_millions_stand_whole_on_the_pages(tmp_path):
    book = shed(tmp_path, name="N" * NAME_LENGTH, minimum=2_345_678.0)
    assert book.differences() == []
    bid = book.estimate().rows["bid"][0]
    # rounded up to the 5 of Terms
    assert bid.price == "2,345,680.00 USD" and bid.heading.endswith("N" * NAME_LENGTH)
    assert book.estimate().rows["brief"][0].words.startswith("DRAFT: 1 OPEN · 2,345,680.00 USD · ")


# ASTM D4414-95(2020) 7.1.2: notches of 0.5 mil to 6, of 1 to 10, of 2 to 30, of 5 above; 5.5 is a notch, 8.8 lies
# between 8 and 9.
@pytest.mark.parametrize(
    "film, told",
    [
        (5.5, "wet at 5.5, dry at 6 mil"),
        (8.8, "wet at 8, dry at 9 mil"),
        (0.9, "wet at 0.5, dry at 1 mil"),
        (31.0, "wet at 30, dry at 35 mil"),
    ],
)
def test_the_crew_card_says_between_which_notches_the_wet_film_lies(live, film, told):
    paint = next(row for row in live.values["coatings"] if row["name"] == "Exterior acrylic satin")
    coat = next(row for row, one in enumerate(live.values["coats"]) if one["coating"] == "Exterior acrylic satin")
    dry = film * paint["volume_solids"]  # dry film = wet film * volume solids
    with live.changed(
        ("coats", "method", coat, "brush"),  # at any film, whatever a nozzle could do
        ("coats", "thinning", coat, 0.0),
        ("coats", "dry_film", coat, dry),
    ):
        assert live.differences() == []
        card = next(row for row in live.estimate().rows["crew_card"] if row.coat_at == coat + 1)
    assert card.gauge == told


@pytest.mark.parametrize(
    "surface, humidity, told",
    [
        ("", 0.55, TODAY[0]),
        (62.0, 0.55, TODAY[1]),
        (52.0, 0.55, TODAY[2]),
        (62.0, 0.2, TODAY[1]),
        (105.0, 0.2, TODAY[3]),
        (20.0, 0.98, TODAY[4]),
    ],
)
def test_the_crew_card_says_whether_the_readings_of_the_day_allow_the_coat(live, surface, humidity, told):
    """68 F at 55 % has its dew point at 51 F (Magnus): 52 F is too near, 62 F is not; the acrylic takes 50 to 90 F."""
    with live.changed(("weather", "humidity", 0, humidity), ("weather", "surface", 0, surface)):
        assert live.differences() == []
        assert next(row for row in live.estimate().rows["crew_card"] if "satin" in row.what).today == told


def printed_to(sheet):
    return int(sheet.print_area.rpartition("$")[2])


@pytest.mark.slow
def test_a_crew_card_built_blank_prints_every_coat_that_may_be_typed(books):
    book = books["blank"]
    strip = book.layout.places["card_strip", "line_care"]
    assert strip.line(strip.rows - 1) <= printed_to(Values(book.path).book["Crew card"])


def test_every_printed_sheet_of_the_crew_card_bears_the_cautions_with_their_sources(books):
    sheet = Values(books["boathouse"].path).book["Crew card"]
    starts = [strips.TOP, *(brk.id + 1 for brk in sheet.row_breaks.brk), printed_to(sheet) + 1]
    used = len([row for row in books["boathouse"].estimate.rows["crew_card"] if row.coat_at])
    assert used == 11 and len(starts) - 1 == 3  # four on a sheet of paper: none bears a heading alone
    for number, (first, after) in enumerate(zip(starts, starts[1:])):
        cells = [
            str(cell.value) for row in sheet.iter_rows(min_row=first, max_row=after - 1) for cell in row if cell.value
        ]
        told = [cell for cell in cells if re.match("|".join(f"{one.topic}: " for one in CAUTIONS), cell)]
        assert len(told) == (len(CAUTIONS) if number * 4 < used else 0), number
        assert bool(told) == any(cell.startswith("1  Pressure: ") for cell in cells) == bool(cells), number
    text = " ".join(str(row[0].value) for row in sheet.iter_rows(min_row=starts[0], max_row=starts[1] - 1))
    assert all(" ".join(one.source.split()) in " ".join(text.split()) for one in CAUTIONS)
    assert "surgical emergency" in sheet.oddFooter.left.text


@pytest.mark.slow
def test_the_cards_stand_in_the_order_of_the_work_without_gaps(books):
    for name in ("boathouse", "corridor", "shed"):
        cards, estimate = books[name].estimate.rows["crew_card"], books[name].estimate
        used = [row.coat_at for row in cards if row.coat_at]
        assert [row.coat_at for row in cards[: len(used)]] == used and len(set(used)) == len(used)
        systems = [estimate.rows["film"][at - 1].system_at for at in used]
        # a system's coats stand together
        assert all(systems.index(one) + systems.count(one) > place for place, one in enumerate(systems))
