"""Guards of nozzles (E48): the barn and the cannery with families that name a guard, and the figures that follow, worked
out beside them on what their pages have worked out.

The walls of the barn take two coats on 1955.2 ft2 by one gun, and cost least through the 617 (.1593 a ft2), .1597
through the soft 515; its trim takes the 411 alone. A guard of 20 for both coats of the walls is .0051 a ft2.
"""

import pytest
import test_barn as barn
import test_barn_more as counter
import test_cannery as cannery
from numpy import array
from support.choices import figure, holds

pytestmark = pytest.mark.slow

STANDARD, SOFT = "{name: standard, loss_factor: 1,", "{name: soft, loss_factor: 0.9,"
PLAIN, DEEP = "guard: plain, guard_price: 20,", "guard: deep, guard_price: 30,"
NAMED = {STANDARD: f"{STANDARD} {PLAIN}", SOFT: f"{SOFT} {DEEP}"}
area = 2 * barn.area[0]
walls = array(next(one.values for one in barn.page.figures if one.place == "trials.cost" and one.where == {"coat": 1}))
standard = array([1, 1, 1, 0])  # the sizes of that family, of the four


def van(*guards):
    """The guards on the van, beside what each family asks for."""
    listed = "guards: [" + ", ".join(f"{{guard: {one}}}" for one in guards) + "]\n"
    return NAMED | {"tasks:\n": f"{listed}tasks:\n"}


def tried(more):
    """What a ft2 of the walls costs through each size."""
    return figure("trials.cost", *(walls + more / area), coat=1)


taxed = 20 * 1.06 * 1.15  # with tax and overhead
# name: job, the job it is laid over, what stands there -> what is put there, figures
CHOICES = {
    "all on the van": (
        "barn",
        None,
        van("plain", "deep"),
        [tried(0), figure("cost.guards", 0), figure("picks.size_at", 3, 1), figure("price.net", 1850)],
    ),
    # 617: .1593 + .0051, more than the .1597 of the soft one, whose guard is there; the trim needs the plain one
    "one that makes another nozzle cost less": (
        "barn",
        None,
        van("Deep"),
        [tried(20 * standard), figure("picks.size_at", 4, 1), figure("cost.guards", 20)],
    ),
    # .1597 + .0077 through the soft one; one guard serves both coats. It is certain, so that what covers the doubt grows
    # by as much: (1478.79 + 24.38) / .8 is 1878.96, up to 1880
    "none on the van": (
        "barn",
        None,
        NAMED,
        [
            tried(20 * standard + 30 * (1 - standard)),
            figure("picks.size_at", 3, 1),
            figure("cost.guards", 20),
            figure("cost.materials", barn.materials + 20),
            figure("cost.cost", barn.cost + taxed),
            figure("risk.certain", taxed),
            figure("risk.p50", barn.middle + taxed),
            figure("risk.contingency", barn.contingency),
            figure("counter.untaxed", counter.untaxed + 20),
            figure("counter.wear", counter.in_price - counter.total),
            figure("other_buys.own", 20, 0),
            figure("price.goes_material", barn.nozzles + barn.sundries + barn.task_material + 20),
            figure("price.net", 1880),
        ],
    ),
    "one without a price": (
        "barn",
        None,
        {STANDARD: f"{STANDARD} guard: plain,"},
        [tried(0), figure("cost.guards", 0), figure("families.unlisted", 1, 0)],
    ),
    # the price that any family gives; it is bought once
    "one guard for both families": (
        "barn",
        None,
        {STANDARD: f"{STANDARD} guard: deep,", SOFT: f"{SOFT} {DEEP}"},
        [tried(30), figure("cost.guards", 30), figure("guard_buys.buy", 0, 1)],
    ),
    "one for an alternate alone": (
        "barn",
        None,
        van("deep") | {"surface: Trim}": "surface: Trim, alternate: A}"},
        [figure("picks.size_at", 4, 1), figure("cost.guards", 0, 20, 0, 0)],
    ),
    "one for each of two guns": (
        "barn",
        None,
        {STANDARD: f"{STANDARD} {PLAIN}", "guns: 1,": "guns: 2,", "guns_max: 1,": "guns_max: 2,"},
        [figure("film.guard_share", 2 / area), figure("guard_buys.buy", 2, 0), figure("cost.guards", 40)],
    ),
    # four nozzles in the kit, all of one family
    "a kit without its guard": (
        "cannery",
        None,
        {"{name: standard, loss_factor: 1,": "{name: standard, guard: plain, guard_price: 16, loss_factor: 1,"},
        [
            figure("checks.guards", 4),
            figure("kit.unguarded", 1, 1, 1, 1),
            figure("cost.guards", 16, 16, 16, 16),
            figure("cost.materials", cannery.materials + 16),
        ],
    ),
}


@pytest.mark.parametrize("choice", CHOICES.values(), ids=CHOICES)
def test_a_choice(choice, tmp_path):
    holds(choice, tmp_path)
