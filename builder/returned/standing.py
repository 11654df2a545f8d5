"""What stands in a returned workbook beside its inputs and formulas: texts and figures that the maker wrote, and what a
person added.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from textwrap import shorten
from typing import TypeAlias

from builder.jobs import Opened
from builder.records.differ import LONGEST
from builder.returned.findings import Finding, span
from builder.returned.located import Located
from builder.returned.read import Returned, plain
from builder.values import is_number
from builder.workbook.frame import BANNER, NEXT
from builder.workbook.layout import Place
from builder.workbook.make import written as made_anew

At: TypeAlias = tuple[int, int]  # row and column, counted from 1

WORKED_OUT = {**BANNER, NEXT[0]: NEXT[1]}  # formulas that stand on every sheet
CLOSE = 1e-6  # of a cached value: a small difference of large figures has fewer digits than they
OWN = ("issued", "book")  # blocks that are not the same in every book of one form


def alike(one: object, other: object) -> bool:
    """Whether two values of cells are one: numbers within the digits of a cached value, texts but for white space,
    which programs trim.
    """
    if is_number(one) and is_number(other):
        return abs(one - other) <= CLOSE * max(abs(one), abs(other)) + 1e-12
    if isinstance(one, str) and isinstance(other, str):
        return one.split() == other.split()
    return one == other


def standing(back: Returned, located: Located, raw: Opened) -> Iterator[Finding]:
    """A Finding for each text or figure of the maker's that is another or gone, runs in a row as one, and for each cell
    that a person added where nothing is read. raw: the book's own inputs, opened as they stand.
    """
    made = made_anew(raw)
    told = {(stray.sheet, cell) for stray in back.strays for cell in stray.cells.values()}
    for title, now in located.sheets.items():
        if now is None:
            continue
        rows, cols = located.rows[title], located.cols[title]
        written = {place: plain(value) for place, value in made[title].items()}
        live = _live(located, title)
        yield from _overwritten(
            back, located, title, {place: value for place, value in written.items() if place not in live[0]}
        )
        ours = {(rows.now(row), cols.now(col)) for row, col in (*written, *WORKED_OUT)} | live[1]
        # those that are there; walking rows and columns would visit all between
        others = [(at, cell) for at, cell in back.book[now]._cells.items() if at not in ours]
        for _, cell in sorted(others, key=lambda one: one[0]):
            if plain(cell.value) is not None and (now, cell.coordinate) not in told:
                shown = shorten(str(cell.value), LONGEST, placeholder=" …")
                yield Finding("beside", now, cell.coordinate, f"'{shown}' is ignored: not an input cell")
    for title in back.book.sheetnames:
        if title not in located.sheets.values() and back.book[title]._cells:
            yield Finding(
                "own sheet", title, "", "this sheet was added", "it is not part of the estimate and is not carried over"
            )


def _live(located: Located, title: str) -> tuple[set[At], set[At]]:
    """The cells of a sheet that are inputs, formulas or different in every book: where they were made, and where they
    are by now.
    """
    made: set[At] = set()
    now: set[At] = set()
    for key, place in located.places.items():
        if place.sheet != title:
            continue
        was = located.made.places[key]
        if place.column.formula or place.column.field or place.column.view or key[0] in OWN:
            made |= _cells(was)
        now |= _cells(place)
        if place.block.form == "table":
            above = range(located.numbers(place.block), place.row)
            now |= {(row, place.col + 1 + copy) for row in above for copy in range(place.cols)}
    return made, now


def _cells(place: Place) -> set[At]:
    """The cells of a column, fact or field."""
    return {(place.line(record), place.col + 1 + copy) for record in range(place.rows) for copy in range(place.cols)}


def _overwritten(back: Returned, located: Located, title: str, written: Mapping[At, object]) -> Iterator[Finding]:
    """What no longer stands as it was written; a header row that was deleted is told as a name that is gone."""
    now, rows, cols = located.sheets[title], located.rows[title], located.cols[title]
    headless = [located.made.head(block) for block in located.headless if block.sheet == title]
    sheet, formulas = back.book[now], back.formulas[now]
    wrong = []
    for (row, col), want in sorted(written.items()):
        if row in headless:
            continue
        at = rows.now(row), cols.now(col)
        if (row, col) in WORKED_OUT:
            found, want = formulas.cell(*at).value, WORKED_OUT[row, col]
        else:
            found = plain(sheet.cell(*at).value)
        if not alike(found, want):
            wrong.append((*at, found, want))
    for _, run in groupby(enumerate(wrong), lambda one: (one[1][0], one[1][1] - one[0])):
        yield _one(now, [cell for _, cell in run])


def _one(sheet: str, run: Sequence[tuple[int, int, object, object]]) -> Finding:
    (row, first, found, want), *_ = run
    last = run[-1][1]
    cell = span(first, row, last, row)
    now = "is gone" if found is None else f"was changed to '{_short(found)}'"
    return Finding("fixed", sheet, cell, f"'{_short(want)}' {now}", "put it back: this is not an input cell")


def _short(value: object) -> str:
    return f"{value:.10g}" if is_number(value) else shorten(str(value), LONGEST, placeholder=" …")
