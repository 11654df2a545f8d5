"""`wetfilm learn`: what closed jobs teach, in words, in the catalogs' files, and as a report."""

import tempfile
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, log
from pathlib import Path
from statistics import fmean

from builder.files import put_all
from builder.jobs import open_job
from builder.learning.closed import BROKEN, CLOSED, Reading
from builder.learning.heard import Catalogs, named
from builder.learning.proposals import Kept, Proposal, outcomes_of, proposals
from builder.problems import Problem, Refused, errors
from builder.quantities import Units
from builder.records.overlay import load_catalogs
from builder.records.rewrite import Rewritten, rewritten
from builder.records.terms import DRIVERS
from builder.trade import learning

HELD = 0.8  # share of jobs between P10 and P90
RARE = 0.05  # chance below which it is not put down to chance
SHOWN = 6  # jobs that are named behind a proposal; the report names all


@dataclass(frozen=True)
class Driver:
    """One driver of cost over all closed jobs. bias: mean of actual over estimate less 1; inside: jobs between P10 and
    P90.
    """

    key: str
    jobs: int
    bias: float
    inside: int
    verdict: str


@dataclass(frozen=True)
class Taught:
    """What closed jobs teach: the readings of all books, in order; proposals, in order of the files."""

    readings: tuple[Reading, ...]
    proposals: tuple[Proposal, ...]
    kept: tuple[Kept, ...]
    drivers: tuple[Driver, ...]

    @property
    def closed(self) -> list[Reading]:
        return [one for one in self.readings if one.state == CLOSED]

    @property
    def broken(self) -> list[Reading]:
        return [one for one in self.readings if one.state == BROKEN]


def taught(readings: Sequence[Reading], folders: Sequence[Path]) -> Taught:
    """What the readings of books teach these catalogs. Refused where the catalogs have errors."""
    stock = load_catalogs(folders, Units())
    if errors(stock.problems):
        raise Refused(errors(stock.problems))
    closed = [one for one in readings if one.state == CLOSED]
    found, kept = proposals(closed, Catalogs(stock))
    drivers = (_driver(driver, closed) for driver in DRIVERS)
    return Taught(tuple(readings), tuple(found), tuple(kept), tuple(one for one in drivers if one.jobs))


def _driver(driver: str, closed: Sequence[Reading]) -> Driver:
    those = [one for _, one in outcomes_of(closed, driver)]
    inside = sum(one.inside for one in those)
    bias = exp(fmean(log(one.ratio) for one in those)) - 1 if those else 0.0
    return Driver(driver, len(those), bias, inside, _verdict(inside, len(those)))


def _verdict(inside: int, jobs: int) -> str:
    """Whether a range that is to hold eight jobs in ten does, as far as so many can tell."""
    if learning.chance_at_most(inside, jobs, HELD) < RARE:
        return "too narrow: it is to hold 8 in 10"
    if learning.chance_at_most(jobs - inside, jobs, 1 - HELD) < RARE:
        return "too wide: it is to hold 8 in 10"
    return "as it should be" if jobs >= learning.FEWEST else f"too few jobs to tell: {learning.FEWEST} are needed"


def report(found: Taught) -> Iterator[str]:
    """The lines that say what was learned."""
    for one in found.readings:
        if one.state != CLOSED:
            yield f"{one.book}: left out, {one.words}"
    yield f"{len(found.closed)} of {len(found.readings)} workbooks are of closed jobs"
    for driver in found.drivers:
        yield (
            f"{driver.key}: {100 * driver.bias:+.0f} % against the estimate; "
            f"{driver.inside} of {driver.jobs} between P10 and P90: {driver.verdict}"
        )
    behind: tuple[str, ...] = ()
    for proposal in found.proposals:
        yield from _in_words(proposal, behind)
        behind = proposal.jobs
    for kept in found.kept:
        yield f"{kept.what} {kept.why}"
    if not any(one.changes for one in found.proposals):
        yield "nothing to change in the catalogs"


def _in_words(one: Proposal, before: Sequence[str]) -> Iterator[str]:
    """before: the jobs behind the proposal before it, which are not named again."""
    change = f"{one.text} -> {one.new}" if one.changes else f"{one.text} stays"
    yield f"{one.mark.file}:{one.mark.line}: {one.what}: {change} ({_evidence(one)})"
    if one.jobs != before:
        yield f"    {_named(one.jobs)}"
    if one.left_out:
        yield f"    too far off to count: {_named(one.left_out)}"


def _evidence(one: Proposal) -> str:
    """'12 jobs, 90 % between 17 % and 21 %'"""
    jobs = len(one.jobs)
    return f"{jobs} job{'s' * (jobs > 1)}, 90 % between {one.low} and {one.high}"


def _named(jobs: Sequence[str]) -> str:
    more = f" and {len(jobs) - SHOWN} more" if len(jobs) > SHOWN else ""
    return ", ".join(Path(job).name for job in jobs[:SHOWN]) + more


def write(found: Taught, folders: Sequence[Path], today: str) -> list[str]:
    """Change the catalogs' files as proposed, and say what was changed. today: the date of the notes. Refused, and
    nothing changed, where the catalogs would have errors then.
    """
    files: defaultdict[Path, list[Rewritten]] = defaultdict(list)
    for one in found.proposals:
        if one.changes:
            change = Rewritten(one.mark, named(one.field), one.new, _evidence(one), one.was)
            files[Path(one.mark.file)].append(change)
    new = {path: rewritten(path.read_bytes(), those, today) for path, those in files.items()}
    _sound(new, folders)
    for path, data in new.items():
        put_all(path.parent, {path.name: data}, force=True)
    return [f"{path}: {len(those)} value{'s' * (len(those) > 1)} changed" for path, those in files.items()]


def _sound(new: dict[Path, bytes], folders: Sequence[Path]) -> None:
    """Refuses files with which the catalogs would have errors."""
    with tempfile.TemporaryDirectory() as place:
        tried = []
        for number, folder in enumerate(folders):
            tried.append(Path(place, str(number)))
            tried[-1].mkdir()
            for path in folder.glob("*.yaml"):
                (tried[-1] / path.name).write_bytes(new.get(path) or path.read_bytes())
        told = errors(open_job(None, tried).problems)
    if told:
        hint = "mend the catalogs first, or leave --write out"
        raise Refused([Problem(str(folders[-1]), 0, 0, f"not written: {one.message}", hint) for one in told])
