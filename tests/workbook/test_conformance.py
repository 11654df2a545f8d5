"""The rules of a workbook, one test a rule: what a partner and an auditor find in the file."""

import os
import re
import subprocess
import sys
from importlib.util import find_spec
from types import SimpleNamespace

import pytest
from support.by_address import Addressed
from support.files import MAIN, File, cells_of
from support.slow import slow

from builder.stages.sheet_list import SHEETS
from builder.workbook.columns import folded_fact, tables

TITLES = [sheet.title for sheet in SHEETS]


def in_sight(book):
    """All but workings; Log, Progress, Changes and Bill where a price was signed or anything stands on them."""
    kinds = ("log", "changes", "bills", "contract", "signed")
    begun = book.estimate.job.signed_on is not None or any(
        row.filled for key in kinds for row in book.estimate.rows[key]
    )
    return [sheet.title for sheet in SHEETS if sheet.group != "working" and (begun or sheet.group != "week")]


# --- structure ---


def test_1_sheets_stand_in_groups_from_left_to_right(book):
    groups = [sheet.group for sheet in SHEETS]
    assert book.titles == TITLES and groups == sorted(
        groups, key=["enter", "read", "run", "week", "keep", "working"].index
    )


def test_2_the_first_sheet_says_what_this_is_how_to_use_it_and_what_to_beware_of(book):
    text = "\n".join(
        str(cell.value) for row in book.book["Summary"].iter_rows() for cell in row if cell.value is not None
    )
    for part in (
        "Estimate of a spray-painting job",
        "State",
        "Questions",
        "Three steps",
        "Price by part",
        "Key",
        "Before anyone sprays",
        "What to know of the figures",
        "painters call a tip",
        "invented for the demo",
    ):
        assert part in text
    assert {f"'{title}'!A1" for title in in_sight(book)[1:]} <= set(book.links("Summary").values())
    assert all(title in text for title in TITLES)
    made_of = "\n".join(str(cell.value) for cell in book.book["Sources"]["A"])
    for part in ("This book", "Fingerprint of the catalogs", "Builder", "Units", "Currency"):
        assert part in made_of


def test_3_a_sheet_opens_with_its_title_and_a_table_has_one_row_of_unique_headers_without_gaps(book):
    for title in TITLES:
        assert book.book[title]["A1"].value == title
    for title, columns in tables(book.layout).items():
        beside = 2 if title == "Checks" else 0  # a gap, and the way to each sheet
        assert book.book[title].max_column == len(columns) + beside, title
        found = {}
        for col, stack in columns.items():
            for place, _ in stack:
                found.setdefault(book.layout.head(place.block), []).append(col)
        for head, parts in found.items():
            heads = [book.book[title].cell(head, col + 1).value for col in parts]
            assert parts == list(range(len(parts))), (title, head)
            assert all(heads) and len(set(heads)) == len(heads), (title, head)


def test_4_no_cell_is_merged(book):
    assert not any(sheet.merged_cells.ranges for sheet in book.book)


def test_5_nothing_is_hidden_but_workings_the_week_to_come_and_folded_steps_that_the_first_sheet_names(book):
    assert [title for title in TITLES if book.book[title].sheet_state == "visible"] == in_sight(book)
    assert sum(sheet.group != "working" for sheet in SHEETS) <= 29
    assert {sheet.title for sheet in SHEETS[1:]} <= {cell.value for cell in book.book["Summary"]["A"]}
    start = " ".join(str(cell.value) for cell in book.book["Summary"]["A"])
    facts = [place for place in book.layout.places.values() if folded_fact(place.block, place.column)]
    assert not any(place.column.field for place in facts)  # an entry is never folded away
    for title in TITLES:
        columns, rows = (
            [one for one in book.sheets[title].iter(f"{MAIN}{name}") if one.get("hidden")] for name in ("col", "row")
        )
        assert all(one.get("outlineLevel") for one in (*columns, *rows)), title
        assert not columns + rows or title in re.search(r"Folded away.*?Hidden:", start)[0], title
        told = {place.row for place in facts if place.sheet == title}
        if title == "Schedule":  # the numbers of days, which the headers below say too
            told.add(book.layout.numbers(book.layout.places["calendar", "day"].block))
        assert {int(row.get("r")) for row in rows} == told, title


def test_6_no_macros_links_to_other_books_or_queries(book):
    assert not book.matching("vba|externalLink|connections|queryTable|customXml|activeX")
    assert "TargetMode" not in "".join(book.text(part) for part in book.matching("rels$"))


def test_7_and_16_no_circular_reference_and_no_error_value(book):
    assert "iterate" not in book.text("xl/workbook.xml")
    engine = Addressed(book.path)
    for name, place, _ in book.declared():
        for row, col in cells_of(place):
            found = engine.get(place.sheet, row, col), book.cached.get(place.sheet, row, col)
            assert not any(str(value).startswith("#") for value in found), (name, row, found)


def test_8_the_book_opens_on_the_first_sheet_and_none_is_empty(book):
    assert book.book.active.title == TITLES[0]
    assert all(sheet.max_row > 4 for sheet in book.book)


# --- file ---


@pytest.mark.slow
@pytest.mark.parametrize("name", ["small corridor", "boathouse", "corridor", "blank", "blank in metric"])
def test_36_every_name_still_points_at_its_cells_after_a_save_by_another_program(books, saved, name):
    ours, theirs = File(books[name]), File(SimpleNamespace(**{**vars(books[name]), "path": saved(name)}))
    assert set(ours.names) <= set(theirs.names)
    plain = {key: area.replace("$'", "'").replace("'", "").replace("$", "") for key, area in theirs.names.items()}
    moved = {
        key: (area, plain[key])
        for key, area in ours.names.items()
        if plain[key] != area.replace("'", "").replace("$", "")
    }
    assert moved == {}


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", ["drawn at random in metric", *map(slow, ("boathouse", "corridor", "blank", "blank in metric", "large"))]
)
def test_the_file_is_valid_office_open_xml(files, name):
    """openxml-audit, against the schemas of Office 2013."""
    if not find_spec("openxml_audit"):
        if os.environ.get("CI"):
            pytest.fail("openxml-audit is missing; the extra `test` installs it")
        pytest.skip("openxml-audit is not installed: pip install -e '.[test]'")
    told = subprocess.run(
        [sys.executable, "-m", "openxml_audit", "-f", "office2013", str(files(name).path)],
        capture_output=True,
        text=True,
    )
    assert told.returncode == 0, told.stdout + told.stderr
