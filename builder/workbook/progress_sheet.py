"""Progress: its sentences, coats and tasks in lines, its chart; how they look and print."""

from builder.stages.progress_page import HEAD, PAGE, TOP
from builder.workbook import charts, reading

WIDTHS = (110, 190, 75, 65, 60, 65, 75, 80, 90, 70, 300)  # pixels
ROOM, HEADER = 11, 46  # columns that are printed; points


def progress(writer):
    """A book in which nothing was signed has no chart and nothing to print here."""
    sheet, places = writer.sheets[PAGE], writer.layout.places
    reading.columns(sheet, WIDTHS)
    sheet.write_blank(TOP - 2, 1, None, writer.styles("head_list"))
    sheet.set_row(TOP - 2, HEADER)
    place = places["progress_list", "what"]
    first, last = place.row - 1, place.row + place.rows - 2
    area = first, 0, last, ROOM - 1
    reading.call(writer, sheet, area, ("line", f"LEN($A{TOP})>0"))
    sheet.set_landscape()
    end = last
    if writer.estimate.rows["week"][0].signed:
        end = charts.hours_by_day(writer, last + 2)
    sheet.print_area(HEAD - 1, 0, end, ROOM - 1)
    sheet.repeat_rows(TOP - 2)
    sheet.fit_to_pages(1, 0)
