"""Every trade function called with pint quantities in the units a painter uses: a wrong unit cannot pass.

In the workbook and the model alike a wrong unit would agree with itself; here it raises, or gives another number.
"""

import pint
import pytest
from support.equations import FUNCTIONS

from builder.problems import BadValue
from builder.quantities import SHOWN, ZERO, Units, scale, units_of
from builder.records.fields import Field
from builder.returned.typed import understood
from builder.spellings import SPELLINGS, measured
from builder.stages.constants import shown_constants
from builder.trade import (
    billing,
    carrying,
    earning,
    film,
    labor,
    packs,
    price,
    proving,
    rental,
    schedule,
    spray,
    takeoff,
    wear,
    working_days,
)

UNIT = pint.UnitRegistry()
UNIT.define("money = [money]")
Q = UNIT.Quantity

CALLS = {  # function -> (arguments, what it returns), each a number with the unit pint knows it by
    takeoff.gross: ([0.5, (14, "ft"), (9, "ft")], "ft**2"),
    takeoff.opening_share: ([(20, "ft**2"), (5, "ft**2"), (32, "ft**2"), 2], ""),
    takeoff.opening_perimeter: ([(3, "ft"), (7, "ft")], "ft"),
    takeoff.top: ([(10, "foot"), (8, "foot")], "foot"),
    takeoff.measured: ([(100, "ft**2"), (20, "ft**2"), 1.2, 2], "ft**2"),
    film.wet_film: ([(1.7, "thou"), 0.38, 0.1], "thou"),
    film.wet_film_of_spread: ([(80, "ft**2/gal"), 0.1], "thou"),
    film.theoretical_spread: ([(1.7, "thou"), 0.38], "ft**2/gal"),
    film.mean_uptake: ([1.2, 2], ""),
    film.loss: ([0.2, 0.8, 1.1], ""),
    film.lap: ([(10, "inch"), 0.5], "inch"),
    film.band: ([(10, "inch"), (30, "inch")], "inch"),
    film.step: ([(10, "inch"), (30, "inch"), (5, "inch"), 1e-6], "inch"),
    film.miss: ([0.9, (30, "inch"), (32.5, "inch")], ""),
    film.on_face: ([(4, "thou"), 0.2, 0.1, 1], "thou"),
    film.material: ([(4.5, "thou"), 1.1, 0.2, 0.1], "gal/ft**2"),
    film.paint: ([(0.003, "gal/ft**2"), 0.1], "gal/ft**2"),
    film.thinned_density: ([(10.6, "lb/gal"), 0.1, (8.33, "lb/gal")], "lb/gal"),
    spray.flow: ([0.8, (15, "thou"), (2200, "psi"), (10.6, "lb/gal")], "gal/min"),
    spray.hose_run: ([(50, "ft"), (0.25, "inch")], "1/inch**3"),
    spray.guns_on_hose: ([2, 1], ""),
    spray.resistance: ([(250, "centipoise"), 1, (2.5e6, "1/ft**3")], "psi*min/gal"),
    spray.set_pressure: ([(2200, "psi"), (900, "psi*min/gal"), (0.2, "gal/min")], "psi"),
    spray.flow_share: ([(80, "psi"), (2200, "psi"), (2300, "psi")], ""),
    spray.reynolds: ([(10.6, "lb/gal"), (0.2, "gal/min"), (0.25, "inch"), (250, "centipoise")], ""),
    spray.hose_volume: ([(50, "ft"), (0.25, "inch")], "gal"),
    spray.gun_speed: ([(0.2, "gal/min"), 0.2, (4.5, "thou"), (5, "inch")], "ft/s"),
    spray.spot_handling: ([0.2, 0.3], ""),
    spray.hand_time: ([(110, "ft**2/hour"), (4.6, "s/ft**2"), 2.5], "s/ft**2"),
    spray.gun_time: ([(0.003, "gal/ft**2"), 0.02, (0.2, "gal/min"), 1.1, (6, "s/ft**2")], "s/ft**2"),
    spray.elapsed: ([(7, "s/ft**2"), 2, (3, "s/ft**2")], "s/ft**2"),
    wear.endurance: ([(45, "gal"), (17, "thou"), (15, "thou"), (2200, "psi")], "psi*gal"),
    wear.life: ([(99000, "psi*gal"), (2200, "psi"), 1.2], "gal"),
    wear.change_cost: ([(34, "money"), (6, "min"), (45, "money/hour")], "money"),
    wear.waste_rate: ([0.05, (41, "money/gal"), 0.1, 0.1, (45, "money/hour"), (0.2, "gal/min")], "money/gal"),
    wear.interval: ([(45, "gal"), (38, "money"), (3, "money/gal")], "gal"),
    wear.mean_wear: ([(30, "gal"), (45, "gal")], ""),
    wear.cost: (
        [
            (0.003, "gal/ft**2"),
            0.02,
            (41, "money/gal"),
            (8, "s/ft**2"),
            (45, "money/hour"),
            (0.0033, "gal/ft**2"),
            (38, "money"),
            (30, "gal"),
        ],
        "money/ft**2",
    ),
    earning.share_done: ([(6, "hour"), (8, "hour"), False], ""),
    earning.pace: ([(6, "hour"), (8, "hour")], ""),
    earning.hours_at_end: ([(40, "hour"), (90, "hour"), (36, "hour"), 0.9], "hour"),
    earning.seen_loss: ([(0.6, "gal"), (2, "gal")], ""),
    earning.still_needed: ([(3, "gal"), (400, "ft**2"), (300, "ft**2"), (2, "gal"), 0.75], "gal"),
    wear.guard_share: ([2, (400, "ft**2")], "1/ft**2"),
    wear.worn_by_volume: ([(18, "gal"), (45, "gal")], ""),
    wear.worn_by_fan: ([(9, "inch"), (10, "inch"), 0.75], ""),
    wear.worn_by_flow: ([(0.26, "gal/min"), (0.24, "gal/min"), 17 / 15], ""),
    packs.whole: ([2.2, 1e-9], ""),
    packs.options: ([(12, "gal"), (5, "gal"), 1e-9], ""),
    packs.first_least: ([((30, "money"), (28, "money"), (29, "money")), 1e-9], ""),
    packs.least_cost: (
        [(12, "gal"), (((1, "gal"), (44, "money")), ((5, "gal"), (205, "money")), (None, None)), 1e-9],
        None,
    ),
    labor.steps_up: ([(21, "hour"), (4, "hour"), 1e-9], "hour"),
    labor.each_time: ([(400, "ft**2"), (100, "ft**2/hour"), 2], "hour"),
    labor.slower: ([(500, "ft**2"), (400, "ft**2")], ""),
    labor.overtime: ([(46, "hour"), (40, "hour"), 0.5], ""),
    labor.burden: ([0.4, (120, "hour"), (2080, "hour")], ""),
    labor.productive: ([(0.75, "hour"), (8, "hour")], ""),
    labor.travel: ([9, 2, (0.5, "hour")], "hour"),
    labor.workday: ([46146, 3, ()], ""),
    working_days.useful_hours: ([(8, "hour"), (90, "min"), 2, 0.9], "hour"),
    working_days.first_day: ([(20, "hour"), (7, "hour"), 1e-9], ""),
    working_days.last_day: ([(20, "hour"), (7, "hour"), 1e-9], ""),
    working_days.clock_of: ([(20, "hour"), 2, (7, "hour"), 1.1, (2, "day")], "hour"),
    working_days.work_at: ([(30, "hour"), (7, "hour"), 1.1, ((0, "day"), (1, "day"), (4, "day"))], "hour"),
    working_days.lost_share: ([0.2, 0.5, 0.0], ""),
    schedule.finish: ([(20, "hour"), (50, "hour"), 2, 0.1, (90, "min")], "hour"),
    schedule.halted: ([(0.2, 0.0), (7, "hour")], "hour"),
    schedule.promised: ([(100, "hour"), (1, "hour"), 0.2, 0.84, (7, "hour"), (400, "min"), 0.1], "hour"),
    rental.offered: ([(100, "money"), None, (900, "money")], "money"),
    rental.short_rental: ([8, (100, "money"), (300, "money")], "money"),
    rental.least_rental: ([33, (100, "money"), (300, "money"), (900, "money")], "money"),
    spray.line_fill: ([(1, "qt"), (0.5, "gal"), 0.8, 2, 0.1], "gal"),
    carrying.trip: ([(9, "money"), (45, "min"), (54, "money/hour")], "money"),
    carrying.saving: ([(36, "money"), (410, "money"), (425, "money")], "money"),
    carrying.exchange: ([(((9, "money"), (0, "money")), ((8, "money"), (7, "money"))), (0,)], ""),
    proving.together: ([(((9, "money"), (0, "money")), ((8, "money"), (7, "money"))), (0, 1)], "money"),
    proving.rivals: ([(((9, "money"), (0, "money")), ((8, "money"), (7, "money")))], ""),
    price.selling_price: ([(10000, "money"), 0.2, 0.15], "money"),
    price.cost_paid: ([(10000, "money"), 0.2, 0.15], "money"),
    price.payable: ([(70.035, "money"), (0.01, "money"), 1e-6], "money"),
    price.markup: ([0.4], ""),
    billing.contract_to_date: ([(4000, "money"), (250, "money")], "money"),
    billing.done_so_far: ([(9, "hour"), (32400, "s")], ""),
    billing.payments_reached: ([2, 0.5, 1e-6], ""),
    billing.by_stages: ([(400, "money"), (1800, "money"), (250, "money"), 0.5], "money"),
    billing.by_work: ([(400, "money"), (4250, "money"), 0.5], "money"),
    billing.due_to_date: ([(2325, "money"), (4250, "money"), (400, "money"), 0.5, False, True], "money"),
    billing.held_back: ([(2325, "money"), (400, "money"), 0.1], "money"),
    billing.due_now: ([(2325, "money"), (192.5, "money"), (400, "money")], "money"),
}


