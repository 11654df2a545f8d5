"""A job file and catalogs from before the whole cost say nothing of it, and what it costs stays what it was."""

import math

import pytest
from support.changing import again
from support.places import ROOT

from builder.jobs import open_job

SINCE = {  # block -> the inputs that came with schema 5
    "job": "travel_time distance vehicles rental_days price_is",
    "takeoff": "base part",
    "rooms": "part",
    "coatings": "spread_is",
    "pumps": "rental_5 rental_20 delivery owned_day flush hoses",
    "access": "rental_5 rental_20 delivery owned_day",
    "rates": "access when named",
    "exposures": "weather",
}
TERMS = (
    "recovered ground_reach leave unproductive walk standing_paid travel_rate travel_lump travel_in_day promise "
    "deposit_cap_amount money_step price_is show_parts cancel_days bid_lines"
)
NEW_TASKS = ("Contain old paint", "Clean and bag old paint", "Cover ground and planting", "Haul off waste")


def as_before(values):
    """As the office and the estimator would have had it: nothing of schema 5, burden in one figure."""
    for block, keys in SINCE.items():
        for row in values[block]:
            row.update(dict.fromkeys(keys.split()))
    terms = values["terms"][0]
    terms.update({key: None for key in terms if key.startswith(("lost_", "burden_"))} | dict.fromkeys(TERMS.split()))
    terms["burden"] = 0.32
    values["tasks"] = [row for row in values["tasks"] if row["task"] not in NEW_TASKS]


# What the program of schema 4 gave for the same jobs and catalogs, in money of the catalogs.
BEFORE = {
    "boathouse": {
        "paint": 4902.0, "sundries": 294.12, "nozzles": 86.85965886343017, "task_material": 359.7262222222222,
        "coat_wages": 2641.8580378565066, "task_wages": 2562.244533333333, "change_wages": 9.845176029643579,
        "access_rental": 570.0, "pump_rental": 0.0, "travel": 0.0, "travel_wages": 0.0, "standing_wages": 0.0,
    },
    "corridor": {
        "paint": 1359.0, "sundries": 81.54, "nozzles": 24.540634728545918, "task_material": 313.45864591729196,
        "coat_wages": 766.7682736362212, "task_wages": 1810.8217934293646, "change_wages": 3.0253849977553697,
        "access_rental": 0.0, "pump_rental": 0.0, "travel": 0.0, "travel_wages": 0.0, "standing_wages": 0.0,
    },
}  # fmt: skip
WAGE = 28 * 1.32  # of those who do tasks
# What changes them without an input, of the schedule and of E40; how often somebody comes and a pump is loaded, and how
# long a lift stands there, is worked by hand in test_scheduled and in tests/worked.
CORRECTED = {
    "boathouse": (
        # a second load of five paints, and nothing kept of primers: 4.3 gal in a pail of five (172) for four cans
        # (148), a can more of two paints (44 each), of one (57), and a can of 57 for a quart of 21
        ("paint", 172 - 148 + 2 * 44 + 57 + 57 - 21),
        ("sundries", 0.06 * 205),
        # on 14 days in place of 9 two people clean up for half an hour each, and two set up; 14 loads in place of 9
        ("task_material", (14 - 9) * 2 + (14 - 9) * 1.5),
        ("task_wages", ((14 - 9) * (2 + 2) * 0.5 + (14 - 9) * 0.5) * WAGE),
        # the lift of 285 a day from its first use to its last, 12 days in place of 2
        ("access_rental", (12 - 2) * 285),
    ),
    "corridor": (
        # nothing kept of the primer: two cans of 26 for three; a second load of three paints, of which two have the
        # room in what is bought, and one takes a can of 62 more
        ("paint", 62 - 26),
        ("sundries", 0.06 * 36),
        # 4 nights in place of 3, 8 loads in place of 5: three people clean up and set up
        ("task_material", (4 - 3) * 2 + (8 - 5) * 1.5),
        ("task_wages", ((4 - 3) * (3 + 3) * 0.5 + (8 - 5) * 0.5) * WAGE),
    ),
}


def while_the_others_worked(est):
    """nozzles, change_wages, coat_wages as they would be if gun and tender alone waited for a nozzle (E14, E12, E20 of
    before E47a), by the equations of design: interval = min(life, sqrt(2 change life / waste)), and what is worn grows
    with interval / (2 life).
    """
    terms, nozzles, changes, coats = est.terms, 0.0, 0.0, 0.0
    for gallon, hour, coat in zip(est.rows["gallons"], est.rows["hours"], est.rows["film"]):
        if not gallon.live or gallon.only:  # of an alternate
            continue
        coats += hour.cost
        if gallon.size_at is None:
            continue
        size = est.row("nozzles", gallon.size_at)
        trial = next(one for one in est.rows["trials"] if (one.coat, one.size_at) == (gallon.no, gallon.size_at))
        crew = est.row("crews", coat.crew_at)
        waiting = coat.wage * (crew.guns + crew.tenders) / crew.guns
        change = size.nozzle_price + terms.change_time * waiting
        interval = min(trial.life, math.sqrt(2 * change * trial.life / est.row("picks", gallon.no).waste_rate))
        was, wear = interval / (2 * trial.life), trial.interval / (2 * trial.life)
        applied = gallon.applied * (1 + terms.excess * was) / (1 + terms.excess * wear)
        due = applied / interval
        nozzles += due * size.nozzle_price
        changes += due * terms.change_time * waiting
        less = hour.trigger * (1 - (1 + terms.slow * was) / (1 + terms.slow * wear))
        coats -= less / crew.guns * coat.team * coat.wage
    return {"nozzles": nozzles, "change_wages": changes, "coat_wages": coats}


@pytest.mark.parametrize("job", BEFORE)
def test_what_was_not_asked_for_before_changes_no_cost(job):
    """But for three corrections that hang on no input: the schedule (E36, with its visits, loads and rented days), no
    touch-up of primers and fillers (E40), a whole team that waits while a nozzle is changed (E47a).
    """
    est = again(open_job(ROOT / f"examples/{job}.yaml", [ROOT / "catalogs"]), as_before)
    cost = est.rows["cost"][0]
    found = {item: getattr(cost, item) for item in BEFORE[job]} | while_the_others_worked(est)
    for item, more in CORRECTED[job]:
        found[item] -= more
    assert found == pytest.approx(BEFORE[job], rel=1e-9)
