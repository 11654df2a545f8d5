"""Estimates published whole, from area to price: four items of a schedule of rates with its analysis.

The schedule is that of the public works of Bangladesh, item breakups, in taka (P: read in the pages of the schedule).
Each breakup lists paint, days of painter and helper, lump sums; profit of 10 % and overhead of 3.5 % on their sum; and
tax that is 7.5 % of the price it is part of. A job says the same so:

- a day has 8 hours; painter and helper work alike long, so an hour is (700 + 550) / 2 / 8 = 78.125;
- paint is bought by spread, in packs that hold the schedule's amount; nothing is lost by hand, nothing kept;
- a lump sum is the material of a task by area that takes no time;
- overhead is 3.5 % of direct cost, margin .10 of 1.135 of the price, sales tax 3/37 (7.5 of 92.5 parts).

Sums and taxes agree to the printed figure. The price before tax is rounded up to a step, here .01, where the schedule
rounds profit and overhead each to the nearest: .00 to .01 more, which the last column of ITEMS says.
"""

from pathlib import Path

import pytest
from support.slow import some
from support.worked import book_of

PUBLISHED = Path(__file__).parent / "published"
# item: paint, wages, lump sums, their sum, overhead, with profit too, tax, with tax; how much more is rounded up
ITEMS = {
    "distemper": (102.00, 937.50, 82.50, 1122.00, 39.27, 1273.47, 103.25, 1376.72, 0.00),
    "enamel": (138.60, 625.00, 192.53, 956.13, 33.46, 1085.20, 87.99, 1173.19, 0.01),
    "texture": (3393.08, 1250.00, 1053.44, 5696.52, 199.38, 6465.55, 524.23, 6989.78, 0.01),
    "silicon": (700.00, 1250.00, 247.50, 2197.50, 76.91, 2494.16, 202.23, 2696.39, 0.01),
}
CENT = 0.005 + 1e-9


@pytest.fixture(params=some(ITEMS, 4), scope="module")
def item(request, tmp_path_factory):
    """What is printed of an item, and a look at its book: the base figure of a name."""
    book = book_of(PUBLISHED / f"{request.param}.yaml", tmp_path_factory.mktemp("item"), PUBLISHED / "terms.yaml")
    return ITEMS[request.param], lambda place: book.column(place)[0]


def test_its_sums(item):
    (paint, wages, lumps, total, overhead, *_), base = item
    assert base("cost.paint") == pytest.approx(paint, abs=CENT)
    assert base("cost.wages") == pytest.approx(wages, abs=CENT)
    assert base("cost.task_material") == pytest.approx(lumps, abs=CENT)
    assert base("cost.direct") == pytest.approx(total, abs=CENT)
    assert base("cost.overhead") == pytest.approx(overhead, abs=CENT)


def test_its_price(item):
    (*_, net, tax, price, up), base = item
    assert base("price.net") == pytest.approx(net + up, abs=1e-9)
    assert base("price.tax") == pytest.approx(tax, abs=1e-9)
    assert base("price.total") == pytest.approx(price + up, abs=1e-9)


@pytest.mark.slow
@pytest.mark.parametrize("item, printed", [("texture", 752.4), ("silicon", 290.2)], indirect=["item"])
def test_its_rate_by_the_square_meter(item, printed):
    """100 ft2 are 9.290304 m2."""
    assert item[1]("price.total") / 9.290304 == pytest.approx(printed, abs=0.05)
