"""What the judging of an estimate found, as problems with their places in the files."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any, Protocol, TypeAlias, TypeVar

from builder.problems import WARNING, Problem, did_you_mean
from builder.quantities import Units, Value
from builder.records import titles, wording
from builder.records.fields import Check, Field, Kind, Marks
from builder.records.kinds import KINDS
from builder.records.plausible import DOUBTS
from builder.records.rules import Name, OneOf, Word
from builder.sheets.rows import Row
from builder.stages import stock
from builder.stages.estimate import Estimate
from builder.values import same

Told = TypeVar("Told", covariant=True)


class Place(Protocol[Told]):
    """Where a value stands, a `Mark` of a file or a cell of a workbook, and how a problem there is told."""

    def problem(self, message: str, hint: str = "", *, cause: str = "") -> Told: ...

    def seen_from(self, other: Any) -> str: ...


Places: TypeAlias = Mapping[str, Place[Told]]  # key of a field -> its place; under '' that of the row
Names: TypeAlias = Mapping[str, Sequence[Value]]


def _names(estimate: Estimate) -> Names:
    """block -> the names its entered rows bear, faulty ones too."""
    return {
        key: [
            stock.nozzle_name(row) if key == "nozzles" else getattr(row, kind.named)
            for row in estimate.rows[key]
            if row.filled
        ]
        for key, kind in KINDS.items()
        if kind.named
    }


def _twins(kind: Kind, rows: Sequence[Row], marks: Sequence[Places[Told]]) -> Mapping[Value, Place[Told]]:
    """Name -> the place of the first of the rows that bear it, of the names that must not and do stand twice."""
    one = kind.field_of.get(kind.named)
    if one is None or not (isinstance(one.rule, Name) and one.rule.unique):
        return {}
    named: dict[Value, list[Place[Told]]] = {}
    for row, place in zip(rows, marks):
        if row.filled and (name := getattr(row, one.key)) is not None:
            named.setdefault(same(name), []).append(place.get(one.key, place[""]))
    return {name: places[0] for name, places in named.items() if len(places) > 1}


def _speaks_of(check: Check, place: Places[Told]) -> list[Place[Told]]:
    """The places of a row that a check speaks of."""
    return [place[key] for key in re.findall(r"row\.(\w+)", check.formula) if key in place] or [place[""]]


def _where(found: Sequence[Place[Told]], place: Places[Told]) -> Place[Told]:
    """The first place that a check speaks of; where another file lies over the record, the first from there."""
    return next((mark for mark in found if getattr(mark, "file", None) != getattr(place[""], "file", None)), found[0])


def _missing(block: str, name: str, names: Names) -> tuple[str, str, str]:
    """Of a name that no row of a block bears: what is wrong, what may be meant, the cause; of a nozzle it may be its
    family.
    """
    family = name.rpartition(" ")[0]
    if block == "nozzles" and family and same(family) not in [same(known) for known in names["families"]]:
        message, hint, cause = _missing("families", family, names)
        return (message if family == name else f"'{name}': the family {message}"), hint, cause
    known = list(dict.fromkeys(str(one) for one in names[block]))
    message = f"'{name}' is not in {titles.place(block)}"
    if not known:
        return message, f"there is no '{block}:' yet", f"no {block}"
    return message, did_you_mean(name, known), f"{block}: {same(name)}"


def _told(kind: Kind, one: Field, units: Units, found: Value) -> str:
    """What is wrong with a field, and what it may hold."""
    needs = wording.allowed(kind, one, units)
    if found is None:
        return f"blank; enter {needs}"
    text = wording.entered(found, one, units)
    return f"'{text}' is not allowed; enter {needs}"


def _of_row(
    kind: Kind,
    row: Row,
    place: Places[Told],
    units: Units,
    names: Names,
    twins: Mapping[Value, Place[Told]],
    known: Collection[Place[Told]],
    lost: Collection[str],
) -> Iterator[Told]:
    for one in wording.judged(kind):
        if getattr(row, f"bad_{one.key}") and place.get(one.key, place[""]) not in known:
            found = getattr(row, one.key)
            spot = place.get(one.key, place[""])
            if isinstance(one.rule, Name) and (twin := twins.get(same(found))):
                if twin is not spot:
                    message = f"{kind.title}, {one.title.lower()}: '{found}' is in {twin.seen_from(spot)} too"
                    yield spot.problem(message, "give each row its own name", cause=f"twins of {kind.key}")
                continue
            if isinstance(one.rule, OneOf):
                if one.rule.block in lost or any(same(name) == same(found) for name in names[one.rule.block]):
                    continue  # that row's own fault is told already
                if found is not None:
                    message, hint, cause = _missing(one.rule.block, wording.entered(found, one, units), names)
                    yield spot.problem(f"{kind.title}, {one.title.lower()}: {message}", hint, cause=cause)
                    continue
            hint = did_you_mean(found, one.rule.allowed()) if isinstance(one.rule, Word) and found is not None else ""
            yield spot.problem(f"{kind.title}, {one.title.lower()}: {_told(kind, one, units, found)}", hint)
    for check in kind.checks:
        if getattr(row, f"bad_check_{check.key}" if kind.upright else f"bad_{check.key}"):
            spots = _speaks_of(check, place)
            if not any(spot in known for spot in spots):
                yield _where(spots, place).problem(wording.check_fault(kind, check))


def faults(
    estimate: Estimate,
    marks: Mapping[str, Sequence[Places[Told]]],
    known: Collection[Place[Told]],
    lost: Collection[str] = (),
) -> Iterator[Told]:
    """The faults of all rows as problems of their marks, but none at a mark in `known`, of which something is told
    already.

    marks: block -> a mark for each value of each row, and under '' one for the row; a mark has `problem(message,
    hint)`. lost: blocks of which something could not be read: what names their rows is not told.
    """
    names = _names(estimate)
    for kind in KINDS.values():
        twins = _twins(kind, estimate.rows[kind.key], marks[kind.key])
        for row, place in zip(estimate.rows[kind.key], marks[kind.key]):
            if row.fault:
                yield from _of_row(kind, row, place, estimate.units, names, twins, known, lost)
    areas = {"takeoff": 0, "rooms": len(estimate.rows["takeoff"])}  # -> where its lines begin, of a room its walls
    for key, first in areas.items():
        for area, place in zip(estimate.rows["areas"][first:], marks[key]):
            if area.live and not area.passed:
                hint = "check its length, its height and its openings"
                yield place[""].problem(f"{KINDS[key].title}: {area.fault}", hint)
    for film, place in zip(estimate.rows["film"], marks["coats"]):
        if film.faults:
            yield place[""].problem(f"Coats: {film.fault}")


def doubts(estimate: Estimate, marks: Mapping[str, Sequence[Marks]]) -> Iterator[Problem]:
    """What is allowed and probably a mistake, prices out of date, records that do not say where they come from:
    warnings.
    """
    for doubt in DOUBTS:
        for row, place in zip(estimate.rows[doubt.block], marks[doubt.block]):
            if row.sound and getattr(row, doubt.key) is not None and doubt.hit(row):
                yield place.get(doubt.key, place[""]).problem(
                    f"{KINDS[doubt.block].title}: {doubt.message}", doubt.hint, WARNING
                )
    for kind in KINDS.values():
        if "source" in kind.field_of:
            for row, place in zip(estimate.rows[kind.key], marks[kind.key]):
                if row.sound and row.source is None:
                    yield place[""].problem(
                        f"{kind.title}: a record without source", "say where its figures come from", WARNING
                    )
    yield from _too_high(estimate, marks)
    yield from _prices(estimate, marks)


def _too_high(estimate: Estimate, marks: Mapping[str, Sequence[Marks]]) -> Iterator[Problem]:
    """Of an access that is named; what is too high from the ground is a question of the book alone."""
    units = estimate.units
    for line, area, place in zip(estimate.rows["takeoff"], estimate.rows["areas"], marks["takeoff"]):
        if area.too_high and area.access_at is not None:
            yield place.get("height", place[""]).problem(
                f"Takeoff: higher than '{line.access}' reaches ({units.to_text(area.reach, 'length')})",
                "choose an access that reaches it; leave it so where the face lies flat, as a ceiling does",
                WARNING,
            )


def _prices(estimate: Estimate, marks: Mapping[str, Sequence[Marks]]) -> Iterator[Problem]:
    job, terms = estimate.job, estimate.terms
    if not job.sound or job.date is None or not terms.sound:
        return
    for block in ("coatings", "nozzles"):
        for row, place in zip(estimate.rows[block], marks[block]):
            if row.sound and row.priced_on is not None:
                mark = place.get("priced_on", place[""])
                if row.old:
                    yield mark.problem(
                        f"{KINDS[block].title}: the price is more than {terms.price_age_max:g} days older than the job",
                        "get a new price, and date it",
                        WARNING,
                    )
                elif row.priced_on > job.date:
                    yield mark.problem(
                        f"{KINDS[block].title}: the price is dated after the job", "check both dates", WARNING
                    )
