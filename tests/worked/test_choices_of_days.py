"""What no page comes to of the schedule: each is one of the jobs with words changed, and the figures that follow,
worked out beside it on what the page of that job has worked out.
"""

from math import exp

import pytest
import test_court as court
import test_dock as dock
import test_fence_whole as fence_whole
import test_tower as tower
from support.choices import figure, holds
from support.worked import DECILE, date

pytestmark = pytest.mark.slow

PORCH = "  - {name: Porch, surface: Plaster, method: roll, alternate: A}\n"
VANE = "  - {name: Vane, surface: Plaster, method: roll, exposure: storm, alternate: C}\n"
PORCH_COAT = "  - {system: Porch, coating: Paint, coats: 1}\n"


def june(*days):
    """Days of June, and of July from the 31st on."""
    return [date(2026, 6, one) if one <= 30 else date(2026, 7, one - 30) for one in days]


# ---- the fence: a second coat of primer, which drinks no tenth more as the first does, from the third morning on; a
# primer that dries within its day
walked = 135 * 90 / 3600 * (0.5 + 0.5 / 3)
spot = (walked + (fence_whole.elapsed[0] - walked) * (1.1 + 1) / 2 / 1.1) * fence_whole.outdoors
coat = fence_whole.elapsed[1] / 2 * fence_whole.outdoors
day = fence_whole.day
twice_primed = [fence_whole.brushed + spot, 2 * day + spot, 3 * day + coat, 5 * day + coat]  # green from day to day
soon = fence_whole.primed + 2 * 0.8875  # two hours on the clock later
DRY = 24 + (fence_whole.primed - day) / 0.8875

# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    # ---- dates: from a Friday, so that a weekend follows and June ends with the base; its alternates are of June
    "from a Friday": (
        "court",
        None,
        {"start: 2026-06-01": "start: 2026-06-26"},
        [
            figure("work_days.date", *june(26, 29, 30, 31, 32, 33, 36)),
            figure("days.added", *court.added),
            *(
                figure("machines.more", more, name="lift", copy=copy)
                for copy, more in zip((2, 3, 4), (0, *court.added[2:]))
            ),
            figure("days.finish", *june(30, 32, 31, 30)),
            figure("days.promised", *june(31, 33, 32, 31)),
        ],
    ),
    # the third day is in July, which takes .37 of what alternates add then
    "from a Monday at the end of June": (
        "court",
        None,
        {"start: 2026-06-01": "start: 2026-06-29"},
        [figure("run.end", court.sanded, court.walls_done), figure("days.added", *(court.added * 0.8 / 0.63))],
    ),
    # 73.8 h and their doubt of .28409, and what 25 outdoor hours lose, 11.2: 97.4 h, on the thirteenth day
    "promised over a weekend and a holiday": (
        "tower",
        "court",
        {},
        [
            figure(
                "days.sure",
                tower.done
                + (
                    (tower.done * (exp(court.Z80 * court.spread) - 1)) ** 2
                    + 1.4 * court.Z80**2 * 8 * 11.2 / (1 - 11.2 / 25)
                )
                ** 0.5,
            ),
            figure("days.promised", date(2026, 7, 16)),
        ],
    ),
    "promised indoors": (
        "dock",
        "court",
        {},
        [figure("days.sure", (dock.done[-1] + 5 * 1.2 / 2) * exp(court.Z80 * court.spread))],
    ),
    "promised nine times in ten": (
        "court",
        None,
        {"promise: 80 %": "promise: 90 %"},
        [figure("days.score", *[DECILE] * 4)],
    ),
    # ---- weather: a share of the month goes before days lost in any month; bad days stop what follows the first step
    "weather and days lost": (
        "court",
        None,
        {"{name: open, factor: 1, weather: 1}": "{name: open, factor: 1, weather: 1, lost_days: 30 %}"},
        [figure("run.end", court.sanded, court.walls_done, court.trim_done)],
    ),
    "halted at once": (
        "court",
        None,
        {"  - {task: Sand, system: Walls}\n": ""},
        [figure("plan.halted", court.halted), figure("run.system", 1, 2)],
    ),
    # ---- one system: more passes of a first coat; what dries within the day, what dries for days
    "primed twice": (
        "fence_whole",
        "fence",
        {"color: Gray, coats: 1": "color: Gray, coats: 2"},
        [figure("run.end", fence_whole.brushed, *twice_primed)],
    ),
    "dry within the day": (
        "fence_whole",
        "fence",
        {"pumps:\n": "coatings:\n  - {change: Primer, recoat: 2 h}\npumps:\n"},
        [
            figure("run.dry", fence_whole.brushed / 0.8875, DRY + 2),
            figure("run.end", fence_whole.brushed, fence_whole.primed, soon + coat),
        ],
    ),
    # thirty hours: past the fifth day, a Friday, so that its paint is flushed out on the fourth evening alone
    "dry after days": (
        "fence_whole",
        "fence",
        {"pumps:\n": "coatings:\n  - {change: Enamel, recoat: 30 h}\npumps:\n"},
        [
            figure("run.end", fence_whole.brushed, fence_whole.primed, fence_whole.green, 5 * day + coat),
            figure("plan.flush_labor", 4 * 0.25),
            figure("machines.worked", 6, name="Small pump"),  # gray on days 1 and 2, green on 3 and 4, 6 and 7
        ],
    ),
    # the fence waits as long as before, for its own coats
    "walls that dry for days": (
        "court",
        None,
        {"{system: Walls, coating: Paint, color: White,": "{system: Walls, coating: Slow primer,"},
        [figure("days.alone", *court.alone)],
    ),
    # ---- hands: alternates that stand first take none, whatever their tasks; a coat that comes first
    "alternates that stand first": (
        "tower",
        "court",
        {
            PORCH: "",
            VANE: "",
            "systems:\n": f"systems:\n{PORCH}{VANE}",
            PORCH_COAT: "",
            "coats:\n": f"coats:\n{PORCH_COAT.replace('coats: 1', 'coats: 2')}",
        },
        [
            figure("lanes.hand_end", tower.begin, tower.begin, tower.foot, tower.shaft, tower.spire, tower.spire),
            figure("run.end", tower.first, tower.steps, tower.shaft_done, tower.again, tower.spire_done),
            figure("run.system", 3, 6, 4, 3, 5),
            figure("days.added", 0, 4, 0, 6),
            figure("days.alone", 0, 4 + 4 / 24 * 8, 0, 6),
            figure("machines.since", 1, 1, 3, name=tower.NAMES),
            figure("machines.more", 0, 4, 0, name=tower.NAMES, copy=2),
            figure("machines.more", 0, 0, 6, name=tower.NAMES, copy=4),
        ],
    ),
    # three people, of whom one goes on: in July from the fifth day
    "one hand": (
        "tower",
        "court",
        {"people: 4\n  contingency": "people: 3\n  contingency"},
        [figure("lanes.hand_end", 1.6 + 8, 9.6 + 20 * 1.2 / 0.8, 39.6 + 6 * 1.2 / 0.1)],
    ),
    # all four until the second day, then the foot
    "hands that begin late": (
        "tower",
        "court",
        {"{task: Set out, hours: 1 h,": "{task: Set out, hours: 9 h,"},
        [figure("plan.begin", 10.8), figure("plan.gun_from", 10.8 + 16 * 1.2 / 4 / 0.8)],
    ),
    "clearing for longer": (
        "tower",
        "court",
        {"{task: Clear, hours: 8 h,": "{task: Clear, hours: 20 h,"},
        [
            figure("plan.hand_end", tower.spire),
            figure("plan.lanes_end", tower.spire_done),
            figure("days.work", tower.spire_done + 80 * 1.2 / 4),
        ],
    ),
    # ---- a base without work, whose alternate is a quarter of an hour of four
    "an alternate alone": (
        "gift",
        "court",
        {"method: roll}": "method: roll, alternate: A}"},
        [
            figure("days.work", 0, 0.25 * 1.2 / 0.8, 0, 0),
            figure("days.days", 0, 0.5, 0, 0),
            figure("days.visits", 0, 1, 0, 0),
            figure("days.finish", date(2026, 6, 1), no=2),
            figure("work_days.used", 0, 0, 0),
        ],
    ),
    # the foot has one coat: all are at its scrubbing alone
    "a first system of one coat": (
        "tower",
        "court",
        {"coating: Slow primer, coats: 2": "coating: Slow primer, coats: 1"},
        [
            figure("lanes.hand_end", tower.foot, tower.shaft, tower.spire),
            figure("run.end", tower.first, tower.steps, tower.shaft_done, tower.spire_done),
        ],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
