"""The JSON Schemas: those in the catalogs folder are those the program makes, and they agree with `check`."""

import json

import jsonschema
import pytest
from support.places import EXAMPLES, ROOT
from support.schemas import as_editors_read

from builder.cli import main
from builder.schema import FILES, schema

CATALOGS = ROOT / "catalogs"
HELD = {
    "coatings": "coatings",
    "nozzles": "nozzles",
    "pumps": "pumps",
    "surfaces": "surfaces",
    "profiles": "profiles",
    "tasks": "tasks",
    "terms": "terms",
    "starter": "job",
}


def valid(name, text):
    try:
        jsonschema.validate(as_editors_read(text), schema(name))
    except jsonschema.ValidationError:
        return False
    return True


@pytest.mark.parametrize("name", FILES)
def test_the_schema_in_the_folder_is_the_one_made_from_the_records(name):
    assert json.loads((CATALOGS / f"schemas/{name}.json").read_text()) == schema(name)
    jsonschema.Draft202012Validator.check_schema(schema(name))


@pytest.mark.parametrize("file, name", HELD.items())
def test_each_shipped_file_names_its_schema_first_and_keeps_it(file, name):
    text = (CATALOGS / f"{file}.yaml").read_text()
    assert text.splitlines()[0] == f"# yaml-language-server: $schema=schemas/{name}.json"
    assert valid(name, text)


@pytest.mark.slow
@pytest.mark.parametrize("path", EXAMPLES.values(), ids=EXAMPLES)
def test_the_example_jobs_keep_the_schema(path):
    assert valid("job", path.read_text())


BAD = [  # file, what is replaced by what: wrong for the schema and for `check` alike
    ("coatings", "density: 10.", "densty: 10."),
    ("coatings", "volume_solids: 38 %", "volume_solids: 38 psi"),
    ("coatings", "pressure: 2200 psi", "pressure: 2200"),
    ("coatings", "kind: primer", "kind: undercoat"),
    ("coatings", "recoat: 4 h", "recoat: soon"),
    ("pumps", "guns_max: 1", "guns_max: many"),
    ("surfaces", "    loss: ", "    losses: "),
    ("terms", "overlap: 50 %", "overlap: half"),
    ("terms", "stages: 2", "stages: two"),
    ("tasks", "basis: area", "basis: surface"),
    ("profiles", "coefficient: 1.2", "coefficient: 1.2 m"),
    ("nozzles", "life_orifice: 15 thou", "life_orifice: 15 psi"),
]
GOOD = [
    ("coatings", "pressure: 2200 psi", "pressure: 15.2 MPa"),
    ("terms", "overlap: 50 %", "overlap: 0.5"),
    ("pumps", "length: 50 ft", "length: 49 ft 6 in"),
]


@pytest.mark.parametrize(
    "file, old, new, right",
    [(*one, False) for one in BAD] + [(*one, True) for one in GOOD],
    ids=[f"{file}: {new}" for file, _, new in (*BAD, *GOOD)],
)
def test_schema_and_check_agree(file, old, new, right, tmp_path, capsys):
    for path in CATALOGS.glob("*.yaml"):
        text = path.read_text()
        if path.stem == file:
            lines = text.splitlines()
            at = next(number for number, line in enumerate(lines) if old in line and not line.lstrip().startswith("#"))
            text = "\n".join([*lines[:at], lines[at].replace(old, new, 1), *lines[at + 1 :]])
            assert valid(HELD[file], text) is right
        (tmp_path / path.name).write_text(text)
    assert (main(["check", str(tmp_path)]) == 0) is right, capsys.readouterr().out
