"""What no page comes to of the parts of a price: each is one of the jobs with words changed, and the figures that
follow, worked out beside it on what the page of that job has worked out.
"""

import pytest
from support.choices import figure, holds

pytestmark = pytest.mark.slow

# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    # a triangle less its openings, half as much again where it is coated
    "a part of pickets": (
        "court",
        None,
        {"system: Walls, length: 20 ft": "system: Walls, shape: triangle, profile: Pickets, length: 20 ft"},
        [figure("parts.need", ((100 - 45) * 1.5 + 50) / 200, 546 / 200, (742 + 33) / 200)],
    ),
    # half more of its 155 ft2 as work; the rooms, which name no access, stay on the ground
    "a first line from the lift": (
        "court",
        None,
        {"height: 10 ft, windows: 2, doors: 1}": "height: 10 ft, windows: 2, doors: 1, access: lift}"},
        [figure("systems.work", 1716 + 155 / 2, 95.5)],
    ),
    "parts before tax": (
        "court",
        None,
        {"sales_tax: 0 %": "sales_tax: 10 %"},
        [figure("parts.price", 417.28, 1657.46, 1152.26, 3227, 1765, 520, 324)],
    ),
    "a part that costs nothing": (
        "gift",
        "court",
        {},
        [figure(f"parts.{key}", 100, 100) for key in ("price", "price_to")] + [figure("parts.share", 1, 1)],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