def _made(argument):
    """The argument as quantities."""
    if isinstance(argument, tuple) and len(argument) == 2 and isinstance(argument[1], str):
        return Q(*argument)
    return tuple(map(_made, argument)) if isinstance(argument, tuple) else argument


def _plain(value):
    """A quantity as its SI number."""
    if isinstance(value, tuple):
        return tuple(map(_plain, value))
    return float(value.to_base_units().magnitude) if hasattr(value, "to_base_units") else value


# modules whose functions test_docstrings.py alone calls with quantities
BY_DOCSTRING = ("emission", "learning", "risk", "weather")
# what takes the working days and steps, and gives many times: tests/trade/test_schedule.py holds them; what gives more
# than one table of money: tests/trade/test_carrying.py
BY_EXAMPLE = {working_days.ready_at, schedule.by_hand, schedule.sequence}
BY_EXAMPLE |= {carrying.merged, carrying.choices, proving.limit, proving.proved}


def test_every_trade_function_is_called():
    called = {function for name, function in FUNCTIONS.items() if name.partition(".")[0] not in BY_DOCSTRING}
    assert called == {*CALLS, *BY_EXAMPLE}


@pytest.mark.parametrize(
    "function", CALLS, ids=lambda function: f"{function.__module__.rpartition('.')[2]}.{function.__name__}"
)
def test_units_come_out_right(function):
    arguments, unit = CALLS[function]
    given = [_made(argument) for argument in arguments]
    result = function(*given)
    if unit is None:
        assert result.cost.check("[money]") and all(
            isinstance(number, float) for number in (result.small, result.middle, result.large)
        )
        plain = function(*map(_plain, given))
        assert (plain.small, plain.middle, plain.large) == (result.small, result.middle, result.large)
        return
    values = result if isinstance(result, tuple) else (result,)
    assert all(Q(value).check(UNIT(unit).dimensionality if unit else "") for value in values)
    plain = function(*map(_plain, given))
    assert _plain(result) == pytest.approx(plain, rel=1e-12)


