"""Books with hardly more rows than the jobs worked by hand have: they are recalculated thousands of times."""

from unittest import mock

from builder import jobs
from builder.stages.order import capacities

ROWS = {
    "access": 12, "coatings": 5, "coats": 9, "crews": 3, "exposures": 3, "families": 3, "holidays": 3, "kit": 5,
    "nozzles": 5, "openings": 6, "profiles": 5, "pumps": 5, "rates": 12, "rooms": 2, "surfaces": 4, "systems": 7, "takeoff": 10,
    "tasks": 12,
}  # fmt: skip
STEPS, DAYS = 16, 30


def _capacities(**asked):
    steps = {"steps": STEPS, "run": STEPS, "work_days": DAYS, "daily": DAYS, "day_list": DAYS}
    return {**capacities(**{**asked, **ROWS}), **steps}


def tight_books():
    """Every book that is made meanwhile is a tight one."""
    return mock.patch.object(jobs, "capacities", _capacities)
