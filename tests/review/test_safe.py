"""Files from outside: each hostile or mistaken one is answered in one plain message, and nothing of it is read."""

import io
import os
import re
import struct
import zipfile
import zlib

import pytest
from support.parcels import packed, parts, sheet_part
from support.places import GOLDEN
from support.refusals import SHEET, changed, refusal

from builder.problems import Refused
from builder.records.kinds import KINDS
from builder.records.versions import SCHEMA
from builder.returned import safe
from builder.returned.read import read, returned
from builder.returned.taken import taken

pytestmark = pytest.mark.usefixtures("small")
DECLARED = '<!DOCTYPE a [<!ENTITY b "c">]>'
LAUGHS = '<!DOCTYPE a [<!ENTITY b "ha"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>'


def test_what_is_no_workbook(tmp_path):
    foreign = "it is not an .xlsx workbook, whatever its name says (a csv file has no formulas: ask for the .xlsx that wetfilm built)"
    assert refusal(tmp_path, b"tag,length,height\nS1,62,10\n") == foreign
    assert refusal(tmp_path, os.urandom(5000).replace(b"PK", b"kp")) == foreign
    assert refusal(tmp_path, b"") == "the file is empty (download it again, or ask the sender for it again)"
    old = safe.COMPOUND + bytes(504)
    assert (
        refusal(tmp_path, old) == "it is an old .xls workbook (open it in a spreadsheet program and save it as .xlsx)"
    )
    protected = old + "EncryptedPackage".encode("utf-16-le") + bytes(480)
    assert refusal(tmp_path, protected) == "it is protected by a password (remove the password and save it again)"
    assert (
        refusal(tmp_path, packed({"holiday.jpg": b"picture", "book.xlsx": b"PK"}))
        == "it is a zip archive without a workbook in it (take the workbook out of the archive, or ask for it again)"
    )
    document = packed({"mimetype": b"application/vnd.oasis.opendocument.spreadsheet", "content.xml": b"<a/>"})
    assert (
        refusal(tmp_path, document)
        == "it is an OpenDocument file (.ods) (open it in a spreadsheet program and save it as .xlsx)"
    )
    assert (
        refusal(tmp_path, packed({"[Content_Types].xml": b"<a/>", "xl/workbook.bin": b"1"}))
        == "it is a binary workbook (.xlsb) (open it in a spreadsheet program and save it as .xlsx)"
    )


def test_what_cannot_be_read_at_all(tmp_path):
    for path, words in (
        (tmp_path / "none.xlsx", "cannot read the file: no such file or folder"),
        (tmp_path, "not a file"),
        ("a\0b.xlsx", "cannot read the file: its name holds a character that no file name can have"),
    ):
        with pytest.raises(Refused, match=words):
            safe.opened(path)


def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "book.xlsx")
    with pytest.raises(Refused, match="not a file"):
        safe.opened(tmp_path / "book.xlsx")


def test_a_large_file_is_refused_unread(tmp_path, monkeypatch):
    path = tmp_path / "book.xlsx"
    with path.open("wb") as stream:
        stream.truncate(200_000_000)
    monkeypatch.setattr(type(path), "open", None)
    with pytest.raises(
        Refused, match=r"it is too large for a workbook of wetfilm: 200 MB \(the largest has 100 MB: use the workbook"
    ):
        safe.opened(path)


