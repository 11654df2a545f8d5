"""Every question both ways: asked by an edit of a book in which none is open, and answered in the one place it names;
in the model and in the formulas.
"""

import pytest
from support.editing import small_book
from support.slow import slow

from builder.records.checklist import ITEMS
from builder.records.questions import DEMO, QUESTIONS
from builder.stages.gathered import ACCEPTED, ANSWERED, OPEN

LAST = 7  # the last row of Tasks of this book, which the shed leaves free
# What the office and the estimator say, so that no question of the shed is open.
ANSWERS = (
    ("terms", "demo", 0, "no"),
    ("terms", "firm", 0, "Own Firm"),
    ("terms", "license", 0, "Number 7"),
    ("systems", "exposure", 1, "indoors"),
    ("coats", "share", 0, 0.5),
    ("terms", "ground_reach", 0, 9.0),
    ("job", "travel_time", 0, 0.0),
    ("job", "distance", 0, 0.0),
    ("job", "accepted", 0, ""),
)
NO_TASK = tuple(("tasks", key, row, "") for row in range(6) for key in ("task", "system", "length", "hours"))
OLD_HOME = (("job", "building", 0, "home"), ("job", "built", 0, 1950.0))
SANDED = (("tasks", "task", LAST, "Sand"), ("tasks", "area", LAST, 10.0))
# key -> (the edits that ask it, the edits after them that answer it); the answers are worked out by hand.
ASKED = {
    "demo": ([("terms", "demo", 0, "Yes")], [("terms", "demo", 0, "")]),  # a book that does not know the question
    "tasks": (NO_TASK, [("tasks", "task", 0, "Supervision"), ("tasks", "hours", 0, 1.0)]),
    "travel": ([("job", "travel_time", 0, "")], [("job", "travel_time", 0, 0.5)]),
    # the posts are a cylinder on Rails, whose surface stands at 8 of the catalog
    "profile": ([("surfaces", "profile", 7, "")], [("takeoff", "profile", 4, "Flat")]),
    "empty": ([("takeoff", "length", 4, 0.0)], [("takeoff", "length", 4, 1.0)]),
    "start": ([("job", "start", 0, "")], [("job", "exposure", 0, "indoors"), ("systems", "exposure", 0, "indoors")]),
    # prices of 2 March 2026; Terms allow 120 days: old from 1 July on
    "old_prices": ([("job", "date", 0, 46204.0)], [("job", "date", 0, 46203.0)]),
    "inside": ([("systems", "exposure", 1, "sheltered")], [("exposures", "outdoors", 1, "no")]),
    "lead_test": ([*OLD_HOME, *SANDED], [("job", "lead_test", 0, "no lead found")]),
    "lead_safe": ([*OLD_HOME, *SANDED, ("job", "lead_test", 0, "lead found")], [("job", "built", 0, 1978.0)]),
    "building": ([("job", "building", 0, ""), *SANDED], [("job", "building", 0, "other")]),
    "misfit": ([("coats", "nozzle", 0, "standard 1223")], [("coats", "nozzle", 0, "")]),
    "spots": ([("coats", "share", 0, 0.49)], [("coats", "method", 0, "brush")]),
    # a ladder of the catalog reaches 24 ft
    "too_high": ([("takeoff", "height", 0, 25.0)], [("takeoff", "height", 0, 24.0)]),
    "sags": ([("coats", "dry_film", 1, 4.0)], [("coats", "dry_film", 1, "")]),
    "overthinned": ([("coats", "thinning", 1, 0.2)], [("coats", "thinning", 1, 0.1)]),
    # the flow of the satin, tenth of the catalog, as thin as water: Reynolds number 18 at 250 cP, so 4600 at 1 cP
    "turbulent": ([("coatings", "viscosity", 9, 1.0)], [("terms", "reynolds_max", 0, 100000.0)]),
    # the boards, partly reached by a rented lift, dry ten days between two coats
    "rental": ([("coatings", "recoat", 9, 240.0)], [("job", "rental_days", 0, 5.0)]),
    # of forty people, few have work; of one, one has
    "idle": ([("job", "people", 0, 40.0)], [("job", "people", 0, 1.0)]),
    "team": ([("job", "people", 0, 3.0), ("tasks", "people", 0, 4.0)], [("tasks", "people", 0, 3.0)]),
    # both nozzles of the kit are standard ones
    "guards": ([("guards", "guard", 0, "")], [("guards", "guard", 3, "Standard")]),
    "minimum": ([("job", "minimum", 0, 1e6)], [("job", "minimum", 0, 1.0)]),
    "deposit": ([("terms", "deposit_cap", 0, 0.1)], [("terms", "deposit", 0, 0.1)]),
    "voc": ([("job", "voc_limit", 0, 10.0)], [("job", "voc_limit", 0, "")]),
    "client": ([("job", "client", 0, " ")], [("job", "client", 0, "A club")]),
    "date": ([("job", "date", 0, "")], [("job", "date", 0, 46100.0)]),
    "firm": ([("terms", "firm", 0, "")], [("terms", "firm", 0, "Own Firm")]),
    "license": (
        [("terms", "license", 0, "license and insurance numbers go here")],
        [("terms", "license", 0, "Number 7")],
    ),
    "accepted": ([("job", "accepted", 0, "minimums")], [("job", "accepted", 0, "Minimum,")]),
}
DAILY = ("tasks", "lead_safe", "too_high", "deposit", "firm", "accepted")  # the others are slow
# Held elsewhere: the sums by tests/workbook/test_inputs.py, rule 25; the nozzle to order below, whatever is picked.
ELSEWHERE = {"area_sum", "gallons_sum", "cost_sum", "stock"}


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    book = small_book("us", tmp_path_factory.mktemp("questions"))
    for change in ANSWERS:
        book.change(*change)
    return book


