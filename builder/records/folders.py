"""Folders of catalogs: each file is read once for a command, and understood once for each units of a book."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from builder import documents
from builder.files import get
from builder.problems import BadValue, Problem, Refused
from builder.quantities import Units
from builder.records.fields import Kind
from builder.records.kinds import CATALOGS
from builder.records.load import Loaded, Loader

STARTER = "starter"  # the stem of a file in a folder of catalogs that is no catalog
ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True)
class Unread:
    """A file that cannot be read: why, and the keys of the kinds that are lost with it."""

    problems: list[Problem]
    kinds: set[str]


def yaml_files(folder: str | Path) -> list[Path]:
    """The YAML files of a folder, sorted, the starter too."""
    return sorted(path for path in Path(folder).iterdir() if path.suffix in ENDINGS) if Path(folder).is_dir() else []


def catalog_files(folder: str | Path) -> list[Path]:
    """The catalogs of a folder, sorted."""
    return [path for path in yaml_files(folder) if path.stem != STARTER]


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
    def _files(self) -> list[list[documents.Mapping | Unread]]:
        """For each folder, what its files hold, in the order of their names: a Mapping, or why it is Unread."""
        return [_folder(folder) for folder in self]

    def understood(self, units: Units, kinds: Sequence[Kind] = CATALOGS) -> list[Loaded]:
        """For each folder the Loaded of its records of some kinds, which is not to be changed."""
        asked = units, tuple(kind.key for kind in kinds)
        if asked not in self._known:
            self._known[asked] = [_understood(files, units, kinds) for files in self._files]
        return self._known[asked]


def _folder(folder: Path) -> list[documents.Mapping | Unread]:
    """What the catalogs of a folder hold. Of two that differ in their ending alone the second is not read."""
    paths = catalog_files(folder)
    if not paths:
        place = documents.Mark(str(folder), 1, 1)
        message = "a file, not a folder of catalogs" if folder.is_file() else "no such folder"
        if folder.is_dir():
            message = "no catalog (*.yaml) in this folder"
        raise Refused([place.problem(message, "name another folder with --catalogs")])
    found: list[documents.Mapping | Unread] = []
    for before, path in zip([None, *paths], paths):
        if before and before.stem == path.stem:
            message = f"{before.name} is here too, and is the one that is read"
            hint = "keep one of the two files, or give them other names"
            found.append(Unread([documents.Mark(str(path), 1, 1).problem(message, hint)], set()))
        else:
            found.append(_read(path))
    return found


def _read(path: Path) -> documents.Mapping | Unread:
    try:
        return documents.read(path)
    except Refused as refused:
        return Unread(refused.problems, _kinds_in(path))


def _kinds_in(path: Path) -> set[str]:
    """The kinds that a file which cannot be read seems to hold; all, where it cannot even be opened."""
    try:
        data = get(path, documents.MOST_BYTES).replace(b"\0", b"")  # of UTF-16
    except BadValue:
        return {kind.key for kind in CATALOGS}
    begun = re.findall(rb"^\W*(\w+):", data, re.MULTILINE)
    return {kind.key for kind in CATALOGS if kind.key.encode() in begun}


def _understood(files: Iterable[documents.Mapping | Unread], units: Units, kinds: Sequence[Kind]) -> Loaded:
    loader = Loader(units, Units(units.system))
    others = [kind.key for kind in CATALOGS if kind not in kinds]
    for found in files:
        if isinstance(found, Unread):
            loader.loaded.problems += found.problems
            for key in found.kinds:
                loader.lose(key)
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
