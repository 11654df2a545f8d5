"""What differences between two estimates of a job do to its results, each alone and all together."""
from dataclasses import dataclass
from pathlib import Path

from builder.jobs import Opened, open_job
from builder.problems import Refused
from builder.records.differ import Difference
from builder.returned.read import returned
from builder.returned.taken import taken
from builder.stages.estimate import Estimate


@dataclass(frozen=True)
class Effect:
    """A difference, and by how much it alone moves the price; None where it leaves no price, or there was none."""

    difference: Difference
    price: float | None

    def words(self, units):
        moved = "no price" if self.price is None else "price as it was" if self.price == 0 else units.amount(self.price, "+")
        return f"{moved}: {self.difference.words(units)}"


def effects(before, differences):
    """The Effect of each difference on an Opened job, those that move the price most first."""
    price, capacity, found = before.price(), before.estimate.capacity, []
    for difference in differences:
        values = {**before.values, difference.block: list(difference.rows)}
        alone = Opened({}, before.units, {}, Estimate(values, before.units, capacity), []).price()
        found.append(Effect(difference, None if price is None or alone is None else alone - price))
    return sorted(found, key=lambda one: float("-inf") if one.price is None else -abs(one.price))


def is_book(path):
    return Path(path).suffix.lower() == ".xlsx"


def opened(path, catalogs):
    """A job file with the catalogs in force, or a workbook with those inside it. Refused where it has problems of a file."""
    if is_book(path):
        return taken(returned(path)).opened
    one = open_job(path, catalogs)
    if one.errors:
        raise Refused(one.errors)
    return one


def moved(before, after):
    """By how much the price moves; 0 where either is missing."""
    return 0.0 if before.price() is None or after.price() is None else after.price() - before.price()


def _money(one):
    return "none" if one.price() is None else one.units.amount(one.price())


def _figure(value, pattern="{:,.4g}"):
    return "none" if value is None else pattern.format(value)


def results(before, after):
    """(what, before, after, unit) of what an estimate comes to."""
    units = before.units
    days = [one.estimate.rows["days"][0] for one in (before, after)]
    yield "price", _money(before), _money(after), units.currency
    yield "to buy", f"{before.gallons():,.4g}", f"{after.gallons():,.4g}", units.shown("volume")
    yield "labor", *(_figure(None if one.labor is None else units.to_cell(one.labor, "time")) for one in days), units.shown("time")
    yield "days", *(_figure(one.days) for one in days), ""


def nozzles(before, after):
    """(coat in words, nozzle before, nozzle after) of coats of the same system and coating whose nozzle changes."""
    def picked(one):
        return {(coat.system, coat.coating, coat.color, coat.no): pick.nozzle for coat, pick in zip(one.estimate.rows["coats"], one.estimate.rows["picks"])
                if coat.sound}
    old, new = picked(before), picked(after)
    return [(f"coat {key[3]}, {key[0]}, {key[1]}", old[key] or "none", new[key] or "none") for key in old if key in new and old[key] != new[key]]
