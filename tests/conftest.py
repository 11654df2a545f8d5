"""Books built once for all tests, and the plain reason for skipping where an engine is missing."""
import os
import shutil
from importlib.util import find_spec
from pathlib import Path
from types import SimpleNamespace

import pytest
from more_engines import NODE, HyperFormula

from builder.jobs import open_job
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make

ROOT = Path(__file__).parent.parent
BOOKS = {
    "boathouse": (ROOT / "examples/boathouse.yaml", None), "boathouse in metric": (ROOT / "examples/boathouse.yaml", "metric"),
    "corridor": (ROOT / "examples/corridor.yaml", None), "corridor in us": (ROOT / "examples/corridor.yaml", "us"),
    "blank": (None, None), "blank in metric": (None, "metric"), "shed": (ROOT / "tests/data/shed.yaml", None),
}


@pytest.fixture(scope="session")
def books(tmp_path_factory):
    """name -> an opened job, its layout, its bytes and a file that holds them."""
    folder, built = tmp_path_factory.mktemp("books"), {}
    for name, (job, system) in BOOKS.items():
        opened = open_job(job, [ROOT / "catalogs"], system)
        assert not opened.problems, opened.problems
        data, path = make(opened), folder / f"{name}.xlsx"
        path.write_bytes(data)
        capacity = opened.estimate.capacity
        built[name] = SimpleNamespace(opened=opened, estimate=opened.estimate, data=data, path=path,
                                      layout=Layout(blocks(opened.units, capacity), capacity))
    return built


def _needed(there, missing, how):
    """Skips on a machine without an engine; fails in CI, where it must be."""
    if there:
        return
    if os.environ.get("CI"):
        pytest.fail(f"{missing} is missing; .ci/run installs it")
    pytest.skip(f"{missing} is not installed ({how}): this engine is left out")


@pytest.fixture(scope="session")
def libreoffice_here():
    _needed(shutil.which("soffice"), "LibreOffice (soffice)", "Debian's libreoffice-calc")


@pytest.fixture(scope="session")
def gnumeric_here():
    _needed(shutil.which("ssconvert"), "gnumeric (ssconvert)", "Debian's gnumeric")


@pytest.fixture(scope="session")
def formualizer_here():
    _needed(find_spec("formualizer"), "formualizer", "pip install -e '.[test]'")


@pytest.fixture(scope="session")
def hyperformula_here():
    """Closes its process when the tests are done."""
    _needed(shutil.which("node") and (NODE / "node_modules/hyperformula").exists(), "HyperFormula", "npm ci, in tests/support/node")
    yield
    if HyperFormula.process:
        HyperFormula.process.stdin.close()
        HyperFormula.process.wait()
        HyperFormula.process.stdout.close()
