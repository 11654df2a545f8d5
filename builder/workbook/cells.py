"""The cells and names of a verified workbook, and nothing else of it. The only user of openpyxl, with `read`."""
import warnings

from openpyxl.reader.excel import ExcelReader
from openpyxl.worksheet._reader import WorksheetReader

from builder.workbook import safe


class _CellsOnly(ExcelReader):
    """The library's reader without what a hostile file could make endless: merged and linked areas, comments, tables, drawings, pivots."""

    def read_worksheets(self):
        read = set()
        for about, relation in self.parser.find_sheets():
            if relation.target in read or relation.target not in self.valid_files:
                raise ValueError(relation.target)
            read.add(relation.target)
            with self.archive.open(relation.target) as stream:
                WorksheetReader(self.wb.create_sheet(about.name), stream, self.shared_strings, self.data_only, False).bind_cells()


def loaded(source, data_only=True):
    """The library's workbook with its cells. source: as `safe.opened` takes it; data_only: values, else formulas."""
    verified = safe.opened(source)
    reader = _CellsOnly(verified, keep_links=False, data_only=data_only)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")         # it warns of parts it would drop on saving; nothing is saved
        try:
            reader.read()
        except Exception:                       # what a library stumbles over in a file is a fault of the file
            raise safe.refused(verified.name, "it is damaged", safe.AGAIN) from None
    return reader.wb
