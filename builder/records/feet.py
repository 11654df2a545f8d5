"""A length as a person types it into a cell: a number in the book's unit, or text such as 14'6", 14' 6 1/2" or 14 ft.

What may be read in two ways, or has letters that are no unit, is not understood: `read` gives None and never a guess.
`stages/lengths.py` states the same as formulas; `returned/typed.py` understands all that is understood here, and more.
"""

import re

from builder.quantities import Units, Value, scale
from builder.values import is_number

BLANK = "\u00a0"  # a space that no line breaks at, as some keyboards type it
# What people and their programs write -> a sign; the longer first. Quotes that the first step has taken out stand for
# centimeters and millimeters: no one can have typed them.
QUOTES = (("\u2032", "'"), ("\u2019", "'"), ("\u2018", "'"), ("\u2033", '"'), ("\u201d", '"'), ("\u201c", '"'),
          ("''", '"'), ("' -", "'"), ("'-", "'"))  # fmt: skip
WORDS = (("feet", "'"), ("foot", "'"), ("ft", "'"), ("inches", '"'), ("inch", '"'), ("in", '"'),
         ("mm", "\u201c"), ("cm", "\u2018"))  # fmt: skip
SIGNS = {"'": "ft", '"': "in", "m": "m", "\u2018": "cm", "\u201c": "mm"}  # sign -> the unit it stands for

# As on a tape, and thirds: any other fraction is not understood in a cell.
FRACTIONS = ("0/1", "1/3", "2/3", *(f"{above}/{below}" for below in (2, 4, 8, 16) for above in range(1, below, 2)))

_WHOLE = r"(?:0|[1-9]\d{0,3})"  # begins with no 0: programs read 010 as another number


def _part(whole: str) -> str:
    """The last number of a length: 6 1/2, 1/2, 6.5, .5, or 4,25: three digits after a comma may be thousands."""
    fraction = "|".join(FRACTIONS)
    return rf"(?:{whole} )?(?:{fraction})|{whole},(?:\d\d?|\d{{4}})|{whole}(?:\.\d{{0,4}})?|\.\d{{1,4}}"


_ALONE = re.compile(rf"({_part(_WHOLE)}) ?(['\"m\u2018\u201c]?)", re.ASCII)
_INCHES = _part(r"(?:0|[1-9]\d?)")  # 14'600 may be fourteen thousand six hundred
_BOTH = re.compile(rf"({_WHOLE}) ?' ?({_INCHES}) ?\"", re.ASCII)


def said(value: Value) -> str:
    """What a cell says in small letters, with single spaces; '' for a number or a blank."""
    if not isinstance(value, str):
        return ""
    return re.sub(" +", " ", value.replace(BLANK, " ")).strip(" ").lower()


def signs(text: str) -> str:
    """The same with one sign for each unit: '14 ft 6 in' -> '14 ' 6 "'."""
    for words in (QUOTES, WORDS):
        for word, sign in words:
            text = text.replace(word, sign)
    return text


def _worth(number: str) -> float:
    """'6 1/2' -> 6.5, '4,25' -> 4.25"""
    *whole, last = number.replace(",", ".").split(" ")
    above, _, below = last.partition("/")
    return float(whole[0] if whole else 0) + float(above) / float(below or 1)


def read(value: Value, units: Units) -> float | None:
    """The length [m] that a cell says; None where it says none. A number without a unit is in that of the book."""
    if is_number(value):
        return value
    text = signs(said(value))
    if found := _BOTH.fullmatch(text):
        return float(found[1]) * scale("ft") + _worth(found[2]) * scale("in")
    if found := _ALONE.fullmatch(text):
        size = scale(SIGNS[found[2]]) if found[2] else units.scale("length")
        return _worth(found[1]) * size
    return None
