"""What is written appears whole or not at all, and over nothing of a person's."""

import errno
import os
import re
import stat

import pytest
from support.parcels import packed, parts
from support.places import GOLDEN, SHED
from support.writing import CHANGED, SHEET, STOCK, build, left, write

from builder import files
from builder.cli import main
from builder.files import put
from builder.jobs import from_values
from builder.returned.read import returned
from builder.review.compare import Comparison, as_workbook


def edited(data):
    """A book as a program that keeps stamp and properties saves it, with another number in a cell."""
    contents = parts(data)
    contents[SHEET] = contents[SHEET].replace(b"<v>24</v>", b"<v>25</v>", 1)
    assert contents != parts(data)
    return packed(contents)


# What is kept


@pytest.mark.slow
def test_a_book_of_ours_is_written_over(here, books):
    assert (
        build("-o", "book.xlsx", "--units", "metric") == 0
        and (here / "book.xlsx").read_bytes() != books["small shed"].data
    )
    assert build("-o", "book.xlsx") == 0 and (here / "book.xlsx").read_bytes() == books["small shed"].data


@pytest.mark.slow
@pytest.mark.parametrize(
    "change",
    [
        lambda old: old | {SHEET: old[SHEET].replace(b"<v>24</v>", b"<v>25</v>", 1)},
        lambda old: old | {"xl/media/image1.png": b"a picture"},
        lambda old: {name: data for name, data in old.items() if name != "xl/calcChain.xml" and "chart1" not in name},
        lambda old: {name.replace("sheet3", "sheet03"): data for name, data in old.items()},
        lambda old: old | {"docProps/custom.xml": old["docProps/custom.xml"].replace(b">us<", b">metric<")},
        lambda old: (
            old
            | {
                "docProps/custom.xml": re.sub(
                    rb">wetfilm_\w+<", b">wetfilm_" + b"0" * 64 + b"<", old["docProps/custom.xml"]
                )
            }
        ),
    ],
    ids=["a cell", "a part added", "a part gone", "a part renamed", "a property", "the seal cleared"],
)
def test_a_book_another_program_saved_is_kept(here, books, change):
    """Stamp and properties prove nothing: some programs carry them over as they were."""
    old = parts(books["small shed"].data)
    theirs = packed(change(old))
    assert parts(theirs) != old
    (here / "book.xlsx").write_bytes(theirs)
    assert write("book.xlsx", books["small shed"].data) == f"book.xlsx: {CHANGED}"
    assert (here / "book.xlsx").read_bytes() == theirs
    assert (
        write("book.xlsx", books["small shed"].data, True) == ""
        and (here / "book.xlsx").read_bytes() == books["small shed"].data
    )


def test_the_command_keeps_it_too(here, books, capsys):
    theirs = edited(books["small shed"].data)
    (here / "book.xlsx").write_bytes(theirs)
    assert build("-o", "book.xlsx") == 1
    assert capsys.readouterr().err == f"book.xlsx: {CHANGED}\n" and (here / "book.xlsx").read_bytes() == theirs


@pytest.mark.parametrize("golden", ["schema_1.xlsx", "schema_2.xlsx"])
def test_a_book_of_before_the_seal_is_kept_and_the_reason_said(here, books, golden):
    old = (GOLDEN / golden).read_bytes()
    (here / "book.xlsx").write_bytes(old)
    assert write("book.xlsx", books["small shed"].data) == (
        "book.xlsx: an earlier wetfilm made this workbook without a mark, so nothing tells whether somebody changed it "
        "('wetfilm inspect' lists what was typed in it; choose another file name with -o, or overwrite it with --force)"
    )
    assert (here / "book.xlsx").read_bytes() == old


@pytest.mark.slow
def test_a_comparison_is_sealed_alike(here, books):
    book = returned("book.xlsx")
    first, again = (
        as_workbook(
            Comparison(*[from_values(book.values, book.units, book.settings)] * 2, (), (), ()), ("a.xlsx", "b.xlsx")
        )
        for _ in range(2)
    )
    assert first == again and write("both.xlsx", first) == "" and write("both.xlsx", first) == ""
    sheet = "xl/worksheets/sheet1.xml"
    theirs = packed(
        parts(first) | {sheet: parts(first)[sheet].replace(b"</sheetData>", b"<row><c><v>1</v></c></row></sheetData>")}
    )
    (here / "both.xlsx").write_bytes(theirs)
    assert write("both.xlsx", first) == f"both.xlsx: {CHANGED}" and (here / "both.xlsx").read_bytes() == theirs


@pytest.mark.slow
def test_a_job_file_is_never_written_over_unasked(here, capsys):
    read = ["read", "book.xlsx", "-o", "back.yaml", *STOCK]
    mine = SHED.read_text().replace("Bicycle shed", "Shed")
    (here / "back.yaml").write_text(mine)
    assert main(read) == 1 and (here / "back.yaml").read_text() == mine
    assert capsys.readouterr().err == (
        "back.yaml: a file of that name exists, and nothing tells whether somebody changed it "
        "(choose another file name with -o, or overwrite it with --force)\n"
    )
    assert main([*read, "--force"]) == 0 and "Bicycle shed" in (here / "back.yaml").read_text()


