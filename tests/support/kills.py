"""Commands killed while they write over a file: it is the old or the new one, never half, and the next run leaves
nothing beside it.

    python tests/support/kills.py [--count 300] [--seed 1] [--only COMMAND]

Each kill is a process of its own, ended from outside at a random moment or as soon as a second name stands in the
folder, or at one step of the writing. Then the same command runs to its end. Those killed at a random moment make
their book; the others, to be quick, have it from a run before, and do all else. Prints how often each file was found old
and new, how often something lay beside it until the next run, and every fault. A benchmark by hand;
tests/command/test_kills.py runs a few.
"""

import argparse
import contextlib
import functools
import io
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from unittest import mock

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).parent.parent), str(Path(__file__).parent.parent.parent)]

from builder.cli import main as wetfilm
from builder.workbook import make as making
from support.places import SHED
from support.small import CATALOGS, tight_books

STOCK = ("--catalogs", str(CATALOGS))
COMMANDS = {  # -> (its arguments, the file it writes)
    "build": (["build", str(SHED), *STOCK], "book.xlsx"),
    "read": (["read", "{given}", *STOCK], "back.yaml"),
    "reissue": (["reissue", "{given}", *STOCK], "again.xlsx"),
    "letter": (["letter", "{given}"], "book.eml"),
}
OFTEN = ("build", "build", "build", "read", "reissue", "letter")
SIGNALS = (signal.SIGKILL,) * 6 + (signal.SIGTERM,) * 2 + (signal.SIGINT,) * 2
RANDOM, SEEN, STEP = "at a random moment", "when a second name is there", "at a step of the writing"
MOMENTS = (RANDOM, RANDOM, SEEN, SEEN, STEP)
STEPS = ("open", "write", "fsync", "chmod", "replace")
SOON = 0.004  # seconds behind a second name: what writing a book takes
GLANCE = 0.0002  # seconds
LATE = 1.1  # of what a command takes undisturbed
TOO_LONG = 300  # seconds


def _at(step, number, draw):
    """Patches so that this process ends itself by a signal before or behind a step of the writing, or half through."""
    behind = draw.random() < 0.5

    def end():
        os.kill(os.getpid(), number)
        time.sleep(1)  # until it has arrived

    if step == "write":
        as_stream = os.fdopen

        def half(*arguments):
            stream = as_stream(*arguments)
            whole = stream.write

            def write(data):
                whole(data[: draw.randrange(len(data))])
                stream.flush()
                end()

            return mock.MagicMock(wraps=stream, write=write, **{"__enter__.return_value.write": write})

        return mock.patch.object(os, "fdopen", half)
    done = getattr(os, step)

    def ending(*arguments, **options):
        ours = step != "open" or ".wetfilm-" in str(arguments[0])
        if ours and not behind:
            end()
        found = done(*arguments, **options)
        if ours:
            end()
        return found

    return mock.patch.object(os, step, ending)


class Known:
    """The books that were made in this process, for others that are copies of it."""

    def __init__(self):
        self.books, self.make = {}, making._prepared

    def prepared(self, opened, shown=None, cells_alone=False):
        book = repr((opened.settings, opened.values, sorted(shown or ()), cells_alone))
        if book not in self.books:
            made = self.make(opened, shown, cells_alone)
            self.books[book] = mock.Mock(
                done=functools.cache(lambda: made.done()), written=functools.cache(lambda: made.written())
            )
        return self.books[book]

    def had(self):
        return mock.patch.object(making, "_prepared", self.prepared)


def begun(arguments, around=contextlib.nullcontext):
    """The number of a process that runs the command within what `around` makes."""
    number = os.fork()
    if number:
        return number
    status = 99
    signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored where a shell runs this in the background
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1), os.dup2(nowhere, 2)
        with tight_books(), around():
            status = wetfilm(arguments)
    except KeyboardInterrupt:  # before or behind what the command does
        status = 130
    finally:
        os._exit(status)


def ended(number):
    """The exit status of a process; that of a signal is below 0."""
    return os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])


@contextlib.contextmanager
def both(one, other):
    with one, other:
        yield


