"""Rooms, standard windows and doors, amounts taken from the takeoff, what a blank stands for: worked by hand."""

import pytest
from support.places import CATALOGS

from builder.jobs import open_job
from builder.quantities import scale

FT, FT2 = scale("ft"), scale("ft2")
JOB = """
job: {{name: By hand, date: 2026-05-04, units: us, currency: USD{job}}}
systems:
  - {{name: Walls, surface: Occupied walls}}
  - {{name: Ceilings, surface: Ceilings}}
  - {{name: Trim, surface: Trim}}
coats:
  - {{system: Walls, coating: Interior wall eggshell, color: Oat, coats: 2}}
  - {{system: Ceilings, coating: Interior wall flat, color: White}}
  - {{system: Trim, coating: Trim enamel, color: White, coats: 2}}
{rest}
"""


@pytest.fixture
def opened(tmp_path):
    def opened(rest, job="", own=""):
        path = tmp_path / "job.yaml"
        path.write_text(JOB.format(rest=rest, job=job) + own)
        return open_job(path, [CATALOGS])

    return opened


ROOM = """rooms:
  - {{name: Bedroom, length: 14 ft, width: 12 ft, height: 8 ft, count: 2, doors: 1, windows: 2{}}}"""
WHOLE = ROOM.format(", walls: Walls, ceiling: Ceilings, base: Trim")


def test_a_room_is_its_walls_its_ceiling_and_its_base(opened):
    """14 x 12 ft is 52 ft around. Walls of two rooms: 2 * (52 * 8 - 21 - 2 * 15) ft2, a door of 3 x 7 and windows of
    3 x 5 ft on Terms; ceilings 2 * 168 ft2; bases 2 * (52 - 3) ft of 5 in.
    """
    job = opened(WHOLE)
    assert not job.errors
    systems = {row.name: row for row in job.estimate.rows["systems"] if row.live}
    assert systems["Walls"].measured == pytest.approx(730 * FT2, rel=1e-12)
    assert systems["Ceilings"].measured == pytest.approx(336 * FT2, rel=1e-12)
    assert systems["Trim"].measured == pytest.approx(98 * 5 / 12 * FT2, rel=1e-12)
    # edges: 2 * (3 + 7) of a door, 2 * (3 + 5) of each of two windows, in two rooms
    assert systems["Walls"].perimeter == pytest.approx(2 * (20 + 2 * 16) * FT, rel=1e-12)
    assert systems["Ceilings"].perimeter == systems["Trim"].perimeter == 0
    assert systems["Walls"].opened == 6
    room = job.estimate.rows["rooms"][0]
    assert room.shown_area == pytest.approx((730 + 336 + 98 * 5 / 12) * FT2, rel=1e-12)


def test_a_room_costs_what_its_lines_typed_on_takeoff_cost(opened):
    lines = """takeoff:
  - {system: Walls, length: 52 ft, height: 8 ft, count: 2, windows: 4, doors: 2}
  - {system: Ceilings, length: 14 ft, height: 12 ft, count: 2}
  - {system: Trim, length: 49 ft, height: 5 in, count: 2, shape: strip}"""
    assert opened(WHOLE).price() == opened(lines).price() > 0


def test_what_is_not_named_is_not_painted(opened):
    job = opened(ROOM.format(", ceiling: Ceilings"))
    assert [row.name for row in job.estimate.rows["systems"] if row.lines] == ["Ceilings"]


@pytest.mark.parametrize(
    "rest, told",
    [
        (ROOM.format(""), "Rooms: name the system of its walls, its ceiling or its base"),
        (ROOM.format(", walls: Walls").replace("windows: 2", "windows: 40"), "Rooms: openings larger than the face"),
        (ROOM.format(", walls: Wals"), "Rooms, walls: 'Wals' is not in Systems on the sheet Paint"),
    ],
)
def test_what_is_wrong_with_a_room_is_told_and_stops_the_price(opened, rest, told):
    job = opened(rest)
    assert any(told in problem.message for problem in job.errors) and job.price() is None


@pytest.mark.parametrize(
    "none, both", [("20 ft2", "20 ft2"), ("5 ft2", "18 ft2"), ("5 ft2", "5 ft2"), ("0 ft2", "40 ft2")]
)
@pytest.mark.parametrize("sides", [1, 2])
def test_standard_windows_and_doors_are_deducted_as_openings_of_their_size(opened, none, both, sides):
    line = f"{{system: Walls, length: 60 ft, height: 9 ft, sides: {sides}"
    job = f", opening_none: {none}, opening_both: {both}"
    counted = opened(f"takeoff:\n  - {line}, windows: 3, doors: 2}}", job)
    typed = opened(
        f"takeoff:\n  - {line}, tag: W, openings: [{{width: 3 ft, height: 5 ft, count: 3}}, "
        "{width: 3 ft, height: 7 ft, count: 2}]}",
        job,
    )
    one, other = (book.estimate.rows["areas"][0] for book in (counted, typed))
    for key in ("gross", "openings", "measured", "coated", "perimeter", "opened"):
        assert getattr(one, key) == pytest.approx(getattr(other, key), rel=1e-12), key
    assert counted.price() == typed.price() > 0