def test_a_file_cut_off_or_with_a_changed_byte(tmp_path, books):
    data = books["small shed"].data
    damaged = "it is incomplete or damaged (download it again, or ask the sender for it again)"
    for length in (30, len(data) // 2, len(data) - 1):
        assert refusal(tmp_path, data[:length]) == damaged
    middle = len(data) // 2
    assert refusal(tmp_path, data[:middle] + bytes([data[middle] ^ 255]) + data[middle + 1 :]) == damaged


@pytest.mark.slow
def test_a_bomb_is_refused_by_its_directory(tmp_path, books):
    bomb = changed(books["small shed"], extra=bytes(29_000_000))
    assert 40 * len(bomb) < 29_000_000  # so that its size says nothing
    assert re.match(r"it unpacks to \d\d MB, more than an estimate has \(use the workbook", refusal(tmp_path, bomb))
    contents = parts(books["small shed"].data) | {f"xl/{number}.bin": bytes(16_000_000) for number in range(16)}
    whole = sum(map(len, contents.values())) / 1e6
    assert f"it unpacks to {whole:.0f} MB" in refusal(tmp_path, packed(contents))


def test_a_bomb_whose_directory_lies_is_never_unpacked(tmp_path, books):
    """The directory says 1 kB, the part holds 29 MB: no more than 1 kB is unpacked, be the checksum that of 29 MB or of
    1 kB.
    """
    size, said = 29_000_000, 1000
    bomb = packed(parts(books["small shed"].data) | {"xl/extra.bin": bytes(size)})
    old, new = (struct.pack("<I", number) for number in (size, said))
    assert bomb.count(old) == 2
    assert "damaged" in refusal(tmp_path, bomb.replace(old, new))
    honest, lying = (struct.pack("<I", zlib.crc32(bytes(number))) for number in (size, said))
    assert bomb.count(honest) == 2
    with zipfile.ZipFile(safe.opened(io.BytesIO(bomb.replace(old, new).replace(honest, lying)))) as archive:
        assert len(archive.read("xl/extra.bin")) == said


def test_too_many_parts_and_parts_of_one_name(tmp_path, books):
    contents = parts(books["small shed"].data)
    assert (
        refusal(tmp_path, packed(contents | {f"xl/{number}.bin": b"" for number in range(2000)}))
        == "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"
    )
    twice = "two of its parts have the same name, which no spreadsheet program writes (download it again, or ask the sender for it again)"
    assert refusal(tmp_path, packed(contents | {SHEET.upper(): b"<a/>"})) == twice
    assert refusal(tmp_path, packed(contents, zipfile.ZIP_LZMA)).startswith(
        "it is packed in a way no spreadsheet program uses"
    )


def test_an_encrypted_part(tmp_path, books):
    data = books["small shed"].data
    flags = data.index(safe.ENTRY) + 8
    assert (
        refusal(tmp_path, data[:flags] + b"\1" + data[flags + 1 :])
        == "it is protected by a password (remove the password and save it again)"
    )


@pytest.mark.parametrize(
    "text, encoding",
    [
        (DECLARED, "utf-8"),
        (LAUGHS, "utf-8"),
        ("<!DOCTYPE a SYSTEM 'file:///etc/hostname'>", "utf-8"),
        (DECLARED, "utf-16"),
        (DECLARED, "utf-16-be"),
        (DECLARED, "utf-8-sig"),
    ],
)
@pytest.mark.parametrize("name", [SHEET, "xl/media/image1.png"])
def test_declarations_in_any_part_and_encoding(tmp_path, books, text, encoding, name):
    """A part is XML when it reads as XML, whatever its name says: a worksheet may be called image1.png."""
    head = '<?xml version="1.0" encoding="UTF-16"?>' if "16" in encoding else '<?xml version="1.0"?>'
    data = packed(parts(books["small shed"].data) | {name: f"{head}{text}<a/>".encode(encoding)})
    assert (
        refusal(tmp_path, data)
        == f"its part {name} declares a document type, which no spreadsheet program writes (download it again, or ask the sender for it again)"
    )


def test_a_part_that_is_no_xml(tmp_path, books):
    assert (
        refusal(tmp_path, changed(books["small shed"], sheet=lambda old: old[:-30]))
        == f"its part {SHEET} is damaged (download it again, or ask the sender for it again)"
    )


@pytest.mark.slow
def test_a_picture_added_by_hand_is_no_reason(tmp_path, books):
    path = tmp_path / "book.xlsx"
    path.write_bytes(packed(parts(books["small shed"].data) | {"xl/media/image1.png": os.urandom(3000)}))
    assert read(path) == read(books["small shed"].path)


def test_workbooks_of_others_and_of_newer_programs(tmp_path, books):
    book = books["small shed"]
    assert (
        refusal(tmp_path, changed(book, workbook=lambda old: old.replace(b'"book_schema"', b'"schema"')))
        == "wetfilm did not write this workbook (only a workbook that 'wetfilm build' wrote can be read)"
    )
    strict = changed(
        book,
        workbook=lambda old: old.replace(b"http://schemas.openxmlformats.org/spreadsheetml/2006/main", safe.STRICT),
    )
    assert refusal(tmp_path, strict) == "it was saved as strict Open XML (save it as an ordinary .xlsx workbook)"
    schema = book.layout.places["book", "schema"]
    part = sheet_part(book.data, schema.sheet)
    cell = rf'(<c r="B{schema.row}"[^>]*><v>){SCHEMA}<'.encode()
    newer = packed(parts(book.data) | {part: re.sub(cell, rb"\g<1>99<", parts(book.data)[part])})
    assert (
        refusal(tmp_path, newer)
        == f"a newer wetfilm made it (install the newer one: this one reads up to schema {SCHEMA}, the workbook has 99)"
    )


@pytest.fixture(scope="module")
def golden():
    """A book that does not say elsewhere what it was made with: its parts, and where its facts stand."""
    path = GOLDEN / "schema_2.xlsx"
    areas = returned(path).areas
    return parts(path.read_bytes()), {key: areas[f"book_{key}"].cell() for key in ("lines", "exchange", "schema")}


@pytest.mark.slow
@pytest.mark.parametrize(
    "key, value", [("lines", "1e9"), ("lines", "2.5"), ("exchange", "0"), ("exchange", "1e999"), ("schema", "0")]
)
def test_facts_that_were_changed(tmp_path, golden, key, value):
    """In a book that does say it elsewhere, a changed fact is told and not believed."""
    data, cells = golden
    sheet = re.sub(
        rf'(<c r="{cells[key]}"[^>]*><v>)[^<]*<'.encode(), rf"\g<1>{value}<".encode(), data["xl/worksheets/sheet1.xml"]
    )
    said = refusal(tmp_path, packed(data | {"xl/worksheets/sheet1.xml": sheet}))
    assert said.startswith(f"what the workbook was built of was changed: its {key} cannot be '") and said.endswith(
        "(undo that change, or build the workbook again)"
    )


BENT = {  # input of Takeoff -> what its name is bent to
    "tag": b"'Takeoff'!$G$1:$XFD$1048576",
    "place": b"'Takeoff'!$G:$G",
    "item": b"#REF!",
    "length": b"'Gone'!$G$5:$G$9",
    "height": b"'Takeoff'!$G$9:$G$5",
    "shape": b"'Takeoff'!$G$99999999999",
    "access": b"'Takeoff'!$G$0",
    "count": b"'Takeoff'!$G$5:$G$6,'Takeoff'!$G$8",
    "profile": b"&quot;(((",
    "windows": b"$G$5:$G$9",
}


def test_names_that_were_bent(tmp_path, books):
    def bend(old):
        for key, area in BENT.items():
            old = re.sub(rb'(<definedName name="takeoff_%s">)[^<]*' % key.encode(), rb"\g<1>" + area, old)
        return old

    path = tmp_path / "bent.xlsx"
    path.write_bytes(changed(books["small shed"], workbook=bend))
    one = taken(returned(path))
    titles = {key: KINDS["takeoff"].field_of[key].title for key in BENT}
    told = {found.message for found in one.findings if (found.kind, found.sheet) == ("name", "Takeoff")}
    assert told == {f"{title} was deleted; it is read as blank" for title in titles.values()}
    assert one.opened.price() is None


@pytest.mark.slow
def test_a_paper_that_there_is_not(tmp_path, golden):
    """Two names that were swapped: the book says elsewhere neither of its facts."""
    data, cells = golden
    swapped = re.sub(
        rb'(<definedName name="book_paper">[^<]*!)[^<]*',
        rb"\g<1>" + re.sub(r"([A-Z]+)(\d+)", r"$\1$\2", cells["schema"]).encode(),
        data["xl/workbook.xml"],
    )
    said = refusal(tmp_path, packed(data | {"xl/workbook.xml": swapped}))
    assert said.startswith("what the workbook was built of was changed: its paper cannot be '2")


@pytest.mark.slow
def test_a_book_of_which_no_input_is_left(tmp_path, books):
    bent = changed(
        books["small shed"],
        workbook=lambda old: re.sub(rb'(<definedName name="(?!book_|least_|most_)[a-z]+_\w+">)[^<]*', rb"\1#REF!", old),
    )
    assert refusal(tmp_path, bent) == (
        "the defined names of its input cells were deleted or point nowhere "
        "(undo that change, or build the workbook again)"
    )
