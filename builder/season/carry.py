"""Which nozzle sizes to keep on the van, so that a season's coats and its trips to the store cost least (E55)."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from builder.problems import Problem, Refused
from builder.quantities import Units
from builder.season.gathering import Coat, Season
from builder.trade.carrying import choices, saving

FURTHER = 3  # sizes beyond those asked for that are told


@dataclass(frozen=True)
class Van:
    """Some sizes on the van. cost: of all coats with them and the trips; above: by how much that is at most more than
    the least possible; in catalog money.
    """

    sizes: tuple[str, ...]
    cost: float
    above: float
    trips: tuple[Coat, ...]


def vans(season: Season, most: int) -> list[Van]:
    """The best van without sizes, with one, with two and so on: up to so many sizes, or until no further one saves."""
    coats = season.coats
    names = sorted({size for coat in coats for size in coat.costs})
    saved = tuple(
        tuple(
            saving(coat.fetch, coat.without() - coat.fetch, coat.costs[name]) if name in coat.costs else 0.0
            for coat in coats
        )
        for name in names
    )
    chosen = [_van(coats, (), 0.0)]
    for one in choices(saved, most) if names else ():
        chosen.append(_van(coats, tuple(names[size] for size in one.sizes), one.most - one.saved))
    return chosen


def _van(coats: list[Coat], sizes: tuple[str, ...], above: float) -> Van:
    cost = sum(coat.cost(sizes) for coat in coats)
    return Van(sizes, cost, above, tuple(coat for coat in coats if not coat.best(sizes)))


def report(season: Season, sizes: int) -> Iterator[str]:
    """The lines that say which sizes to carry, so many at most. Refused where no job was usable."""
    if not season.coats:
        raise Refused([Problem("carry", 0, 0, "no job has a sprayed coat to choose sizes for", "name other jobs")])
    found, units = vans(season, sizes + FURTHER), Units("us", season.currency)
    van = found[: sizes + 1][-1]
    left_out = f"; {season.alternates} of alternates are left out" if season.alternates else ""
    yield f"jobs: {season.jobs}; sprayed coats of their base: {len(season.coats)}{left_out}"
    yield f"carry: {', '.join(van.sizes) or 'nothing, no size saves more than a trip costs'}"
    yield f"coats and trips cost {units.amount(van.cost)} {units.currency}, {_sure(van, units)}"
    yield from _table(found, units)
    if len(found) <= sizes + FURTHER:
        yield "no further size saves anything"
    yield from _trips(van)


def _sure(van: Van, units: Units) -> str:
    """How sure it is that no other sizes, so many, cost less."""
    if van.above < units.money_step / 2:
        return "the least possible"
    return f"at most {units.amount(van.above)} above the least possible"


def _table(found: list[Van], units: Units) -> Iterator[str]:
    """A line for each number of sizes."""
    yield f"{'sizes':>7}{'cost':>15}{'the last saves':>16}{'trips':>7}  carried"
    for before, after in zip(found, found[1:]):
        money = f"{units.amount(after.cost):>15}{units.amount(before.cost - after.cost):>16}"
        sure = "" if after.above < units.money_step / 2 else f" ({_sure(after, units)})"
        yield f"{len(after.sizes):>7}{money}{len(after.trips):>7}  {', '.join(after.sizes)}{sure}"


def _trips(van: Van) -> Iterator[str]:
    if not van.trips:
        yield "no coat needs a trip to the store"
        return
    yield f"trips to the store: {len(van.trips)}, where no size carried fits or one costs more than the trip"
    fetched = Counter((coat.job, coat.words, min(coat.costs, key=coat.costs.__getitem__)) for coat in van.trips)
    for (job, words, size), count in fetched.items():
        yield f"    {job}: {words}: {count} for {size}"