@pytest.mark.slow
def test_a_book_does_not_make_way_for_something_else(here, books, capsys):
    assert main(["letter", "book.xlsx"]) == 0
    draft, book = (here / "book.eml").read_bytes(), books["small shed"].data
    assert write("book.xlsx", draft).startswith("book.xlsx: the file there is a workbook, the new one would be a draft")
    assert write("book.xlsx", b"job: {}\n").startswith("book.xlsx: a file of that name exists")
    capsys.readouterr()
    assert build("-o", "book.eml") == 1
    assert capsys.readouterr().err.startswith("book.eml: the file there is a draft, the new one would be a workbook")
    assert ((here / "book.eml").read_bytes(), (here / "book.xlsx").read_bytes()) == (draft, book)


# How it is written


def test_modes(here, books):
    usual = os.umask(0o027)
    try:
        assert write("new.xlsx", books["small shed"].data) == ""
        assert stat.S_IMODE((here / "new.xlsx").stat().st_mode) == 0o640
    finally:
        os.umask(usual)
    os.chmod("new.xlsx", 0o604)
    assert write("new.xlsx", books["small shed"].data) == ""
    assert stat.S_IMODE((here / "new.xlsx").stat().st_mode) == 0o604


def test_a_link_is_followed(here, books):
    os.mkdir("shared")
    for name in ("out.xlsx", "later.xlsx"):
        os.symlink(f"shared/{name}", name)
    (here / "shared/out.xlsx").write_bytes(books["small shed"].data)
    for name in ("out.xlsx", "later.xlsx"):  # the second leads to nothing yet
        assert write(name, books["small blank"].data) == ""
        assert os.path.islink(name) and (here / "shared" / name).read_bytes() == books["small blank"].data


def test_bytes_are_on_the_disk_before_the_name(here, books, monkeypatch):
    done = []
    sync, replace = os.fsync, os.replace
    monkeypatch.setattr(
        os,
        "fsync",
        lambda number: (done.append("folder" if stat.S_ISDIR(os.fstat(number).st_mode) else "file"), sync(number)),
    )
    monkeypatch.setattr(os, "replace", lambda *names: (done.append("name"), replace(*names)))
    assert write("book.xlsx", books["small blank"].data) == ""
    assert done == ["file", "name", "folder"]


@pytest.mark.parametrize("step", ["fsync", "chmod", "replace"])
def test_nothing_is_left_behind(here, books, monkeypatch, step):
    before = left(here)
    for fault in (OSError(errno.ENOSPC, "x"), KeyboardInterrupt()):

        def fails(*_, fault=fault):
            raise fault

        with monkeypatch.context() as patched:
            patched.setattr(os, step, fails)
            if isinstance(fault, KeyboardInterrupt):
                with pytest.raises(KeyboardInterrupt):
                    put("book.xlsx", books["small blank"].data)
            else:
                assert (
                    write("book.xlsx", books["small blank"].data)
                    == "book.xlsx: cannot be written: the disk is full (choose another file name with -o)"
                )
        assert left(here) == before and (here / "book.xlsx").read_bytes() == books["small shed"].data


def test_a_command_that_is_stopped_says_so(here, monkeypatch, capsys):
    def stopped(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.jobs.open_job", stopped)
    assert build() == 130 and capsys.readouterr().err == "wetfilm: stopped\n"


# What killed runs leave


def test_what_a_killed_run_left_is_taken_away_by_the_next_that_writes_there(here, books):
    theirs = [
        ".wetfilm-notes",
        "wetfilm-0123456789abcdef",
        ".wetfilm-0123456789abcdef.xlsx",
        ".wetfilm-0123456789ABCDEF",
    ]
    for name in (*theirs, ".wetfilm-0123456789abcdef", ".wetfilm-fedcba9876543210"):
        (here / name).write_bytes(b"half")
    before = left(here)
    assert write("no/such\0name", b"") and left(here) == before
    assert write("book.xlsx", books["small blank"].data) == ""
    assert left(here) == sorted({*before} - {".wetfilm-0123456789abcdef", ".wetfilm-fedcba9876543210"})


def test_what_another_run_is_writing_stays(here, books):
    part = here / ".wetfilm-0123456789abcdef"
    with files._held(here):  # by another run
        part.write_bytes(b"half")
        assert write("book.xlsx", books["small blank"].data) == "" and part.exists()
    assert write("book.xlsx", books["small blank"].data) == "" and not part.exists()


@pytest.mark.parametrize("lacking", ["locks", "locks on this disk", "a folder to be listed"])
def test_where_nothing_can_be_taken_away_the_book_is_written_all_the_same(here, books, monkeypatch, lacking):
    part = here / ".wetfilm-0123456789abcdef"
    part.write_bytes(b"half")

    def fails(*_):
        raise OSError(errno.ENOLCK, "x")

    if lacking == "locks":
        monkeypatch.setattr(files, "fcntl", None)
    elif lacking == "locks on this disk":
        monkeypatch.setattr(files.fcntl, "flock", fails)
    else:
        monkeypatch.setattr(os, "listdir", fails)
    assert write("book.xlsx", books["small blank"].data) == "" and part.exists()
    assert (here / "book.xlsx").read_bytes() == books["small blank"].data
