"""From the lessons of many jobs to proposals: each value of the catalogs shrunk towards what stands there, by the
evidence (E56). Nothing is written here.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log
from pathlib import Path

from builder.documents import Mark
from builder.learning.closed import Lesson, Outcome, Reading, Target
from builder.problems import BadValue
from builder.quantities import Units
from builder.records.fields import Field
from builder.records.kinds import CATALOGS, KINDS
from builder.records.load import Loaded
from builder.records.overlay import label
from builder.records.rewrite import as_written, before, like, lines_of
from builder.records.rules import Between
from builder.records.terms import DRIVERS
from builder.trade import learning, risk
from builder.values import same

# The driver of Terms whose spread says how far jobs scatter in a value.
SCATTER = {"loss": "material", "hand_loss": "material", "life": "wear", "abrasion": "wear"}
LOST, SPELL = "lost_", 4.0  # bad days come in spells: ten days of a month are worth so many that are independent
ROUNDS = 3  # of a value and of what may be the reason instead, one after the other
SCORE_OF_TENTH = risk.DECILES / 2  # standard deviations from the middle to P10 and P90


@dataclass(frozen=True)
class Proposal:
    """A value of the catalogs and what jobs make of it. text, new: as the file writes them; low, high: of 90 %, alike;
    was: before anything was learned; jobs: those behind it; left_out: those too far off to count.
    """

    target: Target
    field: Field
    mark: Mark
    text: str
    was: str
    new: str
    low: str
    high: str
    evidence: float
    jobs: tuple[str, ...]
    left_out: tuple[str, ...]

    @property
    def changes(self) -> bool:
        return self.new != self.text

    @property
    def what(self) -> str:
        kind = KINDS[self.target.kind]
        return f"{self.target.record or kind.title}, {self.field.title}"


@dataclass(frozen=True)
class Kept:
    """A value that stays though jobs speak of it, and why."""

    what: str
    why: str


class Catalogs:
    """The catalogs that are to learn: each value with its place, as it is written and as it was before."""

    def __init__(self, stock: Loaded) -> None:
        self.stock = stock
        self.rows = {
            (kind.key, "" if kind.upright else same(label(kind, values))): row
            for kind in CATALOGS
            for row, values in enumerate(stock.values[kind.key])
        }
        self._lines: dict[str, list[str]] = {}

    def mark(self, target: Target) -> Mark | None:
        """Where it stands; None where the catalogs have no such record, or it is blank."""
        row = self.rows.get((target.kind, same(target.record)))
        if row is None or self.stock.values[target.kind][row].get(target.key) is None:
            return None
        return self.stock.marks[target.kind][row].get(target.key)

    def lines(self, file: str) -> list[str]:
        if file not in self._lines:
            self._lines[file] = lines_of(Path(file).read_bytes())
        return self._lines[file]

    def texts(self, mark: Mark, field: Field) -> tuple[str, str]:
        """(text of a value, text before anything was learned), without quotes."""
        lines = self.lines(mark.file)
        return as_written(lines, mark).strip("'\""), before(lines, mark, named(field)).strip("'\"")

    def first(self, target: Target) -> float:
        """The value before anything was learned. BadValue where its text cannot be read."""
        mark, field = self.mark(target), KINDS[target.kind].field_of[target.key]
        if mark is None:
            raise BadValue("it is not in the catalogs")
        return Units().parse(self.texts(mark, field)[1], field.quantity, field.unmarked)

    def sigma(self, driver: str) -> float:
        """Scatter of jobs in a driver of cost, as Terms stated it."""
        low, high = (self.first(Target("terms", "", f"{driver}_{end}")) for end in ("low", "high"))
        return risk.sigma(low, high)


def named(field: Field) -> str:
    """A field as its file calls it: 'loss', 'time.low'."""
    return ".".join((field.path or field.key).split(".")[-2:])


@dataclass(frozen=True)
class _Scale:
    """How a value is compared with the catalog's: as a step that has no bounds, and back."""

    kind: str  # log, kept (of what is not lost), share
    first: float
    sigma: float

    def step(self, value: float) -> float | None:
        """None where a value cannot be."""
        if self.kind == "share":
            return value - self.first
        one, other = (1 - value, 1 - self.first) if self.kind == "kept" else (value, self.first)
        return log(one / other) if one > 0 and other > 0 else None

    def value(self, step: float) -> float:
        if self.kind == "share":
            return self.first + step
        return 1 - (1 - self.first) * exp(step) if self.kind == "kept" else self.first * exp(step)


