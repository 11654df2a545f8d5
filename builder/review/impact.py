"""What a change of the catalogs does to jobs: gallons, nozzles and price before and after, and which value did it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.jobs import Opened
from builder.problems import Refused, errors
from builder.records.differ import differences
from builder.records.kinds import CATALOGS
from builder.records.overlay import load_catalogs
from builder.review.effects import Effect, effects, moved, nozzles, opened, results
from builder.stages.estimate import Estimate


@dataclass(frozen=True)
class Impact:
    """One job before and after, and the changed values that moved its price, largest first."""

    name: str
    before: Opened
    after: Opened
    changes: tuple[Effect, ...]

    def moved(self) -> float:
        return moved(self.before, self.after)


def impact(path: str | Path, catalogs: Iterable[str | Path], new_catalogs: Sequence[str | Path]) -> Impact:
    """What the new catalogs do to one job file or workbook."""
    before = opened(path, catalogs)
    stock = load_catalogs(new_catalogs, before.units)
    if errors(stock.problems):
        raise Refused(errors(stock.problems))
    values = before.values | {kind.key: stock.values[kind.key] for kind in CATALOGS}
    after = Opened(values, before.units, before.settings, Estimate(values, before.units, before.estimate.capacity), [])
    changes = tuple(
        effect for effect in effects(before, differences(CATALOGS, before.values, values)) if effect.price != 0
    )
    return Impact(str(path), before, after, changes)


def report(found: Impact) -> Iterator[str]:
    """The lines that say one impact in words."""
    (_, *price, currency), (_, *bought, volume), *_ = results(found.before, found.after)
    yield f"{found.name}: price {price[0]} -> {price[1]} {currency}, {bought[0]} -> {bought[1]} {volume} to buy"
    for coat, old, new in nozzles(found.before, found.after):
        yield f"    {coat}: nozzle {old} -> {new}"
    for change in found.changes:
        yield f"    {change.words(found.before.units)}"
    if not found.changes:
        yield "    no change in the catalogs moves its price"
