"""A workbook file as its parts: what an auditor of the format reads."""

import functools
import re
from xml.etree import ElementTree
from xml.sax.saxutils import unescape

import openpyxl

from support.engines import Values
from support.parcels import parts

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


class File:
    """The parts of a book's file, its sheets as XML and, through openpyxl, as cells; and what the book was made of."""

    def __init__(self, book):
        self.path, self.layout, self.estimate = book.path, book.layout, book.estimate
        self.parts = parts(book.path.read_bytes())
        self.titles = re.findall(r'<sheet name="([^"]+)"', self.text("xl/workbook.xml"))

    @functools.cached_property
    def book(self):
        return openpyxl.load_workbook(self.path)

    @functools.cached_property
    def cached(self):
        """The values as they stand in the file."""
        return Values(self.path)

    def text(self, part):
        return self.parts[part].decode()

    def matching(self, pattern):
        return [name for name in self.parts if re.search(pattern, name)]

    @functools.cached_property
    def sheets(self):
        """title -> the sheet's XML element."""
        return {
            title: ElementTree.fromstring(self.parts[f"xl/worksheets/sheet{number}.xml"])
            for number, title in enumerate(self.titles, start=1)
        }

    @functools.cached_property
    def names(self):
        """Defined name -> what it points at; the format's own left out."""
        found = dict(re.findall(r'<definedName [^>]*?\bname="(\w+)"[^>]*>([^<]*)<', self.text("xl/workbook.xml")))
        return {name: unescape(area, {"&apos;": "'"}) for name, area in found.items() if "_xlnm" not in name}

    def reserved(self, name):
        """Sheet number from 0 -> area, of a name that the format keeps for itself."""
        return {
            int(sheet): area
            for sheet, area in re.findall(
                rf'name="_xlnm.{name}" localSheetId="(\d+)"[^>]*>([^<]*)<', self.text("xl/workbook.xml")
            )
        }

    def links(self, title):
        """Cell address -> the place in this book that it leads to."""
        return {link.get("ref"): link.get("location") for link in self.sheets[title].iter(f"{MAIN}hyperlink")}

    def widths(self, title):
        """Column number from 1 -> its width in characters."""
        return {
            number: float(col.get("width"))
            for col in self.sheets[title].iter(f"{MAIN}col")
            for number in range(int(col.get("min")), int(col.get("max")) + 1)
        }

    def formulas(self, title):
        """Cell address -> the formula's text, or the number of the shared formula that it takes part in."""
        for cell in self.sheets[title].iter(f"{MAIN}c"):
            formula = cell.find(f"{MAIN}f")
            if formula is not None:
                yield cell.get("r"), formula.get("si") or formula.text

    def declared(self):
        """(name, place, formula with names written out) of every column that works something out."""
        for (key, column), place in self.layout.places.items():
            if place.column.formula:
                yield f"{key}.{column}", place, self.layout.template(place.block, place.column)


def cells_of(place):
    """(row, column) from 1 of every cell of a column, fact or field."""
    block = place.block
    for down in range(place.rows if block.down else 1):
        for across in range(place.cols):
            yield place.line(down), place.col + across + 1
