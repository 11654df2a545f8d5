"""Files worked on side by side on all cores, in the one way of every command that takes many; each leaves nothing but
lines and small results behind.
"""

import gc
import os
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

from builder.problems import Problem, Refused

Made = TypeVar("Made")

FEW = 3  # files that are done faster than workers are made
CIRCLES = 200_000  # objects that are made before those that hold each other are looked for; Python says 700
_work: Callable[[str], Any]  # of a worker: what it does to each file


def collect_seldom() -> None:
    """Of a process that works on books: its cells live until a book is done, and looking through them again and again
    for what is no longer held took a quarter of its time.
    """
    gc.set_threshold(CIRCLES, 1, 0)  # and then among all, so that many books take no more memory than few


def each(work: Callable[[str], Made], paths: Sequence[str], processes: int | None = None) -> Iterator[Made]:
    """What `work` makes of each path, in their order, as it comes. work: a function of a module, or a partial of one;
    what it was given is each worker's own, and stays with it: catalogs are read once a worker. processes: how many at a
    time; None: as many as there are cores.

    What `work` raises is raised here; Refused where a worker was stopped from outside.
    """
    many = min(processes or os.cpu_count() or 1, len(paths))
    if many < 2 or len(paths) <= FEW:
        yield from map(work, paths)
        return
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    # made anew, not copied: a copy of a process with threads may hang; the command that is stopped stops them; never
    # replaced while they work: with max_tasks_per_child the library was seen to wait for ever
    try:
        with ProcessPoolExecutor(many, get_context("spawn"), _begin, (work,)) as workers:
            yield from workers.map(_do, paths)
    except BrokenProcessPool:
        hint = "name fewer files, or close other programs"
        raise Refused([Problem(paths[0], 0, 0, "a program that read these files was stopped", hint)]) from None


def _begin(work: Callable[[str], Any]) -> None:
    """A worker takes up its work; it does not answer the keyboard."""
    import signal

    global _work
    _work = work
    collect_seldom()
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _do(path: str) -> Any:
    return _work(path)
