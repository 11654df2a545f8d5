"""Where a command writes: never over what it reads, never two files in one place, and nowhere that holds no file."""

import os

import pytest
from support.places import SHED
from support.small import CATALOGS
from support.writing import STOCK, build, left, write

from builder.cli import main

READS = "the command reads this file, so it does not write it (choose another file name with -o)"


def test_two_jobs_of_one_name(here, capsys):
    for folder, name in (("x", "j.yaml"), ("y", "j.yaml"), ("z", "J.yaml")):
        (here / folder).mkdir()
        (here / folder / name).write_text(SHED.read_text())
    for other, at in (("y/j.yaml", "out/j.xlsx"), ("z/J.yaml", "out/J.xlsx"), ("x/j.yaml", "out/j.xlsx")):
        assert main(["build", "x/j.yaml", other, *STOCK]) == 2
        assert (
            capsys.readouterr().err
            == f"{at}: x/j.yaml and {other} would both be written to this file (name them one by one, with -o)\n"
        )
    assert not (here / "out").exists()
    os.symlink("job.yaml", "same.yaml")
    (here / "out").mkdir()
    os.symlink("job.xlsx", "out/same.xlsx")  # two names of one place
    assert main(["build", "job.yaml", "same.yaml", *STOCK]) == 2 and not (here / "out/job.xlsx").exists()
    assert main(["build", "job.yaml", "x/j.yaml", "-o", "one.xlsx", *STOCK]) == 2


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
    (here / "other.xlsx").write_bytes(books["small shed"].data)
    for folder in ("x", "stock"):
        (here / folder).mkdir()
    for path in CATALOGS.glob("*.yaml"):
        (here / "stock" / path.name).write_bytes(path.read_bytes())
    os.link(own, "hard")
    os.symlink(own, "soft")
    output, before = spelled.format(own), (here / own).read_bytes()
    catalogs = () if command[0] == "letter" or "--catalogs" in command else STOCK
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
    assert write(output, books["small shed"].data, force) == f"{output}: {said}"
    assert left(here) == before


def test_a_command_without_a_place_for_its_file(here, capsys):
    assert build("-o", "none/") == 1
    assert capsys.readouterr().err == "none/: not a file (name a file, as in out/boathouse.xlsx)\n"


@pytest.mark.slow
def test_a_default_name_that_is_too_long(here, capsys):
    """A name of 255 letters is the longest of usual file systems; '.xlsx' and '.eml' come on top."""
    name = "x" * 255
    os.rename("book.xlsx", name)
    assert main(["letter", name]) == 1
    assert (
        capsys.readouterr().err
        == f"{name}.eml: cannot be written: its name is too long (choose another file name with -o)\n"
    )
    os.replace("job.yaml", name)
    assert main(["build", name, *STOCK]) == 1
    assert (
        capsys.readouterr().err
        == f"out/{name}.xlsx: cannot be written: its name is too long (choose another file name with -o)\n"
    )
    assert os.listdir("out") == []
