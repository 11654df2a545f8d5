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
from builder.records.kinds import TABLES
from builder.review import reissue
from support.places import CATALOGS as SHIPPED

FEWER = {  # enough for either example
    "takeoff": 50,
    "log": 12,
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
SPARE = 5  # of takeoff and log
KEPT = ("310", "315", "412", "515", "517", "527", "617", "621", "627", "1223")
OTHER_SIZES = re.compile(rf'^ *- \{{size: "(?!(?:{"|".join(KEPT)})").*\n', re.MULTILINE)

_FOLDER = tempfile.TemporaryDirectory(prefix="few sizes ")  # for as long as the process lives
CATALOGS = Path(_FOLDER.name)
for _path in SHIPPED.glob("*.yaml"):
    (CATALOGS / _path.name).write_text(OTHER_SIZES.sub("", _path.read_text()))


_ROOM_FOR = jobs.room_for


def _room_for(values, before=None, asked=None):
    fewer = {table: max(rows, len(values[table]) + min(SPARE, TABLES[table].spare)) for table, rows in FEWER.items()}
    return _ROOM_FOR(values, before, {**fewer, **(asked or {})})


@contextlib.contextmanager
def _rooms(room_for):
    with contextlib.ExitStack() as patches:
        for module in (jobs, reissue):
            patches.enter_context(mock.patch.object(module, "room_for", room_for))
        yield


def small_books():
    """Every book that is made meanwhile is a small one."""
    return _rooms(_room_for)


def _rooms_needed(values, before=None, asked=None):
    needed = {table: len(values[table]) + 1 for table in TABLES}
    return _ROOM_FOR(values, before, {**needed, **(asked or {})})


def tight_books():
    """Every book that is made meanwhile has one row more than is filled of each table, for thousands of books."""
    return _rooms(_rooms_needed)


def usual_books():
    """Every book that is made meanwhile is of the usual size, whatever is in force around this."""
    return _rooms(_ROOM_FOR)