# Definitions: NIST SP 811 appendix B (from memory) and NIST Handbook 44 appendix C: inch 25.4 mm, gallon 231 in3, psi
# 6894.757293168 Pa, pound 0.45359237 kg; the others follow.
INCH, FOOT, GALLON, PSI, POUND = 0.0254, 0.3048, 231 * 0.0254**3, 6894.757293168361, 0.45359237
LITERALS = {
    "ft": FOOT,
    "in": INCH,
    "yd": 3 * FOOT,
    "m": 1,
    "cm": 0.01,
    "mm": 0.001,
    "mi": 5280 * FOOT,
    "km": 1000,
    "mil": INCH / 1000,
    "thou": INCH / 1000,
    "um": 1e-6,
    "µm": 1e-6,
    "ft2": FOOT**2,
    "m2": 1,
    "gal": GALLON,
    "qt": GALLON / 4,
    "pt": GALLON / 8,
    "fl oz": GALLON / 128,
    "L": 0.001,
    "mL": 1e-6,
    "ft2/gal": FOOT**2 / GALLON,
    "m2/L": 1000,
    "gal/ft2": GALLON / FOOT**2,
    "L/m2": 0.001,
    "lb/gal": POUND / GALLON,
    "kg/L": 1000,
    "kg/m3": 1,
    "g/mL": 1000,
    "g/L": 1,
    "cP": 0.001,
    "mPa.s": 0.001,
    "Pa.s": 1,
    "psi": PSI,
    "bar": 1e5,
    "MPa": 1e6,
    "kPa": 1000,
    "gal/min": GALLON / 60,
    "L/min": 0.001 / 60,
    "L/h": 0.001 / 3600,
    "gal/h": GALLON / 3600,
    "ft/s": FOOT,
    "ft/min": FOOT / 60,
    "m/s": 1,
    "m/min": 1 / 60,
    "s": 1,
    "min": 60,
    "h": 3600,
    "day": 86400,
    "s/ft2": 1 / FOOT**2,
    "s/m2": 1,
    "min/ft2": 60 / FOOT**2,
    "min/m2": 60,
    "h/ft2": 3600 / FOOT**2,
    "h/m2": 3600,
    "ft2/h": FOOT**2 / 3600,
    "m2/h": 1 / 3600,
    "ft/h": FOOT / 3600,
    "m/h": 1 / 3600,
    "psi.min/gal": PSI * 60 / GALLON,
    "bar.min/L": 1e5 * 60 / 0.001,
    "psi.gal": PSI * GALLON,
    "bar.L": 100,
    "1/in3": INCH**-3,
    "1/mm3": 1e9,
    "/gal": 1 / GALLON,
    "/L": 1000,
    "/ft2": FOOT**-2,
    "/m2": 1,
    "/ft": 1 / FOOT,
    "/m": 1,
    "/mi": 1 / (5280 * FOOT),
    "/km": 1 / 1000,
    "/h": 1 / 3600,
    "/day": 1,
    "K": 1,
    "lb": POUND,
    "kg": 1,
    "degC": 1,
    "degF": 5 / 9,
    "%": 0.01,
    "": 1,
}


