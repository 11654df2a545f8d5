"""A worksheet that writes each column's formula once and lets the rows below share it.

A shared formula (ECMA-376 part 1, 18.3.1.40) may not name a cell of another sheet ([MS-XLS] 2.5.198.118),
so it is right for us: our formulas reach other sheets by defined names alone. It halves the file and
reads much faster.
"""

import functools
from collections import namedtuple

from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.utility import xl_rowcol_to_cell_fast as cell_name
from xlsxwriter.worksheet import Worksheet

from builder.sheets.grammar import COLUMNS
from builder.workbook.measured import lines

# start: what precedes the value. The library's charts read the values of cells of this name
Shared = namedtuple("Formula", "start value format")

LINE = 14.25  # points of a line of text
DIGITS = 10  # of a cached value: within 1e-9 of the model; a program that recalculates has them all

letters = functools.cache(xl_col_to_name)
CONTROLS = {code: f"_x{code:04X}_" for code in range(32) if chr(code) not in "\t\n"}  # ECMA-376 part 1, 22.9.2.19
_ESCAPES = {**str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"}), **CONTROLS}


class _Cells(dict):
    """The cells of one row, each of which is written once."""

    def __init__(self, sheet, row):
        super().__init__()
        self.sheet, self.row = sheet, row

    def __setitem__(self, col, cell):
        if col in self:
            place = f"{self.sheet.name} {cell_name(self.row, col)}"
            raise ValueError(f"{place}: {self._words(cell)} would stand over {self._words(self[col])}")
        super().__setitem__(col, cell)

    def _words(self, cell):
        """A cell's text, formula or number; shared strings are kept by their number."""
        texts = {number: text for text, number in self.sheet.str_table.string_table.items()}
        return repr(texts[cell.string]) if hasattr(cell, "string") else repr(cell[0])


class _Table(dict):
    """Row -> its cells, as the library keeps them."""

    def __init__(self, sheet):
        super().__init__()
        self.sheet = sheet

    def __missing__(self, row):
        self[row] = _Cells(self.sheet, row)
        return self[row]


class SharingSheet(Worksheet):
    """The library's worksheet with `write_shared`, in which no cell is written twice."""

    shared_count = 0
    open_from = None  # the column from which all to the last one are alike

    def __init__(self):
        super().__init__()
        self.table = _Table(self)
        self.fitted = {}  # row -> its height in points, which a program may fit anew

    def fit(self, row, text, room):
        """Make a row, zero-based, high enough for a text in a column of so many characters."""
        need = lines(text, room)
        if need > 1:
            self.fitted[row] = max(self.fitted.get(row, 0), need * LINE + 4)

    def open_to_the_end(self, first, style):
        """Every column from `first`, zero-based, has this style: one entry, where the library keeps one a column."""
        self.set_column(first, first, None, style)
        self.open_from = first

    def _write_col_info(self, first, last, about):
        super()._write_col_info(first, COLUMNS - 1 if first == self.open_from else last, about)

    def _write_row(self, row, spans, row_info=None, empty_row=False):
        if row not in self.fitted or row_info or empty_row:
            return super()._write_row(row, spans, row_info, empty_row)
        # no customHeight: it grows and shrinks with what is typed
        self.fh.write(f'<row r="{row + 1}" ht="{self.fitted[row]}">')

    def write_shared(self, row, col, formula, values, style, across=False):
        """A run of cells downwards, or across, from (row, col), zero-based: the first cell's formula, without '=', and
        each cell's cached value.
        """
        down, right = (0, 1) if across else (1, 0)
        last, last_col = row + down * (len(values) - 1), col + right * (len(values) - 1)
        self._check_dimensions(row, col)
        self._check_dimensions(last, last_col)
        group = f'<f t="shared" si="{self.shared_count}"'
        first = (
            f'{group[:-1]}" ref="{cell_name(row, col)}:{cell_name(last, last_col)}">{formula.translate(_ESCAPES)}</f>'
        )
        for place, value in enumerate(values):
            self.table[row + down * place][col + right * place] = Shared(
                first if place == 0 else f"{group}/>", value, style
            )
        self.shared_count += 1

    def _prepare_formula(self, formula, expand_future_functions=False):
        # the library would look for each of its functions newer than our dialect, formula by formula
        return formula.removeprefix("=")

    def _write_rows(self):
        """Each row's cells from the left. (The library looks at all columns of each row, and writes spans, a hint that
        no program needs.)
        """
        for row in sorted({*self.table, *self.row_info}):
            cells, about = self.table[row], self.row_info.get(row)
            if not cells:
                self._write_empty_row(row, None, about)
                continue
            self._write_row(row, None, about)
            for col in sorted(cells):
                self._write_cell(row, col, cells[col])
            self._xml_end_tag("row")

    def _write_cell(self, row, col, cell):
        if type(cell) is not Shared:
            return super()._write_cell(row, col, cell)
        value = cell.value
        text = isinstance(value, str)
        shown = value.translate(_ESCAPES) if text else f"{value:.{DIGITS}g}"
        self.fh.write(
            f'<c{TEXT if text else ""} s="{cell.format._get_xf_index()}" r="{letters(col)}{row + 1}">'
            f"{cell.start}<v>{shown}</v></c>"
        )


TEXT = ' t="str"'
