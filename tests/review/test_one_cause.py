"""Findings of one cause are told as one, each of several causes by itself."""

import pytest
from openpyxl import load_workbook
from support.books import SMALL, catalogs_of, room_of

from builder.returned.findings import Finding
from builder.returned.read import returned
from builder.review.causes import ALIKE, MANY, gathered
from builder.review.inspect import inspect

pytestmark = pytest.mark.slow

NAME = SMALL + "boathouse"


def blank(row, sheet="Takeoff", column="D"):
    return Finding("fault", sheet, f"{column}{row}", f"length: blank in '{row}'", "type it")


def test_rows_alike_in_a_column_are_one():
    (one,) = gathered(blank(row) for row in (5, 6, 7, 9, 12, 13))
    assert (one.cell, one.hint) == ("D5", "type it")
    assert one.message == "length: blank in '5'; and 5 more alike: D6:D7, D9, D12:D13"


def test_rows_without_a_cell_are_runs_too():
    (one,) = gathered(Finding("fault", "Takeoff", f"row {row}", "blank") for row in range(5, 10))
    assert one.message == "blank; and 4 more alike: row 6 to row 9"


@pytest.mark.parametrize(
    "findings",
    [
        [blank(row) for row in range(ALIKE - 1)],
        [blank(5, sheet) for sheet in "PQRSTU"],
        [blank(5, column=column) for column in "BCDEFG"],
        [Finding("fault", "Takeoff", f"D{row}", f"what {word} is") for row, word in enumerate("abcdef")],
        [Finding("catalog", "", "", f"price {row}") for row in range(9)],
        [Finding("formula", "Film", f"B{row}", "overwritten") for row in range(MANY)],
        [Finding("formula", sheet, "B5", "overwritten") for sheet in "PQRSTU"],
    ],
    ids=["few", "other sheets", "other columns", "other messages", "no place", "few formulas", "formulas elsewhere"],
)
def test_what_has_other_causes_stays_by_itself(findings):
    assert gathered(findings) == findings


def test_the_order_is_that_of_the_first_of_each_cause():
    other = Finding("sheet", "Gallons", "", "the sheet was deleted")
    found = gathered([blank(5), other, *(blank(row) for row in range(6, 10))])
    assert [one.kind for one in found] == ["fault", "sheet"]


def pasted_as_values(book, values, places):
    for row in book["Film"].iter_rows():
        for cell in row:
            if cell.data_type == "f":
                cell.value = values["Film"][cell.coordinate].value


def column_deleted(book, values, places):
    book["Takeoff"].delete_cols(places["takeoff", "height"].col + 1)


def name_deleted(book, values, places):
    del book.defined_names["takeoff_length"]


@pytest.mark.parametrize(
    "mangle, most, kinds",
    [
        (pasted_as_values, 1, {"formula"}),
        (name_deleted, 5, {"name", "fault", "check"}),
        (column_deleted, 14, {"cell", "formula without a value", "fault", "formula", "fixed"}),
    ],
)
def test_what_is_done_to_a_whole_sheet_or_column_is_few_lines(books, tmp_path, mangle, most, kinds):
    """Each was told in 46 to 153 lines, one a cell or a column."""
    book, values = load_workbook(books[NAME].path), load_workbook(books[NAME].path, data_only=True)
    mangle(book, values, books[NAME].layout.places)
    book.save(tmp_path / "back.xlsx")
    with room_of(NAME):
        findings = inspect(returned(tmp_path / "back.xlsx"), [catalogs_of(NAME)]).findings
    assert len(findings) <= most and {finding.kind for finding in findings} == kinds
    assert any(" more alike: " in str(one) or "other runs of cells on this sheet" in str(one) for one in findings)
