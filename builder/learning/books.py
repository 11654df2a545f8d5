"""Workbooks of many jobs, read side by side on all cores; each leaves nothing but its few rows behind."""

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from builder.jobs import Opened
from builder.learning.closed import BROKEN, CLOSED, OPEN, TWICE, Reading, log_of
from builder.learning.evidence import lessons, outcomes
from builder.problems import Problem, Refused
from builder.returned.read import returned
from builder.returned.taken import taken
from builder.side_by_side import each


def books_in(paths: Iterable[str | Path]) -> list[str]:
    """The workbooks at some paths, folders with all below them; each once, in order. Refused where there are none."""
    found: list[str] = []
    for path in map(Path, paths):
        inside = sorted(path.rglob("*.xlsx")) if path.is_dir() else [path]
        found += [str(one) for one in inside if not one.name.startswith(("~$", ".~lock"))]
    if not found:
        words = "no workbook (*.xlsx) in this folder"
        raise Refused([Problem(str(path), 0, 0, words, "name a folder of closed jobs") for path in paths])
    return list(dict.fromkeys(found))


def reading(path: str) -> Reading:
    """What the workbook at a path teaches. Nothing is raised: one that cannot be read says why."""
    try:
        opened = taken(returned(path, inputs_alone=True), formulas=False).opened
        job = opened.estimate.job
        start = Reading(path, OPEN, name=str(job.name or Path(path).stem), system=opened.units.system)
        if job.closed_on is None:
            return replace(start, words="not closed: enter the day under Closed on (Job)")
        if opened.price() is None:
            return replace(start, state=BROKEN, words=opened.summary())
        log = log_of(opened.estimate)
        if not any(row.step for row in log):
            return replace(start, words="nothing of its signed plan is logged")
        return replace(
            start,
            state=CLOSED,
            crew=str(opened.estimate.row("crews", opened.estimate.basics.crew_at).name),
            closed_on=job.closed_on,
            digest=_digest(opened),
            lessons=tuple(lessons(opened.estimate, log)),
            outcomes=tuple(outcomes(opened.estimate, log)),
        )
    except Refused as refused:
        return Reading(path, BROKEN, "; ".join(problem.message for problem in refused.problems[:1]))
    except Exception as error:  # one book among hundreds: it is told, and the others go on
        return Reading(path, BROKEN, f"cannot be read: {type(error).__name__}")


def _digest(opened: Opened) -> str:
    """Of what was signed and logged, whatever the file is called."""
    told = repr([opened.values[key] for key in ("signed", "log")] + [opened.values["job"][0].get("closed_on")])
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def readings(books: Sequence[str], processes: int | None = None) -> Iterator[Reading]:
    """What each workbook says, in their order. processes: how many at a time; None: as many as there are cores."""
    return each(reading, books, processes)


def each_once(readings: Iterable[Reading]) -> Iterator[Reading]:
    """The readings, of copies of one job the first alone as closed."""
    first: dict[str, str] = {}
    for one in readings:
        if one.state == CLOSED and first.setdefault(one.digest, one.book) != one.book:
            one = replace(one, state=TWICE, words=f"the same log as {first[one.digest]}", lessons=(), outcomes=())
        yield one
