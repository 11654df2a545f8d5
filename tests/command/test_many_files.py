"""Commands that take many files: results in the order of the files, one bad file is told and the others go on."""

import json
from functools import partial

import pytest
from support.places import SHED
from support.writing import STOCK

from builder import one_file
from builder.cli import main
from builder.problems import Problem, Refused
from builder.side_by_side import FEW, each

pytestmark = pytest.mark.slow


def length(path, more):
    if path == "bad":
        raise Refused([Problem(path, 0, 0, "no length")])
    return len(path) + more


@pytest.fixture
def told(monkeypatch):
    """Each file is told by its name; one called bad is refused, and one called worse is a fault of the program."""

    def of(name, result, **_):
        def work(path, **_):
            if path == "bad.xlsx":
                raise Refused([Problem(path, 0, 0, "nothing to read"), Problem("stock", 0, 0, "no catalogs")])
            if path == "also bad.xlsx":
                raise Refused([Problem("stock", 0, 0, "no catalogs")])
            if path == "worse.xlsx":
                raise ZeroDivisionError
            return one_file.Told(path, (f"{path}: done",), (), 0, result)

        monkeypatch.setattr(one_file, name, work)

    return of


@pytest.mark.parametrize("processes", [1, 2])
def test_results_stand_in_the_order_of_the_files(processes):
    paths = ["a" * number for number in (5, 1, 4, 2, 3)]
    assert len(paths) > FEW
    assert list(each(partial(length, more=10), paths, processes)) == [15, 11, 14, 12, 13]


@pytest.mark.parametrize("processes", [1, 2])
def test_what_a_worker_refuses_is_refused(processes):
    with pytest.raises(Refused, match="bad: no length"):
        list(each(partial(length, more=0), ["a", "bad", "aa", "aaa"], processes))


@pytest.mark.parametrize("command, work", [("inspect", "inspected"), ("reissue", "reissued"), ("impact", "moved")])
def test_one_bad_file_is_told_and_the_others_go_on(tmp_path, monkeypatch, capsys, told, command, work):
    monkeypatch.chdir(tmp_path)
    told(work, False)
    assert main([command, "a.xlsx", "bad.xlsx", "b.xlsx", *STOCK]) == 1
    said = capsys.readouterr()
    lines = [line for line in said.out.splitlines() if line.endswith(": done")]
    assert lines == ["a.xlsx: done", "b.xlsx: done"]
    assert said.err.splitlines() == ["bad.xlsx: nothing to read", "stock: no catalogs"]


def test_what_all_files_are_warned_of_is_told_once(tmp_path, monkeypatch, capsys, told):
    monkeypatch.chdir(tmp_path)
    told("inspected", None)
    assert main(["inspect", "bad.xlsx", "also bad.xlsx", "worse.xlsx", *STOCK]) == 1
    *_, second, third = capsys.readouterr().err.splitlines()
    assert (second, third) == ("stock: no catalogs", "worse.xlsx: cannot be read: ZeroDivisionError")


def test_a_single_file_fails_as_it_always_did(tmp_path, monkeypatch, told):
    """A fault of the program's own is not dressed up as one of the file."""
    monkeypatch.chdir(tmp_path)
    told("inspected", None)
    with pytest.raises(ZeroDivisionError):
        main(["inspect", "worse.xlsx", *STOCK])


def test_how_far_it_is_is_told_of_many(tmp_path, monkeypatch, capsys, told):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("os.cpu_count", lambda: 1)  # workers would not know of what stands in for the work
    told("inspected", None)
    assert main(["inspect", *(f"{letter}.xlsx" for letter in "abcde"), *STOCK]) == 0
    assert capsys.readouterr().err.splitlines() == [f"{number} of 5 read" for number in range(1, 6)]


def test_impact_closes_with_what_came_of_all(tmp_path, monkeypatch, capsys, told):
    monkeypatch.chdir(tmp_path)
    told("moved", True)
    assert main(["impact", "a.xlsx", "bad.xlsx", "b.xlsx", *STOCK]) == 1
    assert capsys.readouterr().out.splitlines()[-1] == "3 jobs: 2 moved, 0 not, 1 could not be read"


def test_check_goes_on_after_a_job_that_cannot_be_read(here, capsys):
    (here / "bad.yaml").write_text("job: [\n")
    assert main(["check", "bad.yaml", "job.yaml", *STOCK]) == 1
    said = capsys.readouterr()
    assert said.err.startswith("bad.yaml:1:") and "Traceback" not in said.err
    assert "no problems" not in said.out
    assert main(["check", "job.yaml", str(SHED), *STOCK]) == 0
    assert capsys.readouterr().out.startswith("no problems\n")


def test_each_of_several_books_is_read_into_a_file_of_its_own(here, books, capsys):
    (here / "empty.xlsx").write_bytes(b"")
    (here / "other.xlsx").write_bytes(books["small shed"].data)
    assert main(["read", "book.xlsx", "empty.xlsx", "other.xlsx", *STOCK]) == 1
    said = capsys.readouterr()
    assert [line.split(":")[0] for line in said.out.splitlines()] == ["out/book.yaml", "out/other.yaml"]
    assert said.err.startswith("empty.xlsx: the file is empty") and len(said.err.splitlines()) == 1
    assert (here / "out/book.yaml").read_bytes() == (here / "out/other.yaml").read_bytes()
    assert main(["read", "book.xlsx", *STOCK]) == 0
    assert capsys.readouterr().out == (here / "out/book.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("command", ["read", "reissue"])
def test_several_books_need_several_places(here, capsys, command):
    assert main([command, "book.xlsx", "other.xlsx", "-o", "one", *STOCK]) == 2
    assert "-o names one file, but there are several workbooks (leave -o out, " in capsys.readouterr().err
    assert main([command, "book.xlsx", "x/book.xlsx", *STOCK]) == 2
    assert "book.xlsx and x/book.xlsx would both be written to this file" in capsys.readouterr().err
    assert not (here / "out").exists()


def test_findings_of_several_books_are_one_list(here, capsys):
    (here / "empty.xlsx").write_bytes(b"")
    assert main(["inspect", "book.xlsx", "empty.xlsx", "--format", "json", *STOCK]) == 1
    book, empty = json.loads(capsys.readouterr().out)
    assert (book["book"], book["findings"], empty["book"]) == ("book.xlsx", [], "empty.xlsx")
    assert empty["refused"][0].startswith("empty.xlsx: the file is empty")
