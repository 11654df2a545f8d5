"""Which files a command reads: endings, workbooks and catalogs where a job belongs, folders that hold some catalogs only."""

import shutil

import pytest
from support.places import EXAMPLES, ROOT

from builder.cli import main
from builder.jobs import fingerprint

CATALOGS = ROOT / "catalogs"
OURS = "coatings:\n  - {change: Exterior acrylic satin, recoat: 5 h}\n"


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "catalogs"
    shutil.copytree(CATALOGS, made, ignore=shutil.ignore_patterns("schemas"))
    return made


def said(capsys, *arguments):
    status = main(["check", *map(str, arguments)])
    return status, capsys.readouterr()


def test_a_catalog_may_end_in_yml(folder, capsys):
    (folder / "pumps.yaml").rename(folder / "pumps.yml")
    status, out = said(capsys, folder, EXAMPLES["boathouse"], "--catalogs", folder)
    assert status == 0, out


def test_one_that_ends_in_yml_counts_in_the_digest_of_the_catalogs(folder):
    before = fingerprint([folder])
    (folder / "ours.yml").write_text("holidays: []\n")
    assert fingerprint([folder]) != before


def test_two_files_that_differ_in_their_ending_are_a_problem(folder, capsys):
    shutil.copy(folder / "pumps.yaml", folder / "pumps.yml")
    status, out = said(capsys, folder)
    assert status == 1
    assert out.out == (
        f"{folder}/pumps.yml:1:1: pumps.yaml is here too, and is the one that is read "
        "(keep one of the two files, or give them other names)\n"
    )


def test_no_command_writes_over_a_catalog_that_ends_in_yml(folder, tmp_path, capsys):
    (folder / "pumps.yaml").rename(folder / "pumps.yml")
    arguments = [str(EXAMPLES["boathouse"]), "--catalogs", str(folder), "-o", str(folder / "pumps.yml"), "--force"]
    assert main(["build", *arguments]) == 2
    assert "the command reads this file, so it does not write it" in capsys.readouterr().err


@pytest.mark.parametrize("begins", [b"PK\x03\x04rest", b"\xd0\xcf\x11\xe0rest"])
def test_a_workbook_is_told_what_looks_at_it(tmp_path, capsys, begins):
    path = tmp_path / "back.xlsx"
    path.write_bytes(begins)
    status, out = said(capsys, path)
    assert status == 1
    assert out.err == f"{path}:1:1: a workbook, not a YAML file (look at it with: wetfilm inspect back.xlsx)\n"


def test_a_catalog_where_a_job_belongs_is_told_so(capsys):
    status, out = said(capsys, CATALOGS / "pumps.yaml")
    assert status == 1
    assert out.err == f"{CATALOGS}/pumps.yaml:1:1: a catalog, not a job (check its folder: wetfilm check {CATALOGS})\n"


def test_a_folder_that_changes_some_records_is_checked_over_the_catalogs_in_force(tmp_path, capsys):
    ours = tmp_path / "ours"
    ours.mkdir()
    (ours / "coatings.yaml").write_text(OURS)
    status, out = said(capsys, ours, "--catalogs", CATALOGS)
    assert status == 0, out
    lines = out.out.splitlines()
    assert lines[0] == f"{ours}:1:1: note: holds some catalogs only; checked as laid over {CATALOGS}"
    assert len(lines) == 2 and lines[1].startswith(f"{ours}/coatings.yaml:2:5: note: Coatings 'Exterior acrylic satin'")


def test_its_mistakes_are_told(tmp_path, capsys):
    ours = tmp_path / "ours"
    ours.mkdir()
    (ours / "coatings.yaml").write_text(OURS.replace("satin", "satn"))
    status, out = said(capsys, ours, "--catalogs", CATALOGS)
    assert status == 1
    assert (
        "'Exterior acrylic satn' is not in the catalogs before this one (did you mean 'Exterior acrylic satin'"
        in out.out
    )


def test_a_folder_that_lacks_one_file_is_no_such_folder(folder, capsys):
    (folder / "pumps.yaml").unlink()
    status, out = said(capsys, folder)
    assert status == 1 and "no 'pumps:' in any catalog of this folder" in out.out
