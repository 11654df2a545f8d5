"""Folders of catalogs, one laid over another, and a job's own records over all; which record is which."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder import documents
from builder.documents import Mark, Text
from builder.problems import NOTE, Problem, did_you_mean
from builder.quantities import Units, Value
from builder.records.change import merged, note, placed, renamed, replacing
from builder.records.fields import Kind, Marks, Record
from builder.records.folders import Folders
from builder.records.kinds import CATALOGS, KINDS
from builder.records.load import Change, Loaded
from builder.records.misplaced import INSIDE
from builder.records.terms import TERMS
from builder.values import day_text, is_number, same

LISTS_INSIDE = {outer for outer, _ in INSIDE}
NEEDED = ("terms", "families", "nozzles", "coatings", "pumps", "surfaces", "crews", "exposures")


def _named_by(kind: Kind) -> tuple[str, ...]:
    return ("family", "size") if kind.key == "nozzles" else (kind.named or kind.fields[0].key,)


def identity(kind: Kind, values: Record) -> tuple[Value, ...]:
    """What makes two records of a kind the same record, so that one may replace the other."""
    return tuple(same(values.get(key)) for key in _named_by(kind))


def label(kind: Kind, values: Record) -> str:
    """What a person calls a record: its name, 'standard 515', '2026-07-03', or the sheet of a kind that has but one."""
    if kind.upright:
        return kind.title
    parts = [(kind.field_of[key].quantity == "date", values.get(key)) for key in _named_by(kind)]
    return " ".join(day_text(value) if dated and is_number(value) else str(value) for dated, value in parts)


@dataclass
class _Layer:
    """The records of one kind, and what one folder lays over them. `problems`: those told so far; notes are added."""

    kind: Kind
    values: list[Record]
    marks: list[Marks]
    problems: list[Problem]

    def __post_init__(self) -> None:
        self.by_identity = {identity(self.kind, values): place for place, values in enumerate(self.values)}
        self.by_label = {same(label(self.kind, values)): place for place, values in enumerate(self.values)}
        self.done: dict[int, Mark] = {}  # place -> the mark of what this folder laid there
        self.changed: set[int] = set()  # places where that was a change
        self.lost: set[str] = set()  # names that were to be changed and are not below

    def has(self, values: Record, change: Change) -> bool:
        """Whether the record stands below that a change is of."""
        return same(change.name or label(self.kind, values)) in self.by_label

    def add(self, values: Record, marks: Marks) -> None:
        self.values.append(values)
        self.marks.append(marks)

    def replace(self, values: Record, marks: Marks) -> None:
        """A whole record takes the place of the one of its name, or is added. One that stands twice stays a fault."""
        place = self.by_identity.get(identity(self.kind, values))
        if place in self.changed:
            self.problems.append(self._twice(place, label(self.kind, values), marks[""]))
        elif place is None or place in self.done:
            self.add(values, marks)
        else:
            below = self.values[place], self.marks[place]
            self.problems.append(replacing(self.kind, label(self.kind, values), below, (values, marks)))
            self.values[place], self.marks[place], self.done[place] = values, marks, marks[""]

    def change(self, values: Record, marks: Marks, change: Change) -> None:
        """What is stated of a record takes the place of what stands below."""
        name = change.name or label(self.kind, values)
        place = self.by_label.get(same(name))
        if place is None and not change.name:
            told = f"{self.kind.title} '{name}': is added: no catalog before this one has that size"
            self.problems.append(marks[""].problem(told, severity=NOTE))
            self.add(values, marks)
        elif place is None:
            self.lost.add(same(name))
            self.problems.append(self._missing(name, change.mark))
        elif place in self.done:
            self.problems.append(self._twice(place, name, change.mark))
        else:
            self.changed.add(place)
            below, over = (self.values[place], self.marks[place]), (values, marks)
            self.problems += renamed(self.kind, name, _named_by(self.kind), below, over)
            self._put(place, placed(below, over, self.problems) if self.kind.key == "coatings" else over)

    def _put(self, place: int, over: tuple[Record, Marks]) -> None:
        """Lay what is stated, but for the name, over a record."""
        below, first = (self.values[place], self.marks[place]), over[1][""]
        named = () if self.kind.upright else _named_by(self.kind)
        stated = {key: mark for key, mark in over[1].items() if key not in ("", *named)}
        if stated or self.kind.key not in LISTS_INSIDE:  # a family may be named for its sizes alone
            self.problems.append(note(self.kind, label(self.kind, below[0]), below[1][""], stated, first))
        self.values[place], self.marks[place] = merged(below, (over[0], stated))
        self.done[place] = first

    def _twice(self, place: int, name: str, mark: Mark) -> Problem:
        first = self.done[place]
        hint = f"combine both; the first is in {first.file}:{first.line}"
        return mark.problem(f"{self.kind.title} '{name}': is changed twice", hint)

    def _missing(self, name: str, mark: Mark) -> Problem:
        if not self.by_label:
            return mark.problem(
                f"{self.kind.title} '{name}': nothing to change: no catalog before this one has {self.kind.key}",
                "name the folder it changes first: --catalogs catalogs --catalogs THIS",
            )
        hint = did_you_mean(name, [label(self.kind, values) for values in self.values])
        return mark.problem(f"{self.kind.title}: '{name}' is not in the catalogs before this one", hint)

    def lay(self, values: Record, marks: Marks, change: Change | None) -> None:
        if self.kind.upright and self.values:
            self._put(0, (values, marks))  # figure by figure
        elif change:
            self.change(values, marks, change)
        else:
            self.replace(values, marks)


def _overlay(under: Loaded, over: Loaded) -> None:
    """Records of `over` replace or change those of `under` by name, or are added; figures of an upright kind too."""
    under.problems += over.problems
    under.lost |= over.lost
    under.unread |= over.unread
    lost: set[str] = set()
    for kind in CATALOGS:
        layer = _Layer(kind, under.values[kind.key], under.marks[kind.key], under.problems)
        for values, marks, change in zip(over.values[kind.key], over.marks[kind.key], over.changes[kind.key]):
            told = change and not change.name and same(values["family"]) in lost  # that its family is not there
            gone = change and kind.key in under.lost and not layer.has(values, change)  # told with its file
            if not (told or gone):
                layer.lay(dict(values), dict(marks), change)
        lost = layer.lost if kind.key == "families" else lost


def _leave_out(under: Loaded, names: Iterable[tuple[str, Text]]) -> None:
    """Take the records out that a job does without, with the lists inside them; `names` are (kind, the text that names
    it).
    """
    for key, text in names:
        kept = [
            place
            for place, values in enumerate(under.values[key])
            if same(label(KINDS[key], values)) != same(text.value)
        ]
        if len(kept) == len(under.values[key]) and key not in under.lost:
            hint = did_you_mean(text.value, [label(KINDS[key], values) for values in under.values[key]])
            under.problems.append(text.mark.problem(f"without, {key}: '{text.value}' is not in the catalogs", hint))
        _keep(under, key, kept)
        for inner, owner in (target for (outer, _), target in INSIDE.items() if outer == key):
            rows = under.values[inner]
            _keep(under, inner, [at for at, values in enumerate(rows) if same(values[owner]) != same(text.value)])


def _keep(under: Loaded, key: str, kept: Sequence[int]) -> None:
    under.values[key] = [under.values[key][place] for place in kept]
    under.marks[key] = [under.marks[key][place] for place in kept]


def currency_of(folders: Iterable[str | Path]) -> str:
    """The currency of the catalogs, which must be known before a unit is settled; '' where they say none."""
    stock = Loaded()
    for over in Folders(folders).understood(Units(), (TERMS,)):
        _overlay(stock, over)
    return next((str(terms["currency"] or "") for terms in stock.values[TERMS.key]), "")


def load_catalogs(folders: Sequence[str | Path], units: Units, job: Loaded | None = None) -> Loaded:
    """Every catalog of the folders, a later one laid over those before, in the book's units. Problems are gathered, not
    raised.

    job: a loaded job, whose own records are laid over all.
    """
    stock = Loaded()
    for over in (*Folders(folders).understood(units), *([job.own] if job and job.own else ())):
        _overlay(stock, over)
    lacking = [key for key in NEEDED if not stock.values[key] and key not in stock.lost]
    if lacking:
        nowhere = documents.Mark(str(folders[0]), 1, 1)
        keys = " or ".join(f"'{key}:'" for key in lacking)
        stock.problems.append(nowhere.problem(f"no {keys} in any catalog of this folder", "add a file that has it"))
        stock.lost |= set(lacking)
    if job:
        _leave_out(stock, job.without)
    return stock
