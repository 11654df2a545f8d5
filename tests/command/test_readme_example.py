"""The README's Python runs as it stands, and does what the commands do."""

import re
import shutil

import pytest
from support.places import EXAMPLES, ROOT

from builder.checking import check
from builder.cli import main
from builder.records.kinds import TABLES

README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.slow
def test_the_python_of_the_readme_runs_and_gives_what_the_commands_give(tmp_path, monkeypatch, capsys):
    (example,) = re.findall(r"^```python\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    shutil.copytree(ROOT / "examples", tmp_path / "examples", ignore=shutil.ignore_patterns("*.png"))
    monkeypatch.chdir(tmp_path)
    exec(compile(example, "README.md", "exec"), {})
    told = capsys.readouterr().out.splitlines()
    assert main(["build", "examples/boathouse.yaml", "--units", "metric", "-o", "command.xlsx"]) == 0
    summary = capsys.readouterr().out.splitlines()[0].removeprefix("command.xlsx: ")
    assert (tmp_path / "boathouse.xlsx").read_bytes() == (tmp_path / "command.xlsx").read_bytes()
    assert told[0] == summary and told[1].startswith("with a third hand: price ")
    assert f"price {float(told[2]):,.2f} USD" in summary
    assert main(["read", "boathouse.xlsx"]) == 0
    assert capsys.readouterr().out == (tmp_path / "back.yaml").read_text(encoding="utf-8")


def test_the_readme_says_what_each_example_is():
    assert sorted(re.findall(r"^- `(\w+)\.yaml`: \w", README, re.MULTILINE)) == list(EXAMPLES)


def test_the_yaml_of_the_readme_has_nothing_wrong(tmp_path):
    (own,) = re.findall(r"^```yaml\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    (tmp_path / "coatings.yaml").write_text(own)
    told = check([EXAMPLES["boathouse"]], [ROOT / "catalogs", tmp_path])
    (only,) = [one for one in told if one.file.startswith(str(tmp_path))]
    assert only.severity == "note"
    assert only.message.startswith("Coatings 'Exterior acrylic satin': changes packs, priced_on of ")


def test_the_readme_says_how_much_a_workbook_holds():
    usual = re.search(r"room for (\d+) coats, (\d+) systems, (\d+) nozzle sizes and (\d+) takeoff lines", README)
    most = re.search(r"up to (\d+) coats, (\d+) systems, (\d+) sizes and ([\d,]+) lines", README)
    tables = [TABLES[key] for key in ("coats", "systems", "nozzles", "takeoff")]
    assert [int(one) for one in usual.groups()] == [one.capacity for one in tables]
    assert [int(one.replace(",", "")) for one in most.groups()] == [one.most for one in tables]