@dataclass
class Kills:
    """What came of it. counts: (command, moment, signal) -> what was found -> how often."""

    seed: int
    folder: Path
    counts: dict = field(default_factory=dict)
    faults: list = field(default_factory=list)

    def __post_init__(self):
        self.given = self.folder / "given.xlsx"
        self.undisturbed, self.known = {}, Known()
        before = self.folder / "before"
        before.mkdir()
        with tight_books(), self.known.had(), contextlib.redirect_stdout(io.StringIO()):
            if wetfilm(["build", str(SHED), *STOCK, "-o", str(self.given)]):
                raise RuntimeError("the book is not built")
            for command in COMMANDS:  # here: what they load and make, no process loads and makes again
                wetfilm(self.arguments(command, before)[0])

    def arguments(self, command, folder):
        """A command that writes into a folder, and the path it writes."""
        words, name = COMMANDS[command]
        path = folder / name
        return [*(word.format(given=self.given) for word in words), "-o", str(path), "--force"], path

    def usual(self, command):
        """(the file, the exit status, seconds) of a command that nothing disturbs."""
        if command not in self.undisturbed:
            folder = self.folder / command
            folder.mkdir()
            arguments, path = self.arguments(command, folder)
            start = time.monotonic()
            status = ended(begun(arguments))
            self.undisturbed[command] = path.read_bytes(), status, time.monotonic() - start
            shutil.rmtree(folder)
        return self.undisturbed[command]

    def kill(self, number, command=None):
        """One kill, by its number, and the run behind it."""
        draw = random.Random(f"{self.seed} {number}")
        command = command or draw.choice(OFTEN)
        moment, by = draw.choice(MOMENTS), draw.choice(SIGNALS)
        where = f"{number} {command}, {by.name} {moment}"
        new, status, seconds = self.usual(command)
        folder = self.folder / "out"
        folder.mkdir()
        arguments, path = self.arguments(command, folder)
        old = b"old " * draw.randrange(1, 400_000)
        path.write_bytes(old)
        killed = self.killed(arguments, folder, moment, by, seconds, draw)
        found = self.counts.setdefault((command, moment, by.name), Counter())
        found["kills"] += 1
        now = path.read_bytes() if path.exists() else None
        found["old" if now == old else "new"] += 1
        found["ended before"] += killed == status
        found["left beside"] += len(os.listdir(folder)) > 1
        if now not in (old, new):
            self.fault(where, f"{'nothing' if now is None else f'{len(now)} bytes'}, neither old nor new")
        self.behind(where, arguments, path)
        shutil.rmtree(folder)

    def killed(self, arguments, folder, moment, by, seconds, draw):
        """The exit status of a command that is killed in a while."""
        if moment == STEP:
            step = draw.choice(STEPS)
            return ended(begun(arguments, lambda: both(self.known.had(), _at(step, by, draw))))
        number = begun(arguments, contextlib.nullcontext if moment == RANDOM else self.known.had)
        start, while_ = time.monotonic(), draw.uniform(0, LATE * seconds)
        if moment == RANDOM:
            time.sleep(while_)
        else:
            while len(os.listdir(folder)) < 2 and time.monotonic() < start + TOO_LONG:
                if os.waitid(os.P_PID, number, os.WEXITED | os.WNOHANG | os.WNOWAIT):
                    break  # it was not seen
                time.sleep(GLANCE)
            time.sleep(draw.choice((0, draw.uniform(0, SOON))))
        os.kill(number, by)
        return ended(number)

    def behind(self, where, arguments, path):
        """The same command, to its end: the new file, and nothing else."""
        new, status, _ = self.usual(COMMAND_OF[path.name])
        again = ended(begun(arguments, self.known.had))
        if again != status:
            self.fault(where, f"the next run ends with {again}, not {status}")
        if path.read_bytes() != new:
            self.fault(where, "the next run leaves another file")
        if others := set(os.listdir(path.parent)) - {path.name}:
            self.fault(where, f"the next run leaves {', '.join(sorted(others))}")

    def fault(self, where, what):
        self.faults.append((where, what))
        print(f"FAULT {where}: {what}", flush=True)

    def report(self):
        """The lines of what came of it."""
        for title, place in (("command", 0), ("moment", 1), ("signal", 2)):
            whole = {}
            for key, found in sorted(self.counts.items()):
                whole.setdefault(key[place], Counter()).update(found)
            yield f"\nby {title}"
            yield from (
                f"  {', '.join(f'{count} {what}' for what, count in found.items())}: {key}"
                for key, found in whole.items()
            )
        yield f"\nkills: {sum(found['kills'] for found in self.counts.values())}"
        yield f"faults: {len(self.faults)}"
        yield from (f"  {where}: {what}" for where, what in self.faults)


COMMAND_OF = {name: command for command, (_, name) in COMMANDS.items()}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", choices=COMMANDS)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        kills = Kills(options.seed, Path(folder))
        with contextlib.suppress(KeyboardInterrupt):  # what was found so far is told
            for number in range(options.count):
                kills.kill(number, options.only)
        print(*kills.report(), sep="\n")
    return 1 if kills.faults else 0


if __name__ == "__main__":
    sys.exit(main())
