"""A workbook comes back with things typed in it and moved: understood, told, or travelling on as it stands."""

import copy
import io

import pytest
from support.engines import SETTLED
from support.parcels import packed, parts, patched, sheet_part
from support.returning import at, entered, inputs, satin
from support.small import CATALOGS

from builder.cli import main
from builder.jobs import open_job
from builder.records.kinds import KINDS
from builder.returned.read import LATER, returned
from builder.returned.taken import as_job, taken
from builder.review.inspect import inspect

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]


def found(data):
    return [(one.kind, one.sheet, one.cell) for one in inspect(returned(io.BytesIO(data)), [CATALOGS]).findings]


def takeoff(book, key, row, new):
    """The bytes of a book with another element of XML for a cell of Takeoff, whose style is \\1 in it."""
    _, cell = at(book, "takeoff", key, row)
    name = cell.encode()
    return patched(
        book.data,
        sheet_part(book.data, "Takeoff"),
        rb'<c r="' + name + rb'" (s="\d+")><v>[^<]*</v></c>',
        b'<c r="' + name + rb'" \1' + new,
    )


def typed(book, key, row, text):
    """The bytes of a book with a text typed into a numeric column of Takeoff."""
    return takeoff(book, key, row, b' t="inlineStr"><is><t>' + text.encode() + b"</t></is></c>")


# ---- what was typed is understood, or travels as it stands
# -------------------------------------------------------------------


def test_a_cell_that_cannot_be_understood_travels_as_an_unfinished_job(books, tmp_path, capsys):
    book = tmp_path / "typed.xlsx"
    book.write_bytes(typed(books["small shed"], "length", 1, "about twelve"))
    job, again = tmp_path / "job.yaml", tmp_path / "again.xlsx"
    assert main(["read", str(book), "-o", str(job), "--catalogs", str(CATALOGS)]) == 1
    said = capsys.readouterr()
    assert (
        f"{book}: Takeoff D6: Length: 'about twelve' is not a number with a unit" in said.err
        and "NO PRICE: Takeoff, row 6: length: enter a number from 0 to 5,000 ft" in said.out
    )
    assert "unfinished: yes" in job.read_text() and "length: about twelve" in job.read_text()
    assert main(["build", str(job), "-o", str(again), "--catalogs", str(CATALOGS)]) == 0
    assert "warning: Length: 'about twelve'" in capsys.readouterr().err
    back = returned(again)
    assert back.values["takeoff"][1]["length"] == "about twelve"
    assert as_job(taken(back), [CATALOGS]) == job.read_text()


LENGTHS = ("14 ft", "4,2672 m", "14'", "168 in")


def test_lengths_in_words_give_the_job_with_the_numbers(books):
    book = books["small shed"]
    want = copy.deepcopy(inputs(book.opened.values))
    values = taken(
        returned(io.BytesIO(entered(book, {("takeoff", "length", row): text for row, text in enumerate(LENGTHS)})))
    ).opened.values
    for row, text in enumerate(LENGTHS):
        assert values["takeoff"][row]["length"] == pytest.approx(14 * 0.3048, rel=1e-12), text
        values["takeoff"][row]["length"] = want["takeoff"][row]["length"] = 14 * 0.3048
    assert inputs(values) == want


def test_a_formula_that_was_never_worked_out_is_named(books):
    book = books["small shed"]
    assert ("formula without a value", *at(book, "takeoff", "length")) in found(
        takeoff(book, "length", 0, b"><f>12+14</f></c>")
    )


def test_values_older_than_their_inputs_are_stale(books):
    assert [
        (kind, sheet) for kind, sheet, _ in found(takeoff(books["small shed"], "length", 0, b"><v>99</v></c>"))
    ] == [("stale", "Price workings")]


def test_a_deleted_name_is_told(books):
    book = returned(
        io.BytesIO(
            patched(
                books["small shed"].data,
                "xl/workbook.xml",
                rb'<definedName name="areas_coated">[^<]*</definedName>',
                b"",
            )
        )
    )
    assert [(one.kind, one.message) for one in inspect(book, [CATALOGS]).findings] == [
        (
            "name",
            "Coated area on the sheet Areas was deleted, or its defined name points nowhere: formulas that use it show an error",
        )
    ]


