"""Rooms, counted windows and doors, amounts of tasks, blanks that stand for the usual: alike in five programs and the
model, as they stand and after edits.
"""

import copy

import pytest
from support.by_address import Addressed
from support.editing import LiveBook
from support.engines import Values, differences, libreoffice
from support.entering import BEDROOMS, HOUSE
from support.more_engines import Formualizer, Gnumeric, HyperFormula
from support.small import CATALOGS

from builder.jobs import open_job

ROOM = {"takeoff": 10, "openings": 3, "rooms": 4, "kit": 2, "tasks": 14, "coats": 9, "nozzles": 15, "systems": 7}
BLANKS = ("people", "exposure", "opening_none", "opening_both")


def whole_house(system, folder, engine):
    """The house outside and its bedrooms as one job, with no more said of it than must be."""
    outside, inside = (open_job(job, [CATALOGS], system) for job in (HOUSE, BEDROOMS))
    values = copy.deepcopy(outside.values) | {"rooms": inside.values["rooms"]}
    values["job"][0] |= dict.fromkeys(BLANKS)
    values["coats"][0]["coats"] = None
    values["tasks"][0] = {**values["tasks"][0], "task": "Mask fittings", "amount_from": "openings", "share": 0.5}
    return LiveBook(values, outside.units, folder, engine, **ROOM)


@pytest.mark.slow
@pytest.mark.parametrize(
    "engine, needs",
    [
        (Values, None),
        (Addressed, None),
        (Formualizer, "formualizer_here"),
        (Gnumeric, "gnumeric_here"),
        (HyperFormula, "hyperformula_here"),
    ],
)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_an_engine_works_the_house_out_alike(request, tmp_path, system, engine, needs):
    if needs:
        request.getfixturevalue(needs)
    book = whole_house(system, tmp_path, engine)
    assert book.estimate().rows["price"][0].total > 0
    assert book.differences() == []


@pytest.mark.slow
def test_libreoffice_works_the_house_out_alike(tmp_path, libreoffice_here):
    book = whole_house("us", tmp_path, Values)
    (again,) = libreoffice([book.path], tmp_path / "again")
    assert differences(book.estimate(), book.layout, Values(again)) == []


@pytest.fixture(scope="module")
def live(tmp_path_factory):
    return whole_house("us", tmp_path_factory.mktemp("live house"), Addressed)


@pytest.mark.slow
@pytest.mark.parametrize(
    "change, stops",
    [
        (("rooms", "length", 0, "14'6"), True),
        (("rooms", "length", 0, "14' 6\""), False),
        (("rooms", "walls", 0, ""), False),
        (("rooms", "walls", 0, "Wals"), True),
        (("rooms", "windows", 1, 60.0), True),
        (("rooms", "height", 2, ""), True),
        (("rooms", "name", 3, "Hall"), True),
        (("takeoff", "height", 0, "18 ft 3 in"), False),
        (("takeoff", "windows", 1, 2.5), True),
        (("takeoff", "system", 2, "Block"), False),
        (("openings", "width", 0, "16 1/2'"), False),
        (("openings", "width", 0, "1,600"), True),
        (("terms", "window_width", 0, ""), True),
        (("terms", "base_height", 0, ""), True),
        (("terms", "door_width", 0, 2.5), False),
        (("terms", "opening_none", 0, ""), False),
        (("job", "opening_none", 0, 30.0), False),
        (("job", "crew", 0, "seasoned"), False),
        (("job", "crew", 0, "nobody"), True),
        (("job", "crew", 0, ""), False),  # the first is the steady one, whom a nozzle fits for each coat
        (("job", "pump", 0, ""), False),
        (("job", "people", 0, 3.0), False),
        (("crews", "name", 0, ""), True),
        (("coats", "coats", 1, ""), False),
        (("tasks", "amount_from", 0, "coated area"), True),
        (("tasks", "share", 0, 0.25), False),
        (("tasks", "count", 0, 7.0), False),
        (("tasks", "system", 0, "Block"), False),
        (("tasks", "amount_from", 1, "coated area"), False),
    ],
)
def test_after_an_edit_the_engine_and_the_model_agree(live, change, stops):
    with live.changed(change):
        assert live.differences() == []
        assert (live.estimate().rows["price"][0].total is None) == stops
