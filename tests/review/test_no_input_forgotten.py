"""Each input of each kind has its place everywhere: typed in a book, it is read back, kept in a job file, allowed by
the schema, told as a difference and carried by `reissue`.
"""

import io
from types import SimpleNamespace

import jsonschema
import pytest
from support.schemas import as_editors_read
from support.small import CATALOGS, small_books

from builder.jobs import from_values, open_job
from builder.records.differ import differences
from builder.records.kinds import JOBS, KINDS
from builder.records.rules import Between, OneOf, Word
from builder.records.words import WORDS
from builder.returned.read import returned
from builder.returned.taken import as_job, taken
from builder.review.reissue import reissue
from builder.schema import schema
from builder.workbook.make import make

pytestmark = pytest.mark.slow


def identity(kind):
    """The fields by which its records are found, in files and in books."""
    return {"nozzles": ("family", "size"), "holidays": ("date",)}.get(kind.key, (kind.named,))


def names(block, values):
    """What records of a block are called where others refer to them."""
    return [" ".join(str(row[key]) for key in identity(KINDS[block]) if row.get(key)) for row in values[block]]


def another(kind, field, value, values, units):
    """A value of this field that its rule allows and that is not the one it has."""
    rule = field.rule
    if isinstance(rule, Word):
        return next(word for word in reversed(WORDS[rule.list]) if word != value)
    if isinstance(rule, OneOf):
        return next(name for name in reversed(names(rule.block, values)) if name not in ("", value))
    if isinstance(rule, Between):
        least, most = rule.limits()
        for part in (0.25, 0.5):
            found = least + (min(most, least + 1000) - least) * part
            found = units.settle(float(int(found) if rule.whole else found), field.quantity)
            if found != value:
                return found
    return f"{field.title} of {kind.key}"


def changed(values, units):
    """The values with every field of the first record of each kind filled with another value, but for the names by
    which records are found.
    """
    found = {key: [dict(row) for row in rows] for key, rows in values.items()}
    for kind in KINDS.values():
        if not found[kind.key]:  # a record of its own has a name
            found[kind.key] = [{key: f"{key} of {kind.key}" for key in identity(kind) if key}]
        for field in kind.fields:
            if field.key not in identity(kind):
                row = found[kind.key][0]
                row[field.key] = another(kind, field, row.get(field.key), values, units)
    return found


@pytest.fixture(scope="module")
def way(books, tmp_path_factory):
    """A book as it was built, the same with every input changed, and where those went."""
    with small_books():
        before = books["small boathouse"]
        opened = from_values(
            changed(before.opened.values, before.opened.units), before.opened.units, before.opened.settings
        )
        data = make(opened)
        back = taken(returned(io.BytesIO(data)))
        text = as_job(back, [CATALOGS])
        path = tmp_path_factory.mktemp("way") / "job.yaml"
        path.write_text(text, encoding="utf-8")
        return SimpleNamespace(
            given=opened.values,
            back=back.opened.values,
            filed=open_job(path, [CATALOGS]).values,
            text=text,
            told=differences(KINDS.values(), before.opened.values, back.opened.values),
            again=reissue(returned(io.BytesIO(data)), [CATALOGS]).after.values,
            units=opened.units,
        )


def test_the_schema_allows_a_job_file_with_every_input(way):
    jsonschema.validate(as_editors_read(way.text), schema("job"))


@pytest.mark.parametrize(
    "kind, field", [(kind, field) for kind in KINDS.values() for field in kind.fields], ids=lambda one: one.key
)
def test_every_input_comes_back_is_filed_compared_and_reissued(way, kind, field):
    given = way.given[kind.key][0][field.key]
    assert way.back[kind.key][0][field.key] == given
    keys = identity(kind)
    filed = [row for row in way.filed[kind.key] if all(row.get(key) == way.given[kind.key][0].get(key) for key in keys)]
    assert (filed or way.filed[kind.key])[0][field.key] == given
    if kind in JOBS:
        assert way.again[kind.key][0][field.key] == given
    if field.key not in keys:
        assert any(one.block == kind.key and one.key in ("", field.key) for one in way.told)
