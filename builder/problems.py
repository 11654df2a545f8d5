"""A problem in a file: where it stands, what was found, what to write instead."""

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, field, replace

ERROR, WARNING, NOTE = "error", "warning", "note"
LONGEST, END = 2_000, 400  # letters of a printed line, and of its end, where the hint stands, if it is longer

FEW = 3  # lines that are named one by one


@dataclass(frozen=True, order=True)
class Problem:
    """One thing to fix or to review. `line` and `column` count from 1; line 0 means the file as a whole.

    severity: 'error' stops a build; 'warning' is worth a look; 'note' tells what was done. cause: problems of one
    file that have the same one are one mistake; '': that of the message.
    """

    file: str
    line: int
    column: int
    message: str
    hint: str = ""
    severity: str = ERROR
    cause: str = field(default="", compare=False, repr=False)

    def __str__(self) -> str:
        hint = f" ({self.hint})" if self.hint else ""
        kind = "" if self.severity == ERROR else f"{self.severity}: "
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        return f"{place}: {kind}{self.message}{hint}"


class BadValue(Exception):
    """What a person wrote in one place cannot be taken: why, and what to write instead. Who knows the place
    tells it.
    """

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message, hint)
        self.message, self.hint = message, hint

    def __str__(self) -> str:
        return self.message


class Refused(Exception):
    """The command cannot go on; `problems` says why, in words for the person who asked. status: of its exit."""

    status = 1

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(problems)
        super().__init__("\n".join(map(str, self.problems)))

    def __reduce__(self) -> tuple[type["Refused"], tuple[list[Problem]]]:
        return type(self), (self.problems,)  # its text alone would come out of another process


def errors(problems: Iterable[Problem]) -> list[Problem]:
    """Those that stop a build."""
    return [problem for problem in problems if problem.severity == ERROR]


class Misused(Refused):
    """The command itself is wrong: it would do harm, whatever its files hold."""

    status = 2


def on_one_line(text: str) -> str:
    """Foreign text as it may be printed: what breaks the line, steers the screen or turns letters round, as its escape.

    Not endless.
    """

    def harmless(letter: str) -> bool:
        return letter.isprintable() or unicodedata.category(letter) == "Zs"

    text = text if len(text) <= LONGEST else f"{text[: LONGEST - END]} … {text[-END:]}"
    return "".join(letter if harmless(letter) else letter.encode("unicode_escape").decode() for letter in text)


def more_lines(lines: Sequence[int]) -> str:
    """Where else something is: '; the same in lines 7 and 9', '; the same in 40 more places, to line 90'; or ''."""
    if not lines:
        return ""
    if len(lines) == 1:
        return f"; the same in line {lines[0]}"
    if len(lines) > FEW:
        return f"; the same in {len(lines)} more places, to line {max(lines)}"
    return f"; the same in lines {', '.join(map(str, lines[:-1]))} and {lines[-1]}"


def together(problems: Iterable[Problem]) -> list[Problem]:
    """The problems sorted; those of one cause in one file as one, with the lines of all; notes stay."""
    gathered: dict[object, list[Problem]] = {}
    for problem in sorted(set(problems)):
        cause = (problem.file, problem.severity, problem.cause or (problem.message, problem.hint))
        gathered.setdefault(problem if problem.severity == NOTE else cause, []).append(problem)
    return [
        replace(first, message=first.message + more_lines([other.line for other in others]))
        for first, *others in gathered.values()
    ]


def as_json(problems: Iterable[Problem], plain: bool = False) -> str:
    """The problems, sorted, as a JSON array. plain: in ASCII alone."""
    import json

    told = [asdict(problem) for problem in sorted(problems)]
    for problem in told:
        del problem["cause"]
    return json.dumps(told, indent=2, ensure_ascii=plain)


def near(word: object, known: Sequence[str]) -> list[str]:
    """The known words that are nearly this one, the nearest first, three at most."""
    import difflib

    return difflib.get_close_matches(str(word), known, n=3, cutoff=0.7)


def did_you_mean(word: object, known: Sequence[str]) -> str:
    """A hint that names the nearest known words: the close ones, or else all of them when they are few."""
    if close := near(word, known):
        return "did you mean " + " or ".join(f"'{name}'" for name in close) + "?"
    if len(known) <= 8:
        return "known: " + ", ".join(sorted(known))
    return ""
