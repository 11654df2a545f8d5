"""The coats of a season's jobs: what each costs with every nozzle size that fits it, and what a trip for it costs.

Of each job the coats alone are kept, so that however many are gathered, one estimate is held at a time.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from builder.jobs import Opened
from builder.problems import WARNING, Problem, Refused
from builder.review.effects import is_book, opened
from builder.trade.carrying import trip


@dataclass(frozen=True)
class Coat:
    """One sprayed coat. costs: size -> paint, wages and wear with it; fetch: a trip to the store; in catalog money."""

    job: str
    words: str
    costs: dict[str, float]
    fetch: float

    def without(self) -> float:
        """What it costs with a trip, which brings the size that costs least."""
        return self.fetch + min(self.costs.values())

    def best(self, sizes: Iterable[str]) -> str:
        """The size that it takes, of some and those of a store; '' where none of the first is worth taking."""
        there = [size for size in sizes if size in self.costs]
        least = min(there, key=self.costs.__getitem__, default="")
        return least if least and self.costs[least] < self.without() else ""

    def cost(self, sizes: Iterable[str]) -> float:
        """What it costs with some sizes on the van."""
        size = self.best(sizes)
        return self.costs[size] if size else self.without()


@dataclass
class Season:
    """What was gathered. alternates: sprayed coats of alternates, which are left out; told: what was skipped, and why;
    failed: how many jobs of it count for nothing.
    """

    coats: list[Coat] = field(default_factory=list)
    jobs: int = 0
    alternates: int = 0
    failed: int = 0
    currency: str = ""
    told: list[Problem] = field(default_factory=list)
    known: set[Path] = field(default_factory=set)

    def take(self, found: "Gathered") -> None:
        """Add what was gathered of a job; one that gives no coats to reckon with is told."""
        path = Path(found.path).resolve()
        if path in self.known:
            self.told.append(Problem(found.path, 0, 0, "named twice: it counts once", severity=WARNING))
            return
        self.known.add(path)
        self.currency = self.currency or found.currency
        problems = list(found.problems)
        if not problems and found.currency != self.currency:
            words = f"its catalogs are in {found.currency}, those of the jobs before in {self.currency}"
            problems = [Problem(found.path, 0, 0, words, "left out; carry jobs of one currency")]
        if problems:
            self.told += problems
            self.failed += 1
            return
        self.coats += found.coats
        self.alternates += found.alternates
        self.jobs += 1


@dataclass(frozen=True)
class Gathered:
    """Of one job: its sprayed coats of the base, how many there are of alternates, and the catalogs' currency; or the
    problems for which it is left out.
    """

    path: str
    coats: tuple[Coat, ...] = ()
    alternates: int = 0
    currency: str = ""
    problems: tuple[Problem, ...] = ()


def gathered(path: str, catalogs: Iterable[str | Path]) -> Gathered:
    """What a job file or a workbook adds to a season. Nothing is raised for a fault of its file."""
    try:
        one = opened(path, catalogs)
        _usable(path, one)
    except Refused as refused:
        return Gathered(path, problems=tuple(refused.problems))
    found = list(_coats(path, one))
    base = tuple(coat for coat, base in found if base)
    return Gathered(path, base, len(found) - len(base), str(one.estimate.terms.currency))


def _usable(path: str, one: Opened) -> None:
    """Refused where a job has no price or no trips."""
    terms = one.estimate.terms
    if one.price() is None:
        raise Refused([Problem(path, 0, 0, one.summary(), "left out; make it ready first")])
    if terms.trip_time is None and terms.trip_cost is None:
        where = "on its sheet Terms" if is_book(path) else "under 'travel:' of the terms"
        hint = f"left out; enter the two lines of a trip to the store, trip_time and trip_cost, {where}"
        raise Refused([Problem(path, 0, 0, "its terms do not say what a trip to the store costs", hint)])


def _coats(path: str, one: Opened) -> Iterator[tuple[Coat, bool]]:
    """The sprayed coats of a job, and whether each is of the base. Sizes are those that its goal lets in (E16, E17)."""
    est, sizes = one.estimate, one.estimate.rows["nozzles"]
    for entry, coat, pick in zip(est.rows["coats"], est.rows["film"], est.rows["picks"]):
        if not (coat.sprayed and coat.surface_coats and pick.fitting):
            continue
        tried = est.rows["trials"][(coat.no - 1) * len(sizes) : coat.no * len(sizes)]
        costs = {
            size.known: row.cost * coat.surface_coats
            for row, size in zip(tried, sizes)
            if row.against == 0 and size.orifice <= pick.coarsest
        }
        fetch = trip(est.terms.trip_cost or 0.0, est.terms.trip_time or 0.0, coat.wage)
        tag = f"coat {coat.no}" if entry.tag is None else est.judge.as_text(entry.tag)
        words = f"{tag}, {coat.system}, {coat.coating}"
        yield Coat(path, words, costs, fetch), coat.only == 0
