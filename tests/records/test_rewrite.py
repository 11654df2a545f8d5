"""Single values changed in a catalog's file: what the diff shows, what `check` says, and that notes are not piled up."""

import difflib
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest
from support.places import CATALOGS

from builder.checking import check
from builder.documents import Mark
from builder.problems import ERROR, BadValue
from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.records.overlay import load_catalogs
from builder.records.rewrite import Rewritten, before, like, lines_of, rewritten

TODAY = "2026-05-04"
LEARNABLE = (
    ("surfaces", "loss", 1.1),
    ("surfaces", "handling", 1.2),
    ("surfaces", "roll_rate", 0.9),
    ("rates", "area_rate", 0.9),
    ("rates", "length_rate", 1.1),
    ("rates", "count_rate", 0.8),
    ("rates", "hours_each", 1.3),
    ("crews", "handling_factor", 1.1),
    ("families", "life", 0.9),
    ("coatings", "abrasion", 1.2),
    ("terms", "unproductive", 1.3),
    ("terms", "lost_jan", 0.9),
    ("terms", "lost_may", 1.2),
    ("terms", "lost_dec", 0.9),
    ("terms", "time_low", 0.97),
    ("terms", "time_high", 1.03),
    ("terms", "walk", 0.9),
)


@pytest.fixture
def folder(tmp_path):
    """The shipped catalogs, to be written to."""
    return copytree(CATALOGS, tmp_path / "catalogs", ignore=ignore_patterns("schemas"))


def _changes(folder):
    """File -> its changes: every learnable value of every record, a factor larger."""
    stock = load_catalogs([folder], Units())
    found = {}
    for kind, key, factor in LEARNABLE:
        for record, marks in zip(stock.values[kind], stock.marks[kind]):
            if key in marks and record[key]:
                field, mark = KINDS[kind].field_of[key], marks[key]
                lines = lines_of(Path(mark.file).read_bytes())
                was = before(lines, mark, _key(field))
                text = like(was, record[key] * factor, field.quantity)
                change = Rewritten(mark, _key(field), text, "12 jobs, 90 % between 1 and 2", was)
                found.setdefault(Path(mark.file), []).append(change)
    return found


def _key(field):
    return (field.path or field.key).removeprefix("weather.")


def _write(changes, today=TODAY):
    for path, those in changes.items():
        path.write_bytes(rewritten(path.read_bytes(), those, today))


def test_the_diff_shows_the_values_and_their_notes_alone(folder):
    old = {path: path.read_text(encoding="utf-8").splitlines() for path in folder.glob("*.yaml")}
    changes = _changes(folder)
    assert sum(map(len, changes.values())) > 60
    _write(changes)
    for path, lines in old.items():
        new = path.read_text(encoding="utf-8").splitlines()
        differ = [line for line in difflib.ndiff(lines, new) if line[0] in "+-"]
        touched = changes.get(path, [])
        assert len([line for line in differ if line[0] == "-"]) == len({change.mark.line for change in touched})
        assert len([line for line in differ if "# learned" in line]) == len(touched)
        for change in sorted(touched, key=lambda one: one.mark.column, reverse=True):
            line, at = lines[change.mark.line - 1], change.mark.column - 1
            assert line[at:].startswith(change.was)
            lines[change.mark.line - 1] = line[:at] + change.text + line[at + len(change.was) :]
        assert [line.split("  # learned")[0] for line in new if not line.lstrip().startswith("# learned")] == lines


def test_the_values_are_read_as_they_were_to_be_and_check_passes(folder):
    before_it = load_catalogs([folder], Units()).values
    _write(_changes(folder))
    after = load_catalogs([folder], Units()).values
    changed = {(kind, key) for kind, key, _ in LEARNABLE}
    for kind, key, factor in LEARNABLE:
        for old, new in zip(before_it[kind], after[kind]):
            if old.get(key):
                assert new[key] == pytest.approx(old[key] * factor, rel=0.006)  # three digits
    for kind, records in before_it.items():
        for old, new in zip(records, after[kind]):
            assert all(old[key] == new[key] for key in old if (kind, key) not in changed)
    problems = check([folder], [folder])
    assert not [problem for problem in problems if problem.severity == ERROR]


