"""`wetfilm new`: a folder that builds at once."""

import shutil
from pathlib import Path

from builder.files import words
from builder.jobs import BESIDE_JOBS, SHIPPED
from builder.problems import Problem, Refused

_INSIDE = Path(__file__).parent / "examples"  # in an installed wheel
EXAMPLES = _INSIDE if _INSIDE.is_dir() else Path(__file__).parent.parent / "examples"
EXAMPLE = "boathouse.yaml"


def new(folder: str | Path) -> list[Path]:
    """Catalogs and an example job in a new folder. Refused where a file or a folder that is not empty is there."""
    folder = Path(folder)
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            full = "the folder is not empty" if folder.is_dir() else "a file of that name exists"
            raise Refused([Problem(str(folder), 1, 1, full, "name a folder that is new or empty")])
        shutil.copytree(SHIPPED[0], folder / BESIDE_JOBS)
        (folder / EXAMPLE).write_text(
            (EXAMPLES / EXAMPLE).read_text(encoding="utf-8").replace("../catalogs/", "catalogs/"), encoding="utf-8"
        )
    except (OSError, ValueError) as error:
        raise Refused([Problem(str(folder), 1, 1, f"cannot be written: {words(error)}")]) from None
    return [folder / BESIDE_JOBS, folder / EXAMPLE]
