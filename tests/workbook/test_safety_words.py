"""What the product tells people to do near paint under pressure: the words that come first, come first, everywhere.

The order (relieve the pressure, lock the trigger, then touch) is that of 29 CFR 1926.302(b)(8)-(9), from memory, and of
common practice; that paint is not heated on site is a rule of this book: data sheets name a
temperature, and solvents burn.
"""

import re

import openpyxl
import pytest
from support.places import ROOT

FIRST = re.compile(r"(\d  |[A-Z][a-z]+: )?Relieve the pressure(,| and) lock the trigger")
TOUCH = re.compile(
    r"(?:^|[.:;,(?!] *|\d  |\bor |\band )"
    r"(clean|change|swap|replace|unscrew|loosen|tighten|remove|reverse|turn|put|take|fit|wipe|touch(?!-)|"
    r"disconnect|open)\b[^.;]*\b(nozzle|filter|strainer|hose|gun|spare|guard)s?\b",
    re.IGNORECASE,
)
HEAT = re.compile(r"\b(heat|warm)(s|ed|er|ing)?\b", re.IGNORECASE)


def unsafe(text):
    """Whether a text sends people to what is under pressure without the words that come first."""
    return bool(TOUCH.search(text)) and not FIRST.match(text)


def told(books):
    """Every text of the workbooks, their prompts, the catalogs' comments and the README."""
    for name in ("boathouse", "corridor", "shed", "blank"):
        for sheet in openpyxl.load_workbook(books[name].path, data_only=True):
            yield from (str(cell.value) for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str))
            yield from (rule.prompt or rule.error for rule in sheet.data_validations.dataValidation)
    for path in (*(ROOT / "catalogs").glob("*.yaml"), *(ROOT / "examples").glob("*.yaml"), ROOT / "README.md"):
        yield from re.split(r"(?<=[.:]) ", path.read_text().replace("\n", " "))


@pytest.fixture(scope="module")
def texts(books):
    return sorted(set(told(books)))


@pytest.mark.slow
def test_no_text_sends_people_to_nozzle_filter_hose_or_gun_before_the_pressure_is_relieved(texts):
    assert [text for text in texts if unsafe(text)] == []
    assert sum(bool(FIRST.match(text)) for text in texts) >= 4  # two remedies, the caution, the README's own words


@pytest.mark.slow
def test_no_text_speaks_of_heating_paint(texts):
    assert [text for text in texts if HEAT.search(text)] == []


@pytest.mark.parametrize(
    "text",
    [
        "2  Filter: clean or change those of gun and pump.",
        "Change the nozzle",
        "3  Wear: put in the spare.",
        "Tails? Reverse the nozzle, then relieve the pressure.",
        "Clean the filter. Relieve the pressure, lock the trigger.",
    ],
)
def test_the_test_sees_what_it_is_for(text):
    assert unsafe(text) and HEAT.search("let it warm up") and HEAT.search("heat the hose")
