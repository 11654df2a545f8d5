"""Jobs drawn at random: the workbook recomputes to the model, and reads back to what it was built from."""
import io

import pytest
from editing import SETTINGS, LiveBook
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from made_up import ROOM, jobs, shipped

from builder.records.kinds import KINDS
from builder.returned.read import read
from builder.stages.estimate import Estimate
from builder.stages.order import blocks, capacities
from builder.workbook.layout import Layout
from builder.workbook.write import write

PATIENT = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow, HealthCheck.data_too_large], "derandomize": True,
           "phases": (Phase.generate,)}     # a failing job is shown as drawn: making it smaller takes minutes


@pytest.mark.parametrize("system", ["us", "metric"])
@settings(max_examples=15, **PATIENT)
@given(data=st.data())
def test_a_generated_job_recomputes_to_the_model(system, data, tmp_path_factory):
    values, units = data.draw(jobs(system))
    book = LiveBook(values, units, tmp_path_factory.mktemp("job"), **ROOM)
    assert book.differences() == []


@pytest.mark.parametrize("system", ["us", "metric"])
@settings(max_examples=10, **PATIENT)
@given(data=st.data())
def test_a_generated_job_reads_back_as_it_was(system, data):
    values, units = data.draw(jobs(system))
    room = capacities(**ROOM)
    facts = {**SETTINGS, "units": system, "currency": units.currency}
    again, same_units, _ = read(io.BytesIO(write(Layout(blocks(units, room), room), Estimate(values, units, room), facts)))
    assert same_units == units
    for kind in KINDS.values():
        assert again[kind.key] == [{field.key: units.settle(row.get(field.key), field.quantity) for field in kind.fields} for row in values[kind.key]], kind.key


def test_the_generator_makes_jobs_with_a_price():
    """Not all that is drawn is broken: the strategies reach complete estimates too."""
    found = []

    @settings(max_examples=300, **PATIENT)
    @given(jobs("us"))
    def look(made):
        found.append(Estimate(*made, capacities(**ROOM)).rows["price"][0].total is not None)

    look()
    assert any(found) and shipped("us").estimate.rows["price"][0].total is None
