"""What no page comes to of two guns, of kits and hoses of an alternate, of own machines, and of overhead by sales: each is
one of the jobs with words changed, and the figures that follow, worked out beside it on what the page of that job has
worked out.
"""

from math import log, pi

import pytest
import test_barn as barn
import test_cannery as cannery
import test_dock as dock
from numpy import array, minimum
from support.choices import figure, holds
from support.worked import FOOT, GPM, INCH, PSI, chance_below, uncertain

pytestmark = pytest.mark.slow

# ---- the barn by two guns and one who tends both, from one pump; a gun has half of a common hose, and its own whip
TWO_GUNS = {
    "one gun, guns: 1, rollers: 0, tenders: 0": "one gun, guns: 2, rollers: 0, tenders: 1",
    "people: 2\n  pump": "people: 3\n  pump",
}
PUMP = "flow_max: 0.8 gal/min, pressure_max: 3200 psi, guns_max: 1"
hose, whip = (
    128 * 0.150 / pi * length * FOOT / bore**4 * GPM / PSI for length, bore in ((50, INCH / 4), (4, INCH * 3 / 16))
)
change = barn.price + 0.1 * 3 * 31.2
waste = 0.05 * 27 / 1.1 + 0.1 * 31.2 * 3 / 2 / (barn.flow * 60)
interval = minimum(barn.life, (2 * change * barn.life / waste) ** 0.5)
over, drag = 0.05 * interval / (2 * barn.life), 0.1 * interval / (2 * barn.life)
time = (barn.walls * (1 + drag) / (barn.flow * 60) + 2239.5 / 1955.2 * 4 * 1.1 / 3600) / 2
cost = barn.walls / 1.1 * (1 + over) * 27 + time * 3 * 31.2 + barn.walls * (1 + over) * change / interval
sprayed = array([3910.4, 100]) * array([barn.walls[2], barn.trim[0]])
trigger = sprayed * (1 + drag[[2, 0]]) / (barn.flow[[2, 0]] * 60)


def two_guns(flow_max, hoses, *figures):
    pump = f"flow_max: {flow_max} gal/min, pressure_max: 3200 psi, guns_max: 2, hoses: {hoses}"
    return "barn", None, TWO_GUNS | {PUMP: pump}, figures


def fed(*fitting):
    """Which of 411 (too narrow), 515, 617 and soft 515 the pump feeds: worn, they take (17/15)^2 of .1189, .2210, .2839
    and .1768 gal/min each.
    """
    return [figure("fit.fitting", sum(fitting), copy=1)]


# ---- the cannery's overhead as 8 % of sales: an hour bears none
asked = cannery.direct * 1.1 / (1 - 0.12 - 0.08)
net = 11160  # 11158.36 up to tens
trigger_cost = cannery.trigger_hours * 30
mean, spread = uncertain(
    [0.98, 0.9, 0.8, 0.7],
    [1.04, 1.2, 1.4, 1.5],
    [(cannery.materials - cannery.nozzles) * 1.08, trigger_cost, cannery.wages - trigger_cost, cannery.nozzles * 1.08],
)


def chance(paid):
    """That the job costs more than is paid."""
    return 1 - chance_below((log((paid - 3360 * 1.08) / mean) + spread**2 / 2) / spread)


# ---- the cannery's door through the 521 of the kit
door = 208 * 0.4 * cannery.material[2][2] * (1 + cannery.over[2][2])
door_due, door_spent = door / cannery.interval[2][2], door / cannery.life[2][2]
more = (sum(cannery.due) + door_due) / (sum(cannery.spent) + door_spent)

# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    "two guns": two_guns(
        0.8,
        1,
        figure("film.resistance", 2 * hose + whip, 2 * hose + whip),
        figure("trials.set_pressure", *(barn.pressure + (2 * hose + whip) * barn.flow), coat=1),
        figure("trials.interval", *interval, coat=1),
        figure("trials.time", *time, coat=1),
        figure("trials.cost", *cost, coat=1),
        figure("picks.size_at", 3, 1),
        figure("sizes.buy", 4, 0, 4),  # two and a spare of each
        figure("hours.trigger", *trigger),
        figure("days.trigger_labor", sum(trigger) * 3 / 2),
        figure("purchases.line_fill", 2 * barn.load, barn.load, scenario=1, live=1),
        *fed(0, 1, 1, 1),
    ),
    "two hoses": two_guns(
        0.8,
        2,
        figure("film.resistance", hose + whip, hose + whip),
        figure("purchases.line_fill", *(array([2, 1]) * (0.2 + 2 * barn.content) / 1.1), scenario=1, live=1),
    ),
    "more hoses than guns": (
        "barn",
        None,
        {PUMP: f"{PUMP}, hoses: 3"},
        [
            figure("film.resistance", barn.resistance, barn.resistance),
            figure("purchases.line_fill", 2 * barn.load, barn.load, scenario=1, live=1),
        ],
    ),
    # .35 gal/min each, for a worn nozzle: .2725 for a new one
    "two guns starved": two_guns(0.7, 1, *fed(0, 1, 0, 1)),
    "hoses of an alternate": (
        "cannery",
        None,
        {"pair, guns: 1": "pair, guns: 2", "guns_max: 1, heel: 0.1 gal": "guns_max: 2, hoses: 2, heel: 0.1 gal"},
        [
            figure(
                "purchases.line_fill",
                cannery.fill_twin + (0.1 + 2 * (cannery.fill_small - 0.1)) / 1.05,
                scenario=2,
                coat=2,
            )
        ],
    ),
    "a kit of an alternate": (
        "cannery",
        None,
        {"nozzle: standard 515}\ntakeoff": "nozzle: standard 521}\ntakeoff"},
        [
            figure("sizes.left", 0, 0.8, 2 - (12 / 78.4 + cannery.grown) * more, 0, copy=2),
            figure("sizes.left", 0, 0.8, 2 - (12 / 78.4 + cannery.grown) * cannery.share, 0, copy=1),
            figure("sizes.due", 0, 0, sum(cannery.due) + door_due, 0, copy=2),
            figure("sizes.due", 0, 0, sum(cannery.due), 0, copy=3),
        ],
    ),
    # the dock's gun sprays on each of its five days
    "an own pump": (
        "dock",
        "court",
        {"flush: 0.25 h}": "flush: 0.25 h, owned_day: 12}"},
        [figure("cost.pump_rental", 5 * 12), figure("cost.access_rental", 340 + 60)],
    ),
    # A adds an hour of two to the boom's use, a day more than the four in which it works
    "own access": (
        "tower",
        "court",
        {"boom, factor: 1, rental: 100, delivery: 20": "boom, factor: 1, owned_day: 20"},
        [
            figure("machines.worked", 4, name="boom"),
            *(figure("machines.cost", days * 20, name="boom", copy=copy) for copy, days in ((1, 4), (2, 5), (4, 4))),
        ],
    ),
    "rented and not used": (
        "rentals",
        "court",
        {
            "  - {tag: G, system: Walls, length: 10 ft, height: 10 ft, access: five only}\n": "",
            "rental_5: 400": "rental_5: 400, delivery: 70",
        },
        [figure("machines.cost", 0, name="five only", copy=copy) for copy in (1, 2, 3, 4)],
    ),
    "the other pump": (
        "dock",
        "court",
        {"  crew: pair\n": "  crew: pair\n  pump: Other pump\n"},
        [
            figure(
                "purchases.line_fill",
                *((0.1 + 0.4 * dock.content) / 1.1 * one for one in (0, 2, 1, 1)),
                scenario=1,
                live=1,
            )
        ],
    ),
    "overhead by sales": (
        "cannery",
        None,
        {"overhead_basis: labor hours, overhead: 0 %": "overhead_basis: sales, overhead: 8 %"},
        [
            figure("cost.overhead", 0),
            figure("risk.loaded", 1),
            figure("price.asked", asked),
            figure("price.net", net),
            figure("price.refused", 0),
            figure("price.break_even", cannery.direct / 0.92),
            figure("price.goes_overhead", net * 0.08),
            figure("price.goes_margin", net * 0.92 - cannery.direct * 1.1),
            figure("price.chance_over", chance(net * 0.92)),
            figure("price.chance_margin", chance(net * 0.80)),
        ],
    ),
    "overhead and margin that leave nothing": (
        "cannery",
        None,
        {
            "overhead_basis: labor hours, overhead: 0 %": "overhead_basis: sales, overhead: 8 %",
            "margin: 12 %": "margin: 92 %",
        },
        [figure("price.refused", 1)],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
