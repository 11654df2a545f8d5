"""A job comes back from its workbook: after a save by another program, whatever the job, and from workbooks of earlier
versions.
"""

import hashlib

import pytest
from hypothesis import given, settings
from support.books import SMALL, catalogs_of, room_of
from support.engines import libreoffice
from support.made_up import jobs
from support.parcels import patched
from support.places import CATALOGS, EXAMPLES, GOLDEN, SHED
from support.returning import inputs

from builder.jobs import facts, from_values, open_job
from builder.records import versions
from builder.records.kinds import KINDS
from builder.records.store import job_text
from builder.returned.read import read, returned
from builder.returned.taken import as_job, taken
from builder.review.inspect import inspect
from builder.review.reissue import reissue, report
from builder.stages.order import capacities
from builder.workbook.make import make

pytestmark = pytest.mark.slow


def by_way_of_ods(books, name, folder):
    """A book saved by LibreOffice as ods and back."""
    return libreoffice(libreoffice([books[name].path], folder / "ods", "ods"), folder / "back")[0]


@pytest.mark.parametrize(
    "name, way",
    [
        *((SMALL + name, "xlsx") for name in EXAMPLES if name != "boathouse"),
        *((name, way) for name in EXAMPLES for way in ("xlsx", "ods")),
    ],
)
def test_a_save_by_another_program_changes_nothing(books, saved, tmp_path, name, way):
    book, stock = books[name], [catalogs_of(name)]
    with room_of(name):
        job = as_job(taken(returned(book.path)), stock)
        (tmp_path / "job.yaml").write_text(job)
        opened = open_job(tmp_path / "job.yaml", stock)
        assert inputs(opened.values) == inputs(book.opened.values) and make(opened) == book.data
        look = inspect(returned(saved(name) if way == "xlsx" else by_way_of_ods(books, name, tmp_path)), stock)
        assert as_job(look.taken, stock) == job and look.findings == ()


@pytest.mark.parametrize("system, count", [("us", 1), ("metric", 1), ("us", 12), ("metric", 12)])
def test_any_job_comes_back_from_its_file_and_its_workbook(system, count, tmp_path):
    @settings(max_examples=count)
    @given(jobs(system))
    def comes_back(drawn):
        values, units = drawn
        job, book = tmp_path / "job.yaml", tmp_path / "book.xlsx"
        job.write_text(job_text(values, units, unfinished=True))
        opened = open_job(job, [CATALOGS])
        assert not opened.errors and inputs(opened.values) == inputs(values)
        book.write_bytes(
            make(from_values(values, units, facts(units, "", capacities(takeoff=20, signed=3, contract=3), [CATALOGS])))
        )
        assert inputs(taken(returned(book)).opened.values) == inputs(values)

    comes_back()


# ---- older books
# ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("schema", range(1, versions.SCHEMA + 1))
def test_a_book_of_every_schema_is_read_and_reissued(schema):
    """The equations changed since schema 4 (DEVELOPERS, Corrections): that is told as such, in one line."""
    back = returned(GOLDEN / f"schema_{schema}.xlsx")
    assert back.settings["schema"] == schema
    one, again = taken(back), reissue(back, [CATALOGS])
    changed = one.opened.price() - back.shown("price_total")[0]
    told = [line for line in report(again) if "equations" in line or "the file itself" in line]
    if schema > 4:
        assert changed == 0 and told == []
    else:
        assert changed > 0 and told == [f"the program's equations changed: +{changed:.2f} USD"]
    for key, rows in inputs(open_job(SHED).values).items():  # what was asked for since is blank
        before = inputs(one.opened.values)[key]
        if key == "guards" and schema < 6:
            assert before == []
            continue
        for row, old in zip(rows, before, strict=True):
            said = {name: value for name, value in old.items() if value is not None}
            said.pop("accepted", None)  # the shed accepts questions that were not asked then
            assert said.items() <= row.items(), key
    assert again.after.price() > 0


def test_the_schema_goes_up_with_the_inputs():
    """Whoever adds, renames or takes away an input raises SCHEMA, keeps a book of the one before in tests/golden, and
    puts the new digest here.
    """
    names = " ".join(sorted(f"{kind.key}_{one.key}" for kind in KINDS.values() for one in kind.fields))
    assert (versions.SCHEMA, hashlib.sha256(names.encode()).hexdigest()[:12]) == (7, "9cee999d72cf")


def test_inputs_that_were_renamed_since_are_found(tmp_path, monkeypatch):
    want = inputs(read(GOLDEN / "schema_1.xlsx")[0])
    monkeypatch.setattr(versions, "RENAMED", {**versions.RENAMED, 1: {"takeoff_run": "takeoff_length"}})
    data = (GOLDEN / "schema_1.xlsx").read_bytes()
    path = tmp_path / "old.xlsx"
    path.write_bytes(patched(data, "xl/workbook.xml", rb'name="takeoff_length"', b'name="takeoff_run"'))
    assert inputs(read(path)[0]) == want
    monkeypatch.setattr(versions, "SCHEMA", 3)
    monkeypatch.setattr(versions, "RENAMED", {1: {"a_one": "a_two"}, 2: {"a_two": "a_three"}})
    asked = ((1, "a_one"), (2, "a_two"), (3, "a_three"), (2, "a_one"))
    assert [versions.new_name(*one) for one in asked] == ["a_three"] * 3 + ["a_one"]
