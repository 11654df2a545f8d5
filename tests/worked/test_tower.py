"""A clock tower, worked by hand: hands prepare system after system while a pair rolls behind them, June turns into
July, a weekend and a holiday pass, paint dries for days, weather leaves a tenth of the hours up on the spire.

Rolled at 100 ft2 an hour of each of two; all hours of a day are of use. Times in h of work, money in USD.
"""

import pytest
from numpy import array
from support.worked import Page, agrees, date

JOB, BEFORE = "tower.yaml", "court.yaml"
page = Page()
# fmt: off
NAMES = ("ladder", "boom", "platform")

day = page("E36", "plan.hours", 8, "8")
pace = page("E36", "plan.pace", 1.2, "1.2")
page("E36", "plan.hands", 4 - 2, "2")
# ---- days: Monday June 29th, the 30th, July 1st and 2nd; the 3rd is a holiday, then from Monday the 6th on, but for
# a weekend
days = [date(2026, 6, 29), date(2026, 6, 30), *(date(2026, 7, one) for one in (1, 2, 6, 7, 8, 9, 10, 13))]
page("E36", "work_days.date", array(days), "46202 46203 46204 46205 46209 46210 46211 46212 46213 46216")
page("E36", "work_days.morning", array([0, 24, 48, 72, 168, 192, 216, 240, 264, 336]),
    "0 24 48 72 168 192 216 240 264 336")
page("E36 E47f", "work_days.lost", array([0.2] * 2 + [0.4] * 8), "0.2 0.2 0.4 0.4 0.4 0.4 0.4 0.4 0.4 0.4")

# ---- hands: all four set out and scrub the foot, two go on; what begins in July on the spire has a tenth of its hours
begin = page("E36", "plan.begin", 4 * pace / 4, "1.2")
foot = page.step("E36", begin + 16 * pace / 4 / 0.8, "7.2")
shaft = page.step("E36", foot + 20 * pace / 2 / 0.8, "22.2")  # begun on the first day
spire = page.step("E36", shaft + 6 * pace / 2 / (1 - 0.9), "58.2")  # begun on the third
page("E36", "lanes.hand_end", array([foot, shaft, spire, spire]), "7.2 22.2 58.2 58.2")
page("E36", "lanes.hand_lost", array([0.2, 0.2, 0.9]), "0.2 0.2 0.9")
page("E36", "lanes.ready", array([foot, shaft, spire, begin]), "7.2 22.2 58.2 1.2")
page("E36", "plan.gun_from", foot, "7.2")

# ---- the pair: foot, which has most coats, then the steps, until paint is dry and hands are done
first = foot + 2 * pace / 0.8  # until the second day, at 2.2; dry 60 hours on, in the evening of July 2nd, but 72
page.step("E36", 24 + (first - day) + 72, "98.2")  # on the clock: in the night to the 3rd; so on the 6th
steps = first + 4 * pace / 0.8
shaft_done = shaft + 3 * pace / 0.6
again = 4 * day + 2 * pace / 0.6
spire_done = spire + 0.5 * pace / (1 - 0.9)
page("E36", "run.end", array([first, steps, shaft_done, again, spire_done]), "10.2 16.2 28.2 36 64.2")
page("E36", "run.system", array([1, 4, 2, 1, 3]), "1 4 2 1 3")
gun_time = page("E36", "plan.gun_time", 3 + 6 + 6 + 4 + 6, "25")
lost = page("E36", "plan.lost_time", 3 * 0.2 + 6 * 0.2 + 6 * 0.4 + 4 * 0.4 + 6 * 0.9, "11.2")
page("E36", "plan.open_time", 25, "25")
page("E36", "plan.halted", 0, "0")  # no step has better weather than the one before
# ---- the end: 32 hours of clearing, by four, on the ninth day and the tenth; on the sixth and seventh hands work alone
page("E36", "days.lanes", 64.2, "64.2")
page("E36", "days.rest_from", spire_done, "64.2")
done = page("E36", "days.work", spire_done + 32 * pace / 4, "73.8")
page("E36", "work_days.gun", array([1, 1, 1, 1, 1, 0, 0, 1, 1, 0]), "1 1 1 1 1 0 0 1 1 0")
page("E36", "work_days.hand", array([1] * 8 + [0, 0]), "1 1 1 1 1 1 1 1 0 0")
page("E36", "work_days.rest", array([0] * 8 + [1, 1]), "0 0 0 0 0 0 0 0 1 1")
page("E36", "work_days.used", array([1] * 10 + [0]), "1 1 1 1 1 1 1 1 1 1 0")
page("E36", "days.finish", date(2026, 7, 13), "46216")
# the porch adds an hour of two and the vane half of one, in July, of weather of their exposures
page("E36", "days.added", array([0, 1 * pace / 0.6, 0, 0.5 * pace / 0.1]), "0 2 0 6")
page("E36", "days.visits", array([10] * 4), "10 10 10 10")  # for which the gun waits long enough

# ---- on site: the ladder on the first two days and the fifth; the boom from the first, when the shaft is scrubbed, to
# the fourth; the platform from the third to the ninth
page("E33 E36", "machines.since", array([1, 1, 3]), "1 1 3", name=NAMES)
page("E33 E36", "machines.until", array([5, 4, 9]), "5 4 9", name=NAMES)
page("E33 E36", "machines.span", array([5, 4, 7]), "5 4 7", name=NAMES)
page("E33 E36", "machines.worked", array([3, 4, 7]), "3 4 7", name=NAMES)
page("E33", "machines.cost", array([3 * 15, 4 * 100 + 40, 300 + 2 * 90 + 20]), "45 440 500", name=NAMES)
# the porch takes the boom for a day more, the vane the platform
for copy, boom, platform in ((2, 540, 500), (3, 440, 500), (4, 440, 590)):
    page("E33", "machines.cost", array([45, boom, platform]), f"45 {boom} {platform}", name=NAMES, copy=copy)
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
