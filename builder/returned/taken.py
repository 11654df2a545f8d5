"""The inputs of a returned workbook as a job: text understood, rows below their tables taken in, catalog records that
are its own.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TypeAlias

from builder.documents import hidden
from builder.faults import faults
from builder.jobs import Opened, from_values
from builder.problems import BadValue
from builder.records import feet
from builder.records.differ import said, shown
from builder.records.fields import Field, Kind, Record, Values
from builder.records.kinds import CATALOGS, KINDS
from builder.records.overlay import identity, label, load_catalogs
from builder.records.rules import Length, OneOf, Word
from builder.records.store import job_text
from builder.returned.came_back import Returned, Stray, plain
from builder.returned.findings import Cell, Finding
from builder.returned.typed import understood
from builder.stages.book import BOOK, ROOM
from builder.values import is_number

TRUTHS = ("=TRUE()", "=FALSE()")  # how some programs save what was typed as TRUE
COUNTED = "wetfilm counts it; 'wetfilm reissue' builds a book that has room for it"
START = {column.key: column.title for column in BOOK.columns}
LOST = ("cell", "formula without a value")  # kinds of finding that leave a cell as it is, or without its value

PlaceOf: TypeAlias = Callable[[str], tuple[str, str]]  # key of a field -> its sheet and cell


@dataclass(frozen=True)
class Taken:
    """The estimate of what a workbook's inputs say, and how they were read."""

    opened: Opened
    findings: tuple[Finding, ...]

    @property
    def unfinished(self) -> bool:
        """Whether something stops the price."""
        return self.opened.estimate.checks.stops > 0


def _seen(text: str) -> str:
    """A text without letters that nobody sees, which a job file may not hold: a space of whatever kind is a space."""
    return "".join((" " if letter.isspace() else "") if hidden(letter) else letter for letter in text)


def _row(back: Returned, kind: Kind, values: Record, place: PlaceOf, found: list[Finding]) -> Record:
    """One row understood; `place(key)` gives the sheet and cell of a value."""
    row: Record = {}
    for one in kind.fields:
        typed = values.get(one.key)
        value = row[one.key] = _seen(typed) if isinstance(typed, str) else typed
        if isinstance(value, str) and not value.strip():
            row[one.key] = None
            found.append(
                Finding(
                    "space",
                    *place(one.key),
                    f"{one.title}: a space, which the workbook counts as an entry; read as blank",
                    "clear the cell",
                )
            )
            continue
        try:
            row[one.key] = understood(value, one, back.units)
        except BadValue as error:
            found.append(Finding("cell", *place(one.key), f"{one.title}: {error.message}", error.hint))
            continue
        if value != typed and one.quantity == "text":
            words = f"{one.title}: the text holds characters that nobody sees; read as {value}"
            found.append(Finding("understood", *place(one.key), words, "type it again"))
        elif isinstance(one.rule, (OneOf, Word)) and isinstance(value, str) and value != value.strip():
            words = f"{one.title}: '{value}' has a space around it, and so is no such name in the workbook"
            found.append(Finding("understood", *place(one.key), f"{words}; read without", "type it again"))
        in_its_cell = isinstance(one.rule, Length) and feet.read(value, back.units) is not None
        if isinstance(value, str) and row[one.key] is not None and one.quantity != "text" and not in_its_cell:
            found.append(
                Finding(
                    "understood",
                    *place(one.key),
                    f"{one.title}: '{value}' is read as {shown(row[one.key], one, back.units)}",
                )
            )
    return row


def _cells(back: Returned) -> Iterator[tuple[Field, str, str]]:
    """(field, sheet, cell) of every input, those of rows beyond their tables last."""
    for kind in KINDS.values():
        for one in kind.fields:
            if area := back.area(kind.key, one.key):
                yield from ((one, area.sheet, area.cell(down)) for down in range(area.bottom - area.top + 1))
    for stray in back.strays:
        yield from ((KINDS[stray.block].field_of[key], stray.sheet, cell) for key, cell in stray.cells.items())


def _formulas(back: Returned, found: list[Finding]) -> None:
    """Formulas typed into inputs: taken as what the program that saved the book made of them."""
    for one, sheet, cell in _cells(back):
        formula = back.formulas[sheet][cell].value
        formula = getattr(formula, "text", formula)
        if not (isinstance(formula, str) and formula.startswith("=")) or formula.upper() in TRUTHS:
            continue
        value = back.book[sheet][cell].value
        if value is None:
            found.append(
                Finding(
                    "formula without a value",
                    sheet,
                    cell,
                    f"{one.title}: the formula {formula} has no result saved with it",
                    "open the workbook in a spreadsheet program and save it",
                )
            )
        else:
            settled = back.units.from_cell(plain(value), one.quantity)
            found.append(
                Finding(
                    "formula typed",
                    sheet,
                    cell,
                    f"{one.title}: the formula {formula} is read as its value, {shown(settled, one, back.units)}",
                )
            )


