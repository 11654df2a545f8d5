"""What calls for the eye: what is to fix and to answer; the sizes that fit, the pick among them."""

from xlsxwriter.utility import xl_col_to_name as letters

from builder.workbook.checks_page import checks


def call(writer):
    checks(writer)
    _fit(writer)


def _fit(writer):
    """A size that fits shows its cost on straw, the pick of the coat bold in a box; the others say in words why not."""
    sheet, place = writer.sheets["Fit"], writer.layout.places["fit", "shown"]
    used = writer.layout.places["fit", "used_at"]  # on this sheet: a browser's sheets refuse names of another
    cell, pick = f"{letters(place.col)}{place.row}", f"{letters(used.col)}${used.row}"
    area = place.row - 1, place.col, place.row + place.rows - 2, place.col + place.cols - 1
    sheet.conditional_format(
        *area,
        {
            "type": "formula",
            "criteria": f"=$A{place.row}={pick}",
            "format": writer.styles.call("pick"),
            "stop_if_true": True,
        },
    )
    sheet.conditional_format(
        *area, {"type": "formula", "criteria": f"=ISNUMBER({cell})", "format": writer.styles.call("fits")}
    )
