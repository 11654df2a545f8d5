"""YAML -> the values of each block, in SI, with the place in the file that each came from."""
import re
from dataclasses import dataclass, field
from pathlib import Path

from builder import documents
from builder.documents import Listing, Mapping, Text
from builder.problems import NOTE, Refused, did_you_mean
from builder.quantities import SYSTEMS, Units
from builder.records.job import JOB
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.rules import Word, day, same

STARTER = "starter.yaml"
NEEDED = ("terms", "families", "nozzles", "coatings", "pumps", "surfaces", "crews", "exposures")
SETTINGS = ("units", "currency", "exchange")
INSIDE = {("families", "sizes"): ("nozzles", "family"), ("takeoff", "openings"): ("openings", "line")}  # lists within a record


# Plain text that is no text to other readers of YAML.
TRAPS = (
    ("yes or no", re.compile(r"y|n|yes|no|on|off|true|false", re.IGNORECASE)), ("nothing", re.compile(r"null", re.IGNORECASE)),
    ("a number in octal or hexadecimal", re.compile(r"0[0-7_]+|0x[0-9a-f_]+|0o[0-7]+", re.IGNORECASE)),
    ("a number in base 60", re.compile(r"\d+(:[0-5]?\d)+")), ("a number", re.compile(r"\d[\d_]*_[\d_]*|\d+(\.\d*)?e[+-]?\d+|[+-]?\.(inf|nan)", re.IGNORECASE)),
    ("a date", re.compile(r"\d{4}-\d\d?-\d\d?")),
)


@dataclass
class Loaded:
    """`values[block]` is a list of rows (one for an upright block), each key -> value or None.

    `marks[block]` holds for each row the marks of its values, and under '' that of the row.
    """

    values: dict = field(default_factory=lambda: {key: [] for key in KINDS})
    marks: dict = field(default_factory=lambda: {key: [] for key in KINDS})
    problems: list = field(default_factory=list)
    units: Units = Units()

    def add(self, kind, values, marks):
        self.values[kind.key].append(values)
        self.marks[kind.key].append(marks)

    def mark(self, block, row, key):
        marks = self.marks[block][row]
        return marks.get(key, marks[""])


def _find(node, steps):
    for step in steps:
        if isinstance(step, str) and isinstance(node, Mapping):
            node = node.get(step)
        elif isinstance(step, int) and isinstance(node, Listing):
            node = node.items[step] if step < len(node.items) else None
        else:
            return None
    return node


class _Loader:
    def __init__(self, units, typed):
        self.units = units    # of the book: values settle in these
        self.typed = typed    # of the file: its money may be in another currency
        self.loaded = Loaded()

    def blame(self, mark, message, hint=""):
        self.loaded.problems.append(mark.problem(message, hint))

    def listing(self, node, key):
        if isinstance(node, Text) and node.value == "":
            return ()
        if not isinstance(node, Listing):
            self.blame(node.mark, f"'{key}' must be a list", "begin each record with a dash")
            return ()
        return node.items

    def unknown(self, node, known, where):
        """Name every key that nothing reads, deep ones included; `known` is a tree of dicts, {} at a single value."""
        if known is None:
            return
        if isinstance(node, Listing) and known and all(isinstance(key, int) for key in known):
            for place, item in enumerate(node.items):
                if place in known:
                    self.unknown(item, known[place], where)
                else:
                    self.blame(item.mark, f"{where}: more entries than the {len(known)} allowed")
        elif isinstance(node, Mapping) and known:
            for key, (mark, value) in node.entries.items():
                if key not in known:
                    self.blame(mark, f"{where}: '{key}' is not a known key", did_you_mean(key, [str(k) for k in known]))
                else:
                    self.unknown(value, known[key], f"{where}, {key}")
        elif known:
            shape = "a list" if any(isinstance(key, int) for key in known) else "a mapping of keys"
            if not (isinstance(node, Text) and node.value == ""):
                self.blame(node.mark, f"{where} must be {shape}")

    def known(self, kind):
        tree = {}
        for one in kind.fields:
            at = tree
            for step in one.steps:
                at = at.setdefault(step, {})
        return tree

    def value(self, one, node):
        """The value of one field, or the raw text where it cannot be understood (and a problem)."""
        if not isinstance(node, Text):
            self.blame(node.mark, f"{one.title}: one value belongs here")
            return None
        if node.value == "":
            return None
        try:
            if one.quantity == "text":
                return self.text(one, node)
            parsed = day(node.value) if one.quantity == "date" else self.typed.parse(node.value, one.quantity)
            return self.units.settle(parsed, one.quantity)
        except ValueError as error:
            self.blame(node.mark, f"{one.title}: {error.args[0]}", *error.args[1:])
            return None

    def text(self, one, node):
        """A text as it stands; refused where other programs would read something else into it."""
        trap = next((kind for kind, pattern in TRAPS if pattern.fullmatch(node.value)), None)
        if trap and not node.quoted and not isinstance(one.rule, Word):
            raise ValueError(f"'{node.value}' would be read as {trap} by other programs", f"put it in quotes if it is meant as text: '{node.value}'")
        return node.value

    def record(self, kind, node, given=None, extra=()):
        """One record of a list, with the lists inside it."""
        if not isinstance(node, Mapping):
            self.blame(node.mark, f"a record of '{kind.key}' must be a mapping of keys", "as in '- name: ...'")
            return
        inner = {name: target for (outer, name), target in INSIDE.items() if outer == kind.key}
        known = self.known(kind)
        known.update({name: None for name in (*inner, *extra)})     # None: read elsewhere
        label = node.get(kind.named or "name")
        where = f"{kind.sheet} '{label.value}'" if isinstance(label, Text) and label.value else kind.sheet
        self.unknown(node, known, where)
        values, marks = dict(given or {}), {"": node.mark}
        for one in kind.fields:
            found = _find(node, one.steps)
            if found is not None:
                values[one.key], marks[one.key] = self.value(one, found), found.mark
        self.loaded.add(kind, {one.key: values.get(one.key) for one in kind.fields}, marks)
        for name, (block, owner) in inner.items():
            found = node.get(name)
            for item in self.listing(found, name) if found else ():
                self.record(KINDS[block], item, {owner: values.get(kind.named)})

    def kinds(self, top, allowed):
        """Every list (or mapping) of the file that belongs to one of the allowed kinds."""
        names = {kind.key: kind for kind in allowed}
        for key, (mark, node) in top.entries.items():
            if key not in names:
                self.blame(mark, f"'{key}' is not a known key", did_you_mean(key, list(names)))
            elif names[key].upright:
                self.record(names[key], node, extra=SETTINGS if key == JOB.key else ())
            else:
                for item in self.listing(node, key):
                    self.record(names[key], item)


