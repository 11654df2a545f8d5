"""The four prices of a job: the base, and the base with alternate A, B or C."""
from builder.rules import same

SCENARIOS = (1, 2, 3, 4)
NAMES = ("Base", "Base + A", "Base + B", "Base + C")


def included(alternate, scenario):
    """1 where a system belongs to a scenario: without an alternate to all, else to its own."""
    if alternate is None:
        return 1.0
    return float("abc".index(same(alternate)) + 2 == scenario)
