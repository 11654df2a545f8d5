"""The cells and names of a verified workbook, and nothing else of it. The only user of openpyxl, with `read`."""

import contextlib
import functools
import io
import warnings
import zipfile
from xml.etree.ElementTree import iterparse  # what declares a type or an entity was refused before

from openpyxl import Workbook
from openpyxl.reader.excel import ExcelReader
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet._reader import FORMULA_TAG, INLINE_STRING, ROW_TAG, VALUE_TAG, WorksheetReader
from openpyxl.xml.constants import SHARED_STRINGS, SHEET_MAIN_NS

from builder.documents import MOST_LETTERS
from builder.returned import safe
from builder.returned.formulas import Formulas, Shared
from builder.sheets.grammar import ROWS

FORMULAS = 70_000_000  # letters of all formulas, each cell's own written out; the largest book of ours has 46 million
TOO_LONG = f"a cell on the sheet {{}}, row {{}}, holds more than {MOST_LETTERS:,} characters"
SHORTEN = "shorten it"
STRING, TEXT, RUN, CELL = (f"{{{SHEET_MAIN_NS}}}{tag}" for tag in ("si", "t", "r", "c"))
# What a bent file can make the library raise: all but the first were seen of files bent at random.
BENT = (AttributeError, LookupError, OSError, OverflowError, SyntaxError, TypeError, ValueError)
INSIDE_ROWS = {CELL, VALUE_TAG, FORMULA_TAG, INLINE_STRING, TEXT, RUN}


class _Parts(zipfile.ZipFile):
    """The parts of a workbook. `read` is for those that the library turns into objects whole: none of ours is long."""

    def read(self, name, pwd=None):
        data = super().read(name, pwd)
        if data.count(b"<") > safe.HEAD_TAGS:
            raise safe.refused(self.fp.name, *safe.CROWDED)
        return data


def _string(element):
    """The text of a shared string, its runs joined, as the library has it."""
    pieces = [element.findtext(TEXT) or "", *(run.findtext(TEXT) or "" for run in element.findall(RUN))]
    return "".join(pieces).replace("x005F_", "")


class _CellsOnly(ExcelReader):
    """The library's reader without what a hostile file could make endless: merged and linked areas, comments, tables,
    drawings, pivots, rules."""

    letters = 0
    names = None  # the defined names whose sheets are read; None: all sheets are

    def __init__(self, *arguments, **options):
        super().__init__(*arguments, **options)
        self.formulas = {}  # title of a sheet -> (row, column) -> the formula of that cell

    def formula(self, parser, element, place, sharing):
        """The formula of a cell as the library has it, or the Shared one. sharing: those of the sheet by number.

        Stopped where a long one that is shared by many cells would fill the memory, written out for each.
        """
        inside = element.find(FORMULA_TAG)
        if inside.get("t") != "shared":
            found = parser.parse_formula(element)
            self.letters += len(found) if isinstance(found, str) else 0
        else:
            number = inside.get("si")
            if number not in sharing and inside.text:
                sharing[number] = Shared(f"={inside.text}", *place)
            found = sharing.get(number, "=")
            self.letters += len(found.text if isinstance(found, Shared) else found)
        if self.letters > FORMULAS:
            raise ValueError("formulas")
        return found

    def read_properties(self):
        """Nothing of them is an input; the same holds for custom properties and the theme."""

    read_custom = read_theme = read_properties

    def read_strings(self):
        part = self.package.find(SHARED_STRINGS)
        if part is not None:
            with self.archive.open(part.PartName[1:]) as stream:
                for _, element in iterparse(stream):
                    if element.tag == STRING:
                        self.shared_strings.append(_string(element))
                        element.clear()

    def sheets(self):
        """The sheets whose cells are wanted; None for all."""
        if self.names is None:
            return None
        defined = (one for one in self.parser.defined_names.definedName if one.name in self.names)
        return {sheet.replace("''", "'") for one in defined for sheet, _ in one.destinations}

    def read_worksheets(self):
        read, wanted = set(), self.sheets()
        for about, relation in self.parser.find_sheets():
            if relation.target in read or relation.target not in self.valid_files:
                raise ValueError(relation.target)
            read.add(relation.target)
            if wanted is not None and about.name not in wanted:
                self.wb.create_sheet(about.name)
                continue
            with self.archive.open(relation.target) as stream:
                made = self.wb.create_sheet(about.name)
                sheet = WorksheetReader(made, stream, self.shared_strings, self.data_only, False)
                sheet.parser.parse = lambda parser=sheet.parser, title=made.title: self.rows(parser, title)
                sheet.bind_cells()

    def rows(self, parser, title):
        """(row number, cells) of a sheet, and nothing else of it but its formulas, which are kept."""
        formulas, sharing = self.formulas.setdefault(title, {}), {}
        for _, element in iterparse(parser.source):
            if element.tag == ROW_TAG:
                number, cells = parser.parse_row(element)
                for inside, cell in zip(element, cells):
                    if cell["row"] > ROWS:  # no sheet has it; looked for, it takes all memory there is
                        raise ValueError(cell["row"])
                    if inside.find(FORMULA_TAG) is not None:
                        place = cell["row"], cell["column"]
                        formulas[place] = self.formula(parser, inside, place, sharing)
                    if isinstance(cell["value"], str) and len(cell["value"]) > MOST_LETTERS:
                        raise safe.refused(self.archive.fp.name, TOO_LONG.format(title, cell["row"]), SHORTEN)
                yield number, cells
                parser.row_dimensions.clear()
            if element.tag not in INSIDE_ROWS:
                element.clear()


@functools.cache
def _sound():
    """A workbook as the library itself writes it: a text, a number, a formula and a name."""
    book, stream = Workbook(), io.BytesIO()
    for row in ("text", 1.5, "=A2+1"):
        book.active.append([row])
    book.defined_names["name"] = DefinedName("name", attr_text="Sheet!$A$1")
    book.save(stream)
    return safe.Verified(stream.getvalue(), "a sound workbook")


def loaded(source, names=None):
    """The library's workbook with the values of its cells, and its Formulas. source: as `safe.opened` takes it; names:
    the defined names whose sheets are read, where other sheets may stay blank.

    What the library stumbles over in a file is a fault of the file; but where it stumbles over a sound one too, this
    module uses something that the library no longer has, and its own error is told.
    """
    verified = safe.opened(source)
    try:
        return _read(verified, names)
    except BENT:
        _read(_sound())
        raise safe.refused(verified.name, "it is damaged", safe.AGAIN) from None


def _read(verified, names=None):
    reader = _CellsOnly(verified, keep_links=False, data_only=True)
    reader.names = names
    reader.archive = _Parts(verified)
    with warnings.catch_warnings(), contextlib.redirect_stdout(io.StringIO()):  # it prints of styles that are not there
        warnings.simplefilter("ignore")  # it warns of parts it would drop on saving; nothing is saved
        reader.read()
    return reader.wb, Formulas(reader.wb, reader.formulas)
