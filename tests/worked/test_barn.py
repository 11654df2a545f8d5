"""A hay barn, worked by hand: one gun, two coats on bare ribbed boards, a narrow trim, overhead on direct cost.

Days follow the schedule: times of steps are those of every other job (the medians of area and time), weather takes a
fifth of what is done outdoors, both people do the tasks of the walls and then one coats them.

Lengths in ft, areas in ft2, films in mil, volumes in gal, flows in gal/min, times in h, money in USD.
"""

from math import exp, log, pi, sqrt

import pytest
from numpy import array, maximum, minimum
from support.worked import FOOT, GALLON, GPM, INCH, POUND, PSI, WATER, Page, agrees, chance_below, date

JOB = "barn.yaml"
page = Page()
# fmt: off
COVER = 231 / 144 * 1000  # mil ft2 in a gallon

# ---- areas: walls, gables, a partition with two faces, a strip of trim
gross = page("E1", "areas.gross", array([60 * 10 * 2, 30 * 12 / 2 * 2, 20 * 9, 200 * 0.5]), "1200 360 180 100")
# gate 80, hatches 12 and loft door 20 ft2 from a single face; hatch of 32 ft2 from one face of two; the vent of 5 ft2
# from none
off = page("E3", "areas.openings", array([80 + 2 * 12, 20, 32 / 2 + 48, 0]), "104 20 64 0")
edges = page("E3", "areas.perimeter", array([36 + 2 * 14 + 9, 18, 24 + 28, 0]), "73 18 52 0")
measured = page("E2", "areas.measured", (gross - off) * array([1.25, 1.25, 1, 1]) * array([1, 1, 2, 1]),
    "1370 425 232 100")
coated = page("E2", "areas.coated", (gross - off) * array([1.2, 1.2, 1, 1]) * array([1, 1, 2, 1]), "1315.2 408 232 100")
work = page("E2", "areas.work", measured * array([1, 1.5, 1, 1]), "1370 637.5 232 100")
area = page("E2", "film.coated", array([1315.2 + 408 + 232, 100]), "1955.2 100")
slow_area = page("E2", "film.work", array([1370 + 637.5 + 232, 100]), "2239.5 100")

# ---- film: 1.6 mil dry of 40 % solids, thinned by a tenth
wet = page("E4", "film.wet_film", array([1.6 * 1.1 / 0.4] * 2), "4.4 4.4")
page("E5", "film.spread", array([COVER * 0.4 / 1.6] * 2), "401.04 401.04")
page("E6", "film.loss", array([0.20 * 1.2, 0.25 * 1.2]), "0.24 0.3")
uptake = page("E8", "film.mean_uptake", array([(1.2 + 2 - 1) / 2, 1]), "1.1 1")
density = page("E9", "film.density", array([(10 + 0.1 * WATER) / 1.1] * 2), "9.848 9.848")

# ---- spray: the nozzles in columns: standard 411, 515, 617 and soft 515
fan, orifice, price = array([8, 10, 12, 10]), array([11, 15, 17, 15]), array([20, 20, 24, 32])
pressure = page("E9", "trials.pressure", 2000 * array([1, 1, 1, 0.64]), "2000 2000 2000 1280", coat=1)
flow = (
    0.8
    * pi
    / 4
    * (orifice * INCH / 1000) ** 2
    * sqrt(2)
    * (pressure * PSI / (density[0] * POUND / GALLON)) ** 0.5
    / GPM
)
page("E9", "trials.flow", flow, "0.1189 0.2210 0.2839 0.1768", coat=1)
# 150 cP through 50 ft of 1/4 in and 4 ft of 3/16 in
resistance = 128 * 0.150 / pi * (50 * FOOT / (INCH / 4) ** 4 + 4 * FOOT / (INCH * 3 / 16) ** 4) * GPM / PSI
page("E10", "film.resistance", array([resistance] * 2), "656.72 656.72")
page("E10", "trials.set_pressure", pressure + resistance * flow, "2078.05 2145.14 2186.42 1396.11", coat=1)

