"""What a person touched in a returned workbook beside its inputs: each told once, nothing mailed that may be false,
nothing lost.
"""

import pytest
from support.parcels import retyped
from support.returning import inputs
from support.small import CATALOGS
from xlsxwriter.utility import xl_col_to_name

from builder.cli import main
from builder.jobs import open_job
from builder.letter.letter import letter
from builder.problems import Refused
from builder.records.versions import SCHEMA
from builder.returned.read import returned
from builder.returned.taken import as_job, taken
from builder.review.inspect import inspect

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]


@pytest.fixture
def looked(books, tmp_path):
    """looked(changes, name) -> the path of a book with some cells retyped, and what `inspect` finds in it."""

    def look(changes, name="small shed"):
        path = tmp_path / "book.xlsx"
        path.write_bytes(retyped(books[name].data, changes))
        return path, inspect(returned(path), [CATALOGS])

    return look


def at(books, block, key, row=0, name="small shed"):
    """The sheet and cell of a place."""
    place = books[name].layout.places[block, key]
    return place.sheet, f"{chr(65 + place.col)}{place.row + row}"


def told(look):
    """What is found, but for the protection, which a sitting takes off."""
    return [(one.kind, one.sheet, one.cell, one.message) for one in look.findings if one.kind != "lost"]


def refused(path):
    with pytest.raises(Refused) as caught:
        letter(path)
    (problem,) = caught.value.problems
    return problem.message


def test_facts_changed_on_the_first_sheet_are_told_with_both_values(books, looked, tmp_path):
    facts = (
        ("currency", "Currency", "EUR", "USD"),
        ("units", "Units", "metric", "us"),
        ("exchange", "Worth of one unit of the catalogs' currency", 0.5, "1"),
        ("lines", "Rows of Takeoff", 40.0, "50"),
    )
    path, look = looked({at(books, "book", key): typed for key, _, typed, _ in facts})
    want = []
    for key, title, typed, made in facts:
        shown = f"{typed:g}" if isinstance(typed, float) else typed
        words = f"{title} was changed to '{shown}'; the workbook was built with '{made}', which counts"
        want.append(("start", "Sources", at(books, "book", key)[1], words))
    assert sorted(told(look)) == sorted(want)
    assert refused(path).startswith(f"its price may be wrong: {look.findings[0]}; and 3 more")
    (tmp_path / "job.yaml").write_text(as_job(look.taken, [CATALOGS]))
    assert open_job(tmp_path / "job.yaml", [CATALOGS]).price() == books["small shed"].opened.price()


@pytest.mark.parametrize(
    "text",
    [
        "{units: us}",
        "{units: us, currency: USD, exchange: one, lines: 100}",
        "{units: us, currency: USD, exchange: 1, lines: [100]}",
        "{units: furlongs, currency: USD, exchange: 1, lines: 100}",
        "{units: us, currency: USD, exchange: 1e400, lines: 100}",
        "{units",
        "[1]",
    ],
)
def test_a_first_line_of_as_issued_that_was_bent_is_refused_in_words(books, tmp_path, text):
    path = tmp_path / "book.xlsx"
    path.write_bytes(retyped(books["small shed"].data, {at(books, "issued", "text"): text}))
    with pytest.raises(Refused) as caught:
        returned(path)
    assert len(caught.value.problems) == 1 and str(caught.value).startswith(f"{path}")


@pytest.mark.parametrize(
    "text", ["{name: standard, los_factor: 1}", "{name: standard", "standard", "{name: standard, life: 45 miles}"]
)
def test_a_record_of_as_issued_that_was_bent_is_refused_by_its_name(books, tmp_path, text):
    """Whoever looks at a workbook is not told of YAML in a sheet of workings."""
    path, book = tmp_path / "book.xlsx", books["small shed"]
    texts = returned(book.path).shown("issued_text")
    row = next(no for no, one in enumerate(texts) if one and one.startswith("{name: standard,"))
    path.write_bytes(retyped(book.data, {at(books, "issued", "text", row): text}))
    with pytest.raises(Refused) as caught:
        returned(path)
    assert str(caught.value) == (
        f"{path}: the sheet As issued was changed: its row of standard (Nozzle families) is not as it was built "
        "(undo that change, or build the workbook again)"
    )


