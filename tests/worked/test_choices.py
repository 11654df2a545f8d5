"""What no page of a job comes to: each is one of the jobs with words changed, and the figures that follow, which are
worked out beside it on what the page of that job has worked out.
"""

from pathlib import Path

import pytest
import test_barn as barn
import test_barn_whole as barn_whole
import test_cannery as cannery
import test_court as court
from support.worked import Figure, agrees, book_of

HERE = Path(__file__).parent


def figure(place, *values, **where):
    return Figure("", place, tuple(float(one) for one in values), (), where)


def fits(*sizes):
    """Which of the barn's nozzles (411, 515, 617 and soft 515) do for its walls: all but the 411, which is too narrow.
    They take .1189, .2210, .2839, .1768 gal/min, are set to 2078, 2145, 2186, 1396 psi and go at 1.65, 2.45, 2.62,
    2.02 ft/s, over bare boards at 1.2 of that.
    """
    return [figure("trials.fits", *sizes, coat=1)]


def packs(cost, small, middle, large):
    """Of the cannery's enamel, of which it takes 6.38 gal; a quart is 18, a gallon 58, five are 270."""
    of = {"scenario": 1, "live": 1}
    return [
        figure("purchases.cost", 450, 480, 0, cost, **of),
        figure("purchases.small", 5, 0, 1, small, **of),
        figure("purchases.middle", 0, 3, 1, middle, **of),
        figure("purchases.large", 0, 0, 0, large, **of),
        figure("purchases.bought", 25, 15, 1.25, small / 4 + middle + large * 5, **of),
    ]


CRACKED = "pressure_max: 3300 psi}, whip"  # the barn's hose
ENAMEL = "{volume: 1 qt, pack_price: 18}, {volume: 1 gal, pack_price: 58}, {volume: 5 gal, pack_price: 270}"
MEAN_LOST = sum([31, 32, 33, 34, 35, 20, 37, 38, 39, 40, 41, 42]) / 1200
SPARE = """  - {name: Spare, surface: Plaster, pump: Other pump}
coats:
  - {system: Spare, coating: Paint, color: White, coats: 2, face: bare}
  - {system: Spare, coating: Paint, color: Blue, coats: 1, method: roll}
"""
CERTAIN = "{area: {low: 1, high: 1}, material: {low: 1, high: 1}, time: {low: 1, high: 1}, wear: {low: 1, high: 1}"
DOUBT = "{area: {low: 0.8, high: 1.25}, material: {low: 0.9, high: 1.2}, time: {low: 0.9, high: 1.6}, wear: {low: 0.7,\n      high: 1.5}"
twin = 0.4 + (cannery.fill_twin - 0.4) / 2  # of which half is won back
small = 0.1 + (cannery.fill_small - 0.1) / 2
sanded = court.begin + court.sand / 4 * 1.2 / (1 - MEAN_LOST)

once = barn_whole.wash + barn_whole.mask + barn_whole.contain + barn_whole.clean
hours = (sum(barn_whole.elapsed) + once) / 0.9 + 3 * 0.5 * 2 + 6
trigger = sum(barn_whole.applied / (1 + barn_whole.over[[2, 0]]) * (1 + barn_whole.drag[[2, 0]]) / barn.flow[[2, 0]]) / 60
wages = barn_whole.task_wages + barn_whole.coat_wages + barn_whole.change_wages + barn_whole.way

# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    # ---- a nozzle fits where nothing speaks against it
    "over its rating": ("barn", None, {"pressure_max: 5000 psi": "pressure_max: 2150 psi"}, fits(0, 1, 0, 1)),
    "over the hose": ("barn", None, {CRACKED: CRACKED.replace("3300", "2150")}, fits(0, 1, 0, 1)),
    "over the whip": (
        "barn",
        None,
        {"bore: 3/16 in,\n         pressure_max: 3300": "bore: 3/16 in,\n         pressure_max: 2150"},
        fits(0, 1, 0, 1),
    ),
    "over the pump": ("barn", None, {"pressure_max: 3200 psi": "pressure_max: 2150 psi"}, fits(0, 1, 0, 1)),
    "over the crew": ("barn", None, {"flow_max: 1 gal/min": "flow_max: 0.25 gal/min"}, fits(0, 1, 0, 1)),
    # worn, the orifice is 17/15 as wide: the 617 takes .3646, the 515 .2838
    "starved": ("barn", None, {"flow_max: 0.8 gal/min": "flow_max: 0.33 gal/min"}, fits(0, 1, 0, 1)),
    "nearly starved": ("barn", None, {"flow_max: 0.8 gal/min": "flow_max: 0.3 gal/min"}, fits(0, 1, 0, 1)),
    "too small": ("barn", None, {"orifice: {min: 11 thou": "orifice: {min: 16 thou"}, fits(0, 0, 1, 0)),
    "too large": ("barn", None, {"max: 19 thou}": "max: 16 thou}"}, fits(0, 1, 0, 1)),
    # a fifth times the 1.2 of the yard, less with a soft one
    "lossy": ("barn", None, {"loss_plausible: 60 %": "loss_plausible: 22 %"}, fits(0, 0, 0, 1)),
    "too fast": ("barn", None, {"gun_speed: {min: 1 ft/s, max: 4 ft/s}": "gun_speed: {min: 1 ft/s, max: 2.5 ft/s}"}, fits(0, 1, 0, 1)),
    "too fast for the crew": ("barn", None, {"gun_speed_factor: 1,": "gun_speed_factor: 0.625,"}, fits(0, 1, 0, 1)),
    "too slow": ("barn", None, {"gun_speed: {min: 1 ft/s, max: 4 ft/s}": "gun_speed: {min: 1.9 ft/s, max: 4 ft/s}"}, fits(0, 1, 1, 0)),
    "too coarse for the paint": ("barn", None, {"finish: good\n    abrasion": "finish: fine\n    abrasion"}, fits(0, 0, 0, 0)),
    "too coarse for the face": ("barn", None, {"handling: 4 s/ft2, finish: good": "handling: 4 s/ft2, finish: fine"}, fits(0, 0, 0, 0)),
    "coarse enough for the system": (
        "barn",
        None,
        {
            "handling: 4 s/ft2, finish: good": "handling: 4 s/ft2, finish: fine",
            "surface: Ribbed wall}": "surface: Ribbed wall, finish: plain}",
        },
        fits(0, 1, 1, 1),
    ),
    # ---- the gauge: up to a step of 50, else down, never over what holds: 2186 psi of the walls, 2078 of the trim
    "a gauge near what the hose holds": (
        "barn", None, {CRACKED: CRACKED.replace("3300", "2190")}, [figure("picks.gauge", 2150, 2100)],
    ),
    "a gauge near the rating": (
        "barn", None, {"pressure_max: 5000 psi": "pressure_max: 2190 psi"}, [figure("picks.gauge", 2150, 2100)],
    ),
    "a nozzle that the hose does not hold": (
        "barn",
        None,
        {CRACKED: CRACKED.replace("3300", "2140"), "coats: 2, face: bare}": "coats: 2, face: bare, nozzle: standard 617}"},
        [figure("picks.gauge", 2100, 2100)],
    ),
    # ---- packs: no largest one, two of it; small ones for what is left, or one more of the middle
    "no largest pack": ("cannery", None, {ENAMEL: ENAMEL.replace("270", "400")}, packs(6 * 58 + 2 * 18, 2, 6, 0)),
    "one more of the largest": ("cannery", None, {ENAMEL: ENAMEL.replace("270", "90")}, packs(2 * 90, 0, 0, 2)),
    "small packs for the rest": ("cannery", None, {ENAMEL: ENAMEL.replace("18", "14")}, packs(270 + 6 * 14, 6, 0, 1)),
    "one more of the middle": (
        "cannery", None, {ENAMEL: ENAMEL.replace("58", "30").replace("270", "100")}, packs(100 + 2 * 30, 0, 2, 1),
    ),
    # ---- a kit nozzle that sprays less than a new one, and wider, is as new: one and what .1531 of a life leave
    "a kit that is as new": (
        "cannery",
        None,
        {"fan: 9 in, flow: 0.53 gal/min": "fan: 10.5 in, flow: 0.4 gal/min"},
        [figure("sizes.left", 0, 0.8, 2 - 12 / 78.4 * cannery.share, 0)],
    ),
    # ---- loads of an alternate: the first of a color in its system, and of another color; half of a hose is won back
    "loads of an alternate": (
        "cannery",
        None,
        {
            "pressure: 1500 psi, nozzle: standard 515}": "pressure: 1500 psi, nozzle: standard 515}\n"
            "  - {system: Door, coating: Wall satin, color: White, coats: 1}\n"
            "  - {system: Door, coating: Wall satin, color: Blue, coats: 1}",
            "touch_up: 0.5 gal": "touch_up: 0.5 gal, recovered: 50 %",
        },
        [
            figure("days.loads", 2, 4, 2, 2),
            figure("purchases.line_fill", twin + small / 1.05, scenario=2, coat=2),
        ],
    ),
    # ---- a system that is not measured costs nothing and breaks nothing
    "a system without lines": (
        "court",
        None,
        {"coats:\n": SPARE, "  - {task: Set up}": "  - {task: Sand, system: Spare, hours: 2 h}\n  - {task: Set up}"},
        [
            figure("price.net", 3227, 4992, 3747, 3551),
            figure("days.labor", *court.labor),
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
            figure("run.done", sanded, sanded + court.rolled * 1.2 / (1 - MEAN_LOST)),
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


def changed(folder, job, changes):
    """The file of a job with words changed."""
    text = (HERE / f"{job}.yaml").read_text()
    for found, put in changes.items():
        assert text.count(found) == 1, found
        text = text.replace(found, put)
    path = folder / f"{job}.yaml"
    path.write_text(text)
    return path


@pytest.mark.parametrize("job, before, changes, figures", CHOICES.values(), ids=CHOICES)
def test_a_choice(job, before, changes, figures, tmp_path):
    book = book_of(changed(tmp_path, job, changes), tmp_path, before and HERE / f"{before}.yaml")
    for one in figures:
        agrees(book, one)
