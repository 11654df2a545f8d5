"""Mistakes of the office in the catalogs: each is answered with file, line, column and useful words; nothing breaks the
program.
"""

import json
import os
import random
import shutil
from pathlib import Path

import pytest
from support.ending import ended_after
from support.places import ROOT
from support.slow import examples

from builder.cli import main
from builder.jobs import open_job
from builder.problems import Refused

CATALOGS = ROOT / "catalogs"
# file, line that is changed (first that holds this text), old, new, text the answer points at, words of the answer
MISTAKES = [
    (
        "coatings",
        "volume_solids: 38 %",
        "38 %",
        "3.8 %",
        "3.8",
        "Coatings, volume solids: '3.8 %' is not allowed; enter a share from 5 % to 100 %, that is 0.05 to 1",
    ),
    ("coatings", "density:", "density:", "densty:", "densty", "unknown key 'densty' (did you mean 'density'?)"),
    (
        "coatings",
        "dry_film: 1.7 mil",
        "1.7 mil",
        "1.7",
        "1.7",
        "Dry film: '1.7' has no unit (use mil or um, as in '1.7 mil')",
    ),
    (
        "coatings",
        "dry_film: 1.7 mil",
        "1.7 mil",
        "1.7 gal",
        "1.7 gal",
        "Dry film: 'gal' is not a unit of film (use mil, um",
    ),
    (
        "coatings",
        "dry_film: 1.7 mil",
        "1.7 mil",
        "1,7 mil",
        "1,7",
        "Dry film: '1,7 mil' has a comma (write 1200 for a thousand two hundred",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2200 pis",
        "2200 pis",
        "Gun pressure: unknown unit 'pis' (use psi, bar, MPa, kPa)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "02200 psi",
        "02200",
        "Gun pressure: '02200 psi' begins with a 0, which some programs read as another number",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2_200 psi",
        "2_200",
        "Gun pressure: '2_200 psi' has an underscore (write 1000 for a thousand)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2.2e3 psi",
        "2.2e3",
        "Gun pressure: '2.2e3 psi' has an exponent (write the number out",
    ),
    ("coatings", "recoat: 4 h", "4 h", "4:00", "4:00", "Recoat after: '4:00' has a colon"),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2 200 psi",
        "2 200",
        "Gun pressure: '2 200 psi' has a space between its digits (write 2200)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "1 062 psi",
        "1 062",
        "Gun pressure: '1 062 psi' has a space between its digits (write 1062)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2'200 psi",
        "2'200",
        "Gun pressure: '2'200 psi' has an apostrophe between its digits (write 2200)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "٢٢٠٠ psi",
        "٢٢٠٠",
        "Gun pressure: '٢٢٠٠ psi' has digits of another script (write 2200 psi)",
    ),
    (
        "coatings",
        "pressure: 2200 psi",
        "2200 psi",
        "2200-",
        "2200-",
        "Gun pressure: '2200-' is not a number with a unit, such as '1 psi'",
    ),
    (
        "coatings",
        "viscosity: 250 cP",
        "250 cP",
        "250 poise",
        "250 poise",
        "Viscosity: unknown unit 'poise' (1 poise is 100 cP; use cP, mPa.s, Pa.s)",
    ),
    (
        "coatings",
        "pack_price: 44.00",
        "44.00",
        "1 044.00",
        "1 044",
        "Price of pack 1: '1 044.00' has a space between its digits (write 1044.00)",
    ),
    ("coatings", "volume_solids: 38 %", "38 %", "38", "38", "Volume solids: '38' has no % sign (write '38 %' or 0.38)"),
    ("terms", "margin: 18 %", "18 %", "18", "18", "Margin: '18' has no % sign (write '18 %' or 0.18)"),
    ("terms", "margin: 18 %", "18 %", "18", "18", "Margin: '18' has no % sign (write '18 %' or 0.18)"),
    (
        "coatings",
        "orifice: {min: 13 thou, max: 21 thou}",
        "min: 13",
        "min: 23",
        "23 thou",
        "Coatings: the smallest orifice is above the largest",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "Exterior acrylic satin",
        "Exterior acrylic satin",
        "Coatings, coating: 'Exterior acrylic satin' is in line",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "Exterior * primer",
        "Exterior *",
        "up to 60 characters, without * ? ~",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "no",
        "no",
        "Coating: 'no' would be read as yes or no by other programs (put it in quotes",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "0517",
        "0517",
        "Coating: '0517' would be read as another number by other programs",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "12:30",
        "12:30",
        "Coating: '12:30' would be read as a time, or another number by other programs",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "&x Exterior primer",
        "&x",
        "anchors (&) and aliases (*) are not allowed",
    ),
    (
        "coatings",
        "name: Exterior primer",
        "Exterior primer",
        "!!str Exterior primer",
        "!!str",
        "tag 'tag:yaml.org,2002:str' is not allowed",
    ),
    (
        "coatings",
        "priced_on: 2026-03-02",
        "2026-03-02",
        "2026-13-02",
        "2026-13-02",
        "Priced on: 2026-13-02 is not a date (write year-month-day",
    ),
    (
        "coatings",
        "    kind: primer",
        "kind: primer",
        "kind: primar",
        "primar",
        "'primar' is not allowed; enter one of: primer, finish, filler, stain (did you mean 'primer'?)",
    ),
    ("coatings", "    kind: primer", "    kind", "\tkind", "\tkind", "a tab (indent with spaces)"),
    (
        "nozzles",
        '{size: "310"',
        '"310"',
        '"0310"',
        '"0310"',
        "Nozzles, size: '0310' is not allowed; enter a size of three or four digits, as in 515",
    ),
    ("nozzles", '{size: "310"', '"310"', '"311"', '"311"', "Nozzles: this size of this family is listed twice"),
    (
        "nozzles",
        '{size: "310"',
        "size:",
        "sort:",
        "{sort:",
        "Nozzles, size: blank; enter a size of three or four digits, as in 515",
    ),
    ("pumps", "guns_max: 1", "1", "1.5", "1.5", "Pumps, guns: '1.5' is not allowed; enter a whole number from 1 to 6"),
    (
        "surfaces",
        "fan: {min: 10 in, max: 24 in}",
        "min: 10",
        "min: 30",
        "30 in",
        "Surfaces: the narrowest fan is above the widest",
    ),
    (
        "tasks",
        "basis: area",
        "basis: area",
        "basis: length",
        "length",
        "Task rates: enter the rate that its basis needs",
    ),
    (
        "terms",
        "area: {low:",
        "low: 0.98",
        "low: 1.2",
        "1.2",
        "Terms: a low figure of the risks (P10) is above its high one (P90)",
    ),
    (
        "terms",
        "margin: 18 %",
        "18 %",
        "118 %",
        "118 %",
        "Terms, margin: '118 %' is not allowed; enter a share from 0 % to 95 %, that is 0 to 0.95",
    ),
    (
        "terms",
        "currency: USD",
        "currency: USD",
        "currency: USD\n    currency: EUR",
        "currency: EUR",
        "duplicate key 'currency'",
    ),
]


