"""Progress: its sentences, coats and tasks in lines, its chart; how they look and print."""

from builder.stages.progress_page import PAGE, TOP
from builder.workbook import charts, reading

WIDTHS = (110, 300, 75, 65, 60, 65, 75, 80, 90, 70, 190)  # pixels
ROOM, HEADER = 11, 46  # columns that are printed; points
ON_A_PAGE = 24  # coats and tasks that leave room for the chart below them


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
        sheet.set_h_pagebreaks([last + 1] if place.rows > ON_A_PAGE else [])
    sheet.print_area(0, 0, end, ROOM - 1)
    sheet.fit_to_pages(1, int(place.rows <= ON_A_PAGE))
