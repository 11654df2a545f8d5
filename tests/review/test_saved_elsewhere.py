"""A book that another program saved, with nothing typed in it: no finding but what that program lost, one line each."""

import shutil
import subprocess

import pytest
from openpyxl import load_workbook
from support.books import SMALL, catalogs_of, room_of
from support.engines import libreoffice

from builder.returned import rewritten
from builder.returned.read import returned
from builder.review.inspect import inspect

pytestmark = pytest.mark.slow

NAME = SMALL + "boathouse"


def looked(path):
    with room_of(NAME):
        return inspect(returned(path), [catalogs_of(NAME)])


def test_openpyxl_leaves_the_results_out_which_is_one_line(books, tmp_path):
    load_workbook(books[NAME].path).save(tmp_path / "back.xlsx")
    look = looked(tmp_path / "back.xlsx")
    assert [finding.kind for finding in look.findings] == ["stale"]
    assert str(look.findings[0]).startswith("the program that saved the workbook left the results of its formulas out")
    assert look.opened.price() == books[NAME].opened.price()


@pytest.mark.skipif(not shutil.which("ssconvert"), reason="gnumeric is not installed")
def test_gnumeric_writes_formulas_in_its_own_way_which_is_no_finding(books, tmp_path):
    path = tmp_path / "back.xlsx"
    subprocess.run(["ssconvert", str(books[NAME].path), str(path)], check=True, capture_output=True)
    look = looked(path)
    assert look.findings == () and look.opened.price() == books[NAME].opened.price()


def test_a_book_that_went_through_xls_is_told_so_in_one_line(books, tmp_path):
    older = libreoffice([books[NAME].path], tmp_path / "older", "xls")
    look = looked(libreoffice(older, tmp_path / "back")[0])
    assert [finding.kind for finding in look.findings] == ["xls"]
    assert "went through the format .xls, which has 256 columns" in str(look.findings[0])
    assert look.doubtful and look.opened.price() == books[NAME].opened.price()


@pytest.mark.parametrize(
    "found", ["=SUM(--(a=1))*NORMSINV(b)", "= sum( --(A=1) ) * normsinv(B)", "=SUM(-(-(a=1)))*_xlfn.NORM.S.INV(b)"]
)
def test_a_formula_that_a_program_wrote_in_its_own_way_is_the_same(found):
    assert rewritten.same(found, "=SUM(--(a=1))*NORMSINV(b)")


@pytest.mark.parametrize(
    "found, made",
    [
        ("=-(-(a)+b)", "=--(a)+b"),  # -(-a+b) is a-b
        ("=-(-a*b)", "=--a+b"),
        ("=SUM(-(a=1))", "=SUM(--(a=1))"),
        ("=NORM.S.DIST(b)", "=NORMSINV(b)"),
        ("=-(-(a", "=--(a)"),
        (5.0, "=--(a)"),
        (None, "=--(a)"),
    ],
)
def test_one_that_means_something_else_is_not(found, made):
    assert not rewritten.same(found, made)
