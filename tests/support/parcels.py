"""A workbook taken apart and put together again, for what no spreadsheet program would write."""

import io
import re
import zipfile
from xml.sax.saxutils import escape


def parts(data):
    """The parts of a workbook by name."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {entry.filename: archive.read(entry) for entry in archive.infolist()}


def packed(contents, method=zipfile.ZIP_DEFLATED):
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as archive:
        for name, data in contents.items():
            archive.writestr(name, data)
    return stream.getvalue()


def retyped(data, changes):
    """The workbook with other things in some cells and all else as it was, cached values too.

    changes: (sheet title, cell) -> a number, a text, '' for a cleared cell, or (formula without '=', its value).
    """
    contents = parts(data)
    titles = re.findall(r'<sheet name="([^"]+)"', contents["xl/workbook.xml"].decode())
    for (title, cell), what in changes.items():
        part = f"xl/worksheets/sheet{titles.index(title) + 1}.xml"
        pattern = rf'<c (?=[^>]*\br="{cell}")([^>]*?)(?:/>|>.*?</c>)'
        old = re.search(pattern, contents[part].decode())
        style = re.search(r's="\d+"', old[1])
        head = f'<c r="{cell}"{" " + style[0] if style else ""}'
        formula, value = (f"<f>{escape(what[0])}</f>", what[1]) if isinstance(what, tuple) else ("", what)
        if value == "":
            new = f"{head}/>"
        elif isinstance(value, str):
            new = f'{head} t="inlineStr"><is><t xml:space="preserve">{escape(value)}</t></is></c>'
        else:
            new = f"{head}>{formula}<v>{value:.15g}</v></c>"
        contents[part] = contents[part].decode().replace(old[0], new, 1).encode()
    return packed(contents)


def patched(data, part, old, new):
    """The workbook with one text of one part replaced, by a pattern of bytes."""
    contents = parts(data)
    assert re.search(old, contents[part]), f"{part} has no {old}"
    return packed(contents | {part: re.sub(old, new, contents[part], count=1)})


def sheet_part(data, title):
    """The part that holds a sheet."""
    titles = re.findall(r'<sheet name="([^"]+)"', parts(data)["xl/workbook.xml"].decode())
    return f"xl/worksheets/sheet{titles.index(title) + 1}.xml"
