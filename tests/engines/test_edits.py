"""One edit in the engine and in the model: every formula cell agrees after each of hundreds, sensible and silly."""

import random

import pytest
from support.editing import SMALL, LiveBook, small_book
from support.more_engines import Formualizer, Gnumeric, HyperFormula
from support.slow import slow

from builder.records.kinds import KINDS
from builder.records.rules import Between, OneOf, SizeNumber, Word
from builder.records.wording import FEET

OFTEN = (
    "coats",
    "takeoff",
    "systems",
    "job",
    "coatings",
    "surfaces",
    "nozzles",
    "openings",
    "tasks",
    "kit",
    "crews",
    "pumps",
    "terms",
)


def _names(book, block):
    kind = KINDS[block]
    if block == "nozzles":
        return [f"{row['family']} {row['size']}" for row in book.values[block]]
    return [row[kind.named] for row in book.values[block] if row.get(kind.named)]


def _sensible(draw, book, kind, field):
    rule = field.rule
    if isinstance(rule, OneOf):
        name = draw.choice([name for name in _names(book, rule.block) if isinstance(name, str)])
        return name.upper() if draw.random() < 0.2 else name
    if isinstance(rule, Word):
        return draw.choice(rule.allowed())
    if isinstance(rule, SizeNumber):
        return draw.choice(["515", "1221", 515.0, "310", "2405"])
    if isinstance(rule, Between):
        low, high = (book.units.to_cell(end, field.quantity) for end in rule.limits())
        now = [row[field.key] for row in book.values[kind.key] if isinstance(row.get(field.key), float)]
        value = (
            book.units.to_cell(draw.choice(now), field.quantity) * draw.choice([1, 0.5, 0.8, 1.1, 1.5])
            if now
            else low + (high - low) * draw.random() ** 4
        )
        value = float(f"{draw.choice([value, value, value, low, high]):.15g}")
        return float(round(value)) if rule.whole else value
    return draw.choice(["North", "A1", "Slate", "Some name", 7.0])


SILLY = ("1,250", "no such thing", "14 ft", "-", "x" * 70, "a*", ">5", " ", "5e2", "0515", -1.0, 0.0, 1e9, 2599.0, 0.37)


def random_edit(draw, book):
    """(block, key, row, what the cell is to hold)"""
    kind = KINDS[draw.choice([*KINDS, *OFTEN, *OFTEN])]
    field = draw.choice(kind.fields)
    row = 0 if kind.upright else draw.randrange(min(len(book.values[kind.key]) + 1, book.capacity[kind.key]))
    kind_of = draw.random()
    value = "" if kind_of < 0.1 else draw.choice(SILLY) if kind_of < 0.3 else _sensible(draw, book, kind, field)
    return kind.key, field.key, row, value


@pytest.mark.parametrize(
    "seed, system, count",
    [(1, "us", 8), slow(2, "metric", 8), *(slow(seed, ("metric", "us")[seed % 2], 80) for seed in (1, 2, 3, 4))],
)
def test_random_edits_agree(seed, system, count, tmp_path):
    _edits_agree(random.Random(seed), small_book(system, tmp_path), count)


@pytest.mark.slow
@pytest.mark.parametrize("seed, system, count", [(5, "us", 5), (5, "us", 20), (6, "metric", 20)])
@pytest.mark.parametrize("engine", [Formualizer, HyperFormula])
def test_random_edits_agree_in_other_engines(engine, seed, system, count, tmp_path, request):
    request.getfixturevalue(f"{engine.__name__.lower()}_here")
    _edits_agree(random.Random(seed), small_book(system, tmp_path, engine), count)


@pytest.mark.slow
@pytest.mark.parametrize("seed, system", [(7, "us"), (8, "metric")])
def test_a_book_built_with_many_faults_agrees_in_gnumeric(seed, system, tmp_path, gnumeric_here):
    """It is not edited there: the book is built of values that were."""
    draw, book = random.Random(seed), small_book(system, tmp_path)
    for _ in range(30):
        book.change(*random_edit(draw, book))
    again = LiveBook(book.values, book.units, tmp_path, Gnumeric, **SMALL)
    assert again.estimate().checks.stops > 2 and again.differences() == []


def _edits_agree(draw, book, count):
    assert book.estimate().checks.stops == 0 and book.differences() == []
    for number in range(count):
        block, key, row, value = random_edit(draw, book)
        before = book.shown(block, key, row)
        book.change(block, key, row, value)
        assert book.differences() == [], f"edit {number}: {block}.{key}[{row}] {before!r} -> {value!r}"
        if draw.random() < 0.85:
            book.change(block, key, row, before)


