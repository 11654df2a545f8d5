"""What one field may hold. Each rule tests a value, says itself in words, and states itself as a formula.

A rule never raises: `bad` answers for any value a cell can hold. `formula` is the sheet's own
statement of the same test, written with `{x}` for the cell: 1 where bad. It may be an error where the
cell is one; the judging column takes an error for bad.
"""

from dataclasses import dataclass
from typing import Any, Protocol

from builder.quantities import ZERO, Units, Value, scale
from builder.records import feet, titles
from builder.records.words import WORDS
from builder.values import day, is_number, same, size_digits

PATTERN = "*?~"  # spreadsheet matching reads these as patterns
NAME_LENGTH = 60


class Judge(Protocol):
    """What a rule asks of the rows beside its own: `sheets.judging.Judge`."""

    units: Units

    def as_text(self, value: float | str) -> str: ...
    def entered(self, block: str) -> list[Any]: ...
    def count_named(self, value: Value) -> int: ...
    def find(self, block: str, value: Value) -> Any: ...
    def first(self, block: str) -> Any: ...


@dataclass(frozen=True)
class Rule:
    """Anything goes: free text."""

    def bad(self, value: float | str, judge: Judge) -> bool:
        return False

    def lacks(self, required: bool, judge: Judge) -> bool:
        """Whether a blank is wrong."""
        return required

    def missing(self, required: bool) -> str:
        """The same as a formula."""
        return str(int(required))

    def words(self, units: Units) -> str:
        return "any text"

    def formula(self, block: str, key: str) -> str:
        return "0"


@dataclass(frozen=True)
class Between(Rule):
    """A number from `low` to `high`, both allowed, in `unit` (the quantity's own when '')."""

    low: float
    high: float
    unit: str = ""
    whole: bool = False

    def limits(self) -> tuple[float, float]:
        """(low, high) in SI."""
        size, zero = scale(self.unit), ZERO.get(self.unit, 0.0)
        return self.low * size + zero, self.high * size + zero

    def bad(self, value: float | str, judge: Judge) -> bool:
        low, high = self.limits()
        if not is_number(value) or not low - abs(low) * 1e-12 <= value <= high + abs(high) * 1e-12:
            return True
        return self.whole and value != int(value)

    def words(self, units: Units) -> str:
        kind = "a whole number" if self.whole else "a number"
        return f"{kind} from {{low}} to {{high}}"

    def formula(self, block: str, key: str) -> str:
        inside = f"ISNUMBER({{x}})*({{x}}>={{least.{block}_{key}}})*({{x}}<={{most.{block}_{key}}})"
        return f"1-{inside}*(INT({{x}})={{x}})" if self.whole else f"1-{inside}"


@dataclass(frozen=True)
class Length(Between):
    """A length between two, as a number or as text with a unit. Its judging row says in `<key>_read` what was read."""

    def bad(self, value: float | str, judge: Judge) -> bool:
        length = feet.read(value, judge.units)
        return length is None or super().bad(length, judge)


@dataclass(frozen=True)
class Day(Between):
    """A date between two years."""

    low: float = day("2000-01-01")
    high: float = day("2099-12-31")

    def words(self, units: Units) -> str:
        return "a date from 2000-01-01 to 2099-12-31"


@dataclass(frozen=True)
class Name(Rule):
    """A name that no other row of its block has and that spreadsheet matching cannot misread."""

    unique: bool = True

    def bad(self, value: float | str, judge: Judge) -> bool:
        text = judge.as_text(value)
        if len(text) > NAME_LENGTH or any(sign in text for sign in PATTERN):
            return True
        return self.unique and judge.count_named(value) != 1

    def words(self, units: Units) -> str:
        once = " that no other row has" if self.unique else ""
        return f"a name{once}, up to {NAME_LENGTH} characters, without {' '.join(PATTERN)}"

    def formula(self, block: str, key: str) -> str:
        longer = "{x}"  # each sign doubled: a name with any is longer than it was
        for sign in PATTERN:
            longer = f'SUBSTITUTE({longer},"{sign}","{sign}{sign}")'
        plain = f"(LEN({longer})=MIN(LEN({{x}}),{{constants.name_length}}))"
        return f"1-{plain}*(SUMPRODUCT(--({{{block}.{key}}}={{x}}))=1)" if self.unique else f"1-{plain}"


@dataclass(frozen=True)
class OneOf(Rule):
    """The name of a faultless row of another block."""

    block: str

    def bad(self, value: float | str, judge: Judge) -> bool:
        return judge.find(self.block, value) is None

    def words(self, units: Units) -> str:
        return f"a name from {titles.place(self.block)}, in a row without errors"

    def formula(self, block: str, key: str) -> str:
        return f"1-MIN(1,SUMPRODUCT(--({{{self.block}.known}}={{x}})))"


@dataclass(frozen=True)
class Usual(OneOf):
    """The same; a blank stands for the first faultless row, and is wrong where there is none."""

    def lacks(self, required: bool, judge: Judge) -> bool:
        return judge.first(self.block) is None

    def missing(self, required: bool) -> str:
        return f"--(SUM({{{self.block}.sound}})=0)"


@dataclass(frozen=True)
class Offered(Rule):
    """Any text; the names of another block are offered to choose from."""

    block: str

    def words(self, units: Units) -> str:
        return f"a name from {titles.place(self.block)}, or any other text"


@dataclass(frozen=True)
class Word(Rule):
    """One word of a closed list."""

    list: str

    def allowed(self) -> tuple[str, ...]:
        return WORDS[self.list]

    def bad(self, value: float | str, judge: Judge) -> bool:
        return same(value) not in [same(word) for word in self.allowed()]

    def words(self, units: Units) -> str:
        return "one of: " + ", ".join(self.allowed())

    def formula(self, block: str, key: str) -> str:
        return f"1-MIN(1,SUMPRODUCT(--({{words.{self.list}}}={{x}})))"


@dataclass(frozen=True)
class SizeNumber(Rule):
    """A nozzle size: three or four digits, the last two the orifice in thou, the others half the fan in inches."""

    def bad(self, value: float | str, judge: Judge) -> bool:
        return size_digits(value) is None

    def words(self, units: Units) -> str:
        return "a size of three or four digits, as in 515"

    def formula(self, block: str, key: str) -> str:
        return (
            '1-(VALUE({x})>={constants.size_least})*(VALUE({x})<={constants.size_most})*(TEXT(VALUE({x}),"0")={x}&"")'
            "*(MOD(VALUE({x}),100)>={constants.orifice_least})"
        )
