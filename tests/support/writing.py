"""A folder to work in, and what commands say that write files there."""

from builder.cli import main
from builder.files import put
from builder.problems import Refused
from support.small import CATALOGS

STOCK = ("--catalogs", str(CATALOGS))
CHANGED = "wetfilm did not write this file, or somebody changed it since (choose another file name with -o, or overwrite it with --force)"
SHEET = "xl/worksheets/sheet3.xml"  # Takeoff


def build(*options):
    return main(["build", "job.yaml", *map(str, options), *STOCK])


def write(path, data, force=False):
    """What `put` says to bytes at a path; '' where it writes them."""
    try:
        put(path, data, force)
    except Refused as refused:
        (problem,) = refused.problems
        return str(problem)
    return ""


def left(folder):
    return sorted(path.name for path in folder.iterdir())
