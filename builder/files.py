"""Files appear whole or not at all, and nothing is overwritten that this program did not write or that was changed since."""
import hashlib
import os
import re
import tempfile
import zipfile
from pathlib import Path

from builder.problems import Problem, Refused

CREATED = "2026-01-01T00:00:00Z"         # every book we write says so; a program that saves it says otherwise
SEAL = f"=_wetfilm_{'0' * 32}"           # in a draft, as it is composed; its zeros make way for a digest of all of it


def sealed(data):
    """The bytes of a draft with a digest of themselves in the place of SEAL."""
    return data.replace(SEAL.encode(), f"=_wetfilm_{hashlib.sha256(data).hexdigest()[:32]}".encode())


def untouched(path):
    """Whether a file is a workbook or a draft of ours that no other program has saved."""
    try:
        if Path(path).suffix == ".eml":
            data = Path(path).read_bytes()
            return sealed(re.sub(rb"=_wetfilm_[0-9a-f]{32}", SEAL.encode(), data)) == data and b"=_wetfilm_" in data
        with zipfile.ZipFile(path) as parts:
            return (f">{CREATED}</dcterms:modified>" in parts.read("docProps/core.xml").decode()
                    and b">wetfilm " in parts.read("docProps/custom.xml"))
    except (OSError, zipfile.BadZipFile, KeyError, UnicodeDecodeError):
        return False


def put(path, data, force=False):
    """Write bytes to a path. Refused where that would lose somebody's work."""
    path = Path(path)
    if path.exists() and not force and not untouched(path):
        raise Refused([Problem(str(path), 1, 1, "this file was not written by wetfilm, or was changed since", "name another with -o, or use --force")])
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        number, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise Refused([Problem(str(path), 1, 1, f"cannot be written: {error.strerror}")]) from None
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(data)
        os.chmod(name, 0o644)
        os.replace(name, path)
    except OSError as error:
        os.unlink(name)
        raise Refused([Problem(str(path), 1, 1, f"cannot be written: {error.strerror}")]) from None
