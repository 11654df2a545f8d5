"""The columns of the tables: how wide, how high their header, which stay in sight, which are folded away."""

import functools
from textwrap import wrap

from builder.sheets.grammar import heading
from builder.workbook.palette import FROZEN
from builder.workbook.paper import TITLED

# lines of a header at most; points of one; width of a bold letter, in characters of a column
LINES, LINE, BOLD = 3, 14.5, 1.08
WIDTHS = {"text": 18, "date": 12, "count": 8, "money": 13}
WIDE = {
    "says": 70,
    "replace": 44,
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
    "state": 11,
    "finding": 44,
    "because": 44,
    "answer_place": 24,
    "short": 14,
    "day": 8,
    "told": 9,
    **dict.fromkeys(("name", "system", "coating", "profile", "surface", "task"), 22),
    **dict.fromkeys(("fault", "source", "standard", "help"), 38),
}
# fmt: off
# characters, from the second column on: what matters of a sheet, to the words that say what to fix, within 1,200 pixels
SHEET_WIDTHS = {
    "Takeoff": (16, 16, 9, 9, 7, 9, 7, 9, 28, 14),
    "Rooms": (8, 8, 8, 6, 6, 9, 14, 14, 14, 8, 28),
    "Paint": (18, 13, 22, 14, 11, 14, 12, 28),
    "Tasks": (20, 16, 9, 9, 28, 9, 9, 7, 9, 8),
    "Kit": (18, 9, 9, 9, 9, 9, 30, 26),
    "Log": (12, 7, 9, 9, 7, 9, 9, 9, 40, 24),
    "Changes": (30, 20, 13, 13, 11, 12, 12, 12, 28),
    "Nozzles": (14, 25, 10, 6, 8, 12, 9, 23, 17),
    "Wear budget": (22, 8, 9, 7, 9, 9, 9, 18),
    "Checks": (38, 46, 21, 13),
    "Sources": (54, 14, 30, 32),
}
# fmt: on
_JUDGED = ("check_", "fault", "sound")
FOLDED = {
    "job": _JUDGED,
    "terms": _JUDGED,
    "weather": (*_JUDGED, "live", "air_c", "gamma"),
    "trials": ("against_",),
    "fit": ("orifice", "in_kit", "fitting", "smallest", "largest", "most", "kit_most", "pick_most", "next_most"),
    "purchases": ("middle_", "cost_", "rest", "larges", "case_cost"),
}


def folded(block, column):
    """A step that nobody reads but to check it: flags of single tests, tries of packs, rows found on other sheets."""
    return bool(column.formula) and (
        column.key.endswith("_at") or column.key.startswith(("bad_", *FOLDED.get(block.key, ())))
    )


def folded_fact(block, column):
    """The same among the facts below a person's entries: a row of its own."""
    return block.form == "upright" and block.entered and folded(block, column)


def width(column):
    """Width in characters of a table's column."""
    return WIDE.get(column.key) or (44 if column.key.startswith("bad_") else WIDTHS.get(column.quantity, 11))


@functools.cache
def header_lines(text, room):
    """Lines that a bold header takes in a column of so many characters."""
    return 1 if len(text) * BOLD <= room else len(wrap(text, int(room / BOLD)))


def _fits(text, room):
    """Whether a header takes no more than LINES; one that is too long for them however it breaks is not tried."""
    return len(text) <= LINES * int(room / BOLD) + LINES - 1 and header_lines(text, room) <= LINES


def tables(layout):
    """Sheet -> column from 0 -> (place, copy) of what stands in it, in one table above the other, from the left."""
    found = {}
    for place in layout.places.values():
        if place.block.form == "table":
            for copy in range(place.cols):
                found.setdefault(place.sheet, {}).setdefault(place.col + copy, []).append((place, copy))
    return {title: dict(sorted(columns.items())) for title, columns in found.items()}


def folded_on(layout):
    """The sheets with something folded away."""
    facts = {place.sheet for place in layout.places.values() if folded_fact(place.block, place.column)}
    steps = {title for title, columns in tables(layout).items() if any(map(_folds, columns.values()))}
    return [title for title in dict.fromkeys(place.sheet for place in layout.places.values()) if title in facts | steps]


def _folds(stack):
    """Whether a column is folded away: where all that stands in it may be."""
    return all(folded(place.block, place.column) for place, _ in stack)


def _fit(writer, sheet, place, copy, room):
    """Rows high enough for the words of a column."""
    for row in writer.estimate.rows[place.block.key][: place.rows]:
        text = place.column.label(row.no) if place.column.label else writer.cell_value(row, place.column, copy)
        if isinstance(text, str):
            sheet.fit(place.row - 2 + row.no, text, room - 1)


def _room(writer, title, col, stack):
    """The width of a column, in characters, so that no header above it takes more than LINES. The first is as wide as
    the state of the price above it.
    """
    own = (FROZEN, *SHEET_WIDTHS.get(title, ()))
    room = own[col] if col < len(own) else max(width(place.column) for place, _ in stack)
    texts = [heading(place.column, writer.units, copy) for place, copy in stack]
    while not all(_fits(text, room) for text in texts):
        room += 1
    return room


def _open_beside(writer, sheet, columns):
    """Cells to the right of a table of entries, up to where a wider one on the sheet ends."""
    for place, _ in columns[0]:
        if not place.block.entered:
            continue
        block = place.block
        end = max(col for col, stack in columns.items() if any(one.block is block for one, _ in stack))
        for row in range(place.row - 1, place.row - 1 + place.rows):
            for col in range(end + 1, max(columns) + 1):
                sheet.write_blank(row, col, None, writer.styles("open"))


def set_columns(writer):
    """Width, header height, folding and frozen columns of every table. Returns sheet -> the widths in sight, 0 where
    folded.
    """
    shown = {}
    for title, columns in tables(writer.layout).items():
        sheet, lines, after = writer.sheets[title], {}, False
        shown[title] = []
        for col, stack in columns.items():
            fold, room = _folds(stack), _room(writer, title, col, stack)
            for place, copy in stack:
                head = writer.layout.head(place.block)
                tall = header_lines(heading(place.column, writer.units, copy), room)
                lines[head] = max(lines.get(head, 1), tall)
                if place.column.quantity == "text" and not fold:
                    _fit(writer, sheet, place, copy, room)
            sheet.set_column(
                col, col, room, None, {"level": 1, "hidden": True} if fold else {"collapsed": True} if after else {}
            )
            shown[title].append(0 if fold else room)
            after = fold
        for head, tall in lines.items():
            sheet.set_row(head - 1, tall * LINE + 4)
        if any(place.block.entered for stack in columns.values() for place, _ in stack):
            # a row may be deleted where all its cells are open, those of a person's own beside the table too
            sheet.open_to_the_end(max(columns) + 1, writer.styles("open"))
            _open_beside(writer, sheet, columns)
        sheet.freeze_panes(min(lines) if len(lines) == 1 else TITLED, 1)  # no headers over rows of another table
    return shown
