"""What no page comes to of pumps and access on site, and of the order in which pumps are used: each is one of the jobs
with words changed, and the figures that follow, worked out beside it on what the page of that job has worked out.
"""

import pytest
import test_cannery as cannery
import test_dock as dock
import test_tower as tower
from numpy import array
from support.choices import figure, holds

pytestmark = pytest.mark.slow

ACCESS = ("months and days", "months", "five only", "twenty only")


def order(names):
    """What the page of the dock says of each, by its name: its system, or the hours of its coat."""
    return [getattr(dock, name) for name in names.split()]


# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    # the steps take 18 h, so that the shaft is rolled on days four and five; it was scrubbed on the first three
    "hands before the gun": (
        "tower",
        "court",
        {"system: Steps, length: 80 ft": "system: Steps, length: 240 ft"},
        [
            figure("run.end", 10.2, 28.2, 34.2, 38.2, 64.2),
            figure("machines.worked", 5, name="boom"),
            figure("machines.cost", 5 * 100 + 40, name="boom"),
        ],
    ),
    # the steps are rolled from the platform on the second day and the third, the spire is scrubbed from the third
    "the gun before hands": (
        "tower",
        "court",
        {"Steps, length: 80 ft, height: 10 ft}": "Steps, length: 80 ft, height: 10 ft, access: platform}"},
        [
            figure("run.end", tower.first, tower.steps),
            figure("machines.since", 2, name="platform"),
            figure("machines.span", 8, name="platform"),
            figure("machines.cost", 300 + 3 * 90 + 20, name="platform"),
        ],
    ),
    # the spire is scrubbed from the lift on the third day to the eighth, and sprayed then, in less than half an hour of
    # work
    "hands before the pump": (
        "tower",
        "court",
        {
            "{name: Spire, surface: Plaster, method: roll,": "{name: Spire, surface: Plaster,",
            "{tag: C, system: Spire, length: 10 ft, height: 10 ft, access: platform}": "{tag: C, system: Spire,"
            " length: 10 ft, height: 10 ft, access: lift}",
        },
        [
            figure("machines.since", 3, 8, name=("lift", "Yard pump")),
            figure("machines.until", 8, 8, name=("lift", "Yard pump")),
        ],
    ),
    # the job says days of what is rented; its own scaffold is used on four
    "days of what is rented": (
        "dock",
        "court",
        {"contingency: 10 %": "contingency: 10 %\n  rental_days: 7"},
        [figure("machines.cost", 7 * 100 + 40, 4 * 15, name=("lift", "scaffold"))],
    ),
    "no days of what is rented": (
        "dock",
        "court",
        {"contingency: 10 %": "contingency: 10 %\n  rental_days: 0"},
        [figure("machines.cost", 0, 4 * 15, name=("lift", "scaffold"))],
    ),
    "months that are dearer than weeks": (
        "rentals",
        "court",
        {"{name: five only, factor: 1, rental_5: 400": "{name: five only, factor: 1, rental_5: 400, rental_20: 2500"},
        [figure("machines.cost", 5 * 400, name="five only")],
    ),
    # ---- two pumps: the keel's leaves red in the other. Hull and keel, of two coats; then the gaff needs the lift and
    # keeps the red; mast, hull, keel, deck keep what is in their pumps; the cabin needs the lift. Blue stays a night
    # until the keel goes on; red stays three evenings, white one
    "two pumps": (
        "dock",
        "court",
        {
            "{name: Keel, surface: Plaster}": "{name: Keel, surface: Plaster, pump: Other pump}",
            "flush: 0.25 h}": "flush: 0.25 h}\n  - {change: Other pump, flush: 0.5 h}",
        },
        [
            figure(
                "run.system", *(getattr(dock, one) for one in "HULL KEEL GAFF MAST HULL KEEL DECK CABIN BOOM".split())
            ),
            figure("run.end", *array(order("hull keel gaff mast hull keel deck cabin boom")).cumsum()),
            figure("days.loads", 3, no=1),
            figure("plan.flush_labor", 4 * 0.25 + 0.5),
            figure("machines.until", 5, 3, name=("Yard pump", "Other pump")),
            figure("machines.worked", 5, 2, name=("Yard pump", "Other pump")),
        ],
    ),
    # the deck's red in the other pump, whose night is the fourth; the one of the yard is done on that day
    "another pump at last": (
        "dock",
        "court",
        {
            "{name: Deck, surface: Plaster}": "{name: Deck, surface: Plaster, pump: Other pump}",
            "flush: 0.25 h}": "flush: 0.25 h}\n  - {change: Other pump, flush: 0.5 h}",
        },
        [
            figure("run.end", *dock.done),
            figure("days.loads", 5, no=1),
            figure("plan.flush_labor", 3 * 0.25 + 0.5),
            figure("machines.since", 1, 4, name=("Yard pump", "Other pump")),
            figure("machines.until", 4, 5, name=("Yard pump", "Other pump")),
            figure("machines.worked", 4, 2, name=("Yard pump", "Other pump")),
        ],
    ),
    "a rented pump goes first": (
        "dock",
        "court",
        {
            "{name: Keel, surface: Plaster}": "{name: Keel, surface: Plaster, pump: Other pump}",
            "flush: 0.25 h}": "flush: 0.25 h}\n  - {change: Other pump, rental: 50}",
        },
        [figure("run.system", dock.KEEL, dock.HULL), figure("run.end", dock.keel, dock.keel + dock.hull)],
    ),
    "the first of the pumps is rented": (
        "dock",
        "court",
        {
            "{name: Hull, surface: Plaster}": "{name: Hull, surface: Plaster, pump: Other pump}",
            "flush: 0.25 h}": "flush: 0.25 h, rental: 50}",
        },
        [figure("run.system", dock.KEEL, dock.HULL)],
    ),
    # all red but the cabin's and the boom's: the gaff keeps it and needs the lift; then the mast is rolled for 15 h,
    # until the fourth day, and red goes on. A ladder stands by hull and keel on the first day, the fourth and the fifth
    "a color that is kept from the first step": (
        "dock",
        "court",
        {
            "color: Blue": "color: Red",
            "Mast, length: 50 ft": "Mast, length: 250 ft",
            "Hull, length: 100 ft, height: 10 ft}": "Hull, length: 100 ft, height: 10 ft, access: ladder}",
            "Keel, length: 100 ft, height: 10 ft}": "Keel, length: 100 ft, height: 10 ft, access: ladder}",
            "pumps:\n": "access:\n  - {name: ladder, factor: 1, owned_day: 10, height_limit: 40 ft}\npumps:\n",
        },
        [
            figure("run.system", *order("HULL KEEL GAFF MAST HULL KEEL DECK CABIN BOOM")),
            figure("run.end", *(array([*order("hull keel gaff"), 15, *order("hull keel deck cabin boom")]).cumsum())),
            figure("run.fills", 1, 0, 0, 0, 0, 0, 0, 1, 0),
            figure("run.day", 1, 1, 1, 2, 4, 4, 5, 6, 6),
            figure("run.last", 1, 1, 2, 4, 4, 5, 6, 6, 7),
            figure("plan.flush_labor", 5 * 0.25),  # the evenings of days 1, 2, 4, 5, 6
            figure("machines.worked", 3, 6, name=("ladder", "Yard pump")),
            figure("machines.cost", 3 * 10, name="ladder"),
        ],
    ),
    # prepared first: the cabin from the rented lift, then the mast, which stands before it, from an own scaffold; then
    # the keel, by a rented pump
    "what is rented is prepared first": (
        "dock",
        "court",
        {
            "{task: Rinse}\n": "{task: Rinse}\n  - {task: Sand, system: Mast}\n  - {task: Sand, system: Cabin}\n",
            "{name: Keel, surface: Plaster}": "{name: Keel, surface: Plaster, pump: Other pump}",
            "flush: 0.25 h}": "flush: 0.25 h}\n  - {change: Other pump, rental: 50}",
        },
        [figure("run.system", dock.CABIN, dock.MAST, dock.KEEL, dock.HULL)],
    ),
    # ---- a day on site, the first
    "a day on site": (
        "rentals",
        "court",
        {},
        [
            figure("machines.since", 1, 1, 1, 1, name=ACCESS),
            figure("machines.span", 1, 1, 1, 1, name=ACCESS),
            figure("machines.span", 1, 1, name=("Twenty pump", "Five pump")),
        ],
    ),
    # the door's, by two of the shed
    "a pump of an alternate": (
        "cannery",
        None,
        {},
        [figure("machines.more", cannery.door_labor / 2 * cannery.shed, name="Small pump", copy=2)],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
