"""From closed workbooks to the catalogs, end to end: the truths that drew them are what they teach."""

import difflib
import os
from shutil import copytree, ignore_patterns

import pytest
from support.closed_jobs import Truth, build
from support.places import SHED
from support.small import CATALOGS, usual_books

from builder.cli import main
from builder.learning.books import books_in, each_once, reading, readings
from builder.learning.closed import BROKEN, CLOSED, OPEN, TWICE, Target
from builder.learning.lessons import taught
from builder.problems import Refused
from builder.records.folders import Folders
from builder.returned.read import returned

pytestmark = pytest.mark.slow

MANY, FEW = 40, 4
TRUTH = Truth()
FIRST = {  # what the shipped catalogs say of what is drawn otherwise, and the truth, in the units of the files
    Target("surfaces", "Lap siding", "handling"): (4.6, 4.6 * TRUTH.handling),
    Target("surfaces", "Lap siding", "loss"): (20.0, 100 * TRUTH.loss),
    Target("rates", "Mask openings", "length_rate"): (90.0, 90 * TRUTH.masking),
    Target("rates", "Set up", "hours_each"): (0.5, TRUTH.setting_up),
    Target("families", "standard", "life"): (45.0, 45 * TRUTH.life),
    Target("terms", "", "lost_may"): (15.0, 100 * TRUTH.rain),
}


@pytest.fixture(scope="module")
def houses(small, tmp_path_factory):
    """A few closed jobs."""
    folder = tmp_path_factory.mktemp("closed")
    for seed in range(FEW):
        build(folder / f"house-{seed}.xlsx", seed, TRUTH, folder, [CATALOGS])
    return folder


@pytest.fixture
def catalogs(tmp_path):
    return copytree(CATALOGS, tmp_path / "catalogs", ignore=ignore_patterns("schemas"))


@pytest.mark.parametrize("waiting", (0.0, 1.25))
def test_what_one_job_says_is_what_drew_it(waiting, small, tmp_path):
    """Without scatter each value is the truth itself; the weather is drawn all the same. Where the log tells waiting
    apart, its other hours are hours of work.
    """
    exact = Truth(scatter=0.0, film=0.0, waiting=waiting)
    build(tmp_path / "one.xlsx", 7, exact, tmp_path, [CATALOGS])
    one = reading(str(tmp_path / "one.xlsx"))
    assert (one.state, one.name, one.crew, one.system) == (CLOSED, "House 7", "steady", "us")
    ft2, hour, gallon = 0.3048**2, 3600.0, 231 * 0.0254**3
    said = {lesson.target: lesson.value for lesson in one.lessons}
    shown = {"handling": ft2, "loss": 100, "length_rate": hour / 0.3048, "life": 1 / gallon}
    for target, (_, truth) in FIRST.items():
        if target.key in shown:
            assert said[target] * shown[target.key] == pytest.approx(truth, rel=1e-3)
    assert said[Target("rates", "Set up", "hours_each")] / hour == pytest.approx(TRUTH.setting_up, rel=1e-9)
    lost = said.get(Target("terms", "", "unproductive"))
    assert lost is None if not waiting else lost / hour == pytest.approx(waiting, rel=1e-9)
    ratios = {outcome.driver: outcome.ratio for outcome in one.outcomes}
    assert ratios["wear"] == pytest.approx(1 / TRUTH.life, rel=1e-3)
    assert ratios["area"] == pytest.approx(1, rel=1e-6)


def test_books_that_teach_nothing_are_told_and_the_others_count(houses, tmp_path, catalogs, capsys):
    folder = copytree(houses, tmp_path / "books", ignore=ignore_patterns("*.yaml"))
    (folder / "bent.xlsx").write_bytes((houses / "house-1.xlsx").read_bytes()[:5000])
    (folder / "words.xlsx").write_text("no workbook", encoding="utf-8")
    (folder / "zz copy.xlsx").write_bytes((houses / "house-1.xlsx").read_bytes())
    (folder / "~$house-1.xlsx").write_bytes(b"")
    assert main(["build", str(SHED), "-o", str(folder / "open.xlsx"), "--catalogs", str(catalogs)]) == 0
    states = {os.path.basename(one.book): one.state for one in each_once(readings(books_in([folder]), 1))}
    assert states.pop("zz copy.xlsx") == TWICE and states.pop("open.xlsx") == OPEN
    assert states.pop("bent.xlsx") == states.pop("words.xlsx") == BROKEN
    assert states == {f"house-{seed}.xlsx": CLOSED for seed in range(FEW)}
    assert os.path.exists(folder / "open.xlsx")
    capsys.readouterr()
    before = {path: path.read_bytes() for path in catalogs.glob("*.yaml")}
    assert main(["learn", *map(str, houses.glob("*.xlsx")), "--catalogs", str(catalogs)]) == 0
    told = capsys.readouterr()
    assert "4 of 4 workbooks are of closed jobs" in told.out
    assert "Lap siding, Handling: 4.6 s/ft2 -> " in told.out and "4 jobs, 90 % between" in told.out
    assert "stay: 4 jobs of the 10 that are needed" in told.out
    assert {path: path.read_bytes() for path in before} == before  # told alone