def copied(tmp_path, file=None, change=None):
    """The shipped catalogs in a folder of their own, one file changed."""
    folder = tmp_path / "catalogs"
    folder.mkdir()
    for path in CATALOGS.glob("*.yaml"):
        text = path.read_text()
        (folder / path.name).write_text(change(text) if path.stem == file else text)
    return folder


def changed(text, line, old, new):
    """The text with one line changed: the first that holds `line` and is no comment."""
    lines = text.split("\n")
    at = next(number for number, one in enumerate(lines) if line in one and not one.lstrip().startswith("#"))
    return "\n".join([*lines[:at], lines[at].replace(old, new, 1), *lines[at + 1 :]])


@pytest.mark.parametrize(
    "file, line, old, new, at, words",
    MISTAKES,
    ids=[f"{file}: {new}".replace("\t", "tab ") for file, _, _, new, _, _ in MISTAKES],
)
def test_a_mistake_is_answered_where_it_stands(tmp_path, capsys, file, line, old, new, at, words):
    text = changed((CATALOGS / f"{file}.yaml").read_text(), line, old, new)
    folder = copied(tmp_path, file, lambda _: text)
    assert main(["check", str(folder)]) == 1
    said = capsys.readouterr().out.splitlines()
    answers = [one for one in said if words in one]
    assert answers, said
    place = answers[0].removeprefix(f"{folder}/{file}.yaml:").split(":")
    found_line, column = int(place[0]), int(place[1])
    pointed = text.split("\n")[found_line - 1][column - 1 :]
    assert pointed.startswith(at), pointed


