"""A job file and catalogs from before the whole cost say nothing of it, and the price stays what it was."""

import pytest
from support.changing import again, net
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


@pytest.mark.parametrize("job, before, corrected", [("boathouse", 19905, 5), ("corridor", 6030, -40)])
def test_what_was_not_asked_for_before_changes_no_price(job, before, corrected):
    """`before`: what the program of schema 4 gave for this job and these catalogs, in the job's currency. `corrected`:
    what the two corrections did to it that hang on no input (DEVELOPERS, Corrections): a roller waits while a nozzle is
    changed (E47), no touch-up is kept of the corridor's primer (E40).
    """
    opened = open_job(ROOT / f"examples/{job}.yaml", [ROOT / "catalogs"])
    assert opened.units.to_cell(net(again(opened, as_before)), "money") == pytest.approx(before + corrected)
