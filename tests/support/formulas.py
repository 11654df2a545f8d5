"""A column's formula as a tree, each node with the place of its text: {references} of `builder/sheets/grammar.py` are
leaves. The dialect is small, so the reader is: operators by their rank, calls, parentheses.
"""

import re
from dataclasses import dataclass

RANKS = {"=": 1, "<>": 1, "<": 1, ">": 1, "<=": 1, ">=": 1, "&": 2, "+": 3, "-": 3, "*": 4, "/": 4, "^": 5}
COMPARISONS = [sign for sign, rank in RANKS.items() if rank == 1]
_TOKEN = re.compile(r'"(?:[^"]|"")*"|\{[^{}]*\}|\d+(?:\.\d+)?|[A-Z][A-Z0-9.]*\(|<=|>=|<>|[-+*/^&=<>(),]')


@dataclass(frozen=True)
class Node:
    """kind: 'text', 'reference', 'number', 'call', 'operator', 'sign', 'group'. said: what it is called: the operator,
    the function, the reference without its braces. kids: its operands, arguments, or what a group holds.
    """

    kind: str
    said: str
    start: int
    end: int
    kids: tuple = ()
    sign_at: int = 0  # of an operator: where it stands

    def walk(self):
        yield self
        for kid in self.kids:
            yield from kid.walk()


class _Reader:
    def __init__(self, text):
        self.text, self.at = text, 0
        self.tokens = [*_TOKEN.finditer(text)]
        if "".join(token[0] for token in self.tokens) != text.replace(" ", "") and '"' not in text:
            raise ValueError(f"no formula of the dialect: {text}")

    def peek(self):
        return self.tokens[self.at][0] if self.at < len(self.tokens) else ""

    def take(self):
        self.at += 1
        return self.tokens[self.at - 1]

    def whole(self, least=1):
        """What follows, as far as operators of at least this rank hold it together."""
        left = self.single()
        while RANKS.get(self.peek(), 0) >= least:
            sign = self.take()
            right = self.whole(RANKS[sign[0]] + 1)
            left = Node("operator", sign[0], left.start, right.end, (left, right), sign.start())
        return left

    def single(self):
        token = self.take()
        said, start, end = token[0], token.start(), token.end()
        if said == "-":
            inner = self.single()
            return Node("sign", "-", start, inner.end, (inner,))
        if said == "(":
            inner = self.whole()
            return Node("group", "", start, self.take().end(), (inner,))
        if said[-1] == "(":
            kids = []
            while self.peek() != ")":
                kids.append(self.whole())
                if self.peek() == ",":
                    self.take()
            return Node("call", said[:-1], start, self.take().end(), tuple(kids))
        if said[0] == "{":
            return Node("reference", said[1:-1], start, end)
        return Node("text" if said[0] == '"' else "number", said, start, end)


def read(text):
    """The tree of a formula."""
    reader = _Reader(text)
    tree = reader.whole()
    if reader.at < len(reader.tokens):
        raise ValueError(f"'{reader.peek()}' is not expected in {text}")
    return tree
