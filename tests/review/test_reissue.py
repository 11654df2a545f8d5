"""A returned workbook reissued on today's catalogs, and compared: what is kept, what moved the price, what is asked."""

import copy
import io
import json
import re
import shutil

import openpyxl
import pytest
from support.books import SMALL
from support.parcels import retyped
from support.places import EXAMPLES, SHED
from support.returning import at, entered, inputs, satin
from support.small import CATALOGS

from builder.cli import main
from builder.jobs import from_values, open_job
from builder.returned.read import read, returned
from builder.returned.taken import as_job, taken
from builder.review.reissue import reissue
from builder.workbook.make import make

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]


@pytest.fixture(scope="module")
def touched(books, small, tmp_path_factory):
    """The shed's book with another coating on a coat, another price of it, and an area typed over."""
    book, path = books["small shed"], tmp_path_factory.mktemp("touched") / "touched.xlsx"
    path.write_bytes(
        retyped(
            entered(
                book,
                {
                    ("coats", "coating", 1): "Exterior acrylic heavy coat",
                    ("coatings", "pack1_price", satin(book)): 300.0,
                },
            ),
            {at(book, "areas", "coated", 3): 9999.0},
        )
    )
    return path


def test_the_commands_say_it_on_the_terminal_in_json_and_as_a_workbook(books, touched, tmp_path, capsys):
    before, out = books["small shed"], tmp_path / "compared.xlsx"
    assert main(["compare", str(before.path), str(touched), "--catalogs", str(CATALOGS), "-o", str(out)]) == 1
    said = capsys.readouterr().out
    prices = tuple(f"{one.price():,.2f}" for one in (before.opened, taken(returned(touched)).opened))
    assert "  price: {} -> {} USD".format(*prices) in said.splitlines() and prices[0] != prices[1]
    coat = before.opened.values["coats"][1]
    assert re.search(
        rf"^ +[+-][\d,.]+  Coats '[^']+', coating: {coat['coating']} -> Exterior acrylic heavy coat$",
        said,
        re.MULTILINE,
    ), said
    book = openpyxl.load_workbook(out)
    assert book.sheetnames == ["Results", "Inputs changed", "Catalog values changed", "Touched by hand"]
    assert re.fullmatch(
        r"Coatings 'Exterior acrylic satin', price of pack 1: \d+ -> 300 USD",
        book["Catalog values changed"]["A5"].value,
    )
    assert main(["inspect", str(before.path), "--catalogs", str(CATALOGS)]) == 0
    capsys.readouterr()
    assert main(["inspect", str(touched), "--format", "json", "--catalogs", str(CATALOGS)]) == 1
    found = json.loads(capsys.readouterr().out)
    assert [one["sheet"] for one in found["findings"] if one["kind"] == "formula"] == ["Areas"]
    assert found["facts"][0].startswith("built by wetfilm ")
    assert re.search(
        r"the ones in use here, newest price of 2026-03-02, \d+ days before the estimate$", found["facts"][0]
    )


def test_a_book_compared_with_itself_is_exit_status_0(books, capsys):
    path = str(books["small shed"].path)
    assert main(["compare", path, path, "--catalogs", str(CATALOGS)]) == 0


def with_catalogs(tmp_path, **replaced):
    """A folder of the shipped catalogs; replaced: file -> (old text, new text)."""
    folder = tmp_path / "catalogs"
    folder.mkdir()
    for path in CATALOGS.glob("*.yaml"):
        text = path.read_text()
        if path.stem in replaced:
            old, new = replaced[path.stem]
            assert old in text
            text = text.replace(old, new)
        (folder / path.name).write_text(text)
    return folder


def test_reissue_keeps_the_price_of_a_record_that_was_renamed_too(books):
    no = satin(books["small shed"])
    book = entered(
        books["small shed"],
        {
            ("coatings", "name", no): "House satin",
            ("coats", "coating", 1): "House satin",
            ("coatings", "pack1_price", no): 300,
        },
    )
    one = reissue(returned(io.BytesIO(book)), [CATALOGS])
    assert [row["pack1_price"] for row in one.after.values["coatings"] if row["name"] == "House satin"] == [300]
    assert one.after.price() == one.before.price() and len(one.kept) == 2 and not one.lost


def test_reissue_keeps_own_prices_under_the_name_of_today_and_says_what_it_cannot_keep(books, tmp_path):
    back = returned(
        io.BytesIO(entered(books["small shed"], {("coatings", "pack1_price", satin(books["small shed"])): 300}))
    )
    today = tmp_path / "catalogs"
    shutil.copytree(CATALOGS, today)
    text = (today / "coatings.yaml").read_text()
    (today / "coatings.yaml").write_text(text.replace("Exterior acrylic satin", "Outdoor satin"))
    one = reissue(back, (today,), instead=[("Exterior acrylic satin", "Outdoor satin")])
    assert [row["pack1_price"] for row in one.after.values["coatings"] if row["name"] == "Outdoor satin"] == [
        300
    ] and not one.lost
    one = reissue(back, (today,), keep=["Exterior acrylic satin"])
    assert one.after.price() == one.before.price() and not one.lost
    unused = entered(
        books["small shed"],
        {
            ("coatings", "pack1_price", satin(books["small shed"])): 300,
            ("coats", "coating", 1): "Exterior acrylic heavy coat",
        },
    )
    one = reissue(returned(io.BytesIO(unused)), (today,))
    assert [change.key for change in one.lost] == ["pack1_price"] and not one.kept


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_that_nobody_touched_is_reissued_as_it_was(books, name):
    book = books[SMALL + name]
    one = reissue(returned(book.path), [CATALOGS])
    assert (one.findings, one.kept, one.lost, one.changes) == ((), (), (), ())
    assert one.saved == one.before.price() == one.after.price() == book.opened.price()
    assert inputs(one.after.values) == inputs(book.opened.values)


