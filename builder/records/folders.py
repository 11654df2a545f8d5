"""Folders of catalogs: each file is read once for a command, and understood once for each units of a book."""

from collections.abc import Iterable, Sequence
from functools import cached_property
from pathlib import Path

from builder import documents
from builder.problems import Refused
from builder.quantities import Units
from builder.records.fields import Kind
from builder.records.kinds import CATALOGS
from builder.records.load import Loaded, Loader

STARTER = "starter.yaml"


class Folders(tuple[Path, ...]):
    """The paths of folders of catalogs, a later one to be laid over those before. Folders of Folders are the same.

    What was read stays as it was read for as long as this lives: made by a command, or by one call that was given mere
    paths.
    """

    _known: dict[tuple[Units, tuple[str, ...]], list[Loaded]]  # units and kinds -> what `understood` gave

    def __new__(cls, paths: Iterable[str | Path]) -> "Folders":
        if isinstance(paths, cls):
            return paths
        folders = super().__new__(cls, map(Path, paths))
        folders._known = {}
        return folders

    @cached_property
    def _files(self) -> list[list[documents.Mapping | Refused]]:
        """For each folder, what its files hold, in the order of their names: a Mapping, or why it cannot be read."""
        return [[_read(path) for path in _paths(folder)] for folder in self]

    def understood(self, units: Units, kinds: Sequence[Kind] = CATALOGS) -> list[Loaded]:
        """For each folder the Loaded of its records of some kinds, which is not to be changed."""
        asked = units, tuple(kind.key for kind in kinds)
        if asked not in self._known:
            self._known[asked] = [_understood(files, units, kinds) for files in self._files]
        return self._known[asked]


def _paths(folder: Path) -> list[Path]:
    found = sorted(path for path in folder.glob("*.yaml") if path.name != STARTER)
    if not found:
        raise Refused(
            [
                documents.Mark(str(folder), 1, 1).problem(
                    "no catalog (*.yaml) in this folder", "name another folder with --catalogs"
                )
            ]
        )
    return found


def _read(path: Path) -> documents.Mapping | Refused:
    try:
        return documents.read(path)
    except Refused as refused:
        return refused


def _understood(files: Iterable[documents.Mapping | Refused], units: Units, kinds: Sequence[Kind]) -> Loaded:
    loader = Loader(units, Units(units.system))
    others = [kind.key for kind in CATALOGS if kind not in kinds]
    for found in files:
        if isinstance(found, Refused):
            loader.loaded.problems += found.problems
        else:
            loader.kinds(found, kinds, others)
    for kind in kinds:
        for marks in loader.loaded.marks[kind.key][1:] if kind.upright else ():
            loader.blame(
                marks[""],
                f"'{kind.key}' is in two files",
                f"keep one; the first is {loader.loaded.mark(kind.key, 0, '').file}",
            )
    return loader.loaded
