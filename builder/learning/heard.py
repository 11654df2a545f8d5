"""What jobs say of each value of the catalogs, beside what stood there before anything was learned (E56)."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import exp, log
from pathlib import Path

from builder.documents import Mark
from builder.learning.closed import Lesson, Reading, Target
from builder.problems import BadValue
from builder.quantities import Units
from builder.records.fields import Field
from builder.records.kinds import CATALOGS, KINDS
from builder.records.load import Loaded
from builder.records.overlay import label
from builder.records.rewrite import as_written, before, lines_of
from builder.trade import learning, risk
from builder.values import same

# The driver of Terms whose spread says how far jobs scatter in a value.
SCATTER = {"loss": "material", "hand_loss": "material", "life": "wear", "abrasion": "wear"}
LOST, SPELL = "lost_", 4.0  # bad days come in spells: ten days of a month are worth so many that are independent
ROUNDS = 3  # of a value and of what may be the reason instead, one after the other


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


@dataclass(frozen=True)
class _Said:
    """What one job says of one value, as a step; what may be the reason instead, and which way that goes."""

    job: str
    step: float
    weight: float
    reason: Target | None = None
    turn: int = 1


@dataclass
class _Heard:
    """What jobs say of one value, and what is learned of it."""

    scale: _Scale
    said: list[_Said]
    found: learning.Learned


Steps = dict[Target, _Heard]


def _learn(said: Sequence[_Said], scale: _Scale) -> learning.Learned:
    return learning.learn(tuple(one.step for one in said), tuple(one.weight for one in said), scale.sigma)


def heard(readings: Sequence[Reading], catalogs: Catalogs) -> Steps:
    """What all closed jobs say of each value that the catalogs have, the reasons beside it told apart."""
    found: Steps = {}
    for target, lessons in _by_target(readings).items():
        scale = _scale(catalogs, target)
        if scale:
            said = [
                _Said(job, step, one.weight, one.beside, one.turn)
                for job, one in lessons
                if (step := scale.step(one.value)) is not None
            ]
            found[target] = _Heard(scale, said, _learn(said, scale))
    reasons = _reasons(found, catalogs)
    for _ in range(ROUNDS if reasons else 0):
        for reason, one in reasons.items():
            one.said = _left_for(reason, found)
            one.found = _learn(one.said, one.scale)
        for one in found.values():
            one.found = _learn([_freed(said, reasons) for said in one.said], one.scale)
    return found | reasons


def _freed(said: _Said, reasons: Steps) -> _Said:
    """What is left of it beside its reason."""
    if said.reason not in reasons:
        return said
    return replace(said, step=said.step - said.turn * reasons[said.reason].found.step)


def _left_for(reason: Target, found: Steps) -> list[_Said]:
    """What the values leave for a reason, each job once."""
    left: defaultdict[str, list[tuple[float, float]]] = defaultdict(list)
    for one in found.values():
        for said in one.said:
            if said.reason == reason:
                left[said.job].append((said.weight, said.turn * (said.step - one.found.step)))
    return [
        _Said(job, sum(weight * step for weight, step in those) / whole, min(1.0, whole))
        for job, those in left.items()
        if (whole := sum(weight for weight, _ in those))
    ]


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
        for reason in {said.reason for said in one.said if said.reason}:
            for said in one.said:
                (jobs if said.reason == reason else others)[reason].add(said.job)
    return {
        target: _Heard(scale, [], _learn([], scale))
        for target, those in jobs.items()
        if min(len(those), len(others[target])) >= learning.FEWEST and (scale := _scale(catalogs, target))
    }
