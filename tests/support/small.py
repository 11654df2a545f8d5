"""Books with few rows, for tests that look at what is in a book and not at how much: a third to write, read and recompute.

The catalogs in CATALOGS are those shipped, with few sizes of nozzles.
"""
import contextlib
import re
import tempfile
from pathlib import Path
from unittest import mock

from builder import jobs
from builder.returned import located
from builder.stages.order import capacities
from support.places import CATALOGS as SHIPPED

FEWER = {"coats": 9, "nozzles": 12, "openings": 12, "tasks": 16, "systems": 7}      # enough for the shed and the corridor
LINES, FEW_LINES = 100, 50
KEPT = ("310", "510", "515", "517", "527", "621", "627", "1223")
OTHER_SIZES = re.compile(rf'^ *- \{{size: "(?!(?:{"|".join(KEPT)})").*\n', re.MULTILINE)

_FOLDER = tempfile.TemporaryDirectory(prefix="few sizes ")              # for as long as the process lives
CATALOGS = Path(_FOLDER.name)
for _path in SHIPPED.glob("*.yaml"):
    (CATALOGS / _path.name).write_text(OTHER_SIZES.sub("", _path.read_text()))


def small(lines=LINES, **more):
    """As `capacities`, of a smaller book."""
    return capacities(FEW_LINES if lines == LINES else lines, **{**FEWER, **more})


@contextlib.contextmanager
def rooms(room):
    """Every book that is made or looked at meanwhile has as many rows as `room(lines)` says."""
    with mock.patch.object(jobs, "capacities", room), mock.patch.object(located, "capacities", room):
        yield


def small_books():
    return rooms(small)


def usual_books():
    return rooms(capacities)
