"""Where the project's files are that tests read."""

from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
CATALOGS = ROOT / "catalogs"
EXAMPLES = {path.stem: path for path in sorted((ROOT / "examples").glob("*.yaml"))}
BOATHOUSE = EXAMPLES["boathouse"]
SHED, BEDROOMS, ATTIC, RUNNING, ANNEX = (
    ROOT / f"tests/data/{name}.yaml" for name in ("shed", "bedrooms", "attic", "shed_running", "annex")
)
GOLDEN = ROOT / "tests/golden"
