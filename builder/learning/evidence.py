"""From an estimate and its log to lessons: what each value of the catalogs would have to be for this job to come out as
it did (E56).

Time beside the trigger and rates from hours that are paid over those of the plan, for the area that was done; loss only
from days on which the wet film was read, for without it more film and more loss look alike; life of a nozzle from fans
that were measured.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from builder.learning.closed import OUT_OF_PLAN, Lesson, Logged, Outcome, Target
from builder.learning.site import days_lost
from builder.stages.estimate import Estimate
from builder.trade import wear

DAY = 8 * 3600.0  # s of paid hours from which on a job counts whole for a surface or task
PAIL = 5 * 231 * 0.0254**3  # m3 of paint from which on it counts whole for a loss
WORN, QUARTER = 0.1, 0.25  # wear that a fan must show to say anything, and to count whole
LEAST = 0.05  # of what was planned for a part, that the rest of a sum may leave for it
RATES = ("area_rate", "length_rate", "length_rate", "count_rate", "", "", "hours_each", "area_rate")  # by basis
VISIT, COLOR = 5, 6  # places of these bases


def lessons(est: Estimate, log: Sequence[Logged]) -> Iterator[Lesson]:
    """All that a closed job teaches."""
    work = _work_of_an_hour(est, log)
    coats = _by(log, "coat")
    yield from _joined([one for no, rows in coats.items() for one in _coat_hours(est, no, rows, work)])
    yield from _joined([one for no, rows in _by(log, "task").items() for one in _task_hours(est, no, rows, work)])
    yield from _joined([one for no, rows in coats.items() for one in _loss(est, no, rows)])
    yield from _joined([one for rows in _by_kit(log).values() for one in _life(est, rows)])
    yield from _lost_time(est, log)
    yield from days_lost(est, {row.day for row in log})


def outcomes(est: Estimate, log: Sequence[Logged]) -> Iterator[Outcome]:
    """What the job took of each driver, against its plan for what was done."""
    coats, work = _by(log, "coat"), _work_of_an_hour(est, log)
    planned = {step.no: step for row in log if (step := row.step)}
    pairs = {
        "area": [
            (planned_area, sum(row.area for row in rows))
            for rows in coats.values()
            if (planned_area := rows[0].step.area) and any(row.area for row in rows)
        ],
        "material": [
            ((rows[0].step.gallons or 0.0) * _done(rows), sum(row.used for row in rows))
            for rows in coats.values()
            if rows[0].step.gallons and any(row.used for row in rows)
        ],
        "time": [
            (step.hours * _done(rows) * work, sum(row.paid for row in rows))
            for step in planned.values()
            if (rows := [row for row in log if row.step is step]) and any(row.paid for row in rows)
        ],
        "wear": [(spent, seen) for rows in _by_kit(log).values() for spent, seen, _, _ in _worn(est, rows)],
    }
    for driver, found in pairs.items():
        estimate, actual = (sum(side) for side in zip(*found)) if found else (0.0, 0.0)
        if estimate > 0 and actual > 0:
            low, high = (getattr(est.terms, f"{driver}_{end}") for end in ("low", "high"))
            yield Outcome(driver, estimate, actual, low, high)


def _by(log: Sequence[Logged], of: str) -> dict[int, list[Logged]]:
    found: defaultdict[int, list[Logged]] = defaultdict(list)
    for row in log:
        if getattr(row, of):
            found[getattr(row, of)].append(row)
    return found


def _by_kit(log: Sequence[Logged]) -> dict[str, list[Logged]]:
    """The rows of each nozzle of the kit, in order of time."""
    kit = sorted((row for row in log if row.entry.kit is not None and row.coat), key=lambda row: str(row.entry.kit))
    return {
        name: sorted(rows, key=lambda row: row.day) for name, rows in groupby(kit, key=lambda row: str(row.entry.kit))
    }


def _done(rows: Sequence[Logged]) -> float:
    """The part of a coat that was done, by its area. The job is closed: all of a task, and where no area was typed."""
    area, planned = sum(row.area for row in rows), rows[0].step.area
    return area / planned if area and planned else 1.0


def _work_of_an_hour(est: Estimate, log: Sequence[Logged]) -> float:
    """Hours of work in an hour of a coat or task: all of it where the log tells lost time apart, else what is left of a
    day.
    """
    return est.basics.productive if any(row.words in OUT_OF_PLAN for row in log) else 1.0


def _taken(rows: Sequence[Logged], work: float) -> tuple[float, float]:
    """(hours over those of the plan for what was done, weight); 0 where either is missing."""
    paid, planned = sum(row.paid for row in rows), rows[0].step.hours * _done(rows) * work
    return (paid / planned if planned else 0.0), min(1.0, paid / DAY)


def _coat_hours(est: Estimate, no: int, rows: Sequence[Logged], work: float) -> Iterator[Lesson]:
    """Time beside the trigger of its surface; where rollers set the pace, or all is done by hand, the rate of those."""
    coat, hours, pick = (est.row(block, no) for block in ("film", "hours", "picks"))
    ratio, weight = _taken(rows, work)
    if not (hours.live and ratio):
        return
    surface, crew = est.row("surfaces", coat.surface_at), est.row("crews", coat.crew_at)
    if coat.by_hand or coat.roll_time and pick.time <= coat.roll_time * (1 + est.terms.slack):
        key = "roll_rate" if coat.rolls else "brush_rate"
        yield Lesson(Target("surfaces", surface.name, key), getattr(surface, key) / ratio, weight)
        return
    trigger = hours.trigger_share
    beside = (ratio - trigger) / (1 - trigger)  # over what was planned beside the trigger
    if surface.handling and beside > LEAST:
        reason = Target("crews", crew.name, "handling_factor")
        yield Lesson(Target("surfaces", surface.name, "handling"), surface.handling * beside, weight, reason)


def _task_hours(est: Estimate, no: int, rows: Sequence[Logged], work: float) -> Iterator[Lesson]:
    """The rate of its task, where its hours come from that."""
    task, done = est.row("tasks", no), est.row("task_hours", no)
    ratio, weight = _taken(rows, work)
    if not (done.live and ratio) or task.hours is not None:
        return
    rate, basis = est.row("rates", done.rate_at), int(done.basis_no) - 1
    if basis == VISIT:  # of each person, for a day
        yield Lesson(Target("rates", rate.name, "hours_each"), _each(rows), min(1.0, len(rows) / 5))
    elif key := RATES[basis]:
        value = getattr(rate, key)
        yield Lesson(Target("rates", rate.name, key), value * ratio if basis == COLOR else value / ratio, weight)


def _each(rows: Sequence[Logged]) -> float:
    """Hours of each person on a day, the mean of the days."""
    return sum(row.paid for row in rows) / sum(row.people for row in rows)


def _loss(est: Estimate, no: int, rows: Sequence[Logged]) -> Iterator[Lesson]:
    """The loss of its surface, where the wet film was read: what was used less what lies on the face, soaked in or flew
    past its ends.
    """
    seen = [row for row in rows if row.entry.wet_film is not None and row.used > 0 and row.area > 0]
    coat, pick = est.row("film", no), est.row("picks", no)
    used = sum(row.used for row in seen) * (1 + coat.thinning) if seen else 0.0
    if not used:
        return
    laid = sum(row.area * row.entry.wet_film for row in seen) * coat.mean_uptake
    surface, weight = est.row("surfaces", coat.surface_at), min(1.0, used / PAIL)
    if coat.by_hand:
        yield Lesson(Target("surfaces", surface.name, "hand_loss"), 1 - laid / used, weight)
    elif pick.live:
        family = est.row("families", est.row("nozzles", pick.size_at).family_at)
        exposure = est.row("exposures", est.row("systems", coat.system_at).exposure_at)
        lost = 1 - laid / (used / (1 + pick.over) * (1 - pick.miss))
        yield Lesson(Target("surfaces", surface.name, "loss"), lost / (family.loss_factor * exposure.factor), weight)


def _worn(est: Estimate, rows: Sequence[Logged]) -> Iterator[tuple[float, float, Any, int]]:
    """(lives spent by the estimate, wear by the fan, row of the nozzle, the coat of most of it) of one nozzle of the
    kit, up to the last day on which its fan was measured.
    """
    kit = est.row("kit", est.judge.at("kit", rows[0].entry.kit))
    last = max((at for at, row in enumerate(rows) if row.entry.fan is not None), default=None)
    if kit is None or not kit.live or last is None:
        return
    size = est.row("nozzles", kit.nozzle_at)
    spent: defaultdict[int, float] = defaultdict(float)
    for row in rows[: last + 1]:
        trial = est.row("trials", (row.coat - 1) * est.capacity["nozzles"] + int(size.no))
        if trial.life:
            spent[row.coat] += row.used * (1 + est.row("film", row.coat).thinning) / trial.life
    seen = wear.worn_by_fan(rows[last].entry.fan, size.fan, est.terms.worn_fan)
    measured = kit.fan is not None or kit.flow is not None
    before, gone = (0.0, kit.worn) if measured else (kit.worn, 0.0)  # by volume: the catalog's life is in it
    if spent and seen - gone >= WORN:
        yield before + sum(spent.values()), seen - gone, size, max(spent, key=lambda no: spent[no])


def _life(est: Estimate, rows: Sequence[Logged]) -> Iterator[Lesson]:
    """The life of a family: what wear the fan shows for the volume that went through. Else the coating wears more."""
    for spent, seen, size, coat in _worn(est, rows):
        family, paint = est.row("families", size.family_at), est.row("coatings", est.row("film", coat).coating_at)
        reason = Target("coatings", paint.name, "abrasion")
        weight = min(1.0, seen / QUARTER)
        yield Lesson(Target("families", family.name, "life"), family.life * spent / seen, weight, reason, -1)


def _lost_time(est: Estimate, log: Sequence[Logged]) -> Iterator[Lesson]:
    """What one person loses of a day, where the log has rows for it."""
    lost = sum(row.paid for row in log if row.words in OUT_OF_PLAN)
    crowd: defaultdict[float, float] = defaultdict(float)
    for row in log:
        crowd[row.day] = max(crowd[row.day], row.people)
    if lost:
        yield Lesson(Target("terms", "", "unproductive"), lost / sum(crowd.values()), min(1.0, len(crowd) / 5))


def _joined(found: Sequence[Lesson]) -> Iterator[Lesson]:
    """One lesson a value and reason: a job with several coats on one surface is one job, with two crews on it too."""
    alike: defaultdict[tuple[Target, Target | None], list[Lesson]] = defaultdict(list)
    for one in found:
        alike[one.target, one.beside].append(one)
    all_of: defaultdict[Target, float] = defaultdict(float)
    for one in found:
        all_of[one.target] += one.weight
    for (target, beside), those in alike.items():
        whole = sum(one.weight for one in those)
        value = sum(one.weight * one.value for one in those) / whole
        yield Lesson(target, value, whole / max(1.0, all_of[target]), beside, those[0].turn)
