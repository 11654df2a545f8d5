"""Single values of a YAML file changed in place: layout, comments and all other values stay as they are.

Beside each changed value stands a dated note, at the end of its line where the value is alone there, else on a line of
its own above. It says what the value was before anything was learned, and a later note takes its place.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from operator import attrgetter

from builder.documents import Mark
from builder.problems import BadValue
from builder.quantities import Units, units_of

DIGITS = 3  # significant, of what is written
_AS_WRITTEN = re.compile(r""""[^"]*"|'[^']*'|[^\s,{}\[\]#"'](?:[^,{}\[\]#\n\r]*[^\s,{}\[\]#])?""")
_ALONE = re.compile(r"\s*(?:- )?[\w.]+:\s+")
_NOTE = re.compile(r"\s*# learned \d{4}-\d\d-\d\d, (?P<key>[\w.]+): .*; was (?P<was>.+?)\s*")
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)")


@dataclass(frozen=True)
class Rewritten:
    """A value that takes the place of the one at `mark`. key: as the file calls it; note: what it rests on, in words;
    was: the text before anything was learned.
    """

    mark: Mark
    key: str
    text: str
    note: str
    was: str

    def comment(self, today: str) -> str:
        return f"# learned {today}, {self.key}: {self.note}; was {self.was}"


def lines_of(data: bytes) -> list[str]:
    """The lines of a file with their ends, as its marks count them."""
    return data.decode("utf-8-sig").splitlines(keepends=True)


def as_written(lines: Sequence[str], mark: Mark) -> str:
    """The text of the value at a mark. BadValue where it does not stand on one line."""
    found = _AS_WRITTEN.match(lines[mark.line - 1], mark.column - 1)
    if not found:
        raise BadValue("the value does not stand on one line", "write it behind its key")
    return found[0]


def before(lines: Sequence[str], mark: Mark, key: str) -> str:
    """The text of a value before anything was learned: that of its note, else the value itself."""
    text = as_written(lines, mark)
    behind = lines[mark.line - 1][mark.column - 1 + len(text) :]
    notes = [found for note in (behind, *_above(lines, mark.line - 1)) if (found := _NOTE.fullmatch(note))]
    return next((note["was"] for note in notes if note["key"] == key), text)


def _above(lines: Sequence[str], at: int) -> list[str]:
    """The lines of notes directly above a line, from the nearest on."""
    first = at
    while first and _NOTE.fullmatch(lines[first - 1]):
        first -= 1
    return list(reversed(lines[first:at]))


def like(text: str, value: float, quantity: str) -> str:
    """A value as text in the unit that a text has, with three digits; in that of US books where it is no number with a
    unit, as 17/15 or 12 h 30 min.
    """
    found = _NUMBER.match(text)
    if not found or text[found.end() :].strip() not in ("", *units_of(quantity)):
        text = Units().to_text(value, quantity)
        found = _NUMBER.match(text)
    unit = text[found.end() :] if found else ""
    return _digits(value / Units().parse(f"1{unit}", quantity)) + unit


def _digits(number: float) -> str:
    """A number with three digits, without an exponent: 0.0123, 4.57, 1230."""
    exact = Decimal(f"{number:.{DIGITS - 1}e}")
    digits = f"{exact:f}"
    return digits.rstrip("0").rstrip(".") if "." in digits else digits


def rewritten(data: bytes, changes: Iterable[Rewritten], today: str) -> bytes:
    """The bytes of a file with some of its values changed and their notes. today: the date of the notes."""
    start = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    lines = lines_of(data)
    by_line = attrgetter("mark.line")
    # from below, and from the right, so that the marks of the others hold
    for number, group in groupby(sorted(changes, key=by_line, reverse=True), key=by_line):
        those = sorted(group, key=attrgetter("mark.column"))
        lines[number - 1 - len(_above(lines, number - 1)) : number] = _anew(lines, number - 1, those, today)
    return start + "".join(lines).encode()


def _anew(lines: Sequence[str], at: int, changes: Sequence[Rewritten], today: str) -> list[str]:
    """A line and the notes above it, with changes of its values."""
    line, keys = lines[at], {change.key for change in changes}
    above = [old for old in reversed(_above(lines, at)) if (note := _NOTE.fullmatch(old)) and note["key"] not in keys]
    end = line[len(line.rstrip("\r\n")) :] or "\n"
    indent = line[: len(line) - len(line.lstrip())]
    for change in reversed(changes):
        column = change.mark.column - 1
        head, behind = line[:column], line[column + len(as_written(lines, change.mark)) :]
        noted = _NOTE.fullmatch(behind)
        alone = _ALONE.fullmatch(head) and (not behind.strip() or noted and noted["key"] == change.key)
        line = f"{head}{change.text}  {change.comment(today)}{end}" if alone else head + change.text + behind
        above += [] if alone else [f"{indent}{change.comment(today)}{end}"]
    return [*above, line]
