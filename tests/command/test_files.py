"""What is written appears whole or not at all, and over nothing of a person's; what is printed stays on its line."""

import errno
import io
import json
import os
import re
import stat
import subprocess
import sys

import pytest
from support.parcels import packed, parts
from support.places import ROOT

from builder.cli import main
from builder.files import put
from builder.jobs import from_values
from builder.problems import Refused, on_one_line
from builder.returned.read import returned
from builder.review.compare import Comparison, as_workbook

SHED = ROOT / "tests/data/shed.yaml"
CATALOGS = ("--catalogs", str(ROOT / "catalogs"))
READS = "the command reads this file, so it does not write it (choose another file name with -o)"
CHANGED = "wetfilm did not write this file, or somebody changed it since (choose another file name with -o, or overwrite it with --force)"
SHEET = "xl/worksheets/sheet3.xml"  # Takeoff


@pytest.fixture
def here(tmp_path, monkeypatch, books):
    """A folder to work in: job.yaml, and book.xlsx that was built of it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(SHED.read_text())
    (tmp_path / "book.xlsx").write_bytes(books["shed"].data)
    return tmp_path


def build(*options):
    return main(["build", "job.yaml", *map(str, options), *CATALOGS])


def write(path, data, force=False):
    """What `put` says to bytes at a path; '' where it writes them."""
    try:
        put(path, data, force)
    except Refused as refused:
        (problem,) = refused.problems
        return str(problem)
    return ""


def edited(data, **replaced):
    """A book as a program that keeps stamp and properties saves it, with other content in a part."""
    contents = parts(data)
    for name, change in {SHEET: lambda old: old.replace(b"<v>24</v>", b"<v>25</v>", 1), **replaced}.items():
        contents[name] = change(contents[name])
    assert contents != parts(data)
    return packed(contents)


def left(folder):
    return sorted(path.name for path in folder.iterdir())


# What is kept


def test_a_book_of_ours_is_written_over(here, books):
    assert (
        build("-o", "book.xlsx", "--units", "metric") == 0 and (here / "book.xlsx").read_bytes() != books["shed"].data
    )
    assert build("-o", "book.xlsx") == 0 and (here / "book.xlsx").read_bytes() == books["shed"].data


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
    old = parts(books["shed"].data)
    theirs = packed(change(old))
    assert parts(theirs) != old
    (here / "book.xlsx").write_bytes(theirs)
    assert write("book.xlsx", books["shed"].data) == f"book.xlsx: {CHANGED}"
    assert (here / "book.xlsx").read_bytes() == theirs
    assert (
        write("book.xlsx", books["shed"].data, True) == "" and (here / "book.xlsx").read_bytes() == books["shed"].data
    )


def test_the_command_keeps_it_too(here, books, capsys):
    theirs = edited(books["shed"].data)
    (here / "book.xlsx").write_bytes(theirs)
    assert build("-o", "book.xlsx") == 1
    assert capsys.readouterr().err == f"book.xlsx: {CHANGED}\n" and (here / "book.xlsx").read_bytes() == theirs


@pytest.mark.parametrize("golden", ["schema_1.xlsx", "schema_2.xlsx"])
def test_a_book_of_before_the_seal_is_kept_and_the_reason_said(here, books, golden):
    old = (ROOT / "tests/golden" / golden).read_bytes()
    (here / "book.xlsx").write_bytes(old)
    assert write("book.xlsx", books["shed"].data) == (
        "book.xlsx: an earlier wetfilm made this workbook without a mark, so nothing tells whether somebody changed it "
        "('wetfilm inspect' lists what was typed in it; choose another file name with -o, or overwrite it with --force)"
    )
    assert (here / "book.xlsx").read_bytes() == old


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


def test_a_job_file_is_never_written_over_unasked(here, capsys):
    read = ["read", "book.xlsx", "-o", "back.yaml", *CATALOGS]
    mine = SHED.read_text().replace("Bicycle shed", "Shed")
    (here / "back.yaml").write_text(mine)
    assert main(read) == 1 and (here / "back.yaml").read_text() == mine
    assert capsys.readouterr().err == (
        "back.yaml: a file of that name exists, and nothing tells whether somebody changed it "
        "(choose another file name with -o, or overwrite it with --force)\n"
    )
    assert main([*read, "--force"]) == 0 and "Bicycle shed" in (here / "back.yaml").read_text()


def test_a_book_does_not_make_way_for_something_else(here, capsys):
    assert main(["letter", "book.xlsx"]) == 0 and build("-o", "other.xlsx") == 0
    for command, answer in (
        (["letter", "book.xlsx", "-o", "other.xlsx"], "other.xlsx: the file there is a workbook, the new one would be a draft"),
        (
            ["build", "job.yaml", "-o", "book.eml", *CATALOGS],
            "book.eml: the file there is a draft, the new one would be a workbook",
        ),
        (["read", "book.xlsx", "-o", "other.xlsx", *CATALOGS], "other.xlsx: a file of that name exists"),
    ):
        before = {path.name: path.read_bytes() for path in here.iterdir()}
        capsys.readouterr()
        assert main(command) == 1
        assert capsys.readouterr().err.startswith(answer)
        assert {path.name: path.read_bytes() for path in here.iterdir()} == before


# How it is written


def test_modes(here, books):
    usual = os.umask(0o027)
    try:
        assert write("new.xlsx", books["shed"].data) == ""
        assert stat.S_IMODE((here / "new.xlsx").stat().st_mode) == 0o640
    finally:
        os.umask(usual)
    os.chmod("new.xlsx", 0o604)
    assert write("new.xlsx", books["shed"].data) == ""
    assert stat.S_IMODE((here / "new.xlsx").stat().st_mode) == 0o604


def test_a_link_is_followed(here, books):
    os.mkdir("shared")
    for name in ("out.xlsx", "later.xlsx"):
        os.symlink(f"shared/{name}", name)
    (here / "shared/out.xlsx").write_bytes(books["shed"].data)
    for name in ("out.xlsx", "later.xlsx"):  # the second leads to nothing yet
        assert write(name, books["blank"].data) == ""
        assert os.path.islink(name) and (here / "shared" / name).read_bytes() == books["blank"].data


def test_bytes_are_on_the_disk_before_the_name(here, books, monkeypatch):
    done = []
    sync, replace = os.fsync, os.replace
    monkeypatch.setattr(
        os,
        "fsync",
        lambda number: (done.append("folder" if stat.S_ISDIR(os.fstat(number).st_mode) else "file"), sync(number)),
    )
    monkeypatch.setattr(os, "replace", lambda *names: (done.append("name"), replace(*names)))
    assert write("book.xlsx", books["blank"].data) == ""
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
                    put("book.xlsx", books["blank"].data)
            else:
                assert (
                    write("book.xlsx", books["blank"].data)
                    == "book.xlsx: cannot be written: the disk is full (choose another file name with -o)"
                )
        assert left(here) == before and (here / "book.xlsx").read_bytes() == books["shed"].data


def test_a_command_that_is_stopped_says_so(here, monkeypatch, capsys):
    def stopped(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.jobs.open_job", stopped)
    assert build() == 130 and capsys.readouterr().err == "wetfilm: stopped\n"


# Where it is written


def test_two_jobs_of_one_name(here, capsys):
    for folder, name in (("x", "j.yaml"), ("y", "j.yaml"), ("z", "J.yaml")):
        (here / folder).mkdir()
        (here / folder / name).write_text(SHED.read_text())
    for other, at in (("y/j.yaml", "out/j.xlsx"), ("z/J.yaml", "out/J.xlsx"), ("x/j.yaml", "out/j.xlsx")):
        assert main(["build", "x/j.yaml", other, *CATALOGS]) == 2
        assert (
            capsys.readouterr().err
            == f"{at}: x/j.yaml and {other} would both be written to this file (build them one by one, with -o)\n"
        )
    assert not (here / "out").exists()
    os.symlink("job.yaml", "same.yaml")
    (here / "out").mkdir()
    os.symlink("job.xlsx", "out/same.xlsx")  # two names of one place
    assert main(["build", "job.yaml", "same.yaml", *CATALOGS]) == 2 and not (here / "out/job.xlsx").exists()
    assert main(["build", "job.yaml", "x/j.yaml", "-o", "one.xlsx", *CATALOGS]) == 2


@pytest.mark.parametrize("spelled", ["{}", "./{}", "x/../{}", "hard", "soft"])
@pytest.mark.parametrize(
    "command, own",
    [
        (["letter", "book.xlsx"], "book.xlsx"),
        (["read", "book.xlsx"], "book.xlsx"),
        (["reissue", "book.xlsx"], "book.xlsx"),
        (["compare", "book.xlsx", "other.xlsx"], "book.xlsx"),
        (["compare", "other.xlsx", "book.xlsx"], "book.xlsx"),
        (["build", "job.yaml"], "job.yaml"),
        (["build", "job.yaml", "--catalogs", "stock"], "stock/terms.yaml"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_no_command_writes_over_what_it_reads(here, books, capsys, command, own, spelled):
    """Not with --force either: what is read would be lost with what was typed in it."""
    (here / "other.xlsx").write_bytes(books["shed"].data)
    for folder in ("x", "stock"):
        (here / folder).mkdir()
    for path in (ROOT / "catalogs").glob("*.yaml"):
        (here / "stock" / path.name).write_bytes(path.read_bytes())
    os.link(own, "hard")
    os.symlink(own, "soft")
    output, before = spelled.format(own), (here / own).read_bytes()
    catalogs = () if command[0] == "letter" or "--catalogs" in command else CATALOGS
    assert main([*command, "-o", output, "--force", *catalogs]) == 2
    assert capsys.readouterr().err.removeprefix("./") == f"{output.removeprefix('./')}: {READS}\n"
    assert (here / own).read_bytes() == before


def test_a_draft_named_like_its_book(here, capsys):
    os.rename("book.xlsx", "book.eml")
    assert main(["letter", "book.eml", "--force"]) == 2
    assert capsys.readouterr().err == f"book.eml: {READS}\n"


@pytest.mark.parametrize(
    "output, said",
    [
        ("pipe", "not a file (name a file, as in out/boathouse.xlsx)"),
        ("/dev/null", "not a file (name a file, as in out/boathouse.xlsx)"),
        ("/dev/full", "not a file (name a file, as in out/boathouse.xlsx)"),
        ("folder", "not a file (name a file, as in out/boathouse.xlsx)"),
        ("none/", "not a file (name a file, as in out/boathouse.xlsx)"),
        (
            "job.yaml/book.xlsx",
            "cannot be written: a file is in the way where a folder is needed (choose another file name with -o)",
        ),
        ("x" * 300, "cannot be written: its name is too long (choose another file name with -o)"),
        ("circle", "cannot be written: its links lead in a circle (choose another file name with -o)"),
    ],
)
@pytest.mark.parametrize("force", [False, True])
def test_no_place_for_a_file(here, books, monkeypatch, output, said, force):
    os.mkfifo("pipe")
    os.mkdir("folder")
    os.symlink("circle", "circle")
    if output.startswith("/dev") and not os.path.exists(output):
        pytest.skip(f"no {output} on this system")
    monkeypatch.setattr(os, "replace", None)
    before = left(here)
    assert write(output, books["shed"].data, force) == f"{output}: {said}"
    assert left(here) == before


def test_a_command_without_a_place_for_its_file(here, capsys):
    assert build("-o", "none/") == 1
    assert capsys.readouterr().err == "none/: not a file (name a file, as in out/boathouse.xlsx)\n"


def test_a_default_name_that_is_too_long(here, capsys):
    """A name of 255 letters is the longest of usual file systems; '.xlsx' and '.eml' come on top."""
    name = "x" * 255
    os.rename("book.xlsx", name)
    assert main(["letter", name]) == 1
    assert capsys.readouterr().err == f"{name}.eml: cannot be written: its name is too long (choose another file name with -o)\n"
    os.replace("job.yaml", name)
    assert main(["build", name, *CATALOGS]) == 1
    assert (
        capsys.readouterr().err == f"out/{name}.xlsx: cannot be written: its name is too long (choose another file name with -o)\n"
    )
    assert os.listdir("out") == []


# What is printed


def test_foreign_text_stays_on_its_line():
    assert on_one_line("Größe 5\u00a0% C:\\new 你好 \u05d0") == "Größe 5\u00a0% C:\\new 你好 \u05d0"
    assert (
        on_one_line("a\nb\rc\td\x1b[31m\x9b\u2028\u202e\u200b\ud800\0")
        == r"a\nb\rc\td\x1b[31m\x9b\u2028\u202e\u200b\ud800\x00"
    )
    shown = on_one_line("a" * 100_000 + "(hint)")
    assert len(shown) <= 2003 and " … " in shown and shown.endswith("(hint)")


def test_no_further_line_is_faked(here, capsys):
    fake = "job.xlsx: price 1.00 USD"
    text = (
        SHED.read_text()
        .replace("crew: steady", f'crew: "a\\n{fake}"')
        .replace("built: 1971", f'"built\\n{fake}\\e[2J": 1971')
    )
    (here / "job\nfake.yaml").write_text(text)
    for command in (["check"], ["build"]):
        assert main([*command, "job\nfake.yaml", *CATALOGS]) == 1
        said = "".join(capsys.readouterr())
        assert rf"job\nfake.yaml:9:3: Job 'Bicycle shed': unknown key 'built\n{fake}\x1b[2J'" in said
        assert all(line.startswith("job\\nfake.yaml:") for line in said.splitlines())
    assert main(["check", "job\nfake.yaml", "--format", "json", *CATALOGS]) == 1
    assert (
        "\"message\": \"Job 'Bicycle shed': unknown key 'built\\njob.xlsx" in capsys.readouterr().out
    )  # exact: JSON has its own escapes


def test_sheets_and_cells_fake_no_line(here, books, capsys):
    contents = parts(books["shed"].data)
    contents["xl/workbook.xml"] = contents["xl/workbook.xml"].replace(
        b"</sheets>", b'<sheet name="My&#10;own &#x202e;" sheetId="99" r:id="own"/></sheets>'
    )
    contents["xl/_rels/workbook.xml.rels"] = contents["xl/_rels/workbook.xml.rels"].replace(
        b"</Relationships>",
        b'<Relationship Id="own" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" '
        b'Target="worksheets/own.xml"/></Relationships>',
    )
    contents["xl/worksheets/own.xml"] = contents[SHEET]
    contents[SHEET] = re.sub(
        rb'<c r="G6"( s="\d+")><v>[^<]*</v>',
        rb'<c r="G6"\1 t="inlineStr"><is><t>ten&#10;book.xlsx: fine</t></is>',
        contents[SHEET],
    )
    (here / "book.xlsx").write_bytes(packed(contents))
    assert main(["inspect", "book.xlsx", *CATALOGS]) == 1
    said = capsys.readouterr().out
    assert (
        r"  My\nown \u202e: this sheet was added" in said
        and r"'ten\nbook.xlsx: fine' is not a number" in said
    )
    assert all(line.startswith(("book.xlsx: ", "  ")) and line != "book.xlsx: fine" for line in said.splitlines())


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_consoles_that_cannot_show_every_letter(here, encoding):
    """What is printed can be kept: the job that `read` prints builds to the same book, whatever the console."""
    said = "Größe … ≥ 你 😀"
    (here / "job.yaml").write_text(SHED.read_text().replace("name: Bicycle shed", f'name: "{said}"'), encoding="utf-8")
    assert build("-o", "mine.xlsx") == 0

    def run(*arguments):
        environment = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONPATH": str(ROOT)}
        return subprocess.run(
            [sys.executable, "-m", "builder", *arguments, *CATALOGS],
            env=environment,
            capture_output=True,
            timeout=60,
            check=False,
        )

    job = run("read", "mine.xlsx")
    assert (job.returncode, job.stderr) == (0, b"")
    (here / "back.yaml").write_bytes(job.stdout)
    assert main(["build", "back.yaml", "-o", "back.xlsx", *CATALOGS]) == 0
    assert (here / "back.xlsx").read_bytes() == (here / "mine.xlsx").read_bytes()
    (here / "job.yaml").write_text(
        (here / "job.yaml").read_text(encoding="utf-8").replace("surface: Block", f"surface: {said}"), encoding="utf-8"
    )
    seen = run("check", "job.yaml")
    assert seen.returncode == 1 and seen.stderr == b""
    assert f"'{said.encode(encoding, 'backslashreplace').decode(encoding)}' is not in Surfaces" in seen.stdout.decode(encoding)
    exact = run("check", "job.yaml", "--format", "json")
    assert said in json.loads(exact.stdout.decode("ascii"))[0]["message"]


def test_files_are_utf_8_whatever_the_console(here, monkeypatch):
    said = "Größe … ≥ 你 😀"
    (here / "job.yaml").write_text(SHED.read_text().replace("name: Bicycle shed", f'name: "{said}"'), encoding="utf-8")
    assert build("-o", "mine.xlsx") == 0
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), "ascii"))
    assert main(["read", "mine.xlsx", "-o", "back.yaml", *CATALOGS]) == 0
    assert said in (here / "back.yaml").read_text(encoding="utf-8")


def test_blank_names_and_numbers_out_of_range(here, capsys):
    for arguments, answer in (
        (["build", ""], "blank: enter a name"),
        (["read", "book.xlsx", "-o", " "], "blank: enter a name"),
        (["build", "--lines", "5000"], "'5000' is not a whole number from 1 to 1,000"),
        (["reissue", "book.xlsx", "--instead", "Old"], "'Old' is not a pair of names: write OLD=NEW"),
    ):
        with pytest.raises(SystemExit) as caught:
            main(arguments)
        assert caught.value.code == 2 and answer in capsys.readouterr().err
