"""Every formula cell: cached value = model = what five spreadsheet engines work out from scratch, in both unit systems."""
import re
import zipfile

import pytest
from conftest import BOOKS
from engines import IronCalc, Values, differences, formula_cells, libreoffice, resting_on
from more_engines import Formualizer, Gnumeric, HyperFormula

from builder.stages.order import SHEETS


@pytest.mark.parametrize("name", BOOKS)
def test_cached_values_are_the_model(books, name):
    book = books[name]
    assert differences(book.estimate, book.layout, Values(book.path)) == []


@pytest.mark.parametrize("name", BOOKS)
def test_ironcalc_agrees(books, name):
    book = books[name]
    engine = IronCalc(book.path)
    assert differences(book.estimate, book.layout, engine) == []
    assert engine.get("Takeoff", 2, 1) == book.estimate.rows["brief"][0].words      # result and master check in the frozen rows


@pytest.fixture(scope="session")
def recalculated(books, tmp_path_factory, libreoffice_here):
    paths = libreoffice([book.path for book in books.values()], tmp_path_factory.mktemp("libreoffice"))
    return dict(zip(books, paths))


@pytest.mark.parametrize("name", BOOKS)
def test_libreoffice_agrees(books, recalculated, name):
    book = books[name]
    assert differences(book.estimate, book.layout, Values(recalculated[name])) == []


@pytest.fixture(scope="session", params=[Formualizer, Gnumeric, HyperFormula])
def other(request):
    """An engine beside the first two."""
    request.getfixturevalue(f"{request.param.__name__.lower()}_here")
    return request.param


@pytest.mark.parametrize("name", BOOKS)
def test_another_engine_agrees(books, other, name):
    book = books[name]
    assert differences(book.estimate, book.layout, other(book.path)) == []


def test_what_an_engine_has_no_function_for_is_told_in_words_and_bears_no_figure(books):
    layout = books["boathouse"].layout
    left_out = resting_on(layout, HyperFormula.LACKS)
    assert len(HyperFormula.LACKS) <= 5 and {"brief.told_price", "brief.words", "bid.price", "bid.name_price"} <= left_out
    assert {layout.places[tuple(name.split("."))].column.quantity for name in left_out} == {"text"}


def test_every_formula_of_the_file_is_compared(books):
    """No formula escapes the comparison: those in the file are those declared, and the master check of each sheet."""
    for book in books.values():
        with zipfile.ZipFile(book.path) as parts:
            sheets = [parts.read(part).decode() for part in parts.namelist() if part.startswith("xl/worksheets/sheet")]
        in_file = sum(len(re.findall(r"<f[ >]", sheet)) for sheet in sheets)
        assert in_file == sum(1 for _ in formula_cells(book.layout)) + len(sheets)


def _with_a_wrong_cache(book, folder):
    """The book with the cached price changed and nothing else."""
    price = book.estimate.rows["price"][0].total
    place = book.layout.places["price", "total"]
    number = [sheet.title for sheet in SHEETS].index("Price") + 1
    path = folder / "wrong.xlsx"
    with zipfile.ZipFile(book.path) as parts, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for part in parts.infolist():
            data = parts.read(part)
            if part.filename.endswith(f"/sheet{number}.xml"):
                data = re.sub(rb'(<c [^>]*r="B%d"[^>]*><f[^>]*>[^<]*</f><v>)[^<]*' % place.row, rb"\g<1>99", data)
            out.writestr(part, data)
    assert Values(path).get("Price", place.row, 2) == 99 != price
    return path


def test_the_comparison_sees_a_wrong_cached_value(books, tmp_path):
    book = books["boathouse"]
    path = _with_a_wrong_cache(book, tmp_path)
    assert [found[0] for found in differences(book.estimate, book.layout, Values(path))] == ["price.total"]
    assert differences(book.estimate, book.layout, IronCalc(path)) == []


def test_libreoffice_recalculates_a_wrong_cached_value(books, tmp_path, libreoffice_here):
    book = books["boathouse"]
    again, = libreoffice([_with_a_wrong_cache(book, tmp_path)], tmp_path / "again")
    assert differences(book.estimate, book.layout, Values(again)) == []


def test_another_engine_recalculates_a_wrong_cached_value(books, tmp_path, other):
    book = books["boathouse"]
    assert differences(book.estimate, book.layout, other(_with_a_wrong_cache(book, tmp_path))) == []


def test_no_error_value_anywhere(books):
    for book in books.values():
        with zipfile.ZipFile(book.path) as parts:
            assert not any(re.search(rb"<v>#", parts.read(part)) for part in parts.namelist() if part.startswith("xl/worksheets"))
