"""Letters written by the command, read as a mail program does."""

import contextlib
import copy
import email
import email.policy
import io
from types import SimpleNamespace

from builder.cli import main
from builder.jobs import from_values
from builder.workbook.make import make


def parsed(path):
    message = email.message_from_bytes(path.read_bytes(), policy=email.policy.default)
    defects = [defect for part in message.walk() for defect in part.defects]
    assert not defects, defects
    return message


def mailed(folder, data, *options, name="book.xlsx"):
    """The exit status, what was said, and the draft of a book with these bytes (None: nothing written)."""
    path, target, said = folder / name, folder / "letter.eml", io.StringIO()
    path.write_bytes(data)
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        status = main(["letter", str(path), "-o", str(target), *options])
    return SimpleNamespace(
        status=status,
        said=said.getvalue().replace(str(path), "book.xlsx"),
        path=target,
        message=parsed(target) if target.exists() else None,
    )


def text(message):
    return message.get_body(("plain",)).get_content().replace("\r\n", "\n")


def page(message):
    return message.get_body(("html",)).get_content().replace("\r\n", "\n")


def with_values(book, terms=(), **values):
    """The bytes of a book in which some figures of the job, or of its terms, are others."""
    changed = copy.deepcopy(book.opened.values)
    changed["job"][0].update(values)
    changed["terms"][0].update(terms)
    return make(from_values(changed, book.opened.units, book.opened.settings))
