"""What a book is held against when it comes back: its cells without its file, its formulas without writing them out."""

import io

import pytest
from support.places import SHED
from support.small import CATALOGS

from builder.jobs import open_job
from builder.returned.came_back import plain
from builder.returned.cells import loaded
from builder.returned.formulas import Shared
from builder.workbook.make import make, written


@pytest.mark.slow
def test_the_cells_without_the_file_are_those_of_the_file(small):
    opened = open_job(SHED, [CATALOGS])
    book, _ = loaded(io.BytesIO(make(opened)))
    found = written(opened)
    assert list(found) == book.sheetnames
    for title, cells in found.items():
        shown = {place: value for place, cell in book[title]._cells.items() if (value := plain(cell.value)) is not None}
        assert shown.keys() == cells.keys()
        numbers = {place for place, value in shown.items() if isinstance(value, float)}
        assert {place: plain(cells[place]) for place in numbers} == pytest.approx(
            {place: shown[place] for place in numbers}, rel=1e-9
        )
        assert all(shown[place].split() == cells[place].split() for place in shown.keys() - numbers)


@pytest.mark.parametrize(
    "row, col, text",
    [(5, 2, "=A4+$A4+A$4+name*2"), (7, 2, "=A6+$A6+A$4+name*2"), (5, 4, "=C4+$A4+C$4+name*2")],
    ids=["its own cell", "below", "beside"],
)
def test_a_shared_formula_reads_as_in_each_cell(row, col, text):
    """Worked by hand: what has no $ moves with the cell (ECMA-376 part 1, 18.3.1.40)."""
    assert Shared("=A4+$A4+A$4+name*2", 5, 2).at(row, col) == text


def test_what_is_no_formula_stays_as_it_stands():
    assert Shared('=A4+"open', 5, 2).at(6, 2) == '=A4+"open'
