"""What is put into a book that nobody has touched yet is worked out at once, in a LibreOffice with a window: nothing old is
left, and no error, though nobody asks it to recalculate.
"""

import pytest
from support.engines import Values, all_edited_in_libreoffice, differences

from builder.returned.read import returned
from builder.returned.taken import taken

ROW = 'Array("Exterior siding", "", "", 42, 38)'  # too high for a person without access: a question
CELLS = (("A", 'setString("Exterior siding")'), ("D", "setValue(42)"), ("E", "setValue(38)"))
TAKEOFF = 'sheets.getByName("Takeoff").getCellRangeByName'
TOUCHES = {
    "pasted": [f'{TAKEOFF}("A5:E6").setDataArray(Array({ROW}, {ROW}))'],
    "typed": [f'{TAKEOFF}("{col}5").{typed}' for col, typed in CELLS],
}


@pytest.fixture(scope="module")
def touched(books, libreoffice_here, tmp_path_factory):
    """How it was put in -> the path of the blank book afterwards."""
    folder = tmp_path_factory.mktemp("touched")
    sittings = [(books["blank"].path, folder / f"{how}.xlsx", lines) for how, lines in TOUCHES.items()]
    return dict(zip(TOUCHES, all_edited_in_libreoffice(sittings, as_seen=True)))


@pytest.mark.slow
@pytest.mark.parametrize("how", TOUCHES)
def test_what_is_first_put_into_a_blank_book_is_worked_out(books, touched, how):
    found = taken(returned(touched[how])).opened
    assert found.estimate.checks.too_high == (2 if how == "pasted" else 1) and found.price() > 0
    wrong = differences(found.estimate, books["blank"].layout, Values(touched[how]))
    assert [one for one in wrong if one[3][0] != "Views"] == []  # nobody has chosen what to look at