def test_a_second_note_takes_the_place_of_the_first_and_keeps_what_was(folder):
    _write(_changes(folder))
    once = (folder / "terms.yaml").read_text(encoding="utf-8")
    changes = _changes(folder)
    assert {change.was for change in changes[folder / "surfaces.yaml"] if change.key == "loss"} == {
        "20 %",
        "25 %",
        "22 %",
        "15 %",
        "18 %",
    }
    _write(changes, "2026-06-05")
    twice = (folder / "terms.yaml").read_text(encoding="utf-8")
    assert twice.count("# learned") == once.count("# learned") and TODAY not in twice
    assert "# learned 2026-06-05, labor.unproductive: 12 jobs, 90 % between 1 and 2; was 0.75 h" in twice


ONE = b"""\xef\xbb\xbfa:\r
  - {name: x, loss: 20 %}   # kept\r
  - name: y\r
    loss: '20 %'\r
    other: 1\r
  - {name: z, loss: 20 %, more: {low: 0.9, high: 1.1}}\r
"""


def _mark(line, text):
    return Mark("f", line, lines_of(ONE)[line - 1].index(text) + 1)


def test_quotes_ends_of_lines_and_the_first_letter_stay():
    changes = [
        Rewritten(_mark(2, "20 %"), "loss", "21 %", "1 job", "20 %"),
        Rewritten(_mark(4, "'20"), "loss", "22 %", "2 jobs", "20 %"),
        Rewritten(_mark(6, "1.1"), "more.high", "1.2", "4 jobs", "1.1"),
        Rewritten(_mark(6, "20 %"), "loss", "23 %", "3 jobs", "20 %"),
    ]
    assert (
        rewritten(ONE, changes, TODAY)
        == b"""\xef\xbb\xbfa:\r
  # learned 2026-05-04, loss: 1 job; was 20 %\r
  - {name: x, loss: 21 %}   # kept\r
  - name: y\r
    loss: 22 %  # learned 2026-05-04, loss: 2 jobs; was 20 %\r
    other: 1\r
  # learned 2026-05-04, more.high: 4 jobs; was 1.1\r
  # learned 2026-05-04, loss: 3 jobs; was 20 %\r
  - {name: z, loss: 23 %, more: {low: 0.9, high: 1.2}}\r
"""
    )


@pytest.mark.parametrize(
    "text, value, quantity, said",
    (
        ("17 %", 0.18349, "share", "18.3 %"),
        ("0.17", 0.18349, "share", "0.183"),
        ("3.2 h", 3.4567 * 3600, "time", "3.46 h"),
        ("45 min", 3000.0, "time", "50 min"),
        ("120 ft2/h", 118.04 * 0.3048**2 / 3600, "rate", "118 ft2/h"),
        ("1200 ft2/h", 1234.5 * 0.3048**2 / 3600, "rate", "1230 ft2/h"),
        ("4.6 s/ft2", 0.0123 / 0.3048**2, "handling", "0.0123 s/ft2"),
        ("17/15", 1.2345, "number", "1.23"),
        ("12 h 30 min", 3600.0, "time", "1 h"),
        ("1.00", 0.9996, "number", "1"),
    ),
)
def test_a_value_is_written_in_the_unit_that_stood_there(text, value, quantity, said):
    """Three digits; 1 ft is 0.3048 m exactly."""
    assert like(text, value, quantity) == said


def test_a_value_on_several_lines_is_left_to_its_writer():
    with pytest.raises(BadValue, match="one line"):
        before(lines_of(b"a:\n  loss:\n"), Mark("f", 2, 8), "loss")
