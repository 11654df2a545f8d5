"""Price by part of the work (E46): parts are what lines name, add up to the price before tax, and bear what is theirs."""

import copy
import random
from fractions import Fraction

import pytest
from support.editing import SMALL, LiveBook, small_book
from support.slow import examples

from builder.records.checklist import PARTS
from builder.records.kinds import KINDS
from builder.stages.estimate import Estimate

SIDES = {0: "Front", 1: "Front", 2: "Back", 3: "Back"}  # row of Takeoff of the shed -> part


def base(estimate):
    """(name, price) of the parts of the base."""
    return [(row.name, row.price) for row in estimate.rows["parts"] if row.base_at]


def cents(amount, units):
    """An amount in the smallest step of its currency, which it must be whole in."""
    steps = Fraction(amount / units.scale("money")) / Fraction(units.money_step)
    whole = round(steps)
    assert abs(steps - whole) < Fraction(1, 10**4), amount
    return whole


@pytest.fixture
def shed(tmp_path):
    return small_book("us", tmp_path)


def parted(shed, names):
    """Values of the shed whose lines name their part."""
    values = copy.deepcopy(shed.values)
    for row, line in enumerate(values["takeoff"]):
        line["part"] = names.get(row)
    return values


def estimated(shed, values):
    return Estimate(values, shed.units, shed.layout.capacity)


@examples(20, 1000)
def test_parts_of_any_job_add_up_to_its_price_before_tax_to_the_cent(shed, count):
    draw, priced = random.Random(46), 0
    for _ in range(count):
        names = {row: draw.choice((None, "Front", "Back", "Garage", "GARAGE")) for row in range(len(SIDES) + 3)}
        values = parted(shed, names)
        for line in values["takeoff"]:
            line["length"] *= draw.uniform(0.2, 8)
        values["terms"][0] |= {"rounding": draw.choice((0.01, 0.37, 5.0)), "sales_tax": draw.choice((0.0, 0.0825))}
        estimate = estimated(shed, values)
        prices = [price for _, price in base(estimate)]
        net = estimate.rows["price"][0].net
        if net is None:  # drawn too large: it takes more days than a schedule has
            continue
        priced += 1
        assert sum(cents(price, shed.units) for price in prices) == cents(net, shed.units)
    assert priced > 0.9 * count


@pytest.mark.slow
def test_lines_of_one_part_stand_together_whatever_their_letters_and_the_rest_is_other(shed):
    estimate = estimated(shed, parted(shed, {0: "Front", 1: "FRONT", 3: "Back"}))
    assert [name for name, _ in base(estimate)] == ["Front", "Other", "Back"]


def test_where_no_line_names_a_part_each_system_is_one(shed):
    estimate = estimated(shed, parted(shed, {}))
    measured = [row.name for row in estimate.rows["systems"] if row.lines and not row.only]
    assert sorted(name for name, _ in base(estimate)) == sorted(measured)


@pytest.mark.slow
@pytest.mark.parametrize("part", ["Front", "Back", "Other"])
def test_twice_the_area_of_a_part_moves_that_part_most(shed, part):
    values = parted(shed, SIDES)
    before = dict(base(estimated(shed, values)))
    for row, line in enumerate(values["takeoff"]):
        if SIDES.get(row, "Other") == part:
            line["count"] = 2 * (line["count"] or 1)
    moved = {name: price - before[name] for name, price in base(estimated(shed, values))}
    assert max(moved, key=moved.get) == part and moved[part] > 0


@pytest.fixture
def crowded(shed, tmp_path):
    """The shed with eleven lines of its base, each of a part of its own, in a live book with room for more."""
    values = parted(shed, {})
    *lines, gate = values["takeoff"]  # which is an alternate
    values["takeoff"] = [gate, *({**lines[row % 5], "tag": None, "part": f"Bay {row}"} for row in range(11))]
    values["openings"] = []
    return LiveBook(values, shed.units, tmp_path, **{**SMALL, "takeoff": 15})


def typed(row, part):
    """A line of Takeoff more, of a part."""
    return [("takeoff", key, row, shown) for key, shown in
            (("system", "Boards"), ("profile", "Flat"), ("length", 10.0), ("height", 8.0), ("part", part))]  # fmt: skip


@pytest.mark.slow
def test_a_thirteenth_part_leaves_no_price_and_says_where_lines_are_put_together(crowded):
    """A line without a part, of which others name theirs, is the part 'Other': the twelfth here."""
    told = "More than 12 parts of the work are named: give lines that go together one name (Takeoff: Part)"
    with crowded.changed(*typed(12, "")):
        assert crowded.differences() == []
        estimate = crowded.estimate()
        assert len(base(estimate)) == 12 and estimate.checks.stops == 0 and estimate.rows["price"][0].total > 0
        with crowded.changed(*typed(13, "Bay 12")):
            assert crowded.differences() == []
            estimate = crowded.estimate()
            assert (estimate.checks.stops, estimate.checks.first) == (1, told)
            assert estimate.rows["price"][0].total is None and estimate.rows["brief"][0].state == "NO PRICE"
        with crowded.changed(*typed(13, "BAY 3")):
            assert crowded.differences() == []
            assert crowded.estimate().checks.stops == 0


def test_as_many_systems_as_a_book_holds_are_not_too_many_parts():
    """Where no line names a part each system is one."""
    assert KINDS["systems"].capacity <= PARTS
