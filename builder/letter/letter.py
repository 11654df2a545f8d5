"""The letter that goes with a workbook: its estimate in words for a customer or a partner, as a draft e-mail."""

import datetime
from collections.abc import Iterator
from pathlib import Path

from builder.jobs import Opened
from builder.letter.bill_letter import bill_blocks, there_is_a_bill
from builder.letter.draft import Table, addresses, draft, file_name
from builder.letter.page import printed_page
from builder.letter.said import day_of, money, said, spelled_date
from builder.problems import BadValue, Problem, Refused
from builder.quantities import Units
from builder.records.questions import DEMO
from builder.returned.came_back import Returned
from builder.returned.read import returned
from builder.review.inspect import Inspection, inspect
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
        there_is_a_bill(back.name, opened.estimate)
    if not anyway:
        _relied_on(look, back, bill)
    job, last = opened.estimate.job, opened.estimate.rows["bill"][0]
    signed = opened.estimate.rows["agreed"][0].signed is not None
    title = f"Bill {last.number:g}" if bill else "Contract" if signed else "Bid" if customer else "Estimate"
    if bill or customer:
        attached = _page(opened, title) if bill or not signed else None  # what is signed needs no page to sign
    else:
        attached = _book(path, back) if with_book else None
    name = attached[0] if attached else None
    blocks = tuple(bill_blocks(opened, name) if bill else _blocks(opened, name, customer))
    day = to_date(last.day) if bill else day_of(job.date, job)
    return draft(f"{title}: {said(job.name, 150) or 'painting'}", receivers, day, blocks, attached), opened


def _book(path: str | Path, back: Returned) -> tuple[str, bytes]:
    """The workbook as it is, as (file name, bytes)."""
    return file_name(Path(path).name, ".xlsx"), back.source.getvalue()


def _page(opened: Opened, title: str) -> tuple[str, bytes] | None:
    """The page of a bid or a bill, as (file name, bytes); None where nothing here prints it."""
    page = printed_page(opened, title.split()[0])
    return None if page is None else (file_name(f"{title} {said(opened.estimate.job.name, 60)}.pdf", ".pdf"), page)


def _relied_on(look: Inspection, back: Returned, bill: bool) -> None:
    """Refuses a book whose price somebody who gets the letter cannot rely on: the first reason there is."""
    for message, hint in _doubts(look, back, bill):
        raise Refused([Problem(back.name, 0, 0, message, f"{hint}, or use --anyway")])


def _doubts(look: Inspection, back: Returned, bill: bool) -> Iterator[tuple[str, str]]:
    """Why a book should not be mailed, as (what, what to do): no price, touched where that may change the price,
    another price than its inputs give, figures out of date, a draft with questions open. A bill is of what was signed:
    it asks neither for a price of today nor for answers.
    """
    estimate, units = look.opened.estimate, back.units
    if estimate.checks.stops and not bill:
        yield f"it has no price: {look.opened.to_fix()}", "fix it in the workbook; Checks lists all"
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
                f"its price cell {shows}, but its inputs give {money(row.total, units)}",
                "recalculate and save it; look for overwritten formulas",
            )
    for finding in look.doubtful:
        yield f"it is out of date: {finding.sheet} {finding.cell}: {finding.message}", finding.hint
    signed = estimate.rows["agreed"][0].signed is not None
    if not bill and not signed and (asked := look.opened.asked()):
        yield f"its price is a draft: {asked}", "answer it in the workbook, or accept it on Job"


def _blocks(opened: Opened, attached: str | None, customer: bool) -> Iterator[str | Table]:
    """The letter, top to bottom; to a customer it says nothing that is between partners."""
    estimate, units = opened.estimate, opened.units
    job, base = estimate.job, estimate.rows["price"][0]
    yield "Hello,"
    about = " ".join(
        part for part in (said(job.name) or "the painting", said(job.site) and f"at {said(job.site)}") if part
    )
    client, date = said(job.client), day_of(job.date, job)
    whose, when = f", for {client}" if client else "", f", as of {spelled_date(date)}" if date else ""
    signed = estimate.rows["agreed"][0].signed is not None
    if signed:
        signed_on = spelled_date(to_date(job.signed_on))
        yield f"here is how the contract for {about}{whose} stands. It was signed on {signed_on}."
    else:
        yield f"here is our {'bid' if customer else 'estimate'} for {about}{whose}{when}."
    if base.live and estimate.checks.open and not signed:
        yield "It is a draft: questions are still open, and the price may change."
    if estimate.checks.demo:
        yield DEMO
    if signed:
        yield Table("Contract", tuple(_contract(estimate, units)), True)
        if rows := tuple(
            (said(row.what), money(row.payment, units)) for row in _sound(estimate, "contract", "payment")
        ):
            yield Table("Payments as signed", rows, True)
    elif base.live:
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
        yield f"Not included: {said(job.exclusions, 2000).rstrip('.')}."
    if base.live and date and not signed:
        until = date + datetime.timedelta(days=int(estimate.terms.validity))
        yield f"The price is valid for {estimate.terms.validity:g} days, until {spelled_date(until)}."
    if lead := estimate.rows["bid"][0].lead:
        yield str(lead)
    if signed:
        yield "What is agreed beyond it is agreed in writing. Local codes and the product data sheets come first."
    else:
        yield said(estimate.rows["bid"][0].conditions, 2000) if customer and base.live else ESTIMATE
    if attached and customer:
        yield f"The bid is attached as {attached}: a page to print, sign and send back."
    elif attached:
        yield (
            f"The workbook {attached} is attached. It opens in any spreadsheet program: "
            "change an input in it, and every figure follows."
        )
    yield "Kind regards"


