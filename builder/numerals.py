"""Numbers as people write them, in a file or in a cell: what is understood, and what other programs would read
otherwise.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import TypeAlias

from builder.problems import BadValue
from builder.spellings import SPELLINGS

_NUMBER = r"[+-]?(?:\d+ +\d+/\d+|\d+/\d+|\d+(?:\.\d*)?|\.\d+)"
# Listed units, the longest first: psi.min/gal before psi. Any other is what a message calls unknown.
_LISTED = "|".join(re.escape(unit) for unit in sorted(SPELLINGS, key=len, reverse=True) if unit)
_OTHER = r"[^\d\s.+-][^\d]*?(?:[23](?:/[A-Za-z]+)?)?"
_TERM = re.compile(rf"\s*({_NUMBER})\s*({_LISTED}|{_OTHER})?\s*(?=$|\d|\.\d)")
_BARE = re.compile(rf"(?![+-]?0\d){_NUMBER}")


def _worth(number: str) -> float:
    """'-9 1/2' -> -9.5"""
    worth = sum(float(Fraction(part)) for part in number.lstrip("+-").split())
    return -worth if number.startswith("-") else worth


def bare(text: str) -> float | None:
    """The worth of a number that stands alone, as in '40', '40.', '.5', '9 1/2'; None for any other text."""
    return _worth(text) if _BARE.fullmatch(text) else None


def terms_of(text: str) -> list[tuple[float, str]]:
    """'14 ft 6 in' -> [(14.0, 'ft'), (6.0, 'in')]; ValueError when the text has another shape."""
    found: list[tuple[float, str]] = []
    at = 0
    while at < len(text):
        match = _TERM.match(text, at)
        if not match or match.end() == at:
            raise ValueError(text)
        found.append((_worth(match[1]), match[2] or ""))
        at = match.end()
    if not found:
        raise ValueError(text)
    return found


def ascii_digits(text: str) -> str:
    """The digits of any script as 0 to 9."""
    return "".join(str(unicodedata.decimal(letter, letter)) for letter in text)


# What stands for the marks of feet and inches, and the spaces that no line breaks at.
_SIGNS = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "\u00a0": " ", "\u202f": " ", "\u2009": " "}
)
_FRACTION = re.compile(r"(?<=\d)(?=[¼-¾⅐-⅞])")  # 9½


def plain(text: str) -> str:
    """A quantity in plain letters: 'm²' as 'm2', '9½' as '9 1/2', 14′ as 14', digits of any script as 0 to 9."""
    letters = unicodedata.normalize("NFKC", _FRACTION.sub(" ", text.translate(_SIGNS)))
    return ascii_digits(letters.replace("\u2044", "/").replace("\u03bc", "u")).strip()


def _closed(found: re.Match[str]) -> str:
    return "write " + re.sub(r"[^\d.]", "", found[0])


# Ways of writing a number that other programs read as another number: what to look for, what is wrong, what to do.
Trap: TypeAlias = tuple[re.Pattern[str], str, str | Callable[[re.Match[str]], str]]
APOSTROPHE: Trap = (
    re.compile(r"(?<![\w.])[1-9]\d{0,2}(?:['’]\d{3})+(?:\.\d*)?(?!\d)"),
    "has an apostrophe between its digits",
    _closed,
)
GAP = "has a space between its digits"
TRAPS: tuple[Trap, ...] = (
    (re.compile(r"(?![0-9])\d"), "has digits of another script", lambda found: f"write {ascii_digits(found.string)}"),
    (re.compile(r","), "has a comma", "write 1200 for a thousand two hundred, 12.5 for twelve and a half"),
    APOSTROPHE,
    (re.compile(r"(?<![\w.])[1-9]\d{0,2}(?:\s\d{3})+(?:\.\d*)?(?![\d/])"), GAP, _closed),
    (re.compile(r"(?<![\w.])[\d.]+\s+\d+(?![\d/])"), GAP, "write one number, or a unit after each"),
    (
        re.compile(r"(?<![\d.:])[+-]?0\d"),
        "begins with a 0, which some programs read as another number",
        "leave the 0 out",
    ),
    (re.compile(r"\d_"), "has an underscore", "write 1000 for a thousand"),
    (re.compile(r"\d:"), "has a colon", "write 12.5, or '12 h 30 min' for a time"),
    (re.compile(r"\d[eE][+-]?\d"), "has an exponent", "write the number out, as in 1000"),
)


def avoid(text: str, traps: Iterable[Trap] = TRAPS) -> None:
    """BadValue where the text holds one of the traps."""
    for trap, message, hint in traps:
        if found := trap.search(text):
            raise BadValue(f"'{text}' {message}", hint if isinstance(hint, str) else hint(found))
