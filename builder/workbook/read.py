"""A workbook back to the values of its inputs, found by defined names."""
import datetime
from dataclasses import dataclass, field
from functools import cached_property

from openpyxl import Workbook
from openpyxl.formula.tokenizer import TokenizerError
from openpyxl.utils.cell import get_column_letter, range_boundaries
from openpyxl.utils.datetime import to_excel

from builder.quantities import Units
from builder.records.job import LINES
from builder.records.kinds import CATALOGS, KINDS
from builder.records.load import load_record
from builder.records.overlay import label
from builder.records.versions import SCHEMA, old_name
from builder.rules import is_number
from builder.sheets.lists import BOOK
from builder.workbook import safe
from builder.workbook.cells import loaded

LARGEST = 50_000               # cells under one name, at most
INPUTS = 60_000                # cells under the names of all inputs; a book of 2,000 lines has 27,000
DIGITS = 1e-9                  # of a number, beyond which another one was typed
FURTHER = 1000                 # rows below a table of inputs in which something typed is looked for


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
    """A row that was typed above or below its table: the block, the row of the sheet, where it is, the values by key and their cells."""

    block: str
    sheet: str
    row: int
    where: str
    values: dict
    cells: dict


@dataclass
class Returned:
    """A workbook as it came back.

    values: of each block, raw, blank rows between others kept; units and settings: as the sheet Start says; areas: what every
    defined name points at; strays: rows above or below their tables; issued: the catalogues as the book was made, blank in old books.
    """

    source: safe.Verified
    book: Workbook
    areas: dict
    settings: dict = field(default_factory=dict)
    units: Units = Units()
    values: dict = field(default_factory=dict)
    strays: list = field(default_factory=list)
    issued: dict = field(default_factory=dict)

    @property
    def name(self):
        return self.source.name

    def area(self, block, key):
        """Where a column or fact stands; None where its name is gone."""
        return self.areas.get(old_name(int(self.settings.get("schema", SCHEMA)), f"{block}_{key}"))

    def shown(self, name):
        """What the cells under a defined name show. Refused where the name is gone."""
        if name not in self.areas:
            raise safe.refused(self.name, f"its name {name} was deleted or points nowhere", safe.PUT_BACK)
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

    @cached_property
    def formulas(self):
        """The same workbook with formulas where a cell has one."""
        return loaded(self.source, data_only=False)


def _areas(book):
    """Defined name -> Area, of those that point at one."""
    found = {}
    for name, defined in book.defined_names.items():
        try:
            (sheet, address), = defined.destinations
            left, top, right, bottom = range_boundaries(address)
            size = (bottom - top + 1) * (right - left + 1)
        except (TypeError, ValueError, TokenizerError):          # deleted, whole columns, or not one run of cells
            continue
        sheet = sheet.replace("''", "'")                         # an apostrophe is doubled between quotes
        if sheet in book.sheetnames and 1 <= size <= LARGEST:
            found[name] = Area(sheet, left, top, right, bottom)
    return found


def returned(source):
    """Read a workbook that this program wrote, whatever program has saved it since. source: a path or a binary stream.

    Raises Refused where it is no such workbook or the names of inputs are gone.
    """
    verified = safe.opened(source)
    book = loaded(verified)
    back = Returned(verified, book, _areas(book))
    back.settings = {column.key: back.shown(f"book_{column.key}")[0] for column in BOOK.columns if column.key != "form" or "book_form" in back.areas}
    safe.sound(back.name, back.settings)
    back.units = Units(back.settings["units"], back.settings["currency"], back.settings["exchange"])
    gone = [words for kind in KINDS.values() for words in _gone(back, kind)]
    if gone and back.settings["schema"] == SCHEMA:
        raise safe.refused(back.name, "the names by which these inputs are found were deleted or point nowhere: " + "; ".join(gone), safe.PUT_BACK)
    _spanned(back)
    for kind in KINDS.values():
        back.values[kind.key] = _rows(back, kind)
        if not kind.upright:
            back.strays += _strays(back, kind)
    back.issued = _issued(back)
    for kind in CATALOGS:
        back.values[kind.key] = [_restored(row, back.issued[kind.key].get(label(kind, row), {})) for row in back.values[kind.key]]
    return back


def _spanned(back):
    """Refuses names of inputs that span more than an estimate can have rows, each or all together."""
    whole = 0
    for kind in KINDS.values():
        for one in kind.fields:
            area = back.area(kind.key, one.key)
            cells = (area.bottom - area.top + 1) * (area.right - area.left + 1) if area else 0
            whole += cells
            if cells > LINES or whole > INPUTS:
                words = f"{kind.sheet}, {one.title}: the name of its cells spans {cells:,}, more than an estimate has"
                raise safe.refused(back.name, words, safe.PUT_BACK)


def _gone(back, kind):
    """What cannot be found of the inputs of a kind and is needed, in words."""
    gone = [one for one in kind.fields if back.area(kind.key, one.key) is None]
    if len(gone) == len(kind.fields):
        return [f"the sheet {kind.sheet}"]
    return [f"{kind.sheet}: {one.title}" for one in gone if one.required]


def _restored(row, issued):
    """A catalogue row with the digits it was issued with: some programs keep fewer of a very small number."""
    def alike(one, other):
        return is_number(one) and is_number(other) and abs(one - other) <= DIGITS * abs(other)
    return {key: issued[key] if alike(value, issued.get(key)) else value for key, value in row.items()}


def _rows(back, kind):
    """The rows of a kind, down to the last one that is not blank."""
    columns = {}
    for one in kind.fields:
        area = back.area(kind.key, one.key)
        columns[one.key] = [back.units.from_cell(value, one.quantity) for value in back.cells(area)] if area else []
    count = max(map(len, columns.values()))
    rows = [{key: values[place] if place < len(values) else None for key, values in columns.items()} for place in range(count)]
    while rows and not kind.upright and all(value is None for value in rows[-1].values()):
        rows.pop()
    return rows


def _strays(back, kind):
    areas = {one.key: area for one in kind.fields if (area := back.area(kind.key, one.key))}
    if not areas:
        return
    sheet = back.book[next(iter(areas.values())).sheet]
    top, below = min(area.top for area in areas.values()), max(area.bottom for area in areas.values()) + 1
    whole = back.areas.get(f"{kind.key}_headed")
    above = range(whole.top + 1, top) if whole and whole.sheet == sheet.title else ()      # inserted over the first row: names do not grow
    for row in (*above, *range(below, min(sheet.max_row, below + FURTHER) + 1)):
        cells = {key: f"{get_column_letter(area.left)}{row}" for key, area in areas.items()}
        raw = {key: plain(sheet[cell].value) for key, cell in cells.items()}
        if any(raw[one.key] is not None for one in kind.fields if one.required and one.key in raw):       # else a note, not a row
            where = "above" if row < top else "below"
            yield Stray(kind.key, sheet.title, row, where, {key: back.units.from_cell(value, kind.field_of[key].quantity) for key, value in raw.items()}, cells)


def _issued(back):
    """Block -> record -> its values as issued; empty for a book older than that."""
    areas = [back.areas.get(f"issued_{key}") for key in ("kind", "record", "text")]
    found = {kind.key: {} for kind in CATALOGS}
    for block, record, text in zip(*map(back.cells, areas)) if all(areas) else ():
        if block in found and text:
            found[block][record] = load_record(KINDS[block], text, back.units, f"{back.name}, As issued, {record}")
    return found


def read(source):
    """The values of each block as `records.load` gives them, the units they are in, and the facts of the sheet Start."""
    back = returned(source)
    return back.values, back.units, back.settings
