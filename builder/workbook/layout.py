"""Where everything stands: keys -> cells and names, once. With `braces`, the only module that knows addresses."""

import hashlib

from xlsxwriter.utility import xl_col_to_name as letters

from builder.sheets.grammar import COLUMNS, GAP, ROWS
from builder.workbook.braces import ROW, Scope

# header row of a sheet's first table; records follow, the number of each copy of a repeated column stands above
HEAD = 4
# blocks each of whose facts has a name, called for or not
NAMED = ("price", "checks", "brief", "book", "issued")
BELOW = 200  # rows below a table of entries in which a stray one is noticed
QUOTED = '""'  # what a blank formula cell is equal to


def sheet_name(title):
    """The defined name by which a sheet is found again whatever it is called by then."""
    return f"sheet_{short(title)}"


def short(title):
    """The title of a sheet as part of a name."""
    return title.lower().replace(" ", "_")


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

    def worked(self):
        """Name -> the area of all that is worked out on a sheet, of every sheet that has formulas."""
        found = {block.sheet: [] for block in self.blocks}
        for place in self.places.values():
            if place.column.formula:
                found[place.sheet].append(place)
        for sheet, own in found.items():
            if own:
                first, last = min(place.col for place in own), max(place.col + place.cols - 1 for place in own)
                top, end = min(place.row for place in own), max(place.line(place.rows - 1) for place in own)
                yield f"worked_{short(sheet)}", f"='{sheet}'!${letters(first)}${top}:${letters(last)}${end}"

    def names(self):
        """The defined names, and what each points at: sheets, inputs, results, the book's facts, and what formulas call
        for.
        """
        for sheet in dict.fromkeys(block.sheet for block in self.blocks):
            yield sheet_name(sheet), f"='{sheet}'!$A$1"
        yield from self.worked()
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
        scope = Scope(self, block, column, copy)
        text = scope.resolve(column.formula)
        text = text.replace(ROW, f"${ROW}") if column.pinned else text
        when = block.when if column.when is None else column.when
        key, _, nothing = (when or "").partition("=")
        return f'=IF({scope.own(key)}={nothing or QUOTED},"",{text})' if key else f"={text}"
