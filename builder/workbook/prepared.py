"""The writing library's workbook, whose parts are sealed and pressed once, by us: the same input gives the
same bytes.
"""

import io
import re
import zipfile
import zlib

import xlsxwriter
from xlsxwriter.packager import Packager

from builder.seals import sealed_book
from builder.workbook.shared import CONTROLS, SharingSheet

# Level and memory of pressing: as hard as costs little (level 9 takes three times as long for 3 % less), and short
# blocks, each with a code of its own, which suit cells that change from column to column.
LEVEL, SHORT = 7, 5
# every part, so that the same input gives the same bytes
DATED = 1980, 1, 1, 0, 0, 0
# app.xml may repeat every defined name; no program needs it
_LISTED_AGAIN = re.compile(rb"<HeadingPairs>.*</TitlesOfParts>")


def _packed(parts):
    """The parts of a workbook, name -> bytes, sealed and pressed."""
    small = io.BytesIO()
    parts["docProps/app.xml"] = _LISTED_AGAIN.sub(b"", parts["docProps/app.xml"])
    with zipfile.ZipFile(small, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in sealed_book(parts).items():
            part = zipfile.ZipInfo(name, DATED)
            part.compress_type = zipfile.ZIP_DEFLATED
            with book.open(part, "w") as pressed:
                pressed._compressor = zlib.compressobj(LEVEL, zlib.DEFLATED, -15, SHORT)
                pressed.write(data)
    return small.getvalue()


def _value(cell, texts):
    """What one cell of the library's holds. texts: the shared ones by number."""
    if hasattr(cell, "string"):
        return texts[cell.string].translate(CONTROLS)
    for name in ("value", "number", "boolean"):
        if hasattr(cell, name):
            return getattr(cell, name)
    return None


class _Packager(Packager):
    """Keeps the parts of a book, name -> bytes, and leaves the library nothing to press."""

    def _create_package(self):
        self.parts = {
            name: stream.getvalue() if binary else stream.getvalue().encode()
            for stream, name, binary in super()._create_package()
        }
        return ()


class Prepared(xlsxwriter.Workbook):
    """The library's workbook as a file that is pressed once: `done` closes it and gives its bytes."""

    worksheet_class = SharingSheet

    def __init__(self, options=None):
        super().__init__(io.BytesIO(), {"in_memory": True, **(options or {})})
        self._packager = _Packager()

    def _get_packager(self):
        return self._packager

    def written(self):
        """Title of a sheet -> (row, column), counted from 1 -> what a program that opens the book finds there: text or
        figure, of a formula its result; blanks are left out.
        """
        texts = {number: text for text, number in self.str_table.string_table.items()}
        return {
            sheet.name: {
                (row + 1, col + 1): value
                for row, cells in sheet.table.items()
                for col, cell in cells.items()
                if (value := _value(cell, texts)) not in (None, "")
            }
            for sheet in self.worksheets()
        }

    def done(self):
        self.close()
        return _packed(self._packager.parts)
