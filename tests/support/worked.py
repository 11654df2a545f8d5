"""Jobs worked by hand: a page of figures, each with the equation that it follows, beside the cells of the built book.

A page is plain arithmetic. What it works out it also writes down, to as many places as stand there, so that a slip of
the pen fails whatever the book says; nothing of the product is used for it. Figures that stand in a row, of several
lines or sizes, are worked out together. Cells are found by name ("areas.measured") and have the units of the sheet.

A file of a job is a YAML document of the job and one of its catalogs, so that the shipped ones may change.
"""

import math
import re
from datetime import datetime
from typing import NamedTuple

import numpy as np
import pytest

from builder.jobs import open_job
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make
from support.engines import Values
from support.small import small_books

INCH, FOOT = 0.0254, 0.3048
GALLON = 231 * INCH**3  # NIST Handbook 44 appendix C
POUND = 0.45359237
PSI = POUND * 9.80665 / INCH**2  # pound-force on a square inch: NIST SP 811
WATER = 998.2067 * GALLON / POUND  # 8.33 lb/gal, at 20 C; from memory
GPM = GALLON / 60  # m3/s
HOUR = 3600
DAY_ZERO = datetime(1899, 12, 30)
TOLERANCE = 1e-9


class Figure(NamedTuple):
    """What was worked out, as numbers, and where the book says it; place is None for a step that has no cell."""

    equations: str
    place: str | None
    values: tuple[float, ...]
    written: tuple[str, ...]
    where: dict

    def __str__(self):
        told = ", ".join(f"{key} {value}" for key, value in self.where.items())
        return f"{self.equations}: {self.place}" + (f" of {told}" if told else "")


def _slack(written):
    """Half a unit of the last digit that was written down."""
    return 0.5 * 10.0 ** -len(written.partition(".")[2])


class Page:
    """The figures of a job in the order in which they are worked out."""

    def __init__(self):
        self.figures = []

    def __call__(self, equations, place, value, written, **where):
        """Notes a figure and gives it back. value: a number, or several in the order of their rows; written: the same
        as the pen wrote them; where: columns of the block that say which rows are meant, else they are the first.
        """
        values = tuple(float(one) for one in np.ravel(value))
        self.figures.append(Figure(equations, place, values, tuple(written.split()), where))
        return value

    def step(self, equations, value, written):
        """A figure on the way, which no cell holds."""
        return self(equations, None, value, written)

    def slips(self):
        """The figures whose written numbers are not what their arithmetic gives."""
        return [
            f"{one}: {one.values}, written {one.written}"
            for one in self.figures
            if len(one.values) != len(one.written)
            or any(abs(value - float(text)) > _slack(text) * (1 + 1e-6) for value, text in zip(one.values, one.written))
        ]

    def cases(self):
        """The figures that a cell holds."""
        return [pytest.param(one, id=str(one)) for one in self.figures if one.place]


class Book:
    """The cells of a built book, by the names of their blocks and columns. cells: what reads them out of its file."""

    def __init__(self, opened, path, cells=Values):
        path.write_bytes(make(opened))
        capacity = opened.estimate.capacity
        self.layout = Layout(blocks(opened.units, capacity), capacity)
        self.places = self.layout.places
        self.cells = cells(path)

    def column(self, place, copy=1):
        """All cells of a column of a table (its copy), of a fact of a card, or the one cell of an upright block."""
        found = self.places[tuple(place.split("."))]
        if found.block.form == "card":
            return [self.cells.get(found.sheet, found.row, found.col + at + 1) for at in range(found.cols)]
        return [
            self.cells.get(found.sheet, found.line(at), found.col + (copy if found.column.repeat else 1))
            for at in range(found.rows)
        ]

    def values(self, figure):
        """What the book says of a figure."""
        block, _, _ = figure.place.partition(".")
        where = dict(figure.where)
        rows = self.column(figure.place, where.pop("copy", 1))
        for name, wanted in where.items():
            wanted = wanted if isinstance(wanted, tuple) else (wanted,)
            keys = self.column(f"{block}.{name}")
            rows = [row if key in wanted else None for row, key in zip(rows, keys)]
        if where:
            rows = [row for row in rows if row is not None]
        return [_number(row) for row in rows[: len(figure.values)]]


def _documents(path):
    """The job and the catalogs of a file."""
    return re.split(r"^---.*\n", path.read_text(), flags=re.MULTILINE)[-2:]


def job_of(path, folder, before=None, books=small_books):
    """The job of a file, estimated on its catalogs, which are laid over those of the file before, if any; books: how
    many rows it has.
    """
    job, catalogs = _documents(path)
    (folder / path.name).write_text(job)
    layers = [_documents(before)[1], catalogs] if before else [catalogs]
    folders = [folder / f"catalogs {number}" for number in range(len(layers))]
    for place, layer in zip(folders, layers):
        place.mkdir()
        (place / "all.yaml").write_text(layer)
    with books():
        opened = open_job(folder / path.name, folders)
    assert not opened.errors, opened.errors
    return opened


def book_of(path, folder, before=None):
    with small_books():
        return Book(job_of(path, folder, before), folder / "book.xlsx")


def agrees(book, figure):
    """The comparison of every figure: the cells hold what was worked out by hand."""
    found = book.values(figure)
    assert found == pytest.approx(list(figure.values), rel=TOLERANCE, abs=1e-12), f"{figure}: {found}"


def date(year, month, day):
    """A day as a sheet counts it."""
    return (datetime(year, month, day) - DAY_ZERO).days


def _number(cell):
    """A blank is nothing, a day its number."""
    return (cell - DAY_ZERO).days if isinstance(cell, datetime) else cell or 0


def chance_below(score):
    """The share of a normal distribution below so many standard deviations."""
    return (1 + math.erf(score / math.sqrt(2))) / 2


DECILE = 1.2815515655446004  # standard deviations from the median to P10 and P90
MOVED_BY = np.array([[1, 1, 0, 0], [1, 1, 1, 0], [1, 0, 1, 0], [1, 1, 0, 1]])  # by area, material, time, wear


def uncertain(low, high, bases):
    """E23: mean and log spread of cost, of P10 and P90 of area, material, time, wear, and of what material, trigger,
    handling and nozzles cost as estimated. As `test_barn` works it out step by step.
    """
    low, high = np.array(low), np.array(high)
    sigma = np.log(high / low) / (2 * DECILE)
    parts = np.array(bases) * np.prod(np.where(MOVED_BY, np.sqrt(low * high) * np.exp(sigma**2 / 2), 1), axis=1)
    shared = np.exp((MOVED_BY[:, None] * MOVED_BY[None] * sigma**2).sum(axis=2))
    return parts.sum(), math.sqrt(math.log(parts @ shared @ parts / parts.sum() ** 2))