@pytest.mark.parametrize(
    "file, line, old, new",
    [
        ("coatings", "viscosity: 250 cP", "250 cP", "250 mPa.s"),
        ("coatings", "viscosity: 250 cP", "250 cP", "0.25 Pa.s"),
        ("coatings", "pack_price: 44.00", "44.00", "44."),
        ("terms", "wage: 28", "28", "28 1/2"),
        ("pumps", "rental: 140", "140", "+140"),
        ("terms", "margin: 18 %", "18 %", ".18"),
        ("terms", "margin: 18 %", "18 %", "9/50"),
        ("profiles", "coefficient: 1.30", "1.30", "1 3/10"),
    ],
    ids=lambda one: one,
)
def test_a_number_may_be_written_in_more_ways_than_one(tmp_path, capsys, file, line, old, new):
    text = changed((CATALOGS / f"{file}.yaml").read_text(), line, old, new)
    assert main(["check", str(copied(tmp_path, file, lambda _: text))]) == 0, capsys.readouterr().out


def test_the_shipped_catalogs_have_no_problem(capsys):
    assert main(["check", str(CATALOGS)]) == 0
    assert capsys.readouterr().out == "no problems\n"


WARNINGS = [
    (
        "coatings",
        "volume_solids: 38 %",
        "38 %",
        "10 %",
        "warning: Coatings: volume solids below 15 % are low for a paint (check the decimal point;",
    ),
    (
        "coatings",
        "density: 10.6 lb/gal",
        "10.6 lb/gal",
        "0.7 kg/L",
        "warning: Coatings: density below that of any solvent (check the unit)",
    ),
    (
        "coatings",
        "{volume: 5 gal, pack_price: 205.00}",
        "205.00",
        "40.00",
        "warning: Coatings: a larger pack costs less than a smaller one",
    ),
    (
        "coatings",
        "    source: invented for the demo",
        "    source: invented",
        "    # source: invented",
        "warning: Coatings: a record without source",
    ),
]


@pytest.mark.parametrize("file, line, old, new, words", WARNINGS, ids=[words for *_, words in WARNINGS])
def test_what_is_probably_a_mistake_is_a_warning(tmp_path, capsys, file, line, old, new, words):
    text = changed((CATALOGS / f"{file}.yaml").read_text(), line, old, new)
    assert main(["check", str(copied(tmp_path, file, lambda _: text))]) == 0
    assert words in capsys.readouterr().out


def test_prices_out_of_date_for_a_job_are_warnings(tmp_path, capsys):
    job = tmp_path / "job.yaml"
    for date, words in (
        ("2027-01-15", "the price is more than 120 days older than the job; the same in"),
        ("2026-01-15", "the price is dated after the job; the same in"),
    ):
        job.write_text((ROOT / "examples/boathouse.yaml").read_text().replace("date: 2026-04-20", f"date: {date}"))
        assert main(["check", str(job), "--catalogs", str(CATALOGS)]) == 0
        assert f"warning: Coatings: {words}" in capsys.readouterr().out


