"""A tennis court's houses, worked by hand: one lane, alternates A, B and C, tasks of the whole job in each, a room
twice, standard windows and doors, a lift and an own scaffold, a promised day, parts, what is paid at the counter.

Everything is rolled or brushed, 200 ft2 a gallon, 100 and 50 ft2 an hour of each of a gun and two rollers. Columns of
arrays are the base and the base with A, B, C. Lengths in ft, areas in ft2, volumes in gal, times in h, money in USD.
"""

from math import exp, log, sqrt

import pytest
from numpy import array, ceil, maximum
from support.worked import Page, agrees, date

JOB = "court.yaml"
page = Page()
# fmt: off
COPIES = (1, 2, 3, 4)
Z80 = 0.8416212335729143  # standard deviations from the median to P80


def of_each(equations, place, values, written, **where):
    """A figure of a repeated column: its base, and the base with each alternate."""
    for copy, value, text in zip(COPIES, values, written.split()):
        page(equations, place, value, text, copy=copy, **where)
    return array(values)


# ---- areas: windows of 12 ft2 come off one face of two, doors of 21 off both, as the job's own bounds say
gross = page("E1", "areas.gross", array([200, 300, 50, 300, 160, 60]), "200 300 50 300 160 60")
off = page("E3", "areas.standard", array([2 * 12 + 21, 12 / 2 + 21, 0, 2 * 12, 21, 12]), "45 27 0 24 21 12")
page("E3", "areas.openings", array([45, 27, 0, 24, 21, 12]), "45 27 0 24 21 12")
page("E2", "areas.measured", (gross - off) * [1, 2, 1, 1.2, 1, 1], "155 546 50 331.2 139 48")
page("E2", "areas.coated", (gross - off) * [1, 2, 1, 1.5, 1, 1], "155 546 50 414 139 48")
page("E3", "areas.perimeter", array([2 * 14 + 20, 14 + 20, 0, 2 * 14, 20, 14]), "48 34 0 28 20 14")
page("E3", "areas.opened", array([3, 2, 0, 2, 1, 1]), "3 2 0 2 1 1")
# two rooms of 10 x 8, 9 high: walls less a window and a door, ceiling, base less the door
room = array([2 * (36 * 9 - 12 - 21), 2 * 80, 2 * (36 - 3) * 0.5])
page("E1 E3", "rooms.coated", sum(room), "775")
walls, trim = 155 + 546 + room[0] + room[1], 50 + room[2]
measured = page("E2", "systems.measured", array([walls, trim, 331.2, 139, 48]), "1443 83 331.2 139 48")
coated = page("E2", "systems.coated", array([walls, trim, 414, 139, 48]), "1443 83 414 139 48")
work = page("E2", "systems.work", array([walls + 546 / 2, trim + 50 / 4, 331.2, 139 * 1.5, 48 * 1.5]),
    "1716 95.5 331.2 208.5 72")
run = page("E2", "systems.run", array([20 + 30 + 2 * 36 + 2 * 10, 100 + 2 * 33, 60, 20, 10]), "142 166 60 20 10")
edge = page("E3", "systems.perimeter", array([48 + 34 + 2 * 34, 0, 28, 20, 14]), "150 0 28 20 14")
edge_work = page("E28", "systems.edge_work", edge + array([34, 0, 0, 20, 14]) / 2, "167 0 28 30 21")
opened = page("E3", "systems.opened", array([3 + 2 + 2 * 2, 0, 2, 1, 1]), "9 0 2 1 1")
open_work = page("E28", "systems.open_work", opened + array([2, 0, 0, 1, 1]) / 2, "10 0 2 1.5 1.5")


def with_each(of_systems):
    """Of the base, and of the base with each alternate."""
    return sum(of_systems[:2]) + array([0, *of_systems[2:]])


all_work, all_measured = with_each(work), with_each(measured)
of_each("E28", "systems.measured_all", all_measured, "1526 1857.2 1665 1574")
of_each("E28", "systems.coated_all", with_each(coated), "1526 1940 1665 1574")
of_each("E28", "systems.run_all", with_each(run), "308 368 328 318")
of_each("E28", "systems.perimeter_all", with_each(edge), "150 178 170 164")
of_each("E28", "systems.opened_all", with_each(opened), "9 11 10 10")
slow = of_each("E28", "systems.slow_all", all_work / all_measured, "1.18709 1.15373 1.21321 1.19663")
of_each("E28", "systems.edge_slow_all", with_each(edge_work) / with_each(edge), "1.11333 1.09551 1.15882 1.14634")
of_each("E28", "systems.open_slow_all", with_each(open_work) / with_each(opened), "1.11111 1.09091 1.15 1.15")

