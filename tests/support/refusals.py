"""Workbooks bent by hand, and what the reader says of them."""

import pytest

from builder.problems import Refused
from builder.returned.read import read
from support.parcels import packed, parts

SHEET = "xl/worksheets/sheet3.xml"  # Takeoff
CROWDED = "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"
DAMAGED = "it is cut off or damaged (download it again, or ask the sender for it again)"


def changed(book, **replaced):
    """A book with other content in some parts: workbook, sheet and extra, each a function of what stands there, or
    bytes.
    """
    contents = parts(book.data)
    names = {"workbook": "xl/workbook.xml", "sheet": SHEET, "extra": "xl/extra.xml"}
    for key, new in replaced.items():
        old = contents.get(names[key], b"")
        contents[names[key]] = new(old) if callable(new) else new
    assert contents != parts(book.data)
    return packed(contents)


def refusal(tmp_path, data):
    """What the reader says of a file with these bytes: one message, without the file's name."""
    path = tmp_path / "book.xlsx"
    path.write_bytes(data)
    with pytest.raises(Refused) as caught:
        read(path)
    (problem,) = caught.value.problems
    assert problem.file == str(path)
    return str(problem).removeprefix(f"{path}: ")


# More names than an estimate has; %b is the gap behind the tag.
NAMED = b"".join(b'<definedName%%bname="mine%d">Start!$A$1</definedName>' % number for number in range(13_000))
