"""What takes long to make, made once for all processes of a test run: a file named by what it is made of."""

import contextlib
import fcntl
import hashlib
import os
import pickle
from pathlib import Path


class Shared:
    """Files in a folder that the processes of one run have in common."""

    def __init__(self, folder):
        self.folder = Path(folder)
        self.folder.mkdir(exist_ok=True)

    @classmethod
    def of_run(cls, tmp_path_factory):
        """That of this run: beside the folders of its workers, where there are any."""
        base = tmp_path_factory.getbasetemp()
        return cls((base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "shared")

    @contextlib.contextmanager
    def lock(self, name):
        """One process at a time; a process that ends lets go."""
        with (self.folder / f"{name}.lock").open("w") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            yield

    def files(self, kind, sources, make):
        """source -> a file made of it. make(sources, targets) makes those that are not there yet, all at once.

        kind: what is made, as in "libreoffice.xlsx"; sources: name -> the bytes that it is made of.
        """
        form = Path(kind).suffix
        targets = {
            name: self.folder / f"{Path(kind).stem} {hashlib.sha256(data).hexdigest()[:20]}{form}"
            for name, data in sources.items()
        }
        with self.lock(kind):
            missing = [name for name, target in targets.items() if not target.exists()]
            if missing:
                make(missing, [targets[name] for name in missing])
        return targets

    def value(self, kind, source, work):
        """What work() gives, which is a matter of the source's bytes alone."""

        def make(_, targets):
            targets[0].write_bytes(pickle.dumps(work()))

        (target,) = self.files(f"{kind}.pickle", {"": source}, make).values()
        return pickle.loads(target.read_bytes())
