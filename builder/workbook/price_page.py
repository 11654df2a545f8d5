"""Price: what its lines are called, and how the page lies."""

from builder.stages.priced import PAGE, PARTS_TOP, PAYMENTS, SPANS, TOP
from builder.workbook import reading

WIDTHS = (110, 200, 110, 70, 30)  # pixels
NARROW = 100  # of the second where the names are known: the amounts are seen on a phone


def price(writer):
    sheet, places = writer.sheets[PAGE], writer.layout.places
    reading.columns(sheet, _widths(writer))
    for row, text in ((PAYMENTS - 1, "Payments"), (PARTS_TOP - 2, "By part of the work")):
        sheet.write_string(row - 1, 0, text, writer.styles("section"))
    for col, text in enumerate(("Item", "", writer.units.currency, "Share")):
        role = "head_number" if col > 1 else "head_list"
        sheet.write_string(TOP - 2, col, text, writer.styles(role)) if text else sheet.write_blank(
            TOP - 2, col, None, writer.styles(role)
        )
    for key, words, *_ in SPANS:
        look, row = places["priced", key].column.look, places["priced", key].row - 1
        sheet.write_string(row, 0, words, writer.styles(look))
        sheet.write_blank(row, 1, None, writer.styles(look))
    reading.call(writer, sheet, (TOP - 1, 0, places["priced", "total"].row - 1, 3), ("line", f"LEN($A{TOP})>0"))
    reading.call(writer, sheet, (PAYMENTS - 1, 0, PAYMENTS + 1, 3), ("line", f"LEN($A{PAYMENTS})>0"))
    reading.parts(writer, "priced_parts")
    sheet.set_portrait()
    sheet.fit_to_pages(1, 1)


def _widths(writer):
    """Pixels of each column; the names of items and parts begin in the first and end in the second."""
    first, second, *others = WIDTHS
    parts = [row.name for row in writer.estimate.rows["priced_parts"] if row.name]
    names = [*parts, *(words for _, words, *_ in SPANS)]
    return first, reading.grown(NARROW if parts else second, names, first), *others
