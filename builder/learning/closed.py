"""What is kept of the workbook of a closed job: the few rows that teach something."""

from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import Any

from builder.stages.estimate import Estimate
from builder.values import same, to_date

CLOSED, OPEN, TWICE, BROKEN = "closed", "not closed", "twice", "broken"  # what came of a book
PAINT = ("coating", "color")
OUT_OF_PLAN = ("waiting", "breaks", "lost time")  # words of the log for time of nothing that is planned


@dataclass(frozen=True)
class Target:
    """One value of the catalogs: the kind, the record's name ('' of Terms), the key of the field."""

    kind: str
    record: str
    key: str


@dataclass(frozen=True)
class Lesson:
    """What one job says of one value: the value itself, in SI, as that job bears it out.

    weight: what it counts for, 1 for a job with enough of it; beside: another value of the catalogs that may be the
    reason instead; turn: -1 where that one goes down as this goes up.
    """

    target: Target
    value: float
    weight: float
    beside: Target | None = None
    turn: int = 1


@dataclass(frozen=True)
class Outcome:
    """Of one driver of cost, what a job took against its estimate, in SI; the P10 and P90 it was priced with."""

    driver: str
    estimate: float
    actual: float
    low: float
    high: float

    @property
    def ratio(self) -> float:
        return self.actual / self.estimate

    @property
    def inside(self) -> bool:
        return self.low <= self.ratio <= self.high


@dataclass(frozen=True)
class Reading:
    """What one workbook says: state is one of the four above, words why it does not count."""

    book: str
    state: str
    words: str = ""
    name: str = ""
    system: str = "us"  # of its units
    crew: str = ""
    closed_on: float = 0.0  # day number
    digest: str = ""  # of what was signed and logged: the same for two copies of one book
    lessons: tuple[Lesson, ...] = ()
    outcomes: tuple[Outcome, ...] = ()

    @property
    def day(self) -> str:
        return to_date(self.closed_on).isoformat()


@dataclass(frozen=True)
class Logged:
    """One row of the log that counts. step: the row of the signed plan, if any; coat, task: the rows that it stands
    for, 0 for none; paid [s], used and area in SI.
    """

    day: float
    words: str
    step: Any
    coat: int
    task: int
    people: float
    paid: float
    used: float
    area: float
    entry: Any


def _coats(est: Estimate) -> dict[int, int]:
    """Row of the signed plan -> row of its coat: by the tag, else the only coat left of its coating and color."""
    planned = {int(row.no): row for row in est.rows["signed"] if row.sound and row.coating is not None}
    coats = {int(row.no): row for row in est.rows["coats"] if row.sound}
    times = Counter(same(row.tag) for row in coats.values())
    found = {
        at: no
        for at, step in planned.items()
        for no, coat in coats.items()
        if same(coat.tag) == same(step.tag) and times[same(coat.tag)] == 1
    }
    for at, step in planned.items():
        left = [
            no
            for no, coat in coats.items()
            if no not in found.values() and all(same(getattr(coat, key)) == same(getattr(step, key)) for key in PAINT)
        ]
        if at not in found and len(left) == 1:
            found[at] = left[0]
    return found


def _tasks(est: Estimate) -> dict[int, int]:
    """Row of the signed plan -> row of its task, by its words ('Mask openings, Cladding'): of like ones in their
    order.
    """
    named: defaultdict[str, list[int]] = defaultdict(list)
    for row in est.rows["tasks"]:
        if row.sound:
            words = [est.judge.as_text(part) for part in (row.task, row.system) if part is not None]
            named[same(", ".join(words))].append(int(row.no))
    found: dict[int, int] = {}
    for step in est.rows["signed"]:
        if step.sound and step.coating is None and (left := named.get(same(est.judge.as_text(step.what or "")))):
            found[int(step.no)] = left.pop(0)
    return found


def log_of(est: Estimate) -> list[Logged]:
    """The rows of the log that are sound, each with the coat or task that it was planned for."""
    coats, tasks = _coats(est), _tasks(est)
    found = []
    for line, entry in zip(est.rows["log_lines"], est.rows["log"]):
        if line.live:
            step = est.row("signed", line.plan_at)
            found.append(
                Logged(
                    line.day,
                    same(est.judge.as_text(entry.tag)),
                    step,
                    coats.get(line.plan_at, 0),
                    tasks.get(line.plan_at, 0),
                    line.people,
                    line.paid,
                    line.used,
                    line.area,
                    entry,
                )
            )
    return found
