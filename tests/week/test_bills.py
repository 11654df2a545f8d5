"""Bills worked by hand: three of a contract of 4,000 in 400, 1,800 and 1,800, with a change of 250 and one of four hours
at 78, which makes 4,562; of 40 hours of work 20 are done at the second bill, all at the third.
"""

import dataclasses
import datetime

import pytest
from support.by_address import Addressed
from support.engines import differences
from support.places import ROOT
from support.small import CATALOGS, small_books

from builder.jobs import from_values, open_job
from builder.stages.order import blocks
from builder.values import to_date
from builder.workbook.layout import Layout
from builder.workbook.make import make

HOUR = 3600.0


def day(month, number):
    """As spreadsheets count days."""
    return float((datetime.date(2026, month, number) - to_date(0)).days)


DATES = day(5, 20), day(6, 5), day(6, 30)
WORK = {
    "signed": [{"tag": "T1", "what": "Paint", "hours": 40 * HOUR}],
    "contract": [
        {"what": "Boards", "price": 4000.0},
        *({"what": "Payment", "payment": amount} for amount in (400.0, 1800.0, 1800.0)),
    ],
    "log": [{"date": date, "tag": "T1", "people": 2.0, "hours": 10 * HOUR} for date in (day(6, 2), day(6, 20))],
    "changes": [
        {"date": day(6, 1), "what": "Shutters", "amount": 250.0},
        {"date": day(6, 4), "what": "Shelves", "hours": 4 * HOUR},
    ],
}


@pytest.fixture(scope="module")
def shed():
    with small_books():
        yield open_job(ROOT / "tests/data/shed_running.yaml", [CATALOGS])


def billed(shed, terms, paid=(None, None, None), done=(None, None, None), units=None, **tables):
    """The estimate of the running shed with the work above; `paid`, `done`: of each bill."""
    bills = [{"date": date, "done": part, "paid": came} for date, part, came in zip(DATES, done, paid)]
    owed = {"extra_hour": 78 / HOUR, "bill_by": None, "retained": None, "not_ahead": None} | terms
    job = {"job": [{**shed.values["job"][0], "as_of": None}], "terms": [{**shed.values["terms"][0], **owed}]}
    values = {**shed.values, **WORK, **job, "bills": bills, **tables}
    with small_books():
        return from_values(values, units or shed.units, shed.settings).estimate


def asked(shed, terms, paid, **more):
    """What each bill asks for, where the others are paid."""
    return [row.due_now for row in billed(shed, terms, paid, **more).rows["bill_lines"][: len(DATES)]]


@pytest.mark.parametrize(
    "terms, by_hand",
    [
        ({}, (400, 2081, 2081)),  # 400 + 1,800 + 562 / 2 = 2,481 by then
        ({"bill_by": "work done"}, (400, 1881, 2281)),  # 4,562 / 2 = 2,281
        ({"retained": 0.1}, (400, 1872.90, 2289.10)),  # 208.10 of 2,481 - 400 is held back
        ({"bill_by": "work done", "retained": 0.1}, (400, 1692.90, 2469.10)),  # 188.10 of 2,281 - 400
        ({"not_ahead": "yes"}, (400, 1881, 2281)),  # 2,481 is ahead of half of 4,562
        ({"not_ahead": "yes", "retained": 0.1}, (400, 1692.90, 2469.10)),
    ],
)
def test_three_bills_close_the_contract_to_the_cent(shed, terms, by_hand):
    found = asked(shed, terms, by_hand)
    assert found == pytest.approx(by_hand, abs=1e-9)
    assert sum(found) == pytest.approx(4562.00, abs=1e-9)


@pytest.mark.parametrize("currency, second", [("USD", 1120.51), ("JPY", 1121)])  # 4,562 * 0.3333 = 1,520.5146 less 400
def test_a_share_that_is_typed_counts_before_the_log_and_no_part_of_a_cent_is_asked(shed, currency, second):
    units = dataclasses.replace(shed.units, currency=currency)
    by_hand = 400, second, 4562 - 400 - second
    found = asked(shed, {"bill_by": "work done"}, by_hand, done=(None, 0.3333, None), units=units)
    assert found == pytest.approx(by_hand, abs=1e-9)


