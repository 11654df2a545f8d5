"""A dock, worked by hand: seven systems indoors and one gun. Soonest able goes first; of several, who has most coats
left, then who keeps the color in the pump (a roller does), then who needs what is rented, then who stands first.

Lengths in ft, areas in ft2, volumes in gal, flows in gal/min, times in h of work.
"""

from math import pi

import pytest
from numpy import array
from support.worked import FOOT, GALLON, GPM, INCH, POUND, PSI, Page, agrees

JOB, BEFORE = "dock.yaml", "court.yaml"
page = Page()
# fmt: off

# ---- the standard 515 for all; 200 ft2 a gallon on the face, a fifth lost, a quarter of its fan of 10 in beside 60
density = page("E9", "film.density", 10.8 / 1.1, "9.8182", no=2)
flow = 0.8 * pi / 4 * (15 * INCH / 1000) ** 2 * (2 * 2000 * PSI / (density * POUND / GALLON)) ** 0.5 / GPM
material = page.step("E8", 1.1 / 200 / 0.8 / (60 / 62.5), "0.007161")
area, access = array([1000, 1000, 1600, 1600, 2400, 2400]), array([1, 1, 1.5, 1.5, 1.25, 1])
a_coat = page.step("E12", area * (material / (flow * 60) + access * 4 / 3600),
    "1.65035 1.65035 3.52946 3.52946 4.62752 3.96085")
rolled = page.step("E12", 400 * 1.25 / 100 / 2, "2.5")
page("E12", "hours.elapsed", array([rolled, *a_coat * [2, 2, 1, 1, 1, 1]]),
    "2.5 3.30071 3.30071 3.52946 3.52946 4.62752 3.96085")

# ---- the order: of 8 h 1.6 bring nothing; medians of area and time
day = page("E31 E36", "plan.hours", 6.4, "6.4")
mast = rolled * 1.2
hull, keel, cabin, gaff, deck, boom = a_coat * 1.2
MAST, HULL, KEEL, CABIN, GAFF, DECK, BOOM = range(1, 8)
times = [hull, keel, mast, keel, cabin, boom, gaff, hull, deck]
done = array(times).cumsum()
page("E36", "run.system", array([HULL, KEEL, MAST, KEEL, CABIN, BOOM, GAFF, HULL, DECK]), "2 3 1 3 4 7 5 2 6")
page("E36", "run.end", done, "1.98043 3.96085 6.96085 8.94128 13.17662 17.92964 22.16499 24.14541 29.69843")
# hull and keel have two coats. Neither is dry when the keel is done, at 3.96: the roller keeps the pump as it is, where
# cabin and gaff need the lift. On the second day the keel, dry by evening, keeps its blue; then cabin and gaff need the
# lift; boom keeps white; gaff needs the lift; hull and deck keep its red. Loads: red, blue, white, red
page("E36", "days.loads", 4, "4", no=1)
page("E36", "run.day", array([1, 1, 1, 2, 2, 3, 3, 4, 4]), "1 1 1 2 2 3 3 4 4")
page("E36", "run.last", array([1, 1, 2, 2, 3, 3, 4, 4, 5]), "1 1 2 2 3 3 4 4 5")
# blue stays for the first evening, while the mast is rolled, white for the second, red for the third and the fourth
page("E35", "plan.flush_labor", 4 * 0.25, "1")
page("E35", "days.clean_labor", 4 * 2 * 0.5 + 1, "5", no=1)
page("E35 E36", "days.work", done[-1] + 5 * 1.2 / 2, "32.69843", no=1)
page("E35", "cost.task_material", 4 * 3, "12", no=1)
# the lift is needed from the second day to the fourth, the scaffold on the first two and the last two
page("E33", "machines.span", array([3, 5]), "3 5", name=("lift", "scaffold"))
page("E33", "machines.worked", array([3, 4]), "3 4", name=("lift", "scaffold"))
page("E33", "machines.cost", array([3 * 100 + 40, 4 * 15]), "340 60", name=("lift", "scaffold"))
content = pi / 4 * 50 * FOOT * (INCH / 4) ** 2 / GALLON
load = page.step("E30", (0.2 + (1 - 0.6) * content) / 1.1, "0.22818")
page("E30", "purchases.line_fill", load * array([0, 2, 1, 1]), "0 0.45636 0.22818 0.22818", scenario=1, live=1)
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