def _open(book):
    """The keys of the open questions, and that the formulas find the same."""
    estimate = book.estimate()
    assert book.differences() == []
    stated = (*ITEMS, *QUESTIONS)
    return {stated[row.no - 1].key for row in estimate.rows["findings"] if row.state_no == OPEN}, estimate


def test_each_question_is_asked_here_or_named_as_held_elsewhere():
    assert ASKED.keys() | ELSEWHERE == {question.key for question in QUESTIONS}


@pytest.mark.slow
def test_a_book_in_which_all_is_answered_is_ready_and_says_so(book):
    asked, estimate = _open(book)
    brief, lines = estimate.rows["brief"][0], estimate.rows["check_lines"]
    assert (asked, brief.state, brief.first) == (set(), "READY", None)
    assert brief.words.startswith("READY · ") and estimate.rows["bid"][0].state is None
    assert [row.state for row in lines if row.state] == ["answered"] * 6 + ["clear"]
    assert "clear" not in brief.words


@pytest.mark.parametrize("key", [key if key in DAILY else slow(key) for key in ASKED])
def test_a_question_is_open_until_it_is_answered(book, key):
    ask, answer = ASKED[key]
    with book.changed(*ask):
        asked, estimate = _open(book)
        assert key in asked and estimate.checks.stops == 0
        assert estimate.rows["brief"][0].state == f"DRAFT: {len(asked)} OPEN"
        with book.changed(*answer):
            assert key not in _open(book)[0]


def test_a_nozzle_to_buy_that_the_store_must_order_is_asked_about(book):
    """The nozzle that is picked for the satin; where it is not to be bought, it need not be ordered."""
    size = int(book.estimate().rows["picks"][1].size_at) - 1
    assert book.estimate().rows["sizes"][size].buy[0] > 0
    with book.changed(("nozzles", "stocked", size, "no")):
        assert "stock" in _open(book)[0]
        with book.changed(("nozzles", "stocked", size, "yes")):
            assert "stock" not in _open(book)[0]


