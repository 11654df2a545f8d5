"""Sheets that people read: how what stands on Nozzles, Wear budget, Trace and Crew card looks, and on what paper."""

from builder.stages import strips
from builder.stages import trace as lines
from builder.stages.paging import EACH, HEADINGS, NOTES, PAGE, PITCH
from builder.stages.path import FIGURES
from builder.workbook import paper, reading
from builder.workbook.shared import LINE

BOLD = ("nozzle", "buy", "gauge")  # of a list, what is looked for first
UNPRINTED = "no coat stood here when this book was made: set the print area anew before you print one"
CARD_WIDTHS = (14, 18, 18, 18, 19, 17)  # characters
TRACE_WIDTHS = (14, 12, 9, 70, 28)
# points: title, work, label, figure, note, four lines, the gap
STRIP_HEIGHTS = (21, 15, 13, 29, 35, 13, 13, 13, 13, 7)
NOTE_HEIGHT, CARD_SCALE = 11.5, 74
CHARTED = 28  # rows of sizes beside which the charts stand


def _list(column):
    return "row_first" if column.key in BOLD else "row"


def _sums(column):
    return "line" if column.key == "says" else "lined_sum"


def _trace(column):
    plain = "lined" if column.key.startswith("how_") else "lined_first"
    return "lined_sum" if column.key.removeprefix("how_") in lines.MAIN else plain


def _strip(column):
    row, col = column.at
    looks = {strips.TITLE: "strip_title", strips.WORK: "strip_work", strips.LABEL: "strip_label",
             strips.FIGURE: "strip_figure", strips.NOTE: "strip_note"}  # fmt: skip
    return looks.get(row, "strip_line") + ("_beside" if col else "")


def _note(column):
    return "strip_heading" if NOTES[column.at[0]] in HEADINGS else "strip_small"


# block -> the role of each of its columns
LOOKS = {
    "calendar": lambda column: {"name": "mark_name", "day": "mark"}.get(column.key, "row"),
    "pick_list": _list,
    "size_list": _list,
    "wear_list": _list,
    "wear_total": _sums,
    "trace": _trace,
    "chosen": lambda column: "line",
    "traced": lambda column: "section",
    "card_page": lambda column: "section",
    "card_strip": _strip,
    "card_note": _note,
}


def nozzles(writer):
    """What to choose is said before the cell in which it is chosen; picks that are still to come have room for their
    words.
    """
    sheet, place = writer.sheets["Nozzles"], writer.layout.places["chosen", "coat"]
    sheet.write_string(place.row - 1, place.col - 1, "choose a coat:", writer.styles("quiet"))
    sheet.set_portrait()
    sheet.set_h_pagebreaks([place.row - 2])  # the sizes and their charts stand on a page of their own
    picks = writer.layout.places["pick_list", "part"]
    if not any(row.part for row in writer.estimate.rows["pick_list"]):
        for row in range(picks.row - 1, picks.row + picks.rows - 1):
            sheet.set_row(row, 2 * LINE)
    for key in ("pick_list", "size_list"):
        _ruled(writer, key)
    sheet.print_area(0, 0, _end_of_sizes(writer, sheet, place.row), writer.layout.places["pick_list", "change"].col)


def _end_of_sizes(writer, sheet, choice):
    """The last row of Nozzles that is printed, zero-based: the sizes and the charts beside them whole, or only the
    picks above where the chosen coat is not sprayed. choice: the row where it is chosen, from 1.
    """
    sizes = writer.layout.places["size_list", "nozzle"]
    if any(row.nozzle for row in writer.estimate.rows["size_list"]):
        return max(paper.bottom(writer, sheet, sizes.row + sizes.rows - 2), sizes.row + CHARTED)
    picked = any(row.part for row in writer.estimate.rows["pick_list"])
    return choice - 3 if picked else sizes.row + sizes.rows - 2


