"""`wetfilm schema --all FOLDER`: every schema a file of the folder, none of a person's work lost."""

import json
import os

import pytest
from support.places import ROOT

from builder.cli import main
from builder.schema import FILES

SHIPPED = {f"{name}.json": (ROOT / f"catalogs/schemas/{name}.json").read_bytes() for name in FILES}


def held(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_all_schemas_are_written_as_they_are_shipped(tmp_path, capsys):
    folder = tmp_path / "new" / "schemas"
    assert main(["schema", "--all", str(folder)]) == 0
    assert held(folder) == SHIPPED and all(json.loads(data) for data in SHIPPED.values())
    assert capsys.readouterr().out.split() == [str(folder / name) for name in SHIPPED]


def test_one_that_holds_this_already_is_left_alone_and_one_that_is_missing_is_added(tmp_path, capsys):
    for name, data in SHIPPED.items():
        (tmp_path / name).write_bytes(data)
        os.utime(tmp_path / name, (1, 1))
    (tmp_path / "job.json").unlink()
    assert main(["schema", "--all", str(tmp_path)]) == 0
    assert capsys.readouterr().out.split() == [str(tmp_path / "job.json")] and held(tmp_path) == SHIPPED
    assert {path.name for path in tmp_path.iterdir() if path.stat().st_mtime != 1} == {"job.json"}
    assert main(["schema", "--all", str(tmp_path)]) == 0 and "nothing to write" in capsys.readouterr().out


def test_one_that_differs_keeps_all_from_being_written_unless_forced(tmp_path, capsys):
    (tmp_path / "job.json").write_text("{}")
    assert main(["schema", "--all", str(tmp_path)]) == 1
    assert capsys.readouterr().err.startswith(f"{tmp_path / 'job.json'}: ") and held(tmp_path) == {"job.json": b"{}"}
    assert main(["schema", "--all", str(tmp_path), "--force"]) == 0 and held(tmp_path) == SHIPPED


def test_a_folder_that_cannot_be_is_refused(tmp_path, capsys):
    (tmp_path / "file").write_text("")
    assert main(["schema", "--all", str(tmp_path / "file")]) == 1
    assert "name another folder" in capsys.readouterr().err and held(tmp_path) == {"file": b""}


@pytest.mark.parametrize("words", [[], ["job", "--all", "here"], ["--all", " "]])
def test_the_command_names_a_kind_or_a_folder(words, capsys):
    with pytest.raises(SystemExit) as stopped:
        main(["schema", *words])
    assert stopped.value.code == 2 and capsys.readouterr().err