def test_a_counted_window_needs_its_size_on_terms(opened):
    own = "own: {terms: {takeoff: {window: {width: }}}}"
    job = opened("takeoff:\n  - {system: Walls, length: 60 ft, height: 9 ft, windows: 3}", own=own)
    assert [problem.message for problem in job.errors] == [
        "Takeoff: enter the size of a standard window and a standard door on Terms"
    ]


LINES = """takeoff:
  - {system: Walls, length: 60 ft, height: 9 ft, windows: 3, doors: 2}
  - {system: Ceilings, length: 20 ft, height: 30 ft}
  - {system: Trim, length: 200 ft, height: 6 in, shape: strip}
tasks:
  - {%s}"""


@pytest.mark.parametrize(
    "task, hours",
    [  # rates of one person, from catalogs/tasks.yaml
        ("task: Sand, system: Ceilings", 600 / 220),
        ("task: Sand, system: Ceilings, share: 10 %", 60 / 220),
        ("task: Sand, amount_from: coated area", (60 * 9 - 3 * 15 - 2 * 21 + 600 + 100) / 220),
        ("task: Caulk, system: Walls, amount_from: opening perimeter", (3 * 16 + 2 * 20) / 90),
        ("task: Caulk, system: Trim, amount_from: line length, share: 50 %", 100 / 90),
        ("task: Mask edges, amount_from: line length", (60 + 20 + 200) / 110),
        ("task: Mask fittings, amount_from: openings", 5 / 10),
        ("task: Caulk, system: Walls, amount_from: opening perimeter, length: 45 ft, share: 10 %", 45 / 90),
        ("task: Mask openings, share: 50 %", (3 * 16 + 2 * 20) / 2 / 90),
    ],
)
def test_the_amount_of_a_task_is_taken_from_the_takeoff(opened, task, hours):
    job = opened(LINES % task)
    assert not job.errors, job.errors
    assert job.estimate.rows["task_hours"][0].hours[0] == pytest.approx(hours * 3600, rel=1e-12)


IDLE = "clear the area, length or count: its basis does not count by it"


@pytest.mark.parametrize(
    "task, told",
    [
        ("task: Caulk, amount_from: measured area", "take the amount from an area, a length or a number, as its basis"),
        ("task: Set up, amount_from: openings", "take the amount from an area, a length or a number, as its basis"),
        ("task: Caulk", "enter the length, count or hours its basis asks, or Amount from"),
        ("task: Sand, system: Ceilings, length: 45 ft", IDLE),
        ("task: Caulk, system: Walls, length: 45 ft, count: 2", IDLE),
        ("task: Set up, area: 45 ft2", IDLE),
    ],
)
def test_an_amount_of_another_kind_than_its_basis_is_a_fault(opened, task, told):
    job = opened(LINES % task)
    assert any(told in problem.message for problem in job.errors) and job.price() is None


def test_a_blank_on_job_stands_for_the_first_of_its_catalog_and_the_figures_of_terms(opened):
    rest = "takeoff:\n  - {system: Walls, length: 60 ft, height: 9 ft, windows: 3}"
    job = opened(rest)
    first = {key: job.values[key][0]["name"] for key in ("crews", "pumps", "exposures")}
    said = (
        f", crew: {first['crews']}, pump: {first['pumps']}, exposure: {first['exposures']}, people: 1, "
        "opening_none: 5 ft2, opening_both: 5 ft2"  # the crew has one gun, and nobody else; Terms say 5 ft2
    )
    assert job.price() == opened(rest, said).price() > 0


def test_a_blank_crew_is_a_fault_where_there_is_none(opened):
    gone = "own: {without: {crews: [learner, steady, seasoned, two guns, back-rolling pair]}}"
    job = opened("takeoff:\n  - {system: Walls, length: 60 ft, height: 9 ft}", own=gone)
    assert any(problem.message.startswith("Job, crew: blank") for problem in job.errors) and job.price() is None


def test_a_coat_without_a_number_goes_on_once(opened):
    rest = "takeoff:\n  - {system: Ceilings, length: 20 ft, height: 30 ft}"
    job = opened(rest)
    assert job.values["coats"][1]["coats"] is None
    assert job.estimate.rows["film"][1].surface_coats == pytest.approx(600 * FT2, rel=1e-12)
