"""A partner at the workbook: lines typed into a blank one, a row inserted, a save by another program."""

import pytest
from support.books import EACH_BOOK, EACH_EXAMPLE, room_of
from support.by_address import Addressed
from support.editing import views_of
from support.engines import Values, differences
from support.more_engines import HyperFormula
from support.small import CATALOGS, small_books

from builder.jobs import from_values, open_job
from builder.returned.read import read
from builder.stages.estimate import Estimate
from builder.workbook.make import make

pytestmark = pytest.mark.slow

LINES = (  # system, length, height as a person types them, and the same in feet
    ("Exterior siding", "=12+14+9", 35, "9.5", 9.5),
    ("Interior walls", "48", 48, "8", 8),
    ("Exterior trim", "120", 120, "0.75", 0.75),
)
JOB = """
takeoff:
  - {system: Exterior siding, length: 35 ft, height: 9.5 ft}
  - {system: Interior walls, length: 48 ft, height: 8 ft}
  - {system: Exterior trim, length: 120 ft, height: 0.75 ft}
"""


@pytest.fixture(scope="module")
def estimate(books, tmp_path_factory):
    """The same job from YAML: the starter and three takeoff lines; looked at as in the blank book."""
    path = tmp_path_factory.mktemp("job") / "job.yaml"
    path.write_text((CATALOGS / "starter.yaml").read_text() + JOB)
    with small_books():
        opened = open_job(path, [CATALOGS])
    assert not opened.problems and opened.price() > 0
    views = views_of(books["small blank"].estimate)
    return Estimate(opened.values, opened.units, opened.estimate.capacity, views)


def test_three_lines_typed_into_a_blank_workbook_give_the_price_of_the_job_from_yaml(books, estimate):
    blank = books["small blank"]
    engine = Addressed(blank.path)
    place = {key: blank.layout.places["takeoff", key] for key in ("system", "length", "height")}
    for row, (system, length, _, height, _) in enumerate(LINES):
        for key, text in (("system", system), ("length", length), ("height", height)):
            engine.type("Takeoff", place[key].row + row, place[key].col + 1, text)
    assert differences(estimate, blank.layout, engine) == []


def test_the_same_in_hyperformula(books, estimate, hyperformula_here):
    """Sums typed into inputs are formulas that others rest on."""
    blank = books["small blank"]
    engine = HyperFormula(blank.path)
    place = {key: blank.layout.places["takeoff", key] for key in ("system", "length", "height")}
    for row, (system, text, length, _, height) in enumerate(LINES):
        for key, value in (
            ("system", system),
            ("length", text if text.startswith("=") else length),
            ("height", height),
        ):
            engine.put("Takeoff", place[key].row + row, place[key].col + 1, value)
    assert differences(estimate, blank.layout, engine) == []


def _typed(place):
    """The three lines as a person types them."""
    yield 'sheet = sheets.getByName("Takeoff")'
    for down, (system, length, _, height, _) in enumerate(LINES):
        for key, text in (("system", system), ("length", length), ("height", height)):
            at = place["takeoff", key]
            yield f'sheet.getCellByPosition({at.col}, {at.row - 1 + down}).setFormula("{text}")'


@pytest.mark.sitting("small blank", _typed)
def test_the_same_in_libreoffice(books, estimate, edited):
    assert differences(estimate, books["small blank"].layout, Values(edited)) == []


def _inserted(place):
    """A row below the fourth line, filled in."""
    row = place["takeoff", "system"].row + 3
    yield 'sheet = sheets.getByName("Takeoff")'
    yield f"sheet.Rows.insertByIndex({row}, 1)"
    for key, put in (("system", 'setString("Boards")'), ("length", "setValue(300)"), ("height", "setValue(1)")):
        yield f"sheet.getCellByPosition({place['takeoff', key].col}, {row}).{put}"


@pytest.mark.sitting("small shed", _inserted)
def test_a_row_inserted_in_takeoff_counts_in_the_price(books, edited):
    book = books["small shed"]
    values, units, settings = read(edited)
    assert len(values["takeoff"]) == len(book.opened.values["takeoff"]) + 1
    estimate = Estimate(values, units, book.opened.estimate.capacity)
    price = book.layout.places["price", "total"]
    shown = Values(edited).get(price.sheet, price.row, price.col + 1)
    assert shown == estimate.units.to_cell(estimate.rows["price"][0].total, "money")
    assert shown > book.estimate.rows["price"][0].total


def test_a_cell_typed_below_the_rows_stops_the_price(books):
    """Nothing a person typed is left out silently."""
    book = books["small shed"]
    engine = Addressed(book.path)
    place, told = book.layout.places["takeoff", "length"], book.layout.places["check_lines", "state"]
    engine.type("Takeoff", place.row + place.rows, place.col + 1, "10")
    assert engine.get(told.sheet, told.row, told.col + 1) == "to fix"
    total = book.layout.places["price", "total"]
    assert engine.get(total.sheet, total.row, 2) == ""


@EACH_BOOK
def test_build_of_read_is_byte_identical(books, name):
    with room_of(name):
        assert make(from_values(*read(books[name].path))) == books[name].data


@EACH_EXAMPLE
def test_what_libreoffice_saves_reads_back_the_same(books, saved, name):
    with room_of(name):
        assert make(from_values(*read(saved(name)))) == books[name].data
