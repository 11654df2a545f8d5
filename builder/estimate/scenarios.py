"""The four prices of a job: the base, and the base with alternate A, B or C."""
from builder.rules import same

SCENARIOS = (1, 2, 3, 4)
NAMES = ("Base", "Base + A", "Base + B", "Base + C")


def only(alternate):
    """The one scenario that a system of an alternate belongs to; 0 for one of the base, which belongs to all."""
    return 0.0 if alternate is None else "abc".index(same(alternate)) + 2.0


def included(row, scenario):
    """1 where a row belongs to a scenario, else 0."""
    return float(row.only in (0, scenario))


def most(figures):
    return max(figures, default=0.0)


def copies(rows, key, gather=sum):
    """Of the rows that have it, the sum of a repeated column copy by copy."""
    told = [getattr(row, key) for row in rows if getattr(row, key) is not None]
    return tuple(gather(one[at] for one in told) for at, _ in enumerate(SCENARIOS))
