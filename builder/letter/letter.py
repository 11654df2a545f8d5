"""The letter that goes with a workbook: its estimate in words for a customer or a partner, as a draft e-mail."""

import datetime
from collections.abc import Iterator
from pathlib import Path

from builder.jobs import Opened
from builder.letter.draft import Table, addresses, draft, file_name, one_line
from builder.letter.page import printed_page
from builder.problems import BadValue, Problem, Refused
from builder.quantities import Units, Value
from builder.records.questions import DEMO
from builder.records.sentences import BILL_TAX
from builder.returned.read import Returned, returned
from builder.review.inspect import Inspection, inspect
from builder.sheets.judging import Judge
from builder.sheets.rows import Row
from builder.stages.estimate import Estimate
from builder.values import same, to_date

ESTIMATE = (
    "All figures are an estimate, worked out from measured surfaces; what the work meets may change them. "
    "Local codes and the product data sheets come before anything written here."
)


def letter(
    path: str | Path,
    to: str | None = None,
    with_book: bool = True,
    anyway: bool = False,
    customer: bool = False,
    bill: bool = False,
) -> tuple[bytes, Opened]:
    """(the draft as bytes, the estimate it speaks of). Refused where the book's price cannot be relied on, unless
    `anyway`. customer, bill: the bid or the last bill in words and, where LibreOffice is at hand, its page; never the
    workbook. Refused where there is no bill.
    """
    try:
        receivers = addresses(to) if to is not None else ()
    except BadValue as error:
        raise Refused([Problem("--to", 0, 0, error.message, error.hint)]) from None
    back = returned(path)
    look = inspect(back)
    opened = look.taken.opened
    if bill:
        _there_is_a_bill(back.name, opened.estimate)
    if not anyway:
        _relied_on(look, back, bill)
    job, last = opened.estimate.job, opened.estimate.rows["bill"][0]
    title = f"Bill {last.number:g}" if bill else "Bid" if customer else "Estimate"
    attached = _page(opened, title) if customer or bill else _book(path, back) if with_book else None
    name = attached[0] if attached else None
    blocks = tuple(_bill_blocks(opened, name) if bill else _blocks(opened, name, customer))
    day = to_date(last.day) if bill else _day(job.date, job)
    return draft(f"{title}: {_said(job.name, 150) or 'painting'}", receivers, day, blocks, attached), opened


def _book(path: str | Path, back: Returned) -> tuple[str, bytes]:
    """The workbook as it is, as (file name, bytes)."""
    return file_name(Path(path).name, ".xlsx"), back.source.getvalue()


def _page(opened: Opened, title: str) -> tuple[str, bytes] | None:
    """The page of a bid or a bill, as (file name, bytes); None where nothing here prints it."""
    page = printed_page(opened, title.split()[0])
    return None if page is None else (file_name(f"{title} {_said(opened.estimate.job.name, 60)}.pdf", ".pdf"), page)


def _there_is_a_bill(name: str, estimate: Estimate) -> None:
    """Refuses a book in which nothing is signed or nothing is billed."""
    if estimate.rows["agreed"][0].signed is None:
        hint = "type the price as signed on Job, and the contract on Changes; Checks says what else to fix"
        raise Refused([Problem(name, 0, 0, "there is no bill: no price is signed", hint)])
    if not estimate.rows["bill"][0].live:
        hint = "type its date there; what is wrong in a row is said beside it"
        raise Refused([Problem(name, 0, 0, "there is no bill: no row of Bills on Changes has a date", hint)])


def _relied_on(look: Inspection, back: Returned, bill: bool) -> None:
    """Refuses a book whose price somebody who gets the letter cannot rely on: the first reason there is."""
    for message, hint in _doubts(look, back, bill):
        raise Refused([Problem(back.name, 0, 0, message, f"{hint}, or use --anyway")])


