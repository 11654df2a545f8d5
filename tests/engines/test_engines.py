"""Every formula cell: cached value = model = what five spreadsheet engines work out from scratch, in both
unit systems.
"""

import re
import zipfile

import pytest
from support.books import EACH_BOOK, EACH_EXAMPLE
from support.by_address import Addressed
from support.editing import SMALL, LiveBook, small_book
from support.engines import IronCalc, Values, differences, formula_cells, libreoffice, resting_on
from support.more_engines import Formualizer, Gnumeric, HyperFormula

from builder.stages.estimate import Estimate
from builder.stages.sheet_list import SHEETS
from builder.workbook.frame import BANNER


@EACH_BOOK
def test_cached_values_are_the_model(books, name):
    book = books[name]
    assert differences(book.estimate, book.layout, Values(book.path)) == []


@EACH_BOOK
def test_ironcalc_agrees(books, name):
    book = books[name]
    engine = IronCalc(book.path)
    assert differences(book.estimate, book.layout, engine) == []
    # result and master check in the frozen rows
    assert engine.get("Takeoff", 2, 1) == book.estimate.rows["brief"][0].state


@EACH_EXAMPLE
def test_an_example_leaves_one_question_open_and_is_ready_once_it_is_answered(books, name):
    """That its figures are a demo's. The answer moves no figure. One that is signed stays so."""
    book, engine = books[name], Addressed(books[name].path)
    (asked,) = book.opened.questions()
    open_, ready = ("SIGNED", "SIGNED") if name.endswith("bandstand") else ("DRAFT: 1 OPEN", "READY")
    assert asked.endswith("(Terms: Figures of the demo)") and book.opened.state() == open_
    place = book.layout.places["terms", "demo"]
    engine.put(place.sheet, place.row, place.col + 1, "no")
    values = {**book.opened.values, "terms": [{**book.opened.values["terms"][0], "demo": "no"}]}
    answered = Estimate(values, book.opened.units, book.estimate.capacity)
    assert differences(answered, book.layout, engine) == []
    assert answered.rows["brief"][0].state == ready and answered.rows["bid"][0].missing is None
    assert answered.rows["price"][0].total == book.estimate.rows["price"][0].total


@pytest.mark.slow
@EACH_BOOK
def test_libreoffice_agrees(books, saved, name):
    book = books[name]
    assert differences(book.estimate, book.layout, Values(saved(name))) == []


@pytest.fixture(scope="session", params=[Formualizer, Gnumeric, HyperFormula])
def other(request):
    """An engine beside the first two."""
    request.getfixturevalue(f"{request.param.__name__.lower()}_here")
    return request.param


@pytest.mark.slow
@EACH_BOOK
def test_another_engine_agrees(books, other, name):
    book = books[name]
    assert differences(book.estimate, book.layout, other(book.path)) == []


@pytest.fixture(scope="module")
def parted(tmp_path_factory):
    """The shed with its parts and a tax on its bid, which no example shows."""
    folder = tmp_path_factory.mktemp("parted")
    shed = small_book("us", folder)
    shed.values["terms"][0]["show_parts"], shed.values["job"][0]["sales_tax"] = "yes", 0.0825
    return LiveBook(shed.values, shed.units, folder, **SMALL)


@pytest.mark.slow
def test_another_engine_agrees_on_a_bid_with_parts(parted, other):
    estimate = parted.estimate()
    assert [row.kind for row in estimate.rows["bid_parts"] if row.kind][-2:] == [2, 3]
    assert differences(estimate, parted.layout, other(parted.path)) == []


@pytest.mark.slow
def test_libreoffice_agrees_on_a_bid_with_parts(parted, libreoffice_here, tmp_path):
    (saved,) = libreoffice([parted.path], tmp_path)
    assert differences(parted.estimate(), parted.layout, Values(saved)) == []


def test_what_an_engine_has_no_function_for_is_told_in_words_and_bears_no_figure(books):
    layout = books["boathouse"].layout
    left_out = resting_on(layout, HyperFormula.LACKS)
    assert (
        len(HyperFormula.LACKS) <= 5 and {"brief.told_price", "brief.words", "bid.price", "bid.name_price"} <= left_out
    )
    assert {layout.places[tuple(name.split("."))].column.quantity for name in left_out} == {"text"}


def _sheets(book):
    """The sheets of a book as they stand in its file, by part."""
    with zipfile.ZipFile(book.path) as parts:
        return {part: parts.read(part).decode() for part in parts.namelist() if part.startswith("xl/worksheets/sheet")}


@EACH_BOOK
def test_every_formula_of_the_file_is_compared(books, name):
    """No formula escapes the comparison: those in the file are those declared, the master check of each sheet, and the
    cells of Summary that look at all and show nothing.
    """
    sheets = _sheets(books[name])
    in_file = sum(len(re.findall(r"<f[ >]", sheet)) for sheet in sheets.values())
    banners = sum(len(BANNER) + (sheet.group != "working") for sheet in SHEETS)
    wakes = [found for sheet in sheets.values() for found in re.findall(r"COUNT\(worked_.*?<v>(.*?)</v>", sheet)]
    assert wakes and not any(wakes)
    assert in_file == sum(1 for _ in formula_cells(books[name].layout)) + banners + len(wakes)


@EACH_BOOK
def test_no_error_value_anywhere(books, name):
    found = {part: re.findall(r"<v>(#[^<]*)", sheet) for part, sheet in _sheets(books[name]).items()}
    assert not any(found.values()), found


@pytest.fixture(scope="module")
def wrong(tmp_path_factory):
    """A live book, and the path of the same with the cached price changed and nothing else."""
    folder = tmp_path_factory.mktemp("wrong")
    book = small_book("us", folder)
    return book, _with_a_wrong_cache(book, folder)


def _with_a_wrong_cache(book, folder):
    price = book.estimate().rows["price"][0].total
    place = book.layout.places["price", "total"]
    number = [sheet.title for sheet in SHEETS].index(place.sheet) + 1
    path = folder / "wrong.xlsx"
    with zipfile.ZipFile(book.path) as parts, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for part in parts.infolist():
            data = parts.read(part)
            if part.filename.endswith(f"/sheet{number}.xml"):
                data = re.sub(rb'(<c [^>]*r="B%d"[^>]*><f[^>]*>[^<]*</f><v>)[^<]*' % place.row, rb"\g<1>99", data)
            out.writestr(part, data)
    assert Values(path).get(place.sheet, place.row, 2) == 99 != price
    return path


@pytest.mark.slow
def test_the_comparison_sees_a_wrong_cached_value(wrong):
    book, path = wrong
    assert [found[0] for found in differences(book.estimate(), book.layout, Values(path))] == ["price.total"]
    assert differences(book.estimate(), book.layout, Addressed(path)) == []


@pytest.mark.slow
def test_libreoffice_recalculates_a_wrong_cached_value(wrong, tmp_path, libreoffice_here):
    book, path = wrong
    (again,) = libreoffice([path], tmp_path / "again")
    assert differences(book.estimate(), book.layout, Values(again)) == []


@pytest.mark.slow
def test_another_engine_recalculates_a_wrong_cached_value(wrong, other):
    book, path = wrong
    assert differences(book.estimate(), book.layout, other(path)) == []