def test_the_name_of_a_fact_of_the_book_may_be_gone(books):
    """What the book was made with counts, and nothing was said otherwise."""
    made = books["small shed"].data
    gone = patched(made, "xl/workbook.xml", rb'<definedName name="book_coats_lines">[^<]*</definedName>', b"")
    back = returned(io.BytesIO(gone))
    assert back.settings == returned(io.BytesIO(made)).settings and back.settings["coats_lines"] != LATER["coats_lines"]
    assert [one.kind for one in inspect(back, [CATALOGS]).findings] == ["name"]


def test_a_sheet_whose_new_name_has_an_apostrophe_is_found(books):
    book = books["small shed"]
    contents = parts(book.data)
    contents["xl/workbook.xml"] = (
        contents["xl/workbook.xml"]
        .replace(b'<sheet name="Takeoff"', b'<sheet name="Owner\'s"')
        .replace(b">'Takeoff'!", b">'Owner''s'!")
    )
    back = returned(io.BytesIO(packed(contents)))
    assert back.place("takeoff", "tag")[0] == "Owner's"
    assert inputs(back.values) == inputs(book.opened.values)


def test_a_fault_is_told_by_its_cell(books):
    book = entered(books["small shed"], {("coats", "coating", 1): "House paint", ("coats", "share", 2): "#N/A"})
    coating, share = (books["small shed"].layout.places["coats", key] for key in ("coating", "share"))
    told = {
        (one.kind, one.cell): one.message for one in taken(returned(io.BytesIO(book))).findings if one.sheet == "Paint"
    }
    assert told["cell", f"{chr(65 + share.col)}{share.row + 2}"] == "Share: the cell shows the error #N/A"
    assert told["fault", f"{chr(65 + coating.col)}{coating.row + 1}"].startswith(
        "Coats, coating: 'House paint' is not in Coatings"
    )


def test_a_catalog_name_that_stands_twice_stays_a_fault(books, tmp_path):
    no = satin(books["small shed"])
    copied = {
        ("coatings", one.key, 17): value
        for one in KINDS["coatings"].fields
        if (
            value := books["small shed"].opened.units.to_cell(
                books["small shed"].opened.values["coatings"][no].get(one.key), one.quantity
            )
        )
        != ""
    }
    assert len(books["small shed"].opened.values["coatings"]) == 17
    one = taken(returned(io.BytesIO(entered(books["small shed"], copied))))
    assert one.unfinished
    (tmp_path / "job.yaml").write_text(as_job(one, [CATALOGS]))
    again = open_job(tmp_path / "job.yaml", [CATALOGS])
    assert (
        again.price() is None
        and again.estimate.checks.faults_coatings == one.opened.estimate.checks.faults_coatings == 2
    )


# ---- rows and sheets, in LibreOffice
# -----------------------------------------------------------------------------------------------


def _first(place):
    first = place["takeoff", "system"].row - 1
    yield f'sheets.getByName("Takeoff").Rows.insertByIndex({first}, 1)'
    for key, put in (("system", 'setString("Boards")'), ("length", "setValue(10)"), ("height", "setValue(10)")):
        yield f'sheets.getByName("Takeoff").getCellByPosition({place["takeoff", key].col}, {first}).{put}'


@pytest.mark.sitting("small shed", _first)
def test_a_row_inserted_over_the_first_is_taken_in(books, edited):
    one, first = taken(returned(edited)), books["small shed"].layout.places["takeoff", "system"].row
    assert [(finding.kind, finding.sheet, finding.cell) for finding in one.findings] == [
        ("row above", "Takeoff", f"row {first}")
    ]
    row = one.opened.values["takeoff"][-1]
    assert (row["system"], row["length"], row["height"]) == ("Boards", pytest.approx(3.048), pytest.approx(3.048))
    assert one.opened.price() > books["small shed"].opened.price()


