"""Summary, Price and Shopping: what people read adds up, agrees with the workings and starts at the first row."""

import re
from functools import cache
from itertools import pairwise

import pytest
from support.editing import LiveBook
from support.engines import Values
from support.places import SHED
from support.slow import slow
from support.small import CATALOGS as FEW_SIZES

from builder.jobs import open_job
from builder.sheets.shown import to_from_to, to_nearest, to_upward
from builder.stages import priced, shopping, summary
from builder.stages.buying import OTHERS

SMALL = {"takeoff": 9, "coats": 7, "nozzles": 14, "openings": 8, "tasks": 8, "kit": 4, "systems": 6}
JOBS = pytest.mark.parametrize(
    "name", ["small corridor", "small shed", *map(slow, ("boathouse", "small repaint", "small flat"))]
)
READ = ("Summary", "Price", "Shopping")


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    opened = open_job(SHED, [FEW_SIZES])
    return LiveBook(opened.values, opened.units, tmp_path_factory.mktemp("shed"), **SMALL)


@cache
def cached(path):
    return Values(path)


def column(book, block, key):
    """What stands in the cells of a list, from its first row to the last."""
    place, shown = book.layout.places[block, key], cached(book.path)
    return [shown.get(place.sheet, place.row + down, place.col + 1) for down in range(place.rows)]


def fact(book, block, key):
    """What a cell holds; a figure to nine decimals, so that a currency's exchange leaves no last bit."""
    place = book.layout.places[block, key]
    found = cached(book.path).get(place.sheet, place.row, place.col + 1)
    return round(found, 9) if isinstance(found, float) else found


def used(values):
    return [value for value in values if value not in (None, "")]


def shown_price(book):
    return book.opened.units.to_cell(book.estimate.rows["price"][0].total, "money")


@pytest.mark.slow
@JOBS
@pytest.mark.parametrize("block", ["summary_parts", "priced_parts"])
def test_the_parts_add_up_to_the_price_to_the_last_unit(books, name, block):
    book = books[name]
    lines = list(zip(used(column(book, block, "name")), column(book, block, "money")))
    at = [called for called, _ in lines].index("Price")
    parts, whole = [money for _, money in lines[:at]], lines[at][1]
    assert at > 1 and sum(parts) == whole == round(shown_price(book)) == fact(book, "summary", "price")
    assert all(money == int(money) for money in parts)
    # after the whole, alternates alone
    assert all(called.startswith("Alternate ") for called, _ in lines[at + 1 :])


@JOBS
def test_what_parts_bear_is_all_of_its_kind(books, name):
    """Paint, thinner, sundries, nozzles and wages of coats are somebody's own: no part of them is shared."""
    rows = books[name].estimate.rows
    cost, coats = rows["cost"][0], [one for one in rows["coat_cost"] if one.live]
    for keys, whole in (
        (("paint",), cost.paint),
        (("sundries",), cost.thinner + cost.sundries),
        (("nozzles",), cost.nozzles),
        (("wages",), cost.coat_wages + cost.change_wages),
    ):
        assert sum(getattr(one, key) for one in coats for key in keys) == pytest.approx(whole, rel=1e-9)
    parts = [one for one in rows["parts"] if one.base_at]
    assert sum(one.own for one in parts) <= cost.direct * (1 + 1e-9)
    assert [one.share for one in parts] == pytest.approx([one.own / sum(each.own for each in parts) for one in parts])


@pytest.mark.slow
def test_three_equal_parts_of_a_hundred_are_rounded_so_that_they_add_up(books):
    """By hand: 33.33 -> 33, 66.67 - 33 -> 67 - 33 = 34, 100 - 67 = 33. Steps of a quarter: 1.1 -> 1, up 1.25."""
    est = books["boathouse"].estimate
    runs = [0.0, 100 / 3, 200 / 3, 100.0]
    assert [to_from_to(est, one, other, "money") for one, other in pairwise(runs)] == [33.0, 34.0, 33.0]
    gallon = est.units.scale("volume")
    assert to_nearest(est, 1.1 * gallon, "volume") == pytest.approx(1.0 * gallon)
    assert to_upward(est, 1.1 * gallon, "volume") == pytest.approx(1.25 * gallon)
    assert to_upward(est, 0.0, "volume") == 0


