"""Formulas of a returned workbook that are not as they were made: overwritten, deleted, or dropped by a program."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from builder.returned import rewritten
from builder.returned.aligned import shape
from builder.returned.came_back import Returned
from builder.returned.findings import Finding, span
from builder.returned.formulas import Shared
from builder.returned.located import Located
from builder.sheets.grammar import cell_value, heading
from builder.stages.estimate import Estimate
from builder.workbook.braces import at_record
from builder.workbook.layout import Place

# column, row, title, what stands there, the formula, whether that gives a blank
Wrong: TypeAlias = tuple[int, int, str, object, str, bool]
SHEETS = 3  # on which nobody deletes formulas by hand that show nothing, and no others


def overwritten(back: Returned, located: Located, estimate: Estimate) -> Iterator[Finding]:
    """Formulas overwritten or cleared, runs of neighbors in a column as one; those that a program dropped since they
    showed a blank, all as one.
    """
    groups = list(_wrong(back, located, estimate))
    deleted: defaultdict[str, list[Wrong]] = defaultdict(list)
    for title, wrong in groups:
        deleted[title] += [one for one in wrong if one[3] is None]
    dropped = {title: gone for title, gone in deleted.items() if gone and all(blank for *_, blank in gone)}
    if len(dropped) >= SHEETS:
        title, ((col, row, *_), *_) = next(iter(dropped.items()))
        cells = f"{sum(map(len, dropped.values())):,} cells on {len(dropped)} sheets, such as {title} {span(col, row)}"
        yield Finding(
            "formula",
            "",
            "",
            f"the program that saved the workbook dropped formulas that showed a blank: {cells}",
            "what they would say is no longer told; 'wetfilm reissue' builds the workbook again with them",
        )
    else:
        dropped = {}
    for title, wrong in groups:
        yield from _told(title, [one for one in wrong if not (one[3] is None and title in dropped)])


def _wrong(back: Returned, located: Located, estimate: Estimate) -> Iterator[tuple[str, list[Wrong]]]:
    """The sheet and the cells of each block whose formula is not there. A row that was inserted has none, and needs
    none.
    """
    book = back.formulas
    blocks: defaultdict[tuple[str, int, str], list[tuple[tuple[str, str], Place]]] = defaultdict(list)
    for key, place in located.places.items():
        if place.column.formula and located.sheets[place.sheet]:
            blocks[place.block.key, place.block.place, place.sheet].append((key, place))
    for places in blocks.values():
        sheet = book[located.sheets[places[0][1].sheet]]
        # where rows of a page came or went, its formulas may speak of other cells
        same = (
            _alike
            if places[0][1].sheet in located.aligned and located.rows[places[0][1].sheet].torn
            else rewritten.same
        )
        wrong: list[Wrong] = []
        rows: defaultdict[int, list[object]] = defaultdict(list)
        for key, place in places:
            ours: dict[tuple[Shared, str], bool] = {}  # whether a shared formula is the one of a template
            worked_out = estimate.rows[key[0]]
            for record, copy, row, col, template in located.formulas(key, place):
                shared = sheet.shared(row, col)
                shared = shared if shared and shared.col == col else None
                if shared and (shared, template) not in ours:
                    ours[shared, template] = same(shared.text, at_record(template, shared.row, shared.col - 1))
                if shared and ours[shared, template]:
                    rows[row].append(shared)
                    continue
                found, formula = sheet.cell(row, col).value, at_record(template, row, col - 1)
                found = getattr(found, "text", found)
                rows[row].append(found)
                if not same(found, formula):
                    blank = (
                        found is None
                        and record <= len(worked_out)
                        and cell_value(worked_out[record - 1], place.column, located.units, copy) == ""
                    )
                    wrong.append((col, row, heading(place.column, located.units, copy), found, formula, blank))
        inserted = {
            row
            for row, found in rows.items()
            if places[0][1].block.form == "table" and all(value is None for value in found)
        }
        yield sheet.title, [one for one in wrong if one[1] not in inserted]


def _alike(one: object, other: str) -> bool:
    """Whether what stands in a cell is the formula but for the cells that it speaks of."""
    return isinstance(one, str) and shape(one) == shape(other)


def _told(sheet: str, wrong: Sequence[Wrong]) -> Iterator[Finding]:
    """A Finding for each run down a column."""
    runs: list[list[Wrong]] = []
    for one in sorted(wrong, key=lambda one: one[:2]):
        if runs and one[0] == runs[-1][-1][0] and one[1] == runs[-1][-1][1] + 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    for (col, row, title, found, formula, _), *others in runs:
        cell = span(col, row, col, others[-1][1] if others else row)
        gone = "the formula was deleted" if found is None else f"the formula was overwritten with {found}"
        yield Finding("formula", sheet, cell, f"{title}: {gone}" if title else gone, f"it should be {formula}")
