"""Every term of every equation dropped or flipped, and the page that shows it.

The pages read nothing of the product but the built book, and each formula of it equals the model (tests/engines). So a
term that is dropped in formula and model together is seen exactly when the figures of a book so changed miss a page: a
change of a formula stands for both, and for one made in the formula alone, which the engines see besides.

What survives is printed with its column; EQUIVALENT says of some why no figure can differ.
"""

import importlib
import re
from fnmatch import fnmatch
from pathlib import Path

import pytest
import test_branches
import test_choices
import test_choices_of_jobs
from support.choices import changed
from support.flipped import Flippable, every_change, layout_of
from support.flipping import changes
from support.tight import tight_books
from support.worked import Figure, job_of

HERE = Path(__file__).parent
# in this order: the first sees half of all
PAGES = (
    "cannery", "court court_price", "barn barn_more", "tower", "dock", "fence_whole", "flat", "barn_whole", "fence",
    "cannery_whole", "flat_whole", "rentals",
)  # fmt: skip
# what a contractor pays, buys, sets and promises: blocks and columns
RESULTS = {
    "purchases", "days", "price", "parts", "counter", "sizes.buy", "sizes.left", "sizes.cash", "picks.set_pressure",
    "picks.gauge", "picks.hand_time", "hours.elapsed", "hours.labor", "hours.pace", "gallons.applied",
    "gallons.thinner",
}  # fmt: skip
# columns that are not changed here -> why; words, lists and pages that are read give no result and are not reached
LEFT_OUT = {
    "lengths.*": "lengths typed as text: tests/engines/test_lengths.py knows what each is",
    "*.*_read": "the same",
    "*.*_said": "the same",
}
MOST = 0.02  # of all changes may survive unexplained
EQUIVALENT = (  # column, change -> identity or bound that proves it; both are patterns
    (
        "purchases.cost_none",
        r"0\*\{paint|^\{paint\.pack2_(price|volume)\} ->",
        "nothing times a price or a volume is nothing",
    ),
    (
        "days.a*",
        r"^(SUMPRODUCT.*\*\(\{no\}>1\) -> SUMPRODUCT.*[^1]\)$|\{no\}>1 -> \{no\}>=1)",
        "lanes of the base, those of no = 1, add nothing: their `added` and `alone` are 0",
    ),
    (
        "*.*",
        r"^MIN\(COUNT\(\{work_days\.no\}\),.* -> MIN\((INT|MAX|ROUNDUP)",
        "what goes on past the days that are listed is refused (Schedule: too long) and has no price",
    ),
    (
        "price.chance_*",
        r"^MAX\(\{\w+\}-\{outlook\.certain\},0\) -> MAX\(\{",
        "it is asked for only where the difference is above 0",
    ),
)


def explained(column, words):
    return any(fnmatch(column, where) and re.search(what, words) for where, what, _ in EQUIVALENT)


def occasions():
    """(file, its words or None, the file it is laid over, figures of an opened job) of every page, choice, branch."""
    yield from pages()
    yield from choices()
    yield from branches()


def pages():
    for names in PAGES:
        modules = [importlib.import_module(f"test_{name}") for name in names.split()]
        figures = [one for module in modules for one in module.page.figures]
        yield modules[0].JOB, None, getattr(modules[0], "BEFORE", None), lambda _, figures=figures: figures


def choices():
    for job, before, words, figures in (test_choices.CHOICES | test_choices_of_jobs.CHOICES).values():
        yield f"{job}.yaml", changed(job, words), before and f"{before}.yaml", lambda _, figures=figures: figures


def branches():
    for equation, job, found, put, place, value in test_branches.BRANCHES:
        text = (HERE / f"{job}_whole.yaml").read_text().replace(found, put)
        of = equation, place, value
        yield f"{job}_whole.yaml", text, f"{job}.yaml", lambda opened, of=of: [_on_sheet(opened, *of)]


def _on_sheet(opened, equation, place, value):
    """A figure of the model as the sheet shows it."""
    quantity = layout_of(opened).places[tuple(place.split("."))].column.quantity
    return Figure(equation, place, (opened.units.to_cell(value, quantity),), ("",), {})


def book_of(folder, file, text, before, figures):
    path = HERE / file
    if text is not None:
        path = folder / file
        path.write_text(text)
    (folder / "job").mkdir()
    opened = job_of(path, folder / "job", before and HERE / before, tight_books)
    return opened, Flippable(opened, folder / "book.xlsx", figures(opened))


def same(reference):
    """No other column."""


def test_terms_are_dropped_and_flipped():
    """a + 2 b: minus, each term alone, the product and its sides, and one more of the number."""
    found = [formula for _, formula in changes("{a}+2*{b}", same)]
    assert found == ["({a}-2*{b})", "{a}", "2*{b}", "{a}+(2/{b})", "{a}+2", "{a}+{b}", "{a}+3*{b}"]


def test_what_is_no_term_stays():
    """What keeps noise off a bound, makes a number of a blank, or asks whether a row is sound."""
    found = [formula for _, formula in changes("--(0+{a}>{b}*(1+{terms.slack}))*(N({row.live})=1)", same)]
    assert found == ["--(0+{a}<={b}*(1+{terms.slack}))*(N({row.live})=1)"]


def test_a_dropped_term_is_missed_and_put_back(tmp_path):
    """Rental at nothing is seen by the page of rentals; the formula as it is stays."""
    folder = tmp_path / "rentals"
    folder.mkdir()
    _, book = book_of(folder, *next(one for one in pages() if one[0] == "rentals.yaml"))
    assert len(book.figures) == 5
    alive = {("machines.cost", "at nothing"): "IF({hired}=1,0,0)", ("machines.cost", "as it is"): ""}
    alive["machines.cost", "as it is"] = book.places["machines", "cost"].column.formula
    assert [words for _, words in book.survivors(alive)] == ["as it is"]


@pytest.mark.slow
def test_a_page_shows_every_term_that_is_dropped_or_flipped(tmp_path, capsys):
    alive = None
    for number, occasion in enumerate(occasions()):
        folder = tmp_path / str(number)
        folder.mkdir()
        _, book = book_of(folder, *occasion)
        if alive is None:
            alive = every_change(book.layout, RESULTS, lambda name: any(fnmatch(name, out) for out in LEFT_OUT))
            count = len(alive)
        alive = book.survivors(alive)
    known = [change for change in alive if explained(*change)]
    unexplained = [f"{column}: {words}" for column, words in alive if (column, words) not in known]
    with capsys.disabled():
        print(
            f"\n{count} changes, {len(alive)} survive, {len(known)} of them proved equivalent", *unexplained, sep="\n"
        )
    assert len(unexplained) <= MOST * count
