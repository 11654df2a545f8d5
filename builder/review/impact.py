"""What a change of the catalogues does to jobs: gallons, nozzles and price before and after, and which value did it."""
from dataclasses import dataclass
from pathlib import Path

from builder.estimate.estimate import Estimate, capacities
from builder.jobs import Opened, from_values, open_job
from builder.problems import Refused
from builder.records.kinds import CATALOGS, KINDS
from builder.records.overlay import identity, label, load_catalogs


@dataclass(frozen=True)
class Change:
    """One value of the catalogues that is not what it was, in the units of the book, and what it alone does to the price."""

    block: str
    record: str
    key: str
    before: object
    after: object
    price: float | None

    def words(self, units):
        one = KINDS[self.block].field_of.get(self.key)
        if one is None:
            return f"{KINDS[self.block].sheet} '{self.record}' {self.key}"
        unit = f" {units.shown(one.quantity)}".rstrip()
        before, after = (_shown(units, value, one.quantity) for value in (self.before, self.after))
        return f"{KINDS[self.block].sheet} '{self.record}', {one.title.lower()}: {before} -> {after}{unit}"


@dataclass(frozen=True)
class Impact:
    """One job before and after, and the changed values that moved its price, largest first."""

    name: str
    before: Opened
    after: Opened
    changes: tuple

    def moved(self):
        """By how much the price moves; 0 where either is missing."""
        before, after = self.before.price(), self.after.price()
        return 0.0 if before is None or after is None else after - before


def _shown(units, value, quantity):
    if value is None:
        return "blank"
    shown = units.to_cell(value, quantity)
    return shown if isinstance(shown, str) else f"{float(f'{shown:.6g}'):g}"


def _opened(path, catalogs):
    """A job file with the catalogues in force, or a workbook with those it was built on."""
    if Path(path).suffix == ".xlsx":
        from builder.workbook.read import read

        return from_values(*read(path))
    opened = open_job(path, catalogs)
    if opened.errors:
        raise Refused(opened.errors)
    return opened


def _differences(before, after):
    """(kind, record, key, value before, value after, the catalogue with that change alone) of every value that differs."""
    for kind in CATALOGS:
        old, new = ({identity(kind, values) if not kind.upright else (): values for values in all_of[kind.key]} for all_of in (before, after))
        for name, values in new.items():
            if name not in old:
                yield kind, label(kind, values), "is added", None, None, {**before, kind.key: [*before[kind.key], values]}
                continue
            for one in kind.fields:
                if values.get(one.key) != old[name].get(one.key) and one.key not in ("source", "priced_on", "standard"):
                    alone = [dict(row, **{one.key: values.get(one.key)}) if row is old[name] else row for row in before[kind.key]]
                    yield kind, label(kind, values), one.key, old[name].get(one.key), values.get(one.key), {**before, kind.key: alone}
        for name in old:
            if name not in new:
                yield kind, label(kind, old[name]), "is gone", None, None, {**before, kind.key: [row for row in before[kind.key] if row is not old[name]]}


def impact(path, catalogs, new_catalogs):
    """What the new catalogues do to one job file or workbook."""
    before = _opened(path, catalogs)
    stock = load_catalogs(new_catalogs, before.units)
    if stock.problems:
        raise Refused(stock.problems)
    mine = {kind.key: before.values[kind.key] for kind in CATALOGS}
    theirs = {kind.key: stock.values[kind.key] for kind in CATALOGS}
    room = capacities(int(before.settings["lines"]))
    after = Opened(before.values | theirs, before.units, before.settings, Estimate(before.values | theirs, before.units, room), [])
    changes = []
    for kind, name, key, old, new, alone in _differences(mine, theirs):
        price = Opened({}, before.units, {}, Estimate(before.values | alone, before.units, room), []).price()
        moved = None if price is None or before.price() is None else price - before.price()
        if moved != 0:
            changes.append(Change(kind.key, name, key, old, new, moved))
    changes.sort(key=lambda change: -abs(change.price) if change.price is not None else float("-inf"))
    return Impact(str(path), before, after, tuple(changes))


def report(found):
    """The lines that say one impact in words."""
    units, before, after = found.before.units, found.before, found.after
    yield (f"{found.name}: price {_money(before)} -> {_money(after)} {units.currency}, "
           f"{before.gallons():,.4g} -> {after.gallons():,.4g} {units.shown('volume')} to buy")
    for old, new, coat in zip(before.estimate.rows["picks"], after.estimate.rows["picks"], before.estimate.rows["coats"]):
        if old.nozzle != new.nozzle:
            yield f"    coat {coat.no}, {coat.system}, {coat.coating}: nozzle {old.nozzle or 'none'} -> {new.nozzle or 'none'}"
    for change in found.changes:
        moved = "no price with it" if change.price is None else f"{change.price:+,.2f}"
        yield f"    {moved}: {change.words(units)}"
    if not found.changes:
        yield "    nothing in the catalogues that moves its price has changed"


def _money(opened):
    return "none" if opened.price() is None else f"{opened.price():,.2f}"


