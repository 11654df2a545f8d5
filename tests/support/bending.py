"""Books bent at random: names, sheets, rows, cells, types, styles, parts and the archive, not bytes alone.

A bend takes (draw, contents): a random.Random, and the parts of a book by name, which it changes in place. It leaves
them as they are where there is nothing of what it bends. `bent` gives the bytes of a book after a few of them.
"""

import itertools
import re

from builder.returned.read import INPUT_NAMES
from support.parcels import packed, parts

BOOK, STYLES, STRINGS, TYPES = "xl/workbook.xml", "xl/styles.xml", "xl/sharedStrings.xml", "[Content_Types].xml"
RELATIONS = "xl/_rels/workbook.xml.rels"
NAME = re.compile(rb"<definedName[^>]*>[^<]*</definedName>")
SHEET = re.compile(rb"<sheet [^>]*/>")
ROW = re.compile(rb"<row [^>]*?(?:/>|>.*?</row>)", re.DOTALL)
STRING = re.compile(rb"<si>.*?</si>", re.DOTALL)
CELL = re.compile(rb"<c [^>]*?(?:/>|>.*?</c>)", re.DOTALL)
LEAF = re.compile(rb"<[a-zA-Z][^<>]*/>|<([a-zA-Z:]+)[^<>]*>[^<]*</\1>")
ATTRIBUTE = re.compile(rb' ([a-zA-Z:]+)="([^"]*)"')
TAG = re.compile(rb"<([a-zA-Z:]+)(?=[ />])")

REFERENCES = (
    "#REF!",
    "Takeoff!#REF!",
    "'Takeoff'!$A:$A",
    "'Takeoff'!$5:$5",
    "'Takeoff'!$A$1:$XFD$1048576",
    "'Takeoff'!$C$9:$B$5",
    "'Takeoff'!$A$0",
    "'Takeoff'!$ZZZZ$5",
    "'Takeoff'!$A$99999999999",
    "'Takeoff'!A5",
    "'No such sheet'!$A$5",
    "'Takeoff'!$A$5,'Takeoff'!$A$7",
    "'Takeoff:Job'!$A$5",
    "OFFSET('Takeoff'!$A$5,0,0,9,1)",
    "[1]Takeoff!$A$5",
    "'O''Hara'!$A$5",
    "'Takeoff'!R5C1",
    '"text"',
    "12.5",
    "",
    "=",
    "(((((",
    '"open',
    "{1,2;3}",
    "'Takeoff",
    "!$A$5",
)
TITLES = (
    "",
    "a" * 200,
    "O'Hara",
    "Über/Maß",
    "\u202eterces",
    "Takeoff",
    "takeoff",
    "Job",
    "=1+1",
    "A1",
    "&#10;",
    "  ",
    "[1]",
    "Start",
)
NUMBERS = ("0", "-1", "1e999", "1e308", "-1e308", "nan", "inf", "1,5", "0x10", "1e-320", "12.5.1", "9" * 400, " 7 ", "")
COUNTS = ("0", "-1", "1.5", "x", "99999999999", "4294967296", "", " 3", "NaN")
TEXTS = (
    " ",
    "'",
    "=1+1",
    "+SUM(A1)",
    "12,5",
    "1 062",
    "14 ft",
    "7' 6 1/2\"",
    "1.234,56",
    "62' 6",
    "3/4",
    "1/0",
    "12:30",
    "2026-02-30",
    "5/6/2026",
    "TRUE",
    "yes",
    "no",
    "#REF!",
    "#N/A",
    "٣٫٥",
    "１２",
    "½",
    "12\u00a0ft",
    "\u202e12",
    "a\u0300" * 40,
    "😀",
    "_x0007_",
    "_x005F_x0041_",
    "line\nbreak",
    "tab\there",
    "x" * 300,
    "y" * 33_000,
    "-5 ft",
    "1e400",
    "five",
    "5 5 5",
    "Wall",
    "standard 515",
    "@",
    "\ufeff12",
)
FORMULAS = (
    "1/0",
    "A1",
    "SUM(A:A)",
    "#REF!+1",
    "",
    "(" * 300,
    "NOSUCH(1)",
    '"' + "x" * 9000 + '"',
    "'gone'!A1",
    "{1,2}",
)
KINDS = ("n", "s", "str", "b", "e", "d", "inlineStr", "x", "")
PATHS = ("../{}", "/{}", "{}.bak", "\\{}", "{}/", "xl//{}", "XL/{}", "é{}", "{}\x01")
ENCODINGS = (b"UTF-16", b"ISO-8859-1", b"US-ASCII", b"EBCDIC-CP-US", b"none", b"UTF-7")


