"""What the tests of published figures share."""

import pytest
from support.places import CATALOGS

from builder.jobs import open_job


@pytest.fixture(scope="module")
def opened():
    return open_job(None, [CATALOGS])


@pytest.fixture(scope="module")
def shipped(opened):
    return opened.estimate
