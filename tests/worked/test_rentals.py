"""What is rented for 24 days, worked by hand: the least of months of 20 working days (none, as many as fit, one more)
and, for the days beside, of days, of weeks of five and days, of weeks. A rate that is not offered is made of the next
shorter one, the day's of the shortest there is.
"""

import pytest
from numpy import array
from support.worked import Page, agrees

JOB, BEFORE = "rentals.yaml", "court.yaml"
page = Page()
# fmt: off
page("E33", "machines.cost", 1000 + 4 * 100, "1400", name="months and days")
page("E33", "machines.cost", 2 * 800, "1600", name="months")  # one, and a week, are 1700
# a day costs what five do, 400; a month 4 x 400: so a month and a week, or five weeks
page("E33", "machines.cost", 5 * 400, "2000", name="five only")
page("E33", "machines.cost", 2 * 1200, "2400", name="twenty only")  # a day costs what twenty do
page("E33", "machines.cost", array([2 * 700, 5 * 250 + 2 * 5]), "1400 1260", name=("Twenty pump", "Five pump"))
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