def _one(draw, pattern, data):
    """A random match; None where there is none."""
    found = list(pattern.finditer(data))
    return draw.choice(found) if found else None


def _cut(data, match, new):
    return data[: match.start()] + new + data[match.end() :]


def _escaped(text):
    return text.replace("&", "&amp;").replace("<", "&lt;").encode("utf-8", "surrogatepass")


def sheets(contents):
    """The parts that hold sheets with something in them."""
    return [name for name, data in contents.items() if name.startswith("xl/worksheets/sheet") and b"<c " in data]


def light(data):
    """A book with nothing in its sheets of workings, few of their names and none of their texts: it is read alike, and
    sooner.
    """
    contents = parts(data)
    named = [
        (tag[0], *re.search(rb"""name="([^"]+)"[^>]*>'?([^'!<]+)'?!""", tag[0]).groups())
        for tag in NAME.finditer(contents[BOOK])
    ]
    wanted = {sheet for _, name, sheet in named if name.decode() in INPUT_NAMES}
    for number, title in enumerate(re.findall(rb'<sheet name="([^"]+)"', contents[BOOK]), start=1):
        part = f"xl/worksheets/sheet{number}.xml"
        if title not in wanted:
            contents[part] = re.sub(rb"<sheetData>.*</sheetData>", b"<sheetData/>", contents[part], flags=re.DOTALL)
    dropped = {tag for tag, name, sheet in named if sheet not in wanted and name != b"price_total"}
    contents[BOOK] = NAME.sub(lambda tag: b"" if tag[0] in dropped else tag[0], contents[BOOK])
    used = {int(at) for part in sheets(contents) for at in re.findall(rb't="s"><v>(\d+)</v>', contents[part])}
    places = itertools.count()
    contents[STRINGS] = STRING.sub(lambda tag: tag[0] if next(places) in used else b"<si><t/></si>", contents[STRINGS])
    return contents


# names


def _name(change):
    """A bend of one defined name: change(draw, its tag as bytes) -> other bytes."""

    def bend(draw, contents):
        names = list(NAME.finditer(contents.get(BOOK, b"")))
        called = [(one, re.search(rb'name="([^"]*)"', one[0])) for one in names]  # a tag may have lost its name
        inputs = [one for one, found in called if found and found[1].decode() in INPUT_NAMES]
        if names:
            match = draw.choice(inputs if inputs and draw.random() < 0.8 else names)
            contents[BOOK] = _cut(contents[BOOK], match, change(draw, match[0]))

    return bend


def _shifted(draw, tag):
    return re.sub(rb"\$(\d+)", lambda row: b"$%d" % max(0, int(row[1]) + draw.choice((-3, -1, 1, 2, 40))), tag)


def _across(draw, tag):
    return re.sub(rb"\$([A-Z]+)\$", lambda _: b"$%s$" % draw.choice((b"A", b"B", b"F", b"Z", b"XFD")), tag)


def _refers(draw, tag):
    return re.sub(rb">[^<]*<", lambda _: b">" + _escaped(draw.choice(REFERENCES)) + b"<", tag)


def _called(draw, tag):
    word = draw.choice(
        (b"", b"book_schema", b"takeoff_length", b"TAKEOFF_LENGTH", b"_xlnm.Print_Area", b"a b", b"\xc3\xa9")
    )
    return re.sub(rb'name="[^"]*"', b'name="' + word + b'"', tag)


def _local(draw, tag):
    number = draw.choice(COUNTS).encode()
    return tag.replace(b"<definedName ", b'<definedName localSheetId="' + number + b'" ', 1)


