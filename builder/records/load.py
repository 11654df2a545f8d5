"""YAML -> the values of each block, in SI, with the place in the file that each came from."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from builder import documents
from builder.documents import Listing, Mapping, Mark, Node, Text
from builder.problems import ERROR, WARNING, BadValue, Problem, Refused, did_you_mean, errors, near
from builder.quantities import Units, Value
from builder.records.fields import Field, Kind, Marks, Record, Values
from builder.records.job import JOB
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.records.misplaced import CHANGE, INSIDE, Tree, belongs, elsewhere, inner_lists, misspelt
from builder.records.renamed import Told, current_key, current_keys, current_word
from builder.records.rules import Word
from builder.values import day

SETTINGS = ("units", "currency", "exchange")
OWN, WITHOUT, UNFINISHED = "own", "without", "unfinished"  # keys of a job file beside its kinds
NAMELESS = "begin each record with '- {}: ...'; indent its other lines alike, without a dash"
BESIDE_TERMS = "remove this line: in terms, each figure replaces that of the folder before by itself"


# Plain text that is no text to other readers of YAML.
TRAPS = (
    ("yes or no", re.compile(r"y|n|yes|no|on|off|true|false", re.IGNORECASE)),
    ("nothing", re.compile(r"null", re.IGNORECASE)),
    ("another number", re.compile(r"0[0-7_]+|0x[0-9a-f_]+|0o[0-7]+", re.IGNORECASE)),
    ("a time, or another number", re.compile(r"\d+(:[0-5]?\d)+")),
    ("a number", re.compile(r"\d[\d_]*_[\d_]*|\d+(\.\d*)?e[+-]?\d+|[+-]?\.(inf|nan)", re.IGNORECASE)),
    ("a date", re.compile(r"\d{4}-\d\d?-\d\d?")),
)

# those of SETTINGS that a file states; exchange is a float, the others text
Settings: TypeAlias = dict[str, Any]


@dataclass(frozen=True)
class Change:
    """That a record states only what differs from one below. name: of that one; '': that of its own fields, if any."""

    name: str
    mark: Mark


@dataclass
class Loaded:
    """`values[block]` is a list of rows (one for an upright block), each key -> value or None.

    `marks[block]` holds for each row the marks of its values, and under '' that of the row;
    `changes[block]` its Change, None for a whole record.
    """

    values: Values = field(default_factory=lambda: {key: [] for key in KINDS})
    marks: dict[str, list[Marks]] = field(default_factory=lambda: {key: [] for key in KINDS})
    changes: dict[str, list[Change | None]] = field(default_factory=lambda: {key: [] for key in KINDS})
    problems: list[Problem] = field(default_factory=list)
    units: Units = Units()
    unfinished: bool = False  # has faults, and is to be built all the same
    own: "Loaded | None" = None  # catalog records of a job's own
    without: tuple[tuple[str, Text], ...] = ()  # (kind, name) of catalog records it does without
    unread: set[str] = field(default_factory=set)  # 'kind.field' of values that could not be read, which is told
    lost: set[str] = field(default_factory=set)  # kinds of which something could not be read, which is told

    def add(self, kind: Kind, values: Record, marks: Marks, change: Change | None = None) -> None:
        self.values[kind.key].append(values)
        self.marks[kind.key].append(marks)
        self.changes[kind.key].append(change)

    def mark(self, block: str, row: int, key: str) -> Mark:
        marks = self.marks[block][row]
        return marks.get(key, marks[""])


def _find(node: Node | None, steps: Iterable[str | int], clears: bool) -> Node | None:
    """The node at the end of a path; None where there is none. clears: a blank on the way is a blank at its end."""
    for step in steps:
        if clears and isinstance(node, Text) and node.value == "":
            return node
        if isinstance(step, str) and isinstance(node, Mapping):
            node = node.get(step)
        elif isinstance(step, int) and isinstance(node, Listing):
            node = node.items[step] if step < len(node.items) else None
        else:
            return None
    return node


class Loader:
    def __init__(self, units: Units, typed: Units) -> None:
        self.units = units  # of the book: values settle in these
        self.typed = typed  # of the file: its money may be in another currency
        self.loaded = Loaded()
        self.renamed = Told(self.loaded.problems)

    def blame(self, mark: Mark, message: str, hint: str = "", cause: str = "") -> None:
        self.loaded.problems.append(mark.problem(message, hint, cause=cause))

    def lose(self, key: str) -> None:
        """Something of a kind cannot be read, which is told: so nothing is told of what would name it."""
        self.loaded.lost |= {key, *(target for (outer, _), (target, _) in INSIDE.items() if outer == key)}

    def listing(self, node: Node, key: str) -> tuple[Node, ...]:
        if isinstance(node, Text) and node.value == "":
            return ()
        if not isinstance(node, Listing):
            self.blame(node.mark, f"'{key}' must be a list", "begin each record with a dash")
            self.lose(key)
            return ()
        return node.items

    def unknown(self, node: Node, known: Tree | None, where: str) -> None:
        """Name every key that nothing reads, deep ones included; `known` is a tree of dicts, {} at a single value."""
        if known is None:
            return
        if isinstance(node, Listing) and known and all(isinstance(key, int) for key in known):
            for place, item in enumerate(node.items):
                if place in known:
                    self.unknown(item, known[place], where)
                else:
                    self.blame(item.mark, f"{where}: more than {len(known)}", "remove this one")
        elif isinstance(node, Mapping) and known and not all(isinstance(key, int) for key in known):
            for key, (mark, value) in node.entries.items():
                if key not in known:
                    hint = belongs(key, known) or did_you_mean(key, list(map(str, known)))
                    if (where, key) == (KINDS["terms"].title, CHANGE):
                        hint = BESIDE_TERMS
                    title = where.partition(" '")[0]  # without the record's name
                    self.blame(mark, f"{where}: unknown key '{key}'", hint, f"{title}: unknown key '{key}'")
                else:
                    self.unknown(value, known[key], f"{where}, {key}")
        elif known:
            if isinstance(node, Text) and node.value == "":
                return
            if all(isinstance(key, int) for key in known):
                self.blame(node.mark, f"{where} must be a list", "put [ ] around it, or begin each entry with a dash")
            else:
                self.blame(node.mark, f"{where} needs a key and a value", f"as in {{{next(iter(known))}: ...}}")

    def known(self, kind: Kind) -> Tree:
        tree: Tree = {}
        for one in kind.fields:
            at = tree
            for step in one.steps:
                at = at.setdefault(step, {})
        return tree

    def value(self, one: Field, node: Node) -> Value:
        """The value of one field, or the raw text where it cannot be understood (and a problem)."""
        if not isinstance(node, Text):
            self.blame(node.mark, f"{one.title}: more than one value", "write one value")
            return None
        if node.value == "":
            return None
        try:
            if one.quantity == "text":
                return self.text(one, node)
            if one.quantity == "date":
                return day(node.value)
            return self.units.settle(self.typed.parse(node.value, one.quantity, one.unmarked), one.quantity)
        except BadValue as error:
            severity = WARNING if self.loaded.unfinished else ERROR
            self.loaded.problems.append(node.mark.problem(f"{one.title}: {error.message}", error.hint, severity))
            return node.value if self.loaded.unfinished else None

    def text(self, one: Field, node: Text) -> str:
        """A text as it stands, a word of a closed list as it is called now; refused where others would read something
        else into it.
        """
        if isinstance(one.rule, Word) and (new := str(current_word(node.value))) != node.value:
            self.renamed(node.mark, node.value, new)
            return new
        trap = next((kind for kind, pattern in TRAPS if pattern.fullmatch(node.value)), None)
        if trap and not node.quoted and not isinstance(one.rule, Word):
            raise BadValue(
                f"'{node.value}' would be read as {trap} by other programs",
                f"put it in quotes if it is meant as text: '{node.value}'",
            )
        return node.value

    def names(self, node: Node | None) -> Iterator[tuple[str, Text]]:
        """The names of records that a job does without, by kind, under 'without'."""
        kinds = {kind.key for kind in CATALOGS if not kind.upright}
        entries = node.entries if isinstance(node, Mapping) else {}
        for old, (mark, listed) in entries.items():
            key = current_key(old, kinds, entries)
            if key not in kinds:
                self.blame(mark, f"without: unknown key '{key}'", did_you_mean(key, [kind.key for kind in CATALOGS]))
                continue
            for item in self.listing(listed, key):
                if isinstance(item, Text):
                    yield key, item
                else:
                    self.blame(item.mark, f"without, {key}: not a name", "write the name of the record to leave out")

    def changed(self, node: Mapping) -> Change | None:
        """What a record says that it changes; None (and a problem) where that is no name."""
        _, name = node.entries[CHANGE]
        if isinstance(name, Text) and name.value:
            return Change(name.value, name.mark)
        self.blame(
            name.mark, "change: the name of the record to change is missing", "as in 'change: Exterior acrylic satin'"
        )
        return None

    def record(
        self,
        kind: Kind,
        node: Node,
        given: Record | None = None,
        extra: Sequence[str] = (),
        change: Change | None = None,
    ) -> None:
        """One record of a list, with the lists inside it. given, change: values and Change of the record around it."""
        if not isinstance(node, Mapping):
            self.blame(node.mark, f"a record of '{kind.key}' needs keys and values", "as in '- name: ...'")
            self.lose(kind.key)
            return
        inner = inner_lists(kind)
        known = self.known(kind)
        if given is None and kind in CATALOGS and not kind.upright:
            extra = (*extra, CHANGE)
            if CHANGE in node.entries:
                change = self.changed(node)
                if change is None:
                    return
        known.update({name: None for name in (*inner, *extra)})  # None: read elsewhere
        node = current_keys(node, known, self.renamed)
        label = node.get(CHANGE if change and given is None else kind.named or "name")
        where = f"{kind.title} '{label.value}'" if isinstance(label, Text) and label.value else kind.title
        self.unknown(node, known, where)
        values, marks = dict(given or {}), {"": node.mark}
        if kind in JOBS or not (kind.upright or change):  # else a mark says that the field is stated
            marks |= misspelt(node, kind, known)
        for one in kind.fields:
            found = _find(node, one.steps, not kind.upright)
            if found is not None:
                told = len(self.loaded.problems)
                values[one.key], marks[one.key] = self.value(one, found), found.mark
                if len(self.loaded.problems) > told:
                    self.loaded.unread.add(f"{kind.key}.{one.key}")
            elif one.key in marks:  # its key is misspelt
                self.loaded.unread.add(f"{kind.key}.{one.key}")
        self.loaded.add(kind, {one.key: values.get(one.key) for one in kind.fields}, marks, change)
        for name, (block, owner) in inner.items():
            found = node.get(name)
            for item in self.listing(found, name) if found else ():
                given = {owner: change.name if change else values.get(kind.named)}
                self.record(KINDS[block], item, given, change=Change("", item.mark) if change else None)

    def nameless(self, kind: Kind, node: Node) -> bool:
        """Whether a record has no name and should: more often a dash too many than a name forgotten."""
        field = kind.field_of.get(kind.named)
        if field is None or not isinstance(node, Mapping):
            return False
        return field.required and not node.entries.keys() & {kind.named, CHANGE}

    def kinds(self, top: Mapping, allowed: Iterable[Kind], read_elsewhere: Sequence[str] = ()) -> None:
        """Every list (or mapping) of the file that belongs to one of the allowed kinds."""
        names = {kind.key: kind for kind in allowed}
        for old, (mark, node) in top.entries.items():
            if old in read_elsewhere:
                continue
            key = current_key(old, names, top.entries)
            if key != old:
                self.renamed(mark, old, key)
            if key not in names:
                self.blame(mark, f"unknown key '{key}'", did_you_mean(key, list(names)))
                close = near(key, [name for name in names if name not in top.entries])
                if not close:
                    continue
                key = close[0]  # read as it is probably meant, so that what names its records is not told as well
            if names[key].upright:
                self.record(names[key], node, extra=SETTINGS if key == JOB.key else ())
            else:
                for item in self.listing(node, key):
                    if (other := elsewhere(names[key], item, names.values())) and not self.loaded.unfinished:
                        self.blame(
                            item.mark, f"{names[key].title}: this is a row of '{other}'", f"move it under '{other}:'"
                        )
                        continue
                    told = len(self.loaded.problems)
                    self.record(names[key], item)
                    if (
                        self.nameless(names[key], item)
                        and len(self.loaded.problems) == told
                        and not self.loaded.unfinished
                    ):
                        self.blame(
                            item.mark,
                            f"{names[key].title}: a record without '{names[key].named}:'",
                            NAMELESS.format(names[key].named),
                        )
                        self.lose(key)


def load_record(kind: Kind, text: str, units: Units, name: str) -> Record:
    """The values of one record that `store.record_text` wrote; `name` is the place that problems speak of. Refused
    where it is not one.
    """
    loader = Loader(units, units)
    loader.record(kind, documents.parse(text.encode(), name))
    if errors(loader.loaded.problems):
        raise Refused(loader.loaded.problems)
    return loader.loaded.values[kind.key][0]
