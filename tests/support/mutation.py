"""Break every operator, comparison and constant of builder/trade once, and see that some test notices.

    python tests/support/mutation.py [MODULE ...]

Each mutant runs the tests of the equations in a copy of the project. Survivors are printed with their line; EQUIVALENT
names those that no test can tell from the original, and why. Takes minutes: a benchmark of the tests, not one of them.
"""

import ast
import copy
import os
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
TESTS = [
    *(
        f"trade/test_{name}.py"
        for name in ("docstrings", "units", "published", "published_work", "published_money", "reference_libraries")
    ),
    "model/test_properties.py",
    "model/test_alternates.py",
]
PATIENCE = 120  # seconds
SWAPS = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
NAMES = {"min": "max", "max": "min", "floor": "ceil", "ceil": "floor", "exp": "log", "log": "exp"}
EQUIVALENT = {  # "module.function: mutant" -> why no test can see it
    "packs._of: 0.0 -> 1.0": "it stands for the figure of a pack that is not offered, of which the number is always 0"
}


def places(tree):
    """Every (path of the node, kind of change) that can be made once."""
    for node in ast.walk(tree):
        if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in SWAPS:
            yield node, "op"
        elif isinstance(node, ast.BoolOp):
            yield node, "op"
        elif isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPS:
            yield node, "ops"
        elif (
            isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool)
        ):
            yield node, "value"
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NAMES:
            yield node, "name"
        elif isinstance(node, ast.IfExp):
            yield node, "branches"


def changed(node, kind):
    """The node changed in place; what it was and is, in words."""
    before = ast.unparse(node)
    if kind == "op":
        node.op = SWAPS[type(node.op)]()
    elif kind == "ops":
        node.ops[0] = SWAPS[type(node.ops[0])]()
    elif kind == "value":
        node.value = node.value + 1
    elif kind == "name":
        node.func.id = NAMES[node.func.id]
    else:
        node.body, node.orelse = node.orelse, node.body
    return f"{before} -> {ast.unparse(node)}"


def mutants(path):
    """(what changed, source) of every mutant of a module."""
    tree = ast.parse(path.read_text())
    for number, _ in enumerate(list(places(tree))):
        fresh = copy.deepcopy(tree)
        node, kind = list(places(fresh))[number]
        owner = next(
            (
                part.name
                for part in fresh.body
                if isinstance(part, ast.FunctionDef) and any(inner is node for inner in ast.walk(part))
            ),
            "",
        )
        words = f"{path.stem}.{owner}: {changed(node, kind)}"
        yield f"{words} (line {node.lineno})", ast.unparse(ast.fix_missing_locations(fresh))


def survives(folder, path, source):
    """Whether every test passes with this source in place of the module."""
    (folder / path.relative_to(ROOT)).write_text(source)
    found = [test for test in TESTS if (ROOT / "tests" / test).exists()]
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        *(f"tests/{test}" for test in found),
    ]
    environment = {**os.environ, "PYTHONPATH": str(folder), "HYPOTHESIS_STORAGE_DIRECTORY": str(folder)}
    try:
        run = subprocess.run(command, cwd=folder, capture_output=True, check=False, env=environment, timeout=PATIENCE)
    except subprocess.TimeoutExpired:
        return False  # a loop that no longer ends is noticed too
    return run.returncode == 0


def main(names):
    paths = [
        path
        for path in sorted((ROOT / "builder/trade").glob("*.py"))
        if path.stem in names or (not names and path.stem != "__init__")
    ]
    work = [(path, *mutant) for path in paths for mutant in mutants(path)]
    with tempfile.TemporaryDirectory() as top:

        def run(numbered):
            number, (path, words, source) = numbered
            folder = Path(top, str(number))
            folder.mkdir()
            for part in ("builder", "tests", "catalogs", "examples", "pyproject.toml"):
                (shutil.copytree if (ROOT / part).is_dir() else shutil.copy)(ROOT / part, folder / part)
            alive = survives(folder, path, source)
            shutil.rmtree(folder)
            return words if alive else None

        with ThreadPoolExecutor(os.cpu_count()) as pool:
            alive = [words for words in pool.map(run, enumerate(work)) if words]
    for words in alive:
        known = EQUIVALENT.get(words.rpartition(" (line")[0])
        print(f"{'equivalent' if known else 'SURVIVED'}: {words}{f': {known}' if known else ''}")
    print(
        f"{len(work)} mutants, {len(alive)} survived, of them {sum(words.rpartition(' (line')[0] in EQUIVALENT for words in alive)} equivalent"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
