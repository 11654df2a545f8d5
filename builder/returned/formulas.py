"""The formulas of a workbook as they were read beside its values: one text for all cells that share it, written out for
a cell only where somebody asks.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from openpyxl import Workbook
from openpyxl.formula.tokenizer import TokenizerError
from openpyxl.formula.translate import Translator
from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter


class Shared:
    """A formula that cells share. text: of its first cell, with '='; row, col: of that cell, counted from 1."""

    def __init__(self, text: str, row: int, col: int) -> None:
        self.text, self.row, self.col = text, row, col
        self._translator: Translator | None = None

    def at(self, row: int, col: int) -> str:
        """As it reads in another cell."""
        if (row, col) == (self.row, self.col):
            return self.text
        try:
            if self._translator is None:
                self._translator = Translator(self.text, f"{get_column_letter(self.col)}{self.row}")
            return str(self._translator.translate_formula(f"{get_column_letter(col)}{row}"))
        except (TokenizerError, ValueError, IndexError):  # no formula at all: as it stands
            return self.text


class Cell(NamedTuple):
    """What stands in a cell: its formula where it has one, else its value."""

    value: Any


class FormulaSheet:
    """A sheet whose cells show formulas instead of values."""

    def __init__(self, values: Any, formulas: Mapping[tuple[int, int], Any]) -> None:
        self._values, self._formulas = values, formulas
        self.title = str(values.title)

    def shared(self, row: int, col: int) -> Shared | None:
        """The formula that a cell shares with others, if it does."""
        found = self._formulas.get((row, col))
        return found if isinstance(found, Shared) else None

    def cell(self, row: int, col: int) -> Cell:
        """Row and column counted from 1."""
        found = self._formulas.get((row, col))
        if found is None:
            there = self._values._cells.get((row, col))  # asking the library for it would make it
            return Cell(there.value if there else None)
        return Cell(found.at(row, col) if isinstance(found, Shared) else found)

    def texts(self, shape: Callable[[str], str]) -> Iterator[tuple[tuple[int, int], str]]:
        """Row and column, and the text, of every cell that is not blank; of a formula its shape, worked out once for
        all cells of a column that share it.
        """
        shapes: dict[tuple[Shared, int], str] = {}
        for (row, col), cell in self._values._cells.items():
            shared = self.shared(row, col)
            if shared:
                if (shared, col) not in shapes:
                    shapes[shared, col] = shape(shared.at(row, col))
                yield (row, col), shapes[shared, col]
            elif (row, col) in self._formulas:
                found = self._formulas[row, col]
                yield (row, col), shape(str(getattr(found, "text", found)))
            elif cell.value is not None:
                yield (row, col), str(cell.value)

    def __getitem__(self, cell: str) -> Cell:
        return self.cell(*coordinate_to_tuple(cell))


class Formulas:
    """The sheets of a workbook with their formulas."""

    def __init__(self, book: Workbook, found: Mapping[str, Mapping[tuple[int, int], Any]]) -> None:
        self._sheets = {sheet.title: FormulaSheet(sheet, found.get(sheet.title, {})) for sheet in book.worksheets}

    def __getitem__(self, sheet: str) -> FormulaSheet:
        return self._sheets[sheet]
