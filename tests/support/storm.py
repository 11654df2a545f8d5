"""A storm of bent books, catalogs and jobs, and what the program says of each: it may refuse, never break.

    python tests/support/storm.py [--count 20000] [--seed 1] [--only KIND] [--first 0] [--minutes 0] [--show NUMBER]

Books go through the gate for outside files and the reader, a tenth of them on through what `read` does and a hundredth
through `inspect`, `reissue` and `letter`; of catalogs and of jobs there are a quarter as many each. Prints what was
told, how often, the slowest, the largest, and every fault. The same seed and number give the same file: --show writes
it out. A benchmark by hand; tests/review/test_storm.py runs a few of each.
"""

import argparse
import contextlib
import functools
import io
import itertools
import random
import re
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from unittest import mock

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).parent.parent), str(Path(__file__).parent.parent.parent)]

from builder import checking, documents
from builder.jobs import open_job
from builder.letter import letter as letters
from builder.problems import LONGEST, Refused, on_one_line
from builder.records.folders import Folders
from builder.returned.read import returned
from builder.returned.safe import opened
from builder.returned.taken import as_job, taken
from builder.review import reissue as reissues
from builder.review.inspect import inspect
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make
from support import bending, slipping
from support.by_address import Addressed
from support.places import ANNEX, ATTIC, BEDROOMS, EXAMPLES, RUNNING, SHED
from support.small import CATALOGS, tight_books

LONG, LARGE = 20, 300.0  # seconds of the processor, MB on top of what was held before
NEAR = 1e-9  # of a price, as engines agree
BOOKS = {"shed": SHED, "running": RUNNING, "attic": ATTIC, "blank": None}  # running is signed
JOBS = (SHED, RUNNING, ATTIC, BEDROOMS, ANNEX, *EXAMPLES.values())
ORDER = ("books", "catalogs", "jobs")


def read_once():
    """What is parsed of YAML meanwhile is parsed once: of thousands of files, most hold what others hold."""
    return mock.patch.object(documents, "parse", functools.lru_cache(2000)(documents.parse))


class Hung(BaseException):
    """Of no kind that any part of the program takes for a fault of a file."""


@contextlib.contextmanager
def ended(seconds):
    """Raises Hung in what takes longer, in seconds of the processor."""

    def end(*_):
        raise Hung(f"not done after {seconds} s")

    before = signal.signal(signal.SIGPROF, end)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def _memory(line):
    """MB of this process: what it holds ('VmRSS') or held at most since `_afresh` ('VmHWM'); 0 where none is told."""
    about = Path("/proc/self/status")
    found = re.search(rf"{line}:\s+(\d+)", about.read_text()) if about.exists() else None
    return int(found[1]) / 1000 if found else 0.0


def _afresh():
    with contextlib.suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5")


def blanked(text):
    """A message without its names and numbers, so that those of one kind are alike."""
    text = re.sub(r"^[^ ]*\.(?:yaml|xlsx)[:\d]*: ", "", str(text))
    text = re.sub(r"'[^']*'?|(?<=[(:] )[A-Z][^:()]*(?=: )", "'…'", text)
    text = re.sub(r"[-+]?\d[\d,.:]*", "#", text)
    text = re.sub(r"its part \S+", "its part …", text)
    return re.sub(r"(known|one of|in|did you mean|such as):? .*", r"\1 …", text)[:110]


