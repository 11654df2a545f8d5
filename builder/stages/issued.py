"""How the book was issued: its units and room, then its catalogs, one line a record, in the words of a catalog file."""

import functools

from builder.documents import MOST_LETTERS
from builder.records.kinds import CATALOGS, KINDS
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
    records = [(kind, row) for kind in CATALOGS for row in est.rows[kind.key] if row.filled]
    for row, (kind, entry) in zip(others, records):
        record, text = _told(kind.key, units, tuple(getattr(entry, one.key) for one in kind.fields))
        row.set(kind=kind.key, record=record, text=text)


@functools.lru_cache(4096)
def _told(key, units, values):
    """The name and the text of a record, the same for every job on its catalogs. values: of the fields of its kind."""
    kind = KINDS[key]
    record = {one.key: value for one, value in zip(kind.fields, values)}
    return _fitting(label(kind, record)), _fitting(record_text(kind, record, units))


def _fitting(text):
    """A text that a cell can hold, or nothing: a record that is not told counts as one of a book without this sheet."""
    return text if len(text) <= MOST_LETTERS else None
