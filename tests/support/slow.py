"""What every day has a little of, and `-m slow` all."""

import pytest


def slow(*values):
    """Parameters of a case that runs with `-m slow` alone."""
    return pytest.param(*values, marks=pytest.mark.slow)


def examples(few, many):
    """A test's number of random examples: few every day, many where there are minutes."""
    return pytest.mark.parametrize("count", [few, slow(many)])


def some(cases, each):
    """Of many cases alike, every so many-th on every day, the others where there are minutes."""
    cases = [case if isinstance(case, tuple) else (case,) for case in cases]
    return [pytest.param(*case) if at % each == 0 else slow(*case) for at, case in enumerate(cases)]
