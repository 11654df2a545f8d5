"""A workbook back to the values of its inputs, found by defined names."""
import datetime

from openpyxl.formula.tokenizer import TokenizerError
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import to_excel

from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.sheets.lists import BOOK
from builder.workbook import safe
from builder.workbook.cells import loaded

AREA = 10_000                 # cells under one name, at most


class _Reader:
    def __init__(self, source):
        verified = safe.opened(source)
        self.title, self.book = verified.name, loaded(verified)

    def cells(self, name):
        """The values under a defined name, from the top down."""
        try:
            (sheet, area), = self.book.defined_names[name].destinations
            left, top, right, bottom = range_boundaries(area)
            size, sheet = (bottom - top + 1) * (right - left + 1), self.book[sheet]
        except (KeyError, TypeError, ValueError, TokenizerError):        # not there; whole columns; no area, or several
            raise safe.refused(self.title, f"its name {name} was deleted or points nowhere", safe.PUT_BACK) from None
        if not 1 <= size <= AREA:
            raise safe.refused(self.title, f"its name {name} covers {size:,} cells", safe.PUT_BACK)
        return [self.plain(cell.value) for row in sheet.iter_rows(top, bottom, left, right) for cell in row]

    @staticmethod
    def plain(value):
        """A date as its day number, a number as a float, one beyond all measure as text, blank text as nothing."""
        if isinstance(value, (datetime.date, datetime.time, datetime.timedelta)):
            return float(to_excel(value))
        if isinstance(value, bool):
            return str(value).upper()
        if isinstance(value, (int, float)):
            return float(value) if abs(value) < 1e300 else str(value)
        return None if value == "" else value


def read(source):
    """The values of each block as `records.load` gives them, the units they are in, and the facts of the sheet Start.

    source: a path or a binary stream of a workbook that this program wrote, whatever program has saved it since.
    """
    reader = _Reader(source)
    settings = {column.key: reader.cells(f"book_{column.key}")[0] for column in BOOK.columns}
    safe.sound(reader.title, settings)
    units = Units(settings["units"], settings["currency"], settings["exchange"])
    values = {}
    for kind in KINDS.values():
        columns = {one.key: [units.from_cell(value, one.quantity) for value in reader.cells(f"{kind.key}_{one.key}")] for one in kind.fields}
        rows = [dict(zip(columns, row)) for row in zip(*columns.values())]
        values[kind.key] = rows if kind.upright else [row for row in rows if any(value is not None for value in row.values())]
    return values, units, settings


def shown(source, name):
    """What the cells under a defined name showed when the workbook was last saved. source: as for `read`."""
    return _Reader(source).cells(name)
