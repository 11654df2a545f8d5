"""Edits that a person makes of the tables and pages of a book, as StarBasic lines; and what is in its tables afterwards.

ON_TABLES and ON_SHEETS hold every edit there is, by its words: what is done, and where; TOLD says what a look at the
book tells of it.
"""

from dataclasses import dataclass, field
from functools import partial

from builder.records import kinds
from builder.stages.sheet_list import FOR_PEOPLE

TABLES = tuple(kinds.TABLES.values())
PAGES = tuple(sorted(FOR_PEOPLE))
COPY, RENAMED = "{} (2)", "Our {}"  # what a copy of a sheet is called, and a sheet that was renamed


@dataclass(frozen=True)
class Edit:
    """One edit of one sheet of a book: the lines that make it; kind, rows: a table that it changes, and the rows that
    are there afterwards.
    """

    book: str
    sheet: str
    what: str
    lines: tuple
    kind: object = None
    rows: tuple = field(default=(), repr=False)

    @property
    def quiet(self):
        """Whether it leaves the price as it is, or changes it: nothing that stops it is told."""
        told = {*TOLD.get(self.what, ())}
        return told <= {"own sheet", "renamed"} and not self.what.startswith(("delete top", "delete middle", "paste"))

    def names(self):
        """What its sheet may be called afterwards, and a copy of it."""
        return self.sheet, COPY.format(self.sheet), RENAMED.format(self.sheet)