@pytest.mark.parametrize("unit", SPELLINGS)
def test_a_unit_is_worth_its_definition(unit):
    assert scale(unit) == pytest.approx(LITERALS[unit], rel=1e-12)


@pytest.mark.parametrize("unit", SPELLINGS)
def test_the_table_of_units_is_that_of_pint_bit_for_bit(unit):
    assert measured(SPELLINGS[unit].pint) == SPELLINGS[unit][1:]


@pytest.mark.parametrize(
    "text, quantity, told",
    [
        # By definition: a fathom is 6 ft, a gallon 16 cups or 128 fl oz, an inch 25.4 mm, a tonne 1000 kg of 0.45359237 kg the
        # pound.
        ("12 fathoms", "length", "1 fathom is 6 ft; use ft, m, "),
        ("64 fluid_ounces", "volume", "1 fluid ounce is 0.0078125 gal; use gal, L, "),
        ("2 decimeters", "width", "1 decimeter is 3.937 in; use in, mm, "),
        ("1 tonne", "mass", "1 metric ton is 2204.6 lb; use lb, kg"),
        ("3 CUPS", "volume", "1 cup is 0.0625 gal; use gal, L, "),
        # What pint would take for a tenth of a foot, a psi for a length; a scale of its own; no
        # unit at all.
        ("5 dft", "film", "use mil, um, "),
        ("2 atmosphere", "length", "use ft, m, "),
        ("500 rankine", "temperature", "use degF, degC"),
        ("2 coats", "length", "use ft, m, "),
    ],
)
def test_a_unit_outside_the_list_is_refused_with_what_it_is_in_one_of_the_list(text, quantity, told):
    with pytest.raises(BadValue) as refused:
        Units("us").parse(text, quantity)
    message, hint = refused.value.message, refused.value.hint
    assert message == f"unknown unit '{text.partition(' ')[2]}'" and hint.startswith(told)


RECOMMENDED = [(quantity, unit) for quantity in SHOWN for unit in units_of(quantity)]


