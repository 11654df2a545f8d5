"""Start: where the estimate stands, three steps to it, what this book is. Each part stands below the one before."""
from textwrap import wrap

from builder.records.cautions import CAUTIONS
from builder.sheets.brief import FACTS, TOLD
from builder.sheets.grammar import SECTION, Block
from builder.sheets.grammar import Column as C

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
BOOK_FACTS = (
    C("units", "Units", "text"), C("currency", "Currency", "text"), C("exchange", "Worth of one unit of the catalogues' currency", "number"),
    C("paper", "Paper", "text"), C("lines", "Rows of takeoff", "count"), C("schema", "Schema of this book", "count"),
    C("catalogues", "Fingerprint of the catalogues", "text"), C("builder", "Builder", "text"),
    C("form", "Form of this book", "text"))

TOP = 6                                    # the first row of each part
STEPS_TOP = TOP + len(FACTS) + 1
BOOK_TOP = STEPS_TOP + len(STEPS) + SECTION
TOLD_TOP = BOOK_TOP + len(BOOK_FACTS) + SECTION
SHEETS_TOP = TOLD_TOP + len(TOLD) + SECTION

BRIEF = (Block("brief", "Start", FACTS, when="price", form="upright", top=TOP),
         Block("brief", "Start", TOLD, when="price", form="upright", top=TOLD_TOP))
BOOK = Block("book", "Start", BOOK_FACTS, form="upright", top=BOOK_TOP)
