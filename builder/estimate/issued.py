"""The catalogues as the book was issued: one line a record, in the words of a catalogue file."""
from builder.records.kinds import CATALOGS
from builder.records.overlay import label
from builder.records.store import record_text


def issued(est):
    records = [(kind, vars(row)) for kind in CATALOGS for row in est.rows[kind.key] if row.filled]
    for row, (kind, values) in zip(est.rows["issued"], records):
        row.set(kind=kind.key, record=label(kind, values), text=record_text(kind, values, est.units))
