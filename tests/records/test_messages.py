"""A mistake in a job is answered in one plain message with its place, exit status 1, and nothing is written."""

import pytest
from support.places import EXAMPLES, ROOT

from builder.cli import main

JOB = """\
job: {name: Test, date: 2026-05-04, units: us, currency: USD, crew: steady, people: 2, pump: Mid electric, exposure: open,
      opening_none: 5 ft2, opening_both: 5 ft2}
systems:
  - {name: Boards, surface: Lap siding}
coats:
  - {system: Boards, coating: Exterior acrylic satin, coats: 2}
takeoff:
  - {tag: A, system: Boards, length: 20 ft, height: 9 ft,
     openings: [{name: Door, width: 3 ft, height: 7 ft}]}
"""
MISTAKES = [  # what is replaced by what, the text the answer points at, the answer
    (
        "Exterior acrylic satin",
        "Exterior acrylic satn",
        "Exterior acrylic satn",
        "Coats, coating: 'Exterior acrylic satn' is not in Coatings"
        " (did you mean 'Exterior acrylic satin' or 'Exterior acrylic heavy coat'?)",
    ),
    (
        "width: 3 ft",
        "width: 30 ft",
        "{tag: A",
        "Takeoff: openings larger than the face (check its length, its height and its openings)",
    ),
    (
        "length: 20 ft",
        "length: 20 psi",
        "20 psi",
        "Length: 'psi' is not a unit of length (use ft, m, in, yd, cm, mm, mil, thou, um, µm)",
    ),
    ("length: 20 ft", "length: 20", "20, height", "Length: '20' has no unit (use ft or m, as in '20 ft')"),
    ("length: 20 ft, ", "", "{tag: A", "Takeoff, length: blank; enter a number from 0 to 5,000 ft"),
    ("coats: 2", "coats: 1.5", "1.5", "Coats, coats: '1.5' is not allowed; enter a whole number from 1 to 9"),
    (
        "surface: Lap siding",
        "surfaces: Lap siding",
        "surfaces:",
        "Systems 'Boards': unknown key 'surfaces' (did you mean 'surface'?)",
    ),
    (
        "currency: USD",
        "currency: EUR",
        "EUR",
        "the job is in EUR, the catalogs are in USD (add 'exchange:', the worth of one USD in EUR)",
    ),
    ("units: us", "units: imperial", "imperial", "unknown units 'imperial' (write us or metric)"),
    (
        "people: 2",
        "people: 0",
        "0, pump",
        "Job, people on the job: '0' is not allowed; enter a whole number from 1 to 50",
    ),
    (
        "date: 2026-05-04",
        "date: 4/5/2026",
        "4/5/2026",
        "Date of the estimate: '4/5/2026' is not a date (write year-month-day, as in 2026-05-04)",
    ),
    ("systems:", "system:", "system:", "unknown key 'system' (did you mean 'systems'?)"),
    ("coats: 2}", "coats: 2, coats: 3}", "coats: 3", "duplicate key 'coats' (the first is in line 6)"),
    (
        "name: Boards",
        "name: &b Boards",
        "&b",
        "anchors (&) and aliases (*) are not allowed (write the value out, or put text that begins so in quotes)",
    ),
    (
        "length: 20 ft",
        'length: "1,200 ft"',
        '"1,200',
        "Length: '1,200 ft' has a comma (write 1200 for a thousand two hundred, 12.5 for twelve and a half)",
    ),
    ("  - {tag: A", "\t- {tag: A", "\t- {tag", "a tab (indent with spaces)"),
]


def place(text, found):
    """line:column of a piece of text, counted from 1."""
    at = text.index(found)
    return f"{text.count(chr(10), 0, at) + 1}:{at - text.rfind(chr(10), 0, at)}"


def run(tmp_path, capsys, text, *options):
    path = tmp_path / "job.yaml"
    path.write_text(text)
    status = main(
        ["build", str(path), "-o", str(tmp_path / "book.xlsx"), "--catalogs", str(ROOT / "catalogs"), *options]
    )
    return status, capsys.readouterr().err.replace(str(path), "job.yaml"), (tmp_path / "book.xlsx").exists()


