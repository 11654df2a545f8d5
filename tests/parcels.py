"""A workbook taken apart and put together again, for what no spreadsheet program would write."""
import io
import zipfile


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
