"""What the other side changed in a workbook, and what that did to the results."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

from builder.jobs import Opened
from builder.problems import Problem, Refused
from builder.records.differ import differences
from builder.records.kinds import CATALOGS, JOBS
from builder.returned.came_back import Returned
from builder.returned.findings import Finding
from builder.review.effects import Effect, effects, nozzles, results
from builder.review.inspect import inspect
from builder.workbook.tables import tables

Section: TypeAlias = tuple[str, Sequence[str], Sequence[Sequence[str]]]  # title, header, rows


@dataclass(frozen=True)
class Comparison:
    """Two workbooks of one job: results, nozzles, the Effect of each changed input and catalog value, and what was
    touched in each book.
    """

    before: Opened
    after: Opened
    inputs: tuple[Effect, ...]
    catalogs: tuple[Effect, ...]
    touched: tuple[tuple[str, Finding], ...]  # the book's name, what was found

    @property
    def differ(self) -> bool:
        return bool(self.inputs or self.catalogs or self.touched)


def compare(one: Returned, other: Returned, catalogs: Iterable[str | Path]) -> Comparison:
    """Compare two Returned workbooks. Refused where their units or currencies differ."""
    if (one.units.system, one.units.currency) != (other.units.system, other.units.currency):
        raise Refused(
            [
                Problem(
                    other.name,
                    0,
                    0,
                    f"it is in {other.units.system} units and {other.units.currency}, "
                    f"the other in {one.units.system} units and {one.units.currency}",
                    "compare workbooks of the same units and currency",
                )
            ]
        )
    looks = inspect(one, catalogs), inspect(other, catalogs)
    before, after = (look.taken.opened for look in looks)
    inputs, stock = (
        tuple(effects(before, differences(kinds, before.values, after.values))) for kinds in (JOBS, CATALOGS)
    )
    touched = tuple((book.name, finding) for book, look in zip((one, other), looks) for finding in look.touched)
    return Comparison(before, after, inputs, stock, touched)


def _sections(found: Comparison) -> Iterator[Section]:
    """Every part of a comparison."""
    units = found.before.units
    yield (
        "Results",
        ("What", "Before", "After", "Unit"),
        list(results(found.before, found.after))
        + [(coat, old, new, "nozzle") for coat, old, new in nozzles(found.before, found.after)],
    )
    for title, changes in (("Inputs changed", found.inputs), ("Catalog values changed", found.catalogs)):
        yield (
            title,
            ("What", f"Price, this alone ({units.currency})"),
            [
                (one.difference.words(units), "no price" if one.price is None else units.amount(one.price, "+"))
                for one in changes
            ],
        )
    yield "Touched by hand", ("Book", "What"), [(book, str(finding)) for book, finding in found.touched]


def report(found: Comparison) -> Iterator[str]:
    """The lines that say a comparison in words."""
    for title, header, rows in _sections(found):
        yield f"{title}:"
        if not rows:
            yield "  none"
        for row in rows:
            if title == "Results":
                yield f"  {row[0]}: {row[1]} -> {row[2]} {row[3]}".rstrip()
            elif header[0] == "Book":
                yield f"  {row[0]}: {row[1]}"
            else:
                yield f"  {row[1]:>14}  {row[0]}"


def as_workbook(found: Comparison, names: Sequence[str]) -> bytes:
    """The comparison as a workbook of one sheet a part, in bytes. names: of the two books."""
    return tables(
        _sections(found), f"Before: {names[0]}. After: {names[1]}.", found.before.units, found.after.settings["builder"]
    )
