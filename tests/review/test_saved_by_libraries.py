"""A book that a library for Node saved unchanged: one line for each kind of thing that it dropped, and nothing else."""

import os
import shutil
import subprocess
from zipfile import ZipFile

import pytest
from openpyxl import load_workbook
from support.books import SMALL, catalogs_of, room_of
from support.more_engines import NODE

from builder.problems import Refused
from builder.returned import lost, safe
from builder.returned.read import returned
from builder.review.inspect import inspect

pytestmark = pytest.mark.slow

NAME = SMALL + "boathouse"
DROPPED = "the program that saved the workbook dropped "
LIMITS, LOCKS = "the lists and limits of input cells", "the protection of its sheets"
CHARTS, LINKS = "the charts", "the links from one sheet to another"
LOOKS = "the looks of dates and numbers, the colors of cells, the marks of what is wrong and the widths of columns"
PAPER, BREAKS = "the size of the paper, the foot of each page and the page breaks", "the page breaks"
BLANKS = "formulas that showed a blank"


@pytest.fixture(scope="module")
def resaved(books, tmp_path_factory):
    """library -> the path of the book that it saved."""

    def save(library):
        if not shutil.which("node") or not (NODE / "node_modules" / library).is_dir():
            assert not os.environ.get("CI"), f"{library} is not installed"
            pytest.skip(f"{library} is not installed: npm ci --prefix tests/support/node")
        path = tmp_path_factory.mktemp(library) / "back.xlsx"
        subprocess.run(["node", NODE / "save.js", library, books[NAME].path, path], check=True, capture_output=True)
        return path

    return save


def looked(path):
    with room_of(NAME):
        return inspect(returned(path), [catalogs_of(NAME)])


def held(path, *tags):
    """How many sheets of a book hold each of these tags, and how many charts it has."""
    with ZipFile(path) as archive:
        sheets = [archive.read(name) for name in archive.namelist() if name.startswith("xl/worksheets/sheet")]
        charts = archive.read("[Content_Types].xml").count(b"drawingml.chart+xml")
    return [sum(b"<" + tag in sheet for sheet in sheets) for tag in tags] + [charts]


@pytest.mark.parametrize(
    "library, dropped", [("exceljs", [CHARTS, LINKS, BREAKS]), ("xlsx", [LIMITS, LOCKS, CHARTS, LOOKS, PAPER, BLANKS])]
)
def test_what_a_library_drops_is_one_line_each(books, resaved, library, dropped):
    path = resaved(library)
    look = looked(path)
    told = [finding.message.removeprefix(DROPPED).split(":")[0] for finding in look.findings]
    assert told == dropped and look.opened.price() == books[NAME].opened.price()
    assert all("'wetfilm reissue' builds the workbook again with them" in finding.hint for finding in look.findings)
    # as its parts themselves say
    limits, locks, links, charts = held(path, b"dataValidation ", b"sheetProtection", b"hyperlink ")
    made = held(books[NAME].path, b"dataValidation ", b"sheetProtection", b"hyperlink ")
    assert min(made) > 0 and charts == 0
    assert [limits == 0, locks == 0, links == 0] == [thing in dropped for thing in (LIMITS, LOCKS, LINKS)]


@pytest.mark.parametrize("name", [NAME, SMALL + "flat", "blank"])
def test_a_book_as_it_was_made_lacks_nothing(books, name):
    assert list(lost.lost(safe.opened(books[name].path))) == []


def test_what_one_sheet_alone_lacks_is_not_told(books, tmp_path):
    """A partner may unlock a sheet to work on it."""
    book = load_workbook(books[NAME].path)
    book["Takeoff"].protection.disable()
    book["Takeoff"].data_validations.dataValidation = []
    book.save(tmp_path / "back.xlsx")
    assert list(lost.lost(safe.opened(tmp_path / "back.xlsx"))) == []
    for sheet in book:
        sheet.protection.disable()
    book.save(tmp_path / "back.xlsx")
    (finding,) = lost.lost(safe.opened(tmp_path / "back.xlsx"))
    assert finding.message == DROPPED + LOCKS


def test_a_single_formula_that_showed_a_blank_and_was_deleted_is_told(books, tmp_path):
    book, values = load_workbook(books[NAME].path), load_workbook(books[NAME].path, data_only=True)
    place = next(
        place
        for (block, key), place in books[NAME].layout.places.items()
        if place.sheet == "Takeoff"
        and place.column.formula
        and values["Takeoff"].cell(place.row, place.col + 1).value in (None, "")
    )
    cell = book["Takeoff"].cell(place.row, place.col + 1)
    cell.value = None
    book.save(tmp_path / "back.xlsx")
    told = [str(finding) for finding in looked(tmp_path / "back.xlsx").findings]
    assert len(told) == 1 and told[0].startswith(f"Takeoff {cell.coordinate}") and "the formula was deleted" in told[0]


def test_a_large_book_that_is_not_packed_is_taken_and_a_crowd_of_cells_is_not(books, monkeypatch, tmp_path):
    """What SheetJS writes of a book of 2,000 lines, measured: 74 MB, none packed, 2.0 million tags, 2.2 million
    attributes; a bound that refuses it refuses an honest book.
    """
    assert safe.FILE > 74e6 and safe.PART > 21e6 and safe.TAGS > 2.0e6 and safe.ATTRIBUTES > 2.23e6
    cells = b'<c r="A1"/>' * (safe.CELLS + 1)
    for crowd in (cells, cells.replace(b"<c", b"<x:c"), cells.decode().encode("utf-16")):
        path = tmp_path / "crowd.xlsx"
        with ZipFile(books[NAME].path) as old, ZipFile(path, "w") as new:
            for name in old.namelist():
                new.writestr(name, old.read(name))
            new.writestr("xl/worksheets/more.xml", crowd)
        with pytest.raises(Refused, match="it holds far more than an estimate"):
            safe.opened(path)