class Table:
    """A table of entries of a book, its rows counted from 0."""

    def __init__(self, book, kind):
        place = book.layout.places[kind.key, kind.fields[0].key]
        self.book, self.kind, self.title, self.room = book, kind, place.sheet, place.rows
        self.first = place.row - 1  # of the sheet, from 0
        self.rows = [{one.key: row.get(one.key) for one in kind.fields} for row in book.opened.values[kind.key]]
        self.filled = len(self.rows)
        self.sheet = f'sheets.getByName("{place.sheet}")'

    def at(self, where):
        """The row of a place in words."""
        places = {"top": 0, "middle": self.filled // 2, "last": self.filled - 1, "bottom": self.room - 1}
        return (places | {"blank": self.filled, "below": self.room})[where]

    def added(self):
        """A record like the first one that may stand beside it."""
        row = dict(self.rows[0])
        if self.kind.key == "nozzles":
            taken = {one["size"] for one in self.rows if one["family"] == row["family"]}
            row["size"] = next(size for size in ("523", "525", "529", "531") if size not in taken)
        elif self.kind.named:
            row[self.kind.named] = "Added" if self.kind.field_of[self.kind.named].required else None
        return row

    def typed(self, row, values):
        """Lines that type a record into a row."""
        for one in self.kind.fields:
            value = self.book.opened.units.to_cell(values.get(one.key), one.quantity)
            if value != "":
                cell = f"{self.sheet}.getCellByPosition({self._col(one.key)}, {self.first + row})"
                yield f'{cell}.setString("{value}")' if isinstance(value, str) else f"{cell}.setValue({value:.15g})"

    def _col(self, key):
        return self.book.layout.places[self.kind.key, key].col

    def spans(self):
        """(first, last) column of each run of columns in which something is entered: results may stand between them."""
        cols = [self._col(one.key) for one in self.kind.fields]
        cut = next((at for at in range(1, len(cols)) if cols[at] > cols[at - 1] + 1), len(cols))
        return [(part[0], part[-1]) for part in (cols[:cut], cols[cut:]) if part]

    def carried(self, how, row, to):
        """Lines that bring the entries of a row to another. how: moveRange or copyRange."""
        for left, right in self.spans():
            yield f"source = {self.area(left, row, right, row)}"
            target = f"{self.sheet}.getCellByPosition({left}, {self.first + to})"
            yield f"{self.sheet}.{how}({target}.CellAddress, source.RangeAddress)"

    def area(self, left, top, right, bottom):
        return f"{self.sheet}.getCellRangeByPosition({left}, {self.first + top}, {right}, {self.first + bottom})"

    def whole(self, top=0):
        """All its cells, results between them too."""
        spans = self.spans()
        return self.area(spans[0][0], top, spans[-1][1], self.room - 1)


def insert(where, table):
    at, added = table.at(where), table.added()
    lines = f"{table.sheet}.Rows.insertByIndex({table.first + at}, 1)", *table.typed(at, added)
    return lines, (*table.rows, added)


def delete(where, table):
    at = table.at(where)
    kept = [row for number, row in enumerate(table.rows) if number != at]
    return (f"{table.sheet}.Rows.removeByIndex({table.first + at}, 1)",), kept


def cut(where, to, table):
    return table.carried("moveRange", table.at(where), table.at(to)), table.rows


def paste(where, to, table):
    rows = table.rows[:]
    at = table.at(to)
    rows[at : at + 1] = [table.rows[table.at(where)]]
    return table.carried("copyRange", table.at(where), at), rows


def sort(table):
    return (f"SortDown({table.whole()})",), table.rows


def filtered(where, table):
    key, *_ = table.kind.fields
    shown = table.book.opened.units.to_cell(table.rows[table.at(where)][key.key], key.quantity)
    if isinstance(shown, str):
        return (f'ShowOnly({table.whole(-1)}, True, "{shown}", 0)',), table.rows
    return (f'ShowOnly({table.whole(-1)}, False, "", {shown:.15g})',), table.rows


def hide(where, table):
    return (f"{table.sheet}.Rows.getByIndex({table.first + table.at(where)}).IsVisible = False",), table.rows


def hide_column(table):
    (_, right), *_ = table.spans()
    return (f"{table.sheet}.Columns.getByIndex({right}).IsVisible = False",), table.rows


ON_TABLES = {
    "insert top": partial(insert, "top"),
    "insert middle": partial(insert, "middle"),
    "insert bottom": partial(insert, "bottom"),
    "insert below": partial(insert, "below"),
    "delete top": partial(delete, "top"),
    "delete middle": partial(delete, "middle"),
    "delete bottom": partial(delete, "bottom"),
    "cut top to blank": partial(cut, "top", "blank"),
    "cut middle to bottom": partial(cut, "middle", "bottom"),
    "cut last to bottom": partial(cut, "last", "bottom"),
    "cut top to below": partial(cut, "top", "below"),
    "paste middle over top": partial(paste, "middle", "top"),
    "paste top to blank": partial(paste, "top", "blank"),
    "paste top to below": partial(paste, "top", "below"),
    "sort": sort,
    "filter middle": partial(filtered, "middle"),
    "hide row top": partial(hide, "top"),
    "hide row middle": partial(hide, "middle"),
    "hide column": hide_column,
}
WANT_A_BLANK = ("cut top to blank", "cut middle to bottom", "cut last to bottom", "paste top to blank",
                "insert middle", "insert bottom")  # fmt: skip

# what is done -> the line that does it. sheet: of the book; row, middle: those with something in them.
ON_SHEETS = {
    "insert row on top": "{sheet}.Rows.insertByIndex(0, 1)",
    "insert row in the middle": "{sheet}.Rows.insertByIndex({middle}, 1)",
    "delete row in the middle": "{sheet}.Rows.removeByIndex({middle}, 1)",
    "hide row": "{sheet}.Rows.getByIndex({middle}).IsVisible = False",
    "hide column": "{sheet}.Columns.getByIndex(1).IsVisible = False",
    "hide sheet": "{sheet}.IsVisible = False",
    "copy sheet": 'sheets.copyByName("{title}", "{copy}", 1)',
    "rename sheet": '{sheet}.Name = "{renamed}"',
}
OF_ENTRIES = ("copy sheet", "rename sheet", "hide sheet")  # what is done to sheets with tables of entries

# what is done -> the kinds of finding of which one tells it; all else is not told: nothing that matters was changed
TOLD = {
    "insert top": ("row above",),
    "insert below": ("row below",),
    "cut top to below": ("row below",),
    "paste top to below": ("row below",),
    "delete row in the middle": ("fixed", "name"),
    "insert row in the middle": ("stale",),
    "copy sheet": ("own sheet",),
    "rename sheet": ("renamed",),
}
MAY_BE_TOLD = ("insert row in the middle",)  # a list of a page may count its rows, and then shows another line
STOPPED = ("row above", "row below")  # kinds that leave no price


def on_table(name, book, kind, what):
    """An edit of a table of entries."""
    table = Table(book, kind)
    lines, rows = ON_TABLES[what](table)
    return Edit(name, table.title, what, tuple(lines), kind, tuple(rows))


def on_sheet(name, book, title, what):
    """An edit of a sheet as a whole, or of a page."""
    rows = sorted({place.row - 1 for place in book.layout.places.values() if place.sheet == title})
    facts = {"title": title, "copy": COPY.format(title), "renamed": RENAMED.format(title)}
    line = ON_SHEETS[what].format(sheet=f'sheets.getByName("{title}")', middle=rows[len(rows) // 2], **facts)
    return Edit(name, title, what, (line,))


def table_edits(books, holds, each):
    """So many edits of every table, one kind of them after another. holds: key of a table -> a book with rows in it."""
    for number, kind in enumerate(TABLES):
        book = books[holds[kind.key]]
        full = len(book.opened.values[kind.key]) == book.layout.places[kind.key, kind.fields[0].key].rows
        can = [what for what in ON_TABLES if not (full and what in WANT_A_BLANK)]
        for step in range(each):
            yield on_table(holds[kind.key], book, kind, can[(each * number + step) % len(can)])


def sheet_edits(name, book, each):
    """So many edits of every page that people see, half as many of every sheet with tables of entries."""
    entered = {book.layout.places[kind.key, kind.fields[0].key].sheet for kind in TABLES}
    for number, title in enumerate(PAGES):
        can, times = (OF_ENTRIES, each // 2) if title in entered else (tuple(ON_SHEETS), each)
        for step in range(times):
            yield on_sheet(name, book, title, can[(times * number + step) % len(can)])


def packed(edits, most):
    """The edits in sittings of one book: at most so many, each of another sheet, and none that stops the price beside
    one that does not.
    """
    sittings = []
    for one in edits:
        likes = [
            sitting
            for sitting in sittings
            if len(sitting) < most
            and sitting[0].book == one.book
            and sitting[0].quiet == one.quiet
            and one.sheet not in [other.sheet for other in sitting]
        ]
        if likes:
            likes[0].append(one)
        else:
            sittings.append([one])
    return sittings
