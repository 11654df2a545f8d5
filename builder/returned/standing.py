"""What stands in a returned workbook beside its inputs and formulas: texts and figures that the maker wrote, and what a
person added.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from textwrap import shorten
from typing import Any

from builder.records.differ import LONGEST
from builder.returned.aligned import WORKED_OUT, At
from builder.returned.came_back import Returned, plain
from builder.returned.findings import Finding, span
from builder.returned.located import Located
from builder.values import is_number
from builder.workbook.answers import UNPRINTED
from builder.workbook.layout import Place
from builder.workbook.summary_page import PAGE, wakes

CLOSE = 1e-6  # of a cached value: a small difference of large figures has fewer digits than they
AGAIN = "'wetfilm reissue' builds the workbook again of its inputs"
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


def standing(back: Returned, located: Located, made: Mapping[str, Mapping[At, object]]) -> Iterator[Finding]:
    """A Finding for each text or figure of the maker's that is another or gone, runs in a row as one, for each row of a
    page that was deleted, and for each cell that a person added where nothing is read. made: what the maker writes of
    the book's own inputs as they stand, title of a sheet -> cells.
    """
    told = {(stray.sheet, cell) for stray in back.strays for cell in stray.cells.values()}
    for title, now in located.sheets.items():
        if now is None:
            continue
        # how far Crew card is printed hangs on how many coats there were
        written = {place: plain(value) for place, value in made[title].items() if value != UNPRINTED}
        live = _live(located, title)
        yield from _deleted(back, located, title, written)
        yield from _overwritten(
            back, located, title, {place: value for place, value in written.items() if place not in live[0]}
        )
        sheet = back.book[now]
        ours = {_now(located, title, sheet, *one) for one in (*written.items(), *WORKED_OUT.items())} | live[1]
        if title == PAGE:  # of a sheet that was deleted they show an error, which costs nothing
            ours |= {(1, col + 1) for col, _ in wakes(located.made)}
        # those that are there; walking rows and columns would visit all between
        others = [(at, cell) for at, cell in sheet._cells.items() if at not in ours]
        for _, cell in sorted(others, key=lambda one: one[0]):
            aside = (now, cell.coordinate) in told or cell.value == UNPRINTED
            if plain(cell.value) is not None and not aside:
                shown = shorten(str(cell.value), LONGEST, placeholder=" …")
                yield Finding("beside", now, cell.coordinate, f"'{shown}' is ignored: not an input cell")
    for title in back.book.sheetnames:
        if title not in located.sheets.values() and back.book[title]._cells:
            headed = back.book[title]["A1"].value  # every sheet of ours begins with its title
            added = f"a copy of the sheet {headed}" if headed in located.sheets else "this sheet was added"
            yield Finding("own sheet", title, "", added, "it is not part of the estimate and is not carried over")


def _deleted(back: Returned, located: Located, title: str, written: Mapping[At, object]) -> Iterator[Finding]:
    """Rows of a page that were deleted, but those of names that are gone, which are told as such, and blank ones."""
    named = {
        place.row
        for key, place in located.made.places.items()
        if place.sheet == title and "_".join(key) in located.gone
    }
    worked_out = {
        was.line(record)
        for was in located.made.places.values()
        if was.sheet == title and was.column.formula
        for record in range(was.rows)
    }
    for row in sorted(located.rows[title].gone - named):
        said = [value for (at, _), value in sorted(written.items()) if at == row]
        if said or row in worked_out:
            words = f"the row of '{_short(said[0])}' was deleted" if said else "a row of formulas was deleted"
            yield Finding("fixed", located.sheets[title], f"row {located.rows[title].now(row)}", words, AGAIN)


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
            made |= {(was.line(record), col) for record in range(was.rows) for col in _columns(was)}
        now |= {(row, col) for _, row in located.lines(key, place) for col in _columns(place)}
        if place.block.form == "table":
            above = range(located.numbers(place.block), place.row)
            now |= {(row, place.col + 1 + copy) for row in above for copy in range(place.cols)}
    return made, now


def _columns(place: Place) -> range:
    """The columns in which it stands, counted from 1."""
    return range(place.col + 1, place.col + 1 + place.cols)


def _now(located: Located, title: str, sheet: Any, place: At, want: object) -> At:
    """Where a cell is by now; between rows that moved differently, where the same stands."""
    row, col = place
    there = located.cols[title].now(col)
    return located.rows[title].now(row, lambda at: alike(plain(sheet.cell(at, there).value), want)), there


def _overwritten(back: Returned, located: Located, title: str, written: Mapping[At, object]) -> Iterator[Finding]:
    """What no longer stands as it was written; a header row that was deleted is told as a name that is gone."""
    now, rows = located.sheets[title], located.rows[title]
    headless = [located.made.head(block) for block in located.headless if block.sheet == title]
    sheet, formulas = back.book[now], back.formulas[now]
    wrong = []
    for (row, col), want in sorted(written.items()):
        if row in headless or row in rows.gone:
            continue
        at = _now(located, title, sheet, (row, col), want)
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
