"""Start: where the estimate stands, three steps to it, what this book is. Each part stands below the one before."""

from builder.records.sentences import STEPS
from builder.sheets.grammar import SECTION, Block
from builder.sheets.grammar import Column as C
from builder.stages.brief import FACTS, TOLD

# fmt: off
BOOK_FACTS = (
    C("units", "Units", "text"), C("currency", "Currency", "text"),
    C("exchange", "Worth of one unit of the catalogs' currency", "number"),
    C("paper", "Paper", "text"), C("lines", "Rows of takeoff", "count"), C("schema", "Schema of this book", "count"),
    C("catalogs", "Fingerprint of the catalogs", "text"), C("builder", "Builder", "text"),
    C("form", "Form of this book", "text"))

TOP = 6                                    # the first row of each part
STEPS_TOP = TOP + len(FACTS) + 1
BOOK_TOP = STEPS_TOP + len(STEPS) + SECTION
TOLD_TOP = BOOK_TOP + len(BOOK_FACTS) + SECTION
SHEETS_TOP = TOLD_TOP + len(TOLD) + SECTION

BRIEF = (Block("brief", "Start", FACTS, when="price", form="upright", top=TOP),
         Block("brief", "Start", TOLD, when="price", form="upright", top=TOLD_TOP))
BOOK = Block("book", "Start", BOOK_FACTS, form="upright", top=BOOK_TOP)
# fmt: on
