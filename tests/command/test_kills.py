"""A command killed while it writes leaves the old file or the new one; `tests/support/kills.py` kills hundreds."""

import re
import subprocess
import sys

import pytest
from support.places import ROOT

pytestmark = pytest.mark.slow

# Each in a process of its own, which has no threads that a copy of it would miss.
WRITTEN_IN_PLACE = """
def in_place(target, data, mode):
    with os.fdopen(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), "wb") as stream:
        stream.write(data)
files._replace = in_place
"""
NEVER_CLEARED = "files._clear = lambda *_: None"
ONE = """
import os, signal, sys, tempfile
from pathlib import Path
sys.path[:0] = ["tests", "."]
from builder import files
from support import kills
{patch}
kills.MOMENTS, kills.STEPS, kills.SIGNALS = (kills.STEP,), ("write",), (signal.SIGKILL,)
with tempfile.TemporaryDirectory() as folder:
    one = kills.Kills(1, Path(folder))
    one.kill(1, "read")
"""


def ran(*arguments):
    return subprocess.run([sys.executable, *arguments], cwd=ROOT, capture_output=True, text=True)


@pytest.mark.parametrize("count", [36])
def test_a_killed_command_leaves_the_old_file_or_the_new_and_nothing_after_the_next_run(count):
    done = ran("tests/support/kills.py", "--count", str(count), "--seed", "20")
    assert done.returncode == 0, done.stdout + done.stderr
    by_command = done.stdout.split("by moment")[0]
    old, new, left = (sum(map(int, re.findall(rf"(\d+) {found}", by_command))) for found in ("old", "new", "left"))
    assert old + new == count and old and new and left


@pytest.mark.parametrize(
    "patch, told",
    [("", ""), (WRITTEN_IN_PLACE, "neither old nor new"), (NEVER_CLEARED, "the next run leaves .wetfilm-")],
)
def test_a_kill_sees_what_is_left(patch, told):
    done = ran("-c", ONE.format(patch=patch))
    assert done.stderr == "" and (told in done.stdout if told else done.stdout == "")
