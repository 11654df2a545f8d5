"""What every day has a little of, and `-m slow` all."""

import pytest


def slow(*values):
    """Parameters of a case that runs with `-m slow` alone."""
    return pytest.param(*values, marks=pytest.mark.slow)


def examples(few, many):
    """A test's number of random examples: few every day, many where there are minutes."""
    return pytest.mark.parametrize("count", [few, slow(many)])
