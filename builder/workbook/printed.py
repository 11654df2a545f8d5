"""The pages that are printed and handed on: how their lines look, and how they lie on the paper."""
from textwrap import wrap

from xlsxwriter.utility import xl_col_to_name as letters

from builder.sheets.bid import CHAIN, FACT_LINES, LETTERHEAD, SCOPE, TERM_LINES
from builder.workbook.columns import LINE
from builder.workbook.paper import PAPERS

ROLES = {"firm": "letterhead", "heading": "section", "state": "master", "missing": "line", "price": "price", "customer": "sign", "contractor": "sign",
         **dict.fromkeys(("contact", "licence", *(key for key, _, _ in FACT_LINES if key != "price")), "line")}
BID_WIDTHS = (27, 54, 14, 12)      # characters: what stands before a line or the part of the work, the line, colour, area
SIGNED_HEIGHT = 34
NARROW = 1.18                      # letters of running text in the width of a character
ROOM = {"tasks": 2, "exclusions": 2}   # lines kept free for what may be typed


def role(block, column):
    """The role of a line or column of a page."""
    return ROLES.get(column.key, "named" if column.key.startswith("name_") else "prose")


def set_up(sheet, paper):
    """Upright, with the page's number and nothing that is for the office."""
    sheet.set_paper(PAPERS[paper])
    sheet.set_portrait()
    sheet.set_margins(left=0.6, right=0.6, top=0.6, bottom=0.7)
    sheet.set_footer("&RPage &P of &N")


def lines(text, room):
    """Lines that a text takes in a cell of so many characters."""
    return len(wrap(str(text or ""), int(room))) or 1


def bid(writer):
    """One sheet of paper; what is put together beside it is not printed."""
    sheet, places = writer.sheets["Bid"], writer.layout.places
    for col, width in enumerate(BID_WIDTHS):
        sheet.set_column(col, col, width)
    sheet.set_column(len(BID_WIDTHS), CHAIN, 14)
    sheet.freeze_panes(3, 0)
    said = writer.estimate.rows["bid"][0]
    for key, _, _ in TERM_LINES:
        sheet.set_row(places["bid", key].row - 1, LINE * max(lines(getattr(said, key), BID_WIDTHS[1] * NARROW), ROOM.get(key, 1)))
    for row in writer.estimate.rows["scope"]:
        sheet.set_row(SCOPE - 1 + row.no, LINE * max(lines(row.system, BID_WIDTHS[0]), lines(row.work, BID_WIDTHS[1] * NARROW), lines(row.colour, BID_WIDTHS[2])))
    sheet.set_row(places["bid", "price"].row - 1, 20)
    for key in ("customer", "contractor"):
        line = places["bid", key].row - 1
        sheet.set_row(line, SIGNED_HEIGHT)
        sheet.conditional_format(line, 1, line, len(BID_WIDTHS) - 1, {"type": "formula", "criteria": f"=$B${line + 1}<>\"\"", "format": writer.styles.call("signed")})
    sheet.write_string(SCOPE - 2, 0, "The work", writer.styles("section"))
    first = places["scope", "first"]
    sheet.conditional_format(first.row - 1, 0, first.row + first.rows - 2, len(BID_WIDTHS) - 1, {
        "type": "formula", "criteria": f"=${letters(first.col)}{first.row}=1", "format": writer.styles.call("begins")})
    sheet.print_area(LETTERHEAD - 1, 0, places["bid", "contractor"].row - 1, len(BID_WIDTHS) - 1)
    sheet.fit_to_pages(1, 1)
