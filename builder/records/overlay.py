"""Folders of catalogues, one laid over another, and a job's own records over all; which record is which."""
from pathlib import Path

from builder import documents
from builder.problems import NOTE, Refused, did_you_mean
from builder.quantities import Units
from builder.records.kinds import CATALOGS, KINDS
from builder.records.load import Loader
from builder.rules import same

STARTER = "starter.yaml"
NEEDED = ("terms", "families", "nozzles", "coatings", "pumps", "surfaces", "crews", "exposures")


def _load_folder(folder, units):
    loader = Loader(units, Units(units.system))
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
            place = 0 if kind.upright and rows else places.pop(identity(kind, values), None)      # a name that stands twice stays a fault
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


def _leave_out(under, names):
    """Take the records out that a job does without; `names` are (kind, the text that names it)."""
    for key, text in names:
        kept = [place for place, values in enumerate(under.values[key]) if same(label(KINDS[key], values)) != same(text.value)]
        if len(kept) == len(under.values[key]):
            hint = did_you_mean(text.value, [label(KINDS[key], values) for values in under.values[key]])
            under.problems.append(text.mark.problem(f"without, {key}: no record is called '{text.value}'", hint))
        under.values[key], under.marks[key] = ([found[key][place] for place in kept] for found in (under.values, under.marks))


def load_catalogs(folders, units, job=None):
    """Every catalogue of the folders, a later one laid over those before, in the book's units. Problems are gathered, not raised.

    job: a loaded job, whose own records are laid over all.
    """
    first, *others = (_load_folder(folder, units) for folder in folders)
    for over in (*others, *([job.own] if job and job.own else ())):
        _overlay(first, over)
    if job:
        _leave_out(first, job.without)
    for kind in CATALOGS:
        if not first.values[kind.key] and kind.key in NEEDED:
            first.problems.append(documents.Mark(str(folders[0]), 1, 1).problem(f"no '{kind.key}:' in any catalogue of this folder"))
    return first
