"""The same workbook, its formulas naming cells by address: for an engine to which names come dear.

IronCalc takes a dozen times as long over a book whose formulas hold two thousand names. That it understands them is
held by whole books as they are written (tests/engines/test_engines.py); all else is asked of the book so rewritten.
"""

import re
import tempfile
import zipfile
from pathlib import Path

from support.engines import IronCalc

KEPT = (
    b"holidays_day",
)  # WORKDAY does not wait for the cells of an area to be worked out; for those of a name it does
NAME = re.compile(rb'<definedName name="([^"]+)"([^>]*)>([^<]*)</definedName>')
FORMULA = re.compile(rb"(<f[^>/]*>)([^<]+)(?=</f>)")
# texts, sheets in quotes, what XML spells out; words that are no sheet and no function
WORD = re.compile(rb""""[^"]*"|&quot;.*?&quot;|'[^']*'|&\w+;|[A-Za-z_][\w.]*(?![\w.]*[!(])""")


def by_address(source, target):
    """Write `source`, a workbook, to `target`, with the cells that its names stand for in their place in formulas."""
    with zipfile.ZipFile(source) as given, zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as made:
        names = NAME.findall(given.read("xl/workbook.xml"))
        cells = {name: place for name, of_sheet, place in names if not of_sheet and name not in KEPT}
        for part in given.namelist():
            held = given.read(part)
            if part == "xl/workbook.xml":
                held = NAME.sub(lambda name: b"" if name[1] in cells else name[0], held)
            elif part.startswith("xl/worksheets/sheet"):
                held = FORMULA.sub(
                    lambda one: one[1] + WORD.sub(lambda word: cells.get(word[0], word[0]), one[2]), held
                )
            made.writestr(part, held)


class Addressed(IronCalc):
    """A workbook in IronCalc, its names written out."""

    def __init__(self, path):
        with tempfile.TemporaryDirectory() as folder:
            spelled = Path(folder, "by address.xlsx")
            by_address(path, spelled)
            super().__init__(spelled)