wage = page("E15", "film.wage", array([24 * 1.3] * 2), "31.2 31.2")
cheap = page("E15", "film.paint_price", array([135 / 5] * 2), "27 27")
life = page("E13", "trials.life", 40 * (orifice / 15) ** 2 * 2000 / pressure / 1.2, "17.926 33.333 42.815 52.083",
    coat=1)
change = page.step("E14", price + 0.1 * 31.2, "23.12 23.12 27.12 35.12")
waste = page.step("E14", 0.05 * 27 / 1.1 + 0.1 * 31.2 / (flow * 60), "1.6648 1.4626 1.4105 1.5214")
interval = page("E14", "trials.interval", minimum(life, (2 * change * life / waste) ** 0.5),
    "17.926 32.463 40.577 49.037", coat=1)
wear = page.step("E14", interval / (2 * life), "0.5 0.4869 0.4739 0.4708")
over, drag = 0.05 * wear, 0.10 * wear


# E6-E8, E11, E12, E15 for the two coats, the nozzles in columns again
loss = page("E6", "trials.loss", 0.20 * 1.2 * array([1, 1, 1, 0.9]), "0.24 0.24 0.24 0.216", coat=1)
miss = page(
    "E7", "trials.miss", 1 - 60 / (60 + fan / 4), "0.03226 0.04 0.04762 0.04", coat=1
)  # a face wider than the fan: a quarter of it flies past
walls = page("E8", "trials.material", 4.4 * 1.1 / (COVER * (1 - loss) * (1 - miss)),
    "0.004102 0.004135 0.004168 0.004009", coat=1)
page("E11", "trials.gun_speed", flow / 60 * (1 - loss) * COVER / (4.4 * fan / 2 / 12), "1.6466 2.4495 2.6218 2.0215",
    coat=1)
time = page("E12", "trials.time", walls * (1 + drag) / (flow * 60) + 2239.5 / 1955.2 * 4 * 1.1 / 3600,
    "0.002004 0.001727 0.001656 0.001796", coat=1)
cost = walls / 1.1 * (1 + over) * 27 + time * 31.2 + walls * (1 + over) * change / interval
page("E15", "trials.cost", cost, "0.1712 0.1609 0.1593 0.1597", coat=1)

loss = page("E6", "trials.loss", 0.25 * 1.2 * array([1, 1, 1, 0.9]), "0.3 0.3 0.3 0.27", coat=2)
miss = page(
    "E7", "trials.miss", 1 - 6 / maximum(fan, 6 + fan / 4), "0.25 0.4 0.5 0.4", coat=2
)  # a face of 6 in, narrower than any fan
trim = page("E8", "trials.material", 4.4 / (COVER * (1 - loss) * (1 - miss)), "0.005224 0.006531 0.007837 0.006262",
    coat=2)
page("E11", "trials.gun_speed", flow / 60 * (1 - loss) * COVER / (4.4 * fan / 12), "0.7583 1.1280 1.2074 0.9411",
    coat=2)
time = page("E12", "trials.time", trim * (1 + drag) / (flow * 60) + 15 * 1.1 / 3600,
    "0.005353 0.005100 0.005065 0.005201", coat=2)
cost = trim / 1.1 * (1 + over) * 27 + time * 31.2 + trim * (1 + over) * change / interval
page("E15", "trials.cost", cost, "0.3054 0.3281 0.3603 0.3242", coat=2)

