"""What no page comes to of the gun, what it takes and what is bought: each is one of the jobs with words changed, and
the figures that follow, which are worked out beside it on what the page of that job has worked out.
"""

import pytest
import test_cannery as cannery
from support.choices import figure, holds

pytestmark = pytest.mark.slow


def fits(*sizes):
    """Which of the barn's nozzles (411, 515, 617 and soft 515) do for its walls: all but the 411, which is too narrow.
    They take .1189, .2210, .2839, .1768 gal/min, are set to 2078, 2145, 2186, 1396 psi and go at 1.65, 2.45, 2.62,
    2.02 ft/s, over bare boards at 1.2 of that.
    """
    orifices = [orifice for orifice, fit in zip((11, 15, 17, 15), sizes) if fit]
    ends = (min(orifices), max(orifices)) if orifices else (0, 0)
    found = ("fit.fitting", len(orifices)), ("fit.smallest", ends[0]), ("fit.largest", ends[1])
    return [figure(place, value, copy=1) for place, value in found]


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
twin = 0.4 + (cannery.fill_twin - 0.4) / 2  # of which half is won back
small = 0.1 + (cannery.fill_small - 0.1) / 2

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
    "too fast": (
        "barn",
        None,
        {"gun_speed: {min: 1 ft/s, max: 4 ft/s}": "gun_speed: {min: 1 ft/s, max: 2.5 ft/s}"},
        fits(0, 1, 0, 1),
    ),
    "too fast for the crew": ("barn", None, {"gun_speed_factor: 1,": "gun_speed_factor: 0.625,"}, fits(0, 1, 0, 1)),
    "too slow": (
        "barn",
        None,
        {"gun_speed: {min: 1 ft/s, max: 4 ft/s}": "gun_speed: {min: 1.9 ft/s, max: 4 ft/s}"},
        fits(0, 1, 1, 0),
    ),
    "too coarse for the paint": (
        "barn",
        None,
        {"finish: good\n    abrasion": "finish: fine\n    abrasion"},
        fits(0, 0, 0, 0),
    ),
    "too coarse for the face": (
        "barn",
        None,
        {"handling: 4 s/ft2, finish: good": "handling: 4 s/ft2, finish: fine"},
        fits(0, 0, 0, 0),
    ),
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
        "barn",
        None,
        {CRACKED: CRACKED.replace("3300", "2190")},
        [figure("picks.gauge", 2150, 2100)],
    ),
    "a gauge near the rating": (
        "barn",
        None,
        {"pressure_max: 5000 psi": "pressure_max: 2190 psi"},
        [figure("picks.gauge", 2150, 2100)],
    ),
    "a nozzle that the hose does not hold": (
        "barn",
        None,
        {
            CRACKED: CRACKED.replace("3300", "2140"),
            "coats: 2, face: bare}": "coats: 2, face: bare, nozzle: standard 617}",
        },
        [figure("picks.gauge", 2100, 2100)],
    ),
    # ---- packs: no largest one, two of it; small ones for what is left, or one more of the middle
    "no largest pack": ("cannery", None, {ENAMEL: ENAMEL.replace("270", "400")}, packs(6 * 58 + 2 * 18, 2, 6, 0)),
    "one more of the largest": ("cannery", None, {ENAMEL: ENAMEL.replace("270", "90")}, packs(2 * 90, 0, 0, 2)),
    "small packs for the rest": ("cannery", None, {ENAMEL: ENAMEL.replace("18", "14")}, packs(270 + 6 * 14, 6, 0, 1)),
    "one more of the middle": (
        "cannery",
        None,
        {ENAMEL: ENAMEL.replace("58", "30").replace("270", "100")},
        packs(100 + 2 * 30, 0, 2, 1),
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
        [figure("days.loads", 2, 4, 2, 2), figure("purchases.line_fill", twin + small / 1.05, scenario=2, coat=2)],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
