"""Keys that stand where they do not belong: a level too high, misspelt, in a record of another kind."""

import functools
from collections.abc import Iterable
from typing import Any, TypeAlias

from builder.documents import Mapping, Mark, Node
from builder.problems import near
from builder.records.fields import Kind
from builder.records.kinds import KINDS

CHANGE = "change"  # of a catalog record: of which one below it states what differs
# lists within a record
INSIDE = {("families", "sizes"): ("nozzles", "family"), ("takeoff", "openings"): ("openings", "line")}

Tree: TypeAlias = dict[str | int, Any]  # step of a path -> the Tree below it; {} at a value, None: read elsewhere


def belongs(key: str, known: Tree) -> str:
    """A hint for a key that stands a level too high: 'it belongs under 'packs''."""
    inside = {name: tree.get(0) or tree for name, tree in known.items() if tree}  # 0: the first of a list
    places = [f"'{name}'" for name, keys in inside.items() if key in keys]
    return f"it belongs under {' or '.join(places)}" if places else ""


def misspelt(node: Mapping, kind: Kind, known: Tree) -> dict[str, Mark]:
    """Field -> the mark of the misspelt key that stands in its place: it is told, so that a blank is not
    told as well.
    """
    missing = {str(one.steps[0]): one.key for one in kind.fields if one.steps[0] not in node.entries}
    unknown = node.entries.keys() - known.keys()
    return {missing[close[0]]: node.entries[key][0] for key in sorted(unknown) if (close := near(key, list(missing)))}


def elsewhere(kind: Kind, node: Node, kinds: Iterable[Kind]) -> str:
    """The kind to which a record belongs that stands among those of another; '' where it may be where it belongs."""
    if not isinstance(node, Mapping) or CHANGE in node.entries:
        return ""

    def known(one: Kind) -> int:
        return len(node.entries.keys() & _first_words(one.key))

    best = max((one for one in kinds if not one.upright), key=known, default=kind)
    return best.key if known(best) > 2 * known(kind) and known(best) > 2 else ""


@functools.cache
def _first_words(key: str) -> frozenset[str]:
    """The keys with which a record of a kind may begin."""
    return frozenset({*(str(one.steps[0]) for one in KINDS[key].fields), *inner_lists(KINDS[key])})


def inner_lists(kind: Kind) -> dict[str, tuple[str, str]]:
    """The lists within a record of a kind."""
    return {name: target for (outer, name), target in INSIDE.items() if outer == kind.key}
