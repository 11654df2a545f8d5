"""What no page comes to of areas, tasks, days and money: each is one of the jobs with words changed, and the figures
that follow, which are worked out beside it on what the page of that job has worked out.
"""

import pytest
import test_barn as barn
import test_barn_whole as barn_whole
import test_cannery as cannery
import test_court as court
from support.choices import figure, holds

pytestmark = pytest.mark.slow

MEAN_LOST = sum([31, 32, 33, 34, 35, 20, 37, 38, 39, 40, 41, 42]) / 1200
SPARE = """  - {name: Spare, surface: Plaster, pump: Other pump}
coats:
  - {system: Spare, coating: Paint, color: White, coats: 2, face: bare}
  - {system: Spare, coating: Paint, color: Blue, coats: 1, method: roll}
  - {system: Spare, coating: Slow primer, coats: 3, method: roll}
"""
CERTAIN = "{area: {low: 1, high: 1}, material: {low: 1, high: 1}, time: {low: 1, high: 1}, wear: {low: 1, high: 1}"
DOUBT = (
    "{area: {low: 0.8, high: 1.25}, material: {low: 0.9, high: 1.2}, time: {low: 0.9, high: 1.6}, wear: {low: 0.7,\n"
    "      high: 1.5}"
)
sanded = court.begin + court.sand / 4 * 1.2 / (1 - MEAN_LOST)

once = barn_whole.wash + barn_whole.mask + barn_whole.contain + barn_whole.clean
hours = (sum(barn_whole.elapsed) + once) / 0.9 + 3 * 0.5 * 2 + 6
trigger = (
    sum(barn_whole.applied / (1 + barn_whole.over[[2, 0]]) * (1 + barn_whole.drag[[2, 0]]) / barn.flow[[2, 0]]) / 60
)
wages = barn_whole.task_wages + barn_whole.coat_wages + barn_whole.change_wages + barn_whole.way

OPENED = (9, 11, 10, 10)  # openings of the court, and with each alternate

# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    # ---- a system that is not measured costs nothing and breaks nothing
    "a system without lines": (
        "court",
        None,
        {"coats:\n": SPARE, "  - {task: Set up}": "  - {task: Sand, system: Spare, hours: 2 h}\n  - {task: Set up}"},
        [
            figure("price.net", 3227, 4992, 3747, 3551),
            figure("days.labor", *court.labor),
            figure("days.alone", *court.alone),
            figure("parts.area", 205, 546, 775, 1526, 331.2, 139, 48),
            figure("task_hours.labor", 0, system_at=6),
            figure("systems.slow", 1, no=6),
            figure("systems.edge_slow", 1, no=6),
            figure("systems.open_slow", 1, no=6),
            figure("hours.elapsed", 0, 0),
        ],
    ),
    # ---- no start: the weather of a mean month, no dates
    "no start": (
        "court",
        None,
        {"  start: 2026-06-01\n": ""},
        [
            figure("work_days.lost", MEAN_LOST, MEAN_LOST),
            figure("run.end", sanded, sanded + court.rolled * 1.2 / (1 - MEAN_LOST)),
            figure("days.finish", 0, 0, 0, 0),
            figure("days.promised", 0, 0, 0, 0),
        ],
    ),
    "no promise": (
        "court",
        None,
        {"  schedule: {promise: 80 %}\n": ""},
        [figure("days.sure", *(court.done + court.halted)), figure("days.score", 0, 0, 0, 0)],
    ),
    # ---- money: the minimum of the terms; steps that are not whole in the smallest amount, .10
    "the minimum": ("court", None, {"minimum: 0,": "minimum: 5000,"}, [figure("price.net", 5000, 5000, 5000, 5000)]),
    "steps of .37": (
        "court",
        None,
        {
            "rounding: 1, sales_tax: 0 %, deposit: 0 %, stages: 1": "rounding: 0.37, money_step: 0.1, sales_tax: 0 %,\n"
            "      deposit: 20 %, stages: 3"
        },
        # 3226.53 up to 8721 steps, 3226.77; a fifth down to 1744 of them, 645.28; a third of 2581.5 to 2325, 860.25
        [
            figure("price.net", 3226.8),
            figure("price.deposit", 645.3),
            figure("price.stage", 860.3),
            figure("price.last", 3226.8 - 645.3 - 2 * 860.3),
        ],
    ),
    "no doubt": (
        "court",
        None,
        {DOUBT: CERTAIN},
        [figure("price.chance_over", 0, 0, 0, 0), figure("price.chance_margin", 0, 0, 0, 0)],
    ),
    # ---- areas: a bound that windows pass, or that doors too stay below; rooms once, with two doors, with too many
    "windows off both faces": (
        "court",
        None,
        {"opening_both: 15 ft2": "opening_both: 11 ft2"},
        [figure("areas.standard", 45, 12 + 21, 0, 24, 21, 12)],
    ),
    "doors off one face": (
        "court",
        None,
        {"opening_both: 15 ft2": "opening_both: 25 ft2"},
        [figure("areas.standard", 45, 6 + 21 / 2, 0, 24, 21, 12)],
    ),
    "a room once": (
        "court",
        None,
        {"height: 9 ft, count: 2,": "height: 9 ft,"},
        [figure("systems.measured", 155 + 546 + 291 + 80, 50 + 33 / 2)],
    ),
    "two doors in a room": (
        "court",
        None,
        {"count: 2, doors: 1": "count: 2, doors: 2"},
        [figure("areas.doors", 2 * 2, part=1), figure("areas.doors", 0, part=2), figure("areas.doors", 0, part=3)],
    ),
    "more doors than base": (
        "court",
        None,
        {"count: 2, doors: 1": "count: 2, doors: 13"},
        [figure("systems.measured", 155 + 546 + 2 * (324 - 12 - 13 * 21) + 160, 50)],
    ),
    "no profile": (
        "court",
        None,
        {"{name: Plaster, profile: Flat,": "{name: Plaster,"},
        [figure("systems.measured", 1443, 83, 331.2, 139, 48), figure("systems.coated", 1443, 83, 414, 139, 48)],
    ),
    "two sides of the first line": (
        "court",
        None,
        {"height: 10 ft, windows: 2": "height: 10 ft, sides: 2, windows: 2"},
        [figure("systems.measured", 2 * (200 - 12 - 21) + 546 + 742)],
    ),
    "a width and a share of its own": (
        "barn",
        None,
        {"surface: Ribbed wall}": "surface: Ribbed wall, clear_width: 30 in, solid: 0.5}"},
        [figure("trials.miss", *(1 - 0.5 * 30 / (30 + one / 4) for one in (8, 10, 12, 10)), coat=1)],
    ),
    # ---- a roller each takes half of 2040 ft2 at 100 ft2 an hour behind the gun
    "two rollers": (
        "cannery",
        None,
        {"rollers: 1,": "rollers: 2,", "roll_rate: 240 ft2/h": "roll_rate: 100 ft2/h"},
        [figure("trials.time", *[2040 / 1560 / 100 / 2] * 4, coat=1), figure("hours.labor", 2040 / 200 * 4)],
    ),
    # ---- tasks: hours typed for a task by load are paid once; parts and pieces of a system
    "hours typed for cleaning": (
        "barn",
        None,
        {"{task: Clean pump}": "{task: Clean pump, hours: 2 h}"},
        [figure("task_hours.labor", 2027 / 800, 143 / 90, 0, 2), figure("days.clean_labor", 0)],
    ),
    "sanding by coated area": (
        "court",
        None,
        {"{task: Sand, system: Shed}": "{task: Sand, system: Fence, amount_from: coated area}"},
        [figure("task_hours.labor", 414 / 300, system_at=3, copy=2)],
    ),
    "half of the lamps": (
        "court",
        None,
        {"{task: Lamps, amount_from: openings}": "{task: Lamps, amount_from: openings, share: 50 %}"},
        [figure("task_hours.labor", 10 / 2 / 5, task="Lamps")],
    ),
    "a count that is typed": (
        "court",
        None,
        {"{task: Hang, system: Shed, amount_from: openings}": "{task: Hang, system: Shed, count: 3}"},
        [figure("task_hours.labor", 3 / 5, task="Hang", copy=3)],
    ),
    # ---- rented for 47 days: two months and seven days, or a third month
    "rented for longer": (
        "rentals",
        "court",
        {"rental_days: 24": "rental_days: 47"},
        [
            figure("machines.cost", 2 * 1000 + 7 * 100, name="months and days"),
            figure("machines.cost", 3 * 800, name="months"),
            figure("machines.cost", 10 * 400, name="five only"),
            figure("machines.cost", 3 * 1200, name="twenty only"),
            figure("machines.cost", 3 * 700, 10 * 250 + 10, name=("Twenty pump", "Five pump")),
        ],
    ),
    # ---- the foot needs no hands, so that all are not at the shaft: two from the first hour on
    "hands behind the gun": (
        "tower",
        "court",
        {"  - {task: Scrub, system: Foot, hours: 4 h, people: 4}\n": ""},
        [figure("lanes.hand_end", 1.2, 16.2, 52.2, 52.2), figure("plan.gun_from", 1.2)],
    ),
    # ---- bounds of openings, of which the job says one: of the terms 30 and 40 ft2
    "nothing off": ("court", None, {"  opening_none: 10 ft2\n": ""}, [figure("areas.standard", 0, 0, 0, 0, 0, 0)]),
    "both off one face": (
        "court",
        None,
        {"  opening_both: 15 ft2\n": ""},
        [figure("areas.standard", 45, 6 + 21 / 2, 0, 24, 21, 12)],
    ),
    "a first line that is no rectangle": (  # the walls of rooms are
        "court",
        None,
        {"system: Walls, length: 20 ft": "system: Walls, shape: triangle, profile: Pickets, length: 20 ft"},
        [
            figure("systems.measured", (100 - 45) * 1.2 + 546 + 742),
            figure("systems.coated", (100 - 45) * 1.5 + 546 + 742),
        ],
    ),
    # ---- tasks of a system go by its own access; from the ground, by none
    "masking the fence": (
        "court",
        None,
        {"{task: Mask}": "{task: Mask, system: Fence}"},
        [figure("task_hours.labor", 28 / 40, task="Mask", copy=2), figure("task_hours.labor", 0, task="Mask", copy=1)],
    ),
    "hanging of the walls": (
        "court",
        None,
        {"{task: Hang, system: Shed,": "{task: Hang, system: Walls,"},
        [figure("task_hours.labor", 10 / 5, task="Hang", copy=1)],
    ),
    "lamps from the ground": (
        "court",
        None,
        {"each_material: 0.25, access: yes": "each_material: 0.25, access: no"},
        [figure("task_hours.labor", all_of / 5, task="Lamps", copy=copy) for copy, all_of in zip((1, 2, 3, 4), OPENED)],
    ),
    "containing what holds no lead": (
        "barn_whole",
        "barn",
        {"{task: Contain}": "{task: Contain, area: 25 ft2}", "built: 1950": "built: 1978"},
        [figure("cost.task_material", 63.07 - 30 * 0.5)],
    ),
    # ---- what stands on no page
    "no openings": (
        "dock",
        "court",
        {},
        [figure(f"systems.{key}_slow{all_of}", 1) for key in ("edge", "open") for all_of in ("", "_all")],
    ),
    "slow edges of systems": ("court", None, {}, [figure("systems.edge_slow", 167 / 150, 1, 1, 1.5, 1.5)]),
    "openings of lines": ("barn", None, {}, [figure("areas.opened", 1 + 2 + 1, 1, 1 + 1, 0)]),
    "alternates that there are not": (
        "barn",
        None,
        {},
        [figure("price.net", 1850, 0, 0, 0), figure("parts.price", 1692.63, 157.37, 1850, 0)],
    ),
    "the trigger of an alternate": (
        "cannery",
        None,
        {},
        [
            figure("days.trigger_labor", cannery.trigger_hours, cannery.trigger_hours + 2 * cannery.door_trigger),
            figure("price.goes_coatings", cannery.paint + cannery.thinning),
        ],
    ),
    # ---- overhead by hours paid, those of travel too: three visits of two, twice half an hour
    "overhead by the hour": (
        "barn_whole",
        "barn",
        {"deposit_cap: 20 %,": "overhead_basis: labor hours, overhead_hour: 9, deposit_cap: 20 %,"},
        [
            figure("cost.overhead", 9 * hours),
            figure("risk.trigger_cost", trigger * 36 + trigger / 0.9 * 9),
            figure("risk.handling_cost", wages - trigger * 36 + (hours - trigger / 0.9) * 9),
            figure("risk.certain", 89),
        ],
    ),
    "where the travel is": (
        "barn_whole",
        "barn",
        {},
        [
            figure("price.goes_travel", 194.4 + 89),
            figure("price.goes_wages", wages - barn_whole.way),
            figure("risk.certain", 89 * 1.15),
        ],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
