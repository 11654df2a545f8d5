"""Sixty edits of the tables of entries in a live LibreOffice: no input is lost, and no price is mailed that is not that
of the inputs.
"""

import copy
import email
import email.policy
import re
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

import pytest
from support.engines import SETTLED, Values, all_edited_in_libreoffice
from support.returning import inputs

from builder.letter.letter import letter
from builder.problems import Refused
from builder.records.kinds import KINDS
from builder.returned.read import returned
from builder.returned.taken import taken
from builder.stages.estimate import Estimate

pytestmark = pytest.mark.slow

TABLES = tuple(kind for kind in KINDS.values() if not kind.upright)
ACTIONS = (
    "insert top",
    "insert middle",
    "insert bottom",
    "insert below",
    "delete top",
    "delete middle",
    "delete bottom",
    "cut top inside",
    "cut middle inside",
    "cut last inside",
    "cut top below",
)
EACH = 4  # edits of each table
STOPPED = ("insert top", "insert below", "cut top below")  # the row stands outside its table: the price stops
# nothing stands in the way of the letter
FREE = ("insert middle", "delete bottom", "cut top inside", "cut middle inside", "cut last inside")


@dataclass(frozen=True)
class Edit:
    """One edit of one table of a book: the lines that make it, and the rows that are there afterwards."""

    book: object
    kind: object
    action: str
    lines: tuple
    rows: tuple


def _added(book, kind):
    """A record like the first one that may stand beside it."""
    row = dict(book.opened.values[kind.key][0])
    if kind.key == "nozzles":
        taken = {one["size"] for one in book.opened.values["nozzles"] if one["family"] == row["family"]}
        row["size"] = next(size for size in ("523", "525", "529", "531") if size not in taken)
    elif kind.named:
        row[kind.named] = "Added" if kind.field_of[kind.named].required else None
    return {one.key: row.get(one.key) for one in kind.fields}


def _typed(sheet, book, kind, row, values):
    """Lines that type a record into a row of the sheet, from 0."""
    for one in kind.fields:
        value = book.opened.units.to_cell(values.get(one.key), one.quantity)
        if value != "":
            cell = f"{sheet}.getCellByPosition({book.layout.places[kind.key, one.key].col}, {row})"
            yield f'{cell}.setString("{value}")' if isinstance(value, str) else f"{cell}.setValue({value:.15g})"


def _cut(sheet, book, kind, row, to_row):
    """Lines that cut the entries of a row and paste them on another."""
    cols = [book.layout.places[kind.key, one.key].col for one in kind.fields]
    yield f"source = {sheet}.getCellRangeByPosition({cols[0]}, {row}, {cols[-1]}, {row})"
    yield f"{sheet}.moveRange({sheet}.getCellByPosition({cols[0]}, {to_row}).CellAddress, source.RangeAddress)"


def edit(book, kind, action):
    place = book.layout.places[kind.key, kind.fields[0].key]
    first, room = place.row - 1, place.rows
    rows = [{one.key: row.get(one.key) for one in kind.fields} for row in book.opened.values[kind.key]]
    filled = len(rows)
    sheet = f'sheets.getByName("{place.sheet}")'
    what, where, *to = action.split()
    at = first + {"top": 0, "middle": filled // 2, "last": filled - 1, "bottom": room - 1, "below": room}[where]
    if what == "insert":
        added = _added(book, kind)
        return Edit(
            book,
            kind,
            action,
            (f"{sheet}.Rows.insertByIndex({at}, 1)", *_typed(sheet, book, kind, at, added)),
            (*rows, added),
        )
    if what == "delete":
        kept = [row for number, row in enumerate(rows) if first + number != at]
        return Edit(book, kind, action, (f"{sheet}.Rows.removeByIndex({at}, 1)",), tuple(kept))
    target = first + (room if to == ["below"] else room - 1)
    return Edit(book, kind, action, tuple(_cut(sheet, book, kind, at, target)), tuple(rows))


@pytest.fixture(scope="module")
def edits(books, tmp_path_factory, libreoffice_here):
    """Every table with four of the actions, each action with five tables or more; one Edit and its outcome each."""
    folder = tmp_path_factory.mktemp("live")
    found = [
        edit(books["attic" if kind.key == "rooms" else "shed"], kind, ACTIONS[(EACH * number + step) % len(ACTIONS)])
        for number, kind in enumerate(TABLES)
        for step in range(EACH)
    ]
    paths = all_edited_in_libreoffice(
        [(one.book.path, folder / f"{number}.xlsx", (*one.lines, SETTLED)) for number, one in enumerate(found)]
    )
    with ProcessPoolExecutor() as workers:
        return list(zip(found, workers.map(outcome, paths)))


def outcome(path):
    """(the inputs that are read, the price that would be mailed, the price that the book shows) of an edited book."""
    back = returned(path)
    return taken(back).opened.values, mailed(path), back.saved_price()


def as_counted(kind, rows, units):
    """The rows that hold anything, in no order, their numbers to the digits a file keeps."""
    shown = [
        tuple(
            f"{value:.12g}" if isinstance(value, float) else value
            for value in (units.to_cell(row.get(one.key), one.quantity) for one in kind.fields)
        )
        for row in rows
    ]
    return sorted((row for row in shown if any(value != "" for value in row)), key=str)


def mailed(path):
    """The price that the letter would mail; None where it refuses."""
    try:
        data, _ = letter(path)
    except Refused:
        return None
    body = email.message_from_bytes(data, policy=email.policy.default).get_body(("plain",)).get_content()
    return float(re.search(r"Price, no sales tax added +([\d,.]+)", body)[1].replace(",", ""))


def test_there_are_sixty_edits_of_every_table_and_kind(edits):
    assert len(edits) >= 60 and {one.kind.key for one, _ in edits} == {kind.key for kind in TABLES}
    assert {one.action for one, _ in edits} == set(ACTIONS)


def test_every_input_that_is_in_the_book_is_read(edits):
    lost = []
    for one, (values, _, _) in edits:
        book = one.book
        for kind in TABLES:
            want = one.rows if kind is one.kind else book.opened.values[kind.key]
            if as_counted(kind, values[kind.key], book.opened.units) != as_counted(kind, want, book.opened.units):
                lost.append((one.kind.key, one.action, kind.key))
        if inputs(values)["job"] != inputs(book.opened.values)["job"]:
            lost.append((one.kind.key, one.action, "job"))
    assert lost == []


def test_the_price_that_is_mailed_is_that_of_the_inputs_or_none_is(edits):
    wrong = []
    for one, (_, sent, shown) in edits:
        book = one.book
        values = copy.deepcopy(book.opened.values) | {one.kind.key: list(one.rows)}
        price = Estimate(values, book.opened.units, book.opened.estimate.capacity).rows["price"][0].total
        stopped = (
            one.action in STOPPED
            and one.rows != tuple(book.opened.values[one.kind.key])
            or one.action == "cut top below"
        )
        if (
            (sent is not None and (sent != price or stopped))
            or (stopped and shown is not None)
            or (one.action in FREE and sent != price)
        ):
            wrong.append((one.kind.key, one.action, sent, shown, price))
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
