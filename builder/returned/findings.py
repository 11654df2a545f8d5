"""What a look at a returned workbook found, in words a contractor understands."""

from dataclasses import asdict, dataclass, field

from openpyxl.utils.cell import get_column_letter


def span(left: int, top: int, right: int | None = None, bottom: int | None = None) -> str:
    """'B3', or 'B3:D7' where the last column and row are others; columns and rows from 1."""
    first, last = (f"{get_column_letter(col)}{row}" for col, row in ((left, top), (right or left, bottom or top)))
    return first if first == last else f"{first}:{last}"


@dataclass(frozen=True)
class Finding:
    """One thing found. kind: a word for programs; sheet and cell: where, '' for the book as a whole; cause: what it has
    in common with others that are told with it, wherever they stand.
    """

    kind: str
    sheet: str
    cell: str
    message: str
    hint: str = ""
    cause: str = field(default="", compare=False, repr=False)

    def __str__(self) -> str:
        place = f"{self.sheet} {self.cell}".strip()
        return (f"{place}: " if place else "") + self.message + (f" ({self.hint})" if self.hint else "")

    def as_dict(self) -> dict[str, str]:
        return {key: value for key, value in asdict(self).items() if key != "cause"}


@dataclass(frozen=True)
class Cell:
    """A place in a workbook, as `documents.Mark` is one in a file."""

    sheet: str
    cell: str

    def problem(self, message: str, hint: str = "", *, cause: str = "") -> Finding:
        return Finding("fault", self.sheet, self.cell, message, hint, cause)

    def seen_from(self, other: "Cell") -> str:
        """This place as it is named at another: 'B5', or 'Paint B5' on another sheet."""
        return self.cell if self.sheet == other.sheet else f"{self.sheet} {self.cell}"
