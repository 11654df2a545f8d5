"""A contractor's first hour, in a live LibreOffice: a house and four bedrooms typed into the blank workbook, wrong entries
included; what the book says on the way; the price it ends with.
"""

import openpyxl
import pytest
from support.books import BOOKS
from support.engines import Values
from support.entering import BEDROOMS, HOUSE, cells, field_of
from support.places import CATALOGS

from builder.jobs import open_job
from builder.records.questions import PLACEHOLDERS
from builder.returned.read import returned
from builder.returned.taken import taken

SEEN = "Seen"  # a sheet of the person's own, on which each look at Summary is noted down: a row a look
OFFICE = (("Terms", "Figures of the demo", 1, "no"), ("Terms", "Your firm", 1, "Alder Lane Painting (invented)"),
          ("Terms", "License and insurance", 1, "Invented license 12"))  # fmt: skip
WRONG = (  # typed, looked at, and typed again as it should be: what a person does to whom it is said
    ("Takeoff", "Length", 1, "1,250"),
    ("Takeoff", "Height", 1, "about 18"),
    ("Takeoff", "System", 1, "Sidding"),
)


def typed(place, sheet, title, row, text):
    """The line that types a cell as a person does: LibreOffice takes numbers, dates and percents for what they are."""
    kind, one = field_of(sheet, title)
    at = place[kind.key, one.key]
    quoted = text.replace('"', '""')
    return f'sheets.getByName("{sheet}").getCellByPosition({at.col}, {at.row - 2 + row}).setFormula("{quoted}")'


def looked(place, number):
    """Lines that note down the state, the price, what is next, and the questions on Summary."""
    asked = place["open_asks", "question"]
    cells = [(0, 1), (0, 2), (1, 2), *((asked.col, asked.row - 1 + line) for line in range(asked.rows))]
    yield "doc.calculateAll()"
    for col, (from_col, from_row) in enumerate(cells):
        said = f'sheets.getByName("Summary").getCellByPosition({from_col}, {from_row}).getString()'
        yield f'sheets.getByName("{SEEN}").getCellByPosition({col}, {number}).setString({said})'


def sitting(job, wrong=()):
    """The lines of one sitting: measured surfaces first, each wrong entry looked at; then what was forgotten."""

    def lines(place):
        yield f'sheets.insertNewByName("{SEEN}", sheets.Count)'
        own = cells(job)
        measured = [cell for cell in own if cell[0] != "Job"]
        for number, cell in enumerate(wrong):
            yield typed(place, *cell)
            yield from looked(place, number)
        for cell in measured:
            yield typed(place, *cell)
        yield from looked(place, len(wrong))
        for cell in (*(cell for cell in own if cell[0] == "Job"), *OFFICE):
            yield typed(place, *cell)
        yield from looked(place, len(wrong) + 1)

    return lines


def seen(edited):
    """What was noted down: (state, price, next, questions) of each look."""
    sheet = openpyxl.load_workbook(edited, read_only=True)[SEEN]
    rows = [[value or "" for value in row] for row in sheet.iter_rows(values_only=True)]
    return [(row[0], row[1], row[2], [text for text in row[3:] if text]) for row in rows]


def ends_as_its_file(books, edited, job):
    """The price cell, the model of what was typed, and the job built from its file agree to the cent."""
    place = books["blank"].layout.places["price", "total"]
    shown = Values(edited).get(place.sheet, place.row, place.col + 1)
    asked = open_job(job, [CATALOGS])
    assert shown == pytest.approx(asked.price(), abs=0.005) == taken(returned(edited)).opened.price()


@pytest.mark.sitting("blank", sitting(HOUSE, WRONG))
def test_a_house_is_priced_in_few_cells_and_the_book_asks_what_was_forgotten(books, edited):
    assert len(cells(HOUSE)) + len(OFFICE) <= 75
    assert len({sheet for sheet, *_ in (*cells(HOUSE), *OFFICE)}) <= 6
    *wrong, measured, last = seen(edited)
    for (sheet, _, row, _), (state, price, told, _) in zip(WRONG, wrong):
        assert (state, price) == ("NO PRICE", "") and told.startswith(f"{sheet}, row {row + 4}: ")
    assert "system" in wrong[-1][2].lower()
    state, price, _, questions = measured
    assert state.startswith("DRAFT: ") and price.endswith(" USD")
    # the office's figures first, the way to the site, the weather, old paint that is scraped, then whom the bid is for
    topics = ("demo", "How far", "first day", "kind of building", "client")
    assert [topic for topic in topics if any(topic in question for question in questions)] == list(topics), questions
    assert (last[0], last[3]) == ("READY", [last[3][0]]) and last[3][0].startswith("None.")
    ends_as_its_file(books, edited, HOUSE)


@pytest.mark.sitting("blank", sitting(BEDROOMS))
def test_four_bedrooms_are_priced_in_few_cells(books, edited):
    assert len(cells(BEDROOMS)) + len(OFFICE) <= 45
    measured, last = seen(edited)
    assert measured[0].startswith("DRAFT: ") and last[0] == "READY"
    ends_as_its_file(books, edited, BEDROOMS)


def test_the_blank_book_is_nobodys():
    """What is typed into it counts as typed: nothing of a job stands in it before, and the firm is that of the demo."""
    blank = open_job(None, [CATALOGS])
    assert BOOKS["blank"] == (None, None) and blank.price() is None
    assert blank.estimate.terms.firm in PLACEHOLDERS and blank.estimate.job.client is None
