"""Where everything stands: keys -> cells and names, once. The only module that knows addresses."""

import hashlib
import re

from xlsxwriter.utility import xl_col_to_name as letters

from builder.sheets.grammar import COLUMNS, GAP, ROWS

# header row of a sheet's first table; records follow, the number of each copy of a repeated column stands above
HEAD = 4
# blocks each of whose facts has a name, called for or not
NAMED = ("price", "checks", "brief", "book", "issued")
BELOW = 200  # rows below a table of entries in which a stray one is noticed
QUOTED = '""'  # what a blank formula cell is equal to
_BRACES = re.compile(r"\{([^{}]+)\}")
ROW, COLUMN = "§", "¤"  # in a template: this record's row (table) or column (card)
UP, DOWN = "↑", "↓"  # behind ROW: a row higher or lower in the same strip, a mark a row
_LINE = re.compile(f"{ROW}({UP}*)({DOWN}*)")


def sheet_name(title):
    """The defined name by which a sheet is found again whatever it is called by then."""
    return "sheet_" + title.lower().replace(" ", "_")


class Place:
    """One column (fact, field) of one block: where its first cell is and how far it runs."""

    def __init__(self, block, column, sheet, row, col, rows, cols):
        self.block, self.column = block, column
        self.sheet, self.row, self.col, self.rows, self.cols = sheet, row, col, rows, cols

    def line(self, record):
        """The row of a record, counted from 0, of those that run down."""
        block = self.block
        return self.row + record * block.pitch + (record // block.each * block.gap if block.each else 0)

    @property
    def address(self):
        first, last = (
            f"${letters(self.col)}${self.row}",
            f"${letters(self.col + self.cols - 1)}${self.row + self.rows - 1}",
        )
        return f"='{self.sheet}'!{first}" + (f":{last}" if first != last else "")


def beside(block, column):
    """What stands beside the cells of a card's column, or of a fact: what it is -> its column of the sheet, from 0."""
    if block.form == "card":
        return {"label": 0}
    if block.form == "upright" and block.sheet == "Schedule" and block.place == 2:
        return {"label": 1, "unit": 3}  # its first column is that of the calendar
    if block.form != "upright" or block.place != 1:
        return {}
    unit = {"Check counts": {}, "Limits": {"unit": 3}}.get(block.sheet, {"unit": 2})
    return {"label": 0, **unit, **({"help": 3} if column.field else {})}


class Layout:
    def __init__(self, blocks, capacity):
        self.blocks = blocks
        self.capacity = capacity
        self.keys = {block.key for block in blocks}
        self.places = {}  # (block key, column key) -> Place
        # (block key, column key, copy) -> formula; made once all places are known
        self.templates = {}
        self.tops = {}  # (key, sheet) of a table -> the row of its first record
        self.used = set()  # names that a formula has called for
        # block key -> (first, last) Place of its inputs, for `head`, `all` and `around`
        self.inputs = {}
        self.aside = {}  # the same of those to the right of its results, for `more_head`, `more_all`, `more_around`
        self.runs = {}  # (block key, name) of a run -> the keys of its first and last column
        free = {}  # sheet -> next free column, for tables
        for block in blocks:
            place = {
                "table": self._table,
                "list": self._list,
                "strip": self._strip,
                "card": self._card,
                "upright": self._upright,
                "page": self._upright,
            }[block.form]
            place(block, free)
            if hidden := block.links.keys() & self.keys:
                raise ValueError(f"{block.key}: the link '{min(hidden)}' hides the block of that name")
        self._each_cell_once()

    def _runs(self):
        """((sheet, column), first row, last row, what) of each run of cells downwards, headers and words
        beside it too.
        """
        for (key, word), place in self.places.items():
            block, column, sheet, last = place.block, place.column, place.sheet, place.line(place.rows - 1)
            first, right = self._from(place), place.col + place.cols - 1
            if right >= COLUMNS or (self.foot(key) if key in self.inputs else last) > ROWS:
                raise ValueError(f"{key}.{word} ends in {letters(right)}{last}: the sheet {sheet} has no such cell")
            if block.form == "strip":
                lines = map(place.line, range(place.rows))
                yield from (((sheet, place.col), line, line, f"{key}.{word}") for line in lines)
                continue
            yield from (((sheet, col), first, last, f"{key}.{word}") for col in range(place.col, right + 1))
            for what, col in beside(block, column).items():
                yield (sheet, col), first, last, f"the {what} of {key}.{word}"

    def _from(self, place):
        """The first row of a column with what stands above it."""
        if place.block.form == "table":
            return self.numbers(place.block) if place.column.repeat else self.head(place.block)
        return place.row - 1 if place.block.form == "list" else place.row

    def _each_cell_once(self):
        """Refuses two things in one cell."""
        column, end, other = None, 0, ""
        for at, first, last, what in sorted(self._runs()):
            if at == column and first <= end:
                raise ValueError(f"{at[0]} {letters(at[1])}{first}: {what} would stand over {other}")
            column, end, other = at, last, what

    def _put(self, block, column, *where):
        key = block.key, column.key
        if key in self.places:
            raise ValueError(f"{block.key}.{column.key} stands twice")
        if column.view:
            self.used.add("_".join(column.view.split(".")))
        self.places[key] = Place(block, column, block.sheet, *where)

    def _table(self, block, free):
        rows = self.capacity[block.key]
        top = self._last(block.under, block.sheet) + GAP + 1 if block.under else block.top
        self.tops[block.key, block.sheet] = top
        for column in block.columns:
            col, width = free.get((block.sheet, top), 0), max(1, column.repeat)
            self._put(block, column, top, col, column.rows or rows, width)
            free[block.sheet, top] = col + width
        if block.entered:
            own = [self.places[block.key, column.key] for column in block.columns if column.field]
            cut = next((at for at in range(1, len(own)) if own[at].col > own[at - 1].col + 1), len(own))
            self.inputs[block.key] = own[0], own[cut - 1]
            if own[cut:]:
                self.aside[block.key] = own[cut], own[-1]

    def _list(self, block, free):
        for place, column in enumerate(block.columns):
            self._put(block, column, block.top, block.place + place, self.capacity[block.key], 1)

    def _strip(self, block, free):
        for column in block.columns:
            row, col = column.at
            self._put(block, column, block.top + row, block.place + col, self.capacity[block.key], 1)

    def _card(self, block, free):
        for place, column in enumerate(block.columns):
            self._put(block, column, block.top + place, 1, 1, self.capacity[block.key])

    def _upright(self, block, free):
        for place, column in enumerate(block.columns):
            row = self.places[block.key, column.beside].row if column.beside else block.top + place
            self._put(block, column, row, block.place, 1, 1)
        if block.run:
            self.runs[block.key, block.run] = block.columns[0].key, block.columns[-1].key

    def head(self, block):
        """The header row of a table."""
        return self.tops[block.key, block.sheet] - 1

    def numbers(self, block):
        """The row above it with the number of each copy of a repeated column."""
        return self.tops[block.key, block.sheet] - 2

    def _last(self, key, sheet):
        """The last row of a table."""
        return self.tops[key, sheet] + self.capacity[key] - 1

    def foot(self, block):
        """The last row beneath a table of entries in which a stray entry is noticed."""
        first, _ = self.inputs[block]
        below = GAP - 2 if any(other.under == block for other in self.blocks) else BELOW
        return first.row + first.rows - 1 + below

    def names(self):
        """The defined names, and what each points at: sheets, inputs, results, the book's facts, and what formulas call
        for.
        """
        for sheet in dict.fromkeys(block.sheet for block in self.blocks):
            yield sheet_name(sheet), f"='{sheet}'!$A$1"
        for (block, key), place in self.places.items():
            if place.column.field or block in NAMED and not place.column.beside or f"{block}_{key}" in self.used:
                yield f"{block}_{key}", place.address
        for (block, name), ends in self.runs.items():
            first, last = (self.places[block, key] for key in ends)
            area = f"${letters(first.col)}${first.row}:${letters(last.col)}${last.row}"
            yield f"{block}_{name}", f"='{first.sheet}'!{area}"
        spans = [*self.inputs.items(), *((f"{block}_more", span) for block, span in self.aside.items())]
        for block, (first, last) in spans:
            head, foot = self.head(first.block), self.foot(first.block.key)
            for name, top, rows in (
                ("head", head, 1),
                ("all", first.row, first.rows),
                ("around", head, foot - head + 1),
            ):
                yield (
                    f"{block}_{name}",
                    f"='{first.sheet}'!${letters(first.col)}${top}:${letters(last.col)}${top + rows - 1}",
                )

    def form(self, units):
        """A short digest of the units, of where everything stands and of every formula: books of one form can be
        compared cell by cell.
        """
        digest = hashlib.sha256(repr(units).encode())
        for key, place in self.places.items():
            digest.update(f"{key} {place.address} {place.column.title}".encode())
            if place.column.formula:
                digest.update(self.template(place.block, place.column).encode())
        return digest.hexdigest()[:12]

    def template(self, block, column, copy=0):
        """A column's formula as a spreadsheet reads it, with ROW or COLUMN where the record's own stands. Each is made
        once.
        """
        key = block.key, column.key, copy
        if key not in self.templates:
            self.templates[key] = self._template(block, column, copy)
        return self.templates[key]

    def _template(self, block, column, copy):
        scope = _Scope(self, block, column, copy)
        text = scope.resolve(column.formula)
        text = text.replace(ROW, f"${ROW}") if column.pinned else text
        when = block.when if column.when is None else column.when
        key, _, nothing = (when or "").partition("=")
        return f'=IF({scope.own(key)}={nothing or QUOTED},"",{text})' if key else f"={text}"


class _Scope:
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
