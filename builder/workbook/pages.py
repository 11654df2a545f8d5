"""The sheet Start, and the headers of the sheets that hold no table."""
from textwrap import wrap

from builder.estimate.scenarios import NAMES
from builder.records.cautions import CAUTIONS
from builder.sheets.book import SHEETS
from builder.sheets.brief import BOOK_TOP, TOLD_TOP, TOP
from builder.workbook.columns import folded_on

SHEETS_TOP = TOLD_TOP + 6                 # the row before the first link
CARD_HEADS = (("", 44), *((name, 16) for name in NAMES))
UPRIGHT_HEADS = {
    "Job": (("", 36), ("Your entry", 26), ("Unit", 9), ("What it is", 60), ("Fault", 7), ("Needs", 60)),
    "Terms": (("", 34), ("Your figure", 20), ("Unit", 9), ("What it is", 70), ("Fault", 7), ("Needs", 60)),
    "Weather": (("", 36), ("Your reading", 26), ("Unit", 9), ("What it is", 60), ("Fault", 7), ("Needs", 60)),
    "Limits": (("", 50), ("Least", 16), ("Most", 16), ("Unit", 10)),
    "Constants": (("", 50), ("Figure", 20), ("What it is", 60)),
    "Checks": (("Check", 70), ("Found", 24), ("Verdict", 14), ("Where to look", 18)),
}
STEPS = (
    ("section", "Three steps to an estimate"),
    ("label", "1  Job: say where and when, choose crew, pump and exposure."),
    ("label", "2  Takeoff: type one row a measured surface. Systems and Coats say what goes on it; six usual ones may stand there already."),
    ("label", "3  Price, Bid, Crew card: read what it comes to, print what the customer signs and what the crew works by."),
    ("label", "While something is missing the price stays blank, and Checks says what to put right."),
    ("", ""),
    ("section", "Key"),
    ("sample", "Cells like this one are yours to type in."),
    ("label", "All other cells are worked out and locked without a password. Faults stand in words beside the row, in bold."),
    ("label", "Folded away, behind a + above the letters (unprotect the sheet to open it): single steps of {folded}."),
    ("", ""),
    ("section", "Before anyone sprays"),
    *(("label", line) for caution in CAUTIONS for line in wrap(f"{caution.topic}: {caution.words} [{caution.source}]", 140, subsequent_indent="      ")),
    ("", ""),
    ("section", "What to know of the figures"),
    ("label", "Catalogue figures are invented for the demo unless their source says otherwise. Replace them with your own before you bid."),
    ("label", "Flow, wear and hours follow published equations with coefficients of common practice; they stand on Terms and may be changed."),
    ("label", "Room: {takeoff} lines of takeoff, {openings} openings, {systems} systems, {coats} coats, {nozzles} nozzle sizes, {tasks} tasks."),
    ("label", "Units and currency cannot be changed in a workbook: it is built anew with others."),
)


def start(writer):
    """Where the estimate stands, three steps, key, cautions; then what this book was made with, and a link to every sheet."""
    sheet = writer.sheets["Start"]
    for col, width in enumerate((34, 24, 9, 46)):
        sheet.set_column(col, col, width)
    sheet.write_string(TOP - 2, 0, "Where this estimate stands", writer.styles("section"))
    facts = {"folded": ", ".join(folded_on(writer.layout)), **writer.layout.capacity}
    for row, (role, text) in enumerate(STEPS, start=TOP + 8):
        if text:
            sheet.write_string(row, 0, text.format(**facts), writer.styles(role))
    sheet.write_string(BOOK_TOP - 2, 0, "This book", writer.styles("section"))
    sheet.write_string(TOLD_TOP - 2, 0, "The line above every sheet", writer.styles("section"))
    sheet.write_string(SHEETS_TOP - 1, 0, "Sheets", writer.styles("section"))
    for row, about in enumerate(SHEETS[1:], start=SHEETS_TOP):
        sheet.write_url(row, 0, f"internal:'{about.title}'!A1", writer.styles("link"), about.title)
        sheet.write_string(row, 1, about.purpose, writer.styles("quiet"))
    sheet.set_portrait()