@pytest.mark.slow
@pytest.mark.parametrize("typed", ["minimum, old prices", "Old_Prices,MINIMUM", " oldprices ,, minimum,"])
def test_what_is_accepted_is_told_apart_from_what_is_answered(book, typed):
    with book.changed(("job", "minimum", 0, 1e6), ("job", "date", 0, 46204.0)):
        assert _open(book)[0] == {"minimum", "old_prices"}
        with book.changed(("job", "accepted", 0, typed)):
            asked, estimate = _open(book)
            assert asked == set() and estimate.rows["brief"][0].state == "READY"
            lines = estimate.rows["check_lines"]
            assert [(row.state, row.because) for row in lines if row.state == "accepted"] == [
                ("accepted", "as it is")
            ] * 2
            assert {row.state_no for row in estimate.rows["findings"]} == {ACCEPTED, ANSWERED, ANSWERED + 1}


def test_a_name_that_is_accepted_twice_or_is_none_is_asked_about(book):
    for typed in ("voc, voc", "vocs", "voc; date"):
        with book.changed(("job", "accepted", 0, typed)):
            assert _open(book)[0] == {"accepted"}, typed


def test_a_row_half_typed_leaves_no_price_and_says_where_it_stands(book):
    """Rows of Takeoff begin in row 5 of the sheet, so the seventh stands in row 11."""
    with book.changed(("takeoff", "system", 6, "Boards"), ("takeoff", "height", 6, 9.0)):
        estimate = _open(book)[1]
        brief = estimate.rows["brief"][0]
        first = "Takeoff, row 11: length: enter a number from 0 to 5,000 ft, or feet and inches as 14' 6 1/2\""
        assert (brief.state, brief.words) == ("NO PRICE", f"NO PRICE · {first}")
        assert estimate.rows["bid"][0].missing == first
        line = estimate.rows["check_lines"][0]
        assert (line.state, line.finding, line.answer_place) == ("to fix", first, "Takeoff")
        with book.changed(("takeoff", "count", 7, 2.0)):
            assert _open(book)[1].checks.first == f"{first}, and 1 more"


def test_a_row_of_a_table_that_stands_under_another_is_found(book):
    """Systems has 6 rows in this book from row 5 of Paint on: its last is row 10; six rows between them, so Coats begin
    in row 17.
    """
    with book.changed(("coats", "coats", 1, 0.5)):
        assert _open(book)[1].checks.first.startswith("Paint, row 18: coats: enter a whole number")


def test_an_empty_takeoff_says_what_to_do_first(book):
    fields = ("tag", "place", "system", "shape", "profile", "length", "height", "count", "sides", "access")
    empty = [("takeoff", key, row, "") for row in range(6) for key in fields]
    empty += [("openings", key, row, "") for row in range(6) for key in ("line", "name", "width", "height", "count")]
    with book.changed(*empty):
        brief = _open(book)[1].rows["brief"][0]
        assert brief.words == "NO PRICE · Type the first line (Takeoff)"


def test_figures_of_the_demo_are_no_offer_even_where_they_are_accepted(book):
    assert book.estimate().rows["bid"][0].missing is None
    with book.changed(("terms", "demo", 0, "yes")):
        bid = _open(book)[1].rows["bid"][0]
        assert bid.missing == DEMO and "draft" in bid.state
        with book.changed(("job", "accepted", 0, "demo")):
            bid = _open(book)[1].rows["bid"][0]
            assert (bid.missing, bid.state) == (DEMO, None)


def test_the_bid_speaks_of_lead_where_old_paint_is_disturbed_until_none_is_found(book):
    assert book.estimate().rows["bid"][0].lead is None
    with book.changed(*OLD_HOME, *SANDED):
        assert "40 CFR 745" in _open(book)[1].rows["bid"][0].lead
        with book.changed(("job", "lead_test", 0, "lead found")):
            assert "40 CFR 745" in _open(book)[1].rows["bid"][0].lead
        with book.changed(("job", "lead_test", 0, "no lead found")):
            assert _open(book)[1].rows["bid"][0].lead is None


def test_what_other_sheets_tell_first_is_to_fix_before_it_is_to_answer(book):
    with book.changed(("terms", "demo", 0, "yes"), ("job", "people", 0, 0.5)):
        asks = _open(book)[1].rows["asks"]
        assert [row.where for row in asks if row.at][:2] == ["Job", "Terms: Figures of the demo"]
        assert asks[1].words == "Prices, wages and rates are those of the demo" and asks[1].why
