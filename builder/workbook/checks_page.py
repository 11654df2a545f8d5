"""The sheet Checks: what calls for the eye in it, and the ways to the sheets where things are fixed and answered."""

from xlsxwriter.utility import xl_col_to_name as letters

from builder.records.questions import STATES
from builder.stages.checks import STATED
from builder.stages.sheet_list import SHEETS
from builder.workbook import reading
from builder.workbook.layout import HEAD
from builder.workbook.shared import LINE

CALLING = STATES[:2]  # the states that call for the eye
TITLES = [about.title for about in SHEETS]
GAP = 2  # characters between the table and the links


def checks(writer):
    """Lines that wait for somebody are bold; apart from the table, a link to each sheet in sight that any of them may
    name, in the order of the tabs: none belongs to the row beside it.
    """
    sheet, places = writer.sheets["Checks"], writer.layout.places
    first, last = places["check_lines", "state"], places["check_lines", "short"]
    cell = f"${letters(first.col)}{first.row}"
    area = first.row - 1, first.col, first.row + first.rows - 2, last.col
    reading.call(writer, sheet, area, ("look", "+".join(f'({cell}="{state}")' for state in CALLING) + ">0"))
    for row in range(first.row - 1, first.row + first.rows - 1):
        sheet.set_row(row, 2 * LINE)  # for the longest of what may come to stand there
    col, named = last.col + 2, {stated.sheet for stated in STATED}
    sheet.set_column(col - 1, col - 1, GAP)
    sheet.set_column(col, col, 13)
    sheet.write_string(HEAD - 1, col, "Sheets", writer.styles("head"))
    for row, title in enumerate((title for title in TITLES if title in named & set(writer.shown)), start=HEAD):
        sheet.write_url(row, col, f"internal:'{title}'!A1", writer.styles("link"), title, f"To the sheet {title}")
