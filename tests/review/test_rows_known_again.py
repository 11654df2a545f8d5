"""Rows of a page that came or went, and findings of one cause on several sheets."""

import pytest

from builder.returned.aligned import shape
from builder.returned.findings import Cell
from builder.returned.located import Moves
from builder.review.causes import gathered


def moves(known):
    """Moves of a sheet whose names tell of the first row alone."""
    one = Moves()
    one.tell(1, 1)
    one.settle()
    one.align(known)
    return one


@pytest.mark.parametrize(
    "known, gone, now",
    [
        ({4: 4, 6: 5, 7: 6}, {5}, {2: 2, 6: 5, 9: 8}),  # the row between went
        ({4: 4, 5: 6, 6: 7}, set(), {4: 4, 5: 6, 9: 10}),  # one came
        ({4: 4, 9: 7}, {7, 8}, {5: 5, 6: 6, 9: 7}),  # of four that are not known two went
        ({4: 6, 6: 5}, set(), {4: 4, 6: 6}),  # no order: nothing is believed
    ],
)
def test_a_row_that_has_no_room_is_gone(known, gone, now):
    one = moves(known)
    assert one.gone == gone and {was: one.now(was) for was in now} == now


@pytest.mark.parametrize("other", ['=IF($A15="","",SUM(worn))', '=if(#REF!="", "", sum(worn))'])
def test_a_formula_has_the_same_shape_wherever_it_stands(other):
    assert shape(other) == shape('=IF($A16="","",SUM(worn))') != shape('=IF($A16="","",MAX(worn))')


def test_faults_of_one_cause_are_one_on_whatever_sheets_they_stand():
    found = [
        Cell(sheet, cell).problem("'Boards' is not in Systems", "known: Rails", cause="systems: boards")
        for sheet, cell in (("Paint", "A18"), ("Paint", "A19"), ("Takeoff", "A5"), ("Takeoff", "A6"))
    ]
    (one,) = gathered(found)
    assert str(one) == ("Paint A18: 'Boards' is not in Systems; and 3 more alike: A19, Takeoff A5, A6 (known: Rails)")
    assert "cause" not in one.as_dict()
