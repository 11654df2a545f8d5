"""What tests of all kinds share: the books, what engines make of them, and the plain reason for skipping where an
engine is missing.
"""

# ruff: noqa: E402
import gc
import os
import shutil
from importlib.util import find_spec

import pytest
from hypothesis import HealthCheck, Phase, settings

pytest.register_assert_rewrite("support")  # so that what helpers assert is told with its values too

from support.books import Books
from support.more_engines import NODE, HyperFormula
from support.saved import Saved
from support.shared import Shared
from support.sittings import Sittings
from support.small import small_books

# Books are many small objects that live long: looking for garbage among them all the time takes a quarter of the run.
gc.set_threshold(100_000, 10, 20)

# The same examples in every run; a failing one is shown as drawn, since making it smaller takes minutes.
settings.register_profile(
    "wetfilm",
    derandomize=True,
    deadline=None,
    database=None,
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.function_scoped_fixture],
)
settings.load_profile("wetfilm")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """A sitting in LibreOffice is one start of it, half a minute long, for all tests that look at what it saved."""
    for item in items:
        if item.get_closest_marker("sitting"):
            item.add_marker("slow")


@pytest.fixture(scope="session")
def books(tmp_path_factory):
    """name -> an opened job, its layout, its bytes and a file that holds them."""
    return Books(tmp_path_factory.mktemp("books"))


@pytest.fixture(scope="session")
def shared(tmp_path_factory):
    """What takes long to make, made once for all workers."""
    return Shared.of_run(tmp_path_factory)


@pytest.fixture(scope="module")
def small():
    """The tests of this module make and read small books."""
    with small_books():
        yield


@pytest.fixture(scope="session")
def saved(books, shared, libreoffice_here):
    """saved(name) -> the path of a book that LibreOffice recalculated and saved."""
    return Saved(shared, books)


@pytest.fixture(scope="session")
def sittings(request, books, shared, libreoffice_here):
    return Sittings(shared, request.session.items, books)


@pytest.fixture
def edited(request, sittings):
    """The path of a book after a sitting in LibreOffice, that of the test's mark `sitting`."""
    return sittings.of(request.node)


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
    _needed(
        shutil.which("node") and (NODE / "node_modules/hyperformula").exists(),
        "HyperFormula",
        "npm ci, in tests/support/node",
    )
    yield
    HyperFormula.end()
