"""A workbook whose lengths were typed as feet and inches comes back: they are lengths, and nothing is to be told."""

import io

import pytest
from support.entering import BEDROOMS, HOUSE, typed
from support.places import CATALOGS

from builder.api import estimate, make
from builder.jobs import open_job
from builder.returned.read import returned
from builder.returned.taken import as_job, taken

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module", params=[HOUSE, BEDROOMS], ids=lambda job: job.stem)
def back(request):
    """The job as a file, and the book with its cells as they were typed."""
    blank, values = typed(request.param, read=lambda value, one, units: value)
    return open_job(request.param, [CATALOGS]), returned(io.BytesIO(make(estimate(blank, values))))


def test_a_length_as_the_book_understands_it_is_no_finding(back):
    asked, book = back
    one = taken(book)
    assert one.findings == () and not one.unfinished
    assert one.opened.price() == asked.price()


def test_the_job_that_is_read_builds_to_the_same_price(back, tmp_path):
    asked, book = back
    path = tmp_path / "read.yaml"
    path.write_text(as_job(taken(book), [CATALOGS]))
    again = open_job(path, [CATALOGS])
    assert not again.problems and again.price() == asked.price()
