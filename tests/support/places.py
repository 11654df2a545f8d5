"""Where the project's files are that tests read."""

from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
CATALOGS = ROOT / "catalogs"
BOATHOUSE, CORRIDOR = (ROOT / f"examples/{name}.yaml" for name in ("boathouse", "corridor"))
SHED, BEDROOMS = (ROOT / f"tests/data/{name}.yaml" for name in ("shed", "bedrooms"))
GOLDEN = ROOT / "tests/golden"
