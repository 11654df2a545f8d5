"""The sheet Start, and the headers of the sheets that hold no table."""

from builder.records.scenarios import NAMES
from builder.records.sentences import STEPS
from builder.stages.order import SHEETS
from builder.stages.start import BOOK_TOP, SHEETS_TOP, STEPS_TOP, TOLD_TOP, TOP
from builder.workbook.columns import folded_on

CARD_HEADS = (("", 44), *((name, 16) for name in NAMES))
UPRIGHT_HEADS = {
    "Start": (),
    "Job": (("", 36), ("Your entry", 26), ("Unit", 9), ("What it is", 60), ("Fault", 7), ("Needs", 60)),
    "Terms": (("", 34), ("Your figure", 20), ("Unit", 9), ("What it is", 70), ("Fault", 7), ("Needs", 60)),
    "Weather": (("", 36), ("Your reading", 26), ("Unit", 9), ("What it is", 60), ("Fault", 7), ("Needs", 60)),
    "Limits": (("", 50), ("Least", 16), ("Most", 16), ("Unit", 10)),
    "Constants": (("", 50), ("Figure", 20), ("What it is", 60)),
    "Checks": (("Check", 70), ("Found", 24), ("Verdict", 14), ("Where to look", 18)),
}


def start(writer):
    """Where the estimate stands, three steps, key, cautions; then what this book was made with, and a link to every
    sheet.
    """
    sheet = writer.sheets["Start"]
    for col, width in enumerate((34, 24, 9, 46)):
        sheet.set_column(col, col, width)
    sheet.write_string(TOP - 2, 0, "Where this estimate stands", writer.styles("section"))
    facts = {"folded": ", ".join(folded_on(writer.layout)), **writer.layout.capacity}
    for row, (role, text) in enumerate(STEPS, start=STEPS_TOP - 1):
        if text:
            sheet.write_string(row, 0, text.format(**facts), writer.styles(role))
    sheet.write_string(BOOK_TOP - 2, 0, "This book", writer.styles("section"))
    sheet.write_string(TOLD_TOP - 2, 0, "The line above every sheet", writer.styles("section"))
    sheet.write_string(SHEETS_TOP - 2, 0, "Sheets", writer.styles("section"))
    for row, about in enumerate(SHEETS[1:], start=SHEETS_TOP - 1):
        if about.title not in writer.shown:  # a link to a hidden sheet leads nowhere
            sheet.write_string(row, 0, about.title, writer.styles("label"))
        else:
            sheet.write_url(row, 0, f"internal:'{about.title}'!A1", writer.styles("link"), about.title)
        sheet.write_string(row, 1, about.purpose, writer.styles("quiet"))
    sheet.set_portrait()