@pytest.mark.sitting(
    "small shed",
    lambda place: [
        'sheets.getByName("Job").getCellRangeByName("H7").setString("ask Ann")',
        f'sheets.getByName("Takeoff").getCellByPosition({place["takeoff", "item"].col}, 899).setString("see photo")',
        'sheets.insertNewByName("My notes", 3)',
        'sheets.getByName("My notes").getCellRangeByName("A1").setString("call back")',
        SETTLED,
    ],
)
def test_notes_beside_the_inputs_and_sheets_of_a_persons_own_are_told(books, edited):
    far = books["small shed"].layout.places["takeoff", "item"]
    one = inspect(returned(edited), [CATALOGS])
    unlocked, *findings = one.findings  # the sitting took the protection off
    assert unlocked.kind == "lost" and [str(finding) for finding in findings] == [
        "Job H7: 'ask Ann' is ignored: not an input cell",
        f"Takeoff {chr(65 + far.col)}900: 'see photo' is ignored: not an input cell",
        "My notes: this sheet was added (it is not part of the estimate and is not carried over)",
    ]
    assert one.taken.opened.price() == books["small shed"].opened.price() and one.touched == (*findings,)


@pytest.mark.sitting(
    "small shed",
    lambda place: [f'sheets.getByName("Takeoff").Rows.removeByIndex({place["takeoff", "tag"].row + 40}, 1)'],
)
def test_a_row_that_was_deleted_does_no_harm(books, edited):
    back = returned(edited)
    (unlocked,) = inspect(back, [CATALOGS]).findings
    assert unlocked.kind == "lost" and back.saved_price() == books["small shed"].opened.price()


@pytest.mark.parametrize("value", [20260511.0, ("20260510+1", 20260511.0)])
def test_a_date_typed_as_its_digits_in_a_plain_cell_is_a_fault_of_the_cell(books, tmp_path, value):
    """No calendar has that day; the cell has lost its look of a date, as where another one was pasted over it."""
    book = books["small attic"]
    sheet, cell = at(book, "job", "date")
    plain_cell = patched(
        entered(book, {("job", "date"): value}),
        sheet_part(book.data, sheet),
        f'(<c r="{cell}") s="\\d+"'.encode(),
        rb"\1",
    )
    one = taken(returned(io.BytesIO(plain_cell)))
    assert one.opened.price() is None
    assert f"{sheet} {cell}: Job, date of the estimate: '20260511' is not allowed; " in str(one.findings[-1])
    path = tmp_path / "job.yaml"
    path.write_text(as_job(one, [CATALOGS]))
    told = [problem.message for problem in open_job(path, [CATALOGS]).problems]
    assert [message for message in told if "20260511" in message] == ["Date of the estimate: '20260511' is not a date"]


def test_a_space_behind_a_name_is_told_for_the_workbook_does_not_know_it(books):
    book = books["small attic"]
    system = book.opened.values["coats"][0]["system"]
    one = taken(returned(io.BytesIO(entered(book, {("coats", "system"): f"{system} "}))))
    assert [(f.sheet, f.cell, f.message, f.hint) for f in one.findings] == [
        (
            *at(book, "coats", "system"),
            f"System: '{system} ' has a space around it, and so is no such name in the workbook; read without",
            "type it again",
        )
    ]
    assert one.opened.price() == book.opened.price()


def test_hidden_characters_pasted_into_a_text_leave_a_job_that_builds(books, tmp_path):
    """What is copied from a web page has spaces that do not break; a job file may not hold what nobody sees."""
    book = books["small attic"]
    typed = {
        ("job", "client"): "Ann\u00a0Doe\u200b",
        ("coats", "color"): "Chalk\u202f",
        ("rooms", "name"): "\u202eFront",
    }
    one = taken(returned(io.BytesIO(entered(book, typed))))
    assert [(f.sheet, f.cell, f.message) for f in one.findings] == [
        (*at(book, "job", "client"), "Client: the text holds characters that nobody sees; read as Ann Doe"),
        (*at(book, "coats", "color"), "Color: the text holds characters that nobody sees; read as Chalk "),
        (*at(book, "rooms", "name"), "Room: the text holds characters that nobody sees; read as Front"),
    ]
    path = tmp_path / "job.yaml"
    path.write_text(as_job(one, [CATALOGS]))
    again = open_job(path, [CATALOGS])
    assert not again.errors and again.price() == one.opened.price() == book.opened.price()
