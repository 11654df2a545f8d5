"""Every formula keeps to the dialect that all programs compute alike; each way out of it is seen."""

import re
import zipfile
from dataclasses import replace

import pytest
from support.books import EACH_BOOK
from support.dialect import FUNCTIONS, strays

from builder.workbook.layout import Layout


@EACH_BOOK
def test_every_formula_keeps_to_the_dialect(books, name):
    layout = books[name].layout
    for (key, column), place in layout.places.items():
        if place.column.formula:
            for copy in range(place.column.repeat or 1):
                assert not list(strays(layout, place.block, place.column, copy)), f"{key}.{column}"


def test_every_function_of_the_dialect_is_used(books):
    """A list that is longer than what is needed holds nothing."""
    layout = books["boathouse"].layout
    worked_out = [place for place in layout.places.values() if place.column.formula]
    text = " ".join(layout.template(place.block, place.column) for place in worked_out)
    assert FUNCTIONS == set(re.findall(r"([A-Z]+)\(", re.sub(r'"[^"]*"', "", text)))


@pytest.mark.parametrize(
    "formula, told",
    [
        ("SUM(INDEX({sizes.due},0,{no}))", "INDEX with 0: sizes_due"),
        ("COUNT(INDEX({sizes.due},{no},0))", "INDEX with 0: sizes_due"),
        ("INDEX({price.total},{no})", "INDEX of a row or of copies without both numbers: price_total"),
        ("INDEX({price.total},{no},1)", "INDEX of a row or of copies without both numbers: price_total"),
        ("INDEX({sizes.due},{no})", "INDEX of a row or of copies without both numbers: sizes_due"),
        ("INDEX({gallons.need},{no},1)", "INDEX of a column with two numbers: gallons_need"),
        ("INDEX(SMALL({gallons.need},1),1)", "INDEX of what is no area: SMALL(gallons_need,1)"),
        ("MATCH(1,INDEX({words.method_sprays}=1,0),0)", "INDEX of what is no area: words_method_sprays=1"),
        ("SUM({gallons.need}:INDEX({gallons.need},{no}))", "an area that ends at a found cell"),
        ("SUM(INDEX({gallons.need},1):INDEX({gallons.need},{no}))", "an area that ends at a found cell"),
        ("ROW()-ROW({gallons.need})", "ROW of a name"),
        ("ROWS({takeoff.all})", "ROWS of a name"),
        ("COLUMNS({takeoff.around})", "function COLUMNS"),
        ("COUNTA(INDEX({takeoff.length},{no}))", "a count of found cells"),
        ("COUNTBLANK(INDEX({takeoff.length},{no}))", "a count of found cells"),
        ("SUMPRODUCT(--ISBLANK({takeoff.length}))", "ISBLANK of an area"),
        ("SUMPRODUCT(MAX(({gallons.lead}={no})*{gallons.fill}))", "MAX or MIN of an array"),
        ("SUM(CHOOSE({no},{gallons.need},{gallons.fill}))", "CHOOSE of areas: gallons_need"),
        ("N({job.wage})", "N of an input: {job.wage}"),
        ("1+N({crew.wage})", "N of an input: {crew.wage}"),
        ("MIN({job.wage},{no})", "MIN of what may be blank: {job.wage}"),
        ("XLOOKUP({no},{gallons.no},{gallons.need})", "function XLOOKUP"),
        ("NORMSDIST({no})", "function NORMSDIST"),
        ("OFFSET({no},1,1)", "function OFFSET"),
        ("SUMPRODUCT(--ISNUMBER(FIND({coatings.name},{no})))", "FIND of an area: coatings_name"),
        ("Cost!A1+{no}", "an address of another sheet"),
    ],
)
def test_what_is_not_of_the_dialect_is_seen(books, formula, told):
    book = books["boathouse"]
    cost = book.layout.places["cost", "cost"]
    column = replace(cost.column, formula=formula)
    assert told in list(strays(Layout(book.layout.blocks, book.estimate.capacity), cost.block, column))
    assert not list(strays(book.layout, cost.block, cost.column))


def test_a_whole_copy_of_another_sheet_is_refused_when_the_book_is_made(books):
    book = books["boathouse"]
    cost = book.layout.places["cost", "cost"]
    with pytest.raises(ValueError, match="a whole copy, {sizes.due@no}, is looked at on its own sheet"):
        column = replace(cost.column, formula="SUM({sizes.due@no})")
        Layout(book.layout.blocks, book.estimate.capacity).template(cost.block, column)


def test_conditional_formats_look_at_their_own_sheet_alone(books):
    """Programs that run in a browser refuse a rule that takes a name or a cell of another sheet."""
    found = []
    with zipfile.ZipFile(books["boathouse"].path) as parts:
        for part in parts.namelist():
            if part.startswith("xl/worksheets/sheet"):
                found += re.findall(r"<cfRule.*?<formula>(.*?)</formula>", parts.read(part).decode(), re.S)
    assert len(found) > 4 and not any(re.search(r"[a-z]+_[a-z]|!", formula) for formula in found)
