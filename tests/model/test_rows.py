"""A row of the model knows the columns of its block: a misspelt name fails where it stands, instead of reading as a
blank.
"""

import pytest

from builder.jobs import open_job
from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.sheets.rows import Row, row_types
from builder.stages import estimate as model
from builder.stages.estimate import Estimate
from builder.stages.order import capacities, names


def _with_stage(monkeypatch, stage):
    """The estimate of the starter with one stage more."""
    monkeypatch.setattr(model, "STAGES", (*model.STAGES, stage))
    return open_job(None)


def reads_the_job(est):
    return est.job.voc_limits is None


def sets_a_film(est):
    est.rows["film"][0].wet_flim = 1.0


def sets_many_of_a_purchase(est):
    est.rows["purchases"][0].set(total=1.0, bougth=2.0)


def reads_a_text_by_name(est):
    return [getattr(row, key) for row in est.rows["areas"] for key in ("coated", "measurred")]


@pytest.mark.parametrize(
    "stage, words",
    [
        (reads_the_job, "job: no column 'voc_limits' (did you mean 'voc_limit'"),
        (sets_a_film, "film: no column 'wet_flim' (did you mean 'wet_film'"),
        (sets_many_of_a_purchase, "purchases: no column 'bougth' (did you mean 'bought'"),
        (reads_a_text_by_name, "areas: no column 'measurred' (did you mean 'measured'"),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_a_misspelt_name_in_a_stage_fails_at_once_and_says_where(monkeypatch, stage, words):
    with pytest.raises(AttributeError) as raised:
        _with_stage(monkeypatch, stage)
    assert str(raised.value).startswith(words)
    # the line in the stage is the last but that of the row itself
    assert raised.traceback[-2].name in (stage.__name__, "<listcomp>")


def test_what_was_never_set_is_blank():
    est = Estimate({key: [{}] if kind.upright else [] for key, kind in KINDS.items()}, Units("us", "USD"), capacities())
    assert (
        est.rows["takeoff"][0].length is None
        and est.rows["film"][0].wet_film is None
        and est.rows["book"][0].units is None
    )


def test_a_field_of_one_block_is_no_name_of_another():
    types = row_types(names(Units("us", "USD"), capacities()))
    assert types["coats"](1).tag is None
    with pytest.raises(AttributeError, match="crews: no column 'tag'"):
        types["crews"](1).tag  # noqa: B018


def test_only_rows_of_entries_are_filled():
    """The judge counts the cells of every entered row; a worked-out row has none to count."""
    types = row_types(names(Units("us", "USD"), capacities()))
    assert types["job"](1).filled is None
    with pytest.raises(AttributeError, match="picks: no column 'filled'"):
        types["picks"](1).filled = 1


@pytest.mark.parametrize("key", ["set", "names"])
def test_a_column_cannot_bear_a_name_that_rows_use_themselves(key):
    assert hasattr(Row, key)
    with pytest.raises(ValueError, match=f"film: a column may not be called {key}"):
        row_types({"film": {"no", key}})
