"""What persons do to workbooks in LibreOffice: each test says its own edits, and those of all tests are made in one start of it.

    @pytest.mark.sitting("shed", lambda place: ['sheets.removeByName("Job")'])
    def test_...(edited): ...

`edited` is the path of the book as it was saved. The lines are StarBasic, which knows `doc` and `sheets`; they are given the places of
the book's layout, and the parameters of the test.
"""
from support.engines import all_edited_in_libreoffice

KIND = "libreoffice sitting.xlsx"


def _sitting(item):
    """(name of the book, what is done to it) of a test."""
    (name, lines), = (mark.args for mark in item.iter_markers("sitting"))
    return name, lines


class Sittings:
    """The books as edited by the tests of a session."""

    def __init__(self, shared, items, books):
        self.shared, self.books = shared, books
        self.items = [item for item in items if "edited" in item.fixturenames]
        self.edited = None

    def of(self, item):
        """The path of the book that a test looks at."""
        if self.edited is None:
            self.edited = self._made()
        return self.edited[self._key(item)]

    def _key(self, item):
        """The name of the book, and the lines."""
        name, lines = _sitting(item)
        given = item.callspec.params if hasattr(item, "callspec") else {}
        return name, "\n".join(lines(self.books[name].layout.places, **given))

    def _made(self):
        sources = {key: self.books[key[0]].data + key[1].encode() for key in map(self._key, self.items)}

        def make(keys, targets):
            all_edited_in_libreoffice([(self.books[name].path, target, lines.splitlines()) for (name, lines), target in zip(keys, targets)])
        return self.shared.files(KIND, sources, make)
