"""Keys and words of older files, read as what they are called now, with a warning that names it."""

from collections.abc import Callable, Container
from typing import Any, TypeAlias

from builder.documents import Listing, Mapping, Mark, Node
from builder.problems import WARNING, Problem
from builder.quantities import Value
from builder.records.versions import OLD_KEYS, OLD_WORDS
from builder.values import same

STILL = "the old name is still read; write the new one"
# of an old name: where it stands, what it is, what it is called now
Tell: TypeAlias = Callable[[Mark, str, str], None]


def current(node: Node, known: dict[Any, Any] | None, tell: Tell) -> Node:
    """A node with the keys of now. known: a tree of dicts, {} at a single value, None where keys are read elsewhere."""
    if isinstance(node, Listing) and known:
        return Listing(tuple(current(item, known.get(at), tell) for at, item in enumerate(node.items)), node.mark)
    return current_keys(node, known, tell) if isinstance(node, Mapping) and known else node


def current_keys(node: Mapping, known: dict[Any, Any], tell: Tell) -> Mapping:
    """A record with the keys of now, at every depth."""
    entries = {}
    for key, (mark, value) in node.entries.items():
        new = current_key(key, known, node.entries)
        if new != key:
            tell(mark, key, new)
        entries[new] = mark, current(value, known.get(new), tell)
    return Mapping(entries, node.mark)


def current_key(key: str, known: Container[str], beside: Container[str]) -> str:
    """What a key is called now; itself where it is known, or where its new name stands beside it."""
    new = OLD_KEYS.get(key, key)
    return new if key not in known and new in known and new not in beside else key


def current_word(value: Value) -> Value:
    """What a word of a closed list is called now."""
    return OLD_WORDS.get(same(value), value) if isinstance(value, str) else value


class Told:
    """Warnings of old names, each told once a file, at its first place."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        self.names: set[tuple[str, str]] = set()

    def __call__(self, mark: Mark, old: str, new: str) -> None:
        if (mark.file, old) not in self.names:
            self.names.add((mark.file, old))
            self.problems.append(mark.problem(f"'{old}' is now called '{new}'", STILL, WARNING))
