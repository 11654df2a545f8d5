"""Strict YAML: every value is text with its place in the file; what the field makes of it is the field's business.

No value is given a type here, so `no`, `011` and `12:30` mean what they say. Refused outright: anchors,
aliases, tags, duplicate keys, several documents, files too large or too deep.
"""

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn, TypeAlias

import yaml

from builder import slips
from builder.files import get
from builder.problems import ERROR, BadValue, Problem, Refused

MOST_BYTES, MOST_NODES, MOST_DEPTH = 2_000_000, 100_000, 12
MOST_OF_KEY = 200  # letters
MOST_LETTERS = 32_767  # what a cell can hold
BOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # how a zip archive begins, and an older workbook
# YAML ends a line there; counting lines by the usual one goes astray
HIDDEN_BREAK = re.compile(r"\r(?!\n)|[\u0085\u2028\u2029]")
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def hidden(letter: str) -> bool:
    """Whether nobody sees a letter of a text, or not as what it is: a space that does not break, a mark that turns
    letters round.
    """
    return not letter.isprintable() and letter not in "\n\t"


@dataclass(frozen=True)
class Mark:
    """A place in a file, counted from 1."""

    file: str
    line: int
    column: int

    def problem(self, message: str, hint: str = "", severity: str = ERROR, cause: str = "") -> Problem:
        return Problem(self.file, self.line, self.column, message, hint, severity, cause)

    def seen_from(self, other: "Mark") -> str:
        """This place as it is named at another: 'line 12', or 'ours.yaml:12' in another file."""
        return f"line {self.line}" if self.file == other.file else f"{self.file}:{self.line}"


@dataclass(frozen=True)
class Text:
    """A scalar; `value` is '' where the file leaves it blank. quoted: the file puts it in quotes."""

    value: str
    mark: Mark
    quoted: bool = False


@dataclass(frozen=True)
class Listing:
    items: "tuple[Node, ...]"
    mark: Mark


@dataclass(frozen=True)
class Mapping:
    entries: "dict[str, tuple[Mark, Node]]"  # key -> (mark of the key, value)
    mark: Mark

    def get(self, key: str) -> "Node | None":
        return self.entries[key][1] if key in self.entries else None


Node: TypeAlias = Text | Listing | Mapping


@dataclass
class _Reader:
    file: str
    problems: list[Problem] = field(default_factory=list)

    def mark(self, node: yaml.Node | yaml.Event) -> Mark:
        start = node.start_mark
        assert start is not None  # only nodes made by a program have none
        return Mark(self.file, start.line + 1, start.column + 1)

    def stop(self, at: yaml.Node | yaml.Event, message: str, hint: str = "") -> NoReturn:
        raise Refused([self.mark(at).problem(message, hint)])

    def scan(self, text: str) -> None:
        """Refuse what the grammar leaves out, before anything is built."""
        depth = count = documents = 0
        for event in yaml.parse(text, LOADER):
            count += 1
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self.stop(event, "a second document begins here", "remove the line '---'")
            if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
                self.stop(
                    event,
                    "anchors (&) and aliases (*) are not allowed",
                    "write the value out, or put text that begins so in quotes",
                )
            if tag := getattr(event, "tag", None):
                self.stop(event, f"tag '{tag}' is not allowed", "write the value alone")
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            if depth > MOST_DEPTH or count > MOST_NODES:
                self.stop(event, "the file is nested too deep or holds too many values", "split it into several files")

    def build(self, node: yaml.Node, listed: bool = False) -> Node:
        """The node as one of ours. listed: it is an entry of a list."""
        mark = self.mark(node)
        if isinstance(node, yaml.ScalarNode):
            if len(node.value) > MOST_LETTERS:
                self.problems.append(mark.problem(f"text longer than {MOST_LETTERS:,} characters", "shorten it"))
            elif any(map(hidden, node.value)):
                self.problems.append(mark.problem("text with a hidden character", "type the text again"))
            blank = not node.style and node.value in ("", "~", "null")
            return Text("" if blank else node.value, mark, bool(node.style))
        if isinstance(node, yaml.SequenceNode):
            return Listing(tuple(self.build(item, listed=True) for item in node.value), mark)
        entries: dict[str, tuple[Mark, Node]] = {}
        twice: list[tuple[str, Mark]] = []
        before: yaml.Node | None = None
        for key, value in node.value:
            if before and (whole := self.comma(before, key, value)):
                last = next(reversed(entries))
                entries[last] = entries[last][0], whole
                continue
            before = value
            if not isinstance(key, yaml.ScalarNode):
                self.stop(key, "a key must be one plain word", "write 'key: value'")
            if len(key.value) > MOST_OF_KEY:
                self.stop(key, f"a key longer than {MOST_OF_KEY} characters", "a key is one word before a colon")
            if key.value in entries:
                twice.append((key.value, self.mark(key)))
                continue
            entries[key.value] = self.mark(key), self.build(value)
        if twice:
            self.twice(entries, twice, listed and not getattr(node, "flow_style", False))
        return Mapping(entries, mark)

    def comma(self, before: yaml.Node, key: yaml.Node, value: yaml.Node) -> Text | None:
        """The number that a comma cut in two within braces: {length: 1,250 ft}; None where there is none."""
        if not (isinstance(before, yaml.ScalarNode) and isinstance(key, yaml.ScalarNode) and not before.style):
            return None
        end, start = before.end_mark, key.start_mark
        joined = end and start and (end.line, end.column + 1) == (start.line, start.column)
        if joined and value.value == "" and re.search(r"\d$", before.value) and re.match(r"\d", key.value):
            return Text(f"{before.value},{key.value}", self.mark(before))
        return None

    def twice(self, entries: dict[str, tuple[Mark, Node]], twice: list[tuple[str, Mark]], record: bool) -> None:
        """Keys that stand twice in a mapping are one mistake. record: of a list, where a dash may be missing."""
        (key, place), *others = twice
        first = entries[key][0]
        if record and key == next(iter(entries)):
            message = f"duplicate key '{key}': a record begins here without a dash"
            self.problems.append(
                place.problem(message, f"write '- {key}: ...'; the record before is in line {first.line}")
            )
            return
        more = f", and {len(others)} more to line {others[-1][1].line}" if others else ""
        self.problems.append(place.problem(f"duplicate key '{key}'{more}", f"the first is in line {first.line}"))


