"""What the tests of the model share."""

import pytest
from support.places import BOATHOUSE, CATALOGS

from builder.jobs import open_job


@pytest.fixture(scope="module")
def boathouse():
    return open_job(BOATHOUSE, [CATALOGS])
