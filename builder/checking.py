"""All problems of catalogs and jobs at once."""

from collections.abc import Iterable
from pathlib import Path

from builder.jobs import open_job
from builder.problems import Problem


def check(paths: Iterable[Path], catalogs: Iterable[str | Path]) -> list[Problem]:
    """The problems of each path, sorted, each once. A folder is one of catalogs; a file is a job."""
    found: set[Problem] = set()
    for path in paths:
        opened = open_job(None, (path,)) if path.is_dir() else open_job(path, catalogs)
        found.update(opened.problems)
    return sorted(found)
