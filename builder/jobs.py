"""A job with its catalogs, loaded, judged and estimated; its problems with their places in the files."""

import contextlib
import hashlib
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeAlias

from builder import __version__
from builder.documents import MOST_BYTES, Mark
from builder.faults import doubts, faults
from builder.files import get
from builder.problems import ERROR, WARNING, BadValue, Problem, errors, together
from builder.quantities import Units
from builder.records.checklist import ITEMS
from builder.records.fields import Marks, Values
from builder.records.folders import STARTER, Folders, catalog_files, yaml_files
from builder.records.job_file import load_job
from builder.records.kinds import CATALOGS, JOBS, KINDS, TABLES
from builder.records.load import Settings
from builder.records.overlay import currency_of, load_catalogs
from builder.records.questions import NO_PRICE, QUESTIONS
from builder.records.versions import SCHEMA
from builder.stages.book import room_facts, room_of
from builder.stages.estimate import Estimate
from builder.stages.gathered import OPEN
from builder.stages.order import capacities

BESIDE_JOBS = "catalogs"  # the folder of them
_INSIDE = Path(__file__).parent / BESIDE_JOBS  # in an installed wheel
SHIPPED = (_INSIDE if _INSIDE.is_dir() else Path(__file__).parent.parent / BESIDE_JOBS,)

BUILDER = f"wetfilm {__version__}"

Facts: TypeAlias = dict[str, Any]  # of a book: text and floats by key


@dataclass
class Opened:
    """Values by block, the units they settle in, the facts of a book, and what is wrong where."""

    values: Values
    units: Units
    settings: Facts
    estimate: Estimate
    problems: list[Problem]
    unread: Collection[str] = ()  # 'kind.field' of values that could not be read, which `problems` tell

    @property
    def errors(self) -> list[Problem]:
        """The problems that stop a build."""
        return errors(self.problems)

    def gallons(self) -> float:
        """Volume to buy for the base, in the book's unit; what the owner supplies is not bought."""
        return self._volume("bought") - self._volume("from_owner")

    def from_owner(self) -> float:
        """Volume that the owner supplies for the base, in the book's unit."""
        return self._volume("from_owner")

    def _volume(self, key: str) -> float:
        rows = self.estimate.rows["purchases"]
        return self.units.to_cell(sum(getattr(row, key) for row in rows if row.live and row.scenario == 1), "volume")

    def price(self) -> float | None:
        """The price of the base in the book's currency; None while something is missing."""
        total = self.estimate.rows["price"][0].total
        return None if total is None else self.units.to_cell(total, "money")

    def amount(self, money: float) -> str:
        """Money of the estimate in words, as the book shows it: '4,000.00'."""
        return self.units.amount(self.units.to_cell(money, "money"))

    def state(self) -> str:
        """The state of the price: 'NO PRICE', 'DRAFT: 2 OPEN', 'READY' or 'SIGNED'."""
        return str(self.estimate.rows["brief"][0].state)

    def questions(self) -> list[str]:
        """The questions that are open, in order of the money that hangs on them, each with the place of its answer, but
        those about what a problem tells.
        """
        found = self.estimate.rows["findings"]
        waiting = [row for row, one in zip(found[len(ITEMS) :], QUESTIONS) if one.waits(self.unread)]
        rows = sorted(found, key=lambda row: row.rank)
        return [str(row.line) for row in rows if row.state_no == OPEN and not any(row is one for one in waiting)]

    def to_fix(self, behind: str = "") -> str:
        """The first that stops the price, and how many more there are: '..., and 2 more'. behind: words after that."""
        more = self.estimate.checks.stops - 1
        return f"{self.estimate.checks.first}{f', and {more:g} more{behind}' if more > 0 else ''}"

    def asked(self) -> str:
        """The first question that is open, and how many more; '' where none is."""
        first, *others = self.questions() or [""]
        return f"{first}{f', and {len(others)} more, which Checks lists' if others else ''}"

    def summary(self) -> str:
        """The estimate in one line; what is signed before it."""
        price, agreed = self.price(), self.estimate.rows["agreed"][0]
        to_fix = self.to_fix(" to fix")
        if agreed.signed is not None:
            signed, contract = (self.amount(one) for one in (agreed.signed, agreed.contract))
            changed = f", contract with changes {contract}" if agreed.changes else ""
            today = f"give no price: {to_fix}" if price is None else f"come to {self.units.amount(price)}"
            return f"signed at {signed} {self.units.currency}{changed}; today's inputs {today}"
        if price is None:
            return f"{NO_PRICE}: {to_fix}"
        unit = self.units.shown("volume")
        owners = f" and {self.from_owner():,.4g} {unit} from the owner" if self.from_owner() else ""
        return (
            f"price {self.units.amount(price)} {self.units.currency}, {self.gallons():,.4g} {unit} to buy{owners}, "
            f"{self.estimate.rows['days'][0].days:g} days; {self.state()}"
        )


def fingerprint(folders: Iterable[str | Path]) -> str:
    """A short digest of every catalog in the folders."""
    digest = hashlib.sha256()
    for folder in folders:
        for path in catalog_files(folder):
            with contextlib.suppress(BadValue):  # what is no file is told where catalogs are loaded
                digest.update(get(path, MOST_BYTES))
    return digest.hexdigest()[:12]


