"""Slips of a hand that leave a file unreadable: which line is the true one, what is wrong in it and what to do.

What the reader of YAML says of them names the line where it gave up, often a later one, and speaks of its own grammar.
"""

import codecs
import re
from typing import NamedTuple, TypeAlias

import yaml

from builder.problems import more_lines


class Slip(NamedTuple):
    """Where, counted from 1; what is wrong; what to do."""

    line: int
    column: int
    message: str
    hint: str


Level: TypeAlias = tuple[int, int, bool]  # indent, last line, whether it is a list: of a block that is open

CONFLICT = re.compile(r"^(?:<{7}|\|{7}|={7}|>{7})(?: .*)?\r?$", re.MULTILINE)
SLIPS = (  # what else may stand in a line: what to look for, what is wrong, what to do
    (re.compile(r"\s*([–—−‐•·*])\s"), "is not a plain hyphen", "begin a record with -"),
    (re.compile(r"\s*(-)[A-Za-z{]"), "needs a space after it", "write '- name: ...'"),
    (re.compile(r"[\s-]*[A-Za-z_]+(:)[^\s/]"), "needs a space after it", "write 'key: value'"),
)
# a space of another kind in the indent or right after a colon, as web pages and word processors have it
ODD_SPACE = re.compile(r"[ -]*(?:[A-Za-z_]+:)?([\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000])")
NO_COLON = ("this line has no colon", "write 'key: value'")
WIDE = ((codecs.BOM_UTF16_LE, "UTF-16"), (codecs.BOM_UTF16_BE, "UTF-16"))


def encoding(data: bytes) -> Slip:
    """Of bytes that are not UTF-8: the first that is not, and in how many lines there are such."""
    for mark, name in WIDE:
        if data.startswith(mark):
            return Slip(1, 1, f"the file is saved as {name}, not as UTF-8", "save it as UTF-8")
    places = []
    for number, line in enumerate(data.split(b"\n"), start=1):
        try:
            line.decode("utf-8-sig" if number == 1 else "utf-8")
        except UnicodeDecodeError as error:
            places.append((number, len(line[: error.start].decode()) + 1, line[error.start : error.start + 1]))
    number, column, byte = places[0]
    meant = byte.decode("cp1252", "replace")
    letter = f"'{meant}' is stored as one byte here" if meant.isprintable() and meant != "\ufffd" else "a stray byte"
    more = more_lines([place[0] for place in places[1:]])
    return Slip(number, column, f"the file is not saved as UTF-8: {letter}{more}", "save it as UTF-8")


def conflict(text: str) -> Slip | None:
    """The marks that a merge of two versions left in a file; None where there are none."""
    lines = [text.count("\n", 0, found.start()) + 1 for found in CONFLICT.finditer(text)]
    if not lines:
        return None
    found = text.split("\n")[lines[0] - 1].split()[0]
    message = f"'{found}': two versions of the file were merged and differ here{more_lines(lines[1:])}"
    return Slip(lines[0], 1, message, "keep one version of each place, and delete these lines")


def _levels(text: str, before: int, loader: type[yaml.SafeLoader]) -> list[Level]:
    """The blocks that were open above a line, the outermost first. before: that line, counted from 1."""
    levels: list[Level] = []
    flow = 0
    try:
        for event in yaml.parse(text, loader):
            mark = event.start_mark
            if mark is None or mark.line + 1 >= before:
                break
            if isinstance(event, yaml.CollectionStartEvent):
                flow += bool(event.flow_style)
                if not event.flow_style:
                    levels.append((mark.column, mark.line + 1, isinstance(event, yaml.SequenceStartEvent)))
            elif isinstance(event, yaml.CollectionEndEvent):
                if flow:
                    flow -= 1
                else:
                    levels.pop()
            if levels and not flow:
                indent, _, listed = levels[-1]
                if mark.column == indent or listed:
                    levels[-1] = indent, mark.line + 1, listed
    except yaml.YAMLError:
        pass
    return levels


