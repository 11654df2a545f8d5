"""What persons do to workbooks in LibreOffice: each test says its own edits, and those of all tests are made in one
start of it.

    @pytest.mark.sitting("shed", lambda place: ['sheets.removeByName("Job")'])
    def test_...(edited): ...

`edited` is the path of the book as it was saved. The lines are StarBasic, which knows `doc` and `sheets`; they are
given the places of the book's layout, and those parameters of the test that they ask for.
"""

import inspect

from support.engines import all_edited_in_libreoffice

KIND = "libreoffice sitting.xlsx"


class Sittings:
    """The books as edited by the tests of a session."""

    def __init__(self, shared, items, books):
        self.shared, self.books = shared, books
        self.items = [item for item in items if item.get_closest_marker("sitting")]
        self.edited = None

    def of(self, item):
        """The path of the book that a test looks at."""
        if self.edited is None:
            self.edited = self._made()
        return self.edited[self._key(item)]

    def _key(self, item):
        """The name of the book, and the lines."""
        name, lines = item.get_closest_marker("sitting").args
        given = item.callspec.params if hasattr(item, "callspec") else {}
        asked = {key: given[key] for key in inspect.signature(lines).parameters if key in given}
        return name, "\n".join(lines(self.books[name].layout.places, **asked))

    def _made(self):
        sources = {key: self.books[key[0]].data + key[1].encode() for key in map(self._key, self.items)}

        def make(keys, targets):
            all_edited_in_libreoffice(
                [(self.books[name].path, target, lines.splitlines()) for (name, lines), target in zip(keys, targets)]
            )

        return self.shared.files(KIND, sources, make)
