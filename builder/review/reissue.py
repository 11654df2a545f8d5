"""The inputs of a returned workbook on today's catalogs and builder, and what moved the price."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple, TypeAlias

from builder.jobs import BUILDER, Opened, facts, fingerprint, from_values, room_for, too_many
from builder.problems import Problem, Refused, did_you_mean, errors
from builder.records.differ import Difference, differences
from builder.records.fields import Kind, Record, Values
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.records.load import Loaded
from builder.records.overlay import label, load_catalogs
from builder.records.rules import OneOf
from builder.records.versions import SCHEMA
from builder.returned.came_back import Returned
from builder.returned.findings import Finding
from builder.review.effects import Effect, effects, nozzles, results
from builder.review.inspect import inspect
from builder.stages.book import room_of
from builder.stages.order import capacities
from builder.values import same

Renamings: TypeAlias = Sequence[tuple[str, str]]  # (old name, new name)
Folders: TypeAlias = Sequence[str | Path]


@dataclass(frozen=True)
class Reissue:
    """The job as its workbook has it and as reissued, what was kept of the book's own catalog records, and what moved
    the price.
    """

    before: Opened
    after: Opened
    findings: tuple[Finding, ...]  # how its inputs were read, and what in it is not carried over
    kept: tuple[Difference, ...]  # what the book has otherwise than it was issued with, and keeps
    lost: tuple[Difference, ...]  # what it does not keep: no record of today has it, or another bears its name
    changes: tuple[Effect, ...]  # of each catalog value that is another today
    saved: float | None  # the price as the file shows it
    earlier: bool  # another version of the program made it, by equations of its day


def reissue(
    back: Returned,
    catalogs: Folders,
    instead: Renamings = (),
    keep: Sequence[str] = (),
    rows: Mapping[str, int] | None = None,
) -> Reissue:
    """The inputs of a Returned workbook on the catalogs of some folders.

    instead: (old name, new name) of records that are called otherwise today; keep: names of records to carry as the
    book has them; rows: of tables by their keys, where the book is to have more. Refused, all at
    once, where the job uses records that today's catalogs do not have, or has more rows than a book may have.
    """
    look = inspect(back, catalogs)
    before = look.taken.opened
    stock = load_catalogs(catalogs, before.units)
    if errors(stock.problems):
        raise Refused(errors(stock.problems))
    _known(before.values, stock.values, instead, back.name)
    values = {kind.key: [dict(row) for row in before.values[kind.key]] for kind in JOBS}
    values |= {kind.key: list(stock.values[kind.key]) for kind in CATALOGS}
    kept = differences(CATALOGS, _issued(back, before, stock, catalogs), before.values)
    lost = _keep(values, kept, instead)
    _carry(values, before.values, keep, back.name)
    lost = [one for one in lost if not _carried(values, one, keep)]
    _rename(values, instead)
    _ask(values, before.values, back.name)
    if crowded := [Problem(back.name, 0, 0, *told) for _, *told in too_many(values)]:
        raise Refused(crowded)
    room = capacities(**room_for(values, room_of(back.settings), rows))
    after = from_values(values, before.units, facts(before.units, back.settings["paper"], room, catalogs))
    changes = effects(before, differences(CATALOGS, before.values, values))
    held = tuple(one for one in kept if one not in lost)
    return Reissue(
        before,
        after,
        look.touched,
        held,
        tuple(lost),
        tuple(one for one in changes if one.price != 0),
        back.saved_price(),
        (back.settings["schema"], back.settings["builder"]) != (SCHEMA, BUILDER),
    )


def _issued(back: Returned, before: Opened, stock: Loaded, catalogs: Folders) -> Values:
    """The catalogs as the book was issued. An old book does not hold them: then they are today's where its fingerprint
    says so, else as they stand in it.
    """
    if any(back.issued.values()):
        return {kind.key: list(back.issued[kind.key].values()) for kind in CATALOGS}
    return stock.values if back.settings["catalogs"] == fingerprint(catalogs) else before.values


def _keep(values: Values, kept: Iterable[Difference], instead: Renamings) -> list[Difference]:
    """Lay what was changed inside the book over today's records, value by value, under the names of today. Returns what
    found no place there.
    """
    today = {same(old): new for old, new in instead}
    places = {
        (kind.key, same(label(kind, row))): place for kind in CATALOGS for place, row in enumerate(values[kind.key])
    }
    lost: list[Difference] = []
    gone: dict[str, set[int | None]] = {kind.key: set() for kind in CATALOGS}
    # places are those before any change: a record may be renamed and repriced
    for change in kept:
        kind, rows = KINDS[change.block], values[change.block]
        name = label(kind, change.values)
        place = places.get((change.block, same(today.get(same(name), name))))
        if isinstance(change.before, dict):
            gone[change.block].add(place)
        elif isinstance(change.after, dict) and place is None:
            rows.append(change.after)
        elif not isinstance(change.after, dict) and place is not None:
            rows[place] = {**rows[place], change.key: change.after}
        else:
            lost.append(change)
    for key, out in gone.items():
        values[key] = [row for place, row in enumerate(values[key]) if place not in out]
    return lost


def _find(kind: Kind, rows: Iterable[Record], name: str) -> Record | None:
    return next((row for row in rows if same(label(kind, row)) == same(name)), None)


def _carry(values: Values, book: Values, names: Iterable[str], where: str) -> None:
    """Add the book's own record of each name."""
    for name in names:
        found = [(kind, row) for kind in CATALOGS if not kind.upright and (row := _find(kind, book[kind.key], name))]
        if not found:
            known = [label(kind, row) for kind in CATALOGS if not kind.upright for row in book[kind.key]]
            told = f"--keep: '{name}' is not in this workbook's catalogs"
            raise Refused([Problem(where, 0, 0, told, did_you_mean(name, known))])
        for kind, row in found:
            values[kind.key] = [other for other in values[kind.key] if same(label(kind, other)) != same(name)] + [row]


