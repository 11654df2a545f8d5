"""Schedule: the readings of the day, the calendar, the list of days; how they look and print."""

from builder.records.sentences import LEGEND
from builder.stages.calendar import HEADLINE, PAGE
from builder.stages.day_words import ACROSS
from builder.workbook import paper, reading

WIDTHS = (110, 190, 70)  # pixels: system, what, hours
DAY = 64
LARGER = 1.08  # LibreOffice draws columns so much wider than the file says
PRINTED = 15  # days of the calendar on paper, more where the job has more


def schedule(writer):
    sheet, places = writer.sheets[PAGE], writer.layout.places
    reading.columns(sheet, (*WIDTHS, *(DAY for _ in range(ACROSS))))
    sheet.write_string(3, 0, "Weather now", writer.styles("section"))
    sheet.write_string(3, 2, "Read", writer.styles("head_number"))
    sheet.write_string(HEADLINE + 1, 0, LEGEND, writer.styles("quiet"))
    name, day = places["calendar", "name"], places["day_list", "date"]
    numbers = writer.layout.numbers(name.block) - 1  # its headers say the day
    sheet.set_row(numbers, None, None, {"level": 1, "hidden": True})
    for place in (name, day):
        first, last = place.row - 1, place.row + place.rows - 2
        reading.call(writer, sheet, (first, 0, last, len(WIDTHS) + ACROSS - 1), ("line", f"LEN($A{place.row})>0"))
    took = int(writer.estimate.rows["plan"][0].took or 0)
    across = len(WIDTHS) + min(ACROSS, max(PRINTED, took)) - 1
    end = paper.bottom(writer, sheet, day.row + day.rows - 2)
    sheet.print_area(0, 0, end, across)
    sheet.fit_to_pages(1, 0)
    if _on_one_page(writer, sheet, day.row - 3, across):
        sheet.set_h_pagebreaks([day.row - 2])  # the list of days on a page of its own, below its headers


def _on_one_page(writer, sheet, last, across):
    """Whether the rows to `last`, zero-based, go on one sheet of paper as wide as these columns; a break below rows
    that do not would leave most of a sheet blank. As LibreOffice prints, since others make no break where they fit.
    """
    wide, high = paper.INNER[writer.paper]
    points = (sum(WIDTHS) + (across + 1 - len(WIDTHS)) * DAY) * 72 / 96 * LARGER
    return paper.height(sheet, 0, last) * min(1, wide / points) <= high
