"""What a person chooses to look at is no input: it is not told, not compared, not carried over, and changes no price."""

import pytest
from support.by_address import Addressed
from support.engines import differences
from support.parcels import retyped
from support.returning import at, inputs
from support.small import CATALOGS

from builder.returned.read import returned
from builder.returned.taken import taken
from builder.review.inspect import inspect
from builder.stages.estimate import Estimate
from builder.workbook.write import prepared

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]
VIEWS = ("chosen", "traced")  # of the sheets Nozzles and Trace


def labels(book):
    return [row.label for row in book.estimate.rows["in_use"] if row.label]


def seen(book, label):
    """The estimate of a book in which this coat is chosen on both sheets."""
    views = dict.fromkeys(VIEWS, label)
    return Estimate(book.opened.values, book.opened.units, book.estimate.capacity, views)


@pytest.mark.parametrize("name", ["small boathouse", "small corridor"])
def test_a_coat_can_be_looked_at_and_a_name_of_none_or_a_blank_shows_the_first(books, name):
    """The last coat: the farthest from the one that is shown at first."""
    book = books[name]
    engine = Addressed(book.path)
    for label in (labels(book)[-1], *(("none of these", "") if name == "small boathouse" else ())):
        for view in VIEWS:
            place = book.layout.places[view, "coat"]
            engine.put(place.sheet, place.row, place.col + 1, label)
        estimate = seen(book, label or None)
        assert differences(estimate, book.layout, engine) == [], label
        assert estimate.rows["price"][0].total == book.estimate.rows["price"][0].total
        wanted = label if label in labels(book) else labels(book)[0]
        assert all(estimate.rows[view][0].shown.startswith(f"{wanted}, ") for view in VIEWS)


def test_a_book_in_which_another_coat_was_chosen_has_nothing_to_tell_and_gives_the_same_job(books, tmp_path):
    book, path = books["small shed"], tmp_path / "seen.xlsx"
    settings = {**book.opened.settings, "form": book.layout.form(book.opened.units)}
    path.write_bytes(prepared(book.layout, seen(book, labels(book)[2]), settings).done())
    back = returned(path)
    found = inspect(back, [CATALOGS]).findings
    assert [finding for finding in found if finding.kind != "check"] == []
    assert inputs(taken(back).opened.values) == inputs(book.opened.values)


def test_what_else_is_typed_into_the_cell_is_no_input_either(books, tmp_path):
    book, path = books["small shed"], tmp_path / "typed.xlsx"
    for text in ("whatever", ""):
        path.write_bytes(retyped(book.data, {at(book, "chosen", "coat"): text, at(book, "traced", "coat"): text}))
        assert [one for one in inspect(returned(path), [CATALOGS]).findings if one.kind != "check"] == []