@dataclass
class Storm:
    """What came of it. told: message with names and numbers blanked -> how often; faults: what broke; slow, large:
    (seconds or MB, what).
    """

    seed: int
    folder: Path
    told: dict = field(default_factory=lambda: {kind: Counter() for kind in ORDER})
    bends: Counter = field(default_factory=Counter)
    ran: Counter = field(default_factory=Counter)
    faults: list = field(default_factory=list)
    slow: list = field(default_factory=list)
    large: list = field(default_factory=list)
    prices: int = 0  # recalculated by an engine

    def draw(self, kind, number):
        return random.Random(f"{self.seed} {kind} {number}")

    def fault(self, where, what):
        self.faults.append((where, what))
        print(f"FAULT {where}: {what}", flush=True)

    def step(self, where, work):
        """What some work gives; None where it refused or broke."""
        kind = where.split()[0]
        _afresh()
        held, began = _memory("VmRSS"), time.process_time()
        try:
            with ended(LONG):
                found = work()
            self.told[kind][f"{where.split()[2]}: done"] += 1
            return found
        except Refused as refused:
            self.judged(where, refused.problems)
            return None
        except Hung as hung:
            self.fault(where, hung)
            return None
        except Exception as error:  # whatever it is, no person should see it
            at = " < ".join(f"{one.name}:{one.lineno}" for one in traceback.extract_tb(error.__traceback__)[-4:])
            self.fault(where, f"{type(error).__name__}: {str(error)[:200]!r} at {at}")
            return None
        finally:
            taking, more = time.process_time() - began, _memory("VmHWM") - held
            self.slow = sorted([*self.slow, (taking, where)])[-5:]
            self.large = sorted([*self.large, (more, where)])[-5:]
            if taking > LONG or more > LARGE:
                self.fault(where, f"{taking:.1f} s, {more:.0f} MB")

    def judged(self, where, problems):
        """Problems, each of which must say something, once, on a line that may be printed."""
        kind = where.split()[0]
        if not problems:
            self.fault(where, "refused without a word")
        for problem in problems:
            self.told[kind][blanked(problem)] += 1
            if not problem.message.strip() or len(on_one_line(str(problem))) > LONGEST + 8:
                self.fault(where, f"a message that says nothing, or endlessly: {problem}")
        if len({(one.line, one.column, one.message) for one in problems}) < len(problems):
            self.fault(where, "told twice")

    # books

    @functools.cached_property
    def sources(self):
        """(the parts of a book, those of the same without its workings) of each tight book."""
        with tight_books():
            made = [make(open_job(path, [CATALOGS])) for path in BOOKS.values()]
        return [(bending.parts(data), bending.light(data)) for data in made]

    def book(self, number, whole=False):
        """(what was bent, the bytes of a book after it). whole: with its workings."""
        draw = self.draw("book", number)
        return bending.bent(draw, draw.choice(self.sources)[0 if whole else 1])

    def books(self, number, further=False, whole=False):
        """One bent book through the gate and the reader. further: on through `read`; whole: and the other commands."""
        hows, data = self.book(number, whole)
        where = f"books {number}"
        self.bends.update(hows)
        back = self.step(f"{where} gate ({', '.join(hows)})", lambda: returned(opened(io.BytesIO(data))))
        if back is not None and whole:
            self.looked(f"{where} ({', '.join(hows)})", back, data)
        elif back is not None and further:
            self.read(f"{where} {{}} ({', '.join(hows)})", back)

    def read(self, where, back):
        """What `read` does with a book: its inputs as a job file, which comes to the same price."""
        one = self.step(where.format("taken"), lambda: taken(back))
        if one is None:
            return
        [str(finding) for finding in one.findings]
        text = self.step(where.format("read"), lambda: as_job(one, [CATALOGS]))
        if text is not None:
            self.again(where, text, one.opened)

    def again(self, where, text, before):
        """The job file of a book comes to the book's price."""
        path = self.folder / "again.yaml"
        path.write_text(text, encoding="utf-8")
        after = self.step(where.format("reopened"), lambda: open_job(path, [CATALOGS]))
        if after is None:
            self.fault(where.format("reopened"), "what 'read' wrote is refused")
        elif not alike(before.price(), after.price()):
            self.fault(where.format("reopened"), f"price {before.price()} in the book, {after.price()} in the job")

    def looked(self, where, back, data):
        """The commands that a book goes through, upon one look."""
        number, hows = where.split(" (", 1)
        where = f"{number} {{}} ({hows}"
        look = self.step(where.format("inspect"), lambda: inspect(back, [CATALOGS]))
        if look is None:
            return
        self.told["books"].update(f"inspect: {blanked(finding)}" for finding in look.findings)
        text = self.step(where.format("read"), lambda: as_job(look.taken, [CATALOGS]))
        if text is not None:
            self.again(where, text, look.opened)
        path = self.folder / "book.xlsx"
        path.write_bytes(data)
        with (
            mock.patch.object(reissues, "inspect", lambda *_: look),
            mock.patch.object(letters, "inspect", lambda *_: look),
            mock.patch.object(letters, "returned", lambda *_: back),
        ):
            new = self.step(where.format("reissue"), lambda: reissues.reissue(back, [CATALOGS]))
            if new is not None:
                list(reissues.report(new))
            self.step(where.format("letter"), lambda: letters.letter(path))
            self.step(where.format("letter-anyway"), lambda: letters.letter(path, anyway=True, with_book=False))
        self.recalculated(where.format("price"), look.opened)

    # files

    def file(self, kind, number):
        """(what slipped, the file it is of, the bytes after it)."""
        draw = self.draw(kind, number)
        path = draw.choice(JOBS if kind == "jobs" else sorted(CATALOGS.glob("*.yaml")))
        hows, data = slipping.slipped(draw, path.read_text(encoding="utf-8"))
        return hows, path, data

    def files(self, kind, number, engine=False):
        """One catalog or job with slips, through `check`. engine: what the job, or the shed with the catalog, comes to
        is recalculated.
        """
        hows, path, data = self.file(kind, number)
        self.bends.update(hows)
        where = f"{kind} {number} check ({path.stem}: {', '.join(hows)})"
        if kind == "catalogs":
            folder = self.folder / "catalogs"
            if not folder.exists():
                shutil.copytree(CATALOGS, folder)
            asked, target, catalogs = folder, folder / path.name, [folder]
        else:
            asked = target = self.folder / path.name
            catalogs = self.stock
        target.write_bytes(data)
        done = self.step(where, lambda: self.checked(asked, catalogs))
        if done is not None:
            self.of_files(where, done, engine)
        if kind == "catalogs":
            if engine:
                shed = self.step(where.replace(" check ", " shed "), lambda: open_job(SHED, catalogs))
                if shed is not None:
                    self.recalculated(where, shed)
            shutil.copy(path, target)

    @functools.cached_property
    def stock(self):
        """The catalogs of every job, read once, as by a command that takes many jobs."""
        return Folders([CATALOGS])

    def checked(self, path, catalogs):
        found = checking.open_all([path], catalogs)
        checking.problems(found), checking.questions(found)
        return found[path]

    def of_files(self, where, one, engine):
        self.judged(where, one.problems) if one.problems else None
        for problem in one.problems:
            at = Path(problem.file)
            lines = (
                len(re.findall(rb"\r\n?|\n|\xc2\x85|\xe2\x80[\xa8\xa9]", at.read_bytes())) + 1 if at.is_file() else 1
            )
            if not 0 <= problem.line <= lines:
                self.fault(where, f"no such line: {problem}")
        if one.errors and one.price() is not None and one.unread:
            self.told[where.split()[0]]["(a price beside what could not be read)"] += 1
        if engine and not one.errors:
            self.recalculated(where, one)

    # prices

    def recalculated(self, where, one):
        """The price of an estimate is what an engine makes of its workbook."""
        if one.price() is None or one.errors:
            return
        path = self.folder / "price.xlsx"
        path.write_bytes(make(one))
        capacity = one.estimate.capacity
        place = Layout(blocks(one.units, capacity), capacity).places["price", "total"]
        shown = Addressed(path).get(place.sheet, place.row, place.col + 1)
        self.prices += 1
        if not alike(one.price(), shown):
            self.fault(where, f"price {one.price()}, recalculated {shown}")

    # all

    def run(self, kind, numbers, minutes=0.0, tenth=10, hundredth=100):
        """The storm of one kind, over some numbers, until minutes are over (0: no end)."""
        end = time.monotonic() + minutes * 60 if minutes else None
        with tight_books(), read_once():
            for number in numbers:
                if end and time.monotonic() > end:
                    break
                if kind == "books":
                    self.books(number, number % tenth == 0, number % hundredth == 0)
                else:
                    self.files(kind, number, number % hundredth == 0)
                self.ran[kind] += 1

    def report(self):
        """The lines of what came of it."""
        for kind, told in self.told.items():
            if self.ran[kind]:
                yield f"\n{kind}: {self.ran[kind]}"
                yield from (f"  {often:6}  {message}" for message, often in told.most_common())
        yield f"\nprices recalculated: {self.prices}"
        yield from (f"slow: {seconds:.1f} s  {where}" for seconds, where in reversed(self.slow))
        yield from (f"large: {more:.0f} MB  {where}" for more, where in reversed(self.large))
        yield f"faults: {len(self.faults)}"
        yield from (f"  {where}: {what}" for where, what in self.faults)


