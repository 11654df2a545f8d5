"""What every built workbook keeps to: validations, names, formulas, size, bytes."""

import io
import re
import zipfile

from support.books import BOOKS, EACH_BOOK
from support.places import ROOT

from builder.jobs import open_job
from builder.records.kinds import KINDS
from builder.stages.estimate import Estimate
from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.make import make
from builder.workbook.write import prepared

FORBIDDEN = (
    "OFFSET(",
    "INDIRECT(",
    "NOW(",
    "TODAY(",
    "RAND(",
    "XLOOKUP(",
    "LET(",
    "FILTER(",
    "AGGREGATE(",
    "TEXTJOIN(",
    "MAXIFS(",
    "MINIFS(",
    "IFS(",
    "_xlfn",
)
NUMBERS = {"0", "1", "2", "4", "100"}
CELL_LIKE = re.compile(r"[A-Za-z]{1,3}[0-9]{1,7}")


def parts(data_path):
    with zipfile.ZipFile(data_path) as book:
        return {name: book.read(name).decode() for name in book.namelist() if name.endswith(".xml")}


def formulas(layout):
    """(place, resolved formula) of each column."""
    for place in layout.places.values():
        if place.column.formula:
            yield place, layout.template(place.block, place.column)


@EACH_BOOK
def test_every_input_has_its_validation(books, name):
    """The writing library drops what it does not like; nothing was dropped."""
    sheets = [text for part, text in parts(books[name].path).items() if part.startswith("xl/worksheets/")]
    choosers = sum(bool(place.column.view) for place in books[name].layout.places.values())
    typed = sum(len(kind.fields) for kind in KINDS.values())
    assert (
        choosers == 2
        and sum(text.count("<dataValidation ") - text.count("<formula1>FALSE</formula1>") for text in sheets)
        == typed + choosers
    )
    prompts = re.findall(r'promptTitle="([^"]*)"', "".join(sheets))
    assert prompts and all(0 < len(title) <= 32 for title in prompts)


@EACH_BOOK
def test_names_are_whole_and_no_cell_addresses(books, name):
    named = re.findall(r'<definedName name="(\w+)"[^>]*>([^<]*)<', parts(books[name].path)["xl/workbook.xml"])
    ours = dict(pair for pair in named if not pair[0].startswith("_xlnm"))
    assert len(ours) > 500 and all(
        "_" in key and not CELL_LIKE.fullmatch(key) and "#REF" not in area for key, area in ours.items()
    )
    called = set(re.findall(r"\b[a-z]+_[a-z_0-9]+\b", " ".join(text for _, text in formulas(books[name].layout))))
    assert called <= set(ours)


def test_formulas_use_plain_functions_and_no_bare_numbers(books):
    for place, text in formulas(books["boathouse"].layout):
        told = f"{place.block.key}.{place.column.key}: {text}"
        assert not any(function in text for function in FORBIDDEN), told
        bare = re.sub(r'"[^"]*"|\$?[A-Z]{1,3}\$?(?:\d+|§)|¤\$\d+|[a-z]+_\w+', "", text)
        assert set(re.findall(r"\d+(?:\.\d+)?", bare)) <= NUMBERS, told


def test_a_book_of_the_usual_size_has_at_most_62_000_formulas(books):
    """Each is worked out again after an edit somewhere above it, and takes its place in the file."""
    with zipfile.ZipFile(io.BytesIO(books["boathouse"].data)) as book:
        parts = [book.read(name) for name in book.namelist() if name.startswith("xl/worksheets/")]
    assert 40_000 < sum(part.count(b"<f>") + part.count(b"<f ") for part in parts) <= 62_000


def test_sixteen_coats_by_fifty_sizes_stay_under_690_kb(tmp_path):
    opened = open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"])
    values = opened.values
    values["coats"] = [{**row, "tag": None} for row in (values["coats"] * 2)[:16]]
    spare = 50 - len(values["nozzles"])
    values["nozzles"] += [dict(values["nozzles"][0], size=str(700 + number)) for number in range(spare)]
    estimate = Estimate(values, opened.units, opened.estimate.capacity)
    assert len([row for row in estimate.rows["trials"] if row.cost]) > 700
    assert (
        len(
            prepared(
                Layout(blocks(opened.units, estimate.capacity), estimate.capacity), estimate, opened.settings
            ).done()
        )
        < 690_000
    )


def test_the_same_input_gives_the_same_bytes(books):
    again = open_job(BOOKS["boathouse"][0], [ROOT / "catalogs"])
    assert make(again) == books["boathouse"].data
