"""The maps of DEVELOPERS.md hold: imports go up its table, never in a circle; a module's name stands once; equations
are where it says.
"""

import ast
import re
from collections import Counter
from graphlib import TopologicalSorter

from support.places import ROOT

BUILDER = ROOT / "builder"
ENTRY = {"__init__", "__main__"}


def _parts(path):
    return path.relative_to(ROOT).with_suffix("").parts


MODULES = {".".join(_parts(path)): path for path in BUILDER.rglob("*.py")}


def _imports(path):
    """Modules of the program that a module imports, at its top or later."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {
                name for alias in node.names for name in (f"{node.module}.{alias.name}", node.module) if name in MODULES
            }
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names if alias.name in MODULES}
    return found


IMPORTS = {name: _imports(path) for name, path in MODULES.items() if path.stem not in ENTRY}


def _rows():
    """Place -> its line in the map, counted from the top."""
    table = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("| place | what it holds |")[1].split("\n\n")[0]
    cells = [line.split("|")[1] for line in table.splitlines() if line.startswith("| `")]
    return {
        place.removesuffix(".py").rstrip("/"): row
        for row, cell in enumerate(cells)
        for place in re.findall("`([^`]+)`", cell)
    }


ROWS = _rows()


def test_every_module_has_its_place():
    assert {name.split(".")[1] for name in IMPORTS} == set(ROWS)


def test_imports_go_up_the_map():
    wrong = [
        f"{name} imports {other}"
        for name, others in IMPORTS.items()
        for other in others
        if ROWS[other.split(".")[1]] > ROWS[name.split(".")[1]]
    ]
    assert not wrong, "\n".join(wrong)


def test_no_circle():
    assert list(TopologicalSorter(IMPORTS).static_order())  # a CycleError names the circle


def test_a_name_stands_once():
    named = Counter(name.rpartition(".")[2] for name in IMPORTS)
    assert [name for name, count in named.items() if count > 1] == []


def test_the_library_that_writes_and_the_one_that_reads_stay_in_their_rooms():
    def users(library):
        return {
            name.split(".")[1]
            for name, path in MODULES.items()
            if re.search(rf"^\s*(from|import) {library}\b", path.read_text(encoding="utf-8"), re.M)
        }

    assert users("xlsxwriter") == {"workbook"}
    assert users("openpyxl") == {"returned"}


EQUATION = re.compile(r"\bE(\d+)(?:-E(\d+))?\b")


def _equations(path):
    """Numbers of the equations that a module names, those of its ranges too."""
    found = EQUATION.findall(path.read_text(encoding="utf-8"))
    return {number for first, last in found for number in range(int(first), int(last or first) + 1)}


def test_every_equation_is_found_where_the_index_says():
    table = (
        (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("| | what | trade | stages |")[1].split("\n\n")[0]
    )
    index = {}
    for line in table.splitlines()[2:]:
        number, _, *places = [cell.strip() for cell in line.strip("|").split("|")]
        index[int(number[1:])] = {
            f"builder.{room}.{name}"
            for room, cell in zip(("trade", "stages"), places)
            for name in cell.split(", ")
            if name
        }
    named = {name: _equations(path) for name, path in MODULES.items() if name.split(".")[1] in ("trade", "stages")}
    assert set().union(*named.values()) == set(index)
    missing = [
        f"E{number} is not named in {name}"
        for number, names in index.items()
        for name in names
        if number not in named[name]
    ]
    unlisted = [
        f"E{number}: {name} is not in the index"
        for name, numbers in named.items()
        if ".trade." in name
        for number in numbers
        if name not in index[number]
    ]
    assert not missing + unlisted, "\n".join(missing + unlisted)