def test_what_is_paid_ahead_or_not_at_all_is_seen_on_the_next_bill(shed):
    """Nothing came in on the first: 2,481 are due. 2,600 came in: 119 too much, and nothing is asked."""
    second = billed(shed, {}, (None, None, None)).rows["bill_lines"][1]
    assert (second.due_now, second.open, second.ahead) == pytest.approx((2481, 4562 - 2481, 0), abs=1e-9)
    second = billed(shed, {}, (2600.0, None, None)).rows["bill_lines"][1]
    assert (second.due_now, second.open, second.ahead) == pytest.approx((0, 4562 - 2600, 119), abs=1e-9)


def test_the_page_says_the_last_bill_without_gaps_and_its_lines_add_up(shed):
    """The second change is of the day after the bill, and the rows stand as they were typed, the last day first."""
    late = [WORK["changes"][0], {**WORK["changes"][1], "date": day(6, 6)}]
    bills = [{"date": DATES[1]}, {"date": DATES[0], "paid": 400.0}]
    rows = billed(shed, {"retained": 0.1}, bills=bills, changes=late).rows
    said = [(row.line, row.what, row.amount) for row in rows["bill_list"]]
    assert said[:10] == [
        ("Contract as signed", "on 20 May 2026", 4000),
        ("Change", "Shutters, 1 June 2026", 250),
        ("Contract with changes", "", 4250),
        ("Done so far", "50 % of the work, by our log", None),
        ("Due to date", "", pytest.approx(2325, abs=1e-9)),  # 400 + 1,800 + 250 / 2
        ("Held back", "until all is done", pytest.approx(-192.50, abs=1e-9)),
        ("Paid before", "on earlier bills", -400),
        ("Due now", "", pytest.approx(1732.50, abs=1e-9)),
        ("Open afterwards", "once this bill is paid", pytest.approx(4250 - 400 - 1732.50, abs=1e-9)),
        (None, None, None),
    ]
    assert rows["bill"][0].heading == "Bill 2: Bicycle shed" and rows["bill"][0].asked == "1,732.50 USD"


@pytest.mark.parametrize(
    "values, told",
    [
        ({"job": {"signed_price": None}}, "No bill yet: type the price as signed"),
        ({"bills": []}, "No bill yet: type its date"),
    ],
)
def test_without_a_price_or_a_bill_the_page_says_what_to_do(shed, values, told):
    if "job" in values:
        values = {"job": [{**shed.values["job"][0], **values["job"]}]}
    rows = billed(shed, {}, **values).rows
    assert rows["bill"][0].state.startswith(told) and rows["bill"][0].asked is None
    assert not any(row.line for row in rows["bill_list"])


def test_an_engine_works_the_bills_out_alike_and_follows_what_is_typed(shed, tmp_path):
    """Of the running shed 4,676.50 are agreed: 4,000 + 380 + 4 h at 78 + 50 ft2 at 2.10 - 120.50; 400 are paid."""
    path = tmp_path / "shed.xlsx"
    with small_books():
        path.write_bytes(make(shed))
        layout = Layout(blocks(shed.units, shed.estimate.capacity), shed.estimate.capacity)
    engine = Addressed(path)
    assert not differences(shed.estimate, layout, engine)

    def cell(block, key, row=0):
        place = layout.places[block, key]
        return place.sheet, place.row + row, place.col + 1

    engine.put(*cell("terms", "retained"), 0.1)
    engine.put(*cell("bills", "done", 1), 0.5)
    # by stages 400 + 1,800 + 676.50 / 2 = 2,538.25; of that less 400 a tenth is held, 213.825
    assert engine.get(*cell("bills", "shown_due", 1)) == pytest.approx(2538.25 - 213.83 - 400, abs=1e-9)
    engine.put(*cell("bills", "done", 1), 1)
    assert engine.get(*cell("bill", "asked")) == "4,276.50 USD"
