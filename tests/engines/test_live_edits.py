"""A hundred and fifty edits of tables, pages and sheets in a live LibreOffice, a few in each book: every input that is
left is read, every edit is told once or, where nothing that matters was changed, not at all, and no price is mailed
that is not that of the inputs.
"""

import email
import email.policy
import re
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

import pytest
from support.engines import SETTLED, Values, all_edited_in_libreoffice
from support.live import (
    MAY_BE_TOLD,
    ON_SHEETS,
    ON_TABLES,
    PAGES,
    STOPPED,
    TABLES,
    TOLD,
    packed,
    sheet_edits,
    table_edits,
)

from builder.letter.letter import letter
from builder.problems import Refused
from builder.records.kinds import CATALOGS, KINDS
from builder.returned.read import returned
from builder.review.inspect import DOUBTFUL, inspect
from builder.stages.estimate import Estimate

pytestmark = pytest.mark.slow

RUNNING = "small shed running"
HOLDS = {
    **dict.fromkeys(KINDS, "small shed"),
    "rooms": "small attic",
    **dict.fromkeys(("signed", "contract", "log", "changes", "bills"), RUNNING),
}
OF_TABLES, OF_PAGES = 4, 3  # edits of each
TOGETHER = 6  # in one book
STARTS = 20  # books that one start of LibreOffice edits
IN_INPUTS = ("fault", "check", "catalog")  # kinds of finding that tell what the inputs say, however they came to be


@dataclass(frozen=True)
class Outcome:
    """What a book came back as: its inputs, what is found, the price that would be mailed, the price that it shows."""

    values: dict
    findings: tuple
    sent: float | None
    shown: float | None
    signed: bool


def outcome(path):
    back = returned(path)
    look = inspect(back)
    signed = look.opened.estimate.rows["agreed"][0].signed is not None
    return Outcome(look.opened.values, look.findings, mailed(path), back.saved_price(), signed)


def mailed(path):
    """The price that the letter would mail, of what is signed the contract; None where it refuses."""
    try:
        data, _ = letter(path)
    except Refused:
        return None
    body = email.message_from_bytes(data, policy=email.policy.default).get_body(("plain",)).get_content()
    told = dict(re.findall(r"(Contract with its changes|Price as signed|Price, no sales tax added) +([\d,.]+)", body))
    return float(list(told.values())[-1].replace(",", ""))


@pytest.fixture(scope="module")
def edited_books(books, tmp_path_factory, libreoffice_here):
    """(the edits of a book, its Outcome) of every book."""
    folder = tmp_path_factory.mktemp("live")
    edits = [*table_edits(books, HOLDS, OF_TABLES), *sheet_edits(RUNNING, books[RUNNING], OF_PAGES)]
    made = packed(edits, TOGETHER)
    work = [
        (
            books[first.book].path,
            folder / f"{number}.xlsx",
            (*first.lines, *(line for one in more for line in one.lines), SETTLED),
        )
        for number, (first, *more) in enumerate(made)
    ]
    paths = [
        path
        for begin in range(0, len(work), STARTS)
        for path in all_edited_in_libreoffice(work[begin : begin + STARTS])
    ]
    with ProcessPoolExecutor() as workers:
        return list(zip(made, workers.map(outcome, paths)))


def expected(books, edits):
    """The values of a book after its edits, a table's rows as if they stood in it."""
    return books[edits[0].book].opened.values | {one.kind.key: list(one.rows) for one in edits if one.kind}


def as_counted(kind, rows, units):
    """The rows that hold anything, in no order, their numbers to the digits a file keeps."""
    shown = [
        tuple(
            f"{value:.12g}" if isinstance(value, float) else value
            for value in (units.to_cell(row.get(one.key), one.quantity) for one in kind.fields)
        )
        for row in rows
    ]
    return Counter(row for row in shown if any(value != "" for value in row))


def estimated(book, came):
    """The Estimate of the inputs that were read, in a book with room for them."""
    room = {key: max(rows, len(came.values.get(key, ()))) for key, rows in book.opened.estimate.capacity.items()}
    return Estimate(came.values, book.opened.units, room)


def inherent(findings):
    return [finding for finding in findings if finding.kind in IN_INPUTS]


def test_there_are_150_edits_of_every_table_page_and_kind(edited_books):
    edits = [one for made, _ in edited_books for one in made]
    assert len(edits) >= 150 and {one.kind for one in edits if one.kind} == set(TABLES)
    assert {one.sheet for one in edits} == set(PAGES)
    assert {one.what for one in edits} == {*ON_TABLES, *ON_SHEETS}


