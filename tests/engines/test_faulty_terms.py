"""Words where Terms or Job ask for a number or a date: what rests on them is blank, in the workbook as in the model."""

import pytest
from support.by_address import Addressed
from support.editing import views_of
from support.engines import differences

from builder.jobs import from_values
from builder.stages.estimate import Estimate

pytestmark = pytest.mark.usefixtures("small")


@pytest.mark.slow
@pytest.mark.parametrize("name, key", [("small attic", "door_width"), ("small shed running", "draw_volume")])
def test_words_in_terms_stop_the_price_alike(books, name, key):
    book = books[name]
    opened, place = book.opened, book.layout.places["terms", key]
    values = {**opened.values, "terms": [{**opened.values["terms"][0], key: "as usual"}]}
    estimate = Estimate(values, opened.units, opened.estimate.capacity, views_of(opened.estimate))
    assert estimate.rows["price"][0].total is None
    engine = Addressed(book.path)
    engine.put(place.sheet, place.row, place.col + 1, "as usual")
    assert differences(estimate, book.layout, engine) == []


@pytest.mark.parametrize(
    "kind, key, value",
    [("terms", "demo", "maybe"), ("job", "signed_on", "in May"), ("job", "as_of", 20260511.0), ("job", "as_of", 1e299)],
)
def test_a_fault_of_a_job_that_runs_is_told(books, kind, key, value):
    opened = books["small shed running"].opened
    values = {**opened.values, kind: [{**opened.values[kind][0], key: value}]}
    assert from_values(values, opened.units, opened.settings).summary().startswith("NO PRICE: ")
