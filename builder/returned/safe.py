"""A workbook from outside, verified before anything reads it. Every refusal is one plain message: the file, what it is,
what to do.
"""

import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, BinaryIO, NoReturn
from xml.parsers import expat

from builder.files import NO_FILE, words
from builder.problems import Problem, Refused
from builder.quantities import SYSTEMS
from builder.records.kinds import TABLES
from builder.records.versions import SCHEMA
from builder.stages.book import PAPERS, ROOM

# The largest book of ours, of 2,000 lines, is 1.5 MB, 20 MB unpacked, in 79 parts, with 1.6 million tags and 0.34
# million cells. A library that packs nothing and writes each column of each sheet by itself (SheetJS) makes of it
# 74 MB with 2.0 million tags, 2.2 million attributes and 0.54 million of what is counted as a cell.
UNPACKED = 100_000_000  # bytes, all parts together
FILE = UNPACKED  # bytes, as it comes: it may not be packed at all
PART = 32_000_000  # bytes, one part unpacked
RATIO, FREE = 40, 10_000_000  # times larger than packed (ours: 13); below FREE any ratio is harmless
PARTS = 2000
TAGS = 3_000_000  # opening and closing, all parts together
ATTRIBUTES = 3_000_000
CELLS = 800_000  # tags whose name begins as that of a cell does; each is kept, and takes 700 bytes
HEAD_TAGS = 25_000  # of each part that tells of the book as a whole: names, styles, properties; ours: 2,700

COMPOUND = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"  # [MS-CFB] 2.2: old workbooks, and new ones under a password
ZIP, ENTRY = b"PK\x03\x04", b"PK\x01\x02"  # APPNOTE.TXT 4.3.7, 4.3.12
ENCRYPTED = 1  # APPNOTE.TXT 4.4.4, bit 0
STRICT = b"http://purl.oclc.org/ooxml/spreadsheetml/main"  # ISO/IEC 29500-1, which the reading library does not know

AGAIN = "download it again, or ask the sender for it again"
AS_XLSX = "open it in a spreadsheet program and save it as .xlsx"
PASSWORD = "it is protected by a password", "remove the password and save it again"
CROWDED = "it holds far more than an estimate", "use the workbook that wetfilm built, with nothing added to it"
PUT_BACK = "undo that change, or build the workbook again"
FOREIGN = "wetfilm did not write this workbook", "only a workbook that 'wetfilm build' wrote can be read"


def refused(name: str | Path, message: str, hint: str = "") -> Refused:
    """The refusal of a workbook, to be raised."""
    return Refused([Problem(str(name), 0, 0, message, hint)])


class Verified(io.BytesIO):
    """The bytes of a verified workbook. name: what a refusal calls it."""

    def __init__(self, data: bytes, name: str) -> None:
        super().__init__(data)
        self.name = name


def opened(source: "str | Path | BinaryIO | Verified") -> Verified:
    """A workbook of ours, Verified, even where the file changes meanwhile. source: a path, or a binary stream, which
    may be Verified already.
    """
    if isinstance(source, Verified):
        return source
    data = source.read(FILE + 1) if hasattr(source, "read") else _bytes(Path(source))
    name = "the workbook" if hasattr(source, "read") else str(source)
    _shape(name, data)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _directory(name, archive.infolist(), len(data))
            _parts(name, archive)
            _ours(name, archive.read("xl/workbook.xml"))
    except Refused:
        raise
    except Exception:  # what the library stumbles over in a file is a fault of the file
        raise refused(name, "it is incomplete or damaged", AGAIN) from None
    return Verified(data, name)


def sound(name: str, settings: Mapping[str, Any]) -> None:
    """Refuses a book whose facts are not what this program writes there."""
    schema = settings["schema"]
    if isinstance(schema, float) and schema > SCHEMA:
        raise refused(
            name,
            "a newer wetfilm made it",
            f"install the newer one: this one reads up to schema {SCHEMA}, the workbook has {schema:g}",
        )
    right = {
        "schema": isinstance(schema, float) and schema >= 1,
        "units": settings["units"] in SYSTEMS,
        "paper": settings["paper"] in PAPERS,
        "currency": isinstance(settings["currency"], str),
        "exchange": isinstance(settings["exchange"], float) and 0 < settings["exchange"] < float("inf"),
        **{
            fact: isinstance(settings[fact], float) and settings[fact] in range(1, TABLES[table].most + 1)
            for fact, table in ROOM.items()
        },
    }
    for key in right:
        if not right[key]:
            raise impossible(name, key, settings[key])


def impossible(name: str, key: str, value: object) -> Refused:
    """The refusal of a fact that cannot be."""
    return refused(name, f"what the workbook was built of was changed: its {key} cannot be '{value}'", PUT_BACK)


