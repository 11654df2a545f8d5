"""Strict YAML: every value is text with its place in the file; what the field makes of it is the field's business.

No value is given a type here, so `no`, `011` and `12:30` mean what they say. Refused outright: anchors,
aliases, tags, duplicate keys, several documents, files too large or too deep.
"""

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn, TypeAlias

import yaml

from builder.files import get
from builder.problems import ERROR, BadValue, Problem, Refused

MOST_BYTES, MOST_NODES, MOST_DEPTH = 2_000_000, 100_000, 12
MOST_OF_KEY = 200  # letters
MOST_LETTERS = 32_767  # what a cell can hold
# YAML ends a line there; counting lines by the usual one goes astray
HIDDEN_BREAK = re.compile(r"\r(?!\n)|[\u0085\u2028\u2029]")
SLIPS = (  # what a file that is no YAML may hold: what to look for in a line, what is wrong, what to do
    (re.compile(r"\s*([–—−‐•·*])\s"), "is not a plain hyphen", "begin a record with -"),
    (re.compile(r"\s*(-)[A-Za-z{]"), "needs a space after it", "write '- name: ...'"),
    (re.compile(r"[\s-]*[A-Za-z_]+(:)[^\s/]"), "needs a space after it", "write 'key: value'"),
)
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Mark:
    """A place in a file, counted from 1."""

    file: str
    line: int
    column: int

    def problem(self, message: str, hint: str = "", severity: str = ERROR) -> Problem:
        return Problem(self.file, self.line, self.column, message, hint, severity)


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

    def build(self, node: yaml.Node) -> Node:
        mark = self.mark(node)
        if isinstance(node, yaml.ScalarNode):
            if len(node.value) > MOST_LETTERS:
                self.problems.append(mark.problem(f"text longer than {MOST_LETTERS:,} characters", "shorten it"))
            elif not all(letter.isprintable() or letter in "\n\t" for letter in node.value):
                self.problems.append(mark.problem("text with a hidden character", "type the text again"))
            blank = not node.style and node.value in ("", "~", "null")
            return Text("" if blank else node.value, mark, bool(node.style))
        if isinstance(node, yaml.SequenceNode):
            return Listing(tuple(map(self.build, node.value)), mark)
        entries: dict[str, tuple[Mark, Node]] = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                self.stop(key, "a key must be one plain word", "write 'key: value'")
            if len(key.value) > MOST_OF_KEY:
                self.stop(key, f"a key longer than {MOST_OF_KEY} characters", "a key is one word before a colon")
            if key.value in entries:
                first = entries[key.value][0]
                self.problems.append(
                    self.mark(key).problem(f"duplicate key '{key.value}'", f"the first is in line {first.line}")
                )
                continue
            entries[key.value] = self.mark(key), self.build(value)
        return Mapping(entries, mark)


def read(path: str | Path) -> Mapping:
    """The file as a Mapping of marked texts. Refused when it is not one strict YAML mapping."""
    try:
        data = get(path, MOST_BYTES)
    except BadValue as error:
        raise Refused([Mark(str(path), 1, 1).problem(error.message, error.hint)]) from None
    return parse(data, str(path))


def parse(data: bytes, name: str) -> Mapping:
    """Bytes of strict YAML as a Mapping of marked texts; `name` is the file that problems speak of. Refused as `read`
    is.
    """
    reader = _Reader(name)
    top = Mark(name, 1, 1)
    if len(data) > MOST_BYTES:
        raise Refused([top.problem(f"the file is larger than {MOST_BYTES:,} bytes", "split it into several files")])
    try:
        text = data.decode("utf-8-sig")
        hidden = HIDDEN_BREAK.search(text)
        if hidden:
            start = hidden.start()
            place = Mark(reader.file, text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start))
            raise Refused(
                [place.problem("a line break that most editors do not show", "end the line with the Enter key")]
            )
        reader.scan(text)
        node = yaml.compose(text, LOADER)
    except UnicodeDecodeError as error:
        number = data.count(b"\n", 0, error.start) + 1
        raise Refused([Problem(reader.file, number, 1, "the file is not saved as UTF-8", "save it as UTF-8")]) from None
    except yaml.MarkedYAMLError as error:
        at = error.problem_mark or error.context_mark
        lines = text.split("\n")
        if at and at.line >= len(lines):  # the reader may put the end of the file a line too far
            place = Mark(reader.file, len(lines), len(lines[-1]) + 1)
        else:
            place = Mark(reader.file, at.line + 1, at.column + 1) if at else top
        if error.context and error.context_mark and "quoted scalar" in error.context:
            opens = Mark(reader.file, error.context_mark.line + 1, error.context_mark.column + 1)
            raise Refused(
                [opens.problem("the quote that begins here is not closed", "add the closing quote")]
            ) from None
        if at and at.line < len(lines) and "\t" in lines[at.line][: at.column + 1]:
            raise Refused([place.problem("a tab", "indent with spaces")]) from None
        for number, line in reversed(list(enumerate(lines[: place.line], start=1))):
            for slip, message, hint in SLIPS:
                if found := slip.match(line):
                    slipped = Mark(reader.file, number, found.start(1) + 1)
                    raise Refused([slipped.problem(f"'{found[1]}' {message}", hint)]) from None
        raise Refused(
            [
                place.problem(
                    f"not readable as YAML: {error.problem or error.context}", "check the indents, colons and quotes"
                )
            ]
        ) from None
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
