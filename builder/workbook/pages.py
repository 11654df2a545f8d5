"""The sheet Start, and the headers of the sheets that hold no table."""
from builder.estimate.scenarios import NAMES
from builder.sheets.book import SHEETS
from builder.workbook.columns import folded_on

CARD_HEADS = (("", 44), *((name, 16) for name in NAMES))
UPRIGHT_HEADS = {
    "Job": (("", 36), ("Your entry", 26), ("Unit", 9), ("Fault", 7), ("Needs", 60), ("What it is", 60)),
    "Terms": (("", 34), ("Your figure", 20), ("Unit", 9), ("Fault", 7), ("Needs", 60), ("What it is", 70)),
    "Weather": (("", 36), ("Your reading", 26), ("Unit", 9), ("Fault", 7), ("Needs", 60), ("What it is", 60)),
    "Limits": (("", 50), ("Least", 16), ("Most", 16), ("Unit", 10)),
    "Constants": (("", 50), ("Figure", 20), ("What it is", 60)),
    "Checks": (("Check", 70), ("Found", 24), ("Verdict", 14), ("Where to look", 18)),
}
STEPS = (
    ("section", "Three steps to a price"),
    ("label", "1  Job: say where and when, choose crew, pump and exposure."),
    ("label", "2  Takeoff: type one row a measured surface. Systems and Coats say what goes on it; six usual ones may stand there already."),
    ("label", "3  Price: read the price and what it is made of. It stays blank while something is missing; Checks says what."),
    ("section", "Key"),
    ("sample", "Cells like this one are yours to type in."),
    ("label", "All other cells are worked out and locked without a password."),
    ("label", "Folded away, behind a + above the letters (unprotect the sheet to open it): single steps of {folded}."),
    ("section", "Before anyone sprays"),
    ("label", "Paint under pressure goes through skin from about 100 psi: an injection is a surgical emergency, however small it looks."),
    ("label", "Relieve the pressure and lock the trigger before touching a nozzle. Keep the guard on. Never feel for a leak by hand."),
    ("label", "Ground pump and pail with solvents, keep sparks away, ventilate, wear the respirator the data sheet names."),
    ("label", "Homes built before 1978 may carry lead paint (40 CFR 745): test before sanding or scraping, and follow the lead-safe rules."),
    ("label", "Ladders, lifts and power lines: keep clear and tie off as local rules say. Local codes and licensed practice come before this book."),
    ("section", "What to know of the figures"),
    ("label", "Catalogue figures are invented for the demo unless their source says otherwise. Replace them with your own before you bid."),
    ("label", "Flow, wear and hours follow published equations with coefficients of common practice; they stand on Terms and may be changed."),
)


def start(writer):
    """What this is, three steps, key, cautions; then what this book was made with, and a link to every sheet."""
    sheet = writer.sheets["Start"]
    sheet.set_column(0, 0, 46)
    sheet.set_column(1, 1, 34)
    for row, (role, text) in enumerate(STEPS, start=4):
        sheet.write_string(row, 0, text.replace("{folded}", ", ".join(folded_on(writer.layout))), writer.styles(role))
    sheet.write_string(30, 0, "This book", writer.styles("section"))
    sheet.write_string(41, 0, "Sheets", writer.styles("section"))
    for row, about in enumerate(SHEETS[1:], start=42):
        sheet.write_url(row, 0, f"internal:'{about.title}'!A1", writer.styles("label"), about.title)
        sheet.write_string(row, 1, about.purpose, writer.styles("quiet"))
    sheet.set_portrait()
