"""Two spreadsheet engines that recompute a workbook, and the comparison of every formula cell with the model."""

import re
import subprocess
import tempfile
import warnings
from pathlib import Path
from xml.sax.saxutils import escape

import ironcalc
import openpyxl

TOLERANCE = 1e-9
HARD_RECALCULATION = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>"""


class IronCalc:
    """A workbook in IronCalc: change inputs, recompute, read cells (sheet title, row and column from 1)."""

    def __init__(self, path):
        self.model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
        self.sheets = {about["name"]: number for number, about in enumerate(self.model.get_worksheets_properties())}
        self.stale = True

    def put(self, sheet, row, col, value):
        at, self.stale = (self.sheets[sheet], row, col), True
        if value == "":
            self.model.clear_cell_contents(*at)
        elif isinstance(value, str):
            self.model.update_cell_with_text(*at, value)
        else:
            self.model.update_cell_with_number(*at, value)

    def type(self, sheet, row, col, text):
        """What a person would type, formulas included."""
        self.model.set_user_input(self.sheets[sheet], row, col, text)
        self.stale = True

    def get(self, sheet, row, col):
        """A cell, after all that was put in; worked out when it is first asked for."""
        if self.stale:
            self.model.evaluate()
            self.stale = False
        return self.model.get_cell_value(self.sheets[sheet], row, col)


class Values:
    """The cached values of a workbook file."""

    def __init__(self, path):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # gnumeric saves no default style
            self.book = openpyxl.load_workbook(path, data_only=True)

    def get(self, sheet, row, col):
        return self.book[sheet].cell(row, col).value


def _profile(folder, trusting=False):
    """A fresh LibreOffice profile that recalculates everything on load, or trusts cached values as those of people do."""
    user = Path(folder, "user")
    user.mkdir(parents=True)
    if not trusting:
        user.joinpath("registrymodifications.xcu").write_text(HARD_RECALCULATION)
    return user


def _soffice(profile, *arguments):
    subprocess.run(
        ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--norestore", *map(str, arguments)],
        capture_output=True,
        check=True,
        timeout=900,
    )


def _made(paths):
    """The paths, each of which must exist: LibreOffice exits 0 without writing when it fails. A sitting that failed has
    left beside its file what was said.
    """
    for path in paths:
        if (said := path.with_name(f"{path.name}.error")).exists():
            raise RuntimeError(f"LibreOffice, {path.name}, {said.read_text().strip()}")
    missing = [path.name for path in paths if not path.exists()]
    if missing:
        raise RuntimeError(f"LibreOffice wrote nothing for {missing}")
    return paths


def libreoffice(paths, into, form="xlsx"):
    """Every file recalculated by LibreOffice from scratch and saved into a folder, all in one process: the
    new paths.
    """
    with tempfile.TemporaryDirectory() as profile:
        _profile(profile)
        _soffice(profile, "--convert-to", form, "--outdir", into, *paths)
    return _made([Path(into, Path(path).with_suffix(f".{form}").name) for path in paths])


MODULE = """<?xml version="1.0" encoding="UTF-8"?>
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Module1" script:language="StarBasic">
{subs}
Sub SortDown(area)
  Dim by(0) As New com.sun.star.table.TableSortField
  by(0).Field = 0 : by(0).IsAscending = False
  Dim how(1) As New com.sun.star.beans.PropertyValue
  how(0).Name = "SortFields" : how(0).Value = by()
  how(1).Name = "ContainsHeader" : how(1).Value = False
  area.sort(how())
End Sub
Sub ShowOnly(area, isText, text, number)
  Dim by(0) As New com.sun.star.sheet.TableFilterField
  by(0).Field = 0 : by(0).Operator = com.sun.star.sheet.FilterOperator.EQUAL
  by(0).IsNumeric = Not isText : by(0).StringValue = text : by(0).NumericValue = number
  how = area.createFilterDescriptor(True)
  how.ContainsHeader = True
  how.setFilterFields(by())
  area.filter(how)
End Sub
Sub Edit
{calls}
End Sub
</script:module>"""

# An error that nobody catches opens a dialog that nobody sees, and LibreOffice waits behind it.
SITTING = """Sub Edit{number}
  On Error GoTo Failed
  Dim hidden(0) As New com.sun.star.beans.PropertyValue
  hidden(0).Name = "Hidden" : hidden(0).Value = {hidden}
  Dim filter(0) As New com.sun.star.beans.PropertyValue
  filter(0).Name = "FilterName" : filter(0).Value = "Calc MS Excel 2007 XML"
  doc = StarDesktop.loadComponentFromURL("file://{source}", "_blank", 0, hidden())
  sheets = doc.Sheets
  For i = 0 To sheets.Count - 1
    sheets.getByIndex(i).unprotect("")
  Next i
{lines}
{settled}
  doc.storeToURL("file://{target}", filter())
  doc.close(True)
  Exit Sub