@pytest.mark.slow
def test_ties_fall_to_the_earlier_size(tmp_path):
    """Two sizes alike in all but the name of their family: engine and model take the same one, the earlier."""
    book = small_book("us", tmp_path)
    for row in range(len(book.values["kit"])):
        book.change("kit", "nozzle", row, "standard 627")  # nothing of the kit prefers one of the twins
    before = book.estimate().rows["picks"][1]
    picked = dict(book.values["nozzles"][before.pick_at - 1])
    family = dict(next(row for row in book.values["families"] if row["name"] == picked["family"]), name="twin")
    new_family, new_size = len(book.values["families"]), len(book.values["nozzles"])
    for field in KINDS["families"].fields:
        book.change("families", field.key, new_family, book.units.to_cell(family[field.key], field.quantity))
    for key, value in (("family", "twin"), ("size", picked["size"]), ("nozzle_price", picked["nozzle_price"])):
        book.change("nozzles", key, new_size, value)
    assert book.differences() == []
    after = book.estimate().rows["picks"][1]
    assert (after.pick_at, after.next_at, after.next) == (before.pick_at, new_size + 1, f"twin {picked['size']}")


@pytest.mark.slow
def test_guards_agree_whatever_is_said_of_them(tmp_path):
    """The shed is sprayed through standard nozzles: its guard costs 14 where it is not on the van."""
    book = small_book("us", tmp_path)

    def paid():
        assert book.differences() == []
        return book.estimate().rows["cost"][0].guards

    assert paid() == 0
    with book.changed(("guards", "guard", 0, "other")):
        assert paid() == 14
        with book.changed(("families", "guard_price", 0, "")):
            assert paid() == 0
            with book.changed(("families", "guard", 1, "STANDARD"), ("guards", "note", 4, "a row half typed")):
                paid()
        with book.changed(("families", "guard", 0, 7.0), ("guards", "guard", 1, 7.0)):
            assert paid() == 0
        with book.changed(("job", "crew", 0, "two guns"), ("coats", "coating", 1, "")):
            paid()
        with book.changed(("coats", "method", 0, "brush"), ("takeoff", "length", 0, "")):
            paid()


@pytest.fixture(scope="module")
def shed(tmp_path_factory):
    return small_book("us", tmp_path_factory.mktemp("shed"))


@pytest.mark.parametrize(
    "block, key, row, value, look",
    [
        (
            "coats",
            "coating",
            1,
            "Exterior acrylic",
            lambda est: est.rows["coats"][1].fault.startswith("Coats, coating: enter a name from Coatings"),
        ),
        (
            "takeoff",
            "length",
            0,
            "1,250",
            lambda est: est.rows["takeoff"][0].fault == "Takeoff, length: enter a number from 0 to 5,000 ft" + FEET,
        ),
        (
            "takeoff",
            "length",
            0,
            "",
            lambda est: est.rows["takeoff"][0].shown_fault == "length: enter a number from 0 to 5,000 ft" + FEET,
        ),
        ("takeoff", "height", 0, 2.0, lambda est: est.rows["areas"][0].fault == "openings larger than the face"),
        (
            "job",
            "people",
            0,
            1.5,
            lambda est: est.job.fault == "Job, people on the job: enter a whole number from 1 to 50",
        ),
        ("terms", "margin", 0, 0.95, lambda est: est.checks.stops == 0),
    ],
)
def test_a_faulty_row_says_so_and_the_price_stays_blank(shed, block, key, row, value, look):
    with shed.changed((block, key, row, value)):
        assert shed.differences() == []
        estimate = shed.estimate()
    assert look(estimate)
    if estimate.checks.stops:
        assert estimate.rows["price"][0].total is None
        assert estimate.rows["brief"][0].state == "NO PRICE"


def test_an_own_overhead_is_counted_while_terms_have_a_fault(shed):
    with shed.changed(("job", "overhead", 0, 0.2), ("terms", "cd", 0, "x")):
        assert shed.estimate().checks.overhead == 0 and shed.differences() == []


@pytest.mark.slow
def test_a_job_of_tasks_alone_has_a_calendar(tmp_path):
    """Nothing is coated yet: no place of the schedule is a step, and no cell of the calendar an error."""
    book = small_book("us", tmp_path)
    assert LiveBook({**book.values, "coats": []}, book.units, tmp_path, **SMALL).differences() == []
