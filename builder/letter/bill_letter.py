"""The letter of the last bill: what its page says, in words."""

from collections.abc import Iterator

from builder.jobs import Opened
from builder.letter.draft import Table
from builder.letter.said import money, said, spelled_date
from builder.problems import Problem, Refused
from builder.records.sentences import BILL_TAX
from builder.sheets.rows import Row
from builder.stages.estimate import Estimate
from builder.values import to_date


def there_is_a_bill(name: str, estimate: Estimate) -> None:
    """Refuses a book in which nothing is signed or nothing is billed."""
    if estimate.rows["agreed"][0].signed is None:
        hint = "type the price as signed on Job, and the contract on Changes; Checks says what else to fix"
        raise Refused([Problem(name, 0, 0, "there is no bill: no price is signed", hint)])
    if not estimate.rows["bill"][0].live:
        hint = "type its date there; what is wrong in a row is said beside it"
        raise Refused([Problem(name, 0, 0, "there is no bill: no row of Bills on Changes has a date", hint)])


def bill_blocks(opened: Opened, attached: str | None) -> Iterator[str | Table]:
    """The letter of a bill, top to bottom: what its page says."""
    estimate, units = opened.estimate, opened.units
    bill = estimate.rows["bill"][0]
    yield "Hello,"
    at = f" at {said(bill.site)}" if bill.site else ""
    whose = f", for {said(bill.client)}" if bill.client else ""
    about = said(estimate.job.name) or "the painting"
    yield f"here is our bill number {bill.number:g} for {about}{at}{whose}, of {spelled_date(to_date(bill.day))}."
    yield f"Due now: {money(bill.due_now, units)}."
    yield f"Done so far: {bill.told_done}."
    lines = [row for row in estimate.rows["bill_list"] if row.amount is not None]
    yield Table("How it adds up", tuple((_line(row), money(row.amount, units)) for row in lines), True)
    yield str(bill.pay_terms)
    yield f"Sales tax is {BILL_TAX}."
    if attached:
        yield f"The bill is attached as {attached}."
    yield "Kind regards"


def _line(row: Row) -> str:
    """'Held back, until all is done'"""
    return ", ".join(filter(None, (said(row.line), said(row.what))))
