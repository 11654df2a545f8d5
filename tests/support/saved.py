"""Books as LibreOffice saves them, all that a run needs in few starts of it."""

import tempfile
from pathlib import Path

from support.books import EACH, FEW
from support.engines import libreoffice


class Saved:
    """saved(name) -> the path of a book that LibreOffice recalculated and saved."""

    def __init__(self, shared, books):
        self.shared, self.books = shared, books

    def __call__(self, name):
        together = FEW if name in FEW else [one for one in EACH if one not in FEW]
        return self.shared.files("libreoffice.xlsx", {one: self.books[one].data for one in together}, self._make)[name]

    def _make(self, names, targets):
        with tempfile.TemporaryDirectory() as folder:
            sources = [Path(folder, target.name) for target in targets]
            for name, source in zip(names, sources):
                source.write_bytes(self.books[name].data)
            libreoffice(sources, targets[0].parent)