def test_the_job_itself_builds(tmp_path, capsys):
    assert run(tmp_path, capsys, JOB) == (0, "", True)


@pytest.mark.parametrize("old, new, at, answer", MISTAKES, ids=[new or f"no {old}" for old, new, _, _ in MISTAKES])
def test_a_mistake_is_answered_with_its_place(tmp_path, capsys, old, new, at, answer):
    text = JOB.replace(old, new, 1)
    assert text != JOB
    status, said, written = run(tmp_path, capsys, text)
    assert status == 1 and not written
    assert said == f"job.yaml:{place(text, at)}: {answer}\n"


@pytest.mark.parametrize(
    "old, new",
    [
        ("Exterior acrylic satin", "No such coating"),
        ("width: 3 ft", "width: 30 ft"),
        ("length: 20 ft", "length: 20 psi"),
    ],
)
def test_one_mistake_gives_one_message(tmp_path, capsys, old, new):
    _, said, _ = run(tmp_path, capsys, JOB.replace(old, new))
    assert len(said.splitlines()) == 1


def test_two_mistakes_in_a_record_give_two_messages(tmp_path, capsys):
    """The coating is told by the judging, the number by the reading; the judging does not tell the number again."""
    _, said, _ = run(
        tmp_path, capsys, JOB.replace("Exterior acrylic satin", "No such coating").replace("coats: 2", "coats: two")
    )
    assert [line.split(": ")[1] for line in said.splitlines()] == ["Coats, coating", "Coats"], said


def test_an_empty_takeoff_is_one_message(tmp_path, capsys):
    status, said, written = run(tmp_path, capsys, JOB[: JOB.index("takeoff:")])
    assert (status, said, written) == (
        1,
        "job.yaml:1:6: the job has no takeoff line (add 'takeoff:' with at least one line, or 'rooms:')\n",
        False,
    )


def test_a_file_that_is_not_there(tmp_path, capsys):
    assert main(["build", str(tmp_path / "none.yaml"), "--catalogs", str(ROOT / "catalogs")]) == 1
    assert "none.yaml:1:1: cannot read the file: no such file or folder" in capsys.readouterr().err


def test_check_says_everything_at_once(tmp_path, capsys):
    path = tmp_path / "job.yaml"
    text = JOB.replace("length: 20 ft", "length: 20 psi").replace("coats: 2", "coats: 1.5")
    path.write_text(text)
    assert main(["check", str(path), "--catalogs", str(ROOT / "catalogs")]) == 1
    places = [line.split(": ")[0].rpartition("job.yaml:")[2] for line in capsys.readouterr().out.splitlines()]
    assert places == [place(text, "1.5"), place(text, "20 psi")]
    assert main(["check", str(ROOT / "catalogs"), *map(str, EXAMPLES.values())]) == 0


@pytest.mark.slow
def test_a_workbook_that_somebody_changed_is_not_overwritten(tmp_path, capsys):
    target = tmp_path / "book.xlsx"
    target.write_bytes(b"somebody's own")
    status, said, _ = run(tmp_path, capsys, JOB)
    assert (
        status == 1
        and "wetfilm did not write this file, or somebody changed it since (choose another file name with -o, or overwrite it with --force)"
        in said
    )
    assert target.read_bytes() == b"somebody's own"
    assert run(tmp_path, capsys, JOB, "--force")[0] == 0
    assert run(tmp_path, capsys, JOB)[0] == 0  # its own is
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".")]


def test_a_pump_that_cannot_feed_block_filler_leaves_the_price_blank(tmp_path, capsys):
    """Block filler asks for 27 thou and more (common practice, no source): more than the small pump feeds."""
    text = (
        JOB.replace("pump: Mid electric", "pump: Small electric")
        .replace("Lap siding", "Block")
        .replace("Exterior acrylic satin", "Block filler")
    )
    path = tmp_path / "job.yaml"
    path.write_text(text)
    assert main(["build", str(path), "-o", str(tmp_path / "book.xlsx"), "--catalogs", str(ROOT / "catalogs")]) == 0
    assert "NO PRICE: Paint, row 21: no nozzle fits\n" in capsys.readouterr().out
