"""A record that states only what differs from the record of its name below: `change: Exterior acrylic satin`.

What is stated takes the place of what stands below, a blank clears it, all else stays. A pack is found by its size, as
a nozzle is: the price of the five-gallon pack is `packs: [{volume: 5 gal, pack_price: 215.00}]`, whichever pack that
is. A record here is (values, marks); a value is stated where it has a mark, a blank one too.
"""

from collections.abc import Collection, Iterable, Iterator
from itertools import takewhile
from math import inf, isclose
from typing import TypeAlias

from builder.documents import Mark
from builder.problems import NOTE, Problem, errors
from builder.quantities import Value
from builder.records.fields import Kind, Marks, Record
from builder.values import is_number, same

Marked: TypeAlias = tuple[Record, Marks]
Pack: TypeAlias = list[tuple[Value, Mark | None]]  # its size and its price

SLOTS = tuple((f"pack{number}_volume", f"pack{number}_price") for number in (1, 2, 3))


def written(kind: Kind, keys: Collection[str]) -> str:
    """Fields as a file writes them, each once: 'viscosity, orifice.min, packs'."""
    paths = ((one.path or one.key).split(".") for one in kind.fields if one.key in keys)
    return ", ".join(dict.fromkeys(".".join(takewhile(lambda step: not step.isdigit(), steps)) for steps in paths))


def note(kind: Kind, name: str, below: Mark, stated: Collection[str], place: Mark) -> Problem:
    """What is changed of the record below, as a note at `place`. stated: the keys that are."""
    told = f"{kind.title}: " if kind.upright else f"{kind.title} '{name}': "
    told += f"changes {written(kind, stated) or 'nothing'} of {below.file}:{below.line}"
    money = any(kind.field_of[key].quantity.startswith("money") for key in stated)
    if money and "priced_on" in kind.field_of and "priced_on" not in stated:
        told += "; priced_on stays as it was"
    return place.problem(told, severity=NOTE)


def replacing(kind: Kind, name: str, below: Marked, over: Marked) -> Problem:
    """That a whole record takes the place of one below, and what of that one is gone, as a note."""
    (values, marks), (new, stated) = below, over
    gone = {key for key, value in values.items() if value is not None and new.get(key) is None and key not in stated}
    told = f"{kind.title} '{name}': replaces the record in {marks[''].file}:{marks[''].line}"
    if gone:
        hint = "write 'change:' instead of 'name:' to keep what is not stated"
        return stated[""].problem(f"{told} and drops its {written(kind, gone)}", hint, NOTE)
    return stated[""].problem(told, severity=NOTE)


def merged(below: Marked, over: Marked) -> Marked:
    """A record with what is stated over it."""
    (values, marks), (new, stated) = below, over
    return {**values, **{key: new.get(key) for key in stated}}, {**marks, **stated}


def renamed(kind: Kind, name: str, named_by: Iterable[str], below: Marked, over: Marked) -> Iterator[Problem]:
    """A problem for each part of the name that is stated otherwise than it stands below."""
    for key in named_by:
        if key in over[1] and same(over[0].get(key)) != same(below[0].get(key)):
            hint = f"leave '{key}:' out, or write a whole record under the new {key}"
            yield over[1][key].problem(f"{kind.title} '{name}': 'change:' cannot change the {key}", hint)


def placed(below: Marked, over: Marked, problems: list[Problem]) -> Marked:
    """What is stated, its packs standing where those of their size stand below, new ones in their order."""
    old, new = (_packs(*one) for one in (below, over))
    if all(value is None for pack in new for value, _ in pack):
        return over  # no pack is stated, or all are cleared
    added = False
    for size, price in new:
        where = next((pack for pack in old if _alike(pack[0][0], size[0])), None)
        if size[0] is None:
            _tell(
                problems,
                size[1] or price[1],
                "the size of the pack to change is missing",
                "as in '{volume: 5 gal, pack_price: 215.00}'",
            )
        elif where is None and len(old) == len(SLOTS):
            _tell(
                problems,
                size[1],
                f"a coating has at most {len(SLOTS)} packs",
                "write the record whole, with 'name:' and the packs it is to have",
            )
        elif where is None:
            old.append([size, price])
            added = True
        elif price[1] is not None:
            where[1] = price
    if added:
        old.sort(key=lambda pack: pack[0][0] if is_number(pack[0][0]) else inf)
    ours = {key for slot in SLOTS for key in slot}
    values, marks = over
    values = {key: value for key, value in values.items() if key not in ours}
    marks = {key: mark for key, mark in marks.items() if key not in ours}
    for slot, pack in zip(SLOTS, old):
        for key, (value, mark) in zip(slot, pack):
            values[key] = value
            marks |= {key: mark} if mark else {}
    return values, marks


def _packs(values: Record, marks: Marks) -> list[Pack]:
    """[(size, its mark), (price, its mark)] of every pack of which something is stated."""
    packs = ([(values.get(key), marks.get(key)) for key in slot] for slot in SLOTS)
    return [pack for pack in packs if any(mark for _, mark in pack)]


def _alike(one: Value, other: Value) -> bool:
    if is_number(one) and is_number(other):
        return isclose(one, other, rel_tol=1e-9)
    return one is not None and one == other


def _tell(problems: list[Problem], mark: Mark | None, message: str, hint: str) -> None:
    """Add a problem, but none where an error is told already."""
    told = {Mark(problem.file, problem.line, problem.column) for problem in errors(problems)}
    if mark and mark not in told:
        problems.append(mark.problem(message, hint))
