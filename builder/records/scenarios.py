"""The prices of a job, by number and by name: the base, and the base with alternate A, B or C."""

SCENARIOS = (1, 2, 3, 4)
NAMES = ("Base", "Base + A", "Base + B", "Base + C")
