"""Books, catalogs and jobs bent at random are read, or refused in words; `tests/support/storm.py` runs thousands."""

from unittest import mock

import pytest
from support import storm
from support.slow import slow

SEED = 20
MANY = {"books": 25, "catalogs": 60, "jobs": 60}


@pytest.mark.parametrize("kind", [slow(kind) for kind in storm.ORDER])
def test_nothing_bent_at_random_breaks_the_program(tmp_path, kind):
    """The first of each kind goes on through all that is done with it, and its price through an engine."""
    one = storm.Storm(SEED, tmp_path)
    one.run(kind, range(MANY[kind]), hundredth=1000)
    assert one.faults == [] and one.ran[kind] == MANY[kind]
    refused = [often for message, often in one.told[kind].items() if not message.endswith(": done")]
    assert sum(refused) > 5 and one.told[kind].total() > sum(refused)


@pytest.mark.parametrize("broken", [KeyError("a"), RecursionError(), storm.Hung("long"), storm.Refused([])])
def test_a_storm_sees_what_breaks(tmp_path, broken):
    one = storm.Storm(SEED, tmp_path)
    with mock.patch.object(storm.checking, "open_all", side_effect=broken):
        one.run("jobs", range(2))
    assert len(one.faults) == 2


def test_a_storm_sees_another_price(tmp_path):
    assert not storm.alike(100.0, 100.01) and not storm.alike(None, 0.0) and storm.alike(None, "")
    one = storm.Storm(SEED, tmp_path)
    with mock.patch.object(storm, "Addressed") as engine:
        engine.return_value.get.return_value = 1.0
        with storm.tight_books():
            one.recalculated("jobs 0 check", storm.open_job(storm.ATTIC, [storm.CATALOGS]))
    assert one.prices == 1 and "recalculated 1.0" in one.faults[0][1]


@pytest.mark.parametrize("kind", ["catalogs", "jobs"])
def test_a_number_gives_the_same_file_each_time(tmp_path, kind):
    one, other = storm.Storm(SEED, tmp_path), storm.Storm(SEED, tmp_path)
    assert one.file(kind, 7) == other.file(kind, 7)
    assert len({one.file(kind, number)[2] for number in range(9)}) == 9