def test_every_input_that_is_in_the_book_is_read(books, edited_books):
    lost = []
    for edits, came in edited_books:
        units, want = books[edits[0].book].opened.units, expected(books, edits)
        for kind in TABLES:
            if as_counted(kind, came.values[kind.key], units) != as_counted(kind, want[kind.key], units):
                lost.append((kind.key, edits))
        deleted = [one.sheet for one in edits if one.what.startswith("delete row")]
        for key in ("job", "terms", "weather"):
            given, there = ({name: row for name, row in one[key][0].items()} for one in (want, came.values))
            gone = sum(there.get(name) != value for name, value in given.items())
            if gone > (KINDS[key].sheet in deleted) * (3 if key == "weather" else 1):
                lost.append((key, edits))
    assert lost == []


def test_every_edit_is_told_once_or_not_at_all(edited_books):
    """What the inputs themselves say, a fault or another catalog, is looked at below."""
    wrong = []
    for edits, came in edited_books:
        others = [finding for finding in came.findings if finding.kind not in (*IN_INPUTS, "lost")]
        for one in edits:
            told = [finding for finding in others if of(finding) in one.names()]
            kinds = TOLD.get(one.what, ())
            once = len(told) == bool(kinds) or one.what in MAY_BE_TOLD and not told
            if not once or any(finding.kind not in kinds for finding in told):
                wrong.append((one, [str(finding) for finding in told]))
        names = [name for one in edits for name in one.names()]
        wrong += [(edits, str(finding)) for finding in others if of(finding) not in names]
    assert wrong == []


def of(finding):
    """The sheet that a finding speaks of."""
    said = re.search(r" on the sheet (.+?) was deleted", finding.message)
    return finding.sheet or (said[1] if said else "")


def test_what_the_inputs_say_is_told_once(books, edited_books):
    """Nothing where no fault is in them; no two of one cell, or in the same words; a catalog's record once."""
    wrong = []
    for edits, came in edited_books:
        book = books[edits[0].book]
        found = inherent(came.findings)
        faults = [finding for finding in found if finding.kind == "fault"]
        stopped = estimated(book, came).checks.stops > 0
        catalogs = sum(
            sum((after - before).values()) + sum((before - after).values())
            for kind in CATALOGS
            if not kind.upright
            for before, after in [
                [as_counted(kind, one[kind.key], book.opened.units) for one in (book.opened.values, came.values)]
            ]
        )
        told = [finding for finding in found if finding.kind == "catalog"]
        twice = [place for place, often in Counter((one.sheet, one.cell) for one in faults).items() if often > 1]
        same = [text for text, often in Counter(map(str, came.findings)).items() if often > 1]
        checked = [finding for finding in found if finding.kind == "check"]
        if (
            twice
            or same
            or len(told) > catalogs
            or bool(faults or checked) != stopped
            or (told == []) != (catalogs == 0)
        ):
            wrong.append((edits, catalogs, stopped, [str(finding) for finding in found]))
    assert wrong == []


def test_the_price_that_is_mailed_is_that_of_the_inputs_or_none_is(books, edited_books):
    wrong = []
    for edits, came in edited_books:
        estimate = estimated(books[edits[0].book], came)
        price, agreed = estimate.rows["price"][0].total, estimate.rows["agreed"][0]
        kinds = {finding.kind for finding in came.findings}
        sound = not kinds & set(DOUBTFUL) and not estimate.checks.stops and (came.signed or not estimate.checks.open)
        want = (agreed.contract if came.signed else price) if sound else None
        shown = None if kinds & set(STOPPED) else price
        if came.sent != want or (came.shown != shown and not kinds & {"fixed", "name"}):
            wrong.append((edits, came.sent, want, came.shown, shown))
    assert wrong == []


@pytest.mark.sitting("bedrooms", lambda place: ["untouched = 1"])
def test_a_book_of_rooms_that_is_recalculated_while_open_has_no_error(edited):
    errors = [
        (sheet.title, cell.coordinate)
        for sheet in Values(edited).book
        for row in sheet.iter_rows()
        for cell in row
        if str(cell.value).startswith("#")
    ]
    assert errors == []


def _seventh_row(place):
    at = place["signed", "tag"]
    sheet = f'sheets.getByName("{at.sheet}")'
    yield f"{sheet}.Rows.insertByIndex({at.row + 1}, 1)"
    yield f'{sheet}.getCellByPosition({at.col}, {at.row + 1}).setString("Added")'


@pytest.mark.sitting(RUNNING, _seventh_row)
def test_a_row_inserted_into_a_full_table_is_told_and_read(edited):
    back = returned(edited)
    told = [finding for finding in inspect(back).findings if finding.kind in DOUBTFUL and finding.kind != "fault"]
    assert [(finding.sheet, finding.message) for finding in told] == [
        ("Changes", "Signed plan: 7 rows are filled, and the workbook has room for 6: it shows no price")
    ]
    assert [row["tag"] for row in back.values["signed"]].count("Added") == 1
    assert back.saved_price() in (None, "")