def _ruled(writer, key):
    """A line under each row of a list that is used; nothing shows where none is."""
    places = [place for (block, _), place in writer.layout.places.items() if block == key]
    first, last = places[0], places[-1]
    area = first.row - 1, first.col, first.row + first.rows - 2, last.col
    reading.call(writer, writer.sheets[first.sheet], area, ("line", f'$A{first.row}<>""'))


def wear_budget(writer):
    """What is printed, and lines under the rows in use."""
    _ruled(writer, "wear_list")
    first = writer.layout.places["wear_list", "nozzle"]
    sheet, last = writer.sheets["Wear budget"], first.row + first.rows - 2
    sheet.print_area(0, 0, paper.bottom(writer, sheet, last), writer.layout.places["wear_list", "change"].col)


def trace(writer):
    """What does not change: headers, what each line is, its unit and where it comes from."""
    sheet, styles, units = writer.sheets["Trace"], writer.styles, writer.units
    for col, width in enumerate(TRACE_WIDTHS):
        sheet.set_column(col, col, width)
    sheet.set_row(lines.CHOICE - 1, 24)
    sheet.write_string(lines.CHOICE - 1, 0, "Choose a coat:", styles("read"))
    for col, text in enumerate(("What", "Figure", "Unit", "How", "From")):
        sheet.write_string(lines.TOP - 2, col, text, styles(("head_first", "head_number", "head")[min(col, 2)]))
    for row, (key, what, source) in enumerate(lines.LINES, start=lines.TOP - 1):
        words, quantity = what or f"1 {units.shown('volume')} covers", FIGURES[key][0]
        role = "lined_sum" if key in lines.MAIN else "lined"
        for col, text in ((0, words), (2, units.shown(quantity)), (4, source)):
            sheet.write_string(row, col, text, styles(role))
        sheet.set_row(row, 21)
    sheet.freeze_panes(lines.TOP - 1, 1)
    sheet.print_area(0, 0, lines.TOP + len(lines.LINES) - 2, len(TRACE_WIDTHS) - 1)


def crew_card(writer):
    """A strip a coat, so many on a sheet of paper; the job above and the cautions below them on each."""
    sheet, coats = writer.sheets["Crew card"], writer.layout.capacity["crew_card"]
    for col, width in enumerate(CARD_WIDTHS):
        sheet.set_column(col, col, width)
    sheet.set_row(strips.HEAD - 1, 20)
    last = len(CARD_WIDTHS) - 1
    for page in range(strips.pages(coats)):
        top = strips.TOP - 1 + page * PAGE
        for line in range(EACH * PITCH):
            sheet.set_row(top + line, STRIP_HEIGHTS[line % PITCH])
        for line in range(len(NOTES)):
            sheet.set_row(top + EACH * PITCH + line, NOTE_HEIGHT)
        for strip in range(top, top + EACH * PITCH, PITCH):
            reading.call(writer, sheet, (strip, 0, strip, last), ("begins_strip", f'$A${strip + 1}<>""'))
    used = sum(bool(row.coat_at) for row in writer.estimate.rows["crew_card"])
    printed = strips.pages(used or coats)  # of a blank book all sheets, since nobody knows how many coats come
    end = strips.TOP - 1 + printed * PAGE - 1
    sheet.print_area(strips.HEAD - 1, 0, end - 1, last)
    sheet.set_h_pagebreaks([strips.TOP - 1 + page * PAGE for page in range(1, printed)])
    if printed < strips.pages(coats):
        sheet.write_string(end, last + 1, UNPRINTED, writer.styles("quiet"))
    sheet.repeat_rows(strips.HEAD - 1)
    sheet.set_print_scale(CARD_SCALE)
    sheet.freeze_panes(strips.HEAD - 1, 0)
    sheet.set_footer(
        "&LAn injection is a surgical emergency. Relieve pressure, lock the trigger, guard on.&RPage &P of &N"
    )