def test_sheets_without_inputs_are_not_read_and_not_missed(houses):
    whole, alone = (returned(houses / "house-0.xlsx", inputs_alone=one) for one in (False, True))
    assert (alone.values, alone.settings, alone.issued) == (whole.values, whole.settings, whole.issued)
    assert list(alone.strays) == list(whole.strays) and alone.gone == whole.gone
    assert alone.book.sheetnames == whole.book.sheetnames
    cells = [sum(len(sheet._cells) for sheet in one.book.worksheets) for one in (whole, alone)]
    assert cells[1] < cells[0] / 2


def test_a_folder_without_books_is_refused(tmp_path):
    with pytest.raises(Refused, match="no workbook"):
        books_in([tmp_path])


def test_the_report_does_not_overwrite_a_book_it_reads(houses, catalogs, capsys):
    book = str(houses / "house-0.xlsx")
    assert main(["learn", book, "--report", book, "--catalogs", str(catalogs)]) == 2
    assert "reads this file" in capsys.readouterr().err


def test_the_catalogs_of_the_program_do_not_learn(houses, monkeypatch, tmp_path, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["learn", str(houses / "house-0.xlsx"), "--write"]) == 2
    assert "do not learn" in capsys.readouterr().err


def test_forty_closed_jobs_teach_their_truths(small, tmp_path, catalogs, capsys):
    """Each value goes at least half of its way (forty jobs weigh 40 / 50), and not beyond it by more than chance; the
    intervals hold it; one job with a digit too many in its paint and one too few in its hours moves none by a
    twentieth.
    """
    folder = tmp_path / "books"
    folder.mkdir()
    for seed in range(MANY):
        build(folder / f"house-{seed}.xlsx", seed, TRUTH, folder, [CATALOGS])
    found = taught([reading(book) for book in books_in([folder])], Folders([catalogs]))
    news = {one.target: one for one in found.proposals}
    for target, (first, truth) in FIRST.items():
        one = news[target]
        value, low, high = (float(text.split()[0]) for text in (one.new, one.low, one.high))
        assert 0.5 <= (value - first) / (truth - first) <= 1.2, one
        assert min(abs(low - truth), abs(high - truth)) < 0.12 * truth or low <= truth <= high, one

    slipped = folder / "house-0.xlsx"
    build(slipped, 0, TRUTH, folder, [CATALOGS], slip=10.0)
    again = taught([reading(book) for book in books_in([folder])], Folders([catalogs]))
    for one in again.proposals:
        value, right = (float(text.split()[0]) for text in (one.new, news[one.target].new))
        assert value == pytest.approx(right, rel=0.05)

    old = {path: path.read_text(encoding="utf-8").splitlines() for path in catalogs.glob("*.yaml")}
    assert main(["learn", str(folder), "--write", "--catalogs", str(catalogs)]) == 0
    capsys.readouterr()
    assert main(["check", str(catalogs)]) == 0
    changed = {(one.mark.file, one.mark.line) for one in again.proposals if one.changes}
    lines = [
        line
        for path, text in old.items()
        for line in difflib.ndiff(text, path.read_text(encoding="utf-8").splitlines())
    ]
    assert sum(line[0] == "-" for line in lines) == len(changed)
    added = [line[2:] for line in lines if line[0] == "+"]
    assert sum("# learned " in line for line in added) == sum(one.changes for one in again.proposals)
    assert sum(not line.lstrip().startswith("# learned ") for line in added) == len(changed)


def test_on_two_cores_as_on_one(tmp_path):
    """Workers are made anew and read books of the usual size."""
    with usual_books():
        for seed in range(FEW):
            build(tmp_path / f"house-{seed}.xlsx", seed, TRUTH, tmp_path, [CATALOGS])
        books = books_in([tmp_path])
        assert list(readings(books, 2)) == list(readings(books, 1))