def _doubts(look: Inspection, back: Returned, bill: bool) -> Iterator[tuple[str, str]]:
    """Why a book should not be mailed, as (what, what to do): no price, touched where that may change the price,
    another price than its inputs give, figures out of date, a draft with questions open. A bill is of what was signed:
    it asks neither for a price of today nor for answers.
    """
    estimate, units = look.taken.opened.estimate, back.units
    if estimate.checks.stops and not bill:
        more = f", and {estimate.checks.stops - 1:g} more" if estimate.checks.stops > 1 else ""
        yield f"it has no price: {estimate.checks.first}{more}", "fix it in the workbook; Checks lists all"
    touched = [finding for finding in look.doubtful if finding.kind != "stale"]
    if touched:
        more = f"; and {len(touched) - 1} more, which 'wetfilm inspect' lists" if len(touched) > 1 else ""
        yield f"its price may be wrong: {touched[0]}{more}", "fix it in the workbook"
    for row, value in zip(estimate.rows["price"], back.shown("price_total")):
        if row.live and not (
            isinstance(value, float) and abs(value - units.to_cell(row.total, "money")) < units.money_step / 2
        ):
            shows = f"shows {units.amount(value)}" if isinstance(value, float) else "is blank"
            yield (
                f"its price cell {shows}, but its inputs give {_money(row.total, units)}",
                "recalculate and save it; look for overwritten formulas",
            )
    for finding in look.doubtful:
        yield f"it is out of date: {finding.sheet} {finding.cell}: {finding.message}", finding.hint
    if not bill and (questions := look.opened.questions()):
        more = f", and {len(questions) - 1} more, which Checks lists" if len(questions) > 1 else ""
        yield f"its price is a draft: {questions[0]}{more}", "answer it in the workbook, or accept it on Job"


def _blocks(opened: Opened, attached: str | None, customer: bool) -> Iterator[str | Table]:
    """The letter, top to bottom; to a customer it says nothing that is between partners."""
    estimate, units = opened.estimate, opened.units
    job, base = estimate.job, estimate.rows["price"][0]
    yield "Hello,"
    about = " ".join(
        part for part in (_said(job.name) or "the painting", _said(job.site) and f"at {_said(job.site)}") if part
    )
    client, date = _said(job.client), _day(job.date, job)
    whose, when = f", for {client}" if client else "", f", as of {_date(date)}" if date else ""
    yield f"here is our {'bid' if customer else 'estimate'} for {about}{whose}{when}."
    if base.live and estimate.checks.open:
        yield "It is a draft: questions are still open, and the price may change."
    if estimate.checks.demo:
        yield DEMO
    if base.live:
        yield Table("Price", tuple(_prices(estimate, units)), True)
        if rows := tuple(_parts(estimate, units)):
            yield Table("Price by part", rows, True)
        yield Table("Payments", tuple(_payments(estimate, units)), True)
    else:
        yield f"There is no price yet: {estimate.checks.stops:g} to fix."
    if rows := tuple(_work(opened, customer)):
        yield Table("Work", rows)
    if rows := tuple(_covered(estimate, units)):
        yield Table("What is coated", rows)
    if job.exclusions is not None:
        yield f"Not included: {_said(job.exclusions, 2000).rstrip('.')}."
    if base.live and date:
        until = date + datetime.timedelta(days=int(estimate.terms.validity))
        yield f"The price is valid for {estimate.terms.validity:g} days, until {_date(until)}."
    if lead := estimate.rows["bid"][0].lead:
        yield str(lead)
    yield _said(estimate.rows["bid"][0].conditions, 2000) if customer and base.live else ESTIMATE
    if attached and customer:
        yield f"The bid is attached as {attached}: a page to print, sign and send back."
    elif attached:
        yield (
            f"The workbook {attached} is attached. It opens in any spreadsheet program: "
            "change an input in it, and every figure follows."
        )
    yield "Kind regards"


def _bill_blocks(opened: Opened, attached: str | None) -> Iterator[str | Table]:
    """The letter of a bill, top to bottom: what its page says."""
    estimate, units = opened.estimate, opened.units
    bill = estimate.rows["bill"][0]
    yield "Hello,"
    at = f" at {_said(bill.site)}" if bill.site else ""
    whose = f", for {_said(bill.client)}" if bill.client else ""
    about = _said(estimate.job.name) or "the painting"
    yield f"here is our bill number {bill.number:g} for {about}{at}{whose}, of {_date(to_date(bill.day))}."
    yield f"Due now: {_money(bill.due_now, units)}."
    yield f"Done so far: {bill.told_done}."
    lines = [row for row in estimate.rows["bill_list"] if row.amount is not None]
    yield Table("How it adds up", tuple((_bill_line(row), _money(row.amount, units)) for row in lines), True)
    yield str(bill.pay_terms)
    yield f"Sales tax is {BILL_TAX}."
    if attached:
        yield f"The bill is attached as {attached}."
    yield "Kind regards"