def names_swapped(draw, contents):
    names = list(NAME.finditer(contents.get(BOOK, b"")))
    if len(names) > 1:
        one, other = sorted(draw.sample(names, 2), key=lambda match: match.start())
        first, second = (re.search(rb">([^<]*)<", match[0])[1] for match in (one, other))
        contents[BOOK] = _cut(contents[BOOK], other, other[0].replace(second, first))
        contents[BOOK] = _cut(contents[BOOK], one, one[0].replace(first, second))


def names_gone(draw, contents):
    """The names of one table, or all."""
    block = draw.choice((b"takeoff", b"coats", b"job", b"terms", b"book", b"issued", b"nozzles", rb"\w+"))
    pattern = rb'<definedName name="' + block + rb'_\w+"[^>]*>[^<]*</definedName>'
    contents[BOOK] = re.sub(pattern, b"", contents.get(BOOK, b""))


# sheets


def _sheet(change):
    """A bend of one sheet's line in the book."""

    def bend(draw, contents):
        if match := _one(draw, SHEET, contents.get(BOOK, b"")):
            contents[BOOK] = _cut(contents[BOOK], match, change(draw, match[0]))

    return bend


def _titled(draw, tag):
    return re.sub(rb' name="[^"]*"', lambda _: b' name="' + _escaped(draw.choice(TITLES)) + b'"', tag)


def _numbered(draw, tag):
    return re.sub(rb'sheetId="\d+"', b'sheetId="' + draw.choice(COUNTS).encode() + b'"', tag)


def _related(draw, tag):
    return re.sub(rb'r:id="\w+"', b'r:id="' + draw.choice((b"rId1", b"rId2", b"rId9999", b"", b"x")) + b'"', tag)


def sheet_deleted(draw, contents):
    """As a program does it: the line, the part and its names."""
    if match := _one(draw, SHEET, contents.get(BOOK, b"")):
        title = re.search(rb' name="([^"]*)"', match[0])[1]
        book = _cut(contents[BOOK], match, b"")
        contents[BOOK] = re.sub(rb"(<definedName[^>]*>)'?" + re.escape(title) + rb"'?![^<]*<", rb"\1#REF!<", book)


def sheets_reordered(draw, contents):
    found = SHEET.findall(contents.get(BOOK, b""))
    if found:
        order = draw.sample(found, len(found))
        contents[BOOK] = contents[BOOK].replace(b"".join(found), b"".join(order))


# rows and cells


def _in_sheet(pattern, change):
    """A bend of one row or cell of a sheet."""

    def bend(draw, contents):
        if names := sheets(contents):
            part = draw.choice(names)
            if match := _one(draw, pattern, contents[part]):
                contents[part] = _cut(contents[part], match, change(draw, match[0]))

    return bend


def _row_number(draw, row):
    number = draw.choice((*COUNTS, "1048576", "1048577", "3", "400"))
    return re.sub(rb' r="\d+"', b' r="' + number.encode() + b'"', row, count=1)


def _cell_place(draw, cell):
    place = draw.choice(
        ("A0", "ZZZZ9", "XFD1048576", "A1", "5", "", "$A$5", "a5", "A5:B6", "B4", "XFE1", "C" + "9" * 30)
    )
    return re.sub(rb' r="[A-Z]+\d+"', b' r="' + place.encode() + b'"', cell, count=1)


def _head(cell):
    """The opening of a cell without its type."""
    return re.sub(rb' t="\w*"', b"", re.match(rb"<c [^>]*?(?=/?>)", cell)[0])


def _typed(draw, cell):
    """Another number or text, as a person or a program would leave it."""
    if draw.random() < 0.4:
        value = str(draw.choice((0, 1, 3, 12.5, 250, -4, 46000, 1e7, draw.uniform(0, 50)))).encode()
        return _head(cell) + b"><v>" + value + b"</v></c>"
    text = _escaped(draw.choice(TEXTS))
    return _head(cell) + b' t="inlineStr"><is><t xml:space="preserve">' + text + b"</t></is></c>"


