"""The headers of the sheets that hold no table, and what stands over facts below one."""

from builder.records.scenarios import NAMES
from builder.stages.book import BOOK

CARD_HEADS = (("", 44), *((name, 16) for name in NAMES))
UPRIGHT_HEADS = {
    "Job": (("", 28), ("Your entry", 24), ("Unit", 8), ("What it is", 54), ("Fault", 8), ("Needs", 24)),
    "Terms": (("", 28), ("Your figure", 20), ("Unit", 10), ("What it is", 56), ("Fault", 8), ("Needs", 24)),
    "Limits": (("", 50), ("Least", 16), ("Most", 16), ("Unit", 10)),
    "Constants": (("", 50), ("Figure", 20), ("What it is", 60)),
    "Summary workings": (("", 44), ("Figure", 26), ("Unit", 9)),
    "Progress workings": (("", 44), ("Figure", 26), ("Unit", 9)),
    "Check counts": (("Check", 70), ("Found", 14), ("Row and fault, or the answer", 70)),
}


def sources(writer):
    """Below the sources, what the book was built of."""
    writer.sheets[BOOK.sheet].write_string(BOOK.top - 2, 0, "This book", writer.styles("section"))
