"""Workbooks that hold more than an estimate can: refused before they cost time or memory, and far cells
change nothing.
"""

import io
import re
import struct

import pytest
from support.parcels import packed, parts
from support.refusals import CROWDED, NAMED, SHEET, changed, refusal

from builder.jobs import from_values
from builder.problems import Refused
from builder.returned import cells
from builder.returned.read import read, returned
from builder.workbook.make import make

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]


@pytest.fixture(scope="module")
def plain(books, small):
    """What is read of the shed's book."""
    return read(books["small shed"].path)


def after_data(inserted):
    return lambda old: old.replace(b"</sheetData>", inserted[0] + b"</sheetData>" + inserted[1], 1)


@pytest.mark.parametrize(
    "inserted",
    [
        (b'<row r="1048576" s="1" customFormat="1" ht="30" customHeight="1"><c r="XFD1048576"><v>1</v></c></row>', b""),
        (b"", b'<mergeCells count="1"><mergeCell ref="A200:XFD1048576"/></mergeCells>'),
        (b"", b'<hyperlinks><hyperlink ref="A200:XFD1048576" location="A1"/></hyperlinks>'),
    ],
    ids=["a far cell with row styles", "a merged area", "a linked area"],
)
def test_far_cells_and_wide_areas_change_nothing(tmp_path, books, plain, inserted):
    path = tmp_path / "book.xlsx"
    path.write_bytes(changed(books["small shed"], sheet=after_data(inserted)))
    assert read(path) == plain


def test_more_cells_than_an_estimate_has(tmp_path, books):
    crowd = after_data((b'<row r="300">' + b"<c/>" * 2_000_000 + b"</row>", b""))
    assert (
        refusal(tmp_path, changed(books["small shed"], sheet=crowd))
        == "it holds far more than an estimate (use the workbook that wetfilm built, with nothing added to it)"
    )


def test_a_cell_in_a_row_that_no_sheet_has(tmp_path, books):
    """It took a gigabyte to look for."""
    far = after_data((b'<row r="300"><c r="C999999999999999999"><v>7</v></c></row>', b""))
    said = refusal(tmp_path, changed(books["small shed"], sheet=far))
    assert said == "it is damaged (download it again, or ask the sender for it again)"


@pytest.mark.parametrize("gap", [b" ", b"\t", b"\n"])
def test_more_names_than_an_estimate_has(tmp_path, books, gap):
    crowd = changed(
        books["small shed"],
        workbook=lambda old: old.replace(b"</definedNames>", NAMED.replace(b"%b", gap) + b"</definedNames>"),
    )
    assert refusal(tmp_path, crowd) == CROWDED


def test_more_names_in_a_workbook_part_of_another_name(tmp_path, books):
    contents = parts(books["small shed"].data)
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
    contents = parts(books["small shed"].data)
    assert contents[part].count(end) == 1
    assert refusal(tmp_path, packed(contents | {part: contents[part].replace(end, more * 30_000 + end)})) == CROWDED


def test_a_long_formula_shared_by_many_cells(tmp_path, books, monkeypatch):
    """Each cell's own would be written out: 8,000 letters times 100,000 cells."""
    long = b'<c><f t="shared" si="900" ref="A300:A99999">' + b"+".join([b"B1"] * 2700) + b"</f><v>1</v></c>"
    crowd = after_data(
        (b'<row r="300">' + long + b'<c><f t="shared" si="900"/><v>1</v></c>' * 100_000 + b"</row>", b"")
    )
    monkeypatch.setattr(cells, "FORMULAS", 10_000_000)  # a fifth, to be quick
    assert returned(books["small shed"].path).formulas
    path = tmp_path / "book.xlsx"
    path.write_bytes(changed(books["small shed"], sheet=crowd))
    with pytest.raises(Refused, match="it is damaged"):
        assert returned(path).formulas is None


def test_one_sheet_named_many_times(tmp_path, books):
    again = changed(
        books["small shed"],
        workbook=lambda old: old.replace(b"</sheets>", b'<sheet name="More" sheetId="99" r:id="rId13"/></sheets>'),
    )
    assert refusal(tmp_path, again) == "it is damaged (download it again, or ask the sender for it again)"


def test_numbers_beyond_all_measure_are_text(tmp_path, books):
    """They are answered as a fault of their cell, not by a crash."""
    place = books["small shed"].layout.places["takeoff", "height"]
    cell = rb'(<c r="%c%d"[^>]*><v>)[^<]*' % (65 + place.col, place.row)
    for value in (b"1E999", b"9" * 400):
        path = tmp_path / "book.xlsx"
        path.write_bytes(
            changed(books["small shed"], sheet=re.sub(cell, rb"\g<1>" + value, parts(books["small shed"].data)[SHEET]))
        )
        assert isinstance(read(path)[0]["takeoff"][0]["height"], str)


@pytest.mark.parametrize("letters, refused", [(32_767, False), (32_768, True)])
@pytest.mark.parametrize("shared", [False, True])
def test_more_text_than_a_cell_can_hold(tmp_path, books, letters, refused, shared):
    """The format holds 32,767 letters in a cell (common practice, no source); more would break what is built of it."""
    contents, text = parts(books["small shed"].data), b"x" * letters
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
    values, units, settings = read(books["small shed"].path)
    values["coatings"][0]["source"] = '"' * 32_000
    book = from_values(values, units, settings)
    back = returned(io.BytesIO(make(book)))
    assert (
        back.values["coatings"] == values["coatings"] and values["coatings"][0]["name"] not in back.issued["coatings"]
    )


def test_a_directory_that_points_before_the_file(tmp_path, books):
    data = books["small shed"].data
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
        books["small shed"],
        workbook=lambda old: re.sub(rb'(<definedName name="takeoff_length">)[^<]*', rb"\g<1>" + area, old),
    )
    assert refusal(tmp_path, book) == (
        f"Takeoff, Length: its defined name covers {cells} cells, more than an estimate has "
        "(undo that change, or build the workbook again)"
    )


def test_all_inputs_stretched_a_little(tmp_path, books):
    book = changed(
        books["small shed"],
        workbook=lambda old: re.sub(
            rb"(<definedName name=\"(?:coatings|takeoff|pumps|surfaces|coats)_\w+\">'\w+'!\$\w+\$5:\$\w+\$)\d+",
            rb"\g<1>1904",
            old,
        ),
    )
    assert re.fullmatch(r".* covers 1,900 cells, more than an estimate has \(undo that.*", refusal(tmp_path, book))
