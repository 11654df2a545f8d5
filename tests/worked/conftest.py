"""What the pages share: the book of the job that a module names as JOB."""

from pathlib import Path

import pytest
from support.worked import book_of


@pytest.fixture(scope="module")
def book(request, tmp_path_factory):
    return book_of(Path(__file__).with_name(request.module.JOB), tmp_path_factory.mktemp("worked"))
