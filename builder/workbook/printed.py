"""The pages that are printed and handed on: how their lines look, and how they lie on the paper."""

from textwrap import wrap

from xlsxwriter.utility import xl_col_to_name as letters

from builder.records.sentences import CONDITIONS, LEAD
from builder.stages.bid import CHAIN, FACT_LINES, LETTERHEAD, SCOPE, TERM_LINES
from builder.stages.bid_parts import PRICE
from builder.stages.bill import LIST
from builder.stages.billed import LINES, NOW
from builder.workbook import reading
from builder.workbook.answers import LOOKS
from builder.workbook.columns import LINE
from builder.workbook.paper import LOWEST, PAPERS

ROLES = {
    "firm": "letterhead",
    "heading": "section",
    "state": "master",
    "missing": "line",
    "price": "price",
    "customer": "sign",
    "contractor": "sign",
    **dict.fromkeys(("contact", "license", *(key for key, _, _ in FACT_LINES if key != "price")), "line"),
}
# characters: what stands before a line or the part of the work; the line; color or a part; area or its price
BID_WIDTHS = (27, 54, 31, 14)
BILL_WIDTHS = (27, 56, 18)  # characters: what a line is, its words, its amount
PAGES = ("Bid", "Bill", "Crew card")
SIGNED_HEIGHT = 34
NARROW = 1.18  # letters of running text in the width of a character
ROOM = {"tasks": 2, "exclusions": 2}  # lines kept free for what may be typed
FULL = {"tasks": 5, "exclusions": 3}  # the same on the bid of a book that is built blank
WORDS = {"lead": LEAD, "conditions": CONDITIONS}  # what stands on a bid sooner or later


def role(block, column):
    """The role of a line or column of a page."""
    if column.look:
        return column.look
    if block.key in LOOKS:
        return LOOKS[block.key](column)
    if block.key == "scope" and column.key == "area":
        return "plain"
    return ROLES.get(column.key, "named" if column.key.startswith("name_") else "prose")


def set_up(sheet, paper):
    """Upright, with the page's number and nothing that is for the office."""
    sheet.set_paper(PAPERS[paper])
    sheet.set_portrait()
    sheet.set_margins(left=0.6, right=0.6, top=0.6, bottom=0.7)
    sheet.set_footer("&RPage &P of &N")


def fit(sheet, row, texts, room=None):
    """A row, zero-based, as high as its texts, each with the width of its column; `room`: lines it has at least, for
    what may come to stand there.
    """
    if room:
        sheet.set_row(row, LINE * max(room, *(len(wrap(text or "", int(width * NARROW))) for text, width in texts)))
        return
    for text, width in texts:
        sheet.fit(row, text or "", width)


def print_whole(sheet, first, last, last_col):
    """Rows, zero-based, that are printed on one height of paper, in letters that can be read."""
    lines = last - first + 1
    if lines > LOWEST:
        raise ValueError(f"{sheet.name}: {lines} lines do not go on one sheet of paper, which has room for {LOWEST}")
    sheet.print_area(first, 0, last, last_col)


def bid(writer):
    """One sheet of paper; what is put together beside it is not printed."""
    sheet, places = writer.sheets["Bid"], writer.layout.places
    for col, width in enumerate(BID_WIDTHS):
        sheet.set_column(col, col, width)
    # not next to what is printed: LibreOffice would print it too
    sheet.set_column(CHAIN, CHAIN, 14, None, {"level": 1, "hidden": True})
    sheet.set_column(CHAIN + 1, CHAIN + 1, None, None, {"collapsed": True})
    sheet.freeze_panes(3, 0)
    said, scope = writer.estimate.rows["bid"][0], writer.estimate.rows["scope"]
    unknown = not any(row.coat_at for row in scope)  # the longest that may come to stand there then
    for key, _, _ in TERM_LINES:
        text = getattr(said, key) or (WORDS.get(key) if unknown else None)
        fit(sheet, places["bid", key].row - 1, ((text, BID_WIDTHS[1]),), (FULL if unknown else ROOM).get(key, 1))
    for row in scope:
        fit(sheet, SCOPE - 1 + row.no, zip((row.system, row.work, row.color), BID_WIDTHS), 2 if unknown else None)
    sheet.set_row(places["bid", "price"].row - 1, 20)
    for key in ("customer", "contractor"):
        line = places["bid", key].row - 1
        sheet.set_row(line, SIGNED_HEIGHT)
        reading.call(writer, sheet, (line, 1, line, len(BID_WIDTHS) - 1), ("signed", f'$B${line + 1}<>""'))
    part = places["bid_parts", "part"]
    area = part.row - 1, part.col, part.row + part.rows - 2, part.col + 1
    reading.call(writer, sheet, area, ("total", f'${letters(part.col)}{part.row}="{PRICE}"'))
    sheet.write_string(SCOPE - 2, 0, "The work", writer.styles("section"))
    first = places["scope", "first"]
    area = first.row - 1, 0, first.row + first.rows - 2, len(BID_WIDTHS) - 1
    reading.call(writer, sheet, area, ("begins", f"${letters(first.col)}{first.row}=1"))
    print_whole(sheet, LETTERHEAD - 1, places["bid", "contractor"].row - 1, len(BID_WIDTHS) - 1)
    sheet.fit_to_pages(1, 1)


def bill(writer):
    """One sheet of paper, with what is due now in large."""
    sheet, places = writer.sheets["Bill"], writer.layout.places
    for col, width in enumerate(BILL_WIDTHS):
        sheet.set_column(col, col, width)
    sheet.freeze_panes(3, 0)
    said, lines = writer.estimate.rows["bill"][0], writer.estimate.rows["bill_list"]
    fit(sheet, places["bill", "terms_told"].row - 1, ((said.terms_told, BILL_WIDTHS[1]),), 2)
    sheet.set_row(places["bill", "asked"].row - 1, 20)
    for row in lines:
        fit(sheet, LIST - 2 + row.no, zip((row.line, row.what), BILL_WIDTHS))
    sheet.write_string(LIST - 3, 0, "How it adds up", writer.styles("section"))
    last, right = LIST - 2 + len(lines), len(BILL_WIDTHS) - 1
    reading.call(writer, sheet, (LIST - 1, 0, last, right), ("total", f'$A{LIST}="{LINES[NOW - 1][0]}"'))
    print_whole(sheet, LETTERHEAD - 1, last, right)
    sheet.fit_to_pages(1, 1)
