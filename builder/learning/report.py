"""What closed jobs teach as a workbook: estimate against actual by driver, crew and job, proposals, what was left
out.
"""

from collections import Counter
from collections.abc import Sequence
from math import exp, log
from statistics import fmean
from typing import Any

from builder.jobs import BUILDER
from builder.learning.closed import CLOSED, Outcome, Reading
from builder.learning.lessons import HELD, Taught
from builder.learning.proposals import outcomes_of
from builder.quantities import Units
from builder.trade import learning
from builder.workbook.lessons_book import lessons_book

QUANTITY = {"area": "area", "material": "volume", "time": "time", "wear": "lives"}
FIRST_JOBS = 4  # of a crew, with which all are compared

Sheet = tuple[str, str, Sequence[tuple[str, str, int]], list[tuple[Any, ...]]]  # title, purpose, columns, rows


def as_workbook(found: Taught) -> bytes:
    """The report as a workbook, in bytes, in the units that most of the books have."""
    systems = Counter(one.system for one in found.closed)
    units = Units(systems.most_common(1)[0][0] if systems else "us")
    closed = sorted(found.closed, key=lambda one: (one.closed_on, one.book))
    jobs, runs = _jobs(found, closed, units)
    sheets: list[Sheet] = [_drivers(found), _crews(closed), jobs, _proposals(found), _left_out(found)]
    return lessons_book(sheets, runs, units, BUILDER)


def _drivers(found: Taught) -> Sheet:
    columns = (
        ("Driver", "text", 12),
        ("Jobs", "count", 8),
        ("Actual over estimate, mean", "number", 14),
        ("Bias", "share", 10),
        ("Between P10 and P90", "count", 12),
        ("Share of jobs", "share", 10),
        ("It is to be", "share", 10),
        ("What that says", "text", 44),
    )
    rows = [
        (one.key, one.jobs, 1 + one.bias, one.bias, one.inside, one.inside / one.jobs, HELD, one.verdict)
        for one in found.drivers
    ]
    return "By driver", "Area, material, time and wear of closed jobs against their estimates.", columns, rows


def _crews(closed: Sequence[Reading]) -> Sheet:
    columns = (
        ("Crew", "text", 16),
        ("Jobs", "count", 8),
        ("Hours over estimate, mean", "number", 14),
        (f"Of the first {FIRST_JOBS} jobs", "number", 14),
        ("With twice as many jobs", "share", 14),
    )
    ratios: dict[str, list[float]] = {}
    for job, one in outcomes_of(closed, "time"):
        ratios.setdefault(job.crew, []).append(one.ratio)
    rows = []
    for crew, those in sorted(ratios.items()):
        first, mean = _mean(those[:FIRST_JOBS]), _mean(those)
        enough = len(those) >= learning.FEWEST
        rate = learning.doubling_rate(first, mean, len(those) / FIRST_JOBS) if enough else None
        rows.append((crew, len(those), mean, first if enough else None, rate))
    told = (
        "Whether a crew gets faster: its cumulative average with twice as many jobs, 100 % where it does not (Wright's "
        f"curve); blank below {learning.FEWEST} jobs."
    )
    return "By crew", told, columns, rows


def _mean(ratios: Sequence[float]) -> float:
    return exp(fmean(map(log, ratios)))


def _jobs(found: Taught, closed: Sequence[Reading], units: Units) -> tuple[Sheet, dict[str, tuple[int, int]]]:
    """The sheet, and driver -> its first and last row."""
    columns = (
        ("No", "count", 6),
        ("Driver", "text", 12),
        ("Job", "text", 26),
        ("Closed on", "date", 12),
        ("Crew", "text", 16),
        ("Estimate", "number", 12),
        ("Actual", "number", 12),
        ("Actual over estimate", "number", 12),
        ("P10", "number", 9),
        ("P90", "number", 9),
        ("Between them", "text", 10),
        ("Unit", "text", 10),
        ("Workbook", "text", 44),
    )
    rows: list[tuple[Any, ...]] = []
    runs: dict[str, tuple[int, int]] = {}
    for driver in found.drivers:
        those = outcomes_of(closed, driver.key)
        runs[driver.key] = len(rows), len(rows) + len(those) - 1
        rows += [_row(number, job, one, units) for number, (job, one) in enumerate(those, start=1)]
    told = "Estimate against actual, for what was done of each job; numbered in the order in which they were closed."
    return ("By job", told, columns, rows), runs


def _row(number: int, job: Reading, one: Outcome, units: Units) -> tuple[Any, ...]:
    quantity = QUANTITY[one.driver]
    estimate, actual = (units.to_cell(value, quantity) for value in (one.estimate, one.actual))
    said = "yes" if one.inside else "below" if one.ratio < one.low else "above"
    figures = (estimate, actual, one.ratio, one.low, one.high)
    unit = "nozzles" if one.driver == "wear" else units.shown(quantity)
    return number, one.driver, job.name, job.closed_on, job.crew, *figures, said, unit, job.book


def _proposals(found: Taught) -> Sheet:
    columns = (
        ("What", "text", 52),
        ("Now", "text", 14),
        ("Proposed", "text", 14),
        ("90 %, from", "text", 14),
        ("to", "text", 14),
        ("Before learning", "text", 14),
        ("Jobs", "count", 8),
        ("Weight of the jobs", "share", 10),
        ("Left out", "count", 9),
        ("File", "text", 40),
        ("Jobs behind it", "text", 80),
    )
    rows: list[tuple[Any, ...]] = []
    for one in found.proposals:
        weight = learning.credibility(one.evidence, learning.WORTH)
        place = f"{one.mark.file}:{one.mark.line}"
        numbers = (len(one.jobs), weight, len(one.left_out), place, ", ".join(one.jobs)[:32_000])
        rows.append((one.what, one.text, one.new, one.low, one.high, one.was, *numbers))
    rows += [(one.what, "", one.why) for one in found.kept]
    told = "Each value of the catalogs that jobs speak of, shrunk towards what stood there by how many they are."
    return "Proposals", told, columns, rows


def _left_out(found: Taught) -> Sheet:
    rows = [(one.book, one.state, one.words) for one in found.readings if one.state != CLOSED]
    columns = (("Workbook", "text", 44), ("What it is", "text", 14), ("Why it does not count", "text", 70))
    return "Left out", "Workbooks that teach nothing.", columns, rows
