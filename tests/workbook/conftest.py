"""What the tests of the rules of a workbook share: the books that they look at, as files."""

import pytest
from support.files import File
from support.odd_books import ODD
from support.places import EXAMPLES
from support.slow import slow

EVERY_DAY = ("small boathouse", "drawn at random in metric")
OTHERS = (*EXAMPLES, "small blank in metric", "large", "blank", "blank in metric", "drawn at random")


@pytest.fixture(scope="session")
def files(books, tmp_path_factory):
    """files(name) -> a book as the parts of its file, with its layout and estimate."""
    opened, folder = {}, tmp_path_factory.mktemp("odd")

    def file(name):
        if name not in opened:
            opened[name] = File(ODD[name](folder) if name in ODD else books[name])
        return opened[name]

    return file


@pytest.fixture(params=[*EVERY_DAY, *map(slow, OTHERS)])
def book(request, files):
    return files(request.param)
