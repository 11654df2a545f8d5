"""Room in the tables of a book: it follows a job that needs more, and more can be asked for."""

import pytest
from support.by_address import Addressed
from support.engines import differences
from support.places import SHED
from support.returning import inputs
from support.small import CATALOGS

from builder.api import estimate
from builder.api import open_job as opened_with
from builder.cli import main
from builder.jobs import open_job, room_for
from builder.records.kinds import TABLES
from builder.returned.read import read
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make

pytestmark = pytest.mark.slow

STOCK = ["--catalogs", str(CATALOGS)]
VENT = "{name: Vent, width: 1 ft, height: 2 ft, count: %d}"


def shed(folder, vents):
    """The shed's job with these openings on its front wall instead of the four vents."""
    path = folder / "job.yaml"
    path.write_text(SHED.read_text().replace(VENT % 4, vents))
    return path


def test_openings_told_one_by_one_have_room_and_cost_what_their_count_costs(tmp_path):
    """44 vents of 2 ft2 each, as one row that counts them and as 44 rows: the same wall."""
    counted = open_job(shed(tmp_path, VENT % 44), [CATALOGS])
    assert counted.estimate.capacity["openings"] == TABLES["openings"].capacity == 40
    each = open_job(shed(tmp_path, ", ".join([VENT % 1] * 44)), [CATALOGS])
    assert not each.errors and each.estimate.capacity["openings"] == 44 + 3 + 1  # its gate, window, door; a spare row
    assert each.price() == counted.price() > 0
    back, _, settings = read(_written(each, tmp_path))
    assert inputs(back) == inputs(each.values) and settings["openings_lines"] == 48.0


def test_a_book_that_was_asked_for_more_rows_recomputes_to_the_model(tmp_path):
    asked = {"coats": 20, "systems": 12, "pumps": 9, "takeoff": 12, "signed": 4}
    opened = open_job(SHED, [CATALOGS], rows=asked)
    room = opened.estimate.capacity
    assert {table: room[table] for table in asked} == asked
    engine = Addressed(_written(opened, tmp_path))
    assert differences(opened.estimate, Layout(blocks(opened.units, room), room), engine) == []


def test_a_job_fills_what_is_asked_for(tmp_path):
    assert open_job(SHED, [CATALOGS], rows={"takeoff": 3}).estimate.capacity["takeoff"] == 6


def test_a_what_if_with_more_rows_than_the_book_loses_none(tmp_path):
    opened = opened_with(SHED, CATALOGS, rows={"takeoff": 6})
    more = estimate(opened, {"takeoff": opened.values["takeoff"] * 2})
    assert more.estimate.capacity["takeoff"] >= 12 and more.estimate.rows["takeoff"][11].filled


def test_reissue_makes_room(tmp_path, capsys):
    _written(open_job(SHED, [CATALOGS], rows={"takeoff": 6}), tmp_path)
    book, out = str(tmp_path / "book.xlsx"), str(tmp_path / "roomy.xlsx")
    assert main(["reissue", book, "--rows", "takeoff=31", "--rows", " Log = 25", "-o", out, *STOCK]) == 0
    _, _, settings = read(out)
    assert (settings["lines"], settings["log_lines"]) == (31.0, 25.0)


def test_a_job_has_a_log_once_it_is_signed(tmp_path, capsys):
    """Two rows before; then sixty, which nobody has to ask for. As many as are typed always have room."""
    opened = open_job(SHED, [CATALOGS], rows={"takeoff": 6})
    assert opened.estimate.capacity["log"] == 2
    _written(opened, tmp_path)
    book, out = str(tmp_path / "book.xlsx"), str(tmp_path / "signed.xlsx")
    assert main(["sign", book, "--on", "2026-05-11", "-o", out, *STOCK]) == 0
    assert read(out)[2]["log_lines"] == 60.0
    rained = [{"date": 46153.0, "tag": "waiting", "hours": 8.0}] * 70
    assert room_for({**opened.values, "log": rained})["log"] == 70 + 20


@pytest.mark.parametrize(
    "asked, answer",
    [
        ("takeoff=5000", "'takeoff=5000': rows of takeoff are a whole number from 1 to 2,000"),
        ("takeoff", "'takeoff': rows of takeoff are a whole number from 1 to 2,000"),
        ("coats=0", "'coats=0': rows of coats are a whole number from 1 to 60"),
        ("walls=9", "'walls=9' names no table: write TABLE=N with one of families, nozzles, coatings, "),
    ],
)
def test_rows_that_cannot_be_asked_for(asked, answer, capsys):
    with pytest.raises(SystemExit) as caught:
        main(["build", "--rows", asked])
    assert caught.value.code == 2 and answer in capsys.readouterr().err


def test_programs_are_told_the_same(tmp_path):
    with pytest.raises(ValueError, match="no table is called 'walls': families, nozzles, "):
        opened_with(SHED, CATALOGS, rows={"walls": 2})
    with pytest.raises(ValueError, match="2001 rows of takeoff: from 1 to 2000 are possible"):
        opened_with(SHED, CATALOGS, rows={"takeoff": 2001})


def test_more_records_than_any_book_has_are_told_by_table(tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    crew = "  - {name: Crew %d, people: 1, guns: 1, rollers: 0, tenders: 0}\n"
    (own / "crews.yaml").write_text("crews:\n" + "".join(crew % number for number in range(30)))
    opened = open_job(SHED, [CATALOGS, own])
    told = [problem for problem in opened.errors if problem.message == "more than 30 rows on Crews"]
    assert [(problem.line > 1, problem.hint) for problem in told] == [(True, "leave some out")]


def _written(opened, folder):
    path = folder / "book.xlsx"
    path.write_bytes(make(opened))
    return path
