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
from support.flipped import Flippable, every_change, layout_of
from support.tight import tight_books
from support.worked import Figure, job_of

HERE = Path(__file__).parent
# in this order: the first sees half of all
PAGES = (
    "cannery", "court court_price", "flat", "barn_whole", "tower", "fence_whole", "barn", "fence", "cannery_whole",
    "flat_whole", "rentals",
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
    for job, before, changes, figures in test_choices.CHOICES.values():
        text = (HERE / f"{job}.yaml").read_text()
        for found, put in changes.items():
            text = text.replace(found, put)
        yield f"{job}.yaml", text, before and f"{before}.yaml", lambda _, figures=figures: figures


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
        print(f"\n{count} changes, {len(alive)} survive, {len(known)} of them proved equivalent", *unexplained, sep="\n")
    assert len(unexplained) <= MOST * count