@JOBS
def test_the_lines_of_the_price_add_up_and_tell_the_workings(books, name):
    book, price = books[name], books[name].estimate.rows["price"][0]
    amounts = {key: fact(book, "priced", key) for key, *_ in priced.SPANS}
    assert sum(amounts[key] for key, *_ in priced.ITEMS) == pytest.approx(amounts["net"], abs=1e-6)
    assert amounts["net"] + amounts["tax"] == amounts["total"] == round(shown_price(book))
    for key, _, of in priced.ITEMS:  # what is laid on a line to add up is at most one
        assert abs(amounts[key] - book.opened.units.to_cell(getattr(price, of), "money")) <= 1
        assert fact(book, "priced", f"part_{key}") == pytest.approx(getattr(price, of) / price.total, abs=0.005 + 1e-9)
    paid = used(fact(book, "priced", key) for key in ("first", "second", "third"))
    assert sum(paid) == pytest.approx(shown_price(book)) or book.estimate.terms.stages > 2


def test_a_price_with_sales_tax_four_payments_and_an_alternate_agrees_in_the_engine(live):
    with live.changed(
        ("terms", "sales_tax", 0, 0.0825), ("terms", "stages", 0, 4), ("coats", "owner_supplied", 0, "yes")
    ):
        assert live.differences() == []
        rows = live.estimate().rows
    page, price = rows["priced"][0], rows["price"][0]
    assert page.tax > 0 and page.net + page.tax == page.total and page.name_second.endswith(", 3 times")
    assert price.deposit + 3 * page.second + page.third == pytest.approx(price.total)
    assert rows["summary"][0].more_price == "sales tax included"
    assert rows["summary"][0].more_paint.endswith(", the owner's too")
    bought = next(one for one in rows["shopping"] if one.buy.endswith("from the owner"))
    assert bought.money is None and bought.need > 0
    parts = [one for one in rows["summary_parts"] if one.money is not None]
    at = [one.name for one in parts].index("Price before tax")
    assert sum(one.money for one in parts[:at]) == pytest.approx(page.net)


def test_a_system_of_an_alternate_is_a_line_of_its_own_only_where_it_is_measured(live):
    with live.changed(("systems", "alternate", 1, "B")):
        assert live.differences() == []
        rows = live.estimate().rows
        names = [one.name for one in rows["summary_parts"] if one.name]
        system = live.values["systems"][1]["name"]
        assert f"Alternate B: {system}" in names and system not in names
        lines = [row for row, one in enumerate(live.values["takeoff"]) if one["system"] == system]
        other = live.values["systems"][0]["name"]
        with live.changed(*(("takeoff", "system", row, other) for row in lines)):
            assert live.differences() == []
            assert not any((one.name or "").startswith("Alternate B") for one in live.estimate().rows["summary_parts"])


# --- shopping ---


def shop(book):
    """Lines of Shopping: what, of what, buy, money."""
    return list(zip(*(column(book, "shopping", key) for key in ("what", "which", "buy", "money"))))


@JOBS
def test_what_is_bought_adds_up_to_what_is_paid_and_to_the_purchases_of_the_price(books, name):
    book, rows = books[name], books[name].estimate.rows
    cent, units = book.opened.units.money_step, book.opened.units
    lines = {what: money for what, _, _, money in shop(book) if money not in (None, "")}
    each = [money for what, _, _, money in shop(book) if money not in (None, "") and what not in OTHERS[5:]]
    assert sum(each) == pytest.approx(lines["To pay"], abs=cent / 1000)
    cost, price = rows["cost"][0], rows["price"][0]
    cash = (cost.materials - cost.nozzles + cost.nozzles_cash) * (1 + book.estimate.terms.purchase_tax)
    assert lines["To pay"] == pytest.approx(units.to_cell(cash, "money"), abs=cent / 2 + 1e-9)
    # paint, thinner, nozzles by wear and material stand in the price as they stand here, with the tax on them
    bears = price.goes_coatings + price.goes_material + cost.tax * cost.materials / cost.taxed
    assert lines["Purchases in the price"] == pytest.approx(units.to_cell(bears, "money"), abs=cent / 2 + 1e-9)
    assert lines["To pay"] + lines[OTHERS[6]] == pytest.approx(lines["Purchases in the price"])


