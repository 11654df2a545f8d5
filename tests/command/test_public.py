"""What programs may call: as light to import as the command, and refusing in words."""

import io
import subprocess
import sys

import pytest
from support.places import ROOT

import builder
from builder import Refused, estimate, inspect, make, open_job, read

SHED, CATALOGS = ROOT / "tests/data/shed.yaml", ROOT / "catalogs"


def test_nothing_is_loaded_before_it_is_asked_for():
    ask = "import sys; there = set(sys.modules); import builder; print(*set(sys.modules) - there)"
    alone = [sys.executable, "-S", "-c", ask]  # -S: without what a site loads for itself
    assert subprocess.run(alone, cwd=ROOT, capture_output=True, text=True, check=True).stdout == "builder\n"


def test_every_name_that_is_promised_is_there_and_no_other():
    assert all(callable(getattr(builder, name)) for name in builder.__all__)
    with pytest.raises(AttributeError, match="no attribute 'biuld'"):
        _ = builder.biuld


def test_one_folder_is_as_a_list_of_one():
    ways = CATALOGS, str(CATALOGS), [CATALOGS], (CATALOGS, CATALOGS)
    prices = {open_job(SHED, catalogs).price() for catalogs in ways}
    assert len(prices) == 1 and None not in prices


def test_the_folder_where_the_program_runs_comes_before_what_is_shipped(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert open_job(SHED).price() == open_job(SHED, CATALOGS).price()
    (tmp_path / "catalogs").mkdir()
    with pytest.raises(Refused, match="no catalog"):
        open_job(SHED)


def test_a_job_with_errors_opens_and_is_not_made(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_text(SHED.read_text().replace("job:", "job:\n  pepole: 3", 1))
    opened = open_job(path, CATALOGS)
    (problem,) = opened.errors
    assert (problem.line, "'pepole'" in problem.message) == (SHED.read_text().splitlines().index("job:") + 2, True)
    with pytest.raises(Refused) as refused:
        make(opened)
    assert problem in refused.value.problems


@pytest.mark.parametrize("wrong", [{"units": "metirc"}, {"paper": "A5"}])
def test_what_no_workbook_can_be_is_an_error_of_the_program(wrong):
    with pytest.raises(ValueError, match=str(*wrong.values())):
        open_job(SHED, CATALOGS, **wrong)


def test_what_is_no_workbook_is_refused():
    for look in (inspect, read):
        with pytest.raises(Refused, match="not an .xlsx workbook"):
            look(io.BytesIO(b"Dear all"))


def test_a_workbook_gives_its_estimate_back(books):
    look = inspect(io.BytesIO(books["shed"].data), CATALOGS)
    assert look.opened.price() == pytest.approx(open_job(SHED, CATALOGS).price(), rel=1e-12) and not look.touched


def test_a_what_if_changes_what_it_is_told_and_nothing_else():
    job = open_job(SHED, CATALOGS)
    before, (terms,) = job.price(), job.values["terms"]
    dearer = estimate(job, {"terms": [{**terms, "margin": 0.4}]})
    assert dearer.price() > before == job.price() == estimate(job, {}).price()
    with pytest.raises(ValueError, match="no block is called coast"):
        estimate(job, {"coast": []})


def test_a_what_if_that_is_wrong_has_no_price():
    job = open_job(SHED, CATALOGS)
    wrong = estimate(job, {"terms": [{**job.values["terms"][0], "margin": 2.0}]})
    assert wrong.price() is None and wrong.state() == "NO PRICE"
    assert wrong.summary() == "NO PRICE: Terms, margin: enter a share from 0 % to 95 %, that is 0 to 0.95"
    assert job.state() == "READY" and job.questions() == []