def _indent(text: str, line: int, loader: type[yaml.SafeLoader]) -> Slip | None:
    """Of a line that the reader stopped at: a wrong indent, or a record that has no dash."""
    lines = text.split("\n")
    said = lines[line - 1]
    begins = said.lstrip(" ")
    indent = len(said) - len(begins)
    levels = _levels(text, line, loader)
    if not levels or not begins:
        return None
    lists = [level for level in levels if level[2]]
    if not begins.startswith("-") and lists and (begins.startswith("{") or indent == lists[-1][0]):
        inside = f", or indent the line by {levels[-1][0]} spaces" if levels[-1][0] > lists[-1][0] else ""
        told = "neither begins a record nor goes on with the one above"
        return Slip(line, indent + 1, f"this line {told}", f"begin a record with a dash, as in '- name: ...'{inside}")
    if begins.startswith("-"):
        levels = lists or levels
    if indent in [level[0] for level in levels]:
        return None
    above = next((number for number in range(line - 1, 0, -1) if lines[number - 1].strip(" ")), 0)
    if above and len(lines[above - 1]) - len(lines[above - 1].lstrip(" ")) == indent:
        return Slip(above, indent + 1, *NO_COLON)
    wanted, other, _ = min(levels, key=lambda level: (abs(level[0] - indent), -level[0]))
    told = f"this line is indented by {indent}, line {other} by {wanted}"
    return Slip(line, indent + 1, told, f"indent lines of one level alike, here by {wanted} spaces")


def _bracket(lines: list[str], error: yaml.MarkedYAMLError) -> Slip | None:
    """Of what stands in brackets: one that is not closed, or a comma that is missing."""
    opens, at = error.context_mark, error.problem_mark
    if not (opens and at and error.context and "flow" in error.context):
        return None
    said = lines[at.line] if at.line < len(lines) else ""
    begins = said.lstrip(" ")
    first, column = opens.line, opens.column
    if first >= len(lines) or not lines[first].strip():  # open until the end of the file: the reader names the end
        first = next(number for number in range(len(lines) - 1, -1, -1) if set("{[") & set(lines[number]))
        column = max(map(lines[first].rfind, "{["))
    outside = len(lines[first]) - len(lines[first].lstrip(" "))
    sign = lines[first][column : column + 1]
    if at.line > first and (not begins or begins.startswith("-") or len(said) - len(begins) <= outside):
        close = {"{": "}", "[": "]"}.get(sign, "")
        return Slip(first + 1, column + 1, f"the {sign} that begins here is not closed", f"add {close}")
    hint = "write {key: value, key: value}; text with a comma, a colon or a bracket stands in quotes"
    return Slip(at.line + 1, at.column + 1, "a comma is missing before this", hint)


def of(text: str, error: yaml.MarkedYAMLError, loader: type[yaml.SafeLoader]) -> Slip:
    """What a person did that made the reader stop with this error."""
    at = error.problem_mark or error.context_mark
    lines = text.split("\n")
    line, column = (at.line + 1, at.column + 1) if at else (1, 1)
    if line > len(lines):  # the reader may put the end of the file a line too far
        line, column = len(lines), len(lines[-1]) + 1
    if error.context and error.context_mark and "quoted scalar" in error.context:
        opens = error.context_mark
        return Slip(
            opens.line + 1, opens.column + 1, "the quote that begins here is not closed", "add the closing quote"
        )
    if "\t" in lines[line - 1][:column]:
        begins = [
            number for number, said in enumerate(lines, start=1) if "\t" in said[: len(said) - len(said.lstrip())]
        ]
        more = more_lines([number for number in begins if number > line])
        return Slip(line, column, f"a tab{more}", "indent with spaces")
    for number in range(line, 0, -1):
        if found := ODD_SPACE.match(lines[number - 1]):
            told = "a space pasted from a page or a letter, which is no plain space"
            return Slip(number, found.start(1) + 1, told, "type the space anew")
    if slip := _bracket(lines, error):
        return slip
    for number, said in reversed(list(enumerate(lines[:line], start=1))):
        for pattern, message, hint in SLIPS:
            if found := pattern.match(said):
                return Slip(number, found.start(1) + 1, f"'{found[1]}' {message}", hint)
    if error.problem == "could not find expected ':'" and error.context_mark:
        words = error.context_mark
        return Slip(words.line + 1, words.column + 1, *NO_COLON)
    if error.problem and "mapping values" in error.problem and ": " in lines[line - 1][: column - 1]:
        hint = "put text with a colon in quotes; put { } around several keys in one line"
        return Slip(line, column, "a second colon in this line", hint)
    if slip := _indent(text, line, loader):
        return slip
    told = f"not readable as YAML: {error.problem or error.context}"
    return Slip(line, column, told, "check the indents, colons and quotes")