def _scale(catalogs: Catalogs, target: Target) -> _Scale | None:
    """None where the catalogs have no such value, or nothing to compare with."""
    try:
        first = catalogs.first(target)
        if target.key.startswith(LOST):
            share = min(0.9, max(0.05, first))
            return _Scale("share", first, (share * (1 - share) / SPELL) ** 0.5)
        sigma = catalogs.sigma(SCATTER.get(target.key, "time"))
    except BadValue:
        return None
    if target.key in ("loss", "hand_loss"):
        return _Scale("kept", first, sigma)
    return _Scale("log", first, sigma) if first > 0 else None


@dataclass
class _Heard:
    """What jobs say of one value: (job, step, the lesson), and what is learned."""

    scale: _Scale
    said: list[tuple[str, float, Lesson]]
    found: learning.Learned


Steps = dict[Target, _Heard]


def _learn(said: Sequence[tuple[str, float, Lesson]], scale: _Scale) -> learning.Learned:
    steps = tuple(step for _, step, _ in said)
    return learning.learn(steps, tuple(lesson.weight for _, _, lesson in said), scale.sigma)


def heard(readings: Sequence[Reading], catalogs: Catalogs) -> Steps:
    """What all closed jobs say of each value that the catalogs have, the reasons beside it told apart."""
    found: Steps = {}
    for target, lessons in _by_target(readings).items():
        scale = _scale(catalogs, target)
        if scale:
            said = [(job, step, one) for job, one in lessons if (step := scale.step(one.value)) is not None]
            found[target] = _Heard(scale, said, _learn(said, scale))
    reasons = _reasons(found, catalogs)
    for _ in range(ROUNDS if reasons else 0):
        for reason, heard_of in reasons.items():
            heard_of.said = [
                (job, lesson.turn * (step - one.found.step), lesson)
                for one in found.values()
                for job, step, lesson in one.said
                if lesson.beside == reason
            ]
            heard_of.found = _learn(heard_of.said, heard_of.scale)
        for one in found.values():
            freed = [
                (
                    job,
                    step - lesson.turn * reasons[lesson.beside].found.step if lesson.beside in reasons else step,
                    lesson,
                )
                for job, step, lesson in one.said
            ]
            one.found = _learn(freed, one.scale)
    return found | reasons


def _by_target(readings: Sequence[Reading]) -> dict[Target, list[tuple[str, Lesson]]]:
    found: defaultdict[Target, list[tuple[str, Lesson]]] = defaultdict(list)
    for reading in readings:
        for lesson in reading.lessons:
            found[lesson.target].append((reading.book, lesson))
    return found


def _reasons(found: Steps, catalogs: Catalogs) -> Steps:
    """The values that may be the reason instead, of those that enough jobs speak of, with as many others beside them
    that did the same: a crew that alone paints a surface cannot be told from it.
    """
    jobs: defaultdict[Target, set[str]] = defaultdict(set)
    others: defaultdict[Target, set[str]] = defaultdict(set)
    for one in found.values():
        for reason in {lesson.beside for _, _, lesson in one.said if lesson.beside}:
            for job, _, lesson in one.said:
                (jobs if lesson.beside == reason else others)[reason].add(job)
    return {
        target: _Heard(scale, [], _learn([], scale))
        for target, those in jobs.items()
        if min(len(those), len(others[target])) >= learning.FEWEST and (scale := _scale(catalogs, target))
    }


