"""A command does no work that its answer does not need: no library it does not use, no catalog read twice."""

import subprocess
import sys
from pathlib import Path

import pytest
from support.places import ROOT

from builder import documents
from builder.checking import check
from builder.cli import main
from builder.jobs import open_job
from builder.problems import Refused

CATALOGS, SHED, BOATHOUSE = ROOT / "catalogs", ROOT / "tests/data/shed.yaml", ROOT / "examples/boathouse.yaml"
HEAVY = {"pint", "openpyxl", "xlsxwriter", "email", "difflib", "zipfile", "yaml"}
ASKED = "import sys; there = set(sys.modules); from builder.cli import main; main(sys.argv[1:]); print(*set(sys.modules) - there)"


@pytest.mark.parametrize(
    "command, used",
    [
        (["schema", "job"], {"yaml"}),
        (["check", str(CATALOGS), str(SHED)], {"yaml"}),
        (["build", str(SHED), "-o", "BOOK"], {"yaml", "xlsxwriter", "zipfile"}),
    ],
)
def test_a_command_loads_no_heavy_library_but_those_it_uses(tmp_path, command, used):
    command = [str(tmp_path / "book.xlsx") if word == "BOOK" else word for word in command]
    told = subprocess.run(
        [sys.executable, "-c", ASKED, *command], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    assert "yaml" in told.split() and HEAVY & set(told.split()) <= used


@pytest.fixture
def readings(monkeypatch):
    """The names of the files of YAML that are read, one for each time."""
    found, read = [], documents.read

    def told(path):
        found.append(Path(path).name)
        return read(path)

    monkeypatch.setattr(documents, "read", told)
    return found


@pytest.mark.slow
@pytest.mark.parametrize("command", ["check", "build", "impact"])
def test_a_command_reads_each_file_once(tmp_path, monkeypatch, readings, command):
    monkeypatch.chdir(tmp_path)
    assert main([command, str(SHED), str(BOATHOUSE), "--catalogs", str(CATALOGS)]) == 0
    assert "coatings.yaml" in readings
    twice = {name for name in readings if readings.count(name) > 1}
    # impact compares two stocks of catalogs, which here are the same files
    assert not twice if command != "impact" else {readings.count(name) for name in twice} == {2}


def test_what_one_job_changes_of_the_catalogs_is_not_seen_by_the_next(tmp_path):
    """Jobs of one command share what was read: each must find it as the files have it."""
    dear = tmp_path / "dear.yaml"
    dear.write_text(SHED.read_text() + "own:\n  terms: {price: {margin: 45 %}}\n  without: {nozzles: [standard 517]}\n")
    alone = [set(check([path], [CATALOGS])) for path in (dear, SHED)]
    assert alone[0] != alone[1]
    assert set(check([dear, SHED], [CATALOGS])) == alone[0] | alone[1] == set(check([SHED, dear], [CATALOGS]))


def test_a_program_that_runs_on_sees_catalogs_as_they_are_by_now(tmp_path):
    for path in CATALOGS.glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    before, terms = open_job(SHED, [tmp_path]).estimate.terms.overhead, tmp_path / "terms.yaml"
    terms.unlink()
    assert any(problem.message.startswith("no 'terms:'") for problem in open_job(SHED, [tmp_path]).problems)
    terms.write_bytes((CATALOGS / "terms.yaml").read_bytes())
    assert open_job(SHED, [tmp_path]).estimate.terms.overhead == before
    for path in tmp_path.glob("*.yaml"):
        path.unlink()
    with pytest.raises(Refused, match="no catalog"):
        open_job(SHED, [tmp_path])
