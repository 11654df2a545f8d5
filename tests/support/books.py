"""The books that most tests look at, each built when a test first asks for it."""
from types import SimpleNamespace

import pytest

from builder.jobs import open_job
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make
from support.places import BOATHOUSE, CATALOGS, CORRIDOR, SHED
from support.small import CATALOGS as FEW_SIZES
from support.small import small_books, usual_books

BOOKS = {
    "boathouse": (BOATHOUSE, None), "boathouse in metric": (BOATHOUSE, "metric"), "corridor": (CORRIDOR, None), "corridor in us": (CORRIDOR, "us"),
    "blank": (None, None), "blank in metric": (None, "metric"), "shed": (SHED, None),
}
FEW = ("boathouse", "corridor")          # one in each system of units; the slow tests look at the others too
EACH_BOOK = pytest.mark.parametrize("name", [name if name in FEW else pytest.param(name, marks=pytest.mark.slow) for name in BOOKS])
SMALL = "small "                         # before a name: the same as a small book


class Books:
    """name -> an opened job, its layout, its bytes and a file that holds them."""

    def __init__(self, folder):
        self.folder, self.built = folder, {}

    def __getitem__(self, name):
        if name not in self.built:
            few = name.startswith(SMALL)
            with small_books() if few else usual_books():
                self.built[name] = self._book(name, *BOOKS[name.removeprefix(SMALL)], FEW_SIZES if few else CATALOGS)
        return self.built[name]

    def _book(self, name, job, system, catalogs):
        opened = open_job(job, [catalogs], system)
        assert not opened.problems, f"{name}: {opened.problems}"
        data, path = make(opened), self.folder / f"{name}.xlsx"
        path.write_bytes(data)
        capacity = opened.estimate.capacity
        return SimpleNamespace(opened=opened, estimate=opened.estimate, data=data, path=path, layout=Layout(blocks(opened.units, capacity), capacity))