@JOBS
def test_packs_in_words_hold_what_is_bought(books, name):
    book = books[name]
    unit = book.opened.units.shown("volume")
    sizes = re.compile(rf"(\d+) x ([\d.]+) {re.escape(unit)}(?: \+ |$)")
    words = [buy for what, _, buy, _ in shop(book)[: len(used_of(book, "bought"))]]
    volume = sum(float(number) * float(size) for line in words for number, size in sizes.findall(line))
    bought = book.opened.units.to_cell(book.estimate.rows["brief"][0].gallons, "volume")
    assert words and volume == pytest.approx(bought, abs=0.005 * 3 * len(words))  # sizes are said in hundredths


def used_of(book, block):
    return [one for one in book.estimate.rows[block] if one.place is not None]


@JOBS
def test_a_coating_and_color_stands_once_and_lines_follow_each_other_without_gaps(books, name):
    book = books[name]
    lines = shop(book)
    paint = [(what, which) for what, which, *_ in lines[: len(used_of(book, "bought"))]]
    assert len(set(paint)) == len(paint) > 0
    what = [line[0] for line in lines]
    head = what.index(shopping.COATS["what"])
    assert all(what[: head - 1]) and not what[head - 1]
    coats = [one for one in book.estimate.rows["gallons"] if one.place is not None]
    assert all(what[head + 1 : head + 1 + len(coats)]) and not any(what[head + 1 + len(coats) :])


@pytest.mark.slow
def test_shopping_prints_on_one_upright_sheet_of_paper_all_that_it_has_room_for(books):
    book = books["blank"]
    sheet = Values(book.path).book["Shopping"]
    place = book.layout.places["shopping", "what"]
    assert sheet.print_area.endswith(f"$H${place.row + place.rows - 1}")
    assert sheet.page_setup.orientation == "portrait"
    assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight or 1) == (1, 1)


# --- all three ---


@pytest.mark.slow
def test_a_blank_book_says_in_words_that_nothing_is_there_yet(books):
    book = books["blank"]
    assert fact(book, "summary", "who") == summary.NAMELESS and fact(book, "summary", "state") == "NO PRICE"
    assert fact(book, "summary", "rule") == fact(book, "priced", "rule") == priced.EMPTY
    assert fact(book, "open_asks", "question") == book.estimate.rows["asks"][0].words
    assert fact(book, "priced", "sure") == f"No price yet: {book.estimate.checks.first}"
    assert fact(book, "shopping_note", "note").startswith(shopping.NOTHING)
    numbers = [
        (title, cell.coordinate)
        for title in READ
        for row in Values(book.path).book[title].iter_rows()
        for cell in row
        if isinstance(cell.value, (int, float))
    ]
    assert numbers == []


@JOBS
def test_nothing_is_shown_as_a_dash_and_numbers_keep_to_the_steps_of_reading(books, name):
    book = Values(books[name].path).book
    for title in READ:
        for row in book[title].iter_rows(min_row=4):
            for cell in row:
                assert cell.value not in ("–", "-"), (title, cell.coordinate)
                assert not isinstance(cell.value, float) or "–" not in cell.number_format, (title, cell.coordinate)


@pytest.mark.slow
def test_the_answers_of_summary_are_those_of_the_workings(books):
    book, rows = books["boathouse"], books["boathouse"].estimate.rows
    answers = {key: fact(book, "summary", key) for key, *_ in summary.ANSWERS}
    assert answers["days"] == rows["days"][0].days and answers["nozzles"] == sum(
        one.buy[0] for one in rows["sizes"] if one.live
    )
    assert answers["paint"] == pytest.approx(book.opened.units.to_cell(rows["brief"][0].gallons, "volume"), abs=0.125)
    assert answers["hours"] == pytest.approx(rows["days"][0].labor / 3600, abs=0.25)
    assert answers["hours"] * 2 % 1 == 0 and answers["paint"] * 4 % 1 == 0
