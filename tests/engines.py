"""Two spreadsheet engines that recompute a workbook, and the comparison of every formula cell with the model."""
import subprocess
import tempfile
from pathlib import Path

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
        self.model.evaluate()

    def put(self, sheet, row, col, value):
        at = self.sheets[sheet], row, col
        if value == "":
            self.model.clear_cell_contents(*at)
        elif isinstance(value, str):
            self.model.update_cell_with_text(*at, value)
        else:
            self.model.update_cell_with_number(*at, value)

    def type(self, sheet, row, col, text):
        """What a person would type, formulas included."""
        self.model.set_user_input(self.sheets[sheet], row, col, text)

    def evaluate(self):
        self.model.evaluate()

    def get(self, sheet, row, col):
        return self.model.get_cell_value(self.sheets[sheet], row, col)


class Values:
    """The cached values of a workbook file."""

    def __init__(self, path):
        self.book = openpyxl.load_workbook(path, data_only=True)

    def get(self, sheet, row, col):
        return self.book[sheet].cell(row, col).value


def libreoffice(paths, into, macro=None):
    """Every file recalculated by LibreOffice from scratch and saved as xlsx into a folder: the new paths.

    Runs one process on a profile of its own. LibreOffice trusts cached values unless told otherwise, and
    exits 0 without writing when it fails, so both are seen to.
    """
    with tempfile.TemporaryDirectory() as profile:
        user = Path(profile, "user")
        user.mkdir()
        user.joinpath("registrymodifications.xcu").write_text(HARD_RECALCULATION)
        subprocess.run(["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "xlsx",
                        "--outdir", str(into), *map(str, paths)], capture_output=True, check=True, timeout=300)
    made = [Path(into, Path(path).name) for path in paths]
    missing = [path.name for path in made if not path.exists()]
    if missing:
        raise RuntimeError(f"LibreOffice wrote nothing for {missing}")
    return made


def formula_cells(layout):
    """(block key, column, record number from 1, copy) and the cell of every formula that a block declares."""
    for (key, _), place in layout.places.items():
        if not place.column.formula:
            continue
        block = place.block
        for record in range(1, (place.rows if block.form == "table" else place.cols if block.form == "card" else 1) + 1):
            for copy in range(place.column.repeat or 1):
                down = record - 1 if block.form == "table" else 0
                across = record - 1 if block.form == "card" else copy
                yield key, place.column, record, copy, (place.sheet, place.row + down, place.col + across + 1)


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


def differences(estimate, layout, engine):
    """Every formula cell in which an engine and the model disagree."""
    found = []
    for key, column, record, copy, cell in formula_cells(layout):
        want, got = expected(estimate, key, column, record, copy), engine.get(*cell)
        if not same(want, got):
            found.append((f"{key}.{column.key}", record, copy, cell, want, got))
    return found
