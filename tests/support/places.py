"""Where the project's files are that tests read."""

from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
CATALOGS = ROOT / "catalogs"
BOATHOUSE, CORRIDOR, SHED = (
    ROOT / "examples/boathouse.yaml",
    ROOT / "examples/corridor.yaml",
    ROOT / "tests/data/shed.yaml",
)
GOLDEN = ROOT / "tests/golden"