def test_units_are_recommended_for_every_measured_quantity():
    assert {"mPa.s", "Pa.s", "fl oz", "psi.min/gal", "bar.min/L", "psi.gal", "1/in3", "s/ft2", "/day"} <= {
        unit for _, unit in RECOMMENDED
    }


@pytest.mark.parametrize("quantity, unit", RECOMMENDED, ids=[f"{quantity} {unit}" for quantity, unit in RECOMMENDED])
@pytest.mark.parametrize("number, worth", [("7.5", 7.5), ("40.", 40), (".5", 0.5), ("9 1/2", 9.5), ("1/2", 0.5)])
def test_every_unit_that_a_message_recommends_is_understood(quantity, unit, number, worth):
    """In a file and in a cell alike, against the unit's definition."""
    want = pytest.approx(worth * LITERALS[unit] + (ZERO[unit] if quantity == "temperature" else 0), rel=1e-12)
    units, text = Units("us"), f"{number} {unit}"
    assert units.parse(text, quantity) == want
    assert understood(text, Field("x", "X", quantity), units) == want
    if unit[0].isalpha():
        assert units.parse(f"{number}{unit}", quantity) == want


@pytest.mark.parametrize(
    "text, quantity, want",
    [
        ("14 ft 6 in", "length", 14 * FOOT + 6 * INCH),
        ("14ft6in", "length", 14 * FOOT + 6 * INCH),
        ("7 ft 6 1/2 in", "length", 7 * FOOT + 6.5 * INCH),
        ("1 gal 3 qt", "volume", 1.75 * GALLON),
        ("1 h 30 min", "time", 5400),
        ("-9 1/2 degC", "temperature", 273.15 - 9.5),
        ("+5 ft", "length", 5 * FOOT),
    ],
)
def test_numbers_and_units_in_a_row_add_up(text, quantity, want):
    assert Units("us").parse(text, quantity) == pytest.approx(want, rel=1e-12)


def test_temperatures_have_their_zero():
    assert ZERO["degC"] == 273.15
    assert Units("us").parse("50 degF", "temperature") == pytest.approx(283.15)
    assert Units("us").to_cell(283.15, "temperature") == pytest.approx(50)


@pytest.mark.parametrize("system", ["us", "metric"])
def test_the_constants_of_a_book_are_those_of_the_equations(system):
    """Each scale of the Constants sheet against the SI equation it stands for, one shown unit of everything."""
    units = Units(system)
    one = {
        quantity: units.scale(quantity)
        for quantity in (
            "film",
            "area",
            "volume",
            "flow",
            "width",
            "length",
            "speed",
            "pressure",
            "density",
            "orifice",
            "viscosity",
            "time",
            "handling",
            "area_time",
            "resistance",
            "run",
            "yield",
            "spread",
        )
    }
    constants = shown_constants(units, 50)
    assert constants["cover"] == pytest.approx(film.theoretical_spread(one["film"], 1) / one["spread"])
    assert constants["jet"] == pytest.approx(
        spray.flow(1, one["orifice"], one["pressure"], one["density"]) / one["flow"]
    )
    assert constants["run"] == pytest.approx(spray.hose_run(one["length"], one["width"]) / one["run"])
    assert constants["hose"] == pytest.approx(spray.resistance(one["viscosity"], 1, one["run"]) / one["resistance"])
    assert constants["reynolds"] == pytest.approx(
        spray.reynolds(one["density"], one["flow"], one["width"], one["viscosity"])
    )
    assert constants["bore"] == pytest.approx(spray.hose_volume(one["length"], one["width"]) / one["volume"])
    assert constants["pace"] == pytest.approx(spray.gun_speed(one["flow"], 0, one["film"], one["width"]) / one["speed"])
    assert constants["hour"] == pytest.approx(one["flow"] * 3600 / one["volume"])
    assert constants["seconds"] == pytest.approx(3600)
    assert constants["inch"] == pytest.approx(1 if system == "us" else 25.4)


def test_the_unit_behind_each_header_is_the_unit_of_the_cells():
    """A length of one metre stands as 1 in a metric book and as 3.28 ft in a US one (definition of the foot)."""
    assert Units("metric").to_cell(1.0, "length") == 1 and Units("metric").shown("length") == "m"
    assert Units("us").to_cell(1.0, "length") == pytest.approx(3.280839895) and Units("us").shown("length") == "ft"
