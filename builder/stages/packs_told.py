"""Packs in words, '3 x 5 gal + 3 x 1 gal': a column a size, and what they say together."""

from builder.sheets.grammar import Column as C
from builder.stages.brief import hundredths, plain, said_hundredths

# fmt: off
PACKS = (("large", 3), ("middle", 2), ("small", 1))     # as Purchases calls them; their number on Coatings
# Gaps inside a size are kept as low lines until the sizes stand together.
TOGETHER = 'SUBSTITUTE(SUBSTITUTE(TRIM({large_told}&{middle_told}&{small_told})," "," + "),"_"," ")'
UNIT = "{constants.volume_unit}"


def columns():
    """'3_x_5_gal ' or nothing, of each size, in a block that links to the purchase as `buy` and to its coating as
    `paint`.
    """
    for key, place in PACKS:
        number, pack = f"N({{buy.{key}}})", f"{{paint.pack{place}_volume}}"
        yield C(f"{key}_told", f"Packs, {key}", "text",
                f'REPT({number}&"_x_"&{said_hundredths(pack)}&"_"&{UNIT}&" ",--({number}>0))')
# fmt: on


def parts(est, bought, paint):
    """The same in the model, by key."""
    found = {}
    for key, place in PACKS:
        if number := getattr(bought, key):
            size = plain(hundredths(est, getattr(paint, f"pack{place}_volume"), "volume"))
            found[f"{key}_told"] = f"{number:g}_x_{size}_{est.units.shown('volume')} "
    return found


def together(row):
    """What the columns of a row say together."""
    return "".join(getattr(row, f"{key}_told") or "" for key, _ in PACKS).strip().replace(" ", " + ").replace("_", " ")