def _deleted(back: Returned, found: list[Finding]) -> None:
    """Sheets and cells of inputs that are gone, copies that stand in for a sheet, facts of the book that were
    changed.
    """
    for kind, one in back.gone:
        if one:
            found.append(Finding("name", kind.sheet, "", f"{one.title} was deleted; it is read as blank"))
        else:
            issued = kind in CATALOGS and back.issued[kind.key]
            instead = "its records are read as they were issued" if issued else "its entries are read as blank"
            found.append(Finding("sheet", kind.sheet, "", f"the sheet was deleted; {instead}"))
    for name, copy in back.copies.items():
        if name.startswith("sheet_"):
            found.append(
                Finding(
                    "sheet",
                    copy,
                    "",
                    "a copy of a sheet that was deleted; what is typed here is read, "
                    "but the workbook's formulas do not use it",
                )
            )
    for key, value in back.restated:
        said, made = (f"{one:.15g}" if is_number(one) else str(one) for one in (value, back.settings[key]))
        area = back.areas[f"book_{key}"]
        found.append(
            Finding(
                "start",
                area.sheet,
                area.cell(),
                f"{START[key]} was changed to '{said}'; the workbook was built with '{made}', which counts",
                "to change it, build the workbook again",
            )
        )


def _rows(back: Returned) -> Iterator[tuple[Kind, Record, PlaceOf]]:
    """(kind, values, the place of a value by key) of every row that is not blank, those beyond their tables last."""
    for kind in KINDS.values():
        for no, row in enumerate(back.values[kind.key]):
            if kind.upright or any(value is not None for value in row.values()):
                yield kind, row, partial(back.place, kind.key, row=no)
    for stray in back.strays:
        yield KINDS[stray.block], stray.values, partial(_beyond, stray)


def _beyond(stray: Stray, key: str) -> tuple[str, str]:
    """The place of a value in a row beyond its table."""
    return stray.sheet, stray.cells[key]


def taken(back: Returned, formulas: bool = True) -> Taken:
    """The inputs of a Returned workbook, understood, and estimated. formulas: whether those that a person typed are
    told.
    """
    found: list[Finding] = []
    values: Values = {key: [] for key in KINDS}
    marks: dict[str, list[dict[str, Cell]]] = {key: [] for key in KINDS}
    _deleted(back, found)
    for stray in back.strays:
        record = said(KINDS[stray.block], stray.values, back.units)
        words = f"'{record}' is {stray.where} the table, where the workbook does not count it"
        found.append(Finding(f"row {stray.where}", stray.sheet, f"row {stray.row}", words, COUNTED))
    for kind, row, place in _rows(back):
        values[kind.key].append(_row(back, kind, row, place, found))
        cells = {one.key: Cell(*place(one.key)) for one in kind.fields if back.area(kind.key, one.key)}
        first = next(iter(cells.values()), Cell(kind.sheet, ""))
        marks[kind.key].append(
            cells | {"": Cell(first.sheet, f"row {re.sub('[A-Z]', '', first.cell)}" if first.cell else "")}
        )
    if formulas:
        _formulas(back, found)
    grown = {fact: max(back.settings[fact], len(values[table])) for fact, table in ROOM.items()}
    opened = from_values(values, back.units, back.settings | grown)
    told = {Cell(finding.sheet, finding.cell) for finding in found if finding.kind in LOST}
    return Taken(opened, tuple(found) + tuple(faults(opened.estimate, marks, told)))


def own_records(values: Values, stock: Values) -> tuple[Values, dict[str, list[str]]]:
    """(own, without): the catalog records in `values` that `stock` has otherwise or not at all, and the names of those
    only `stock` has.

    Of the one record of Terms only the figures that differ, '' for one that was cleared.
    """
    own: Values = {}
    without: dict[str, list[str]] = {}
    for kind in CATALOGS:
        if kind.upright:
            (old,) = stock[kind.key] or ({},)
            mine = values[kind.key][0]
            differ = [one.key for one in kind.fields if mine.get(one.key) != old.get(one.key)]
            figures: Record = {key: "" if mine.get(key) is None else mine[key] for key in differ}
            own |= {kind.key: [figures]} if figures else {}
            continue
        theirs = {identity(kind, row): {one.key: row.get(one.key) for one in kind.fields} for row in stock[kind.key]}
        names = Counter(identity(kind, row) for row in values[kind.key])
        changed = [
            row for row in values[kind.key] if theirs.get(identity(kind, row)) != row or names[identity(kind, row)] > 1
        ]
        gone = [label(kind, row) for name, row in theirs.items() if name not in names]
        own |= {kind.key: changed} if changed else {}
        without |= {kind.key: gone} if gone else {}
    return own, without


def as_job(one: Taken, catalogs: Sequence[str | Path]) -> str:
    """The text of a job file that builds with these catalogs to the estimate of a Taken workbook."""
    opened = one.opened
    stock = load_catalogs(catalogs, opened.units).values
    own, without = own_records(opened.values, stock)
    return job_text(opened.values, opened.units, own, without, one.unfinished)