def _of_kind(draw, cell):
    """A value under a type that may not be its own."""
    kind, value = draw.choice(KINDS).encode(), draw.choice((*NUMBERS, *TEXTS[:24])).encode("utf-8", "surrogatepass")
    value = value.replace(b"<", b"&lt;").replace(b"&", b"&amp;")
    return _head(cell) + b' t="' + kind + b'"><v>' + value + b"</v></c>"


def _formula(draw, cell):
    formula = _escaped(draw.choice(FORMULAS))
    opening = draw.choice(
        (
            b"<f>",
            b'<f t="array" ref="A1:B9">',
            b'<f t="shared" si="0">',
            b'<f t="shared" si="999" ref="A1:A9">',
            b'<f t="shared">',
            b'<f t="dataTable" ref="x">',
            b'<f t="x" ca="y">',
        )
    )
    value = draw.choice((b"", b"<v>12</v>", b"<v></v>", b"<v>#REF!</v>"))
    return _head(cell) + b">" + opening + formula + b"</f>" + value + b"</c>"


def _styled(draw, cell):
    tag = re.sub(rb' s="\d+"', b"", cell, count=1)
    return tag.replace(b"<c ", b'<c s="' + draw.choice(COUNTS).encode() + b'" ', 1)


def row_deleted(draw, contents):
    """As a program does it: rows below move up, names shrink or not."""
    _moved_rows(draw, contents, -1)


def row_inserted(draw, contents):
    _moved_rows(draw, contents, 1)


def _moved_rows(draw, contents, by):
    if not (names := sheets(contents)):
        return
    part = draw.choice(names)
    rows = ROW.findall(contents[part])
    at = draw.randrange(len(rows))
    numbers = [int(found[1]) for row in rows if (found := re.search(rb' r="(\d+)"', row))]
    if len(numbers) != len(rows):
        return

    def lower(row, number):
        moved = re.sub(rb' r="\d+"', b' r="%d"' % (number + by), row, count=1)
        return re.sub(rb'( r="[A-Z]+)%d"' % number, rb'\g<1>%d"' % (number + by), moved)

    above = rows[: at + (by > 0)]
    below = [lower(row, number) for row, number in zip(rows[at + 1 :], numbers[at + 1 :])]
    contents[part] = re.sub(
        rb"<sheetData>.*</sheetData>",
        lambda _: b"<sheetData>" + b"".join(above + below) + b"</sheetData>",
        contents[part],
        flags=re.DOTALL,
    )


def column_moved(draw, contents):
    """The cells of a sheet one column further, from some column on, as if one had been inserted without its names."""
    if names := sheets(contents):
        part, start = draw.choice(names), draw.choice(b"BCDE")
        contents[part] = re.sub(
            rb' r="([A-Y])(\d+)"',
            lambda cell: b' r="%c%s"' % (cell[1][0] + (cell[1][0] >= start), cell[2]),
            contents[part],
        )


# any part of XML


def _part(draw, contents):
    """A part, those that all hangs on more often."""
    heads = [name for name in (BOOK, STYLES, STRINGS, TYPES, RELATIONS) if name in contents]
    return draw.choice(heads if heads and draw.random() < 0.6 else list(contents))


def _near(draw, pattern, data):
    """A match behind a random place."""
    return pattern.search(data, draw.randrange(len(data) + 1)) or pattern.search(data)


def attribute_changed(draw, contents):
    name = _part(draw, contents)
    if match := _near(draw, ATTRIBUTE, contents[name]):
        value = _escaped(draw.choice((*COUNTS, *NUMBERS, *TEXTS[:12]))).replace(b'"', b"&quot;")
        new = draw.choice((b"", b" " + match[1] + b'="' + value + b'"', match[0] * 2))
        contents[name] = _cut(contents[name], match, new)


def leaf_changed(draw, contents):
    name = _part(draw, contents)
    if match := _near(draw, LEAF, contents[name]):
        wrapped = draw.choice((b"", match[0] * 2, match[0] * 500, b"<x>" * 400 + match[0] + b"</x>" * 400))
        odd = draw.choice((wrapped, b"<!--" + match[0] + b"-->", b"<![CDATA[x]]>" + match[0], b"<?x y?>" + match[0]))
        contents[name] = _cut(contents[name], match, odd)


