"""What the tests of the commands share."""

import pytest
from support.places import SHED


@pytest.fixture
def here(tmp_path, monkeypatch, books, small):
    """A folder to work in: job.yaml, and book.xlsx, a small one, that was built of it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(SHED.read_text())
    (tmp_path / "book.xlsx").write_bytes(books["small shed"].data)
    return tmp_path
