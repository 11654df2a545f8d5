"""The letter that goes with a bill: what it says, that the workbook stays at home, and when there is none."""

import copy

import pytest
from support.drafts import mailed, text
from support.places import ROOT
from support.small import CATALOGS

from builder.jobs import from_values, open_job
from builder.workbook.make import make

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def shed(small):
    return open_job(ROOT / "tests/data/shed_running.yaml", [CATALOGS])


def _other(shed, job=(), **tables):
    values = {**copy.deepcopy(shed.values), **tables}
    values["job"][0].update(job)
    return make(from_values(values, shed.units, shed.settings))


def test_the_letter_says_the_bill_and_leaves_the_workbook_at_home(shed, tmp_path, monkeypatch):
    """400 + 1,800 + 676.50 * 16 h / 23 h = 2,670.61 by stages, 400 paid; of 4,676.50 then 2,005.89 are open. Without
    the page, which takes LibreOffice; a price that is missing today stops no bill.
    """
    monkeypatch.setenv("PATH", str(tmp_path))
    letter = mailed(tmp_path, _other(shed, {"accepted": None}), "--bill", "--to", "client@example.com")
    assert letter.status == 0 and "without the Bill page" in letter.said
    assert letter.message["Subject"] == "Bill 2: Bicycle shed" and not list(letter.message.iter_attachments())
    said = " ".join(text(letter.message).split())
    for words in (
        "bill number 2 for Bicycle shed, for Invented client, of 5 June 2026",
        "Due now: 2,270.61 USD",
        "Less trim, 4 June 2026 -120.50 USD",
        "Contract with changes 4,676.50 USD",
        "Due to date 2,670.61 USD",
        "Open afterwards, once this bill is paid 2,005.89 USD",
    ):
        assert words in said, words
    for words in ("cost", "margin", "wage", "gal"):
        assert words not in said


def test_no_letter_where_nothing_is_signed_or_billed(shed, tmp_path):
    for data, told in (
        (_other(shed, {"signed_price": None}), "there is no bill: no price is signed"),
        (_other(shed, bills=[]), "there is no bill: no row of Bills on Changes has a date"),
    ):
        letter = mailed(tmp_path, data, "--bill", "--anyway")
        assert letter.status and told in letter.said and letter.message is None
