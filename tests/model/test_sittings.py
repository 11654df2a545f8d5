"""A house and four bedrooms typed into the blank workbook: few cells, and the price of the same jobs as files."""

import pytest
from support.entering import BEDROOMS, HOUSE, cells, typed
from support.places import CATALOGS

from builder.api import estimate
from builder.jobs import open_job


@pytest.mark.parametrize("job, most, sheets", [(HOUSE, 75, 6), (BEDROOMS, 45, 3)])
def test_few_cells_are_typed_and_few_sheets_opened(job, most, sheets):
    """The counts that the issue asks for."""
    places = [cell[:3] for cell in cells(job)]
    assert len(places) == len(set(places)) <= most and len({sheet for sheet, *_ in places}) <= sheets


@pytest.mark.parametrize("job", [HOUSE, BEDROOMS], ids=lambda job: job.stem)
def test_what_is_typed_gives_the_price_of_the_file(job):
    blank, values = typed(job)
    asked = open_job(job, [CATALOGS])
    assert not asked.problems and asked.price() > 0
    assert estimate(blank, values).price() == asked.price()


@pytest.mark.parametrize("job", [HOUSE, BEDROOMS], ids=lambda job: job.stem)
def test_a_length_may_stay_the_text_that_was_typed(job):
    """The workbook reads feet and inches itself, as the reading of a returned one does."""
    blank, values = typed(job, read=lambda value, one, units: value)
    assert any(isinstance(row["length"], str) for key in ("takeoff", "rooms") for row in values[key])
    assert estimate(blank, values).price() == pytest.approx(open_job(job, [CATALOGS]).price(), rel=1e-12)


def test_the_tasks_that_stand_ready_count_nothing_while_nothing_is_measured():
    blank = open_job(None, [CATALOGS])
    tasks = [row for row in blank.estimate.rows["task_hours"] if row.sound]
    assert len(tasks) > 5 and blank.price() is None
    assert all(row.live and set(row.hours) == set(row.material) == {0.0} for row in tasks)


def test_tasks_of_what_is_not_measured_count_nothing():
    """The bedrooms have no siding: nothing is washed outside."""
    rows = open_job(BEDROOMS, [CATALOGS]).estimate.rows
    hours = {row.task: row.hours[0] for row in rows["task_hours"] if row.sound}
    assert hours["Wash down"] == hours["Caulk"] == 0 and hours["Cover floors"] > 0