def test_reissue_tells_what_moved_the_price(books, tmp_path, capsys):
    folder = with_catalogs(tmp_path, terms=("wage: 28", "wage: 31"))
    out = tmp_path / "again.xlsx"
    assert main(["reissue", str(books["small shed"].path), "--catalogs", str(folder), "-o", str(out)]) == 0
    said = capsys.readouterr().out
    prices = tuple(f"{one.price():,.2f}" for one in (books["small shed"].opened, open_job(SHED, [folder])))
    assert "price: {} -> {} USD".format(*prices) in said and prices[0] != prices[1]
    assert re.search(r"\+[\d,]+\.00: Crews 'steady', wage: 28 -> 31 USD/h", said)
    assert inputs(read(out)[0]) == inputs(books["small shed"].opened.values)


def test_reissue_asks_about_a_record_that_is_gone(books, tmp_path, capsys):
    folder = with_catalogs(tmp_path, surfaces=("name: Lap siding", "name: Lap sidings"))
    book, out = tmp_path / "book.xlsx", tmp_path / "again.xlsx"
    book.write_bytes(entered(books["small shed"], {("systems", "surface", 2): "Lap siding"}))
    assert main(["reissue", str(book), "--catalogs", str(folder), "-o", str(out)]) == 1 and not out.exists()
    assert capsys.readouterr().err.splitlines() == [
        f"{book}: Surfaces 'Lap siding' is not in today's catalogs; used on Systems row 1, Systems row 3 (did you mean 'Lap sidings'? "
        "add --instead 'Lap siding=NEW NAME', or --keep 'Lap siding' to use the workbook's own)"
    ]
    back = returned(book)
    for choice in ({"instead": [("Lap siding", "Lap sidings")]}, {"keep": ["Lap siding"]}):
        one = reissue(back, [folder], **choice)
        assert one.after.price() == one.before.price() > 0, choice
    assert main(["reissue", str(book), "--catalogs", str(folder), "--dry-run", "--keep", "Lap siding"]) == 0
    assert (
        f"price: {one.before.price():,.2f} -> {one.before.price():,.2f} USD" in capsys.readouterr().out
        and not out.exists()
    )


def test_own_records_and_those_left_out_give_the_same_estimate(books, tmp_path):
    """A book whose catalogs were changed inside comes back to the same price on the shipped catalogs."""
    opened = books["small shed"].opened
    values = copy.deepcopy(opened.values)
    values["coatings"][1]["pack2_price"] = 150.0
    values["terms"][0]["sundries"] = None
    values["nozzles"] = [row for row in values["nozzles"] if row["size"] != "517"]
    book = from_values(values, opened.units, opened.settings)
    (tmp_path / "book.xlsx").write_bytes(make(book))
    (tmp_path / "job.yaml").write_text(as_job(taken(returned(tmp_path / "book.xlsx")), [CATALOGS]))
    again = open_job(tmp_path / "job.yaml", [CATALOGS])
    assert not again.errors and again.price() == book.price() != opened.price()


def test_a_renaming_of_what_is_not_there_is_refused(books, capsys):
    book = str(books["small shed"].path)
    for pair, words in (
        ("Lapp siding=Block", "'Lapp siding' is not in this workbook's catalogs (did you mean 'Lap siding'?)"),
        ("Lap siding=Blok", "'Blok' is not in today's catalogs (did you mean 'Block'?)"),
    ):
        assert main(["reissue", book, "--catalogs", str(CATALOGS), "--dry-run", "--instead", pair]) == 1
        assert capsys.readouterr().err == f"{book}: --instead: {words}\n"


def test_notes_do_not_stop_a_reissue_or_an_impact(books, tmp_path, capsys, monkeypatch):
    (tmp_path / "today").mkdir()
    (tmp_path / "today/catalogs").symlink_to(CATALOGS)
    # impact compares with the catalogs of the folder where it runs
    monkeypatch.chdir(tmp_path / "today")
    (tmp_path / "own.yaml").write_text("crews:\n  - {change: steady, wage: 31}\n")
    both, book = ["--catalogs", str(CATALOGS), "--catalogs", str(tmp_path)], str(books["small shed"].path)
    assert main(["reissue", book, "--dry-run", *both]) == 0
    assert "Crews 'steady', wage: 28 -> 31 USD/h" in capsys.readouterr().out
    for job in (str(SHED), book):
        assert main(["impact", job, *both]) == 1
        assert "Crews 'steady', wage: 28 -> 31 USD/h" in capsys.readouterr().out
