"""Books with few rows, for tests that look at what is in a book and not at how much: a third to write, read and
recompute.

The catalogs in CATALOGS are those shipped, with few sizes of nozzles.
"""

import contextlib
import re
import tempfile
from pathlib import Path
from unittest import mock

from builder import jobs
from builder.jobs import room_for
from builder.returned import located
from builder.review import reissue
from builder.stages.order import capacities
from support.places import CATALOGS as SHIPPED

FEWER = {  # enough for either example
    "coats": 12,
    "coatings": 18,
    "holidays": 10,
    "kit": 6,
    "nozzles": 15,
    "openings": 22,
    "profiles": 20,
    "pumps": 5,
    "rates": 27,
    "rooms": 4,
    "surfaces": 10,
    "systems": 8,
    "tasks": 24,
}
LINES = 50
KEPT = ("310", "315", "412", "515", "517", "527", "617", "621", "627", "1223")
OTHER_SIZES = re.compile(rf'^ *- \{{size: "(?!(?:{"|".join(KEPT)})").*\n', re.MULTILINE)

_FOLDER = tempfile.TemporaryDirectory(prefix="few sizes ")  # for as long as the process lives
CATALOGS = Path(_FOLDER.name)
for _path in SHIPPED.glob("*.yaml"):
    (CATALOGS / _path.name).write_text(OTHER_SIZES.sub("", _path.read_text()))


def _capacities(lines=LINES, **more):
    return capacities(lines, **{**FEWER, **more})


def _room_for(values, before=None):
    return {
        **room_for(values, before),
        **{
            fact: max(least, len(values[table]) + 5, (before or {}).get(fact, 0))
            for fact, table, least in (("lines", "takeoff", LINES), ("log_lines", "log", 12))
        },
    }


@contextlib.contextmanager
def _rooms(capacities, room_for):
    with contextlib.ExitStack() as patches:
        for module in (jobs, located, reissue):
            patches.enter_context(mock.patch.object(module, "capacities", capacities))
        for module in (jobs, reissue):
            patches.enter_context(mock.patch.object(module, "room_for", room_for))
        yield


def small_books():
    """Every book that is made or looked at meanwhile is a small one."""
    return _rooms(_capacities, _room_for)


def usual_books():
    """Every book that is made or looked at meanwhile is of the usual size, whatever is in force around this."""
    return _rooms(capacities, room_for)