# ---- choice: walls take fans of 10 to 12 in, where the wide 617 costs least; trim takes the 411 alone, all others are
# too wide
# of the twelve reasons against a size the last weighs 1, each other twice the next: too narrow 32, too wide 16
page("E16", "trials.against", array([2**5, 0, 0, 0]), "32 0 0 0", coat=1)
page("E16", "trials.against", array([0, 2**4, 2**4, 2**4]), "0 16 16 16", coat=2)
page("E17", "picks.size_at", array([3, 1]), "3 1")
gauge = page("E39", "picks.gauge", array([2200, 2100]), "2200 2100")  # 2186 and 2078 psi, up to steps of 50
# so set, the flow is x of what was worked out, where 2000 x^2 at the gun and the loss of x flow make up the gauge
lost = resistance * flow[[2, 0]]
share = page("E39", "picks.gauge_share", ((lost**2 + 4 * 2000 * gauge) ** 0.5 - lost) / (2 * 2000), "1.0032 1.0054")
page("E39", "picks.gauge_flow", share * flow[[2, 0]], "0.2848 0.1195")
# in the whip, 4 density flow / (pi bore viscosity)
reynolds = 4 * density[0] * POUND / GALLON * flow[[2, 0]] * GPM / (pi * INCH * 3 / 16 * 0.150)
page("E10", "picks.reynolds", reynolds, "37.668 15.771")

# ---- gallons: two coats through the 617, one through the 411
used = array([2, 0])
over, drag = over[used], drag[used]
material = array([walls[2], trim[0]])
applied = page("E18", "gallons.applied", area * array([2, 1]) * material * (1 + over), "16.686 0.5355")
need = page("E18", "gallons.need", applied / 1.1, "15.169 0.4868")
page("E18", "gallons.thinner", applied - need, "1.5169 0.04868")
# the white trim is sprayed while the first red dries, so that the pump is loaded red, white, red; nothing is won back
content = pi / 4 * (50 * FOOT * (INCH / 4) ** 2 + 4 * FOOT * (INCH * 3 / 16) ** 2) / GALLON
load = page.step("E30", (0.2 + content) / 1.1, "0.3029")
fill = page("E30 E36", "purchases.line_fill", array([2 * load, load]), "0.6059 0.3029", scenario=1, live=1)
total = page("E18 E30", "purchases.total", need + fill + 0.25, "16.025 1.0398", scenario=1, live=1)

# ---- packs: 16.03 gal are three of 5 gal at 135 and two of 1 gal at 30, 465, where four of 5 gal cost 540; 1.04 gal
# are two of 1 gal
page("E19", "purchases.small", array([2, 2]), "2 2", scenario=1, live=1)
page("E19", "purchases.middle", array([3, 0]), "3 0", scenario=1, live=1)
page("E19", "purchases.bought", array([17, 2]), "17 2", scenario=1, live=1)
paint = page("E19", "purchases.cost", array([3 * 135 + 2 * 30, 2 * 30]), "465 60", scenario=1, live=1)
page("E19", "purchases.left_over", array([17, 2]) - total, "0.9747 0.9602", scenario=1, live=1)

# ---- nozzles: due by when changing pays, a new one and a spare at least; the price bears what is worn, the counter
# what is bought
due = page("E20", "gallons.due", applied / interval[used], "0.4112 0.02987")
page("E20", "gallons.spent", applied / life[used], "0.3897 0.02987")
page("E20", "sizes.buy", array([2, 0, 2]), "2 0 2")
nozzles = page("E20", "cost.nozzles", due[0] * 24 + due[1] * 20, "10.467")
page("E20", "cost.nozzles_cash", 2 * 24 + 2 * 20, "88")

# ---- hours of coats: trigger and handling of one person
trigger = page("E12", "hours.trigger", area * array([2, 1]) * material * (1 + drag) / (flow[used] * 60),
    "1.0024 0.07693")
handling = slow_area * array([2, 1]) * array([4, 15]) * 1.1 / 3600
elapsed = page("E12", "hours.elapsed", trigger + handling, "6.4767 0.5353")
page("E12", "hours.labor", elapsed, "6.4767 0.5353")
page("E12", "hours.trigger_share", trigger / elapsed, "0.1548 0.1437")

