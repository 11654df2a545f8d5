"""The workbook comes back: read, inspected, compared and reissued, whatever was done to it."""
import copy
import hashlib
import io
import json
import os
import re
import shutil
import zipfile

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from support.engines import edited_in_libreoffice, libreoffice
from support.made_up import jobs
from support.places import ROOT
from support.returning import inputs, partner

from builder.cli import main
from builder.jobs import facts, from_values, open_job
from builder.records import versions
from builder.records.kinds import KINDS
from builder.records.store import job_text
from builder.returned.read import read, returned
from builder.returned.taken import as_job, taken
from builder.review.compare import compare
from builder.review.inspect import inspect
from builder.review.reissue import reissue
from builder.workbook.make import make

CATALOGS = (ROOT / "catalogs",)
COUNT = int(os.environ.get("WETFILM_FUZZ", "6"))          # random jobs; the full run takes more


def found(path):
    return [(one.kind, one.sheet, one.cell) for one in inspect(returned(path), CATALOGS).findings]


def patched(data, part, old, new):
    """The workbook with one text of one part replaced."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as parts, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as book:
        for name in parts.namelist():
            text = parts.read(name)
            if name == part:
                assert re.search(old, text)
                text = re.sub(old, new, text, count=1)
            book.writestr(name, text)
    return stream.getvalue()


def sheet_part(data, title):
    """The part that holds a sheet."""
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        titles = re.findall(r'<sheet name="([^"]+)"', parts.read("xl/workbook.xml").decode())
    return f"xl/worksheets/sheet{titles.index(title) + 1}.xml"


# ---- saved by another program ------------------------------------------------------------------------------------------------

@pytest.fixture(scope="module")
def saved(books, tmp_path_factory, libreoffice_here):
    """name -> the paths of an example saved by LibreOffice as xlsx, and as ods and back."""
    folder = tmp_path_factory.mktemp("saved")
    names = ("boathouse", "corridor")
    straight = libreoffice([books[name].path for name in names], folder / "xlsx")
    back = libreoffice(libreoffice([books[name].path for name in names], folder / "ods", "ods"), folder / "back")
    return dict(zip(names, zip(straight, back)))


@pytest.mark.parametrize("name", ("boathouse", "corridor"))
def test_a_save_by_another_program_changes_nothing(books, saved, tmp_path, name):
    job = as_job(taken(returned(books[name].path)), CATALOGS)
    (tmp_path / "job.yaml").write_text(job)
    opened = open_job(tmp_path / "job.yaml")
    assert inputs(opened.values) == inputs(books[name].opened.values) and make(opened) == books[name].data
    for path in saved[name]:
        assert as_job(taken(returned(path)), CATALOGS) == job
        assert found(path) == []


# ---- a partner at work -------------------------------------------------------------------------------------------------------

@pytest.fixture(scope="module")
def changed(books, tmp_path_factory, libreoffice_here):
    book = books["boathouse"]
    return edited_in_libreoffice(book.path, tmp_path_factory.mktemp("changed") / "changed.xlsx", partner(book.layout))


def test_inspect_names_the_three_formulas_and_the_stray_row(books, changed):
    layout = books["boathouse"].layout
    stray = layout.places["takeoff", "tag"].row + layout.places["takeoff", "tag"].rows + 2
    findings = inspect(returned(changed), CATALOGS).findings
    assert [(one.sheet, one.message.split(":")[0]) for one in findings if one.kind == "formula"] == [
        ("Areas", "Coated area (ft2)"), ("Hours", "Labor (h)"), ("Price", "Cost (USD)")]
    assert [(one.kind, one.sheet, one.cell) for one in findings if one.kind in ("row below", "moved", "name", "sheet", "beside", "stale")] == [
        ("row below", "Measured", f"row {stray}"), ("moved", "Job", f"B{layout.places['job', 'fault'].row + 4}")]
    assert [str(one) for one in findings if one.kind == "catalog"] == ["Coatings 'Interior wall eggshell', price of pack 2: 176 -> 199 USD"]
    assert [one.message for one in findings if one.kind == "understood"] == ["Height: '9 in' is read as 0.75 ft", "Height: '0,75' is read as 0.75 ft"]
    assert [one.message for one in findings if one.kind == "formula typed"] == ["Length: the formula =12+14 is read as its value, 26 ft"]
    assert len(findings) == 9                              # and nothing else


def test_compare_tells_exactly_what_was_changed(books, changed):
    one = compare(returned(books["boathouse"].path), returned(changed), CATALOGS)
    units = books["boathouse"].opened.units
    assert sorted(effect.difference.words(units) for effect in one.inputs) == [
        "Coats 'C2', coating: Exterior acrylic satin -> Exterior acrylic heavy coat", "Takeoff 'S1', place: South side -> blank",
        "Takeoff 'Trim, 20 ft, 1 ft' is added", "Takeoff 'Trim, 26 ft, 0.75 ft' is added", "Takeoff 'Trim, 40 ft, 0.75 ft' is added",
        "Takeoff 'W1', item: Lower boards -> South side"]
    assert [effect.difference.words(units) for effect in one.catalogs] == ["Coatings 'Interior wall eggshell', price of pack 2: 176 -> 199 USD"]
    assert all(effect.price > 0 for effect in (*one.inputs[:4], *one.catalogs))
    assert len(one.touched) == 7 and {book for book, _ in one.touched} == {str(changed)}


def test_reissue_keeps_every_input_and_is_healthy(books, changed, tmp_path):
    one = reissue(returned(changed), CATALOGS)
    (tmp_path / "again.xlsx").write_bytes(make(one.after))
    values, units, _ = read(tmp_path / "again.xlsx")
    trim = {"system": "Trim", "length": 26 * 0.3048, "height": 0.75 * 0.3048}
    before = inputs(books["boathouse"].opened.values)
    want = copy.deepcopy(before)
    blank = dict.fromkeys(KINDS["takeoff"].field_of)
    want["takeoff"][1:1] = []
    added = [{**blank, **trim}, {**blank, **trim, "length": 40 * 0.3048}]
    want["takeoff"] = [*want["takeoff"][:2], *added, *want["takeoff"][2:], {**blank, "system": "Trim", "length": 20 * 0.3048, "height": 0.3048}]
    want["takeoff"][0]["place"] = None
    next(row for row in want["takeoff"] if row["tag"] == "W1")["item"] = "South side"
    want["coats"][1]["coating"] = "Exterior acrylic heavy coat"
    assert inputs(values) == {kind: [{key: units.settle(value, KINDS[kind].field_of[key].quantity) for key, value in row.items()} for row in rows]
                              for kind, rows in want.items()}
    assert next(row for row in values["coatings"] if row["name"] == "Interior wall eggshell")["pack2_price"] == 199
    assert found(tmp_path / "again.xlsx") == [] and one.after.price() == one.before.price() > books["boathouse"].opened.price()


def test_the_commands_say_it_on_the_terminal_in_json_and_as_a_workbook(books, changed, tmp_path, capsys):
    before, out = str(books["boathouse"].path), tmp_path / "compared.xlsx"
    assert main(["compare", before, str(changed), "--catalogs", str(ROOT / "catalogs"), "-o", str(out)]) == 1
    said = capsys.readouterr().out
    prices = tuple(f"{one.price():,.2f}" for one in (books["boathouse"].opened, taken(returned(changed)).opened))
    assert "  price: {} -> {} USD".format(*prices) in said.splitlines() and prices[0] != prices[1]
    assert re.search(r"^ +\+[\d,.]+  Coats 'C2', coating: Exterior acrylic satin -> Exterior acrylic heavy coat$", said, re.MULTILINE)
    book = openpyxl.load_workbook(out)
    assert book.sheetnames == ["Results", "Inputs changed", "Catalog values changed", "Touched by hand"]
    assert book["Catalog values changed"]["A5"].value == "Coatings 'Interior wall eggshell', price of pack 2: 176 -> 199 USD"
    assert main(["compare", before, before, "--catalogs", str(ROOT / "catalogs")]) == 0
    capsys.readouterr()
    assert main(["inspect", str(changed), "--format", "json", "--catalogs", str(ROOT / "catalogs")]) == 1
    found = json.loads(capsys.readouterr().out)
    assert [one["sheet"] for one in found["findings"] if one["kind"] == "formula"] == ["Areas", "Hours", "Price"]
    assert found["facts"][0].startswith("made by wetfilm ")
    assert found["facts"][0].endswith("the ones in use here, newest price of 2026-03-02, 49 days before the estimate")
    assert main(["inspect", before, "--catalogs", str(ROOT / "catalogs")]) == 0


def test_a_row_inserted_over_the_first_is_taken_in(books, tmp_path, libreoffice_here):
    place = books["shed"].layout.places
    first = place["takeoff", "system"].row
    cell = 'sheets.getByName("Takeoff").getCellByPosition({}, {})'
    path = edited_in_libreoffice(books["shed"].path, tmp_path / "book.xlsx", [
        f'sheets.getByName("Takeoff").Rows.insertByIndex({first - 1}, 1)',
        f'{cell.format(place["takeoff", "system"].col, first - 1)}.setString("Boards")',
        f'{cell.format(place["takeoff", "length"].col, first - 1)}.setValue(10)',
        f'{cell.format(place["takeoff", "height"].col, first - 1)}.setValue(10)'])
    one = taken(returned(path))
    assert [(finding.kind, finding.sheet, finding.cell) for finding in one.findings] == [("row above", "Takeoff", f"row {first}")]
    row = one.opened.values["takeoff"][-1]
    assert (row["system"], row["length"], row["height"]) == ("Boards", pytest.approx(3.048), pytest.approx(3.048))
    assert one.opened.price() > books["shed"].opened.price()


def retyped(book, path, changes):
    """A book with values typed into catalog rows: (block, key, row from 0) -> value."""
    work = openpyxl.load_workbook(book.path)
    for (block, key, row), value in changes.items():
        place = book.layout.places[block, key]
        work[place.sheet].cell(place.row + row, place.col + 1).value = value
    work.save(path)
    return path


def satin(book):
    return next(no for no, row in enumerate(book.opened.values["coatings"]) if row["name"] == "Exterior acrylic satin")


def test_reissue_keeps_the_price_of_a_record_that_was_renamed_too(books, tmp_path):
    no = satin(books["shed"])
    book = retyped(books["shed"], tmp_path / "book.xlsx", {
        ("coatings", "name", no): "House satin", ("coats", "coating", 1): "House satin", ("coatings", "pack1_price", no): 300})
    one = reissue(returned(book), CATALOGS)
    assert [row["pack1_price"] for row in one.after.values["coatings"] if row["name"] == "House satin"] == [300]
    assert one.after.price() == one.before.price() and len(one.kept) == 2 and not one.lost


def test_reissue_keeps_own_prices_under_the_name_of_today_and_says_what_it_cannot_keep(books, tmp_path):
    book = retyped(books["shed"], tmp_path / "book.xlsx", {("coatings", "pack1_price", satin(books["shed"])): 300})
    today = tmp_path / "catalogs"
    shutil.copytree(ROOT / "catalogs", today)
    text = (today / "coatings.yaml").read_text()
    (today / "coatings.yaml").write_text(text.replace("Exterior acrylic satin", "Outdoor satin"))
    one = reissue(returned(book), (today,), instead=[("Exterior acrylic satin", "Outdoor satin")])
    assert [row["pack1_price"] for row in one.after.values["coatings"] if row["name"] == "Outdoor satin"] == [300] and not one.lost
    one = reissue(returned(book), (today,), keep=["Exterior acrylic satin"])
    assert one.after.price() == one.before.price() and not one.lost
    unused = retyped(books["shed"], tmp_path / "unused.xlsx", {
        ("coatings", "pack1_price", satin(books["shed"])): 300, ("coats", "coating", 1): "Exterior acrylic heavy coat"})
    one = reissue(returned(unused), (today,))
    assert [change.key for change in one.lost] == ["pack1_price"] and not one.kept


# ---- what was typed is understood, or travels as it stands -------------------------------------------------------------------

def typed(book, tmp_path, key, row, text):
    """A book with a text typed into a numeric column of Takeoff."""
    place = book.layout.places["takeoff", key]
    cell = f"{chr(65 + place.col)}{place.row + row}".encode()
    path = tmp_path / "typed.xlsx"
    path.write_bytes(patched(book.data, sheet_part(book.data, "Takeoff"), rb'<c r="' + cell + rb'" (s="\d+")><v>[^<]*</v></c>',
                             b'<c r="' + cell + rb'" \1 t="inlineStr"><is><t>' + text.encode() + b"</t></is></c>"))
    return path


def test_a_cell_that_cannot_be_understood_travels_as_a_draft(books, tmp_path, capsys):
    book = typed(books["shed"], tmp_path, "length", 1, "about twelve")
    job, again = tmp_path / "job.yaml", tmp_path / "again.xlsx"
    assert main(["read", str(book), "-o", str(job), "--catalogs", str(ROOT / "catalogs")]) == 1
    said = capsys.readouterr()
    assert f"{book}: Takeoff G6: Length: 'about twelve' is not a number with a unit" in said.err and "no price yet" in said.out
    assert "draft: yes" in job.read_text() and "length: about twelve" in job.read_text()
    assert main(["build", str(job), "-o", str(again), "--catalogs", str(ROOT / "catalogs")]) == 0
    assert "warning: Length: 'about twelve'" in capsys.readouterr().err
    values, _, _ = read(again)
    assert values["takeoff"][1]["length"] == "about twelve"
    assert as_job(taken(returned(again)), CATALOGS) == job.read_text()


@pytest.mark.parametrize("text", ("14 ft", "4,2672 m", "14'", "168 in"))
def test_a_length_in_words_gives_the_job_with_the_number(books, tmp_path, text):
    want = copy.deepcopy(inputs(books["shed"].opened.values))
    want["takeoff"][1]["length"] = 14 * 0.3048
    values = taken(returned(typed(books["shed"], tmp_path, "length", 1, text))).opened.values
    assert values["takeoff"][1]["length"] == pytest.approx(14 * 0.3048, rel=1e-12)
    values["takeoff"][1]["length"] = 14 * 0.3048
    assert inputs(values) == want


def test_a_formula_that_was_never_worked_out_is_named(books, tmp_path):
    place = books["shed"].layout.places["takeoff", "length"]
    cell = f"{chr(65 + place.col)}{place.row}".encode()
    path = tmp_path / "typed.xlsx"
    path.write_bytes(patched(books["shed"].data, sheet_part(books["shed"].data, "Takeoff"), rb'<c r="' + cell + rb'" (s="\d+")><v>[^<]*</v></c>',
                             b'<c r="' + cell + rb'" \1><f>12+14</f></c>'))
    assert ("formula without a value", "Takeoff", cell.decode()) in found(path)


def test_values_older_than_their_inputs_are_stale(books, tmp_path):
    place = books["shed"].layout.places["takeoff", "length"]
    cell = f"{chr(65 + place.col)}{place.row}".encode()
    path = tmp_path / "stale.xlsx"
    path.write_bytes(patched(books["shed"].data, sheet_part(books["shed"].data, "Takeoff"), rb'(<c r="' + cell + rb'" s="\d+"><v>)[^<]*', rb"\g<1>99"))
    assert [(kind, sheet) for kind, sheet, _ in found(path)] == [("stale", "Price")]


def test_a_deleted_name_is_told(books, tmp_path):
    path = tmp_path / "book.xlsx"
    path.write_bytes(patched(books["shed"].data, "xl/workbook.xml", rb'<definedName name="areas_coated">[^<]*</definedName>', b""))
    assert [(one.kind, one.message) for one in inspect(returned(path), CATALOGS).findings] == [
        ("name", "Coated area on the sheet Areas was deleted, or its defined name points nowhere: formulas that use it show an error")]


def test_a_sheet_whose_new_name_has_an_apostrophe_is_found(books, tmp_path):
    book, path = books["shed"], tmp_path / "book.xlsx"
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book.data)) as parts, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as renamed:
        for name in parts.namelist():
            data = parts.read(name)
            if name == "xl/workbook.xml":
                data = data.replace(b'<sheet name="Takeoff"', b'<sheet name="Owner\'s"').replace(b">'Takeoff'!", b">'Owner''s'!")
            renamed.writestr(name, data)
    path.write_bytes(stream.getvalue())
    assert returned(path).place("takeoff", "tag")[0] == "Owner's"
    assert inputs(read(path)[0]) == inputs(books["shed"].opened.values)


def test_notes_beside_the_inputs_and_sheets_of_a_persons_own_are_told(books, tmp_path, libreoffice_here):
    layout = books["shed"].layout
    far = layout.places["takeoff", "item"]
    path = edited_in_libreoffice(books["shed"].path, tmp_path / "book.xlsx", [
        'sheets.getByName("Job").getCellRangeByName("H7").setString("ask Ann")',
        f'sheets.getByName("Takeoff").getCellByPosition({far.col}, 899).setString("see photo")',
        'sheets.insertNewByName("My notes", 3)', 'sheets.getByName("My notes").getCellRangeByName("A1").setString("call back")'])
    one = inspect(returned(path), CATALOGS)
    assert [str(finding) for finding in one.findings] == [
        "Job H7: 'ask Ann' is ignored: not an input cell", f"Takeoff {chr(65 + far.col)}900: 'see photo' is ignored: not an input cell",
        "My notes: this sheet was added (it is not part of the estimate and is not carried over)"]
    assert one.taken.opened.price() == books["shed"].opened.price() and one.touched == one.findings


def test_a_row_that_was_deleted_does_no_harm(books, tmp_path, libreoffice_here):
    tag = books["shed"].layout.places["takeoff", "tag"]
    path = edited_in_libreoffice(books["shed"].path, tmp_path / "book.xlsx", [f'sheets.getByName("Takeoff").Rows.removeByIndex({tag.row + 40}, 1)'])
    assert found(path) == [] and returned(path).saved_price() == books["shed"].opened.price()


def test_a_fault_is_told_by_its_cell(books, tmp_path):
    book = retyped(books["shed"], tmp_path / "book.xlsx", {("coats", "coating", 1): "House paint", ("coats", "share", 2): "#N/A"})
    coating, share = (books["shed"].layout.places["coats", key] for key in ("coating", "share"))
    told = {(one.kind, one.cell): one.message for one in taken(returned(book)).findings if one.sheet == "Coats"}
    assert told["cell", f"{chr(65 + share.col)}{share.row + 2}"] == "Share: the cell shows the error #N/A"
    assert told["fault", f"{chr(65 + coating.col)}{coating.row + 1}"].startswith("Coats, coating: 'House paint' is not in Coatings")


def test_a_catalog_name_that_stands_twice_stays_a_fault(books, tmp_path):
    no = satin(books["shed"])
    copied = {("coatings", one.key, 17): value for one in KINDS["coatings"].fields
              if (value := books["shed"].opened.units.to_cell(books["shed"].opened.values["coatings"][no].get(one.key), one.quantity)) != ""}
    assert len(books["shed"].opened.values["coatings"]) == 17
    one = taken(returned(retyped(books["shed"], tmp_path / "book.xlsx", copied)))
    assert one.draft
    (tmp_path / "job.yaml").write_text(as_job(one, CATALOGS))
    again = open_job(tmp_path / "job.yaml")
    assert again.price() is None and again.estimate.checks.faults_coatings == one.opened.estimate.checks.faults_coatings == 2


# ---- random jobs ---------------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("system", ("us", "metric"))
def test_any_job_comes_back_from_its_file_and_its_workbook(system, tmp_path):
    @settings(max_examples=max(1, COUNT // 2), deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(jobs(system))
    def comes_back(drawn):
        values, units = drawn
        job, book = tmp_path / "job.yaml", tmp_path / "book.xlsx"
        job.write_text(job_text(values, units, draft=True))
        opened = open_job(job, CATALOGS)
        assert not opened.errors and inputs(opened.values) == inputs(values)
        book.write_bytes(make(from_values(values, units, facts(units, "", 20, CATALOGS))))
        assert inputs(taken(returned(book)).opened.values) == inputs(values)
    comes_back()


# ---- today's catalogs --------------------------------------------------------------------------------------------------------

def with_catalogs(tmp_path, **replaced):
    """A folder of the shipped catalogs; replaced: file -> (old text, new text)."""
    folder = tmp_path / "catalogs"
    folder.mkdir()
    for path in (ROOT / "catalogs").glob("*.yaml"):
        text = path.read_text()
        if path.stem in replaced:
            old, new = replaced[path.stem]
            assert old in text
            text = text.replace(old, new)
        (folder / path.name).write_text(text)
    return folder


def test_reissue_tells_what_moved_the_price(books, tmp_path, capsys):
    folder = with_catalogs(tmp_path, terms=("wage: 28", "wage: 31"))
    out = tmp_path / "again.xlsx"
    assert main(["reissue", str(books["boathouse"].path), "--catalogs", str(folder), "-o", str(out)]) == 0
    said = capsys.readouterr().out
    prices = tuple(f"{one.price():,.2f}" for one in (books["boathouse"].opened, open_job(ROOT / "examples/boathouse.yaml", [folder])))
    assert "price: {} -> {} USD".format(*prices) in said and prices[0] != prices[1]
    assert re.search(r"\+[\d,]+\.00: Crews 'steady', wage: 28 -> 31 USD/h", said)
    assert inputs(read(out)[0]) == inputs(books["boathouse"].opened.values)


def test_reissue_asks_about_a_record_that_is_gone(books, tmp_path, capsys):
    folder = with_catalogs(tmp_path, surfaces=("name: Lap siding", "name: Lap sidings"))
    book, out = str(books["boathouse"].path), tmp_path / "again.xlsx"
    assert main(["reissue", book, "--catalogs", str(folder), "-o", str(out)]) == 1 and not out.exists()
    assert capsys.readouterr().err.splitlines() == [
        f"{book}: Surfaces 'Lap siding' is not in today's catalogs; used on Systems row 1, Systems row 2 (did you mean 'Lap sidings'? "
        "add --instead 'Lap siding=NEW NAME', or --keep 'Lap siding' to use the workbook's own)"]
    for choice in (["--instead", "Lap siding=Lap sidings"], ["--keep", "Lap siding"]):
        assert main(["reissue", book, "--catalogs", str(folder), "--dry-run", *choice]) == 0
        price = f"{books['boathouse'].opened.price():,.2f}"
        assert f"price: {price} -> {price} USD" in capsys.readouterr().out
    assert not out.exists()


def test_own_records_and_those_left_out_give_the_same_estimate(books, tmp_path):
    """A book whose catalogs were changed inside comes back to the same price on the shipped catalogs."""
    opened = books["boathouse"].opened
    values = copy.deepcopy(opened.values)
    values["coatings"][1]["pack2_price"] = 150.0
    values["terms"][0]["sundries"] = None
    values["nozzles"] = [row for row in values["nozzles"] if row["size"] != "517"]
    book = from_values(values, opened.units, opened.settings)
    (tmp_path / "book.xlsx").write_bytes(make(book))
    (tmp_path / "job.yaml").write_text(as_job(taken(returned(tmp_path / "book.xlsx")), CATALOGS))
    again = open_job(tmp_path / "job.yaml")
    assert not again.errors and again.price() == book.price() != opened.price()


def test_a_renaming_of_what_is_not_there_is_refused(books, capsys):
    book = str(books["shed"].path)
    for pair, words in (("Lapp siding=Block", "'Lapp siding' is not in this workbook's catalogs (did you mean 'Lap siding'?)"),
                        ("Lap siding=Blok", "'Blok' is not in today's catalogs (did you mean 'Block'?)")):
        assert main(["reissue", book, "--catalogs", str(ROOT / "catalogs"), "--dry-run", "--instead", pair]) == 1
        assert capsys.readouterr().err == f"{book}: --instead: {words}\n"


# ---- older books ---------------------------------------------------------------------------------------------------------------

GOLDEN = ROOT / "tests/golden"


@pytest.mark.parametrize("schema", range(1, versions.SCHEMA + 1))
def test_a_book_of_every_schema_is_read_and_reissued(schema):
    back = returned(GOLDEN / f"schema_{schema}.xlsx")
    assert back.settings["schema"] == schema
    one = taken(back)
    assert f"{one.opened.price():.2f}" == f"{back.shown('price_total')[0]:.2f}"
    assert inputs(one.opened.values) == inputs(open_job(ROOT / "tests/data/shed.yaml").values)
    assert reissue(back, CATALOGS).after.price() > 0


def test_the_schema_goes_up_with_the_inputs():
    """Whoever adds, renames or takes away an input raises SCHEMA, keeps a book of the one before in tests/golden, and puts the new digest here."""
    names = " ".join(f"{kind.key}_{one.key}" for kind in KINDS.values() for one in kind.fields)
    assert (versions.SCHEMA, hashlib.sha256(names.encode()).hexdigest()[:12]) == (3, "8f9a2249aca1")


def test_inputs_that_were_renamed_since_are_found(tmp_path, monkeypatch):
    want = inputs(read(GOLDEN / "schema_1.xlsx")[0])
    monkeypatch.setattr(versions, "RENAMED", {**versions.RENAMED, 1: {"takeoff_run": "takeoff_length"}})
    data = (GOLDEN / "schema_1.xlsx").read_bytes()
    path = tmp_path / "old.xlsx"
    path.write_bytes(patched(data, "xl/workbook.xml", rb'name="takeoff_length"', b'name="takeoff_run"'))
    assert inputs(read(path)[0]) == want
    monkeypatch.setattr(versions, "SCHEMA", 3)
    monkeypatch.setattr(versions, "RENAMED", {1: {"a_one": "a_two"}, 2: {"a_two": "a_three"}})
    assert [versions.new_name(schema, name) for schema, name in ((1, "a_one"), (2, "a_two"), (3, "a_three"), (2, "a_one"))] == ["a_three"] * 3 + ["a_one"]