def alike(one, other):
    """Whether two prices are one; None and blank text are none."""
    one, other = (None if price in (None, "") else price for price in (one, other))
    if one is None or other is None or isinstance(other, str):
        return one == other
    return abs(one - other) <= NEAR * max(abs(one), abs(other))


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=20_000, help="books; of catalogs and jobs a quarter each")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", choices=ORDER)
    parser.add_argument("--first", type=int, default=0, help="the number to begin with")
    parser.add_argument("--minutes", type=float, default=0, help="of each kind, at most")
    parser.add_argument("--further", type=int, default=10, help="one of so many books goes on through what read does")
    parser.add_argument(
        "--every",
        type=int,
        default=100,
        help="one of so many goes through all commands, a price of a file through an engine",
    )
    parser.add_argument("--show", type=int, help="write that one out instead, into the folder")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        storm = Storm(options.seed, Path(folder))
        if options.show is not None:
            return shown(storm, options.only or "books", options.show, options.every)
        with contextlib.suppress(KeyboardInterrupt):  # what came of it until then is told
            for kind in [options.only] if options.only else ORDER:
                count = options.count if kind == "books" else options.count // 4
                storm.run(
                    kind,
                    itertools.islice(itertools.count(options.first), count),
                    options.minutes,
                    options.further,
                    options.every,
                )
        print(*storm.report(), sep="\n")
    return 1 if storm.faults else 0


def shown(storm, kind, number, every):
    """Write out the file of a number, and say what was done to it."""
    if kind == "books":
        hows, data = storm.book(number, number % every == 0)
        name = f"storm-{number}.xlsx"
    else:
        hows, path, data = storm.file(kind, number)
        name = f"storm-{number}-{path.name}"
    Path(name).write_bytes(data)
    print(f"{name}: {', '.join(hows)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
