"""Three more spreadsheet engines, each with the interface of `engines.IronCalc`."""

import json
import subprocess
from pathlib import Path

import openpyxl
from openpyxl.utils.datetime import to_excel

from support.engines import Values

NODE = Path(__file__).parent / "node"


class Formualizer:
    """A workbook in formualizer."""

    def __init__(self, path):
        import formualizer

        self.book = formualizer.load_workbook(str(path))
        self.stale = True

    def put(self, sheet, row, col, value):
        self.book.set_value(sheet, row, col, None if value == "" else value)
        self.stale = True

    def get(self, sheet, row, col):
        if self.stale:
            self.book.evaluate_all()
            self.stale = False
        return self.book.get_value(sheet, row, col)


class Gnumeric(Values):
    """A workbook that gnumeric has recalculated, to be read: nothing can be put into it."""

    def __init__(self, path):
        into = path.parent / "gnumeric" / path.name
        into.parent.mkdir(exist_ok=True)
        command = ["ssconvert", "--recalc", "-T", "Gnumeric_Excel:xlsx2", str(path), str(into)]
        subprocess.run(command, capture_output=True, check=True, timeout=300)
        super().__init__(into)


class HyperFormula:
    """A workbook in HyperFormula, given to it cell by cell since it reads no file. One process holds all
    that are open.
    """

    LACKS = ("FIXED",)  # hyperformula.handsontable.com/guide/built-in-functions.html lists those it has
    process = None

    def __init__(self, path):
        self.name = str(path)
        book = openpyxl.load_workbook(path)
        sheets = {
            sheet.title: [list(map(_contents, row)) for row in sheet.iter_rows(values_only=True)] for sheet in book
        }
        names = [{"name": name, "expression": f"={area.attr_text}"} for name, area in book.defined_names.items()]
        self._ask({"open": self.name, "sheets": sheets, "names": names})
        self.values = None

    @classmethod
    def _ask(cls, request):
        if cls.process is None:
            pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
            cls.process = subprocess.Popen(["node", "recalculate.js"], cwd=NODE, text=True, **pipes)
        cls.process.stdin.write(json.dumps(request) + "\n")
        cls.process.stdin.flush()
        answer = cls.process.stdout.readline()
        if not answer:
            raise RuntimeError("HyperFormula ended without an answer")
        return json.loads(answer)

    @classmethod
    def end(cls):
        if cls.process:
            cls.process.stdin.close()
            cls.process.wait()
            cls.process.stdout.close()

    def put(self, sheet, row, col, value):
        at = {"sheet": sheet, "row": row - 1, "col": col - 1}
        self._ask({"put": self.name, "at": at, "value": None if value == "" else _contents(value)})
        self.values = None

    def get(self, sheet, row, col):
        if self.values is None:
            self.values = self._ask({"values": self.name})
        return self.values[sheet][row - 1][col - 1]


def _contents(value):
    """A cell's contents as HyperFormula takes them: a day as its number, text marked as such unless it is a formula."""
    if hasattr(value, "year"):
        return to_excel(value)
    return f"'{value}" if isinstance(value, str) and not value.startswith("=") else value
