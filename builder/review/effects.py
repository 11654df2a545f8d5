"""What differences between two estimates of a job do to its results, each alone and all together."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.jobs import Opened, open_job
from builder.problems import Refused
from builder.quantities import Units
from builder.records.differ import Difference
from builder.returned.read import returned
from builder.returned.taken import taken
from builder.stages.estimate import Estimate


@dataclass(frozen=True)
class Effect:
    """A difference, and by how much it alone moves the price; None where it leaves no price, or there was none."""

    difference: Difference
    price: float | None

    def words(self, units: Units) -> str:
        moved = (
            "no price"
            if self.price is None
            else "price unchanged"
            if self.price == 0
            else units.amount(self.price, "+")
        )
        return f"{moved}: {self.difference.words(units)}"


def effects(before: Opened, differences: Iterable[Difference]) -> list[Effect]:
    """The Effect of each difference on an Opened job, those that move the price most first."""
    price, capacity = before.price(), before.estimate.capacity
    found: list[Effect] = []
    for difference in differences:
        values = {**before.values, difference.block: list(difference.rows)}
        alone = Opened({}, before.units, {}, Estimate(values, before.units, capacity), []).price()
        found.append(Effect(difference, None if price is None or alone is None else alone - price))
    return sorted(found, key=lambda one: float("-inf") if one.price is None else -abs(one.price))


def is_book(path: str | Path) -> bool:
    return Path(path).suffix.lower() == ".xlsx"


def opened(path: str | Path, catalogs: Iterable[str | Path]) -> Opened:
    """A job file with the catalogs in force, or a workbook with those inside it. Refused where it has problems of a
    file.
    """
    if is_book(path):
        return taken(returned(path, inputs_alone=True), formulas=False).opened
    one = open_job(path, catalogs)
    if one.errors:
        raise Refused(one.errors)
    return one


def moved(before: Opened, after: Opened) -> float:
    """By how much the price moves; 0 where either is missing."""
    was, now = before.price(), after.price()
    return 0.0 if was is None or now is None else now - was


def _money(one: Opened) -> str:
    price = one.price()
    return "none" if price is None else one.units.amount(price)


def _figure(value: float | None, pattern: str = "{:,.4g}") -> str:
    return "none" if value is None else pattern.format(value)


def results(before: Opened, after: Opened) -> Iterator[tuple[str, str, str, str]]:
    """(what, before, after, unit) of what an estimate comes to."""
    units = before.units
    days = [one.estimate.rows["days"][0] for one in (before, after)]
    yield "price", _money(before), _money(after), units.currency
    yield "to buy", f"{before.gallons():,.4g}", f"{after.gallons():,.4g}", units.shown("volume")
    hours = [_figure(None if one.labor is None else units.to_cell(one.labor, "time")) for one in days]
    yield "labor", hours[0], hours[1], units.shown("time")
    yield "days", _figure(days[0].days), _figure(days[1].days), ""


def nozzles(before: Opened, after: Opened) -> list[tuple[str, str, str]]:
    """(coat in words, nozzle before, nozzle after) of coats of the same system and coating whose nozzle changes."""

    def picked(one: Opened) -> dict[tuple[str, str, str | None, int], str | None]:
        return {
            (coat.system, coat.coating, coat.color, coat.no): pick.nozzle
            for coat, pick in zip(one.estimate.rows["coats"], one.estimate.rows["picks"])
            if coat.sound
        }

    old, new = picked(before), picked(after)
    return [
        (f"coat {key[3]}, {key[0]}, {key[1]}", old[key] or "none", new[key] or "none")
        for key in old
        if key in new and old[key] != new[key]
    ]