# ---- paint of 200 ft2 a gallon, unthinned: a gallon has 1.1 of what is laid, which goes as far
page("E4 E8", "film.hand_material", array([1.1, 1.1, 1, 1.1, 1.1, 1.1]) / 200,
    "0.0055 0.0055 0.005 0.0055 0.0055 0.0055")
coats = coated[[0, 1, 2, 2, 3, 4]] * [1, 1, 1, 2, 1, 1]  # the fence is primed
need = page("E18", "gallons.need", coats / 200, "7.215 0.415 2.07 4.14 0.695 0.24")
thinner = page("E18", "gallons.thinner", need * [0.1, 0.1, 0, 0.1, 0.1, 0.1], "0.7215 0.0415 0 0.414 0.0695 0.024")
# white of the base, with the shed; green of the fence, of the gate; a quarter is kept of each, of a primer none
white = need[0] + need[1] + 0.25
shed_white, fence, gate = white + need[4], need[3] + 0.25, need[5] + 0.25
page("E18 E40", "purchases.total", array([white]), "7.88", scenario=1, live=1)
page("E18 E40", "purchases.total", array([white, need[2], fence]), "7.88 2.07 4.39", scenario=2, live=1)
page("E18 E40", "purchases.total", array([shed_white]), "8.575", scenario=3, live=1)
page("E18 E40", "purchases.total", array([white, gate]), "7.88 0.49", scenario=4, live=1)
# 7.88 are one of 5 and three of 1; the primer three of 1; 4.39 one of 5, as five of 1 cost 200; 8.575 two of 5, as
# one and four of 1 cost 310
paint = page("E19", "cost.paint", array([150 + 3 * 40, 270 + 3 * 50 + 150, 2 * 150, 270 + 40]),
    "270 570 300 310")
page("E19", "purchases.bought", array([8, 3, 5]), "8 3 5", scenario=2, live=1)

# ---- wages: 20 and a quarter; of 8 hours 1.6 bring nothing; set-up takes half an hour of two of four
paid = page.step("E31", 25 / 0.8, "31.25")
page("E31", "basics.people", 1 + 2 + 1, "4")
day = page("E31 E36", "plan.hours", (8 - 0.5 * 2 / 4) * 0.8, "6.2")

# ---- tasks of the whole job, by what is in each scenario, at its access
wash = all_work / 400
seal = with_each(coated) * slow / 250
mask = with_each(edge_work) / 40
tape = with_each(run) * slow / 100
lamps = with_each(open_work) / 5
of_each("E21 E28", "task_hours.labor", wash, "4.52875 5.35675 5.05 4.70875")
of_each("E21 E28", "task_hours.labor", seal, "7.246 8.95291 8.08 7.534", task="Seal")
of_each("E21 E28", "task_hours.labor", mask, "4.175 4.875 4.925 4.7", task="Mask")
of_each("E21 E28", "task_hours.labor", tape, "3.65624 4.24571 3.97934 3.80529", task="Tape")
of_each("E21 E28", "task_hours.labor", lamps, "2 2.4 2.3 2.3", task="Lamps")
sand, sand_shed, hang = 1716 / 300, 208.5 / 300, 1.5 / 5
once = wash + seal + mask + tape + lamps + sand + array([0, 0, sand_shed + hang, 0])
of_each("E21 E28", "task_hours.labor_all", once, "27.32599 31.55038 31.04934 28.76804")
of_each("E21", "task_hours.visit_hours_all", [1, 1, 1, 1], "1 1 1 1")
material = of_each("E21", "task_hours.once_material_all",
    0.01 * all_measured + 0.10 * with_each(edge) + 0.25 * with_each(opened), "32.51 39.122 36.15 34.64")

