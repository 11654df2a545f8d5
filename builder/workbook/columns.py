"""The columns of the tables: how wide, how high their header, which stay in sight, which are folded away."""

import functools
from textwrap import wrap

from builder.sheets.grammar import heading
from builder.workbook.layout import HEAD

# lines of a header at most; points of one; width of a bold letter, in characters of a column
LINES, LINE, BOLD = 3, 13.5, 1.08
WIDTHS = {"text": 18, "date": 12, "count": 8, "money": 13}
WIDE = {
    "says": 70,
    "replace": 44,
    "advice": 30,
    "next_words": 34,
    "why": 24,
    "shown": 22,
    "what": 26,
    "nozzle": 14,
    "topic": 24,
    "reason": 34,
    "tag": 8,
    "shown_look": 14,
    "shown_fault": 28,
    "text": 110,
    "shape": 11,
    "access": 12,
    "note": 26,
    "scenario_name": 13,
    **dict.fromkeys(("name", "system", "coating", "profile", "surface", "task"), 22),
    **dict.fromkeys(("fault", "source", "standard", "help"), 38),
}
FROZEN = {
    "Nozzle check": 3,
    "Fit": 2,
    "Picks": 2,
    "Gallons": 2,
    "Purchases": 1,
    "Sizes": 2,
    "Hours": 2,
    "Film": 2,
    "Task hours": 2,
    "Areas": 2,
    # columns that stay in sight
    "Coatings": 1,
    "Surfaces": 1,
    "Pumps": 1,
    "Takeoff": 1,
    "Coats": 2,
    "Systems": 1,
    "Task rates": 1,
    "Crews": 1,
}
FOLDED = {
    "trials": ("not_",),
    "picks": ("told_", "next_tenths"),
    "fit": ("orifice", "score", "others", "fitting", "smallest", "largest"),
    "purchases": ("middle_", "cost_", "rest", "larges", "case_cost"),
}


def folded(block, column):
    """A step that nobody reads but to check it: flags of single tests, tries of packs, rows found on other sheets."""
    return bool(column.formula) and (
        column.key.endswith("_at") or column.key.startswith(("bad_", *FOLDED.get(block.key, ())))
    )


def width(column):
    """Width in characters of a table's column."""
    return WIDE.get(column.key) or (44 if column.key.startswith("bad_") else WIDTHS.get(column.quantity, 11))


@functools.cache
def header_lines(text, room):
    """Lines that a bold header takes in a column of so many characters."""
    return 1 if len(text) * BOLD <= room else len(wrap(text, int(room / BOLD)))


def tables(layout):
    """Sheet -> (column from 0, place, copy) of every column of its tables, from the left."""
    found = {}
    for place in layout.places.values():
        if place.block.form == "table":
            found.setdefault(place.sheet, []).extend((place.col + copy, place, copy) for copy in range(place.cols))
    return {title: sorted(columns, key=lambda one: one[0]) for title, columns in found.items()}


def folded_on(layout):
    """The sheets with something folded away."""
    return [
        title
        for title, columns in tables(layout).items()
        if any(folded(place.block, place.column) for _, place, _ in columns)
    ]


def _fit(writer, sheet, place, copy, room):
    """Rows high enough for the words of a column."""
    for row in writer.estimate.rows[place.block.key][: place.rows]:
        text = place.column.label(row.no) if place.column.label else writer.cell_value(row, place.column, copy)
        if isinstance(text, str):
            sheet.fit(place.row - 2 + row.no, text, room - 1)


def set_columns(writer):
    """Width, header height, folding and frozen columns of every table. Returns sheet -> the widths in sight, 0 where
    folded.
    """
    shown = {}
    for title, columns in tables(writer.layout).items():
        sheet, lines, after = writer.sheets[title], 1, False
        shown[title] = []
        for col, place, copy in columns:
            fold, text, room = (
                folded(place.block, place.column),
                heading(place.column, writer.units, copy),
                width(place.column),
            )
            while header_lines(text, room) > LINES:
                room += 1
            lines = max(lines, header_lines(text, room))
            sheet.set_column(
                col, col, room, None, {"level": 1, "hidden": True} if fold else {"collapsed": True} if after else {}
            )
            shown[title].append(0 if fold else room)
            if place.column.quantity == "text" and not fold:
                _fit(writer, sheet, place, copy, room)
            after = fold
        sheet.set_row(HEAD - 1, lines * LINE + 4)
        sheet.freeze_panes(HEAD, FROZEN.get(title, 0))
    return shown
