"""What calls for the eye: checks that are not clear, with the way to where they point; the sizes that fit, the pick
among them.
"""

from xlsxwriter.utility import xl_col_to_name as letters

from builder.records.checklist import CLEAR, ITEMS, TABLES

WHERE = 3  # the column of Checks that leads to the sheet to look on


def call(writer):
    _checks(writer)
    _fit(writer)


def _checks(writer):
    """Each check leads to its sheet; a line that is not clear turns bold, and its word says so."""
    sheet, places = writer.sheets["Checks"], writer.layout.places
    ways = {item.key: item.where for item in ITEMS} | {f"beyond_{kind.key}": kind.sheet for kind in TABLES}
    for key, where in ways.items():
        if where != "Checks":
            sheet.write_url(
                places["checks", key].row - 1,
                WHERE,
                f"internal:'{where}'!A1",
                writer.styles("link"),
                where,
                f"To the sheet {where}",
            )
    first, last = (places["checks", f"verdict_{ITEMS[end].key}"] for end in (0, -1))
    verdict = f"${letters(first.col)}{first.row}"
    sheet.conditional_format(
        first.row - 1,
        0,
        last.row - 1,
        WHERE,
        {"type": "formula", "criteria": f'={verdict}<>"{CLEAR}"', "format": writer.styles.call("look")},
    )


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