def tag_renamed(draw, contents):
    name = _part(draw, contents)
    if match := _near(draw, TAG, contents[name]):
        old, new = match[1], draw.choice((b"x", b"x:y", b"sheet", b"c", b"v", b"row"))
        everywhere = draw.random() < 0.7  # else the tags do not match
        renamed = re.sub(rb"(</?)" + old + rb"(?=[ />])", rb"\g<1>" + new, contents[name])
        contents[name] = renamed if everywhere else _cut(contents[name], match, b"<" + new)


def encoded(draw, contents):
    name = _part(draw, contents)
    how, data = draw.randrange(4), contents[name]
    if how == 0:
        contents[name] = re.sub(rb'encoding="[^"]*"', b'encoding="' + draw.choice(ENCODINGS) + b'"', data, count=1)
    elif how == 1:
        contents[name] = b"\xef\xbb\xbf" + data
    elif how == 2:
        contents[name] = data.decode("utf-8", "replace").replace("UTF-8", "UTF-16").encode("utf-16")
    else:
        contents[name] = data.replace(b"http://schemas.openxmlformats.org", b"http://example.org")


def part_cut(draw, contents):
    name = _part(draw, contents)
    contents[name] = contents[name][: draw.randrange(len(contents[name]) + 1)] if draw.random() < 0.7 else b""


def bytes_changed(draw, contents):
    name = _part(draw, contents)
    data = bytearray(contents[name])
    for _ in range(draw.randint(1, 8) if data else 0):
        data[draw.randrange(len(data))] = draw.choice(b"\x00<>&\"'=/ 0aZ\xff")
    contents[name] = bytes(data)


# parts


def part_gone(draw, contents):
    del contents[_part(draw, contents)]


def part_renamed(draw, contents):
    name = _part(draw, contents)
    contents[draw.choice(PATHS).format(name)] = contents.pop(name)


def parts_swapped(draw, contents):
    one, other = draw.sample(list(contents), 2)
    contents[one], contents[other] = contents[other], contents[one]


def part_added(draw, contents):
    name = draw.choice(
        ("xl/vbaProject.bin", "xl/extra.xml", "docProps/custom.xml", "xl/comments1.xml", "xl/externalLinks/a.xml")
    )
    contents[name] = draw.choice((b"", b"<a/>", b"\x00" * 5000, b"<a>" * 300, b"text"))


def relation_changed(draw, contents):
    if RELATIONS in contents and (match := _one(draw, re.compile(rb'Target="[^"]*"'), contents[RELATIONS])):
        target = draw.choice(
            (
                "",
                "/xl/worksheets/sheet1.xml",
                "worksheets/sheet1.xml",
                "../xl/styles.xml",
                "http://example.org/",
                "gone.xml",
                "%41",
                "../../..",
            )
        )
        more = draw.choice((b"", b' TargetMode="External"'))
        contents[RELATIONS] = _cut(contents[RELATIONS], match, b'Target="' + target.encode() + b'"' + more)


# shared strings and what the book says of itself


def strings_changed(draw, contents):
    items = list(re.finditer(rb"<si>.*?</si>", contents.get(STRINGS, b""), re.DOTALL))
    if not items:
        return
    match = draw.choice(items)
    text = _escaped(draw.choice(TEXTS))
    new = draw.choice(
        (
            b"",
            b"<si/>",
            b"<si><t/></si>",
            b"<si><t>" + text + b"</t></si>",
            b"<si><r><t>" + text + b"</t></r><rPh sb='0' eb='1'><t>x</t></rPh></si>",
            match[0] * 2,
        )
    )
    contents[STRINGS] = _cut(contents[STRINGS], match, new)


def issued_changed(draw, contents):
    """A line of the sheet As issued, which is YAML, typed over."""
    items = [one for one in re.finditer(rb"<si><t[^>]*>[^<]*: [^<]*</t></si>", contents.get(STRINGS, b""))]
    if items:
        match = draw.choice(items[-200:])
        at = draw.randrange(len(match[0]) - 12) + 7
        odd = draw.choice(
            (b"", b": ", b"{", b"&amp;a ", b"\t", b"- ", b"9", b"\xc2\x85", b"'", b"\n---\n", b"[[[[[[[[[[[[[[[[")
        )
        contents[STRINGS] = _cut(contents[STRINGS], match, match[0][:at] + odd + match[0][at + draw.randint(0, 9) :])


