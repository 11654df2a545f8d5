"""Progress worked by hand: of the running shed in plain arithmetic, of the annex day by day in a live LibreOffice, with a
mistake a day, changes and bills, to the last cent.
"""

import openpyxl
import pytest
from support.by_address import Addressed
from support.editing import LiveBook
from support.engines import differences
from support.places import ANNEX

from builder.jobs import open_job
from builder.records.kinds import TABLES
from builder.values import day

CUBIC_INCHES, SQUARE_INCHES = 231, 144  # of a US gallon, of a square foot: NIST Handbook 44, appendix C
SEEN = "Seen"
# (date, tag, hours, gallons, area, finished): what was done; one person, or two.
LOG = (
    ("2026-06-01", "T1", 8, "", "", ""),
    ("2026-06-02", "T1", 4, "", "", "yes"),
    ("2026-06-02", "T2", 4, "", "", ""),
    ("2026-06-03", "T2", 8, "", "", "yes"),
    ("2026-06-04", "C1", 8, 1, 250, ""),
    ("2026-06-05", "C1", 8, 2.5, 500, ""),
    ("2026-06-08", "C1", 6, 1, 250, ""),
    ("2026-06-09", "C2", 8, 2, 400, ""),
    ("2026-06-10", "C2", 8, 1.5, 300, ""),
    ("2026-06-11", "C2", 8, 1.5, 290, "yes"),
)
# A mistake a day, typed first: (row of the log, column, what was typed, what Log says of it, or Summary first).
MISTAKES = (
    (0, "Coat or task", "Wash", "not in the signed plan: paid, and earns nothing"),
    (1, "Hours of each", "80", "Log, row 6: hours of each: enter a number from 0 to 24 h"),
    (3, "Date", "2025-06-03", "before the day it was signed"),
    (4, "Area done", "2500", "more area than was signed"),
    (5, "Paint used", "two", "Log, row 10: paint used: enter a number"),
    (6, "Coat or task", "C9", "not in the signed plan: paid, and earns nothing"),
    (7, "Nozzle", "K9", "Log, row 12: nozzle: enter a name from Kit, in a row without errors"),
    (8, "Area done", "", "no area: earns nothing until one is typed"),
    (9, "People", "0", "Log, row 14: people: enter a whole number from 1 to 50"),
)
# By the evening of each day: hours paid, hours earned of the 60 planned, hours at the end as it went:
# paid + (60 - earned) * paid / earned.
BY_HAND = (
    (8, 8, 60),
    (16, 14, 16 + 46 * 16 / 14),
    (24, 20, 72),
    (32, 25, 32 + 35 * 32 / 25),
    (40, 35, 40 + 25 * 40 / 35),
    (46, 40, 69),
    (54, 48, 67.5),
    (62, 54, 62 + 6 * 62 / 54),
    (70, 60, 70),
)


@pytest.fixture(scope="module")
def running(books):
    return books["small shed running"]


def test_the_running_shed_is_worked_out_alike_by_an_engine(running):
    assert differences(running.estimate, running.layout, Addressed(running.path)) == []


def test_the_running_shed_by_hand(running):
    units, rows = running.opened.units, running.estimate.rows
    week, (primer, satin, trim, _gate, wash, _) = rows["week"][0], rows["progress"]

    def shown(value, quantity):
        return units.to_cell(value, quantity)

    assert [shown(one.paid, "time") for one in (primer, satin, wash)] == pytest.approx([2, 8 + 6 + 4, 5])
    # C1 and T1 are finished, C2 has 550 of 500 ft2: all of their hours are earned, no more
    assert [shown(one.earned, "time") for one in (primer, satin, trim, wash)] == pytest.approx([2, 10, 0, 4])
    paid, earned, planned = 2 + 18 + 5 + 2, 16, 2 + 10 + 4 + 3 + 4 + 0  # two hours at the neighbor's fence earn nothing
    assert shown(week.paid, "time") == pytest.approx(paid)
    assert shown(week.at_end, "time") == pytest.approx(paid + (planned - earned) / (earned / (paid - 2)))
    assert shown(primer.spread, "spread") == pytest.approx(60 / 0.5)
    laid = 250 * SQUARE_INCHES * 0.004 / CUBIC_INCHES  # gal of 4 mil on 250 ft2, where 2 gal went
    assert satin.loss == pytest.approx(1 - laid / 2)
    used = 2 + 0.5 * 5 + 1.8  # half of the largest pack, 5 gal
    assert shown(satin.left, "volume") == pytest.approx(4 + 1 - used)
    assert shown(satin.short, "volume") == pytest.approx(1)  # what the trim needs; none is left
    assert satin.told == "Order 1 gal of Exterior acrylic satin, Slate, now"
    assert rows["agreed"][0].contract == pytest.approx(4000 + 380 + 4 * 78 + 50 * 2.10 - 120.5)


def test_what_the_log_says_of_its_rows(running):
    said = [one.said for one in running.estimate.rows["log_lines"][:8]]
    assert said[3:] == [
        "no area: earns nothing until one is typed",
        "not in the signed plan: paid, and earns nothing",
        "more area than was signed",
        "no hours",
        "after the day of Progress: not counted",
    ]
    assert not any(said[:3])


def test_the_words_of_a_faulty_row_of_the_plan_name_nothing(running, tmp_path):
    """The second row of the log names the fifth of the plan, T1, by its words."""
    opened = running.opened
    book = LiveBook(
        opened.values, opened.units, tmp_path, **{table: opened.estimate.capacity[table] for table in TABLES}
    )
    with book.changed(("signed", "cost", 4, -1)):
        assert book.estimate().rows["log_lines"][1].said == "not in the signed plan: paid, and earns nothing"
        assert book.differences() == []


