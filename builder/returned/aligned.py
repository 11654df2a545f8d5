"""How the rows of a page moved, told by what stands in them: few names point at its cells.

A row is known again by the texts that the maker wrote in it and by the shapes of its formulas, whatever they give.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import Match, SequenceMatcher
from typing import TypeAlias

from builder.returned.formulas import FormulaSheet
from builder.returned.rewritten import plain
from builder.workbook.braces import at_record
from builder.workbook.frame import BANNER, NEXT
from builder.workbook.layout import Layout

At: TypeAlias = tuple[int, int]  # row and column, counted from 1

CELL = re.compile(r"\$?[a-z]{1,3}\$?\d+|#ref!")  # in a plain formula; the latter where it was deleted
WORKED_OUT = {**BANNER, NEXT[0]: NEXT[1]}  # formulas that stand on every sheet


def rows_now(
    made: Layout, title: str, written: Mapping[At, object], sheet: FormulaSheet, typed: set[At]
) -> dict[int, int]:
    """Row -> row by now, of those that are known again.

    made: the layout as it was made; written: what the maker wrote on the sheet; sheet: with its formulas, as it is by
    now; typed: the cells of its inputs by now.
    """
    was = {**{place: str(value) for place, value in written.items()}, **dict(_made(made, title))}
    now = {place: text for place, text in sheet.texts(shape) if place not in typed}
    before, after = _lines(was), _lines(now)
    known: dict[int, int] = {}
    begun = then = 0
    for one in _matching(before, after):  # between those that are alike, by what stands first in a row
        first, second = ([line[:1] for line in lines] for lines in (before[begun : one.a], after[then : one.b]))
        for few in _matching(first, second):
            known |= {begun + few.a + step + 1: then + few.b + step + 1 for step in range(few.size)}
        known |= {one.a + step + 1: one.b + step + 1 for step in range(one.size)}
        begun, then = one.a + one.size, one.b + one.size
    return known


def _matching(before: Sequence[tuple[str, ...]], after: Sequence[tuple[str, ...]]) -> list[Match]:
    return SequenceMatcher(None, before, after, autojunk=False).get_matching_blocks()


def shape(formula: str) -> str:
    """A formula without the cells that it speaks of: they move with the rows, or go with them."""
    return CELL.sub("@", plain(formula))


def _made(made: Layout, title: str) -> Iterator[tuple[At, str]]:
    """Every formula of a sheet as it was made, by its shape, and its inputs as blanks."""
    yield from ((place, shape(formula)) for place, formula in WORKED_OUT.items())
    for place in made.places.values():
        if place.sheet != title or not (place.column.formula or place.column.field):
            continue
        down, across = (place.rows, place.cols) if place.block.down else (1, place.cols)
        for copy in range(across):
            template = (
                ""
                if place.column.field
                else made.template(place.block, place.column, copy if place.block.form == "table" else 0)
            )
            for record in range(down):
                row, col = place.line(record), place.col + copy
                yield (row, col + 1), template and shape(at_record(template, row, col))


def _lines(cells: Mapping[At, str]) -> list[tuple[str, ...]]:
    """What stands in each row from the first on, from left to right."""
    lines: dict[int, list[str]] = {}
    for (row, _), text in sorted(cells.items()):
        if text:
            lines.setdefault(row, []).append(text)
    return [tuple(lines.get(row, ())) for row in range(1, max(lines, default=0) + 1)]
