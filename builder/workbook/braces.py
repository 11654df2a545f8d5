"""What braces mean in a formula: a word of the grammar -> a cell of this record or a name of the book (Layout)."""

import re

from xlsxwriter.utility import xl_col_to_name as letters

_BRACES = re.compile(r"\{([^{}]+)\}")
ROW, COLUMN = "§", "¤"  # in a template: this record's row (table) or column (card)
UP, DOWN = "↑", "↓"  # behind ROW: a row higher or lower in the same strip, a mark a row
_LINE = re.compile(f"{ROW}({UP}*)({DOWN}*)")


class Scope:
    """What braces mean in the formula of one copy of one column."""

    def __init__(self, layout, block, column, copy):
        self.layout, self.block, self.column, self.copy = layout, block, column, copy

    def resolve(self, text):
        return _BRACES.sub(lambda match: self._refer(match[1]), text)

    def whole(self, key, index):
        """All cells of a column of its own block."""
        place = self._own_place(key)
        first, last = (f"${letters(place.col + index)}${row}" for row in (place.row, place.row + place.rows - 1))
        return f"{first}:{last}"

    def row_number(self):
        """The number of this record's row, counted up from a cell far below, on the blank column to the right of the
        table.
        """
        own = [self.layout.places[self.block.key, column.key] for column in self.block.columns]
        blank, first, last = (
            letters(max(place.col + place.cols for place in own)),
            own[0].row,
            self.layout.foot(self.block.key),
        )
        return f"(ROW()+ROWS(${blank}${first}:${blank}${last})-ROW(${blank}${last}))"

    def _own_place(self, key):
        place = self.layout.places[self.block.key, key]
        if place.sheet != self.block.sheet:
            raise ValueError(f"{self.block.key}.{key} is not on the sheet {self.block.sheet}: name it through a link")
        return place

    def own(self, key, index=0, head=False):
        """This record's cell in a column of its own block, or that column's header."""
        place = self._own_place(key)
        if head:
            row = place.row - 1 if self.block.form in ("list", "strip") else self.layout.head(self.block)
            return f"${letters(place.col + index)}${row}"
        if self.block.form == "card":
            return f"{COLUMN}${place.row}"
        if self.block.form == "strip":
            lower = place.row - self.layout.places[self.block.key, self.column.key].row
            return f"${letters(place.col)}{ROW}{(DOWN if lower > 0 else UP) * abs(lower)}"
        if self.block.form in ("upright", "page"):
            return f"${letters(place.col)}${place.row}"
        return f"${letters(place.col + index)}{ROW}"

    def _above(self, text):
        """The cell above this record's in a column of its own table."""
        key, _, index = self._split(text)
        if self.block.form != "table":
            raise ValueError(f"{self.block.key}.{self.column.key}: only a table has a row above, {{{text}^}}")
        return f"{self.own(key, index)}{UP}"

    def _number(self):
        """The cell above this copy that holds its number."""
        place = self.layout.places[self.block.key, self.column.key]
        return f"${letters(place.col + self.copy)}${self.layout.numbers(self.block)}"

    def _split(self, text):
        """'key', 'key@', 'key@2', 'key@other' -> the key, the number of a copy as formula text (or None), and as an
        index.
        """
        key, at, which = text.partition("@")
        if not at:
            return key, None, 0
        if not which:
            return key, self._number(), self.copy
        return (key, which, int(which) - 1) if which.isdigit() else (key, self.own(which), 0)

    def _refer(self, text):
        if text == "@":
            return self._number()
        if "." in text:
            return self._elsewhere(*text.split("."))
        if text == "^":
            return self.row_number()
        if text[-1] == "^":
            return self._above(text[:-1])
        if text[0] == "*":
            key, _, index = self._split(text[1:])
            return self.whole(key, index)
        head = text.startswith("#")
        ends = (self._split(end) for end in text.lstrip("#").split(":"))
        return ":".join(self.own(key, index, head) for key, _, index in ends)

    def _elsewhere(self, word, text):
        link = self.block.links.get(word)
        if (
            link is None
            and text.removeprefix("more_") in ("head", "all", "around")
            and (word, text) not in self.layout.places
        ):
            return f"{word}_{text}"
        key, number, _ = self._split(text)
        target = link.block if link else word
        if not link and (target, key) in self.layout.runs:
            return f"{target}_{key}"
        if (target, key) not in self.layout.places:
            raise ValueError(f"{self.block.key}.{self.column.key}: no column {{{word}.{text}}}")
        name, place = f"{target}_{key}", self.layout.places[target, key]
        if place.block.form == "strip":
            raise ValueError(
                f"{self.block.key}.{self.column.key}: {{{word}.{text}}} stands on a strip, which has no names"
            )
        self.layout.used.add(name)
        in_a_row = place.rows == 1 and place.cols > 1
        if link:
            record = f"1,{self.resolve(link.number)}" if in_a_row else self.resolve(link.number)
            return f"INDEX({name},{record}{',' + number if number else ''})"
        if number and not in_a_row:
            raise ValueError(
                f"{self.block.key}.{self.column.key}: a whole copy, {{{word}.{text}}}, is looked at on its own sheet"
            )
        return f"INDEX({name},1,{number})" if number else name


def at_record(template, row, col):
    """The template in the cell of one record."""
    return _LINE.sub(lambda match: str(row - len(match[1]) + len(match[2])), template).replace(COLUMN, letters(col))
