"""Lengths typed as text: one meaning in the cells of five programs, in the model, where a book is read, in a file."""

import pytest
from support.by_address import Addressed
from support.editing import SMALL, LiveBook, small_book
from support.engines import Values, differences, libreoffice
from support.more_engines import Formualizer, Gnumeric, HyperFormula
from support.slow import slow
from support.typed_lengths import INCHES, METERS, REFUSED, UNDERSTOOD

from builder.problems import BadValue
from builder.quantities import Units, scale
from builder.records import feet
from builder.records.kinds import KINDS
from builder.returned.typed import understood

LENGTH = KINDS["takeoff"].field_of["length"]
TEXTS = [text for text, *_ in UNDERSTOOD] + list(REFUSED)


def meters(number, what, units):
    """What was written down in the table, in meters."""
    return number * {INCHES: scale("in"), METERS: 1.0}.get(what, units.scale("length"))


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("text, number, what", UNDERSTOOD)
def test_a_text_has_one_meaning_in_the_model_in_a_returned_book_and_in_a_file(system, text, number, what):
    units = Units(system, "USD")
    want = meters(number, what, units)
    assert feet.read(text, units) == pytest.approx(want, rel=1e-12)
    assert understood(text, LENGTH, units) == pytest.approx(want, rel=1e-12)
    try:
        said = units.parse(text, "length")
    except BadValue:
        return  # a file asks for a unit by its listed spelling
    assert said == pytest.approx(want, rel=1e-12)


@pytest.mark.parametrize("text", REFUSED)
def test_what_may_be_two_things_or_none_is_no_length(text):
    assert feet.read(text, Units("us", "USD")) is None


def typed_book(system, folder):
    """A book each of whose lines has one of the texts as its length."""
    few = small_book(system, folder)
    line = dict(few.values["takeoff"][0])
    lines = [{**line, "tag": None, "length": text, "count": None} for text in TEXTS]
    return LiveBook({**few.values, "takeoff": lines, "openings": []}, few.units, folder, Values,
                    **{**SMALL, "takeoff": len(TEXTS)})  # fmt: skip


@pytest.fixture(scope="module", params=["us", slow("metric")])
def typed(request, tmp_path_factory):
    return typed_book(request.param, tmp_path_factory.mktemp(f"typed {request.param}"))


def test_the_book_says_what_was_written_down(typed):
    found = [(row.length_read, row.bad_length) for row in typed.estimate().rows["takeoff"]]
    for (text, number, what), (read, bad) in zip(UNDERSTOOD, found):
        assert not bad and read == pytest.approx(meters(number, what, typed.units), rel=1e-12), text
    assert found[len(UNDERSTOOD) :] == [(None, 1.0)] * len(REFUSED)
    assert typed.estimate().rows["price"][0].total is None


@pytest.mark.parametrize(
    "engine, needs",
    [
        (Addressed, None),
        slow(Formualizer, "formualizer_here"),
        slow(Gnumeric, "gnumeric_here"),
        slow(HyperFormula, "hyperformula_here"),
    ],
)
def test_an_engine_takes_every_text_apart_alike(request, typed, engine, needs):
    if needs:
        request.getfixturevalue(needs)
    assert differences(typed.estimate(), typed.layout, engine(typed.path)) == []


@pytest.mark.slow
def test_libreoffice_takes_every_text_apart_alike(typed, tmp_path, libreoffice_here):
    (again,) = libreoffice([typed.path], tmp_path)
    assert differences(typed.estimate(), typed.layout, Values(again)) == []
