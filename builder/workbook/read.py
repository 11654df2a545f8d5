"""A workbook back to the values of its inputs, found by defined names. The only user of openpyxl."""
import datetime
import warnings

import openpyxl
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import to_excel

from builder.quantities import Units
from builder.records.kinds import KINDS
from builder.sheets.lists import BOOK


class _Reader:
    def __init__(self, source):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")     # it warns of parts it would drop on saving; nothing is saved
            self.book = openpyxl.load_workbook(source, data_only=True)

    def cells(self, name):
        """The values under a defined name, from the top down."""
        (sheet, area), = self.book.defined_names[name].destinations
        left, top, right, bottom = range_boundaries(area)
        return [self.plain(cell.value) for row in self.book[sheet].iter_rows(top, bottom, left, right) for cell in row]

    @staticmethod
    def plain(value):
        """A date as its day number, a number as a float, blank text as nothing."""
        if isinstance(value, (datetime.datetime, datetime.date)):
            return float(to_excel(value))
        if isinstance(value, bool):
            return str(value).upper()
        if isinstance(value, int):
            return float(value)
        return None if value == "" else value


def read(source):
    """The values of each block as `records.load` gives them, the units they are in, and the facts of the sheet Start.

    source: a path or a binary stream of a workbook that this program wrote, whatever program has saved it since.
    """
    reader = _Reader(source)
    settings = {column.key: reader.cells(f"book_{column.key}")[0] for column in BOOK.columns}
    units = Units(settings["units"], settings["currency"], settings["exchange"])
    values = {}
    for kind in KINDS.values():
        columns = {one.key: [units.from_cell(value, one.quantity) for value in reader.cells(f"{kind.key}_{one.key}")] for one in kind.fields}
        rows = [dict(zip(columns, row)) for row in zip(*columns.values())]
        values[kind.key] = rows if kind.upright else [row for row in rows if any(value is not None for value in row.values())]
    return values, units, settings
