"""The tennis court's houses, from their days to what each alternate and each part of the work costs, and the counter.

Columns of arrays are the base and the base with A, B, C; else as in `test_court`, which works out what comes before.
"""

import pytest
import test_court as court
from numpy import array, ceil
from support.worked import Page, agrees

pytestmark = pytest.mark.slow

JOB = "court.yaml"
page = Page()
# fmt: off

# ---- rental: the lift from the first day, when walls are sanded, to the second; shed or gate add a day. The
# scaffold is the contractor's own: the trim is brushed from the second day to the third
page("E33 E36", "machines.span", array([2, 2]), "2 2", name=("lift", "scaffold"))
page("E33 E36", "machines.worked", array([2, 2]), "2 2", name=("lift", "scaffold"))
for copy, days, cost in zip(court.COPIES, (2, 2, 3, 3), (200, 200, 300, 300)):
    page("E33 E36", "machines.days", array([days, 2]), f"{days} 2", name=("lift", "scaffold"), copy=copy)
    page("E33", "machines.cost", array([cost + 2 * 20, 2 * 15]), f"{cost + 40} 30", name=("lift", "scaffold"),
        copy=copy)
rental = page("E33", "cost.rental", array([270, 270, 370, 370]), "270 270 370 370")

# ---- cost: thinner at 4 a gallon; half of the time that nobody works is paid; only what is bought is taxed
thinner = page("E22", "cost.thinner", 4 * court.with_each(array([0.7215, 0.0415, 0.414, 0.0695, 0.024])),
    "3.052 4.708 3.33 3.148")
sundries = page("E22", "cost.sundries", 0.05 * (array([270, 570, 300, 310]) + thinner),
    "13.6526 28.7354 15.1665 15.6574")
bought = page("E22", "cost.materials", array([270, 570, 300, 310]) + thinner + sundries + court.material,
    "319.2146 642.5654 354.6465 363.4454")
coat_wages = page("E22", "cost.coat_wages", court.coat_labor * court.paid, "595.94 906.44 661.09 618.44")
task_wages = page("E22 E31", "cost.task_wages", court.once * court.paid + court.visits * 25,
    "928.94 1110.95 1070.29 974.00")
standing = page("E36", "cost.standing_wages", court.standing * court.paid * 0.5, "0 331.79 0 0")
wages = page("E22", "cost.wages", coat_wages + task_wages + standing, "1524.87 2349.18 1731.39 1592.44")
direct = page("E22", "cost.direct", bought * 1.06 + wages + rental, "2133.24 3300.29 2477.31 2347.69")
cost = page("E22", "cost.cost", direct * 1.1, "2346.57 3630.32 2725.04 2582.46")
asked = page("E22", "price.asked", cost * 1.1 / 0.8, "3226.53 4991.70 3746.93 3550.88")
net = page("E22", "price.net", ceil(asked), "3227 4992 3747 3551")
page("E22", "price.difference", net - 3227, "0 1765 520 324")
page("E22", "price.per_area", net / court.with_each(court.coated), "2.11468 2.57320 2.25045 2.25604")

# ---- the counter: all that is bought, its tax, beside what the price bears of it
page("E22", "counter.thinner", thinner[0], "3.052")
page("E22", "counter.thinner_volume", 0.7215 + 0.0415, "0.763")
page("E22", "counter.sundries", sundries[0], "13.6526")
page("E22", "counter.task_material", court.material[0], "32.51")
page("E22", "counter.untaxed", bought[0], "319.2146")
page("E22", "counter.tax", bought[0] * 0.06, "19.152876")
page("E22", "counter.total", bought[0] * 1.06, "338.367476")
page("E22", "counter.in_price", bought[0] * 1.06, "338.367476")
page("E22", "counter.wear", 0, "0")

# ---- parts: Front (two lines and the trim's), Back, Inside (the rooms); then the alternates. Wages and sanding go by
# work area, paint by need, the lift to the Back, the scaffold to the trim's line
of_walls = array([155, 546, 742]) / 1443
of_trim = array([50, 0, 33]) / 83
worked_walls, worked_trim = array([155, 819, 742]) / 1716, array([62.5, 0, 33]) / 95.5
page("E46", "parts.area", array([205, 546, 775, 1526, 331.2, 139, 48]), "205 546 775 1526 331.2 139 48")
need = array([*(7.215 * of_walls + 0.415 * of_trim), 7.63, 2.07 + 4.14, 0.695, 0.24])
page("E46", "parts.need", need, "1.025 2.73 3.875 7.63 6.21 0.695 0.24")
hours = (17.16 + 5.72) / 0.8 * worked_walls + 1.91 / 0.8 * worked_trim
# the paint of the base costs 270 for 7.63 gal
bought_walls, bought_trim = (1.05 * (270 * gallons / 7.63 + 0.4 * gallons) for gallons in (7.215, 0.415))
own = (17.16 + 5.72) * court.paid * worked_walls + 1.91 * court.paid * worked_trim
own += bought_walls * of_walls + bought_trim * of_trim + [30, 240, 0]
page("E46", "parts.own", own, "172.16 683.83 475.40")
# 30.9875 hours are the parts' own, the other 30.00749 of the whole job are shared as its money is
hours += (court.labor[0] - sum(hours)) * own / sum(own)
page("E46", "parts.labor", array([*hours, court.labor[0], *(court.labor[1:] - court.labor[0])]),
    "8.02608 29.06251 23.90640 60.99499 19.70048 8.26044 2.70257")
page("E46", "parts.run", own.cumsum(), "172.16 855.99 1331.39")
page("E46", "parts.share", array([*(own / sum(own)), 1]), "0.12931 0.51362 0.35707 1")
up_to = (3227 * own.cumsum() / sum(own)).round(2)  # running sums to the cent, so that the parts add up
page("E43 E46", "parts.price", array([up_to[0], up_to[1] - up_to[0], 3227 - up_to[1], 3227, 1765, 520, 324]),
    "417.28 1657.46 1152.26 3227 1765 520 324")
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
