"""What the program that saved a workbook dropped of it: all of a kind is gone from the whole book.

Looked for in the text of its parts, which costs no second reading of its cells. Every book has something of each kind
when it is made.
"""

import re
import zipfile
from collections.abc import Iterator
from typing import NamedTuple

from builder.returned.findings import Finding
from builder.returned.safe import Verified

SHEETS, STYLES, TYPES = "xl/worksheets/", "xl/styles", "[content_types]"
AGAIN = "'wetfilm reissue' builds the workbook again with them"


class Thing(NamedTuple):
    """words: what it is called; part: how the names of the parts begin that hold it; pattern: what stands there."""

    words: str
    part: str
    pattern: re.Pattern[bytes]


def _tag(name: str) -> re.Pattern[bytes]:
    return re.compile(rb"<(?:[\w.-]+:)?%b[\s/>]" % name.encode())


# What is told in one line each, and what it is made of.
# fmt: off
LINES: tuple[tuple[tuple[Thing, ...], str], ...] = (
    ((Thing("the lists and limits of input cells", SHEETS, _tag("dataValidation")),),
     "check what you type: a wrong entry is told beside its row, but no longer refused"),
    ((Thing("the protection of its sheets", SHEETS, _tag("sheetProtection")),),
     "take care not to type over formulas: nothing stops it now"),
    ((Thing("the charts", TYPES, re.compile(rb"drawingml\.chart\+xml")),), ""),
    ((Thing("the links from one sheet to another", SHEETS, _tag("hyperlink")),), ""),
    ((Thing("the looks of dates and numbers", SHEETS, re.compile(rb"""<(?:[\w.-]+:)?c\s[^>]*\bs=["'][1-9]""")),
      Thing("the colors of cells", STYLES, re.compile(rb"""patternType=["']solid""")),
      Thing("the marks of what is wrong", SHEETS, _tag("cfRule")),
      Thing("the widths of columns", SHEETS, _tag("col"))), ""),
    ((Thing("the size of the paper", SHEETS, _tag("pageSetup")),
      Thing("the foot of each page", SHEETS, _tag("oddFooter")),
      Thing("the page breaks", SHEETS, _tag("brk"))), "look at each page before it is printed"),
)
# fmt: on


def lost(source: Verified) -> Iterator[Finding]:
    """A Finding for each line of what is no longer in a workbook."""
    gone = {thing for things, _ in LINES for thing in things}
    with zipfile.ZipFile(source) as archive:
        for name in archive.namelist():
            held = [thing for thing in gone if name.lower().startswith(thing.part)]
            if held:
                data = archive.read(name)
                gone -= {thing for thing in held if thing.pattern.search(data)}
    for things, hint in LINES:
        words = [thing.words for thing in things if thing in gone]
        if words:
            message = f"the program that saved the workbook dropped {_listed(words)}"
            yield Finding("lost", "", "", message, f"{hint}; {AGAIN}" if hint else AGAIN)


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
