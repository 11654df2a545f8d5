"""What a book was made of, on the sheet Sources: below the sources, read back by their names."""

from builder.records.sources import SOURCES
from builder.sheets.grammar import SECTION, Block
from builder.sheets.grammar import Column as C

# fmt: off
FACTS = (
    C("units", "Units", "text"), C("currency", "Currency", "text"),
    C("exchange", "Worth of one unit of the catalogs' currency", "number"),
    C("paper", "Paper", "text"), C("lines", "Rows of takeoff", "count"), C("schema", "Schema of this book", "count"),
    C("catalogs", "Fingerprint of the catalogs", "text"), C("builder", "Builder", "text"),
    C("form", "Form of this book", "text"))
SOURCES_TOP = 5
TOP = SOURCES_TOP + len(SOURCES) + SECTION + 1
BOOK = Block("book", "Sources", FACTS, form="upright", top=TOP)
# fmt: on