def test_why_a_file_cannot_be_read_stands_in_the_json_too(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("twice.yaml").write_text("job: {name: A}\njob: {name: B}\n")
    assert main(["check", "twice.yaml", "--format", "json"]) == 1
    (found,) = json.loads(capsys.readouterr().out)
    assert (found["file"], found["line"], found["column"]) == ("twice.yaml", 2, 1) and "job" in found["message"]
    assert main(["check", "twice.yaml", "none.yaml", "--format", "json"]) == 1
    assert [one["file"] for one in json.loads(capsys.readouterr().out)] == ["none.yaml", "twice.yaml"]
    assert main(["inspect", "none.xlsx", "--format", "json"]) == 1
    assert json.loads(capsys.readouterr().out) == {
        "refused": ["none.xlsx: cannot read the file: no such file or folder"]
    }


def test_a_folder_with_catalogs_in_it_is_checked_with_its_jobs(tmp_path, capsys, monkeypatch):
    assert main(["new", str(tmp_path / "shop")]) == 0
    monkeypatch.chdir(tmp_path / "shop")
    capsys.readouterr()
    assert main(["check", "."]) == 0
    assert capsys.readouterr().out.startswith("no problems\nboathouse.yaml: open: ")


@pytest.mark.parametrize(
    "given, told", [("none", "no such folder"), ("job.yaml", "a file, not a folder of catalogs"), (".", "no catalog (")]
)
def test_a_folder_of_catalogs_that_is_none_is_told(tmp_path, capsys, monkeypatch, given, told):
    monkeypatch.chdir(tmp_path)
    Path("job.yaml" if given == "job.yaml" else "notes.txt").write_text("job: {name: A}\n")
    assert main(["check", "job.yaml", "--catalogs", given]) == 1
    assert capsys.readouterr().err.startswith(f"{given}:1:1: {told}")


def test_check_answers_in_json(tmp_path, capsys):
    folder = copied(tmp_path, "terms", lambda text: text.replace("margin: 18 %", "margin: 18 mil"))
    assert main(["check", str(folder), "--format", "json"]) == 1
    (found,) = json.loads(capsys.readouterr().out)
    assert (
        found["file"].endswith("terms.yaml")
        and found["severity"] == "error"
        and found["message"] == "Margin: 'mil' is not a %"
    )
    assert found["hint"] == "use %" and found["line"] > 1 and found["column"] > 1


def test_own_records_lie_over_shipped_ones_and_check_says_so(tmp_path, capsys):
    own = tmp_path / "own"
    own.mkdir()
    (own / "own.yaml").write_text(
        "terms:\n  price: {margin: 30 %}\ncrews:\n  - name: steady\n    guns: 1\n    rollers: 0\n    tenders: 0\n"
        "    flow_max: 1 gal/min\n    gun_speed_factor: 1\n    handling_factor: 1\n    wage: 40\n    source: our own\n"
    )
    job = str(ROOT / "examples/boathouse.yaml")
    assert main(["check", job, "--catalogs", str(CATALOGS), "--catalogs", str(own)]) == 0
    said = capsys.readouterr().out
    assert f"{own}/own.yaml:4:5: note: Crews 'steady': replaces the record in {CATALOGS}/terms.yaml:" in said
    before, after = open_job(job, [CATALOGS]), open_job(job, [CATALOGS, own])
    assert (
        after.estimate.terms.margin == 0.3
        and after.estimate.terms.overlap == before.estimate.terms.overlap
        and after.price() > before.price()
    )


def test_new_makes_a_folder_that_builds_at_once(tmp_path, monkeypatch, capsys):
    assert main(["new", str(tmp_path / "mine")]) == 0
    monkeypatch.chdir(tmp_path / "mine")
    assert main(["build", "boathouse.yaml"]) == 0 and (tmp_path / "mine/out/boathouse.xlsx").exists()
    assert main(["new", str(tmp_path / "mine")]) == 1 and "the folder is not empty" in capsys.readouterr().err


@pytest.mark.slow
def test_impact_names_the_value_that_moved_the_price(tmp_path, capsys, books):
    dearer = copied(tmp_path, "terms", lambda text: changed(text, "wage: 28", "28", "31"))
    for job in (ROOT / "examples/boathouse.yaml", books["boathouse"].path):
        assert main(["impact", str(job), "--catalogs", str(dearer)]) == 1
        said = capsys.readouterr().out.splitlines()
        assert said[0].startswith(f"{job}: price ") and said[-1].endswith("Crews 'steady', wage: 28 -> 31 USD/h")
        assert all("nozzle" in line for line in said[1:-1])
    assert main(["impact", str(ROOT / "examples/boathouse.yaml"), "--catalogs", str(CATALOGS)]) == 0


# ---- no file, however broken, may break the program
# ---------------------------------------------------------------------------

NASTY = (
    "no",
    "on",
    "~",
    "null",
    "011",
    "0x1F",
    "4:1",
    "12:30",
    "1_000",
    "1e3",
    "1e400",
    ".inf",
    ".nan",
    "-1",
    "0",
    "9" * 400,
    "''",
    '""',
    "[]",
    "{}",
    "&a",
    "*a",
    "!!int 3",
    "- x",
    "? x",
    "|",
    ">",
    "%",
    "@",
    "`",
    "2026-02-30",
    "1.7 mil mil",
    "1/0 mil",
    "1 000 psi",
    "12,5 %",
    "é",
    "\\u0007",
    '"\\x07"',
    '"\\ud800"',
    "x" * 3000,
)
MANY = int(os.environ.get("WETFILM_FUZZ", "1000"))  # by hand 5000 of each


def mutated(draw, text):
    """A file as a tired person leaves it: a line deleted, doubled, swapped, indented or cut, or a value replaced."""
    lines = text.split("\n")
    at, other = draw.randrange(len(lines)), draw.randrange(len(lines))
    how = draw.randrange(6)
    if how == 0:
        del lines[at]
    elif how == 1:
        lines.insert(at, lines[at])
    elif how == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif how == 3:
        lines[at] = draw.choice([" ", "  ", "\t", "    "]) + lines[at]
    elif how == 4:
        lines[at] = lines[at][: draw.randrange(len(lines[at]) + 1)]
    else:
        valued = [number for number, line in enumerate(lines) if ": " in line and not line.lstrip().startswith("#")]
        at = draw.choice(valued)
        lines[at] = lines[at][: lines[at].index(": ") + 2] + draw.choice(NASTY)
    return "\n".join(lines)


def answered(folder):
    """The problems of a folder of catalogs; each names a line that exists. A hang is a failure, after twenty seconds."""
    try:
        with ended_after(20):
            problems = open_job(None, [folder]).problems
    except Refused as refused:
        problems = refused.problems
    for problem in problems:
        lines = Path(problem.file).read_bytes().count(b"\n") + 1 if Path(problem.file).is_file() else 1
        assert 1 <= problem.line <= lines and problem.column >= 1, problem
    return problems


@pytest.mark.slow
@examples(60, MANY)
def test_mutated_catalogs_never_break_the_program(tmp_path, count):
    draw, folder, passed = random.Random(4), copied(tmp_path), 0
    files = sorted(CATALOGS.glob("*.yaml"))
    for _ in range(count):
        path = draw.choice(files)
        (folder / path.name).write_text(mutated(draw, path.read_text()), encoding="utf-8")
        passed += not answered(folder)
        shutil.copy(path, folder / path.name)
    assert passed > 0


@pytest.mark.slow
@examples(60, MANY)
def test_random_bytes_never_break_the_program(tmp_path, count):
    draw, folder = random.Random(5), copied(tmp_path)
    alphabet = b"abc: -{}[],'\"#&*!|>%@`\n\t \x00\xff\xc3\xa9\xe2\x80\xa8012"
    for _ in range(count):
        some = (
            bytes(draw.choice(alphabet) for _ in range(draw.randrange(200)))
            if draw.random() < 0.7
            else draw.randbytes(draw.randrange(200))
        )
        (folder / "coatings.yaml").write_bytes(some)
        assert answered(folder)
