"""Drop or flip every term of every equation once, and see that some page worked by hand shows it.

    python tests/worked/survivors.py [BLOCK ...] [--of FILE]

The pages read nothing of the product but the built book, and each formula of it equals the model (tests/engines). So a
term that is dropped in formula and model together is seen exactly when the figures of a book so changed miss a page: a
change of a formula stands for both, and for one made in the formula alone, which the engines see besides.

Prints what survives, a line each, "block.column: change"; by block and in all, how many changes there are, survive, are
proved (`equivalent.py`), and are unexplained. BLOCK: these blocks alone; --of: those
changes alone that an earlier run printed.
Takes an hour or more on a core for all blocks, some minutes for most: a benchmark of the pages, not one of them.
`test_flipped.py` asserts what it finds of some (slow).
"""

# ruff: noqa: E402
import argparse
import importlib
import sys
from collections import Counter
from fnmatch import fnmatch
from pathlib import Path
from tempfile import TemporaryDirectory

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent.parent), str(HERE.parent), str(HERE)]

import test_branches
import test_choices
import test_choices_of_crews
import test_choices_of_days
import test_choices_of_guards
import test_choices_of_jobs
import test_choices_of_machines
import test_choices_of_money
import test_choices_of_nozzles
import test_choices_of_parts
from equivalent import explained
from support.choices import changed
from support.flipped import Flippable, every_change, layout_of, nearby
from support.tight import tight_books
from support.worked import Figure, job_of

# in this order: the first sees half of all
PAGES = (
    "cannery", "court court_price", "barn barn_more", "tower", "dock", "fence_whole", "flat", "barn_whole", "fence",
    "cannery_whole", "flat_whole", "rentals",
)  # fmt: skip
CHOICES = (
    test_choices, test_choices_of_jobs, test_choices_of_crews, test_choices_of_days, test_choices_of_machines,
    test_choices_of_money, test_choices_of_parts, test_choices_of_guards, test_choices_of_nozzles,
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


def choices(names=()):
    """All, or those of some names."""
    chosen = (one for module in CHOICES for name, one in module.CHOICES.items() if not names or name in names)
    for job, before, words, figures in chosen:
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


def opened_of(folder, file, text, before):
    path = HERE / file
    if text is not None:
        path = folder / file
        path.write_text(text)
    (folder / "job").mkdir()
    return job_of(path, folder / "job", before and HERE / before, tight_books)


def book_of(folder, file, text, before, figures):
    opened = opened_of(folder, file, text, before)
    return opened, Flippable(opened, folder / "book.xlsx", figures(opened))


def candidates(layout, only, earlier):
    """The changes of these blocks, of all where none is named; of those that an earlier run left, where there are."""
    found = every_change(layout, RESULTS, lambda name: any(fnmatch(name, out) for out in LEFT_OUT))
    return {
        change: formula
        for change, formula in found.items()
        if (not only or change[0].partition(".")[0] in only) and (not earlier or ": ".join(change) in earlier)
    }


def survivors(seen, only=(), earlier=()):
    """The changes tried, and those of them that no occasion shows; books are made where a change is near a figure."""
    alive = None
    with TemporaryDirectory() as top:
        for number, (*files, figures) in enumerate(seen):
            folder = Path(top, str(number))
            folder.mkdir()
            opened = opened_of(folder, *files)
            if alive is None:
                layout = layout_of(opened)
                alive = candidates(layout, only, earlier)
                tried = list(alive)
            of = figures(opened)
            if nearby(layout, alive, of):
                alive = Flippable(opened, folder / "book.xlsx", of).survivors(alive)
    return tried, list(alive)


def by_block(*lists):
    """(block, how many changes of it each list has), first where most are in the last one; then those of all."""
    counts = [Counter(column.partition(".")[0] for column, _ in one) for one in lists]
    yield from ((block, *(one[block] for one in counts)) for block in sorted(counts[0], key=lambda of: -counts[-1][of]))
    yield "all", *map(len, lists)


def main(arguments):
    parser = argparse.ArgumentParser(prog="survivors.py")
    parser.add_argument("blocks", nargs="*", metavar="BLOCK")
    parser.add_argument("--of", type=Path, metavar="FILE")
    options = parser.parse_args(arguments)
    tried, left = survivors(occasions(), options.blocks, set(options.of.read_text().splitlines()) if options.of else ())
    proved = [change for change in left if explained(*change)]
    unexplained = sorted(set(left) - set(proved))
    print(*map(": ".join, unexplained), sep="\n")
    print(f"{'block':15} changes survive  proved unexplained")
    for block, *numbers, last in by_block(tried, left, proved, unexplained):
        print(f"{block:15}", *(f"{number:7}" for number in numbers), f"{last:11}")
    print(f"unexplained {len(unexplained) / len(tried):.1%}")


if __name__ == "__main__":
    main(sys.argv[1:])