Failed:
  said = FreeFile
  Open "{target}.error" For Output As #said
  Print #said, "line " &amp; doing &amp; ": " &amp; Error$
  Close #said
  doc.close(True)
End Sub"""


# LibreOffice 7.4 works columns out in threads and may leave a cell a step behind until it recalculates once more (Sizes
# D5, when the first nozzle is cut; Nozzle check E5, when a sheet is put in); the letter refuses such a book as out of
# date.
SETTLED = "doc.calculateAll()"


def all_edited_in_libreoffice(sittings, as_seen=False):
    """Workbooks edited as a person would in LibreOffice, and saved as xlsx, all in one process: the new paths.

    sittings: (source, target, StarBasic lines that know `doc` and `sheets`) of each; as_seen: as people do, in a
    window, not recalculated on load, and saved with what stands there after the last line.
    """
    subs = [
        SITTING.replace("{number}", str(number))
        .replace("{source}", str(source))
        .replace("{target}", str(target))
        .replace("{hidden}", str(not as_seen))
        .replace("{settled}", "" if as_seen else f"  {SETTLED}")
        .replace("{lines}", escape("\n".join(f"  doing = {no} : {line}" for no, line in enumerate(lines, start=1))))
        for number, (source, target, lines) in enumerate(sittings)
    ]
    with tempfile.TemporaryDirectory() as profile:
        user = _profile(profile, as_seen)
        _soffice(profile, "--terminate_after_init")  # its first start lays an empty Module1 over any other
        module = MODULE.replace("{subs}", "\n".join(subs)).replace(
            "{calls}", "\n".join(f"  Edit{number}" for number in range(len(subs)))
        )
        (user / "basic" / "Standard" / "Module1.xba").write_text(module)
        _soffice(profile, "macro:///Standard.Module1.Edit")
    return _made([Path(target) for _, target, _ in sittings])


def formula_cells(layout):
    """(block key, column, record number from 1, copy) and the cell of every formula that a block declares."""
    for (key, _), place in layout.places.items():
        if not place.column.formula:
            continue
        block = place.block
        for record in range(1, (place.rows if block.down else place.cols if block.form == "card" else 1) + 1):
            for copy in range(place.column.repeat or 1):
                row = place.line(record - 1 if block.down else 0)
                across = record - 1 if block.form == "card" else copy
                yield key, place.column, record, copy, (place.sheet, row, place.col + across + 1)


def expected(estimate, key, column, record, copy):
    """What the model says of a formula cell."""
    value = getattr(estimate.rows[key][record - 1], column.key)
    if column.repeat and value is not None:
        value = value[copy]
    return estimate.units.to_cell(value, column.quantity)


def same(one, other):
    """Blank equals '', a number equals another within the tolerance, a date its day number."""
    one, other = (("" if value is None else value) for value in (one, other))
    if hasattr(other, "year"):
        from openpyxl.utils.datetime import to_excel

        other = to_excel(other)
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return abs(one - other) <= TOLERANCE * max(abs(one), abs(other)) + 1e-12
    return one == other


def resting_on(layout, functions):
    """'block.key' of every column whose formula uses one of these functions, or what such a formula gives."""
    places = {f"{block}.{key}": place for (block, key), place in layout.places.items() if place.column.formula}
    called = {name: set(_called(place)) for name, place in places.items()}
    found = {
        name for name, place in places.items() if any(f"{function}(" in place.column.formula for function in functions)
    }
    while more := {name for name in places if name not in found and called[name] & found}:
        found |= more
    return found


def _called(place):
    """'block.key' of every column that a formula speaks of."""
    for word, key in re.findall(r"[{:]#?[*^]?(?:(\w+)\.)?(\w+)", place.column.formula):
        link = place.block.links.get(word)
        yield f"{link.block if link else word or place.block.key}.{key}"


NO_SUCH = "#NAME?"  # what an engine shows for a function it does not have, and for what rests on that


def differences(estimate, layout, engine):
    """Every formula cell in which an engine and the model disagree, but for those that rest on a function the engine
    has not.
    """
    lacking = resting_on(layout, getattr(engine, "LACKS", ()))
    found = []
    for key, column, record, copy, cell in formula_cells(layout):
        want, got = expected(estimate, key, column, record, copy), engine.get(*cell)
        if not same(want, got) and not (got == NO_SUCH and f"{key}.{column.key}" in lacking):
            found.append((f"{key}.{column.key}", record, copy, cell, want, got))
    return found
