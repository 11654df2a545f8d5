"""Drop or flip every term of every equation once, and see that some page worked by hand shows it.

    python tests/worked/survivors.py [BLOCK ...] [--of FILE]

The pages read nothing of the product but the built book, and each formula of it equals the model (tests/engines). So a
term that is dropped in formula and model together is seen exactly when the figures of a book so changed miss a page: a
change of a formula stands for both, and for one made in the formula alone, which the engines see besides.

Prints what survives, a line each, "block.column: change"; by block and in all, how many changes there are, survive, are
proved, and are unexplained. EQUIVALENT says of some why no figure can differ. BLOCK: these blocks alone; --of: those
changes alone that an earlier run printed.
Takes half an hour on a core for all blocks, one or two minutes for most: a benchmark of the pages, not one of them.
"""

# ruff: noqa: E402
import argparse
import importlib
import re
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
import test_choices_of_money
from support.choices import changed
from support.flipped import Flippable, every_change, layout_of
from support.tight import tight_books
from support.worked import Figure, job_of

# in this order: the first sees half of all
PAGES = (
    "cannery", "court court_price", "barn barn_more", "tower", "dock", "fence_whole", "flat", "barn_whole", "fence",
    "cannery_whole", "flat_whole", "rentals",
)  # fmt: skip
CHOICES = (
    test_choices, test_choices_of_jobs, test_choices_of_crews, test_choices_of_days, test_choices_of_money, test_choices_of_guards,
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
EQUIVALENT = (  # columns, change -> identity or bound that proves it; all are patterns
    # ---- packs: the first of costs that differ by less than the slack
    (
        "purchases.cost_none",
        r"0\*\{paint|^\{paint\.pack2_(price|volume)\} ->",
        "nothing times a price or a volume is nothing",
    ),
    (
        "purchases.cost_none",
        r"^0 -> 1 \(2\)$",
        "where nothing is left, as many middle packs as fit are none and cost nothing, and are taken instead",
    ),
    (
        "purchases.cost_more",
        r"^1 -> 2 \(2\)$",
        "one more middle pack than fit holds all the rest; where there is no middle pack, any number holds nothing",
    ),
    (
        "purchases.middle_fit",
        r"^0 -> 1 \(2\)$",
        "where there is no middle pack, any number of it holds and costs nothing, and the first choice stays",
    ),
    (
        "purchases.middle",
        r"^(CHOOSE\(\{rest_choice@3\},0,|\{middle_fit@3\}|1 -> 2 \(3\)$)",
        "one more of the largest holds all: nothing is left, of which the first choice, none, costs nothing",
    ),
    (
        "purchases.choice",
        r"-> MIN\(\{case_cost@(2\},\{case_cost@3\}\)|1\},\{case_cost@3\}\) \(2\)$)",
        "a cost is above the least of all where it is above the least of the others; who is out is not the least",
    ),
    (
        "purchases.rest_choice",
        r"-> MIN\(\{cost_(fit@\},\{cost_more@\}\)|none@\},\{cost_more@\}\) \(2\)$)"
        r"|^\{cost_fit@\} -> \{cost_none@\} \(3\)$|^\{cost_none@\} -> \{cost_fit@\} \([23]\)$",
        "the same",
    ),
    (
        "purchases.choice",
        r"^\{case_cost@1\} -> \{cost_more@1\} \([23]\)$",
        "the same: the first case, of no largest pack, costs the least of its three, of which this is one",
    ),
    (
        "purchases.choice",
        r"-> MIN\(\{case_cost@1\},\{case_cost@2\}\)$",
        "packs are whole multiples: where doing without the largest is no dearer than as many as fit, it is made of "
        "smaller ones for less, and one more of it saves nothing",
    ),
    # ---- money
    (
        "cost.overhead cost.taxed price.of_sales risk.loaded risk.hourly",
        r"^0 -> 1$",
        "of words that stand by the alphabet (overhead_basis, tax_base) a rough match finds the same as an exact one",
    ),
    (
        "price.allowed",
        r"^(IF\(\{terms\.deposit_cap_amount\}=\"\".* -> \{terms\.deposit_cap_amount\}|"
        r"\{terms\.deposit_cap_amount\} -> \{terms\.rounding\})$",
        "this engine leaves a blank cell out of MIN; others take it for 0 (MIN in grammar.py), and are compared",
    ),
    (
        "price.contingency_share",
        r"^\{cost\} -> \{contingency\}$",
        "no contingency is no share of any cost, and a job that costs nothing has none",
    ),
    (
        "price.chance_*",
        r"^MAX\(\{\w+\}-\{outlook\.certain\},0\) -> MAX\(\{",
        "it is asked for only where the difference is above 0",
    ),
    ("price.chance_*", r"^1 -> 2 \(2\)$", "the last argument of NORMDIST: any number but 0 asks for the sum"),
    (
        "price.chance_*",
        r"^\{outlook\.expected\} -> \{outlook\.p10\}$",
        "where it is asked for, nothing is uncertain and P10 is the mean, or less is paid than is certain, below both",
    ),
    # ---- tasks
    (
        "basics.disturbed",
        r"^\{contained\}( -> |\*\()",
        "what is disturbed is read by tasks that contain alone, which are 0 unless it is contained (their `measures`)",
    ),
    # ---- days
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
)


def explained(column, words):
    """Whether a change is proved to be none."""
    return any(
        re.search(what, words) and any(fnmatch(column, one) for one in where.split()) for where, what, _ in EQUIVALENT
    )


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
    for job, before, words, figures in (one for module in CHOICES for one in module.CHOICES.values()):
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


def candidates(layout, only, earlier):
    """The changes of these blocks, of all where none is named; of those that an earlier run left, where there are."""
    found = every_change(layout, RESULTS, lambda name: any(fnmatch(name, out) for out in LEFT_OUT))
    return {
        change: formula
        for change, formula in found.items()
        if (not only or change[0].partition(".")[0] in only) and (not earlier or ": ".join(change) in earlier)
    }


def survivors(only=(), earlier=()):
    """The changes tried, and those of them that no page, choice or branch shows."""
    alive = None
    with TemporaryDirectory() as top:
        for number, occasion in enumerate(occasions()):
            folder = Path(top, str(number))
            folder.mkdir()
            _, book = book_of(folder, *occasion)
            if alive is None:
                alive = candidates(book.layout, only, earlier)
                tried = list(alive)
            alive = book.survivors(alive)
    return tried, list(alive)


def by_block(*lists):
    """(block, how many changes of it each list has), the most unexplained, which come last, first; then those of all."""
    counts = [Counter(column.partition(".")[0] for column, _ in one) for one in lists]
    yield from ((block, *(one[block] for one in counts)) for block in sorted(counts[0], key=lambda of: -counts[-1][of]))
    yield "all", *map(len, lists)


def main(arguments):
    parser = argparse.ArgumentParser(prog="survivors.py")
    parser.add_argument("blocks", nargs="*", metavar="BLOCK")
    parser.add_argument("--of", type=Path, metavar="FILE")
    options = parser.parse_args(arguments)
    tried, left = survivors(options.blocks, set(options.of.read_text().splitlines()) if options.of else ())
    proved = [change for change in left if explained(*change)]
    unexplained = sorted(set(left) - set(proved))
    print(*map(": ".join, unexplained), sep="\n")
    print(f"{'block':15} changes survive  proved unexplained")
    for block, *numbers, last in by_block(tried, left, proved, unexplained):
        print(f"{block:15}", *(f"{number:7}" for number in numbers), f"{last:11}")
    print(f"unexplained {len(unexplained) / len(tried):.1%}")


if __name__ == "__main__":
    main(sys.argv[1:])
