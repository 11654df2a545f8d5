"""Books of the pages with one formula changed: whether a figure that was worked out by hand shows it.

A changed formula is laid into every cell of its column and the book recalculated: formualizer works out again only what
rests on it, some hundredths of a second. What no page shows goes on to the next book, so that each is loaded once.
"""

import math
from dataclasses import replace

from builder.stages.order import blocks
from builder.workbook.braces import at_record
from builder.workbook.layout import Layout
from support.flipping import GUARDS, changes
from support.more_engines import Formualizer
from support.neighbors import Neighbors, called, resting_on
from support.worked import TOLERANCE, Book


class _Cells(Formualizer):
    """A formula that gives '' leaves its cell blank, as it does in a file."""

    def get(self, sheet, row, col):
        found = super().get(sheet, row, col)
        return None if found == "" else found


class Flippable(Book):
    """A book whose formulas can be changed, and those figures that it shows as it stands."""

    def __init__(self, opened, path, figures):
        super().__init__(opened, path, _Cells)
        resolve(self.layout)
        self.figures = [one for one in reversed(figures) if one.place and self.shows(one)]

    def shows(self, figure):
        """Whether the cells hold what was worked out by hand."""
        found = self.values(figure)
        return len(found) == len(figure.values) and all(map(_same, found, figure.values))

    def missed(self):
        """The first figure that the cells do not show, from the last one back; None where they show all."""
        return next((one for one in self.figures if not self.shows(one)), None)

    def put(self, name, formula):
        """A formula in all cells of a column, 'block.key'."""
        place = self.places[tuple(name.split("."))]
        column, block = replace(place.column, formula=formula), place.block
        templates = [self.layout._template(block, column, copy) for copy in range(column.repeat or 1)]
        across = range(place.cols if block.form == "card" else len(templates))
        rows = [
            [at_record(templates[at % len(templates)], place.line(record), place.col + at) for at in across]
            for record in range(place.rows)
        ]
        self.cells.book.set_formulas_batch(place.sheet, place.row, place.col + 1, rows)
        self.cells.stale = True

    def notices(self, name, formula):
        """Whether a figure is missed with this formula in a column."""
        self.put(name, formula)
        missed = self.missed()
        self.put(name, self.places[tuple(name.split("."))].column.formula)
        return missed is not None

    def survivors(self, alive):
        """Of the changes that are still alive, (column, words) -> formula, those that no figure of this book shows."""
        near = nearby(self.layout, alive, self.figures)
        left = {
            change: formula
            for change, formula in alive.items()
            if not (change[0] in near and self.notices(change[0], formula))
        }
        assert self.missed() is None, "a formula was not put back"
        return left


def nearby(layout, changes, figures):
    """The columns of some changes on which one of the figures rests."""
    places = {at for one in figures if one.place for at in _looked_at(one)}
    return {name for name in {name for name, _ in changes} if resting_on(layout, name) & places}


def _looked_at(figure):
    """'block.key' of the columns in which a figure is found."""
    block = figure.place.partition(".")[0]
    return [figure.place, *(f"{block}.{key}" for key in figure.where if key != "copy")]


def layout_of(opened):
    capacity = opened.estimate.capacity
    return resolve(Layout(blocks(opened.units, capacity), capacity))


def resolve(layout):
    """The layout, once every formula has called for its names."""
    for place in layout.places.values():
        if place.column.formula:
            layout.template(place.block, place.column)
    return layout


def every_change(layout, results, left_out):
    """(column, what is changed in it) -> the formula so changed, of every column of figures on which the results rest,
    blocks or 'block.key', but for those that are left out.
    """
    columns = {f"{block}.{key}": place for (block, key), place in layout.places.items() if place.column.formula}
    found, ahead = {}, [name for name in columns if name in results or name.partition(".")[0] in results]
    while ahead:
        name = ahead.pop()
        if name in found or name not in columns or name.rpartition(".")[2] in GUARDS:
            continue
        place = found[name] = columns[name]
        ahead += called(layout, place)
    figures = (name for name in columns if name in found and found[name].column.quantity != "text")
    return {
        (name, words): formula
        for name in figures
        if not left_out(name)
        for words, formula in changes(found[name].column.formula, Neighbors(layout, name))
    }


def _same(found, wanted):
    return isinstance(found, (int, float)) and math.isclose(found, wanted, rel_tol=TOLERANCE, abs_tol=1e-12)
