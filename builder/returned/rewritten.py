"""Formulas as other programs write them: one text for all that mean the same."""

import re

ONE_CELL = re.compile(r"(\$?[a-z]{1,3}\$?\d+):\1(?!\d)")  # LibreOffice 25.2 writes $FK5:$FK5 back as $FK5
LATER = re.compile(r"_xl(?:fn|ws|udf)\.(?:_xl(?:fn|ws|udf)\.)*")  # before the name of a function younger than 2007
NEWER = (("norm.s.inv(", "normsinv("), ("norm.dist(", "normdist("))  # what gnumeric calls functions of 2007 by now
NEGATED = "-(-"  # gnumeric writes --(x) back as -(-(x))
OPERAND = re.compile(r'[\w.$!:]*|"[^"]*"')  # what may stand before the brackets of a single operand


def plain(formula: str) -> str:
    """The formula without what programs change: white space, case, a run of one cell, a double minus in brackets."""
    text = LATER.sub("", "".join(formula.split()).casefold())
    for name, older in NEWER:
        text = text.replace(name, older)
    return _unnegated(ONE_CELL.sub(r"\1", text))


def same(one: object, other: str) -> bool:
    """Whether what stands in a cell is a formula that means the same."""
    return isinstance(one, str) and (one == other or plain(one) == plain(other))


def _unnegated(text: str) -> str:
    """'-(-(x))' as '--(x)', wherever the inner minus has a single operand."""
    at = text.find(NEGATED)
    while at >= 0:
        end = _closing(text, at + 1)
        inside = text[at + len(NEGATED) : end]
        if end > 0 and _single(inside):
            text = f"{text[:at]}--{inside}{text[end + 1 :]}"
        at = text.find(NEGATED, at + 1)
    return text


def _closing(text: str, opens: int) -> int:
    """The place of the bracket that closes the one at `opens`; -1 where none does. Those within quotes do not count."""
    depth, quoted = 0, False
    for at in range(opens, len(text)):
        letter = text[at]
        if letter == '"':
            quoted = not quoted
        elif not quoted:
            depth += (letter == "(") - (letter == ")")
            if depth == 0:
                return at
    return -1


def _single(text: str) -> bool:
    """Whether a text is one cell, name, number or function with its brackets."""
    before = OPERAND.match(text)
    rest = text[before.end() if before else 0 :]
    return bool(text) and (not rest or rest.startswith("(") and _closing(rest, 0) == len(rest) - 1)
