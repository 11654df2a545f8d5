"""What is printed stays on its line, and can be read on any console."""

import io
import json
import os
import re
import subprocess
import sys

import pytest
from support.parcels import packed, parts
from support.places import ROOT, SHED
from support.slow import slow
from support.writing import SHEET, STOCK, build

from builder.cli import main
from builder.problems import on_one_line


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
        assert main([*command, "job\nfake.yaml", *STOCK]) == 1
        said = "".join(capsys.readouterr())
        assert rf"job\nfake.yaml:11:3: Job 'Bicycle shed': unknown key 'built\n{fake}\x1b[2J'" in said
        assert all(line.startswith("job\\nfake.yaml:") for line in said.splitlines())
    assert main(["check", "job\nfake.yaml", "--format", "json", *STOCK]) == 1
    assert (
        "\"message\": \"Job 'Bicycle shed': unknown key 'built\\njob.xlsx" in capsys.readouterr().out
    )  # exact: JSON has its own escapes


@pytest.mark.slow
def test_sheets_and_cells_fake_no_line(here, books, capsys):
    contents = parts(books["small shed"].data)
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
        rb'<c r="D6"( s="\d+")><v>[^<]*</v>',
        rb'<c r="D6"\1 t="inlineStr"><is><t>ten&#10;book.xlsx: fine</t></is>',
        contents[SHEET],
    )
    (here / "book.xlsx").write_bytes(packed(contents))
    assert main(["inspect", "book.xlsx", *STOCK]) == 1
    said = capsys.readouterr().out
    assert (
        r"  My\nown \u202e: a copy of the sheet Takeoff" in said and r"'ten\nbook.xlsx: fine' is not a number" in said
    )
    assert all(line.startswith(("book.xlsx: ", "  ")) and line != "book.xlsx: fine" for line in said.splitlines())


@pytest.mark.parametrize("encoding", [slow("ascii"), slow("cp1252")])
def test_consoles_that_cannot_show_every_letter(here, encoding):
    """What is printed can be kept: the job that `read` prints builds to the same book, whatever the console."""
    said = "Größe … ≥ 你 😀"
    (here / "job.yaml").write_text(SHED.read_text().replace("name: Bicycle shed", f'name: "{said}"'), encoding="utf-8")

    def run(*arguments):
        environment = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONPATH": str(ROOT)}
        return subprocess.run(
            [sys.executable, "-m", "builder", *arguments, *STOCK],
            env=environment,
            capture_output=True,
            timeout=60,
            check=False,
        )

    assert run("build", "job.yaml", "-o", "mine.xlsx").returncode == 0
    job = run("read", "mine.xlsx")
    assert (job.returncode, job.stderr) == (0, b"")
    (here / "back.yaml").write_bytes(job.stdout)
    assert run("build", "back.yaml", "-o", "back.xlsx").returncode == 0
    assert (here / "back.xlsx").read_bytes() == (here / "mine.xlsx").read_bytes()
    (here / "job.yaml").write_text(
        (here / "job.yaml").read_text(encoding="utf-8").replace("surface: Block", f"surface: {said}"), encoding="utf-8"
    )
    seen = run("check", "job.yaml")
    assert seen.returncode == 1 and seen.stderr == b""
    assert f"'{said.encode(encoding, 'backslashreplace').decode(encoding)}' is not in Surfaces" in seen.stdout.decode(
        encoding
    )
    exact = run("check", "job.yaml", "--format", "json")
    assert said in json.loads(exact.stdout.decode("ascii"))[0]["message"]


@pytest.mark.slow
def test_files_are_utf_8_whatever_the_console(here, monkeypatch):
    said = "Größe … ≥ 你 😀"
    (here / "job.yaml").write_text(SHED.read_text().replace("name: Bicycle shed", f'name: "{said}"'), encoding="utf-8")
    assert build("-o", "mine.xlsx") == 0
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), "ascii"))
    assert main(["read", "mine.xlsx", "-o", "back.yaml", *STOCK]) == 0
    assert said in (here / "back.yaml").read_text(encoding="utf-8")


def test_blank_names_and_numbers_out_of_range(here, capsys):
    for arguments, answer in (
        (["build", ""], "blank: enter a name"),
        (["read", "book.xlsx", "-o", " "], "blank: enter a name"),
        (["reissue", "book.xlsx", "--instead", "Old"], "'Old' is not a pair of names: write OLD=NEW"),
    ):
        with pytest.raises(SystemExit) as caught:
            main(arguments)
        assert caught.value.code == 2 and answer in capsys.readouterr().err


def test_check_tells_the_questions_that_a_sound_job_leaves_open_and_succeeds(here, capsys):
    """The shed leaves none once its client is named."""
    for client, more in (("client: ", []), ("#", ["job.yaml: open: The client is not named (Job: Client)"])):
        (here / "job.yaml").write_text(SHED.read_text().replace("client: ", client))
        assert main(["check", "job.yaml", *STOCK]) == 0
        assert capsys.readouterr().out.splitlines() == ["no problems", *more]
    assert main(["check", "job.yaml", "--format", "json", *STOCK]) == 0
    assert json.loads(capsys.readouterr().out) == []
