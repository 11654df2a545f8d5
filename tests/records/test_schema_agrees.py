"""The JSON Schemas and `check` judge alike: 200 files, each a shipped one with one line changed."""

import random
import re
import shutil

import jsonschema
import pytest
from support.places import CATALOGS
from support.schemas import as_editors_read

from builder.checking import check
from builder.problems import ERROR
from builder.schema import schema

HELD = {file: file for file in ("coatings", "nozzles", "pumps", "surfaces", "profiles", "tasks", "terms")}
ENTRY = re.compile(r"^(?P<before>[ -]*\w+: *)(?P<value>[^\s#{\[|>\"'][^#{\[\"']*?)(?P<after> *(?:#.*)?)$")
VALUES = (
    "38 %", "0.4", "12", "1/3", "-2", "2200 psi", "15 MPa", "4 h", "90 min", "3 mil", "75 um", "10.6 lb/gal", "1.2 kg/L",
    "5 gal", "20 L", "62 ft 6 in", "1.5 m", "31", "31 /h", "2.10 /ft2", "yes", "no", "soon", "primer", "area", "spray",
    "2026-03-02", "2026/3/2", "2026-13-40", "50 furlongs", "~", "[1, 2]", "{a: 1}", "1,250", "60 Hz", "80 degF", "1e3",
)  # fmt: skip
UNSAYABLE = (  # by a schema of one file, which sees values after they were read, and no limit of what has a unit
    r"is not in [A-Z]",  # a name that stands in another record or file
    r"would be read as .* by other programs",  # quotes are gone by then
    r"is not allowed; enter a (number|share) from",
    r"enter the rate that its basis needs",  # two values of a record together
)


def changed(text, draw):
    """A file's text with one line of it changed: another value, another key, or none."""
    lines = text.splitlines()
    places = [place for place, line in enumerate(lines) if ENTRY.match(line)]
    place = draw.choice(places)
    found = ENTRY.match(lines[place])
    way = draw.choice(("value", "value", "value", "value", "key", "gone"))
    if way == "value":
        lines[place] = found["before"] + draw.choice(VALUES) + found["after"]
    elif way == "key":
        lines[place] = lines[place].replace(": ", "s: ", 1)
    elif not lines[place].lstrip().startswith("-"):
        del lines[place]
    return "\n".join(lines) + "\n", place + 1


@pytest.mark.slow
@pytest.mark.parametrize("first, count", [(0, 15), (0, 200)])
def test_schema_and_check_agree_on_files_with_a_line_changed(first, count, tmp_path):
    judged = {name: jsonschema.Draft202012Validator(schema(name)) for name in HELD.values()}
    folder = tmp_path / "catalogs"
    shutil.copytree(CATALOGS, folder)
    differ = []
    for number in range(first, first + count):
        draw = random.Random(number)
        file = draw.choice(sorted(HELD))
        before = (CATALOGS / f"{file}.yaml").read_text()
        text, line = changed(before, draw)
        (folder / f"{file}.yaml").write_text(text)
        told = [one for one in check([folder], []) if one.severity == ERROR]
        sayable = [one for one in told if not any(re.search(words, one.message) for words in UNSAYABLE)]
        right = judged[HELD[file]].is_valid(as_editors_read(text))
        if sayable if right else not told:
            differ.append((number, file, text.splitlines()[line - 1], [str(one) for one in told]))
        (folder / f"{file}.yaml").write_text(before)
    assert not differ, "\n".join(map(str, differ))
