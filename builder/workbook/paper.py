"""How the sheets print: explicit paper, titles on every page, page x of y, letters no smaller than can be read."""

from itertools import accumulate
from math import ceil

from builder.records.kinds import KINDS
from builder.sheets.grammar import COLUMNS, ROWS
from builder.stages.sheet_list import SHEETS
from builder.workbook.layout import HEAD
from builder.workbook.palette import ROW_HEIGHT

PAPERS = {"letter": 1, "a4": 9}
INNER = {"letter": (720, 518), "a4": (770, 502)}  # points within the margins of a sheet on its side, across and down
# lines of 15 points down the 9.7 inches that letter paper leaves, at 60 %: 9.7 * 72 / 15 / 0.6
LOWEST = 77
LOW = 830  # points of rows down the 7 inches of a sheet of A4 on its side, at 60 %
TITLED = 3  # rows of a sheet's title
READ = ("Schedule",)  # of the sheets with entries, those that are read though nothing is typed
FEW = {"Checks": 32}  # the last row of a blank book's: what calls for somebody stands first, and is seldom more
SPARE = 5  # rows printed below what stands on a sheet
NOWHERE = ROWS - 1, COLUMNS - 1  # a cell that holds nothing
READABLE = 200  # characters across ten inches at 60 %, the smallest that is read without a glass


def set_up(sheet, paper, repeated=HEAD):
    """What all sheets have alike; repeated: rows that stand on each page."""
    sheet.set_paper(PAPERS[paper])
    sheet.set_landscape()
    sheet.set_margins(left=0.5, right=0.5, top=0.6, bottom=0.7)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0, repeated - 1)
    sheet.set_footer("&L&A&C&F&RPage &P of &N")


def _filled(cell):
    """Whether something is read in a cell of the writing library."""
    return hasattr(cell, "number") or hasattr(cell, "string") or getattr(cell, "value", "") not in ("", None)


def bottom(writer, sheet, last):
    """The last row that is printed, zero-based: of a book built of a job some rows below what stands there; of a blank
    one all, since nobody knows what will.
    """
    if not any(row.filled for kind in ("takeoff", "rooms") for row in writer.estimate.rows[kind]):
        return min(last, FEW.get(sheet.name, last))
    return min(last, SPARE + max(row for row, cells in sheet.table.items() if any(map(_filled, cells.values()))))


def height(sheet, first, last):
    """Points of rows, zero-based."""
    return sum(sheet.fitted.get(row, ROW_HEIGHT) for row in range(first, last + 1))


def areas(writer, shown):
    """`shown`: sheet -> the widths of its columns in sight. A wide working prints the columns that fit one page, and
    its results stand first; a wide sheet of entries prints whole, page beside page, its first column on each.
    """
    for about in SHEETS:
        sheet, widths = writer.sheets[about.title], shown.get(about.title)
        if not widths:
            continue
        last = len(widths) - 1
        if about.group in ("read", "working"):
            last = sum(total <= READABLE for total in accumulate(widths)) - 1
            wide = 1
        else:
            wide = ceil(sum(widths) / READABLE)
            if wide > 1:
                sheet.repeat_columns(0)
        rows = bottom(writer, sheet, sheet.dim_rowmax)
        sheet.fit_to_pages(wide, 1 if height(sheet, 0, rows) <= LOW else 0)
        sheet.print_area(0, 0, rows, last)


def _unused(writer, title):
    """Whether nothing is typed on a sheet of entries, though others of the book are in use."""
    if title in READ:
        return False
    rows = [row for kind in KINDS.values() if kind.sheet == title for row in writer.estimate.rows[kind.key]]
    return bool(rows and writer.estimate.rows["price"][0].live and not any(row.filled for row in rows))


def unprinted(writer):
    """The book printed whole is what is read and entered: no workings, which LibreOffice would print though they are
    hidden, and no catalogs, whose files the office has.
    """
    for about in SHEETS:
        if about.group == "keep" or about.title not in writer.shown or _unused(writer, about.title):
            writer.sheets[about.title].print_area(*NOWHERE, *NOWHERE)
