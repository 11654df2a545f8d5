"""From the lessons of many jobs to proposals: each value of the catalogs shrunk towards what stands there, by the
evidence (E56). Nothing is written here.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log

from builder.documents import Mark
from builder.learning.closed import Outcome, Reading, Target
from builder.learning.heard import Catalogs, heard
from builder.records.fields import Field
from builder.records.kinds import KINDS
from builder.records.rewrite import like
from builder.records.rules import Between
from builder.records.terms import DRIVERS
from builder.trade import learning, risk

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


def proposals(readings: Sequence[Reading], catalogs: Catalogs) -> tuple[list[Proposal], list[Kept]]:
    """What closed jobs propose, in order of the files, and what stays all the same."""
    found: list[Proposal] = []
    for target, one in heard(readings, catalogs).items():
        if one.said:
            jobs = tuple(dict.fromkeys(said.job for said in one.said))
            out = tuple(said.job for said, weight in zip(one.said, one.found.weights) if weight == 0)
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
