"""Books with fewer rows, for tests that look at what is in a book and not at how much: half as much to write, read and recompute."""
import contextlib
from unittest import mock

from builder import jobs
from builder.returned import located
from builder.stages.order import capacities

FEWER = {"coats": 9, "openings": 12, "tasks": 16, "systems": 7}      # enough for the shed and the corridor
LINES, FEW_LINES = 100, 50


def small(lines=LINES, **more):
    """As `capacities`, of a smaller book."""
    return capacities(FEW_LINES if lines == LINES else lines, **{**FEWER, **more})


@contextlib.contextmanager
def small_books():
    """Every book that is made or looked at meanwhile is a small one."""
    with mock.patch.object(jobs, "capacities", small), mock.patch.object(located, "capacities", small):
        yield