def _units_for(currency: str, problems: list[Problem]) -> Callable[[Settings, Marks], Units]:
    def units_for(settings: Settings, marks: Marks) -> Units:
        own = settings.get("currency", currency)
        exchange = settings.get("exchange")
        if currency and own != currency and exchange is None:
            problems.append(
                marks["currency"].problem(
                    f"the job is in {own}, the catalogs are in {currency}",
                    f"add 'exchange:', the worth of one {currency} in {own}",
                )
            )
        if own == currency and exchange not in (None, 1.0):
            problems.append(
                marks["exchange"].problem(
                    f"job and catalogs are both in {currency}: 'exchange' is not needed", "remove 'exchange:'"
                )
            )
        return Units(settings.get("units", "us"), own, 1.0 if own == currency or exchange is None else exchange)

    return units_for


def in_force(folders: Iterable[str | Path] | None = None) -> Folders:
    """The folders named, or `catalogs` in the folder where the program runs, or those that came with it."""
    return Folders(folders or ([BESIDE_JOBS] if Path(BESIDE_JOBS).is_dir() else SHIPPED))


def _starter(folders: Iterable[Path]) -> Path:
    """The starter of the last folder that has one."""
    found = [path for folder in (*SHIPPED, *folders) for path in yaml_files(folder) if path.stem == STARTER]
    return found[-1]


def too_many(values: Values) -> Iterator[tuple[str, str, str]]:
    """(table, what is wrong, what to do) of every table that has more rows than a book may have."""
    for table, kind in TABLES.items():
        if len(values[table]) > kind.most:
            hint = "leave some out" if kind in CATALOGS else "split the job in two"
            yield table, f"more than {kind.most:,} rows on {kind.title}", hint


def open_job(
    path: str | Path | None,
    catalogs: Iterable[str | Path] = SHIPPED,
    system: str | None = None,
    paper: str | None = None,
    rows: Mapping[str, int] | None = None,
) -> Opened:
    """Load a job file (None: the starter, for a blank book) with the catalogs of some folders.

    catalogs: folders, a later one laid over those before; system: 'us' or 'metric' instead of the job's own; paper:
    'letter' or 'a4'; rows: of tables by their keys, as {'takeoff': 200}, not less than the job has. Raises Refused
    where a job cannot be read at all; all else is in `problems`.
    """
    problems: list[Problem] = []
    catalogs = Folders(catalogs)
    job = load_job(Path(path) if path else _starter(catalogs), _units_for(currency_of(catalogs), problems), system)
    stock = load_catalogs(catalogs, job.units, job)
    values = {kind.key: stock.values[kind.key] for kind in CATALOGS} | {kind.key: job.values[kind.key] for kind in JOBS}
    marks = {kind.key: stock.marks[kind.key] for kind in CATALOGS} | {kind.key: job.marks[kind.key] for kind in JOBS}
    room = capacities(**room_for(values, asked=rows))
    estimate = Estimate(_whole(values), job.units, room)
    problems += stock.problems + job.problems
    problems += [marks[key][TABLES[key].most][""].problem(*told) for key, *told in too_many(values)]
    stands = (ERROR, WARNING) if job.unfinished else (ERROR,)  # for a fault: nothing that weighs less than it
    told = {Mark(problem.file, problem.line, problem.column) for problem in problems if problem.severity in stands}
    found = list(faults(estimate, marks, told, stock.lost | job.lost))
    if path and not values["takeoff"] and not values["rooms"] and job.marks["job"]:
        hint = "add 'takeoff:' with at least one line, or 'rooms:'"
        found.append(job.mark("job", 0, "").problem("the job has no takeoff line", hint))
    problems += [replace(fault, severity=WARNING) for fault in found] if job.unfinished else found
    problems += doubts(estimate, marks)
    settings = facts(job.units, paper, room, catalogs)
    return Opened(values, job.units, settings, estimate, together(problems), stock.unread | job.unread)


def facts(units: Units, paper: str | None, room: Mapping[str, int], catalogs: Iterable[str | Path]) -> Facts:
    """The facts of a book: units, paper ('' for the usual one of the units), the rows of its
    tables, and what the book is made with.
    """
    return {
        "units": units.system,
        "currency": units.currency,
        "exchange": units.exchange,
        "paper": paper or ("letter" if units.system == "us" else "a4"),
        **room_facts(room),
        "schema": float(SCHEMA),
        "catalogs": fingerprint(catalogs),
        "builder": BUILDER,
    }


FEWEST = 2  # rows of a table: programs differ in what is a column of one cell


def room_for(
    values: Values, before: Mapping[str, int] | None = None, asked: Mapping[str, int] | None = None
) -> dict[str, int]:
    """Rows of every table: those of a usual book, more where a job has more, with some to spare. before: those of the
    book it was, which are the least; asked: those of some tables that a person asks for, which a job may fill.
    """
    had, wanted, room = before or {}, asked or {}, {}
    for table, kind in TABLES.items():
        used = len(values[table])
        waits = kind.awaits and not values[kind.awaits] and not used
        usual = FEWEST if waits else max(kind.capacity, used + kind.spare)
        room[table] = max(FEWEST, min(max(wanted.get(table, usual), used), kind.most), had.get(table, 0))
    return room


def _whole(values: Values) -> Values:
    """The values with a row for every upright block."""
    for kind in KINDS.values():
        values[kind.key] = values[kind.key] or ([{}] if kind.upright else [])
    return values


def from_values(values: Values, units: Units, settings: Facts, taken_up: dict[str, int] | None = None) -> Opened:
    """The same for values that were read from a workbook, or changed in memory.

    taken_up: kind -> the rows of its table on the sheet, where they are not those it was made with.
    """
    estimate = Estimate(_whole(values), units, capacities(**room_of(settings)), taken_up=taken_up)
    return Opened(values, units, settings, estimate, [])
