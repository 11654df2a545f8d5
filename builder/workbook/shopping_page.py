"""Shopping: one sheet of paper for the counter, with a box to tick before each thing that is bought."""

from builder.stages.shopping import PAGE, TOP
from builder.workbook import reading
from builder.workbook.paper import LOWEST

WIDTHS = (110, 160, 270, 80, 90, 250, 110, 45)  # pixels
NAMES = {"what": 1, "which": 2, "buy": 5}  # texts, and the columns that grow with the longest of them
BOX = 7  # the column of boxes


def shopping(writer):
    sheet, rows = writer.sheets[PAGE], writer.layout.capacity["shopping"]
    reading.columns(sheet, _widths(writer))
    sheet.write_blank(TOP - 2, 1, None, writer.styles("head_list"))
    sheet.write_string(TOP - 2, BOX, "Got", writer.styles("head_number"))
    first, last = TOP - 1, TOP + rows - 2
    what, which, area, need, buy, money = (f"${letter}{TOP}" for letter in "ACDEFG")
    figures = f"ISNUMBER({need})+ISNUMBER({money})"
    reading.call(
        writer,
        sheet,
        (first, 0, last, BOX - 1),
        ("whole", f"ISNUMBER({money})*(LEN({buy})=0)*(LEN({which})=0)=1"),
        ("part", f"(LEN({buy})>0)*({figures}+ISNUMBER({area})=0)=1"),
        ("line", f"LEN({what})>0"),
    )
    reading.call(writer, sheet, (first, BOX, last, BOX), ("box", f"(LEN({buy})>0)*(1-ISNUMBER({area}))*({figures})>0"))
    sheet.set_portrait()
    sheet.set_margins(left=0.6, right=0.6, top=0.6, bottom=0.7)
    sheet.repeat_rows(TOP - 2)
    sheet.print_area(TOP - 4, 0, last, BOX)
    sheet.fit_to_pages(1, 1 if rows <= LOWEST - TOP else 0)
    sheet.set_footer("&RPage &P of &N")


def _widths(writer):
    """Pixels of each column: a name of a coating or color is bought by all of its letters."""
    widths, rows = list(WIDTHS), writer.estimate.rows["shopping"]
    for key, col in NAMES.items():
        texts = [getattr(row, key) for row in rows]
        widths[col] = reading.grown(widths[col], texts, WIDTHS[0] if key == "what" else 0)  # it begins in A
    return widths