def read(path: str | Path) -> Mapping:
    """The file as a Mapping of marked texts. Refused when it is not one strict YAML mapping."""
    try:
        data = get(path, MOST_BYTES)
    except BadValue as error:
        raise Refused([Mark(str(path), 1, 1).problem(error.message, error.hint)]) from None
    return parse(data, str(path))


def _slipped(name: str, slip: slips.Slip) -> Problem:
    return Mark(name, slip.line, slip.column).problem(slip.message, slip.hint)


def parse(data: bytes, name: str) -> Mapping:
    """Bytes of strict YAML as a Mapping of marked texts; `name` is the file that problems speak of. Refused as `read`
    is.
    """
    reader = _Reader(name)
    top = Mark(name, 1, 1)
    if len(data) > MOST_BYTES:
        raise Refused([top.problem(f"the file is larger than {MOST_BYTES:,} bytes", "split it into several files")])
    if data.startswith(BOOKS):
        raise Refused(
            [top.problem("a workbook, not a YAML file", f"look at it with: wetfilm inspect {Path(name).name}")]
        )
    try:
        text = data.decode("utf-8-sig")
        hidden = HIDDEN_BREAK.search(text)
        if hidden:
            start = hidden.start()
            place = Mark(reader.file, text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start))
            raise Refused(
                [place.problem("a line break that most editors do not show", "end the line with the Enter key")]
            )
        if slip := slips.conflict(text):
            raise Refused([_slipped(name, slip)])
        reader.scan(text)
        node = yaml.compose(text, LOADER)
    except UnicodeDecodeError:
        raise Refused([_slipped(name, slips.encoding(data))]) from None
    except yaml.MarkedYAMLError as error:
        raise Refused([_slipped(name, slips.of(text, error, LOADER))]) from None
    except yaml.YAMLError as error:
        place = Mark(reader.file, text.count("\n", 0, getattr(error, "position", 0)) + 1, 1)
        raise Refused(
            [place.problem("a character that is not allowed here", "save the file as plain UTF-8 text")]
        ) from None
    if node is None:
        raise Refused([top.problem("the file is empty", "begin with a line such as 'coatings:' or 'job:'")])
    whole = reader.build(node)
    if not isinstance(whole, Mapping):
        problem = whole.mark.problem("the file must begin with a key and a colon", "such as 'coatings:' or 'job:'")
        raise Refused([*reader.problems, problem])
    if reader.problems:
        raise Refused(reader.problems)
    return whole
