"""All problems of catalogs and jobs at once."""
from builder.jobs import open_job


def check(paths, catalogs):
    """The problems of each path, sorted, each once. A folder is one of catalogs; a file is a job."""
    found = set()
    for path in paths:
        opened = open_job(None, (path,)) if path.is_dir() else open_job(path, catalogs)
        found.update(opened.problems)
    return sorted(found)
