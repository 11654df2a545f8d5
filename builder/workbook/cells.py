"""The cells and names of a verified workbook, and nothing else of it. The only user of openpyxl, with `read`."""
import warnings

from openpyxl.reader.excel import ExcelReader
from openpyxl.worksheet._reader import WorksheetReader

from builder.workbook import safe

FORMULAS = 50_000_000          # letters of all formulas, each cell's own written out; the largest book of ours has 8.5 million


class _CellsOnly(ExcelReader):
    """The library's reader without what a hostile file could make endless: merged and linked areas, comments, tables, drawings, pivots."""

    letters = 0

    def counted(self, parse):
        """The parser of formulas, stopped where a long one that is shared by many cells would fill the memory."""
        def formula(element):
            found = parse(element)
            self.letters += len(found) if isinstance(found, str) else 0
            if self.letters > FORMULAS:
                raise ValueError("formulas")
            return found
        return formula

    def read_worksheets(self):
        read = set()
        for about, relation in self.parser.find_sheets():
            if relation.target in read or relation.target not in self.valid_files:
                raise ValueError(relation.target)
            read.add(relation.target)
            with self.archive.open(relation.target) as stream:
                sheet = WorksheetReader(self.wb.create_sheet(about.name), stream, self.shared_strings, self.data_only, False)
                sheet.parser.parse_formula = self.counted(sheet.parser.parse_formula)
                sheet.bind_cells()


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
