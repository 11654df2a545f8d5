"""Parts on the bid (E46): shown where Terms say so, added up to the cent, on one sheet of paper; else nothing of them."""

import copy
import re

import openpyxl
import pytest
from support.editing import SMALL, LiveBook, small_book

YES = ("terms", "show_parts", 0, "yes")
TAX = ("job", "sales_tax", 0, 0.0825)
LINES = slice(14, 28)  # rows 15 to 28 of the sheet; above them the heading


@pytest.fixture(scope="module")
def shed(tmp_path_factory):
    """The shed, whose first two lines are a part of their own; the others 'Other'."""
    book = small_book("us", tmp_path_factory.mktemp("shed"))
    for row in (0, 1):
        book.change("takeoff", "part", row, "Street front")
    return book


def on_bid(book):
    """(what stands in C14, the lines under it as (name, amount) in cents) by the model, with which the cells agree."""
    assert book.differences() == []
    estimate = book.estimate()
    lines = [row for row in estimate.rows["bid_parts"] if row.part is not None or row.money is not None]
    cents = [(row.part, round(100 * book.units.to_cell(row.money, "money"), 4)) for row in lines]
    return estimate.rows["bid"][0].parts_heading, cents


@pytest.mark.slow
def test_parts_stand_beside_the_price_and_add_up_to_it_to_the_cent(shed):
    with shed.changed(YES):
        heading, lines = on_bid(shed)
        total = round(100 * shed.units.to_cell(shed.estimate().rows["price"][0].total, "money"), 4)
    (*parts, whole) = lines
    assert heading == "Price by part (USD)" and [name for name, _ in parts] == ["Street front", "Other"]
    assert all(amount == round(amount) > 0 for _, amount in lines)
    assert whole == ("Price", total) and sum(amount for _, amount in parts) == total


@pytest.mark.slow
def test_tax_is_a_line_of_its_own_between_the_parts_and_the_price(shed):
    with shed.changed(YES, TAX):
        _, lines = on_bid(shed)
        price = shed.estimate().rows["price"][0]
    *parts, tax, whole = ((name, amount / 100) for name, amount in lines)
    assert [name for name, _ in (*parts, tax, whole)] == ["Street front", "Other", "Sales tax", "Price"]
    assert sum(amount for _, amount in parts) == pytest.approx(price.net, abs=1e-6)
    assert tax[1] > 0 and price.net + tax[1] == pytest.approx(whole[1], abs=1e-6)


@pytest.mark.parametrize("said", ["no", ""])
def test_where_terms_show_none_nothing_stands_there(shed, said):
    with shed.changed(("terms", "show_parts", 0, said)):
        assert on_bid(shed) == (None, [])


def test_a_bid_without_a_price_shows_no_part(shed):
    with shed.changed(YES, ("takeoff", "length", 0, "twelve")):
        assert on_bid(shed) == (None, [])


def built(shed, folder, lines, show_parts, **job):
    """The shed with these lines of Takeoff and no openings, built anew."""
    values = copy.deepcopy(shed.values)
    values["takeoff"], values["openings"] = lines, []
    values["terms"][0]["show_parts"] = show_parts
    values["job"][0] |= job
    return LiveBook(values, shed.units, folder, **{**SMALL, "takeoff": 15})


@pytest.fixture
def twelve(shed):
    """Twelve lines of the base, each of a part of its own with the longest name there may be."""
    *base, gate = shed.values["takeoff"]  # which is an alternate
    parts = [f"{row:02d} {'long name ' * 6}"[:60].strip() for row in range(12)]
    return [gate, *({**base[row % 5], "tag": None, "part": part} for row, part in enumerate(parts))]


@pytest.mark.slow
def test_twelve_parts_and_the_tax_stand_above_the_work_and_fit_their_cells(shed, twelve, tmp_path):
    """Fourteen lines from row 15: the last in row 28, the headers of the work in row 29. Names are set smaller where
    they are longer than their cell.
    """
    book = built(shed, tmp_path, twelve, "yes", sales_tax=0.07)
    _, lines = on_bid(book)
    assert [name for name, _ in lines] == [*(line["part"] for line in twelve[1:]), "Sales tax", "Price"]
    sheet = openpyxl.load_workbook(book.path)["Bid"]
    assert sheet["A29"].value == "Part of the work"
    names, amounts = ([sheet.cell(row + 1, col) for row in range(LINES.start, LINES.stop)] for col in (3, 4))
    assert all(cell.data_type == "f" and cell.alignment.shrink_to_fit for cell in names)
    assert {cell.number_format for cell in amounts} == {"#,##0.00"}
    area = re.search(r"\$A\$5:\$D\$(\d+)", sheet.print_area)
    assert area and int(area[1]) > LINES.stop
    # one sheet of paper, which is what a file says that says no number
    assert sheet.sheet_properties.pageSetUpPr.fitToPage and sheet.page_setup.fitToHeight in (None, 1)


@pytest.mark.slow
def test_the_same_lines_stand_on_the_page_with_parts_and_without(shed, tmp_path):
    """Nothing moves, and no row is kept for parts that are not shown."""
    pages = []
    for said in ("yes", "no"):
        book = built(shed, tmp_path, shed.values["takeoff"], said)
        sheet = openpyxl.load_workbook(book.path, data_only=True)["Bid"]
        pages.append(
            {cell.coordinate: cell.value for row in sheet.iter_rows(5, 80, 1, 4) for cell in row if cell.value}
        )
    more, less = pages
    assert less.items() <= more.items()
    assert {place[0] for place in more.keys() - less.keys()} == {"C", "D"}
    assert {int(place[1:]) for place in more.keys() - less.keys()} == {14, 15, 16, 17}