def _bill_line(row: Row) -> str:
    """'Held back, until all is done'"""
    return ", ".join(filter(None, (_said(row.line), _said(row.what))))


def _prices(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """The base, its tax, and what each alternate adds."""
    base, *others = estimate.rows["price"]
    if base.tax:
        yield "Price before tax", _money(base.net, units)
        yield f"Sales tax, {100 * base.tax_share:.4g}\u00a0%", _money(base.tax, units)
        yield "Price, tax included", _money(base.total, units)
    else:
        yield "Price, no sales tax added", _money(base.total, units)
    for row, letter in zip(others, "ABC"):
        if row.live:
            systems = ", ".join(
                _said(one.name) for one in estimate.rows["systems"] if one.live and _alternate(one) == letter
            )
            tax = ", before tax" if base.tax else ""
            yield (
                f"Alternate {letter} ({systems}), {'more' if row.difference >= 0 else 'less'}{tax}",
                _money(abs(row.difference), units),
            )


def _parts(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """What the bid says of its parts: their prices, the tax on them, what they add up to; nothing where Terms show
    none.
    """
    for row in estimate.rows["bid_parts"]:
        if row.kind:
            yield _said(row.part), _money(row.amount, units)


def _payments(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """Deposit, stages and the remainder of the base."""
    base, stages = estimate.rows["price"][0], int(estimate.terms.stages)
    if base.deposit:
        yield "At signing", _money(base.deposit, units)
    if stages > 1 and base.stage:
        yield (
            "Then, while work goes on" if stages == 2 else f"Then {stages - 1} times, while work goes on",
            _money(base.stage, units),
        )
    yield "When the work is done", _money(base.last, units)


def _work(opened: Opened, customer: bool) -> Iterator[tuple[str, str]]:
    """Time of the base; between partners its people and paint too."""
    day, job, units = opened.estimate.rows["days"][0], opened.estimate.job, opened.units
    people = opened.estimate.basics.people
    if day.days:
        crew = f" with {people:g} {'person' if people == 1 else 'people'}"
        yield "Working time", f"{day.days:g} day{'s' * (day.days != 1)}{'' if customer else crew}"
    if start := _day(job.start, job):
        yield "First working day", _date(start)
    if day.promised:
        yield "Finished about", _date(to_date(day.promised))
    if opened.gallons() and not customer:
        yield "Coating to be bought", f"about {opened.gallons():,.4g} {units.shown('volume')}"
    if opened.from_owner():
        yield "Coating you supply", f"about {opened.from_owner():,.4g} {units.shown('volume')}"


def _covered(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """What goes on each system, and on how much."""
    for number, system in enumerate(estimate.rows["systems"], start=1):
        if system.live and system.measured:
            coats = [
                _coat(coat)
                for coat, layer in zip(estimate.rows["coats"], estimate.rows["film"])
                if layer.live and layer.system_at == number
            ]
            alternate = f" (alternate {_alternate(system)})" if _alternate(system) else ""
            yield (
                f"{_said(system.name)}{alternate}",
                f"{units.to_cell(system.measured, 'area'):,.0f} {units.shown('area')}: {'; '.join(coats)}",
            )


def _coat(coat: Row) -> str:
    count = f"{coat.times:g} {'coat' if coat.times == 1 else 'coats'} of {_said(coat.coating)}"
    color = f", {_said(coat.color)}" if coat.color is not None else ""
    part = f", on {100 * coat.share:.4g}\u00a0% of it" if coat.share is not None and coat.share < 1 else ""
    owner = ", supplied by the owner" if coat.owner_supplied is not None and same(coat.owner_supplied) == "yes" else ""
    return count + color + part + owner


def _alternate(system: Row) -> str:
    """'A', 'B', 'C', or '' for the base."""
    return "" if system.alternate is None else same(system.alternate).upper()


def _money(amount: float, units: Units) -> str:
    return f"{units.amount(units.to_cell(amount, 'money'))} {one_line(units.currency, 20)}"


def _said(value: Value, most: int = 400) -> str:
    """What was typed as a name, in one line; '' for blank."""
    return "" if value is None else one_line(Judge.as_text(value), most)


def _day(value: float | None, job: Row) -> datetime.date | None:
    """A date of a job without a fault."""
    return to_date(value) if job.sound and value is not None else None


def _date(day: datetime.date) -> str:
    return f"{day.day} {day:%B %Y}"
