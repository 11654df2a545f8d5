"""The catalogues as the book was issued: one line a record, in the words of a catalogue file."""
from builder.documents import MOST_LETTERS
from builder.records.kinds import CATALOGS
from builder.records.overlay import label
from builder.records.store import record_text


def issued(est):
    records = [(kind, vars(row)) for kind in CATALOGS for row in est.rows[kind.key] if row.filled]
    for row, (kind, values) in zip(est.rows["issued"], records):
        record, text = label(kind, values), record_text(kind, values, est.units)
        row.set(kind=kind.key, record=_fitting(record), text=_fitting(text))


def _fitting(text):
    """A text that a cell can hold, or nothing: a record that is not told counts as one of a book without this sheet."""
    return text if len(text) <= MOST_LETTERS else None
