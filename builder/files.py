"""Files are taken in if they are files; they appear whole or not at all; nothing of a person's is overwritten; what a
run that was killed left is taken away by the next that writes there.
"""

import contextlib
import errno
import os
import re
import stat
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from builder.problems import BadValue, Misused, Problem, Refused

try:
    import fcntl
except ImportError:  # a system without these locks: there, what was left stays
    fcntl = None  # type: ignore[assignment]

Place = str | os.PathLike[str]  # of a file

NEW_FILE = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
PART = re.compile(r"\.wetfilm-[0-9a-f]{16}")  # the name of a file that is not in its place yet
NO_FILE = "not a file"
NAME_ANOTHER = "choose another file name with -o"
WORDS = {
    errno.ENOENT: "no such file or folder",
    errno.EACCES: "you do not have permission",
    errno.EPERM: "you do not have permission",
    errno.ENOTDIR: "a file is in the way where a folder is needed",
    errno.EEXIST: "a file is in the way where a folder is needed",
    errno.EISDIR: "it is a folder",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "its links lead in a circle",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your disk quota is used up",
    errno.EROFS: "the disk is read-only",
    errno.EBUSY: "another program has it open",
}


def words(error: OSError | ValueError) -> str:
    """An OSError in words that do not hang on the system or its language; a path that none can have."""
    if not isinstance(error, OSError):
        return "its name holds a character that no file name can have"
    return WORDS.get(error.errno or 0, f"the system refused it, error {error.errno}")


def get(path: Place, most: int) -> bytes:
    """The bytes of a file, `most` and one more at most. BadValue where it is no file or cannot be read."""
    try:
        if stat.S_ISREG(os.stat(path).st_mode):
            with open(path, "rb") as stream:
                return stream.read(most + 1)
    except (OSError, ValueError) as error:  # ValueError: a path with a zero byte
        raise BadValue(f"cannot read the file: {words(error)}") from None
    raise BadValue(NO_FILE)  # a pipe or a device may never end


def apart(written: Iterable[tuple[Place, Place | None]], read: Iterable[Place]) -> None:
    """Refuse a command that would write over a file it reads, or one file twice, however they are spelled.

    written: (path, what it is made of); read: paths.
    """
    places: dict[str, Place | None] = {}
    for path, source in written:
        for one in read:
            if _same_file(path, one):
                raise Misused(
                    [Problem(str(path), 0, 0, "the command reads this file, so it does not write it", NAME_ANOTHER)]
                )
        place = unicodedata.normalize("NFC", str(_real(path))).casefold()  # as file systems that ignore case have it
        if place in places:
            raise Misused(
                [
                    Problem(
                        str(path),
                        0,
                        0,
                        f"{places[place]} and {source} would both be written to this file",
                        "name them one by one, with -o",
                    )
                ]
            )
        places[place] = source


def _same_file(one: Place, other: Place) -> bool:
    try:
        return os.path.samefile(one, other)
    except (OSError, ValueError):  # one of them is not there
        return False


def _real(path: Place) -> Path:
    """The path that links lead to; the path itself where they lead nowhere."""
    try:
        return Path(os.path.realpath(path))
    except (OSError, ValueError):
        return Path(path)


def put(path: Place, data: bytes, force: bool = False, elsewhere: str = NAME_ANOTHER) -> None:
    """Write bytes to a path, through links. Refused where that would lose somebody's work.

    elsewhere: the hint where nothing can be written there.
    """
    from builder import seals

    target = _real(path)
    try:
        mode = _mode(target)
        if str(path).endswith(("/", os.sep)) or mode is not None and not stat.S_ISREG(mode):
            raise Refused([Problem(str(path), 0, 0, NO_FILE, "name a file, as in out/boathouse.xlsx")])
        if mode is not None and not force:
            with target.open("rb") as stream:
                against = seals.kept(stream.read(seals.LARGEST + 1), data)
            if against:
                raise Refused([Problem(str(path), 0, 0, *against)])
        target.parent.mkdir(parents=True, exist_ok=True)
        _replace(target, data, mode)
    except (OSError, ValueError) as error:
        raise Refused([Problem(str(path), 0, 0, f"cannot be written: {words(error)}", elsewhere)]) from None


def put_all(folder: Place, contents: Mapping[str, bytes], force: bool = False) -> list[Path]:
    """Write files into a folder, name -> bytes, and return the paths of those written.

    One that holds these bytes already is left alone. Refused, and none written, where one that differs is there.
    """
    new = {Path(folder, name): data for name, data in contents.items() if not _holds(Path(folder, name), data)}
    differ = [path for path in new if os.path.lexists(path)]
    if differ and not force:
        hint = "use --force to write it anew"
        raise Refused([Problem(str(path), 0, 0, "this file is there already, and differs", hint) for path in differ])
    for path, data in new.items():
        put(path, data, True, "name another folder")
    return list(new)


def _holds(path: Place, data: bytes) -> bool:
    try:
        return get(path, len(data)) == data
    except BadValue:  # there is none, or it cannot be read
        return False


def _mode(path: Path) -> int | None:
    """The mode of what stands at a path; None where nothing does."""
    try:
        return path.stat().st_mode
    except FileNotFoundError:
        return None


def _replace(target: Path, data: bytes, mode: int | None) -> None:
    """The bytes beside their place, on the disk, then moved there in one step.

    mode: of what stood there, None for a new file.
    """
    part = target.with_name(f".wetfilm-{os.urandom(8).hex()}")
    with _held(target.parent):
        try:
            number = os.open(part, NEW_FILE, 0o666 if mode is None else 0o600)
            with os.fdopen(number, "wb") as stream:
                stream.write(data)
                stream.flush()
                os.fsync(number)
            if mode is not None:
                os.chmod(part, stat.S_IMODE(mode))
            os.replace(part, target)
        except BaseException:  # an interruption from the keyboard too
            with contextlib.suppress(OSError):
                part.unlink()
            raise


@contextlib.contextmanager
def _held(folder: Path) -> Iterator[None]:
    """A folder while a file is written there, where the system can: cleared before; its names on the disk after."""
    try:
        number = os.open(folder, os.O_RDONLY)
    except OSError:
        yield
        return
    try:
        _clear(folder, number)
        yield
        with contextlib.suppress(OSError):
            os.fsync(number)
    finally:
        os.close(number)


def _clear(folder: Path, number: int) -> None:
    """Take away what killed runs left in a folder, unless another writes there now. number: the folder, open.

    Whoever writes shares a lock on the folder, and the system frees it of those that are killed: whoever has it alone
    knows that nobody else writes.
    """
    if fcntl is None:
        return
    with contextlib.suppress(OSError):  # another has it, or the disk knows no locks
        fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
        for name in filter(PART.fullmatch, os.listdir(folder)):
            with contextlib.suppress(OSError):
                os.unlink(folder / name)
    with contextlib.suppress(OSError):
        fcntl.flock(number, fcntl.LOCK_SH)
