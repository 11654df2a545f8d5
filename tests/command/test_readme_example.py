"""The README's Python runs as it stands, and does what the commands do."""

import re
import shutil

import pytest
from support.places import EXAMPLES, ROOT

from builder.cli import main


@pytest.mark.slow
def test_the_python_of_the_readme_runs_and_gives_what_the_commands_give(tmp_path, monkeypatch, capsys):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"^```python\n(.*?)^```$", readme, re.DOTALL | re.MULTILINE)
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
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert sorted(re.findall(r"^- `(\w+)\.yaml`: \w", readme, re.MULTILINE)) == list(EXAMPLES)
