"""A job file -> its values, with what stands beside its kinds: units, whether it is unfinished, own catalog records."""

from collections.abc import Callable
from pathlib import Path

from builder import documents
from builder.documents import Mapping, Mark, Text
from builder.problems import BadValue, Problem, Refused
from builder.quantities import SYSTEMS, Units
from builder.records.fields import Marks
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.records.load import OWN, SETTINGS, UNFINISHED, WITHOUT, Loaded, Loader, Settings
from builder.records.renamed import current_keys
from builder.values import same


def _settings(top: Mapping, file_units: str) -> tuple[Settings, Marks, list[Problem]]:
    """units, currency and exchange of a job file, as (values, marks, problems)."""
    values: Settings = {}
    marks: Marks = {}
    problems: list[Problem] = []
    job = top.get("job")
    for key in SETTINGS:
        node = job.get(key) if isinstance(job, Mapping) else None
        if isinstance(node, Text) and node.value:
            values[key], marks[key] = node.value, node.mark
    if "units" in values and values["units"] not in SYSTEMS:
        problems.append(marks["units"].problem(f"unknown units '{values['units']}'", "write us or metric"))
        values["units"] = file_units
    if "exchange" in values:
        try:
            values["exchange"] = Units().parse(values["exchange"], "number")
            if not 1e-6 < values["exchange"] < 1e6:
                raise BadValue(
                    f"exchange {values['exchange']:g} is out of range", "write a number from 0.000001 to 1000000"
                )
        except BadValue as error:
            problems.append(marks["exchange"].problem(error.message, error.hint))
            values["exchange"] = 1.0
    return values, marks, problems


def _beside(loader: Loader, top: Mapping) -> None:
    """What a job file says beside its kinds: whether it is unfinished, and its own catalog records."""
    unfinished, own = top.get(UNFINISHED), top.get(OWN)
    if unfinished:
        loader.loaded.unfinished = isinstance(unfinished, Text) and same(unfinished.value) == "yes"
        if not loader.loaded.unfinished and not (isinstance(unfinished, Text) and same(unfinished.value) in ("", "no")):
            loader.blame(unfinished.mark, "unfinished must be yes or no", "write 'unfinished: yes', or remove the line")
    if isinstance(own, Mapping):
        inner = Loader(loader.units, loader.typed)
        inner.loaded.unfinished = loader.loaded.unfinished
        inner.kinds(own, CATALOGS, (WITHOUT,))
        loader.loaded.own = inner.loaded
        if own.get(WITHOUT):
            loader.loaded.without = tuple(loader.names(own.get(WITHOUT)))
    elif own:
        loader.blame(own.mark, "'own' needs lists of records", "as in 'own: {coatings: [...]}'")


def load_job(path: str | Path, units_for: Callable[[Settings, Marks], Units], system: str | None = None) -> Loaded:
    """A job file. `units_for(settings, marks)` gives the book's units; `system` overrides the file's own."""
    top = documents.read(Path(path))
    settings, marks, problems = _settings(top, "us")
    typed = units_for(settings, marks)
    units = Units(system or typed.system, typed.currency, typed.exchange)
    loader = Loader(units, typed)
    loader.loaded.units = units
    loader.loaded.problems += problems
    top = current_keys(top, {UNFINISHED: None}, loader.renamed)
    _beside(loader, top)
    if not top.get("job") and top.entries and all(key in KINDS and KINDS[key] in CATALOGS for key in top.entries):
        hint = f"check its folder: wetfilm check {Path(path).parent}"
        raise Refused([Mark(str(path), 1, 1).problem("a catalog, not a job", hint)])
    loader.kinds(top, JOBS, (OWN, UNFINISHED))
    if not loader.loaded.values["job"]:
        loader.blame(top.mark, "the file has no 'job:'", "begin with 'job: {name: ...}'")
    return loader.loaded
