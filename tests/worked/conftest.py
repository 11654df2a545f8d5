"""What the pages share: the book of the job that a module names as JOB, on catalogs laid over those of BEFORE."""

from pathlib import Path

import pytest
from support.worked import book_of


@pytest.fixture(scope="module")
def book(request, tmp_path_factory):
    here, before = Path(__file__).parent, getattr(request.module, "BEFORE", None)
    return book_of(here / request.module.JOB, tmp_path_factory.mktemp("worked"), before and here / before)
