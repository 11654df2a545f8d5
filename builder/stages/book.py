"""What a book was made of, on the sheet Sources: below the sources, read back by their names."""

from builder.records.sources import SOURCES
from builder.sheets.grammar import SECTION, Block
from builder.sheets.grammar import Column as C

# fmt: off
FACTS = (
    C("units", "Units", "text"), C("currency", "Currency", "text"),
    C("exchange", "Worth of one unit of the catalogs' currency", "number"),
    C("paper", "Paper", "text"), C("lines", "Rows of takeoff", "count"),
    C("plan_lines", "Rows of the signed plan", "count"),
    C("contract_lines", "Rows of the contract", "count"), C("log_lines", "Rows of the log", "count"),
    C("schema", "Schema of this book", "count"),
    C("catalogs", "Fingerprint of the catalogs", "text"), C("builder", "Builder", "text"),
    C("form", "Form of this book", "text"))
SOURCES_TOP = 5
TOP = SOURCES_TOP + len(SOURCES) + SECTION + 1
BOOK = Block("book", "Sources", FACTS, form="upright", top=TOP)
# fmt: on
# A fact of a book -> the table whose rows it counts: those that grow with a job.
ROOM = {"lines": "takeoff", "plan_lines": "signed", "contract_lines": "contract", "log_lines": "log"}


def room_of(settings):
    """The rows of those tables, of the facts of a book."""
    return {fact: int(settings[fact]) for fact in ROOM}
