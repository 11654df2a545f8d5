"""What is used of other libraries beyond what they promise to keep: gone or changed, it fails here by name."""

import inspect
import io
import zipfile

import pytest
import xlsxwriter
from openpyxl import Workbook
from openpyxl.packaging.manifest import Manifest
from openpyxl.reader.excel import ExcelReader
from openpyxl.worksheet import _reader
from support.parcels import packed, parts
from xlsxwriter.format import Format
from xlsxwriter.sharedstrings import SharedStringTable
from xlsxwriter.worksheet import Worksheet

from builder.problems import Refused
from builder.returned import cells, safe

CELLS, SHARED = "workbook/cells.py", "workbook/shared.py"


def _reading():
    """A sound workbook as it is being read: the reader, and the reader of a sheet."""
    reader = ExcelReader(cells._sound())
    reader.read_manifest()
    reader.read_workbook()
    return reader, _reader.WorksheetReader(reader.wb.create_sheet("one"), io.BytesIO(), [], True, False)


def _written():
    """A sheet as it is being written."""
    return xlsxwriter.Workbook(io.BytesIO(), {"in_memory": True}).add_worksheet()


NAMES = (  # what, its names, where it is used
    (lambda: _reader, "FORMULA_TAG INLINE_STRING ROW_TAG VALUE_TAG WorksheetReader", CELLS),
    (lambda: ExcelReader, "read read_manifest read_workbook", CELLS),
    (lambda: ExcelReader, "read_properties read_custom read_theme read_strings read_worksheets", CELLS),  # overridden
    (lambda: _reading()[0], "archive data_only package parser shared_strings valid_files wb", CELLS),
    (lambda: _reading()[0].parser, "defined_names find_sheets", CELLS),
    (lambda: _reading()[0].parser.defined_names, "definedName", CELLS),
    (lambda: Manifest, "find", CELLS),
    (lambda: _reading()[1], "bind_cells parser", CELLS),
    (lambda: _reading()[1].parser, "parse parse_formula parse_row row_dimensions source", CELLS),
    (lambda: Workbook().active, "_cells", "review/standing.py"),
    (lambda: Worksheet, "_check_dimensions _write_cell _write_empty_row _write_row _write_rows _xml_end_tag", SHARED),
    (_written, "row_info str_table table", SHARED),
    (_written, "dim_rowmax", "workbook/paper.py"),
    (lambda: SharedStringTable(), "string_table", SHARED),
    (lambda: Format, "_get_xf_index", SHARED),
    (lambda: zipfile.ZipFile(io.BytesIO(), "w").open("part", "w"), "_compressor", "workbook/write.py"),
)


ALONE = [pytest.param(what, name, where, id=name) for what, names, where in NAMES for name in names.split()]


@pytest.mark.parametrize("what, name, where", ALONE)
def test_a_name_that_a_library_does_not_promise_is_still_there(what, name, where):
    thing = what()
    assert hasattr(thing, name), f"{thing!r} has no {name} any more, which builder/{where} uses"


@pytest.mark.parametrize(
    "method, arguments",
    [
        (Worksheet._write_row, "self row spans row_properties empty_row"),
        (Worksheet._write_cell, "self row col cell"),
        (Worksheet._write_rows, "self"),
        (_reader.WorksheetReader.bind_cells, "self"),
        (ExcelReader.read_worksheets, "self"),
    ],
    ids=lambda one: getattr(one, "__qualname__", ""),
)
def test_a_method_that_is_called_or_replaced_takes_what_it_took(method, arguments):
    now = inspect.signature(method)
    assert len(now.parameters) == len(arguments.split()), f"{method.__qualname__}{now}"


@pytest.mark.slow
@pytest.mark.parametrize(
    "where, name",
    [
        (_reader.WorksheetReader, "bind_cells"),
        (ExcelReader, "read_workbook"),
        (_reader.WorkSheetParser, "parse_row"),
        (_reader.WorkSheetParser, "parse_formula"),
        (Manifest, "find"),
    ],
)
def test_a_library_that_lost_a_name_is_not_told_as_a_damaged_book(books, monkeypatch, where, name):
    monkeypatch.delattr(where, name)
    with pytest.raises(AttributeError, match=name):
        cells.loaded(books["blank"].path)


def test_a_library_that_takes_other_arguments_is_not_told_as_a_damaged_book(books, monkeypatch):
    monkeypatch.setattr(cells, "WorksheetReader", lambda sheet, stream: None)
    with pytest.raises(TypeError, match="arguments"):
        cells.loaded(books["blank"].path)


def test_the_sound_book_is_sound_and_has_all_that_is_read():
    book, formulas = cells.loaded(cells._sound())
    values = [row[0].value for row in book.active.iter_rows(max_col=1)]
    assert values == ["text", 1.5, None] and "name" in book.defined_names
    assert [formulas[book.active.title][f"A{row}"].value for row in (1, 2, 3)] == ["text", 1.5, "=A2+1"]


@pytest.mark.parametrize("bend", [(b'<sz val="', b'<sz val="x'), (b'Normal" xfId="0"', b'Normal" xfId="9"')])
def test_what_bends_the_library_is_a_fault_of_the_file(books, bend, capsys):
    """A book that it cannot read, while it can read a sound one."""
    contents = parts(books["blank"].data)
    assert bend[0] in contents["xl/styles.xml"]
    contents["xl/styles.xml"] = contents["xl/styles.xml"].replace(*bend, 1)
    with pytest.raises(Refused, match="it is damaged"):
        cells.loaded(safe.Verified(packed(contents), "bent"))
    assert capsys.readouterr() == ("", "")