def _bytes(path: Path) -> bytes:
    try:
        size = path.stat().st_size
        if not path.is_file():
            raise refused(path, NO_FILE, "name a workbook, as in out/boathouse.xlsx")
        if size > FILE:
            raise _large(path, size)
        with path.open("rb") as stream:
            return stream.read(FILE + 1)  # it may have grown since
    except (OSError, ValueError) as error:  # ValueError: a path with a zero byte
        raise refused(path, f"cannot read the file: {words(error)}") from None


def _large(name: str | Path, size: int) -> Refused:
    hint = f"the largest has {FILE / 1e6:.0f} MB: use the workbook that wetfilm built, with nothing added to it"
    return refused(name, f"it is too large for a workbook of wetfilm: {size / 1e6:,.0f} MB", hint)


def _shape(name: str, data: bytes) -> None:
    """Refuses what is no zip archive, by its first bytes."""
    if len(data) > FILE:
        raise _large(name, len(data))
    if not data:
        raise refused(name, "the file is empty", AGAIN)
    if data.startswith(COMPOUND):
        if "EncryptedPackage".encode("utf-16-le") in data:
            raise refused(name, *PASSWORD)
        raise refused(name, "it is an old .xls workbook", AS_XLSX)
    if not data.startswith(ZIP):
        raise refused(
            name,
            "it is not an .xlsx workbook, whatever its name says",
            "a csv file has no formulas: ask for the .xlsx that wetfilm built",
        )
    if data.count(ENTRY) > PARTS:  # before the directory is loaded
        raise refused(name, *CROWDED)


def _directory(name: str, entries: Sequence[zipfile.ZipInfo], size: int) -> None:
    """Refuses by what the archive's directory says of its parts."""
    # part names are equal without regard to case: ECMA-376-2, 6.2.2.3
    names = [entry.filename.lower() for entry in entries]
    if any(entry.flag_bits & ENCRYPTED for entry in entries):
        raise refused(name, *PASSWORD)
    if "mimetype" in names and "content.xml" in names:
        raise refused(name, "it is an OpenDocument file (.ods)", AS_XLSX)
    if "xl/workbook.bin" in names:
        raise refused(name, "it is a binary workbook (.xlsb)", AS_XLSX)
    if not {"[content_types].xml", "xl/workbook.xml"} <= set(names):
        raise refused(
            name,
            "it is a zip archive without a workbook in it",
            "take the workbook out of the archive, or ask for it again",
        )
    if len(set(names)) < len(names):
        raise refused(name, "two of its parts have the same name, which no spreadsheet program writes", AGAIN)
    if any(entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED) for entry in entries):
        raise refused(name, "it is packed in a way no spreadsheet program uses", AS_XLSX)
    whole = sum(entry.file_size for entry in entries)
    if whole > max(FREE, size * RATIO) or whole > UNPACKED or any(entry.file_size > PART for entry in entries):
        raise refused(name, f"it unpacks to {whole / 1e6:,.0f} MB, more than an estimate has", CROWDED[1])


def _parts(name: str, archive: zipfile.ZipFile) -> None:
    """Unpacks every part, which proves lengths and checksums (the library stops at the length in the directory), and
    looks at its XML.
    """
    tags = attributes = cells = 0
    for entry in archive.infolist():
        data = archive.read(entry)
        tags, attributes = tags + data.count(b"<"), attributes + data.count(b"=")
        letters = data.replace(b"\0", b"")  # of two bytes each, perhaps
        cells += letters.count(b"<c") + letters.count(b":c")  # the latter behind a prefix
        if tags > TAGS or attributes > ATTRIBUTES or cells > CELLS:
            raise refused(name, *CROWDED)
        _xml(name, entry.filename, data)


def _xml(name: str, part: str, data: bytes) -> None:
    """Refuses declarations of types and entities, in any encoding. A part that is no XML, whatever its name, cannot
    declare any.
    """

    def declared(*_: object) -> NoReturn:
        raise refused(name, f"its part {part} declares a document type, which no spreadsheet program writes", AGAIN)

    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = declared
    try:
        parser.Parse(data, True)
    except (expat.ExpatError, LookupError, ValueError):  # the last two: encodings it does not know
        if part.lower().endswith((".xml", ".rels")):
            raise refused(name, f"its part {part} is damaged", AGAIN) from None


def _ours(name: str, workbook: bytes) -> None:
    if STRICT in workbook:
        raise refused(name, "it was saved as strict Open XML", "save it as an ordinary .xlsx workbook")
    if not re.search(rb"""name=["']book_schema["']""", workbook):
        raise refused(name, *FOREIGN)