def _sound(estimate: Estimate, kind: str, key: str) -> Iterator[Row]:
    """The rows of a kind that have a value, without a fault."""
    return (row for row in estimate.rows[kind] if row.sound and getattr(row, key) is not None)


def _contract(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """The parts as they were signed, where Terms show them, what was agreed since, and what both come to."""
    agreed, shown = estimate.rows["agreed"][0], estimate.terms.show_parts
    for row in _sound(estimate, "contract", "price"):
        if row.alternate is None and shown is not None and same(shown) == "yes":
            yield said(row.what), money(row.price, units)
    yield "Price as signed", money(agreed.signed, units)
    changes = [row for row in estimate.rows["change_lines"] if row.live]
    for row in changes:
        entry = estimate.rows["changes"][row.no - 1]
        yield f"{said(entry.what)}, {spelled_date(to_date(entry.date))}", money(row.worth, units)
    if changes:
        yield "Contract with its changes", money(agreed.contract, units)


def _prices(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """The base, its tax, and what each alternate adds."""
    base, *others = estimate.rows["price"]
    if base.tax:
        yield "Price before tax", money(base.net, units)
        yield f"Sales tax, {100 * base.tax_share:.4g}\u00a0%", money(base.tax, units)
        yield "Price, tax included", money(base.total, units)
    else:
        yield "Price, no sales tax added", money(base.total, units)
    for row, letter in zip(others, "ABC"):
        if row.live:
            systems = ", ".join(
                said(one.name) for one in estimate.rows["systems"] if one.live and _alternate(one) == letter
            )
            tax = ", before tax" if base.tax else ""
            yield (
                f"Alternate {letter} ({systems}), {'more' if row.difference >= 0 else 'less'}{tax}",
                money(abs(row.difference), units),
            )


def _parts(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """What the bid says of its parts: their prices, the tax on them, what they add up to; nothing where Terms show
    none.
    """
    for row in estimate.rows["bid_parts"]:
        if row.kind:
            yield said(row.part), money(row.amount, units)


def _payments(estimate: Estimate, units: Units) -> Iterator[tuple[str, str]]:
    """Deposit, stages and the remainder of the base."""
    base, stages = estimate.rows["price"][0], int(estimate.terms.stages)
    if base.deposit:
        yield "At signing", money(base.deposit, units)
    if stages > 1 and base.stage:
        yield (
            "Then, while work goes on" if stages == 2 else f"Then {stages - 1} times, while work goes on",
            money(base.stage, units),
        )
    yield "When the work is done", money(base.last, units)


def _work(opened: Opened, customer: bool) -> Iterator[tuple[str, str]]:
    """Time of the base; between partners its people and paint too."""
    day, job, units = opened.estimate.rows["days"][0], opened.estimate.job, opened.units
    people = opened.estimate.basics.people
    if day.days:
        crew = f" with {people:g} {'person' if people == 1 else 'people'}"
        yield "Working time", f"{day.days:g} day{'s' * (day.days != 1)}{'' if customer else crew}"
    if start := day_of(job.start, job):
        yield "First working day", spelled_date(start)
    if day.promised:
        yield "Finished about", spelled_date(to_date(day.promised))
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
                f"{said(system.name)}{alternate}",
                f"{units.to_cell(system.measured, 'area'):,.0f} {units.shown('area')}: {'; '.join(coats)}",
            )


def _coat(coat: Row) -> str:
    count = f"{coat.times:g} {'coat' if coat.times == 1 else 'coats'} of {said(coat.coating)}"
    color = f", {said(coat.color)}" if coat.color is not None else ""
    part = f", on {100 * coat.share:.4g}\u00a0% of it" if coat.share is not None and coat.share < 1 else ""
    owner = ", supplied by the owner" if coat.owner_supplied is not None and same(coat.owner_supplied) == "yes" else ""
    return count + color + part + owner


def _alternate(system: Row) -> str:
    """'A', 'B', 'C', or '' for the base."""
    return "" if system.alternate is None else same(system.alternate).upper()
