"""YAML -> the values of each block, in SI, with the place in the file that each came from."""
from dataclasses import dataclass, field
from pathlib import Path

from builder import documents
from builder.documents import Listing, Mapping, Text
from builder.problems import Refused, did_you_mean
from builder.quantities import SYSTEMS, Units
from builder.records.job import JOB
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.rules import day

STARTER = "starter.yaml"
SETTINGS = ("units", "currency", "exchange")
INSIDE = {("families", "sizes"): ("nozzles", "family"), ("takeoff", "openings"): ("openings", "line")}  # lists within a record


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
                return node.value
            parsed = day(node.value) if one.quantity == "date" else self.typed.parse(node.value, one.quantity)
            return self.units.settle(parsed, one.quantity)
        except ValueError as error:
            self.blame(node.mark, f"{one.title}: {error.args[0]}", *error.args[1:])
            return None

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


def load_catalogs(folder, units):
    """Every catalogue of a folder, read in the book's units. Problems are gathered, not raised."""
    loader = _Loader(units, Units(units.system))
    paths = sorted(path for path in Path(folder).glob("*.yaml") if path.name != STARTER)
    if not paths:
        raise Refused([documents.Mark(str(folder), 1, 1).problem("no catalogue (*.yaml) in this folder")])
    for path in paths:
        try:
            loader.kinds(documents.read(path), CATALOGS)
        except Refused as refused:
            loader.loaded.problems += refused.problems
    return loader.loaded


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
