"""A workbook as it came back: what its defined names point at, and what stands there."""

import datetime
from dataclasses import dataclass, field

from openpyxl import Workbook
from openpyxl.formula.tokenizer import TokenizerError
from openpyxl.utils.cell import get_column_letter, range_boundaries
from openpyxl.utils.datetime import to_excel

from builder.quantities import Units
from builder.returned import safe
from builder.returned.formulas import Formulas
from builder.sheets.grammar import COLUMNS, ROWS

LARGEST = 50_000  # cells under one name, at most


def plain(value):
    """A date as its day number, a number as a float, one beyond all measure as text, blank text as nothing."""
    if isinstance(value, (datetime.date, datetime.time, datetime.timedelta)):
        return float(to_excel(value))
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, (int, float)):
        return float(value) if abs(value) < 1e300 else str(value)
    return None if value == "" else value


@dataclass(frozen=True)
class Area:
    """What a defined name points at: a sheet as it is called now, and columns and rows counted from 1."""

    sheet: str
    left: int
    top: int
    right: int
    bottom: int

    def cell(self, down=0, across=0):
        return f"{get_column_letter(self.left + across)}{self.top + down}"


@dataclass(frozen=True)
class Stray:
    """A row that was typed above or below its table: the block, the row of the sheet, where it is, the values by key
    and their cells.
    """

    block: str
    sheet: str
    row: int
    where: str
    values: dict
    cells: dict


@dataclass
class Returned:
    """A workbook as it came back.

    values: of each block, raw, blank rows between others kept; settings and units: as the book was made; restated:
    (key, what the book says instead) of those that were changed there; areas: what every defined name points at,
    by the names of now; copies: title -> the copy that stands in for a sheet that was deleted; gone: kinds and fields
    whose cells cannot be found; strays: rows above or below their tables; issued: the catalogs as the book was made,
    blank in old books; formulas: the same workbook with formulas where a cell has one.
    """

    source: safe.Verified
    book: Workbook
    areas: dict
    formulas: Formulas
    settings: dict = field(default_factory=dict)
    units: Units = Units()
    values: dict = field(default_factory=dict)
    strays: list = field(default_factory=list)
    issued: dict = field(default_factory=dict)
    copies: dict = field(default_factory=dict)
    gone: list = field(default_factory=list)
    restated: list = field(default_factory=list)

    @property
    def name(self):
        return self.source.name

    def area(self, block, key):
        """Where a column or fact stands; None where its name is gone."""
        return self.areas.get(f"{block}_{key}")

    def shown(self, name):
        """What the cells under a defined name show. Refused where the name is gone."""
        if name not in self.areas:
            raise safe.refused(self.name, f"the defined name {name} was deleted or points nowhere", safe.PUT_BACK)
        return self.cells(self.areas[name])

    def saved_price(self):
        """The price of the base as the file shows it; None where it shows none."""
        value = self.cells(self.areas["price_total"])[0] if "price_total" in self.areas else None
        return value if isinstance(value, float) else None

    def cells(self, area):
        """The values of an area, from the top down."""
        rows = self.book[area.sheet].iter_rows(area.top, area.bottom, area.left, area.right, values_only=True)
        return [plain(value) for row in rows for value in row]

    def place(self, block, key, row=0):
        """The sheet and the cell of an input; `row` counts from 0."""
        area = self.area(block, key)
        return area.sheet, area.cell(row)


def _names(book):
    """(name, what it points at, the copy it is of, if any): a copied sheet has names of its own, which serve where the
    first sheet is gone.
    """
    yield from ((name, defined, None) for name, defined in book.defined_names.items())
    yield from (
        (name, defined, sheet.title) for sheet in book.worksheets for name, defined in sheet.defined_names.items()
    )


def areas_of(book):
    """Defined name -> Area, of those that point at one; name of a sheet -> the copy that stands in for it."""
    found, copies = {}, {}
    for name, defined, copy in _names(book):
        if name in found:
            continue
        try:
            ((sheet, address),) = defined.destinations
            left, top, right, bottom = range_boundaries(address)
            size = (bottom - top + 1) * (right - left + 1)
            sheet = sheet.replace("''", "'")  # an apostrophe is doubled between quotes
        # deleted, whole columns, not one run of cells, or no sheet is named
        except (TypeError, ValueError, TokenizerError, AttributeError):
            continue
        inside = 1 <= left <= right <= COLUMNS and 1 <= top <= bottom <= ROWS
        if sheet in book.sheetnames and inside and size <= LARGEST and copy in (None, sheet):
            found[name] = Area(sheet, left, top, right, bottom)
            if copy:
                copies[name] = copy
    return found, copies