def test_an_unknown_word_there_is_not_believed(books, tmp_path):
    path = tmp_path / "book.xlsx"
    text = "{units: us, currency: USD, exchange: 1, lines: 50, schema: 7, nonsense: 1}"
    path.write_bytes(retyped(books["small shed"].data, {at(books, "issued", "text"): text}))
    assert returned(path).settings["schema"] == SCHEMA and returned(path).restated == []


def test_a_lone_space_is_told_and_taken_as_blank(books, looked):
    sheet, cell = at(books, "takeoff", "length", 20)
    path, look = looked({(sheet, cell): " "})
    assert told(look)[0] == (
        "space",
        sheet,
        cell,
        "Length: a space, which the workbook counts as an entry; read as blank",
    )
    assert [kind for kind, *_ in told(look)] == ["space", "stale"]  # nothing has recalculated it here
    assert look.taken.opened.price() == books["small shed"].opened.price()
    assert refused(path).startswith(f"its price may be wrong: {sheet} {cell}: Length: a space, which")


def test_what_the_maker_wrote_is_told_when_it_is_another(books, looked):
    header, label = (at(books, *one) for one in (("takeoff", "length"), ("checks", "stops")))
    cells = [
        at(books, *one)
        for one in (("constants", "cover"), ("words", "finish"), ("least", "takeoff_length"), ("sources", "says"))
    ]
    cells += [(header[0], header[1].replace("5", "4")), (label[0], label[1].replace("B", "A"))]
    path, look = looked({cell: "something else" for cell in cells})
    assert sorted((kind, *place) for kind, *place, _ in told(look)) == sorted(("fixed", *cell) for cell in cells)
    assert all(message.endswith("' was changed to 'something else'") for *_, message in told(look)), told(look)
    sheet, cell = look.findings[0].sheet, look.findings[0].cell
    assert refused(path).startswith(f"its price may be wrong: {sheet} {cell}: {look.findings[0].message}")


def test_headers_and_the_banner_are_told_in_both_wordings_a_run_of_headers_once(books, looked):
    sheet, cell = at(books, "takeoff", "height")
    header = cell.replace("5", "4")
    _, look = looked(
        {
            (sheet, header): "Height (m)",
            (sheet, "A2"): "Price 100.00 USD",
            **{(sheet, f"{letter}4"): "" for letter in "ABC"},
        }
    )
    assert sorted(told(look)) == sorted(
        [
            ("fixed", "Takeoff", header, "'Height (ft)' was changed to 'Height (m)'"),
            ("fixed", "Takeoff", "A2", "'=brief_state' was changed to 'Price 100.00 USD'"),
            ("fixed", "Takeoff", "A4:C4", "'System' is gone"),
        ]
    )


def test_a_formula_typed_into_an_input_is_told_with_its_value(books, looked, capsys):
    sheet, cell = at(books, "takeoff", "length")
    path, look = looked({(sheet, cell): ("12+6+6", 24.0)})
    assert told(look) == [("formula typed", sheet, cell, "Length: the formula =12+6+6 is read as its value, 24 ft")]
    letter(path)  # the price is not in doubt
    assert main(["read", str(path), "--catalogs", str(CATALOGS)]) == 1
    assert f"{sheet} {cell}: Length: the formula =12+6+6 is read as its value, 24 ft" in capsys.readouterr().err


# ---- rows and sheets, in LibreOffice
# -----------------------------------------------------------------------------------------------


def error_cells(back, title):
    return [cell.coordinate for row in back.book[title].iter_rows() for cell in row if str(cell.value).startswith("#")]


def _row_under(place):
    under = place["takeoff", "system"].row - 1 + place["takeoff", "system"].rows
    yield f'sheets.getByName("Takeoff").Rows.insertByIndex({under}, 1)'
    for key, put in (("system", 'setString("Boards")'), ("length", "setValue(10)"), ("height", "setValue(10)")):
        yield f'sheets.getByName("Takeoff").getCellByPosition({place["takeoff", key].col}, {under}).{put}'


@pytest.mark.sitting("small shed", _row_under)
def test_a_row_inserted_directly_under_a_table_stops_the_price_and_is_named(books, edited):
    place, back = books["small shed"].layout.places, returned(edited)
    under, beyond = place["takeoff", "system"].row + place["takeoff", "system"].rows, place["checks", "beyond_takeoff"]
    assert back.saved_price() is None and back.book[beyond.sheet].cell(beyond.row, beyond.col + 1).value == 3
    assert refused(edited).startswith(
        f"its price may be wrong: Takeoff row {under}: 'Boards, 10 ft, 10 ft' is below the table"
    )
    assert taken(back).opened.price() > books["small shed"].opened.price()