def test_a_plan_that_was_not_signed_says_what_to_do(books):
    said = books["small boathouse"].estimate.rows["told_progress"][0]
    assert (said.stands, said.takes, said.buys) == (
        "No plan is signed yet: 'wetfilm sign' keeps it in this book.", "", "")  # fmt: skip


# ---- day by day


def _typed(place, kind, key, row, text):
    at = place[kind, key]
    return f'sheets.getByName("{at.sheet}").getCellByPosition({at.col}, {at.row - 1 + row}).setFormula("{text}")'


FIELDS = {
    "Date": "date", "Coat or task": "tag", "People": "people", "Hours of each": "hours", "Paint used": "gallons",
    "Area done": "area", "Finished": "done", "Nozzle": "kit",
}  # fmt: skip


def _noted(place, number, row):
    """What stands by now: paid, earned, at the end; said of the row; first to fix; contract; price by inputs; due."""
    looked = [("week", "paid", 0), ("week", "earned", 0), ("week", "at_end", 0), ("log_lines", "said", row)]
    looked += [("brief", "first", 0), ("agreed", "contract", 0), ("price", "total", 0)]
    looked += [("bill_lines", "due_now", 0), ("bill_lines", "due_now", 1), ("bill_lines", "due_now", 2)]
    yield "doc.calculateAll()"
    for col, (block, key, down) in enumerate(looked):
        at = place[block, key]
        cell = f'sheets.getByName("{at.sheet}").getCellByPosition({at.col}, {at.row - 1 + down})'
        yield (
            f'sheets.getByName("{SEEN}").getCellByPosition({col}, {number}).setString({cell}.getString() & "|" '
            f"& Str({cell}.getValue()))"
        )


def _lines(place):
    yield f'sheets.insertNewByName("{SEEN}", sheets.Count)'
    yield _typed(place, "terms", "bill_by", 0, "work done")
    mistakes, number = {row: (title, text) for row, title, text, _ in MISTAKES}, 0
    days = sorted({one[0] for one in LOG})
    for row, (date, tag, hours, gallons, area, done) in enumerate(LOG):
        right = {"date": date, "tag": tag, "people": 1, "hours": hours, "gallons": gallons, "area": area, "done": done}
        for key, text in right.items():
            yield _typed(place, "log", key, row, text)
        if row in mistakes:
            title, text = mistakes[row]
            yield _typed(place, "log", FIELDS[title], row, text)
            yield from _noted(place, number, row)
            yield _typed(place, "log", FIELDS[title], row, right.get(FIELDS[title], ""))
            number += 1
        if row + 1 < len(LOG) and LOG[row + 1][0] == date:
            continue
        if date == days[1]:  # the wall is measured again: the estimate moves, the contract does not
            yield _typed(place, "takeoff", "length", 0, 140)
        if date == days[3]:
            yield from (_typed(place, "changes", key, 0, text) for key, text in
                        (("date", date), ("what", "A shelf"), ("amount", 250)))  # fmt: skip
        if date == days[5]:
            yield from (_typed(place, "changes", key, 1, text) for key, text in
                        (("date", date), ("what", "Rotten boards"), ("hours", 4)))  # fmt: skip
        for bill, at in enumerate((2, 5, 8)):
            if date == days[at]:
                yield _typed(place, "bills", "date", bill, date)
        yield from _noted(place, number, row)
        number += 1
        for bill, at, paid in ((0, 2, "1333.33"), (1, 5, "1708")):
            if date == days[at]:
                yield _typed(place, "bills", "paid", bill, paid)


@pytest.mark.slow
@pytest.mark.sitting("annex", _lines)
def test_nine_days_from_signature_to_the_last_bill(edited):
    sheet = openpyxl.load_workbook(edited, read_only=True)[SEEN]
    rows = [[(text or "|").rsplit("|", 1) for text in row] for row in sheet.iter_rows(values_only=True)]
    wrong, days = [], []
    for row, (date, *_) in enumerate(LOG):
        if row in [mistake[0] for mistake in MISTAKES]:
            wrong.append(rows.pop(0))
        if row + 1 == len(LOG) or LOG[row + 1][0] != date:
            days.append(rows.pop(0))
    for (_, _, _, told), seen in zip(MISTAKES, wrong, strict=True):
        assert told in seen[3][0] or told in seen[4][0], (told, seen)
    for by_hand, seen in zip(BY_HAND, days, strict=True):
        assert [float(cell[1]) for cell in seen[:3]] == pytest.approx(by_hand, abs=1e-6), seen
        assert seen[3][0] == ""
    prices = [float(seen[6][1]) for seen in days]
    assert prices[0] < prices[1] == prices[-1]  # by today's inputs
    assert [float(seen[5][1]) for seen in days] == [4000] * 3 + [4250] * 2 + [4000 + 250 + 4 * 78] * 4
    # a third of 4,000; two thirds of 4,562 less that; the rest
    due = [float(days[at][7 + bill][1]) for bill, at in enumerate((2, 5, 8))]
    assert due == pytest.approx([1333.33, 3041.33 - 1333.33, 4562 - 3041.33], abs=1e-9)
    assert round(sum(due), 2) == 4562.00


def test_the_annex_is_priced(books):
    assert open_job(ANNEX).price() > 0 and open_job(ANNEX).estimate.job.signed_on == day("2026-05-20")
