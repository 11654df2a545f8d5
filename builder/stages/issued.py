"""How the book was issued: its units and room, then its catalogs, one line a record, in the words of a catalog file."""

from builder.documents import MOST_LETTERS
from builder.records.kinds import CATALOGS
from builder.records.overlay import label
from builder.records.store import flow, record_text, scalar
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.stages.book import room_facts

# fmt: off
ISSUED = Block("issued", "As issued", (C("kind", "Kind", "text"), C("record", "Record", "text"),
                                       C("text", "As it stood when this book was made", "text")))
# fmt: on


def issued(est):
    units = est.units
    about = {
        "units": units.system,
        "currency": scalar(units.currency),
        "exchange": f"{units.exchange:.15g}",
        **{fact: f"{rows:g}" for fact, rows in room_facts(est.capacity).items()},
    }
    first, *others = est.rows["issued"]
    first.set(kind="book", record="Sources", text=flow(about))
    records = [(kind, vars(row)) for kind in CATALOGS for row in est.rows[kind.key] if row.filled]
    for row, (kind, values) in zip(others, records):
        record, text = label(kind, values), record_text(kind, values, units)
        row.set(kind=kind.key, record=_fitting(record), text=_fitting(text))


def _fitting(text):
    """A text that a cell can hold, or nothing: a record that is not told counts as one of a book without this sheet."""
    return text if len(text) <= MOST_LETTERS else None
