"""Tables of figures from outside the project, at their printed precision.

Each table is rows of (what goes in, the figure printed, half a unit of its last digit or what the source itself allows,
source). A source begins with a letter. P: its own text was read; S: a secondary page restates it; M: from memory, not
read; D: derived from exact definitions; C: common practice, no source. No figure here ever came from this project's own
output, and units are converted by literals, not by its own table.
"""

import copy

import pytest

from builder.stages.estimate import Estimate

INCH, FOOT, PSI, POUND = 0.0254, 0.3048, 6894.757293168361, 0.45359237
GALLON = 231 * INCH**3  # NIST Handbook 44 appendix C (P)
MIL, GPM, FT2, HOUR = INCH / 1000, GALLON / 60, FOOT**2, 3600
WATER = 998.2067  # kg/m3 at 20 C (M)
FIRE_WATER = 62.4 * POUND / FOOT**3  # water as handbooks of fire protection take it (S)
KINDS_OF_SOURCE = {"P": "published", "S": "restated", "M": "from memory", "D": "derived", "C": "common practice"}


def figures(names, *rows):
    """Parametrize a test by rows of arguments, `printed` and `within`; the last item, the source, names the case."""
    for row in rows:
        assert row[-1].split()[0] in KINDS_OF_SOURCE, row
    named = [f"{row[-1]}: {', '.join(getattr(one, '__name__', str(one)) for one in row[:-2])}" for row in rows]
    return pytest.mark.parametrize(f"{names}, printed, within", [row[:-1] for row in rows], ids=named)


def close(found, printed, within):
    """The comparison of every table; a figure on the very edge of rounding is let through."""
    assert found == pytest.approx(printed, abs=within * (1 + 1e-9) + abs(printed) * 1e-12, rel=0)


def estimate(opened, job=(), **blocks):
    """The estimate of the blank book's job with facts and blocks replaced."""
    values = copy.deepcopy(opened.values)
    values["job"][0].update(job)
    return Estimate(values | blocks, opened.units, opened.estimate.capacity)
