"""A job with its catalogues, loaded, judged and estimated; its problems with their places in the files."""
import hashlib
from dataclasses import dataclass
from pathlib import Path

from builder import __version__
from builder.estimate import stock as stocks
from builder.estimate.estimate import Estimate, capacities
from builder.problems import did_you_mean
from builder.quantities import Units
from builder.records import wording
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.records.load import STARTER, load_catalogs, load_job
from builder.rules import OneOf, Word, same

SCHEMA = 1
_INSIDE = Path(__file__).parent / "catalogs"                 # in an installed wheel
SHIPPED = _INSIDE if _INSIDE.is_dir() else Path(__file__).parent.parent / "catalogs"


@dataclass
class Opened:
    """Values by block, the units they settle in, the facts of the sheet Start, and what is wrong where."""

    values: dict
    units: Units
    settings: dict
    estimate: Estimate
    problems: list

    def summary(self):
        """The estimate in one line."""
        price = self.estimate.rows["price"][0]
        if price.total is None:
            return f"no price yet: {self.estimate.checks.words}"
        gallons = self.units.to_cell(sum(row.bought for row in self.estimate.rows["purchases"] if row.live and row.scenario == 1), "volume")
        return (f"price {self.units.to_cell(price.total, 'money'):,.2f} {self.units.currency}, {gallons:,.4g} {self.units.shown('volume')} to buy, "
                f"{self.estimate.rows['days'][0].days:g} days; {self.estimate.checks.words.lower()}")


def _catalogue_currency(folder):
    """The currency the terms name, before any unit is settled."""
    terms = load_catalogs(folder, Units()).values["terms"]
    return (terms[0].get("currency") if terms else None) or ""


def fingerprint(folder):
    """A short digest of every catalogue in a folder."""
    digest = hashlib.sha256()
    for path in sorted(Path(folder).glob("*.yaml")):
        if path.name != STARTER:
            digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def _units_for(currency, problems):
    def units_for(settings, marks):
        own = settings.get("currency", currency)
        exchange = settings.get("exchange")
        if own != currency and exchange is None:
            problems.append(marks["currency"].problem(
                f"the job is in {own}, the catalogues are in {currency}", f"add 'exchange:', the worth of one {currency} in {own}"))
        if own == currency and exchange not in (None, 1.0):
            problems.append(marks["exchange"].problem(f"the job is in the catalogues' own {currency}", "leave 'exchange:' out"))
        return Units(settings.get("units", "us"), own, 1.0 if own == currency or exchange is None else exchange)
    return units_for


def open_job(path, catalogs=SHIPPED, system=None, paper=None, lines=None):
    """Load a job file (None: the starter, for a blank book) with the catalogues of a folder.

    system: 'us' or 'metric' instead of the job's own; paper: 'letter' or 'a4'; lines: rows of takeoff.
    Raises Refused where a file cannot be read at all; all else is in `problems`.
    """
    problems = []
    currency = _catalogue_currency(catalogs)
    source = Path(path) if path else Path(catalogs) / STARTER
    job = load_job(source, _units_for(currency, problems), system)
    stock = load_catalogs(catalogs, job.units)
    values = {kind.key: stock.values[kind.key] for kind in CATALOGS} | {kind.key: job.values[kind.key] for kind in JOBS}
    marks = {kind.key: stock.marks[kind.key] for kind in CATALOGS} | {kind.key: job.marks[kind.key] for kind in JOBS}
    for kind in KINDS.values():
        values[kind.key] = values[kind.key] or ([{}] if kind.upright else [])
    room = capacities(lines or max(100, len(values["takeoff"]) + 20))
    estimate = Estimate(values, job.units, room)
    problems += stock.problems + job.problems + list(_overfull(values, marks, room))
    problems += _judged(estimate, values, marks, {(problem.file, problem.line, problem.column) for problem in problems})
    settings = {"units": job.units.system, "currency": job.units.currency, "exchange": job.units.exchange,
                "paper": paper or ("letter" if job.units.system == "us" else "a4"),
                "lines": float(room["takeoff"]), "schema": float(SCHEMA), "catalogues": fingerprint(catalogs), "builder": f"wetfilm {__version__}"}
    if path and not values["takeoff"]:
        mark = job.marks["job"][0][""] if job.marks["job"] else None
        if mark:
            problems.append(mark.problem("the job has no takeoff line", "add 'takeoff:' with at least one line"))
    return Opened(values, job.units, settings, estimate, sorted(problems))


def _overfull(values, marks, room):
    for key, rows in values.items():
        if key in room and len(rows) > room[key]:
            yield marks[key][room[key]][""].problem(f"more than {room[key]} rows of {key}")


def _judged(estimate, values, marks, known):
    """The faults of the rows as problems where the file says them, unless the place has a problem already."""
    names = {key: [stocks.nozzle_name(row) if key == "nozzles" else getattr(row, kind.named) for row in estimate.rows[key] if row.filled]
             for key, kind in KINDS.items() if kind.named}
    for kind in KINDS.values():
        for row, place in zip(estimate.rows[kind.key], marks[kind.key]):
            if row.faults:
                yield from (problem for problem in _row_problems(kind, row, place, estimate.units, names)
                            if (problem.file, problem.line, problem.column) not in known)
    for area, place in zip(estimate.rows["areas"], marks["takeoff"]):
        if area.too_open:
            yield place[""].problem(area.fault, "its openings take more than its length and height give")
    for film, place in zip(estimate.rows["films"], marks["coats"]):
        if film.faults:
            yield place[""].problem(f"Coats: {film.fault}")


def _row_problems(kind, row, place, units, names):
    for one in wording.judged(kind):
        if getattr(row, f"bad_{one.key}"):
            found = getattr(row, one.key)
            if isinstance(one.rule, OneOf) and any(same(name) == same(found) for name in names[one.rule.block]):
                continue                           # that row's own fault is told already
            shown = ", found nothing" if found is None else f", found '{found}'" if isinstance(found, str) else ""
            known = names[one.rule.block] if isinstance(one.rule, OneOf) else one.rule.allowed() if isinstance(one.rule, Word) else ()
            hint = did_you_mean(found, [str(name) for name in known]) if known and found is not None else ""
            yield place.get(one.key, place[""]).problem(wording.fault(kind, one, units) + shown, hint)
    for check in kind.checks:
        if getattr(row, f"bad_{check.key}") or getattr(row, f"bad_check_{check.key}"):
            yield place[""].problem(wording.check_fault(kind, check))


def from_values(values, units, settings):
    """The same for values that were read from a workbook, or changed in memory."""
    for kind in KINDS.values():
        values[kind.key] = values[kind.key] or ([{}] if kind.upright else [])
    return Opened(values, units, settings, Estimate(values, units, capacities(int(settings["lines"]))), [])
