"""Whether a file is as this program wrote it: each workbook and draft bears a digest of itself."""

import hashlib
import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

Against: TypeAlias = tuple[str, str] | None  # (message, hint), or None where nothing speaks against it

SEAL = f"=_wetfilm_{'0' * 32}"  # in a draft, as it is composed; its zeros make way for a digest of all of it
BOOK_SEAL = f"wetfilm_{'0' * 64}"  # the same in the custom properties of a workbook
CUSTOM, CORE = "docProps/custom.xml", "docProps/core.xml"
OLD = ">2026-01-01T00:00:00Z</dcterms:modified>"  # all that marked a book before it had a seal; some programs keep it
LARGEST, UNPACKED, PARTS = 20_000_000, 100_000_000, 2000  # bytes and parts of a workbook that may be ours
CHUNK = 1_000_000

BOOK, DRAFT = "workbook", "draft"
AGAIN = "choose another file name with -o, or overwrite it with --force"
CHANGED = "wetfilm did not write this file, or somebody changed it since", AGAIN
UNSEALED = (
    "an earlier wetfilm made this workbook without a mark, so nothing tells whether somebody changed it",
    f"'wetfilm inspect' lists what was typed in it; {AGAIN}",
)
SIGNED = "Signed: "  # how the title of a workbook begins that holds a contract
CONTRACT = "this workbook is signed: the contract is in it", AGAIN
STANDING = "a file of that name exists, and nothing tells whether somebody changed it", AGAIN


def sealed(data: bytes) -> bytes:
    """The bytes of a draft with a digest of themselves in the place of SEAL."""
    return data.replace(SEAL.encode(), f"=_wetfilm_{hashlib.sha256(data).hexdigest()[:32]}".encode())


def sealed_book(parts: Mapping[str, bytes]) -> dict[str, bytes]:
    """The parts of a workbook, name -> bytes, with a digest of all of them in the place of BOOK_SEAL."""
    digest = _digest((name, iter((data,))) for name, data in parts.items())
    return {**parts, CUSTOM: parts[CUSTOM].replace(BOOK_SEAL.encode(), f"wetfilm_{digest}".encode())}


def _digest(parts: Iterable[tuple[str, Iterable[bytes]]]) -> str:
    """Of (name, its bytes in pieces) of every part, in their order."""
    whole = hashlib.sha256()
    for name, pieces in parts:
        inside = hashlib.sha256()
        for piece in pieces:
            inside.update(piece)
        whole.update(hashlib.sha256(name.encode()).digest() + inside.digest())
    return whole.hexdigest()


def _pieces(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> Iterator[bytes]:
    """The bytes of a part, its seal taken out of the custom properties."""
    if entry.filename == CUSTOM:
        yield re.sub(rb"wetfilm_[0-9a-f]{64}", BOOK_SEAL.encode(), archive.read(entry))
        return
    with archive.open(entry) as stream:
        while piece := stream.read(CHUNK):
            yield piece


def _book(data: bytes) -> Against:
    """What speaks against a workbook being as it was written: (message, hint), or None."""
    if len(data) > LARGEST or data.count(b"PK\x01\x02") > PARTS:
        return CHANGED
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            if sum(entry.file_size for entry in entries) > UNPACKED or not {CUSTOM, CORE} <= set(archive.namelist()):
                return CHANGED
            custom = archive.read(CUSTOM)
            seal = re.search(rb">wetfilm_([0-9a-f]{64})<", custom)
            if seal is None:
                return UNSEALED if b">wetfilm " in custom and OLD.encode() in archive.read(CORE) else CHANGED
            mine = _digest((entry.filename, _pieces(archive, entry)) for entry in entries)
            if mine != seal[1].decode():
                return CHANGED
            return CONTRACT if f"<dc:title>{SIGNED}".encode() in archive.read(CORE) else None
    except Exception:  # whatever a library stumbles over, we did not write
        return CHANGED


def _draft(data: bytes) -> Against:
    plain = re.sub(rb"=_wetfilm_[0-9a-f]{32}", SEAL.encode(), data)
    return None if plain != data and sealed(plain) == data else CHANGED


def _kind(data: bytes) -> str | None:
    return BOOK if data.startswith(b"PK") else DRAFT if b"=_wetfilm_" in data else None


def kept(old: bytes, new: bytes) -> Against:
    """Why a file's old bytes may not make way for new ones: (message, hint); None where nothing is lost."""
    if _kind(new) is None:
        return STANDING
    if old == new:
        return None
    found = _kind(old)
    if found is None:
        return CHANGED
    against = (_book if found == BOOK else _draft)(old)
    if against is None and found != _kind(new):
        return f"the file there is a {found}, the new one would be a {_kind(new)}", AGAIN
    return against
