"""The pages that are printed and handed on: how their lines look, and how they lie on the paper."""

from textwrap import wrap

from xlsxwriter.utility import xl_col_to_name as letters

from builder.records.cautions import CAUTIONS
from builder.records.sentences import CONDITIONS, LEAD
from builder.sheets.grammar import heading
from builder.stages.bid import CHAIN, FACT_LINES, LETTERHEAD, SCOPE, TERM_LINES
from builder.stages.crew import CARD, NOTES, NOTES_TOP
from builder.stages.crew import TOP as CARD_TOP
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
# characters: what stands before a line or the part of the work, the line, color, area
BID_WIDTHS = (27, 54, 14, 12)
PAGES = ("Bid", "Crew card")
BOLD = ("tag", "system", "nozzle", "set_pressure", "hand_first", "hand")  # of a card: what is looked for first
LABEL, COAT, ABREAST = 30, 31, 3  # characters: what stands before the facts, a coat; coats on a sheet of paper
SIGNED_HEIGHT = 34
NARROW = 1.18  # letters of running text in the width of a character
ROOM = {"tasks": 2, "exclusions": 2, "today": 2}  # lines kept free for what may be typed
FULL = {"tasks": 5, "exclusions": 3}  # the same on the bid of a book that is built blank
WORDS = {"lead": LEAD, "conditions": CONDITIONS}  # what stands on a bid sooner or later


def role(block, column):
    """The role of a line or column of a page."""
    if column.look:
        return column.look
    if block.key == "crew_card":
        return "first" if column.key in BOLD else "fact"
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
    sheet.set_column(len(BID_WIDTHS), CHAIN, 14)
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
        sheet.conditional_format(
            line,
            1,
            line,
            len(BID_WIDTHS) - 1,
            {"type": "formula", "criteria": f'=$B${line + 1}<>""', "format": writer.styles.call("signed")},
        )
    sheet.write_string(SCOPE - 2, 0, "The work", writer.styles("section"))
    first = places["scope", "first"]
    sheet.conditional_format(
        first.row - 1,
        0,
        first.row + first.rows - 2,
        len(BID_WIDTHS) - 1,
        {"type": "formula", "criteria": f"=${letters(first.col)}{first.row}=1", "format": writer.styles.call("begins")},
    )
    print_whole(sheet, LETTERHEAD - 1, places["bid", "contractor"].row - 1, len(BID_WIDTHS) - 1)
    sheet.fit_to_pages(1, 1)


TAILS = "Tails, heavy edges in the pattern? In this order (common practice, no source):"
REMEDIES = (
    "1  Pressure: raise it in small steps, never above the figure on the card.",
    "2  Relieve the pressure, lock the trigger: clean or change filters of pump and gun, strainer in the pail.",
    "3  Relieve the pressure, lock the trigger: put in the spare; a fan a quarter narrower than new is worn out.",
    "4  Material: stir and strain it; use paint kept at the temperature its data sheet names; thin as it allows.",
)


def crew_card(writer):
    """Three coats on a sheet of paper, what stands before them on each; below them what to try and what to
    beware of.
    """
    sheet, used = writer.sheets["Crew card"], [row for row in writer.estimate.rows["crew_card"] if row.coat_at]
    sheet.set_column(0, 0, LABEL)
    sheet.set_column(1, writer.layout.capacity["crew_card"], COAT)
    sheet.freeze_panes(CARD_TOP + 2, 1)
    sheet.write_string(CARD_TOP - 2, 0, "Crew card", writer.styles("section"))
    for place, column in enumerate(CARD, start=CARD_TOP - 1):
        texts = [getattr(row, column.key) for row in used] if column.quantity == "text" else ()
        fit(
            sheet,
            place,
            ((heading(column, writer.units), LABEL), *((text, COAT) for text in texts)),
            ROOM.get(column.key),
        )
    notes = [("master", TAILS), *(("line", one) for one in REMEDIES), ("master", "Before anyone sprays")]
    notes += [
        ("line", line)
        for one in CAUTIONS
        for line in wrap(f"{one.topic}: {one.words} [{one.source}]", ABREAST * COAT * NARROW, subsequent_indent="   ")
    ]
    first, sheets = NOTES_TOP - 1, max(1, -(-len(used) // ABREAST))
    if len(notes) > NOTES:
        raise ValueError(f"Crew card: {len(notes)} lines of notes, room for {NOTES}")
    sheet.write_string(
        CARD_TOP - 2,
        1,
        f"Cards 1 to {sheets * ABREAST} are printed; where coats are added, set the print area wider.",
        writer.styles("quiet"),
    )
    for col in range(1, sheets * ABREAST, ABREAST):
        for place, (style, text) in enumerate(notes, start=first):
            sheet.write_string(place, col, text, writer.styles(style))
    print_whole(sheet, CARD_TOP - 2, first + len(notes) - 1, sheets * ABREAST)
    sheet.repeat_columns(0)
    sheet.fit_to_pages(sheets, 1)
    sheet.set_footer(
        "&LAn injection is a surgical emergency. Relieve pressure, lock the trigger, guard on.&RPage &P of &N"
    )
