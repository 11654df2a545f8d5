"""What every sheet has alike: its title, the state of the price and the price in its first column, what to do next,
and what a person may do to it though it is protected.
"""

from builder.stages.sheet_list import SHEETS
from builder.workbook import paper, printed
from builder.workbook.layout import HEAD
from builder.workbook.palette import ROW_HEIGHT, TITLE_HEIGHT
from builder.workbook.theme import GROUP_TABS

# (row, column) from 1 -> what stands there on every sheet, in the frozen rows and where no scroll cuts it
BANNER = {(2, 1): "=brief_state", (3, 1): "=brief_shown_price"}
NEXT = (3, 2), "=brief_next"  # beside the price, on the sheets that people read: the first thing to do
FINE = '($A$2="READY")+($A$2="SIGNED")'  # a state in which nothing calls for the eye
LISTED = ("table", "list")  # forms of what has headers
LONGEST = 7  # letters of a title in large type that fit it

# What the protection leaves open. Rows of tables of entries can be deleted, sorted and filtered too: all their cells
# are open, and what is typed over a result is refused by its validation.
OPEN = {"format_columns": True, "format_rows": True, "insert_rows": True, "insert_columns": True}
OPEN_TABLE = {**OPEN, "delete_rows": True, "sort": True, "autofilter": True}


def frame(writer):
    """Every sheet, in order."""
    first = next(sheet.title for sheet in SHEETS if sheet.title in writer.shown)
    cells = _first_cells(writer.layout)
    tables = {block.sheet for block in writer.layout.blocks if block.entered and block.form == "table"}
    for about in SHEETS:
        sheet = writer.sheets[about.title] = writer.book.add_worksheet(about.title)
        sheet.set_tab_color(GROUP_TABS[about.group])
        sheet.hide_gridlines(2)
        sheet.set_default_row(ROW_HEIGHT)
        sheet.set_row(0, TITLE_HEIGHT)
        if about.title not in writer.shown:
            sheet.hide()
        elif about.title == first:
            sheet.activate()
            sheet.set_first_sheet()
        sheet.write_string(0, 0, about.title, writer.styles("title" if len(about.title) <= LONGEST else "title_long"))
        sheet.write_string(1, 1, about.purpose, writer.styles("purpose"))
        _banner(writer, sheet, about)
        if about.title in cells:
            sheet.set_selection(*cells[about.title], *cells[about.title])
        sheet.protect("", OPEN_TABLE if about.title in tables else OPEN)
        if about.title in printed.PAGES:
            printed.set_up(sheet, writer.paper)
        else:
            paper.set_up(sheet, writer.paper, _repeated(writer.layout, about.title))


def _repeated(layout, title):
    """Rows that stand on each page: headers too, where all below them is theirs."""
    listed = [place for place in layout.places.values() if place.sheet == title and place.block.form in LISTED]
    return paper.TITLED if len({place.row for place in listed}) > 1 else HEAD


def _first_cells(layout):
    """Sheet -> (row, column), zero-based, of the first cell to type in: the sheet opens there."""
    cells = {}
    for place in layout.places.values():
        if place.column.field:
            cells.setdefault(place.sheet, (place.row - 1, place.col))
    return cells


def _banner(writer, sheet, about):
    said = writer.estimate.rows["brief"][0]
    values = {key: getattr(said, formula.removeprefix("=brief_")) or "" for key, formula in BANNER.items()}
    for (row, col), formula in BANNER.items():
        writer.formula(sheet, row - 1, col - 1, formula, writer.styles("banner"), values[row, col])
    if about.group != "working":
        (row, col), formula = NEXT
        writer.formula(sheet, row - 1, col - 1, formula, writer.styles("purpose"), said.next or "")
    for call, rule in (("ready", f"=({FINE})>0"), ("open", f"=({FINE})=0")):
        sheet.conditional_format(1, 0, 1, 0, {"type": "formula", "criteria": rule, "format": writer.styles.call(call)})
