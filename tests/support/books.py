"""The books that most tests look at, each built when a test first asks for it."""

from types import SimpleNamespace

import pytest

from builder.jobs import open_job
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make
from support.places import ANNEX, ATTIC, BEDROOMS, CATALOGS, EXAMPLES, RUNNING, SHED
from support.slow import slow
from support.small import CATALOGS as FEW_SIZES
from support.small import small_books, usual_books

BOOKS = {
    **{name: (job, None) for name, job in EXAMPLES.items()},
    "boathouse in metric": (EXAMPLES["boathouse"], "metric"),
    "corridor in us": (EXAMPLES["corridor"], "us"),
    "blank": (None, None),
    "blank in metric": (None, "metric"),
    "shed": (SHED, None),
}
ALONE = {
    "shed running": (RUNNING, None),
    "annex": (ANNEX, None),
    "bedrooms": (BEDROOMS, None),
    "attic": (ATTIC, None),
}  # for tests that name it
SMALL = "small "  # before a name: the same as a small book
# the slow tests look at all examples, small and of the usual size
FEW = (SMALL + "corridor",)
SMALL_ONES = tuple(SMALL + name for name in EXAMPLES)
EACH = (*SMALL_ONES, *BOOKS)


def each(names):
    """A test's `name`: the few every day, the others where there are minutes."""
    return pytest.mark.parametrize("name", [name if name in FEW else slow(name) for name in names])


EACH_BOOK, EACH_EXAMPLE = each(EACH), each((*SMALL_ONES, "boathouse"))


def room_of(name):
    """In force while a book of this name is made or looked at."""
    return small_books() if name.startswith(SMALL) else usual_books()


def catalogs_of(name):
    return FEW_SIZES if name.startswith(SMALL) else CATALOGS


class Books:
    """name -> an opened job, its layout, its bytes and a file that holds them."""

    def __init__(self, folder):
        self.folder, self.built = folder, {}

    def __getitem__(self, name):
        if name not in self.built:
            with room_of(name):
                self.built[name] = self._book(name, *(BOOKS | ALONE)[name.removeprefix(SMALL)])
        return self.built[name]

    def _book(self, name, job, system):
        opened = open_job(job, [catalogs_of(name)], system)
        assert not opened.problems, f"{name}: {opened.problems}"
        data, path = make(opened), self.folder / f"{name}.xlsx"
        path.write_bytes(data)
        capacity = opened.estimate.capacity
        return SimpleNamespace(
            opened=opened,
            estimate=opened.estimate,
            data=data,
            path=path,
            layout=Layout(blocks(opened.units, capacity), capacity),
        )
