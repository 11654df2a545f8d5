"""Files from outside: each hostile or mistaken one is answered in one plain message, and nothing of it is read."""
import io
import os
import re
import struct
import subprocess
import sys
import zipfile
import zlib

import pytest
from support.parcels import packed, parts
from support.places import ROOT

from builder.cli import main
from builder.jobs import fingerprint, from_values, open_job
from builder.problems import Refused
from builder.records.job import LINES
from builder.records.versions import SCHEMA
from builder.returned import cells, safe
from builder.returned.read import read, returned
from builder.returned.taken import taken
from builder.workbook.make import make

DECLARED = '<!DOCTYPE a [<!ENTITY b "c">]>'
LAUGHS = '<!DOCTYPE a [<!ENTITY b "ha"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>'
SHEET = "xl/worksheets/sheet3.xml"             # Takeoff
CROWDED = "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"


def changed(book, **replaced):
    """A book with other content in some parts: workbook, sheet and extra, each a function of what stands there, or bytes."""
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
    problem, = caught.value.problems
    assert problem.file == str(path)
    return str(problem).removeprefix(f"{path}: ")


def test_what_is_no_workbook(tmp_path):
    foreign = "it is not an .xlsx workbook, whatever its name says (a csv file has no formulas: ask for the .xlsx that wetfilm built)"
    assert refusal(tmp_path, b"tag,length,height\nS1,62,10\n") == foreign
    assert refusal(tmp_path, os.urandom(5000).replace(b"PK", b"kp")) == foreign
    assert refusal(tmp_path, b"") == "the file is empty (download it again, or ask the sender for it again)"
    old = safe.COMPOUND + bytes(504)
    assert refusal(tmp_path, old) == "it is an old .xls workbook (open it in a spreadsheet program and save it as .xlsx)"
    protected = old + "EncryptedPackage".encode("utf-16-le") + bytes(480)
    assert refusal(tmp_path, protected) == "it is protected by a password (remove the password and save it again)"
    assert refusal(tmp_path, packed({"holiday.jpg": b"picture", "book.xlsx": b"PK"})) == \
        "it is a zip archive without a workbook in it (take the workbook out of the archive, or ask for it again)"
    document = packed({"mimetype": b"application/vnd.oasis.opendocument.spreadsheet", "content.xml": b"<a/>"})
    assert refusal(tmp_path, document) == "it is an OpenDocument file (.ods) (open it in a spreadsheet program and save it as .xlsx)"
    assert refusal(tmp_path, packed({"[Content_Types].xml": b"<a/>", "xl/workbook.bin": b"1"})) == \
        "it is a binary workbook (.xlsb) (open it in a spreadsheet program and save it as .xlsx)"


def test_what_cannot_be_read_at_all(tmp_path):
    for path, words in ((tmp_path / "none.xlsx", "cannot read the file: no such file or folder"),
                        (tmp_path, "not a file"),
                        ("a\0b.xlsx", "cannot read the file: its name holds a character that no file name can have")):
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
    with pytest.raises(Refused, match=r"it is too large for a workbook of wetfilm: 200 MB \(the largest has 20 MB: use the workbook"):
        safe.opened(path)


