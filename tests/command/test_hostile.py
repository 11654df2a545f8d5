"""Hostile files given to a command: answered in one plain line, in bounded time and memory."""

import os
import re
import subprocess
import sys

import pytest
from support.parcels import packed, parts
from support.places import CATALOGS, ROOT, SHED
from support.refusals import NAMED, SHEET

from builder.cli import main
from builder.jobs import fingerprint, open_job
from builder.records.kinds import TABLES

LINES = TABLES["takeoff"].most


def test_a_job_of_more_lines_than_a_book_is_read_back_with(tmp_path):
    text = SHED.read_text()  # it has six
    lines = "".join("  - {system: Boards, length: 10 ft, height: 8 ft}\n" for _ in range(LINES - 6))
    job = tmp_path / "job.yaml"
    for more, answers in (
        ("", []),
        ("  - {system: Boards, length: 10 ft, height: 8 ft}\n" * 2, ["more than 2,000 rows on Takeoff"]),
    ):
        job.write_text(text.replace("takeoff:\n", f"takeoff:\n{lines}{more}"))
        opened = open_job(job, [CATALOGS])
        assert [problem.message for problem in opened.errors] == answers and opened.settings["lines"] == LINES


def alone(*arguments, timeout=60):
    """A command in a process of its own: exit status, what it said on stderr, its memory in MB (0 where none is told).

    The timeout makes a failure of a hang.
    """
    program = """
import pathlib, sys
from builder.cli import main
status, about = main(sys.argv[1:]), pathlib.Path("/proc/self/status")
peak = [line for line in about.read_text().splitlines() if "VmHWM" in line] if about.exists() else ["0 0 kB"]
print(peak[0].split()[1], file=sys.stderr)
sys.exit(status)
"""
    done = subprocess.run(
        [sys.executable, "-c", program, *map(str, arguments), "--catalogs", str(CATALOGS)],
        cwd=ROOT,
        timeout=timeout,
        check=False,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
    said, _, peak = done.stderr.rstrip().rpartition("\n")
    return done.returncode, said, int(peak) / 1000


HEAVY = {  # what took a minute or half a gigabyte -> the parts in which it is bent
    "names": lambda old: {
        "xl/workbook.xml": old["xl/workbook.xml"].replace(
            b"</definedNames>", NAMED.replace(b"%b", b"\t") * 12 + b"</definedNames>"
        )
    },
    "stretched": lambda old: {
        "xl/workbook.xml": re.sub(
            rb"(<definedName name=\"takeoff_\w+\">'Takeoff'!\$\w+\$5:\$\w+\$)\d+",
            rb"\g<1>49000",
            old["xl/workbook.xml"],
        ),
        SHEET: old[SHEET].replace(b"</sheetData>", b'<row r="48999"><c r="D48999"><v>1</v></c></row></sheetData>'),
    },
    "fonts": lambda old: {
        "xl/styles.xml": old["xl/styles.xml"].replace(
            b"</fonts>", b'<font><sz val="9"/></font>' * 300_000 + b"</fonts>"
        )
    },
    "rows": lambda old: {
        SHEET: old[SHEET].replace(
            b"</sheetData>", b"".join(b'<row r="%d" ht="9"/>' % row for row in range(300, 500_300)) + b"</sheetData>"
        )
    },
}


@pytest.mark.slow
@pytest.mark.parametrize("bent", HEAVY)
def test_hostile_books_take_no_memory(tmp_path, books, bent):
    """300 MB bound what took 330 to 640; an ordinary book takes 165."""
    path, contents = tmp_path / "book.xlsx", parts(books["shed"].data)
    path.write_bytes(packed(contents | HEAVY[bent](contents)))
    status, said, peak = alone("inspect", path)
    assert peak < 300
    assert (
        (status, said) == (0, "")
        if bent == "rows"
        else status == 1 and said.startswith(f"{path}: ") and "\n" not in said
    )


@pytest.mark.parametrize("name", ["pipe", "/dev/zero", "folder"])
@pytest.mark.parametrize("command", ["check", "build"])
def test_a_job_that_is_no_file(tmp_path, monkeypatch, capsys, name, command):
    if name == "folder" and command == "check":
        pytest.skip("a folder is checked as one of catalogs")
    monkeypatch.chdir(tmp_path)
    os.mkfifo("pipe")
    os.mkdir("folder")
    assert main([command, name, "--catalogs", str(CATALOGS)]) == 1
    assert "".join(capsys.readouterr()) == f"{name}:1:1: not a file\n" and not os.path.exists("out")


def test_a_pipe_among_the_catalogs(tmp_path, monkeypatch, books, capsys):
    """Neither loading them nor their fingerprint waits for it."""
    for path in CATALOGS.glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    os.mkfifo(tmp_path / "x.yaml")
    for command in (
        ["check", str(tmp_path)],
        ["build", str(SHED), "-o", str(tmp_path / "book.xlsx"), "--catalogs", str(tmp_path)],
    ):
        assert main(command) == 1
        assert "".join(capsys.readouterr()) == f"{tmp_path}/x.yaml:1:1: not a file\n"
    assert fingerprint([tmp_path]) == fingerprint([CATALOGS])


@pytest.mark.parametrize(
    "text, answer",
    [
        ("job: {name: " + "a" * 1_999_000 + "}", "1:13: text longer than 32,767 characters (shorten it)"),
        ("? " + "a" * 1_999_000 + "\n: b", "1:3: a key longer than 200 characters (a key is one word before a colon)"),
    ],
    ids=["a text", "a key"],
)
def test_two_megabytes_of_one_line(tmp_path, capsys, text, answer):
    path = tmp_path / "job.yaml"
    path.write_text(text)
    assert main(["check", str(path), "--catalogs", str(CATALOGS)]) == 1
    assert "".join(capsys.readouterr()) == f"{path}:{answer}\n"


def test_commands_refuse_alike(tmp_path, capsys):
    path = tmp_path / "book.xlsx"
    path.write_text("tag,length")
    assert main(["impact", str(path), "--catalogs", str(CATALOGS)]) == 1
    assert (
        capsys.readouterr().err
        == f"{path}: it is not an .xlsx workbook, whatever its name says (a csv file has no formulas: "
        "ask for the .xlsx that wetfilm built)\n"
    )