def proposals(readings: Sequence[Reading], catalogs: Catalogs) -> tuple[list[Proposal], list[Kept]]:
    """What closed jobs propose, in order of the files, and what stays all the same."""
    found: list[Proposal] = []
    for target, one in heard(readings, catalogs).items():
        if one.said:
            jobs = tuple(dict.fromkeys(job for job, _, _ in one.said))
            out = tuple(job for (job, _, _), weight in zip(one.said, one.found.weights) if weight == 0)
            ends = sorted(map(one.scale.value, (one.found.low, one.found.high)))
            found.append(
                _proposal(catalogs, target, one.scale.value(one.found.step), ends, one.found.evidence, jobs, out)
            )
    spreads, kept = _spreads(readings, catalogs)
    return sorted([*found, *spreads], key=lambda one: (one.mark.file, one.mark.line, one.mark.column)), kept


def _proposal(
    catalogs: Catalogs,
    target: Target,
    value: float,
    ends: Sequence[float],
    evidence: float,
    jobs: tuple[str, ...],
    left_out: tuple[str, ...],
) -> Proposal:
    """One value as a proposal, within the limits of its field."""
    field, mark = KINDS[target.kind].field_of[target.key], catalogs.mark(target)
    assert mark  # it was compared with what stands there
    text, was = catalogs.texts(mark, field)
    if isinstance(field.rule, Between):
        low, high = field.rule.limits()
        value, ends = min(high, max(low, value)), [min(high, max(low, end)) for end in ends]
    new, *told = (like(was, one, field.quantity) for one in (value, *ends))
    return Proposal(target, field, mark, text, was, new, told[0], told[1], evidence, jobs, left_out)


def outcomes_of(readings: Sequence[Reading], driver: str) -> list[tuple[Reading, Outcome]]:
    """(job, what it took) of one driver."""
    return [(one, outcome) for one in readings for outcome in one.outcomes if outcome.driver == driver]


def _spreads(readings: Sequence[Reading], catalogs: Catalogs) -> tuple[list[Proposal], list[Kept]]:
    """P10 and P90 of each driver, once there are jobs enough: their distance is that of the jobs. Their middle stays:
    what moves it is learned in surfaces and tasks.
    """
    found: list[Proposal] = []
    kept: list[Kept] = []
    for driver in DRIVERS:
        those = outcomes_of(readings, driver)
        jobs = tuple(one.book for one, _ in those)
        if 0 < len(jobs) < learning.FEWEST:
            chance = learning.worst_above(len(jobs))
            kept.append(Kept(f"Terms, {driver}, P10 and P90", _few(len(jobs), chance)))
        targets = [Target("terms", "", f"{driver}_{end}") for end in ("low", "high")]
        if len(jobs) < learning.FEWEST or not all(map(catalogs.mark, targets)):
            continue
        ends = [catalogs.first(target) for target in targets]
        stated, middle = risk.sigma(*ends), risk.mu(*ends)
        learned = learning.learn([log(one.ratio) - middle for _, one in those], [1.0] * len(jobs), stated)
        out = tuple(job for job, weight in zip(jobs, learned.weights) if weight == 0)
        for target, side in zip(targets, (-1, 1)):
            span = [exp(middle + side * SCORE_OF_TENTH * scatter) for scatter in _scatters(learned)]
            found.append(_proposal(catalogs, target, span[1], sorted(span[::2]), learned.evidence, jobs, out))
    return found, kept


def _scatters(found: learning.Learned) -> tuple[float, float, float]:
    """Low end, scatter, high end of 90 %: the standard deviation of a standard deviation is 1 / sqrt(2 n) of it, with
    what the stated one is worth among the jobs.
    """
    doubt = learning.SCORE / (2 * (learning.KNOWN + learning.EFFICIENT * found.evidence)) ** 0.5
    return found.scatter * exp(-doubt), found.scatter, found.scatter * exp(doubt)


def _few(jobs: int, chance: float) -> str:
    return (
        f"stay: {jobs} job{'s' * (jobs > 1)} of the {learning.FEWEST} that are needed; "
        f"the worst of {jobs} lies above the true P90 in {100 * chance:.0f} of 100 cases only"
    )
