"""The plan as it is signed, kept in the book: what the log and the changes of a running job are measured against.

Coats and tasks are kept with what they take and cost in themselves (E46). Travel, waiting, machines, guards, tax on
purchases, overhead, contingency and margin are nobody's own: they stand in the price, in no row of the plan.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from builder import jobs
from builder.jobs import BUILDER, Opened
from builder.problems import Problem, Refused
from builder.quantities import Units
from builder.records.fields import Record
from builder.records.kinds import KINDS
from builder.records.versions import SCHEMA
from builder.returned.findings import Finding
from builder.returned.read import returned
from builder.review.effects import is_book
from builder.review.inspect import inspect
from builder.review.signed_plan import letter_of, plan_rows
from builder.stages.book import room_facts, room_of
from builder.stages.estimate import Estimate


@dataclass(frozen=True)
class Signed:
    """The job as it was, and as it is signed; what a look at its workbook found."""

    before: Opened
    after: Opened
    findings: tuple[Finding, ...] = field(default=())


def sign(
    path: str | Path,
    catalogs: Iterable[str | Path] = jobs.SHIPPED,
    on: float | None = None,
    accepted: Sequence[str] = (),
    anyway: bool = False,
) -> Signed:
    """A job file or a workbook with its plan, contract and price kept as they are today.

    catalogs: of a job file; on: the day of signing as a day number, None for the date of the estimate; accepted:
    letters of the alternates that are signed with the base. Refused where it has no price, is signed already, or is
    not what a customer may rely on, the last unless `anyway`.
    """
    name, doubts = str(path), []
    findings: tuple[Finding, ...] = ()
    if is_book(path):
        look = inspect(returned(path))
        before, findings = look.opened, look.touched
        doubts = [(str(one), "fix it in the workbook") for one in look.doubtful]
    else:
        before = jobs.open_job(path, catalogs)
        if before.errors:
            raise Refused(before.problems)
    _unsigned(before, name)
    _relied_on(before, name, [] if anyway else doubts, anyway)
    day = before.estimate.job.date if on is None else on
    if day is None:
        raise _refused(name, "the job has no date, so the day of signing is not known", "say it: --on 2026-05-20")
    return Signed(before, _kept(before, name, float(day), [one.upper() for one in accepted]), findings)


def _refused(name: str, message: str, hint: str) -> Refused:
    return Refused([Problem(name, 0, 0, message, hint)])


def _unsigned(opened: Opened, name: str) -> None:
    job = opened.values["job"][0]
    typed = any(any(value is not None for value in row.values()) for row in opened.values["signed"])
    if typed or job.get("signed_on") is not None or job.get("signed_price") is not None:
        told = "it is signed already: its plan and its price are kept"
        raise _refused(name, told, "type what was agreed since on Changes")


def _relied_on(opened: Opened, name: str, doubts: Sequence[tuple[str, str]], anyway: bool) -> None:
    """Refuses what has no price; what looks touched, and a draft, unless `anyway`."""
    if opened.estimate.checks.stops:
        raise _refused(name, f"it has no price to sign: {opened.to_fix()}", "fix it; Checks lists all")
    for told, hint in doubts:
        raise _refused(name, f"its price may be wrong: {told}", f"{hint}, or use --anyway")
    if (asked := opened.asked()) and not anyway:
        hint = "answer it, or accept it on Job, or use --anyway"
        raise _refused(name, f"its price is a draft: {asked}", hint)


def _kept(before: Opened, name: str, day: float, accepted: Sequence[str]) -> Opened:
    """The job with what is signed, estimated; the program of today makes its book."""
    est, units = before.estimate, before.units
    values = {key: [dict(row) for row in rows] for key, rows in before.values.items()}
    base, days = est.rows["price"][0], est.rows["days"][0]
    tags, rows = plan_rows(est)
    for no, tag in tags.items():
        if values["coats"][no - 1].get("tag") is None:
            values["coats"][no - 1]["tag"] = tag
    values["signed"] = _settled("signed", rows, units)
    values["contract"] = _settled("contract", _contract(est), units)
    values["changes"] += _settled("changes", _agreed(est, name, day, accepted), units)
    values["job"][0] |= _settled(
        "job", [{"signed_on": day, "signed_price": _cents(base.total, units), "signed_days": days.days}], units
    )[0]
    for _, *told in jobs.too_many(values):
        raise _refused(name, *told)
    room = room_facts(jobs.room_for(values, room_of(before.settings)))
    settings = {**before.settings, **room, "schema": float(SCHEMA), "builder": BUILDER}
    return jobs.from_values(values, units, settings)


def _settled(kind: str, rows: Iterable[Record], units: Units) -> list[Record]:
    """Rows as the book will hold them."""
    fields = KINDS[kind].field_of
    return [{key: units.settle(value, fields[key].quantity) for key, value in row.items()} for row in rows]


def _cents(amount: float, units: Units) -> float:
    """An amount that is paid, without the rounding of a sum in its last digits."""
    return units.from_cell(round(units.to_cell(amount, "money"), units.cents), "money")


def _contract(est: Estimate) -> Iterator[Record]:
    """Parts of the price, the tax on them, each alternate with its tax, then the payments of the base."""
    base, units = est.rows["price"][0], est.units
    parts = [line for line in est.rows["parts"] if line.base_at]
    for line in parts or est.rows["parts"][:1]:  # tasks alone are no part of a price: then the whole is told
        yield {"what": line.name, "price": _cents(line.price, units)}
    if base.tax:
        yield {"what": "Sales tax", "price": _cents(base.tax, units)}
    for line, price in zip(est.rows["scenario_lines"][1:], est.rows["price"][1:]):
        if price.live and line.priced:
            more = _cents(price.total - base.total, units)
            yield {"what": line.called, "alternate": letter_of(line.alone), "price": more}
    yield {"what": "Deposit", "payment": _cents(base.deposit, units)}  # 0 too: bills take the first for it
    stages = [base.stage] * (int(est.terms.stages) - 1) + [base.last]
    for number, paid in enumerate((one for one in stages if one), start=1):
        yield {"what": f"Payment {number}", "payment": _cents(paid, units)}


def _agreed(est: Estimate, name: str, day: float, accepted: Sequence[str]) -> Iterator[Record]:
    """A change for each alternate that is signed with the base."""
    priced = [letter_of(row.alone) for row in est.rows["scenario_lines"][1:] if row.priced]
    for letter in dict.fromkeys(accepted):
        if letter not in priced:
            known = f"priced are: {', '.join(map(str, priced))}" if priced else "the job has no priced alternate"
            raise _refused(name, f"--with {letter}: alternate {letter} has no price in this job", known)
        yield {"date": day, "what": f"Alternate {letter}, accepted with the bid", "alternate": letter}


def report(found: Signed) -> Iterator[str]:
    """What is kept, and what stands in no row of it."""
    est, units = found.before.estimate, found.before.units
    rows = [row for row in found.after.values["signed"] if row.get("alternate") is None]
    hours, cost = (math.fsum(float(row[key] or 0.0) for row in rows) for key in ("hours", "cost"))
    yield (
        f"kept: {len(rows)} coats and tasks of the base, {units.to_cell(hours, 'time'):.4g} h; in themselves they cost "
        f"{units.amount(units.to_cell(cost, 'money'))} of "
        f"{units.amount(units.to_cell(est.rows['cost'][0].cost, 'money'))} {units.currency}"
    )
    yield "travel, waiting, machines, guards, tax on purchases and overhead are the whole job's: no row has them"