def test_a_file_cut_off_or_with_a_changed_byte(tmp_path, books):
    data = books["shed"].data
    damaged = "it is incomplete or damaged (download it again, or ask the sender for it again)"
    for length in (30, len(data) // 2, len(data) - 1):
        assert refusal(tmp_path, data[:length]) == damaged
    middle = len(data) // 2
    assert refusal(tmp_path, data[:middle] + bytes([data[middle] ^ 255]) + data[middle + 1:]) == damaged


def test_a_bomb_is_refused_by_its_directory(tmp_path, books):
    bomb = changed(books["shed"], extra=bytes(29_000_000))
    assert len(bomb) < 500_000
    assert re.match(r"it unpacks to \d\d MB, more than an estimate has \(use the workbook", refusal(tmp_path, bomb))
    contents = parts(books["shed"].data) | {f"xl/{number}.bin": bytes(16_000_000) for number in range(16)}
    whole = sum(map(len, contents.values())) / 1e6
    assert f"it unpacks to {whole:.0f} MB" in refusal(tmp_path, packed(contents))


def test_a_bomb_whose_directory_lies_is_never_unpacked(tmp_path, books):
    """The directory says 1 kB, the part holds 29 MB: no more than 1 kB is unpacked, be the checksum that of 29 MB or of 1 kB."""
    size, said = 29_000_000, 1000
    bomb = packed(parts(books["shed"].data) | {"xl/extra.bin": bytes(size)})
    old, new = (struct.pack("<I", number) for number in (size, said))
    assert bomb.count(old) == 2
    assert "damaged" in refusal(tmp_path, bomb.replace(old, new))
    honest, lying = (struct.pack("<I", zlib.crc32(bytes(number))) for number in (size, said))
    assert bomb.count(honest) == 2
    with zipfile.ZipFile(safe.opened(io.BytesIO(bomb.replace(old, new).replace(honest, lying)))) as archive:
        assert len(archive.read("xl/extra.bin")) == said


def test_too_many_parts_and_parts_of_one_name(tmp_path, books):
    contents = parts(books["shed"].data)
    assert refusal(tmp_path, packed(contents | {f"xl/{number}.bin": b"" for number in range(2000)})) == \
        "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"
    twice = "two of its parts have the same name, which no spreadsheet program writes (download it again, or ask the sender for it again)"
    assert refusal(tmp_path, packed(contents | {SHEET.upper(): b"<a/>"})) == twice
    assert refusal(tmp_path, packed(contents, zipfile.ZIP_LZMA)).startswith("it is packed in a way no spreadsheet program uses")


def test_an_encrypted_part(tmp_path, books):
    data = books["shed"].data
    flags = data.index(safe.ENTRY) + 8
    assert refusal(tmp_path, data[:flags] + b"\1" + data[flags + 1:]) == "it is protected by a password (remove the password and save it again)"


@pytest.mark.parametrize("text, encoding", [(DECLARED, "utf-8"), (LAUGHS, "utf-8"), ("<!DOCTYPE a SYSTEM 'file:///etc/hostname'>", "utf-8"),
                                            (DECLARED, "utf-16"), (DECLARED, "utf-16-be"), (DECLARED, "utf-8-sig")])
@pytest.mark.parametrize("name", [SHEET, "xl/media/image1.png"])
def test_declarations_in_any_part_and_encoding(tmp_path, books, text, encoding, name):
    """A part is XML when it reads as XML, whatever its name says: a worksheet may be called image1.png."""
    head = '<?xml version="1.0" encoding="UTF-16"?>' if "16" in encoding else '<?xml version="1.0"?>'
    data = packed(parts(books["shed"].data) | {name: f"{head}{text}<a/>".encode(encoding)})
    assert refusal(tmp_path, data) == f"its part {name} declares a document type, which no spreadsheet program writes (download it again, or ask the sender for it again)"


def test_a_part_that_is_no_xml(tmp_path, books):
    assert refusal(tmp_path, changed(books["shed"], sheet=lambda old: old[:-30])) == f"its part {SHEET} is damaged (download it again, or ask the sender for it again)"


def test_a_picture_added_by_hand_is_no_reason(tmp_path, books):
    path = tmp_path / "book.xlsx"
    path.write_bytes(packed(parts(books["shed"].data) | {"xl/media/image1.png": os.urandom(3000)}))
    assert read(path) == read(books["shed"].path)


def test_workbooks_of_others_and_of_newer_programs(tmp_path, books):
    book = books["shed"]
    assert refusal(tmp_path, changed(book, workbook=lambda old: old.replace(b'"book_schema"', b'"schema"'))) == \
        "wetfilm did not write this workbook (only a workbook that 'wetfilm build' wrote can be read)"
    strict = changed(book, workbook=lambda old: old.replace(b"http://schemas.openxmlformats.org/spreadsheetml/2006/main", safe.STRICT))
    assert refusal(tmp_path, strict) == "it was saved as strict Open XML (save it as an ordinary .xlsx workbook)"
    schema = book.layout.places["book", "schema"].row
    newer = packed(parts(book.data) | {"xl/worksheets/sheet1.xml": re.sub(
        rf'(<c r="B{schema}"[^>]*><v>){SCHEMA}<'.encode(), rb"\g<1>99<", parts(book.data)["xl/worksheets/sheet1.xml"])})
    assert refusal(tmp_path, newer) == \
        f"a newer wetfilm made it (install the newer one: this one reads up to schema {SCHEMA}, the workbook has 99)"


@pytest.mark.parametrize("key, value", [("lines", "1e9"), ("lines", "2.5"), ("exchange", "0"), ("exchange", "1e999"), ("schema", "0")])
def test_facts_that_were_changed(tmp_path, key, value):
    """In a book that does not say elsewhere what it was made with; in one that does, a changed fact is told and not believed."""
    book = ROOT / "tests/golden/schema_2.xlsx"
    cell, data = returned(book).areas[f"book_{key}"].cell(), parts(book.read_bytes())
    sheet = re.sub(rf'(<c r="{cell}"[^>]*><v>)[^<]*<'.encode(), rf"\g<1>{value}<".encode(), data["xl/worksheets/sheet1.xml"])
    said = refusal(tmp_path, packed(data | {"xl/worksheets/sheet1.xml": sheet}))
    assert said.startswith(f"the sheet Start was changed: its {key} cannot be '") and said.endswith("(undo that change, or build the workbook again)")


@pytest.mark.parametrize("area", [
    b"'Takeoff'!$G$1:$XFD$1048576", b"'Takeoff'!$G:$G", b"#REF!", b"'Gone'!$G$5:$G$9", b"'Takeoff'!$G$9:$G$5",
    b"'Takeoff'!$G$5:$G$6,'Takeoff'!$G$8", b"&quot;((("])
def test_a_name_that_was_bent(tmp_path, books, area):
    bent = changed(books["shed"], workbook=lambda old: re.sub(rb'(<definedName name="takeoff_length">)[^<]*', rb"\g<1>" + area, old))
    path = tmp_path / "bent.xlsx"
    path.write_bytes(bent)
    one = taken(returned(path))
    assert ("name", "Takeoff", "Length was deleted; it is read as blank") in {(found.kind, found.sheet, found.message) for found in one.findings}
    assert one.opened.price() is None


def test_a_book_of_which_no_input_is_left(tmp_path, books):
    bent = changed(books["shed"], workbook=lambda old: re.sub(rb'(<definedName name="(?!book_|least_|most_)[a-z]+_\w+">)[^<]*', rb"\1#REF!", old))
    assert refusal(tmp_path, bent) == ("the defined names of its input cells were deleted or point nowhere "
                                       "(undo that change, or build the workbook again)")


def after_data(inserted):
    return lambda old: old.replace(b"</sheetData>", inserted[0] + b"</sheetData>" + inserted[1], 1)


@pytest.mark.parametrize("inserted", [
    (b'<row r="1048576" s="1" customFormat="1" ht="30" customHeight="1"><c r="XFD1048576"><v>1</v></c></row>', b""),
    (b"", b'<mergeCells count="1"><mergeCell ref="A200:XFD1048576"/></mergeCells>'),
    (b"", b'<hyperlinks><hyperlink ref="A200:XFD1048576" location="A1"/></hyperlinks>'),
], ids=["a far cell with row styles", "a merged area", "a linked area"])
def test_far_cells_and_wide_areas_change_nothing(tmp_path, books, inserted):
    path = tmp_path / "book.xlsx"
    path.write_bytes(changed(books["shed"], sheet=after_data(inserted)))
    assert read(path) == read(books["shed"].path)


def test_more_cells_than_an_estimate_has(tmp_path, books):
    crowd = after_data((b'<row r="300">' + b"<c/>" * 2_000_000 + b"</row>", b""))
    assert refusal(tmp_path, changed(books["shed"], sheet=crowd)) == \
        "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"


NAMED = b"".join(b'<definedName%%bname="mine%d">Start!$A$1</definedName>' % number for number in range(13_000))


@pytest.mark.parametrize("gap", [b" ", b"\t", b"\n"])
def test_more_names_than_an_estimate_has(tmp_path, books, gap):
    crowd = changed(
        books["shed"],
        workbook=lambda old: old.replace(b"</definedNames>", NAMED.replace(b"%b", gap) + b"</definedNames>"),
    )
    assert refusal(tmp_path, crowd) == CROWDED


def test_more_names_in_a_workbook_part_of_another_name(tmp_path, books):
    contents = parts(books["shed"].data)
    contents["xl/other.xml"] = contents["xl/workbook.xml"].replace(
        b"</definedNames>", NAMED.replace(b"%b", b" ") + b"</definedNames>"
    )
    contents["xl/_rels/other.xml.rels"] = contents["xl/_rels/workbook.xml.rels"]
    contents["[Content_Types].xml"] = contents["[Content_Types].xml"].replace(b"/xl/workbook.xml", b"/xl/other.xml")
    assert refusal(tmp_path, packed(contents)) == CROWDED


@pytest.mark.parametrize(
    "part, end, more",
    [
        ("xl/styles.xml", b"</fonts>", b'<font><sz val="9"/></font>'),
        ("xl/styles.xml", b"</cellXfs>", b'<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'),
        ("[Content_Types].xml", b"</Types>", b'<Override PartName="/a" ContentType="b"/>'),
        ("xl/_rels/workbook.xml.rels", b"</Relationships>", b'<Relationship Id="q" Type="t" Target="u"/>'),
    ],
)
def test_more_of_anything_that_the_library_keeps_whole(tmp_path, books, part, end, more):
    contents = parts(books["shed"].data)
    assert contents[part].count(end) == 1
    assert refusal(tmp_path, packed(contents | {part: contents[part].replace(end, more * 30_000 + end)})) == CROWDED


def test_a_long_formula_shared_by_many_cells(tmp_path, books, monkeypatch):
    """Each cell's own would be written out: 8,000 letters times 100,000 cells."""
    long = b'<c><f t="shared" si="900" ref="A300:A99999">' + b"+".join([b"B1"] * 2700) + b"</f><v>1</v></c>"
    crowd = after_data((b'<row r="300">' + long + b'<c><f t="shared" si="900"/><v>1</v></c>' * 100_000 + b"</row>", b""))
    monkeypatch.setattr(cells, "FORMULAS", 10_000_000)      # a fifth, to be quick
    assert returned(books["shed"].path).formulas
    path = tmp_path / "book.xlsx"
    path.write_bytes(changed(books["shed"], sheet=crowd))
    with pytest.raises(Refused, match="it is damaged"):
        assert returned(path).formulas is None


def test_one_sheet_named_many_times(tmp_path, books):
    again = changed(books["shed"], workbook=lambda old: old.replace(b"</sheets>", b'<sheet name="More" sheetId="99" r:id="rId13"/></sheets>'))
    assert refusal(tmp_path, again) == "it is damaged (download it again, or ask the sender for it again)"


def test_numbers_beyond_all_measure_are_text(tmp_path, books):
    """They are answered as a fault of their cell, not by a crash."""
    place = books["shed"].layout.places["takeoff", "height"]
    cell = rb'(<c r="H%d"[^>]*><v>)[^<]*' % place.row
    for value in (b"1E999", b"9" * 400):
        path = tmp_path / "book.xlsx"
        path.write_bytes(changed(books["shed"], sheet=re.sub(cell, rb"\g<1>" + value, parts(books["shed"].data)[SHEET])))
        assert isinstance(read(path)[0]["takeoff"][0]["height"], str)


@pytest.mark.parametrize("letters, refused", [(32_767, False), (32_768, True)])
@pytest.mark.parametrize("shared", [False, True])
def test_more_text_than_a_cell_can_hold(tmp_path, books, letters, refused, shared):
    """The format holds 32,767 letters in a cell (common practice, no source); more would break what is built of it."""
    contents, text = parts(books["shed"].data), b"x" * letters
    text_of = {
        True: b' t="s"><v>%d</v></c>' % contents["xl/sharedStrings.xml"].count(b"<si>"),
        False: b' t="inlineStr"><is><t>' + text + b"</t></is></c>",
    }
    contents[SHEET] = re.sub(
        rb'<c r="B7"( s="\d+")[^>]*(?:/>|>.*?</c>)', rb'<c r="B7"\1' + text_of[shared], contents[SHEET], count=1
    )
    contents["xl/sharedStrings.xml"] = contents["xl/sharedStrings.xml"].replace(
        b"</sst>", b"<si><r><t>x</t></r><r><t>" + text[1:] + b"</t></r></si></sst>"
    )
    if refused:
        assert (
            refusal(tmp_path, packed(contents))
            == "a cell on the sheet Takeoff, row 7, holds more than 32,767 characters "
            "(shorten it)"
        )
    else:
        values, units, settings = read(io.BytesIO(packed(contents)))
        assert values["takeoff"][2]["place"] == "x" * letters and make(from_values(values, units, settings))


def test_a_catalog_record_that_fits_no_cell(tmp_path, books):
    """Each text of it does; on the sheet As issued they stand together."""
    values, units, settings = read(books["shed"].path)
    values["coatings"][0]["source"] = '"' * 32_000
    book = from_values(values, units, settings)
    back = returned(io.BytesIO(make(book)))
    assert (
        back.values["coatings"] == values["coatings"] and values["coatings"][0]["name"] not in back.issued["coatings"]
    )


def test_a_directory_that_points_before_the_file(tmp_path, books):
    data = books["shed"].data
    end = data.rindex(b"PK\x05\x06")  # APPNOTE.TXT 4.3.16: the directory's offset is 16 bytes on
    for offset in (len(data) + 5000, 2**32 - 2):
        assert (
            refusal(tmp_path, data[: end + 16] + struct.pack("<I", offset) + data[end + 20 :])
            == "it is incomplete or damaged (download it again, or ask the sender for it again)"
        )


@pytest.mark.parametrize(
    "area, cells",
    [(b"'Takeoff'!$G$5:$G$49000", "48,996"), (b"'Takeoff'!$G$5:$CZN$7", "8,136"), (b"'Takeoff'!$G$5:$G$2005", "2,001")],
)
def test_inputs_stretched_further_than_an_estimate_has_rows(tmp_path, books, area, cells):
    book = changed(
        books["shed"],
        workbook=lambda old: re.sub(rb'(<definedName name="takeoff_length">)[^<]*', rb"\g<1>" + area, old),
    )
    assert refusal(tmp_path, book) == (
        f"Takeoff, Length: its defined name covers {cells} cells, more than an estimate has "
        "(undo that change, or build the workbook again)"
    )


def test_all_inputs_stretched_a_little(tmp_path, books):
    book = changed(
        books["shed"],
        workbook=lambda old: re.sub(
            rb"(<definedName name=\"(?:coatings|takeoff|pumps|surfaces|coats)_\w+\">'\w+'!\$\w+\$5:\$\w+\$)\d+",
            rb"\g<1>1904",
            old,
        ),
    )
    assert re.fullmatch(r".* covers 1,900 cells, more than an estimate has \(undo that.*", refusal(tmp_path, book))


def test_a_job_of_more_lines_than_a_book_is_read_back_with(tmp_path):
    text = (ROOT / "tests/data/shed.yaml").read_text()  # it has six
    lines = "".join("  - {system: Boards, length: 10 ft, height: 8 ft}\n" for _ in range(LINES - 6))
    job = tmp_path / "job.yaml"
    for more, answers in (
        ("", []),
        ("  - {system: Boards, length: 10 ft, height: 8 ft}\n" * 2, ["more than 2,000 rows on Takeoff"]),
    ):
        job.write_text(text.replace("takeoff:\n", f"takeoff:\n{lines}{more}"))
        opened = open_job(job, [ROOT / "catalogs"])
        assert [problem.message for problem in opened.errors] == answers and opened.settings["lines"] == LINES


def alone(*arguments, timeout=60):
    """A command in a process of its own: exit status, what it said on stderr, its memory in MB (0 where none is told).

    The timeout makes a failure of a hang.
    """
    program = """
import pathlib, sys
from builder.cli import main
status, about = main(sys.argv[1:]), pathlib.Path("/proc/self/status")
peak = [line for line in about.read_text().splitlines() if "VmHWM" in line] if about.exists() else ["0 0 kB"]
print(peak[0].split()[1], file=sys.stderr)
sys.exit(status)
"""
    done = subprocess.run(
        [sys.executable, "-c", program, *map(str, arguments), "--catalogs", str(ROOT / "catalogs")],
        cwd=ROOT,
        timeout=timeout,
        check=False,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
    said, _, peak = done.stderr.rstrip().rpartition("\n")
    return done.returncode, said, int(peak) / 1000


HEAVY = {  # what took a minute or half a gigabyte -> the parts in which it is bent
    "names": lambda old: {
        "xl/workbook.xml": old["xl/workbook.xml"].replace(
            b"</definedNames>", NAMED.replace(b"%b", b"\t") * 12 + b"</definedNames>"
        )
    },
    "stretched": lambda old: {
        "xl/workbook.xml": re.sub(
            rb"(<definedName name=\"takeoff_\w+\">'Takeoff'!\$\w+\$5:\$\w+\$)\d+",
            rb"\g<1>49000",
            old["xl/workbook.xml"],
        ),
        SHEET: old[SHEET].replace(b"</sheetData>", b'<row r="48999"><c r="D48999"><v>1</v></c></row></sheetData>'),
    },
    "fonts": lambda old: {
        "xl/styles.xml": old["xl/styles.xml"].replace(
            b"</fonts>", b'<font><sz val="9"/></font>' * 300_000 + b"</fonts>"
        )
    },
    "rows": lambda old: {
        SHEET: old[SHEET].replace(
            b"</sheetData>", b"".join(b'<row r="%d" ht="9"/>' % row for row in range(300, 500_300)) + b"</sheetData>"
        )
    },
}


@pytest.mark.parametrize("bent", HEAVY)
def test_hostile_books_take_no_memory(tmp_path, books, bent):
    """300 MB bound what took 330 to 640; an ordinary book takes 165."""
    path, contents = tmp_path / "book.xlsx", parts(books["shed"].data)
    path.write_bytes(packed(contents | HEAVY[bent](contents)))
    status, said, peak = alone("inspect", path)
    assert peak < 300
    assert (
        (status, said) == (0, "")
        if bent == "rows"
        else status == 1 and said.startswith(f"{path}: ") and "\n" not in said
    )


@pytest.mark.parametrize("name", ["pipe", "/dev/zero", "folder"])
@pytest.mark.parametrize("command", ["check", "build"])
def test_a_job_that_is_no_file(tmp_path, monkeypatch, capsys, name, command):
    if name == "folder" and command == "check":
        pytest.skip("a folder is checked as one of catalogs")
    monkeypatch.chdir(tmp_path)
    os.mkfifo("pipe")
    os.mkdir("folder")
    assert main([command, name, "--catalogs", str(ROOT / "catalogs")]) == 1
    assert "".join(capsys.readouterr()) == f"{name}:1:1: not a file\n" and not os.path.exists("out")


def test_a_pipe_among_the_catalogs(tmp_path, monkeypatch, books, capsys):
    """Neither loading them nor their fingerprint waits for it."""
    for path in (ROOT / "catalogs").glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    os.mkfifo(tmp_path / "x.yaml")
    for command in (
        ["check", str(tmp_path)],
        ["build", str(ROOT / "tests/data/shed.yaml"), "-o", str(tmp_path / "book.xlsx"), "--catalogs", str(tmp_path)],
    ):
        assert main(command) == 1
        assert "".join(capsys.readouterr()) == f"{tmp_path}/x.yaml:1:1: not a file\n"
    assert fingerprint([tmp_path]) == fingerprint([ROOT / "catalogs"])


@pytest.mark.parametrize(
    "text, answer",
    [
        ("job: {name: " + "a" * 1_999_000 + "}", "1:13: text longer than 32,767 characters (shorten it)"),
        ("? " + "a" * 1_999_000 + "\n: b", "1:3: a key longer than 200 characters (a key is one word before a colon)"),
    ],
    ids=["a text", "a key"],
)
def test_two_megabytes_of_one_line(tmp_path, capsys, text, answer):
    path = tmp_path / "job.yaml"
    path.write_text(text)
    assert main(["check", str(path), "--catalogs", str(ROOT / "catalogs")]) == 1
    assert "".join(capsys.readouterr()) == f"{path}:{answer}\n"


def test_commands_refuse_alike(tmp_path, capsys):
    path = tmp_path / "book.xlsx"
    path.write_text("tag,length")
    assert main(["impact", str(path), "--catalogs", str(ROOT / "catalogs")]) == 1
    assert capsys.readouterr().err == f"{path}: it is not an .xlsx workbook, whatever its name says (a csv file has no formulas: " \
                                      "ask for the .xlsx that wetfilm built)\n"
