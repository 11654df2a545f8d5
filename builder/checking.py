"""All problems of catalogs and jobs at once, and the questions that the jobs leave open."""

from collections.abc import Iterable
from pathlib import Path

from builder.jobs import Opened, open_job
from builder.problems import Problem


def open_all(paths: Iterable[Path], catalogs: Iterable[str | Path]) -> dict[Path, Opened]:
    """What stands at each path. A folder is one of catalogs; a file is a job."""
    return {path: open_job(None, (path,)) if path.is_dir() else open_job(path, catalogs) for path in paths}


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
