"""All problems of catalogs and jobs at once, and the questions that the jobs leave open."""

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from builder.documents import Mark
from builder.jobs import BESIDE_JOBS, Opened, open_job
from builder.problems import NOTE, Problem
from builder.quantities import Units
from builder.records.folders import Folders, yaml_files
from builder.records.overlay import NEEDED


def open_all(paths: Iterable[Path], catalogs: Iterable[str | Path]) -> dict[Path, Opened]:
    """What stands at each path. A file is a job, a folder one of catalogs, laid over those in force if it holds few."""
    catalogs = Folders(catalogs)
    return {path: _catalogs(path, catalogs) if path.is_dir() else open_job(path, catalogs) for path in paths}


def inside(path: str) -> list[str]:
    """What is checked of a path: of a folder that holds a folder of catalogs, that and the jobs beside it."""
    catalogs = Path(path, BESIDE_JOBS)
    return [str(catalogs), *map(str, yaml_files(path))] if yaml_files(catalogs) else [path]


def _catalogs(folder: Path, below: Folders) -> Opened:
    """The catalogs of a folder, with no more problems than are its own."""
    alone = Folders((folder,))
    if not _some(alone) or any(one.samefile(folder) for one in below if one.is_dir()):
        return open_job(None, alone)
    opened = open_job(None, (*below, folder))
    told = f"holds some catalogs only; checked as laid over {' and '.join(map(str, below))}"
    own = [problem for problem in opened.problems if Path(problem.file).parent == folder]
    return replace(opened, problems=[Mark(str(folder), 1, 1).problem(told, severity=NOTE), *own])


def _some(alone: Folders) -> bool:
    """Whether one folder of catalogs is meant to be laid over another: it has no whole record of most needed kinds."""
    (found,) = alone.understood(Units())
    lacking = [key for key in NEEDED if None not in found.changes[key] and key not in found.lost]
    return 2 * len(lacking) > len(NEEDED)


def problems(opened: dict[Path, Opened]) -> list[Problem]:
    """The problems of all, sorted, each once."""
    return sorted({problem for one in opened.values() for problem in one.problems})


def questions(opened: dict[Path, Opened]) -> list[str]:
    """'job.yaml: open: The client is not named (Job: Client)', of the jobs that have a price."""
    return [
        f"{path}: open: {question}"
        for path, one in opened.items()
        if path.is_file() and one.price() is not None
        for question in one.questions()
    ]


def check(paths: Iterable[Path], catalogs: Iterable[str | Path]) -> list[Problem]:
    """The problems of each path."""
    return problems(open_all(paths, catalogs))
