"""Field and Kind: the data dictionary's grammar. One field, one rule, six users.

The YAML check, the limits, the data validation, the judging column, the read-back and the model
all take a field's rule from here.
"""

from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import field as default
from functools import cached_property
from typing import Any, TypeAlias

from builder.documents import Mark
from builder.quantities import Value
from builder.records.rules import Judge, Rule
from builder.records.titles import TYPED_ON

Record: TypeAlias = dict[str, Value]  # key of a field -> its value
Values: TypeAlias = dict[str, list[Record]]  # block -> its records; one of an upright block
Marks: TypeAlias = dict[str, Mark]  # key of a field -> where its value is; under '' the record's place


@dataclass(frozen=True)
class Field:
    """One thing a person may state about a record.

    `key` names it everywhere. `path` says where it stands in a YAML record ('orifice.min',
    'packs.0.size'); blank: under its key. `help` says what it is and what blank means.
    """

    key: str
    title: str
    quantity: str = "text"
    rule: Rule = Rule()
    required: bool = False
    help: str = ""
    path: str = ""

    @cached_property
    def steps(self) -> tuple[str | int, ...]:
        """The path as a tuple of keys and list places."""
        return tuple(int(step) if step.isdigit() else step for step in (self.path or self.key).split("."))

    @property
    def unmarked(self) -> float:
        """The most that a share of this field may be without its %."""
        return max(1.0, getattr(self.rule, "high", 1.0))


@dataclass(frozen=True)
class Check:
    """A rule across the fields of one row, judged once each field is sound.

    `formula` is 1 where the row is wrong, in the sheet grammar with `row` for the entry; `wrong`
    states the same of a model row (`wrong(row, judge)`).
    """

    key: str
    words: str
    formula: str
    wrong: Callable[[Any, Judge], bool]


@dataclass(frozen=True)
class Kind:
    """A kind of record: a block of the workbook, a list (or one mapping) of a YAML file."""

    key: str
    fields: tuple[Field, ...]
    checks: tuple[Check, ...] = ()
    upright: bool = False
    capacity: int = 0  # rows of its table in a usual book; an upright kind has one record
    spare: int = 1  # rows that a larger book leaves blank for more
    most: int = 200  # rows that a book may have
    awaits: str = ""  # a table: until it has rows, a book has next to none for this one
    named: str = ""  # the field whose value other rows look it up by
    field_of: dict[str, Field] = default(init=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "field_of", {field.key: field for field in self.fields})

    @property
    def sheet(self) -> str:
        """The title of the sheet it is typed on."""
        return TYPED_ON[self.key][1]

    @property
    def title(self) -> str:
        """What it is called: the sheet's title, or that of its table on a sheet of several."""
        return TYPED_ON[self.key][0]
