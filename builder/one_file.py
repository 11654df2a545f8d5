"""What a command that takes many files says of each: small enough to be handed from a worker to who prints it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

from builder.files import put, words
from builder.problems import ERROR, Refused
from builder.records.folders import Folders


@dataclass(frozen=True)
class Told:
    """Of one file: lines to print, lines to warn of, the exit status. result: what else the command needs of it; None
    where the file could not be done.
    """

    path: str
    lines: tuple[str, ...] = ()
    warned: tuple[str, ...] = ()
    status: int = 0
    result: Any = None


Work: TypeAlias = Callable[[str], Told]


def guarded(work: Work, path: str) -> Told:
    """What `work` tells of one file of many: one that cannot be done is told, whatever it stumbles over."""
    try:
        return work(path)
    except Refused as refused:
        return Told(path, (), tuple(map(str, refused.problems)), refused.status)
    except OSError as error:
        return Told(path, (), (f"{error.filename or path}: {words(error)}",), 1)
    except Exception as error:  # one file among many: it is told, and the others go on
        return Told(path, (), (f"{path}: cannot be read: {type(error).__name__}",), 1)


def checked(path: str, catalogs: Folders, json: bool = False) -> Told:
    """result: the problems and the questions of a job file or a folder of catalogs; json: those too for which it cannot
    be read at all.
    """
    from builder.checking import open_all, problems, questions

    try:
        opened = open_all([Path(path)], catalogs)
    except Refused as refused:
        if not json:
            raise
        return Told(path, status=refused.status, result=(refused.problems, ()))
    found = problems(opened)
    return Told(path, status=int(any(one.severity == ERROR for one in found)), result=(found, questions(opened)))


def moved(path: str, today: Folders, catalogs: Folders) -> Told:
    """What new catalogs do to one job file or workbook; its `result` whether they move its price."""
    from builder.review.impact import impact, report

    found = impact(path, today, catalogs)
    return Told(path, tuple(report(found)), (), int(bool(found.changes)), bool(found.changes))


def inspected(book: str, catalogs: Folders, lines: bool) -> Told:
    """The facts and the findings of a returned workbook, as lines or, as plain values, in the `result`."""
    from builder.api import inspect

    found = inspect(book, catalogs)
    status = int(bool(found.findings))
    if lines:
        said = *(f"{book}: {fact}" for fact in found.facts), *(f"  {finding}" for finding in found.findings)
        return Told(book, said, (), status)
    told = {"facts": found.facts, "findings": [finding.as_dict() for finding in found.findings]}
    return Told(book, (), (), status, told)


def read(book: str, catalogs: Folders, outputs: Mapping[str, str], force: bool) -> Told:
    """The job file of a returned workbook is written where `outputs` has a place for it; else its text is the
    `result`.
    """
    from builder.api import inspect
    from builder.returned.taken import as_job

    look = inspect(book, catalogs)
    warned = tuple(f"{book}: {finding}" for finding in look.touched)
    text = as_job(look.taken, catalogs)
    status = int(look.taken.unfinished or bool(look.touched))
    if book not in outputs:
        return Told(book, (), warned, status, text)
    output = outputs[book]
    try:
        put(output, text.encode(), force)
    except Refused as refused:  # what was found in the book is told all the same
        return Told(book, (), (*warned, *map(str, refused.problems)), refused.status)
    return Told(book, (f"{output}: {look.opened.summary()}",), warned, status, "")


def reissued(
    book: str,
    catalogs: Folders,
    outputs: Mapping[str, str],
    force: bool,
    instead: Sequence[tuple[str, str]],
    keep: Sequence[str],
    rows: Mapping[str, int],
) -> Told:
    """The new workbook of a returned one is written where `outputs` has a place for it; what moved its price
    is told.
    """
    from builder.returned.read import returned
    from builder.review.reissue import reissue, report
    from builder.workbook.make import make

    found = reissue(returned(book), catalogs, instead, keep, rows)
    lines = tuple(report(found))
    if book in outputs:
        put(outputs[book], make(found.after), force)
        lines += (f"{Path(outputs[book])}: {found.after.summary()}",)
    return Told(book, lines, (), 0, "")
