"""The docstrings of builder/trade: examples that run, a source, every parameter with its unit, units that the equation
bears out.

Every module of the package is found, so a new one is held to the same shape. A unit is one that pint knows, `money`,
`-` for a pure number, or `any` for a quantity whose unit the function carries through; a pair has two with a comma
between.
"""

import doctest
import inspect
import re
from dataclasses import fields, is_dataclass

import pint
import pytest
from support.equations import FUNCTIONS, MODULES, PUBLIC

UNIT = pint.UnitRegistry()
UNIT.define("money = [money]")
UNIT.define("any = [any]")
LINE = re.compile(r"(?P<name>\w+) : [^\[\]]+ \[(?P<unit>[^\[\]]+)\]")
RETURN = re.compile(r"[^\[\]]+ \[(?P<unit>[^\[\]]+)\]")
SOURCE = re.compile(r"\(.*(\d|derived|from memory|common practice).*\)\.", re.DOTALL)

EXAMPLES = {
    test.name.removeprefix("builder.trade."): test
    for module in MODULES
    for test in doctest.DocTestFinder(exclude_empty=True).find(module)
    if test.examples
}
UNCALLED = {  # not called with quantities, and why
    "packs.first_least": "takes a tuple of costs",
    "packs.least_cost": "takes a tuple of pairs",
    "labor.workday": "counts day numbers",
    "learning.chance_at_most": "counts whole jobs",
    "learning.learn": "takes tuples of jobs",
    "learning.spread": "takes a tuple of jobs",
    "schedule.halted": "takes a tuple of shares",
    "working_days.work_at": "takes a tuple of mornings",
    "working_days.ready_at": "takes the working days",
    "schedule.by_hand": "takes tuples of steps",
    "schedule.sequence": "takes tuples of steps",
    **dict.fromkeys(("carrying.merged", "carrying.exchange", "carrying.choices"), "takes tuples of money"),
    **dict.fromkeys(("proving.together", "proving.rivals", "proving.limit", "proving.proved"), "takes tuples of money"),
    "weather.saturation_pressure": "takes the plain 273.15 from a temperature",
    "weather.dew_point": "takes the plain 273.15 from a temperature",
}


def text(thing):
    """The docstring, empty where there is none."""
    return inspect.getdoc(thing) or ""


def section(thing, title):
    """The lines under an underlined title, [] where it is not there."""
    lines = text(thing).splitlines()
    for place, (line, rule) in enumerate(zip(lines, lines[1:])):
        if line == title and rule == "-" * len(title):
            rest = lines[place + 2 :]
            return rest[: rest.index("")] if "" in rest else rest
    return []


def units(bracket):
    """The units in a bracket."""
    return [UNIT.Unit("" if part.strip() == "-" else part) for part in bracket.split(",")]


def listed(thing, title):
    """Name -> units of a section, in its order; a line that does not read is kept as it is, without units."""
    found = [(LINE.fullmatch(line), line) for line in section(thing, title)]
    return {match["name"] if match else line: units(match["unit"]) if match else [] for match, line in found}


def returned(name):
    """The units of what a function returns."""
    lines = section(FUNCTIONS[name], "Returns")
    match = RETURN.fullmatch(lines[0]) if len(lines) == 1 else None
    assert match, f"{name}: Returns is one line with one [unit], not {lines}"
    return units(match["unit"])


@pytest.mark.parametrize("name", FUNCTIONS | EXAMPLES)
def test_there_are_examples_and_they_run(name):
    assert name in EXAMPLES, f"{name}: no example"
    said = []
    failed = doctest.DocTestRunner(verbose=False).run(EXAMPLES[name], out=said.append).failed
    assert not failed, f"{name}: {''.join(said)}"


@pytest.mark.parametrize("name", PUBLIC)
def test_the_first_sentence_names_a_source_and_a_formula_follows(name):
    first, _, rest = text(PUBLIC[name]).partition("\n\n")
    assert SOURCE.search(first) and first.endswith(")."), (
        f"{name}: no source in brackets ends the first sentence: {first}"
    )
    assert name not in FUNCTIONS or rest.startswith("    "), f"{name}: no formula on a line of its own"


@pytest.mark.parametrize("name", PUBLIC)
def test_every_name_has_its_unit(name):
    thing = PUBLIC[name]
    title, names = (
        ("Attributes", [field.name for field in fields(thing)])
        if is_dataclass(thing)
        else ("Parameters", [*inspect.signature(thing).parameters])
    )
    try:
        assert list(listed(thing, title)) == names, (
            f"{name}: {title} are not those of the code, in order, each with one [unit]"
        )
        assert is_dataclass(thing) or returned(name)
    except pint.UndefinedUnitError as error:
        pytest.fail(f"{name}: {error}")


@pytest.mark.parametrize("name", [name for name in FUNCTIONS if name not in UNCALLED])
def test_the_equation_bears_out_the_units(name):
    """Shares are 0.3, quantities ..., 3, 2, 1 of their unit: the terms of a sum must agree, and the result be what
    Returns says.
    """
    try:
        parameters = listed(FUNCTIONS[name], "Parameters").values()
        given = [
            0.3 if unit.dimensionless else UNIT.Quantity(len(parameters) - place, unit)
            for place, (unit,) in enumerate(parameters)
        ]
        result, (unit,) = FUNCTIONS[name](*given), returned(name)
    except (ArithmeticError, TypeError, ValueError, pint.PintError) as error:
        pytest.fail(f"{name}: {error}")
    for value in result if isinstance(result, tuple) else (result,):
        assert UNIT.Quantity(value * 1.0).check(unit.dimensionality), f"{name}: returns {value}, not [{unit}]"


def test_uncalled_functions_exist():
    for name in UNCALLED:
        assert name in FUNCTIONS, f"{name}: no such function"