# ---- the schedule: median of area and time, sqrt(.8 x 1.25 x .9 x 1.6); June takes a fifth outdoors, nothing indoors
pace = page("E36", "plan.pace", 1.2, "1.2")
outdoors = page.step("E36", pace / (1 - 0.2), "1.5")
page("E36 E47f", "months.lost", array([31, 32, 33, 34, 35, 20, 37, 38, 39, 40, 41, 42]) / 100,
    "0.31 0.32 0.33 0.34 0.35 0.20 0.37 0.38 0.39 0.40 0.41 0.42")
# wash, mask and tape come first, by all four; so many sand and roll the walls and brush the trim
begin = page("E36", "plan.begin", (wash[0] + mask[0] + tape[0]) * pace / 4, "3.70800")
rolled, brushed = page.step("E12", array([1716 / 100, 95.5 / 50]) / 4, "4.29 0.4775")
sanded = begin + sand / 4 * outdoors
walls_done = sanded + rolled * outdoors
trim_done = walls_done + brushed * pace
page("E36", "run.end", array([sanded, walls_done, trim_done]), "5.85300 12.28800 12.86100")
gun_time = page("E36", "plan.gun_time", trim_done - begin, "9.15300")
lost = page("E36", "plan.lost_time", (walls_done - begin) * 0.2, "1.716")
share = page("E36", "plan.lost", lost / gun_time, "0.18748")
page("E36", "plan.open_lost", 0.2, "0.2")
halted = page("E36", "plan.halted", 0.2 * day / 2, "0.62")  # the weather that halts the walls keeps the trim waiting
coat_labor = with_each(array([17.16, 1.91, 3 * 3.312, 2.085, 0.72]))
page("E36", "days.coat_labor", coat_labor, "19.07 29.006 21.155 19.79")
# what the alternates add to the gun: rolled three times, or sanded, hung and rolled; in the open, of June
added = page("E36", "days.added", array([0, 3 * 3.312, sand_shed + hang + 2.085, 0.72]) / 4 * outdoors,
    "0 3.726 1.155 0.27")
# the coats of the fence wait for 72 and for four hours on the clock
alone = page("E36", "days.alone", added + [0, (72 + 4) / 24 * day, 0, 0], "0 23.35933 1.155 0.27")
lanes = page("E36", "days.lanes", begin + maximum(gun_time + added, alone), "12.86100 27.06733 14.01600 13.13100")
# four people have more to do than the gun's lane takes; the lamps come last
body = page("E36", "days.body", coat_labor + once - lamps[0], "44.39599 58.55638 50.20434 46.55804")
rest_from = page("E36", "days.rest_from", maximum(lanes, body * pace / 4 / (1 - share)),
    "16.39195 27.06733 18.53652 17.19023")
done = page("E36", "days.work", rest_from + lamps[0] * pace / 4, "16.99195 27.66733 19.13652 17.79023")
page("E36", "days.days", ceil(done / day / 0.5) * 0.5, "3 4.5 3.5 3")
visits = page("E36", "days.visits", array([3, 5, 4, 3]), "3 5 4 3")
page("E36", "days.finish", array([date(2026, 6, day_of) for day_of in (3, 5, 4, 3)]), "46176 46178 46177 46176")
labor = page("E21 E31 E36", "days.labor", (coat_labor + once) / 0.8 + visits * 1, "60.99499 80.69547 69.25542 63.69755")
standing = page("E36", "days.standing", maximum(0, done * 4 - (coat_labor + once) * pace / (1 - share)),
    "0 21.23447 0 0")
# promised: eight in ten, of area, time and what the weather takes in single days
spread = page("E36", "plan.spread", sqrt(log(1.25 / 0.8) ** 2 + log(1.6 / 0.9) ** 2) / (2 * 1.2815515655446004),
    "0.28409")
page("E36", "days.score", [Z80] * 4, "0.84162 0.84162 0.84162 0.84162")
late = ((done * (exp(Z80 * spread) - 1)) ** 2 + 1.4 * Z80**2 * day * lost / (1 - 0.2)) ** 0.5
sure = page("E36", "days.sure", done + halted + late, "23.46451 36.59603 26.07356 24.43336")
page("E36", "days.promised", array([date(2026, 6, day_of) for day_of in (4, 8, 5, 4)]), "46177 46181 46178 46177")
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