def fact_changed(draw, contents):
    """A fact of the book, such as its units or its exchange, in its own cell."""
    for name in draw.sample(sorted(contents), len(contents)):
        if name in sheets(contents) and b"wetfilm" in contents[name] or name.endswith("sheet1.xml"):
            cells = list(CELL.finditer(contents[name]))
            if cells:
                match = draw.choice(cells)
                contents[name] = _cut(contents[name], match, _typed(draw, match[0]))
                return


BENDS = {
    "a name gone": _name(lambda draw, tag: b""),
    "a name twice": _name(lambda draw, tag: tag * 2),
    "a name over other rows": _name(_shifted),
    "a name over other columns": _name(_across),
    "a name that points elsewhere": _name(_refers),
    "a name called otherwise": _name(_called),
    "a name of one sheet": _name(_local),
    "names swapped": names_swapped,
    "names of a table gone": names_gone,
    "a sheet called otherwise": _sheet(_titled),
    "a sheet numbered otherwise": _sheet(_numbered),
    "a sheet with another part": _sheet(_related),
    "a sheet's line gone": _sheet(lambda draw, tag: b""),
    "a sheet's line twice": _sheet(lambda draw, tag: tag * 2),
    "a sheet deleted": sheet_deleted,
    "sheets reordered": sheets_reordered,
    "a row gone": _in_sheet(ROW, lambda draw, row: b""),
    "a row twice": _in_sheet(ROW, lambda draw, row: row * 2),
    "a row numbered otherwise": _in_sheet(ROW, _row_number),
    "a row deleted": row_deleted,
    "a row inserted": row_inserted,
    "a column moved": column_moved,
    "a cell gone": _in_sheet(CELL, lambda draw, cell: b""),
    "a cell twice": _in_sheet(CELL, lambda draw, cell: cell * 2),
    "a cell placed otherwise": _in_sheet(CELL, _cell_place),
    "a cell typed over": _in_sheet(CELL, _typed),
    "a cell of another type": _in_sheet(CELL, _of_kind),
    "a formula in a cell": _in_sheet(CELL, _formula),
    "a cell styled otherwise": _in_sheet(CELL, _styled),
    "an attribute": attribute_changed,
    "a leaf": leaf_changed,
    "a tag": tag_renamed,
    "an encoding": encoded,
    "a part cut off": part_cut,
    "bytes of a part": bytes_changed,
    "a part gone": part_gone,
    "a part called otherwise": part_renamed,
    "parts swapped": parts_swapped,
    "a part more": part_added,
    "a relation": relation_changed,
    "a shared string": strings_changed,
    "a line of As issued": issued_changed,
    "a fact": fact_changed,
}
TWICE = ("a cell typed over", "a cell of another type", "a formula in a cell")  # what people do is drawn more often


def _archive(draw, data):
    """The file itself bent: cut off, bytes changed, something before or behind it."""
    how = draw.randrange(4)
    if how == 0:
        return data[: draw.randrange(len(data))]
    if how == 1:
        return draw.choice((b"x", b"PK\x03\x04", bytes(300))) + data
    if how == 2:
        return data + draw.choice((b"x", bytes(70_000), b"PK\x05\x06" + bytes(18)))
    changed = bytearray(data)
    for _ in range(draw.randint(1, 6)):
        changed[
            draw.randrange(max(0, len(data) - 3000), len(data)) if draw.random() < 0.5 else draw.randrange(len(data))
        ] = draw.randrange(256)
    return bytes(changed)


def bent(draw, contents):
    """(what was bent, the bytes of the book after it). contents: the parts of a book, which stay as they are."""
    changed = dict(contents)
    if draw.random() < 0.05:
        return ["the archive"], _archive(draw, packed(changed, 0))
    hows = draw.choices([*BENDS, *TWICE, *TWICE], k=draw.choice((1, 1, 1, 2, 3)))
    for how in hows:
        if len(changed) > 1:
            BENDS[how](draw, changed)
    return hows, packed(changed, 0)
