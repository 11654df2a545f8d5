"""A job worked by hand with words of its file changed, and the figures that follow."""

from pathlib import Path

from support.places import ROOT
from support.worked import Figure, agrees, book_of

WORKED = Path(ROOT, "tests", "worked")


def figure(place, *values, **where):
    return Figure("", place, tuple(float(one) for one in values), (), where)


def changed(job, changes):
    """The words of a job's file with some changed, each of which stands there once."""
    text = (WORKED / f"{job}.yaml").read_text()
    for found, put in changes.items():
        assert text.count(found) == 1, found
        text = text.replace(found, put)
    return text


def holds(choice, folder):
    """The book of a choice, (job, the job it is laid over, what stands there -> what is put there, figures), shows its
    figures.
    """
    job, before, changes, figures = choice
    path = folder / f"{job}.yaml"
    path.write_text(changed(job, changes))
    book = book_of(path, folder, before and WORKED / f"{before}.yaml")
    for one in figures:
        agrees(book, one)
