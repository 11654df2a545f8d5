"""What a book was made of, on the sheet Sources: below the sources, read back by their names."""

from builder.records.kinds import TABLES
from builder.records.sources import SOURCES
from builder.sheets.grammar import SECTION, Block
from builder.sheets.grammar import Column as C

# A fact of a book -> the table whose rows it counts.
_FIRST = {"lines": "takeoff", "plan_lines": "signed", "contract_lines": "contract", "log_lines": "log"}
PAPERS = ("letter", "a4")
ROOM = _FIRST | {f"{table}_lines": table for table in TABLES if table not in _FIRST.values()}
# fmt: off
FACTS = (
    C("units", "Units", "text"), C("currency", "Currency", "text"),
    C("exchange", "Worth of one unit of the catalogs' currency", "number"),
    C("paper", "Paper", "text"),
    *(C(fact, f"Rows of {TABLES[table].title}", "count") for fact, table in ROOM.items()),
    C("schema", "Schema of this book", "count"),
    C("catalogs", "Fingerprint of the catalogs", "text"), C("builder", "Builder", "text"),
    C("form", "Form of this book", "text"))
# fmt: on
SOURCES_TOP = 5
TOP = SOURCES_TOP + len(SOURCES) + SECTION + 1
BOOK = Block("book", "Sources", FACTS, form="upright", top=TOP)


def room_of(settings):
    """The rows of every table, of the facts of a book."""
    return {table: int(settings[fact]) for fact, table in ROOM.items()}


def room_facts(room):
    """Those facts, of the rows of every table."""
    return {fact: float(room[table]) for fact, table in ROOM.items()}