# ---- tasks: wash what is measured, mask 143 ft (two share the time and are not paid twice); by load: clean; by visit:
# set up
once = page("E21 E27", "task_hours.labor", array([2027 / 800, 143 / 90, 0, 0]), "2.5337 1.5889 0 0")
page("E21", "task_hours.visit_hours", array([0, 0, 0.5 * 2, 0]), "0 0 1 0")
page("E35", "task_hours.load_hours_all", 0.4, "0.4")

# ---- the schedule: of 8 h a day set-up takes half an hour
day = page("E36", "plan.hours", 8 - 0.5 * 2 / 2, "7.5")
pace = page("E36", "plan.pace", (0.98 * 1.04 * 0.8 * 1.4) ** 0.5, "1.0684")
outdoors = page.step("E36", pace / (1 - 0.20), "1.3355")
washed = page("E36", "lanes.hand_end", sum(once) / 2 * outdoors, "2.7529")  # by both
red = page.step("E36", washed + elapsed[0] / 2 * outdoors, "7.0778")  # the first red ends on the first day
white = page.step("E36", red + elapsed[1] * outdoors, "7.7926")  # the trim ends on the second
page.step("E36", red + 4, "11.078")  # on the clock, so that the red is dry in the morning, at 7.5
red_again = page.step("E36", white + elapsed[0] / 2 * outdoors, "12.118")
page("E36", "run.end", array([red, white, red_again]), "7.0778 7.7926 12.118")
page("E35 E36", "days.work", red_again + 3 * 0.4 * pace / 2, "12.759")  # three loads to clean come last
page("E36", "days.days", 2, "2")  # 1.70, up to half days
page("E36", "days.visits", 2, "2")
page("E36", "days.finish", date(2026, 6, 2), "46175")  # the second day from Monday, June 1st
page("E36", "days.coat_labor", sum(elapsed), "7.0120")
paid_once = page("E35 E36", "days.task_labor", sum(once) + 3 * 0.4, "5.3226")
labor = page("E21 E36", "days.labor", sum(elapsed) + paid_once + 2 * 1, "14.335")

# ---- cost
sundries = page("E22", "cost.sundries", (465 + 60) * 0.05, "26.25")
task_material = page("E22", "cost.task_material", 2027 * 0.01 + 143 * 0.10 + 3 * 1.5 + 2 * 3, "45.07")
materials = page("E22", "cost.materials", 525 + nozzles + sundries + task_material, "606.79")
coat_wages = page("E22", "cost.coat_wages", sum(elapsed) * 31.2, "218.77")
task_wages = page("E22 E27", "cost.task_wages", (paid_once + 2 * 1) * 31.2, "228.47")
change_wages = page("E22", "cost.change_wages", sum(due) * 0.1 * 31.2, "1.3762")
wages = page("E22", "cost.wages", coat_wages + task_wages + change_wages, "448.62")
tax = page("E22", "cost.tax", materials * 0.06, "36.407")
direct = page("E22", "cost.direct", materials + wages + tax, "1091.81")
overhead = page("E22", "cost.overhead", direct * 0.15, "163.77")
cost = page("E22", "cost.cost", direct * 1.15, "1255.58")

# ---- risk: P10 and P90 of area, material, time, wear; 1.28155 deviations to either side
low, high = array([0.98, 0.9, 0.8, 0.7]), array([1.04, 1.2, 1.4, 1.5])
sigma = page.step("E23", array([log(one) for one in high / low]) / (2 * 1.2815515655446004),
    "0.02318 0.1122 0.2183 0.2974")