@pytest.mark.sitting(
    "small shed",
    lambda place: [
        'sheet = sheets.getByName("Takeoff")',
        f'source = sheet.getCellRangeByName("A5:{xl_col_to_name(place["takeoff", "note"].col)}5")',
        'sheet.moveRange(sheet.getCellRangeByName("A40").CellAddress, source.RangeAddress)',
    ],
)
def test_the_first_row_cut_leaves_no_error_beside_it(books, edited):
    back = returned(edited)
    told = [one.kind for one in inspect(back, [CATALOGS]).findings]
    assert error_cells(back, "Takeoff") == [] and told == ["lost"]  # the protection, which the sitting took off
    assert back.saved_price() == books["small shed"].opened.price()


@pytest.mark.parametrize("row, count", [(4, 1), (5, 1), (6, 3)])
@pytest.mark.sitting(
    "small shed",
    lambda place, row, count: [
        f'sheets.getByName("Takeoff").Rows.insertByIndex({row}, {count})',
        f'sheets.getByName("Takeoff").Rows.removeByIndex({row + 20}, {count})',
        f'sheets.getByName("Paint").Rows.insertByIndex({row}, {count})',
    ],
)
def test_rows_inserted_and_deleted_leave_no_error_beside_the_table(books, edited, row, count):
    back = returned(edited)
    assert error_cells(back, "Takeoff") == error_cells(back, "Paint") == []
    assert back.saved_price() == books["small shed"].opened.price()


@pytest.mark.sitting("small shed", lambda place: ['sheets.getByName("Kit").Rows.removeByIndex(3, 1)'])
def test_a_header_row_that_was_deleted_is_told_and_nothing_is_counted_wrong(books, edited):
    back = returned(edited)
    look = inspect(back, [CATALOGS])
    assert told(look) == [("fixed", "Kit", "row 4", "the header row was deleted")]
    assert back.saved_price() == books["small shed"].opened.price() == look.taken.opened.price()


@pytest.mark.sitting("small corridor", lambda place: ['sheets.removeByName("Kit")'])
def test_an_empty_sheet_that_was_deleted_costs_nothing_else(books, edited):
    look = inspect(returned(edited), [CATALOGS])
    assert told(look)[0] == ("sheet", "Kit", "", "the sheet was deleted; its entries are read as blank")
    assert {kind for kind, *_ in told(look)} == {"sheet"}
    want = inputs(books["small corridor"].opened.values) | {"kit": [], "guards": []}
    assert inputs(look.taken.opened.values) == want
    assert "the sheet was deleted" in refused(edited)


@pytest.mark.sitting("small shed", lambda place: ['sheets.removeByName("Job")'])
def test_the_sheet_job_that_was_deleted_leaves_the_rest(books, edited, tmp_path):
    look = inspect(returned(edited), [CATALOGS])
    assert told(look)[0] == ("sheet", "Job", "", "the sheet was deleted; its entries are read as blank")
    want = inputs(books["small shed"].opened.values) | {"job": []}
    assert inputs(look.taken.opened.values) == want and look.taken.opened.price() is None
    (tmp_path / "job.yaml").write_text(as_job(look.taken, [CATALOGS]))
    assert inputs(open_job(tmp_path / "job.yaml", [CATALOGS]).values) == want


@pytest.mark.sitting("small shed", lambda place: ['sheets.removeByName("Pumps")'])
def test_a_catalog_sheet_that_was_deleted_is_taken_as_it_was_issued(books, edited):
    look = inspect(returned(edited), [CATALOGS])
    assert told(look)[0] == ("sheet", "Pumps", "", "the sheet was deleted; its records are read as they were issued")
    assert look.taken.opened.price() == books["small shed"].opened.price()


@pytest.mark.sitting(
    "small shed", lambda place: ['sheets.copyByName("Takeoff", "Takeoff again", 3)', 'sheets.removeByName("Takeoff")']
)
def test_a_copy_stands_in_for_the_sheet_it_was_made_of(books, edited):
    look = inspect(returned(edited), [CATALOGS])
    assert (
        "sheet",
        "Takeoff again",
        "",
        "a copy of a sheet that was deleted; what is typed here is read, but the workbook's formulas do not use it",
    ) in told(look)
    assert inputs(look.taken.opened.values) == inputs(books["small shed"].opened.values)
    refused(edited)