class _Use(NamedTuple):
    """An input that names a catalog record: its kind, row and key, and which record it names."""

    kind: Kind
    number: int  # of the row, from 1
    row: Record
    key: str
    target: Kind
    name: str


def _uses(values: Values) -> Iterator[_Use]:
    """Every input that names a catalog record."""
    for kind in KINDS.values():
        for number, row in enumerate(values[kind.key], start=1):
            for one in kind.fields:
                name = row.get(one.key)
                if isinstance(one.rule, OneOf) and KINDS[one.rule.block] in CATALOGS and isinstance(name, str):
                    yield _Use(kind, number, row, one.key, KINDS[one.rule.block], name)


def _carried(values: Values, change: Difference, names: Iterable[str]) -> bool:
    """Whether a record that is carried by its name has the change in it."""
    kind, wanted = KINDS[change.block], {same(name) for name in names}
    return any(
        same(label(kind, row)) in wanted and (row.get(change.key) if change.key else row) == change.after
        for row in values[change.block]
    )


def _known(book: Values, today: Values, instead: Renamings, where: str) -> None:
    """Refuse a renaming of what the book does not have, or to what today's catalogs do not have."""
    for names, values, of in ((0, book, "this workbook's catalogs"), (1, today, "today's catalogs")):
        known = [label(kind, row) for kind in CATALOGS if not kind.upright for row in values[kind.key]]
        for pair in instead:
            if same(pair[names]) not in map(same, known):
                raise Refused(
                    [
                        Problem(
                            where, 0, 0, f"--instead: '{pair[names]}' is not in {of}", did_you_mean(pair[names], known)
                        )
                    ]
                )


def _rename(values: Values, instead: Renamings) -> None:
    for old, new in instead:
        for use in _uses({kind.key: values[kind.key] if kind in JOBS else [] for kind in KINDS.values()}):
            if same(use.name) == same(old) and _find(use.target, values[use.target.key], new):
                use.row[use.key] = new


def _ask(values: Values, book: Values, where: str) -> None:
    """Refuse, in one message a record, what the job uses and today's catalogs do not have. What the book did not have
    either is a fault of its own.
    """
    missing: dict[tuple[Kind, str], list[str]] = {}
    for use in _uses(values):
        here, there = (_find(use.target, of[use.target.key], use.name) for of in (values, book))
        if here is None and there:
            place = use.kind.title if use.kind.upright else f"{use.kind.title} row {use.number}"
            missing.setdefault((use.target, use.name), []).append(place)
    problems = []
    for (target, name), places in missing.items():
        near = did_you_mean(name, [label(target, row) for row in values[target.key]])
        hint = f"add --instead '{name}=NEW NAME', or --keep '{name}' to use the workbook's own"
        problems.append(
            Problem(
                where,
                0,
                0,
                f"{target.title} '{name}' is not in today's catalogs; used on {', '.join(places)}",
                f"{near} {hint}" if near.startswith("did") else hint,
            )
        )
    if problems:
        raise Refused(problems)


def report(found: Reissue) -> Iterator[str]:
    """The lines that say a reissue in words."""
    units = found.before.units
    for finding in found.findings:
        yield f"in the workbook: {finding}"
    for change in found.kept:
        yield f"kept: {change.words(units)}"
    for change in found.lost:
        yield (
            f"not kept: {change.words(units)}; today's catalogs lack that record or have their own "
            "(--keep NAME uses the workbook's)"
        )
    for what, old, new, unit in results(found.before, found.after):
        yield f"{what}: {old} -> {new} {unit}".rstrip()
    price = found.before.price()
    if found.saved is not None and price is not None and abs(found.saved - price) > units.money_step / 2:
        if found.earlier:
            yield f"the program's equations changed: {units.amount(price - found.saved, '+')} {units.currency}"
        else:
            yield f"the file itself shows {units.amount(found.saved)}: cells were overwritten, or rows do not count"
    for coat, old, new in nozzles(found.before, found.after):
        yield f"{coat}: nozzle {old} -> {new}"
    for effect in found.changes:
        yield f"    {effect.words(units)}"