mean = page.step("E23", (low * high) ** 0.5 * array([exp(one**2 / 2) for one in sigma]), "1.0098 1.0458 1.0838 1.0710")
growth = page.step("E23", array([exp(one**2) for one in sigma]), "1.0005 1.0127 1.0488 1.0924")
page("E23", "risk.mean_time", mean[2], "1.0838")
page("E23", "risk.growth_time", growth[2], "1.0488")
trigger_wages = sum(trigger) * 31.2
bases = array(
    [  # what is moved: by area and material; area, material, time; area and time; area, material, wear
        page("E23", "risk.material_cost", (materials - nozzles) * 1.06 * 1.15, "726.91"),
        page("E23", "risk.trigger_cost", trigger_wages * 1.15, "38.725"),
        page("E23", "risk.handling_cost", (wages - trigger_wages) * 1.15, "477.18"),
        page("E23", "risk.nozzle_cost", nozzles * 1.06 * 1.15, "12.759"),
    ]
)
moves = array([[1, 1, 0, 0], [1, 1, 1, 0], [1, 0, 1, 0], [1, 1, 0, 1]])
expected = bases * [mean[0] * mean[1], mean[0] * mean[1] * mean[2], mean[0] * mean[2], mean[0] * mean[1] * mean[3]]
center = page("E23", "risk.mean", sum(expected), "1348.70")
square = sum(  # two parts share the growth of each driver that moves both
    expected[i]
    * expected[j]
    * growth[0]
    * growth[1] ** (moves[i][1] * moves[j][1])
    * growth[2] ** (moves[i][2] * moves[j][2])
    * growth[3] ** (moves[i][3] * moves[j][3])
    for i in range(4)
    for j in range(4)
)
spread = page("E23", "risk.log_sigma", sqrt(log(square / center**2)), "0.1176")
middle = page("E23", "risk.p50", center * exp(-(spread**2) / 2), "1339.40")
covered = page("E23", "risk.covered", middle * exp(0.8416212335729143 * spread), "1478.79")
page("E23", "risk.p10", middle * exp(-1.2815515655446004 * spread), "1151.97")
page("E23", "risk.p90", middle * exp(1.2815515655446004 * spread), "1557.33")
contingency = page("E23", "risk.contingency", covered - cost, "223.20")
# each driver by the square of its sigma times what it moves
weights = sigma**2 * (moves.T @ expected) ** 2
page("E23", "risk.share_area", weights[0] / sum(weights), "0.03926")
page("E23", "risk.share_material", weights[1] / sum(weights), "0.3455")
page("E23", "risk.share_time", weights[2] / sum(weights), "0.6145")
page("E23", "risk.share_wear", weights[3] / sum(weights), "0.0007394")

# ---- price: a fifth of it is margin, up to whole fives, taxed by a twentieth
page("E22", "price.asked", covered / (1 - 0.20), "1848.48")
net = page("E22", "price.net", 1850, "1850")
page("E43", "price.tax", 92.5, "92.5")
page("E43", "price.total", 1850 + 92.5, "1942.5")
page("E22", "price.markup", 0.2 / 0.8, "0.25")
page("E22", "price.break_even", cost, "1255.58")
page("E22", "price.per_area", 1850 / 2055.2, "0.9002")
page("E23 E42", "price.chance_over", 1 - chance_below(log(1850 / middle) / spread), "0.003020")
page("E23", "price.chance_margin", 1 - chance_below(log(1850 * 0.8 / middle) / spread), "0.1981")
page("E22", "price.contingency_share", (covered - cost) / cost, "0.1778")
# where the price goes, up to its last dollar
page("E22", "price.goes_coatings", 525, "525")
page("E22", "price.goes_material", nozzles + sundries + task_material, "81.787")
page("E22", "price.goes_wages", wages, "448.62")
page("E22", "price.goes_tax", tax, "36.407")
page("E22", "price.goes_overhead", overhead, "163.77")
page("E22", "price.goes_contingency", covered - cost, "223.20")
page("E22", "price.goes_margin", 1850 - covered, "371.21")
# 30 % of 1942.5 is 582.75, down to fives 580; half of the 1362.5 left is 681.25, down to 680
page("E22 E43", "price.deposit", 580, "580")
page("E22 E43", "price.stage", 680, "680")
page("E22 E43", "price.last", 1942.5 - 580 - 680, "682.5")
# fmt: on


def test_the_page_adds_up():
    assert page.slips() == []


@pytest.mark.parametrize("figure", page.cases())
def test_the_book_says_so(book, figure):
    agrees(book, figure)
