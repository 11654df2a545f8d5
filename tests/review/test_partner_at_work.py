"""A workbook in which a partner was at work for a sitting: inspected, compared and reissued."""

import copy

import pytest
from support.returning import inputs, partner
from support.small import CATALOGS

from builder.records.kinds import KINDS
from builder.returned.read import returned
from builder.review.compare import compare
from builder.review.inspect import inspect
from builder.review.reissue import reissue
from builder.workbook.make import make

pytestmark = [pytest.mark.sitting("small boathouse", partner), pytest.mark.usefixtures("small")]


@pytest.fixture(scope="module")
def changed(request, sittings):
    """The book as it came back."""
    item = next(item for item in request.session.items if item.module is request.module)
    return returned(sittings.of(item))


def test_inspect_names_the_three_formulas_and_the_stray_row(books, changed):
    layout = books["small boathouse"].layout
    stray = layout.places["takeoff", "tag"].row + layout.places["takeoff", "tag"].rows + 2
    findings = inspect(changed, [CATALOGS]).findings
    assert [(one.sheet, one.message.split(":")[0]) for one in findings if one.kind == "formula"] == [
        ("Areas", "Coated area (ft2)"),
        ("Hours", "Labor (h)"),
        ("Price workings", "Cost (USD)"),
    ]
    assert [
        (one.kind, one.sheet, one.cell)
        for one in findings
        if one.kind in ("row below", "moved", "name", "sheet", "beside", "stale")
    ] == [("row below", "Measured", f"row {stray}"), ("moved", "Job", f"B{layout.places['job', 'fault'].row + 4}")]
    assert [str(one) for one in findings if one.kind == "catalog"] == [
        "Coatings 'Interior wall eggshell', price of pack 2: 176 -> 199 USD"
    ]
    assert [one.message for one in findings if one.kind == "formula typed"] == [
        "Length: the formula =12+14 is read as its value, 26 ft"
    ]
    assert sum(one.kind == "lost" for one in findings) == 1  # the protection that the sitting took off
    assert [(one.kind, one.sheet) for one in findings if one.kind == "renamed"] == [("renamed", "Measured")]
    assert len(findings) == 9  # and nothing else: 9 in and 0,75 are understood by the cell itself


def test_compare_tells_exactly_what_was_changed(books, changed):
    one = compare(returned(books["small boathouse"].path), changed, [CATALOGS])
    units = books["small boathouse"].opened.units
    assert sorted(effect.difference.words(units) for effect in one.inputs) == [
        "Coats 'Cladding lower', coating: Exterior acrylic satin -> Exterior acrylic heavy coat",
        "Takeoff 'S1', place: South side -> blank",
        "Takeoff 'Trim, 20 ft, 1 ft' is added",
        "Takeoff 'Trim, 26 ft, 0.75 ft' is added",
        "Takeoff 'Trim, 40 ft, 0.75 ft' is added",
        "Takeoff 'W1', item: Lower boards -> South side",
    ]
    assert [effect.difference.words(units) for effect in one.catalogs] == [
        "Coatings 'Interior wall eggshell', price of pack 2: 176 -> 199 USD"
    ]
    assert all(effect.price > 0 for effect in (*one.inputs[:4], *one.catalogs))
    assert len(one.touched) == 5 and {book for book, _ in one.touched} == {changed.name}


def test_reissue_keeps_every_input_and_is_healthy(books, changed, tmp_path):
    one = reissue(changed, [CATALOGS])
    (tmp_path / "again.xlsx").write_bytes(make(one.after))
    again = returned(tmp_path / "again.xlsx")
    values, units = again.values, again.units
    trim = {"system": "Trim", "length": 26 * 0.3048, "height": 0.75 * 0.3048}
    before = inputs(books["small boathouse"].opened.values)
    want = copy.deepcopy(before)
    blank = dict.fromkeys(KINDS["takeoff"].field_of)
    want["takeoff"][1:1] = []
    added = [{**blank, **trim}, {**blank, **trim, "length": 40 * 0.3048}]
    want["takeoff"] = [
        *want["takeoff"][:2],
        *added,
        *want["takeoff"][2:],
        {**blank, "system": "Trim", "length": 20 * 0.3048, "height": 0.3048},
    ]
    want["takeoff"][0]["place"] = None
    next(row for row in want["takeoff"] if row["tag"] == "W1")["item"] = "South side"
    want["coats"][1]["coating"] = "Exterior acrylic heavy coat"
    assert inputs(values) == {
        kind: [
            {key: units.settle(value, KINDS[kind].field_of[key].quantity) for key, value in row.items()} for row in rows
        ]
        for kind, rows in want.items()
    }
    assert next(row for row in values["coatings"] if row["name"] == "Interior wall eggshell")["pack2_price"] == 199
    assert (
        inspect(again, [CATALOGS]).findings == ()
        and one.after.price() == one.before.price() > books["small boathouse"].opened.price()
    )
