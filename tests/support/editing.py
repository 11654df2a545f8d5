"""One edit made twice: in a spreadsheet engine and in the model."""

import contextlib
import copy

from builder.jobs import open_job
from builder.records.kinds import KINDS
from builder.stages.book import room_facts
from builder.stages.estimate import Estimate
from builder.stages.order import blocks, capacities
from builder.workbook.layout import Layout
from builder.workbook.write import prepared
from support.by_address import Addressed
from support.engines import differences
from support.places import SHED
from support.small import CATALOGS

SETTINGS = {
    "units": "us",
    "currency": "USD",
    "exchange": 1.0,
    "paper": "letter",
    "schema": 1.0,
    "catalogs": "test",
    "builder": "wetfilm test",
}


SMALL = {
    "takeoff": 9,
    "coats": 7,
    "nozzles": 14,
    "openings": 8,
    "rooms": 3,
    "tasks": 8,
    "kit": 4,
    "systems": 6,
    "profiles": 20,
    "rates": 27,
    "log": 6,
    "signed": 3,
    "contract": 3,
}


VIEWS = ("chosen", "traced")  # the blocks in which a person chooses what to look at


def views_of(estimate):
    """What a book of this estimate has chosen to be looked at: it stays while inputs change."""
    return {key: estimate.rows[key][0].coat for key in VIEWS}


class LiveBook:
    """A workbook open in an engine beside the values it was built from."""

    views = None  # those of a book as it is built

    def __init__(self, values, units, folder, engine=Addressed, **capacity):
        self.values, self.units = copy.deepcopy(values), units
        self.capacity = capacities(**capacity)
        self.layout = Layout(blocks(units, self.capacity), self.capacity)
        self.views = views_of(self.estimate())
        self.path = folder / "live.xlsx"
        self.path.write_bytes(
            prepared(
                self.layout,
                self.estimate(),
                {
                    **SETTINGS,
                    **room_facts(self.capacity),
                    "units": units.system,
                    "currency": units.currency,
                    "exchange": units.exchange,
                },
            ).done()
        )
        self.engine = engine(self.path)

    def estimate(self):
        return Estimate(self.values, self.units, self.capacity, self.views)

    def shown(self, block, key, row):
        """What the cell of an input holds."""
        rows = self.values[block]
        value = rows[row].get(key) if row < len(rows) else None
        shown = self.units.to_cell(value, KINDS[block].field_of[key].quantity)
        return float(f"{shown:.15g}") if isinstance(shown, float) else shown

    def change(self, block, key, row, shown):
        """Put `shown` ('' for blank) into one input cell of the workbook, and the same into the model's values. `row`
        counts from 0.
        """
        quantity = KINDS[block].field_of[key].quantity
        rows = self.values[block]
        while len(rows) <= row:
            rows.append({one.key: None for one in KINDS[block].fields})
        rows[row][key] = self.units.from_cell(shown, quantity)
        place = self.layout.places[block, key]
        down = 0 if KINDS[block].upright else row
        self.engine.put(place.sheet, place.row + down, place.col + 1, shown)

    @contextlib.contextmanager
    def changed(self, *changes):
        """While this lasts, the book with changes (block, key, row, shown) made one after another; then as it was."""
        before = [(block, key, row, self.shown(block, key, row)) for block, key, row, _ in changes]
        rows = {block: len(self.values[block]) for block, *_ in changes}
        for change in changes:
            self.change(*change)
        try:
            yield
        finally:
            for change in reversed(before):
                self.change(*change)
            for block, count in rows.items():
                del self.values[block][count:]

    def differences(self):
        """Every formula cell in which engine and model disagree, after all changes so far."""
        return differences(self.estimate(), self.layout, self.engine)


def small_book(system, folder, engine=Addressed):
    """The shed with few sizes of nozzles, so that one recalculation is quick."""
    opened = open_job(SHED, [CATALOGS], system)
    assert not opened.problems, opened.problems
    return LiveBook(opened.values, opened.units, folder, engine, **SMALL)
