"""Books built once for all tests, and the plain reason for skipping where LibreOffice is missing."""
import os
import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest

from builder.jobs import open_job
from builder.sheets.book import blocks
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



@pytest.fixture(scope="session")
def libreoffice_here():
    """Skips on a machine without LibreOffice; fails in CI, where it must be."""
    if shutil.which("soffice"):
        return
    if os.environ.get("CI"):
        pytest.fail("soffice is missing; .ci/run installs it")
    pytest.skip("LibreOffice (soffice) is not installed: the second engine is left out")