def _settings(top, file_units):
    """units, currency and exchange of a job file, as (values, marks, problems)."""
    values, marks, problems = {}, {}, []
    job = top.get("job")
    for key in SETTINGS:
        node = job.get(key) if isinstance(job, Mapping) else None
        if isinstance(node, Text) and node.value:
            values[key], marks[key] = node.value, node.mark
    if "units" in values and values["units"] not in SYSTEMS:
        problems.append(marks["units"].problem(f"units '{values['units']}' are not known", "write us or metric"))
        values["units"] = file_units
    if "exchange" in values:
        try:
            values["exchange"] = Units().parse(values["exchange"], "number")
            if not 1e-6 < values["exchange"] < 1e6:
                raise ValueError(f"exchange {values['exchange']:g} is out of range", "from 0.000001 to 1000000")
        except ValueError as error:
            problems.append(marks["exchange"].problem(*error.args))
            values["exchange"] = 1.0
    return values, marks, problems


def _load_folder(folder, units):
    loader = _Loader(units, Units(units.system))
    paths = sorted(path for path in Path(folder).glob("*.yaml") if path.name != STARTER)
    if not paths:
        raise Refused([documents.Mark(str(folder), 1, 1).problem("no catalogue (*.yaml) in this folder")])
    for path in paths:
        try:
            loader.kinds(documents.read(path), CATALOGS)
        except Refused as refused:
            loader.loaded.problems += refused.problems
    for kind in CATALOGS:
        for marks in loader.loaded.marks[kind.key][1:] if kind.upright else ():
            loader.blame(marks[""], f"'{kind.key}' stands twice", f"the first is in {loader.loaded.mark(kind.key, 0, '').file}")
    return loader.loaded


def _named_by(kind):
    return ("family", "size") if kind.key == "nozzles" else (kind.named or kind.fields[0].key,)


def identity(kind, values):
    """What makes two records of a kind the same record, so that one may replace the other."""
    return tuple(same(values.get(key)) for key in _named_by(kind))


def label(kind, values):
    """What a person calls a record: its name, 'standard 515', or the sheet of a kind that has but one."""
    return kind.sheet if kind.upright else " ".join(str(values.get(key)) for key in _named_by(kind))


def _overlay(under, over):
    """Records of `over` replace those of `under` by name, or are added; figures of an upright kind one by one. Notes say which."""
    under.problems += over.problems
    for kind in CATALOGS:
        rows, marks = under.values[kind.key], under.marks[kind.key]
        places = {identity(kind, values): place for place, values in enumerate(rows)}
        for values, mark in zip(over.values[kind.key], over.marks[kind.key]):
            place = 0 if kind.upright and rows else places.get(identity(kind, values))
            if place is None:
                rows.append(values)
                marks.append(mark)
                continue
            before = marks[place][""]
            under.problems.append(mark[""].problem(f"{kind.sheet} '{label(kind, values)}': replaces what stands in {before.file}:{before.line}", severity=NOTE))
            if kind.upright:
                given = {key: value for key, value in values.items() if key in mark}
                rows[place], marks[place] = {**rows[place], **given}, {**marks[place], **{key: one for key, one in mark.items() if key}}
            else:
                rows[place], marks[place] = values, mark


def load_catalogs(folders, units):
    """Every catalogue of the folders, a later one laid over those before, in the book's units. Problems are gathered, not raised."""
    first, *others = (_load_folder(folder, units) for folder in folders)
    for over in others:
        _overlay(first, over)
    for kind in CATALOGS:
        if not first.values[kind.key] and kind.key in NEEDED:
            first.problems.append(documents.Mark(str(folders[0]), 1, 1).problem(f"no '{kind.key}:' in any catalogue of this folder"))
    return first


def load_job(path, units_for, system=None):
    """A job file. `units_for(settings, marks)` gives the book's units; `system` overrides the file's own."""
    top = documents.read(Path(path))
    settings, marks, problems = _settings(top, "us")
    typed = units_for(settings, marks)
    units = Units(system or typed.system, typed.currency, typed.exchange)
    loader = _Loader(units, typed)
    loader.loaded.units = units
    loader.loaded.problems += problems
    loader.kinds(top, JOBS)
    if not loader.loaded.values["job"]:
        loader.blame(top.mark, "the file has no 'job:'", "begin with 'job: {name: ...}'")
    return loader.loaded
