"""A partner at the workbook: lines typed into a blank one, a row inserted, a save by another program."""
from conftest import ROOT
from engines import IronCalc, Values, differences, edited_in_libreoffice, libreoffice
from more_engines import HyperFormula

from builder.jobs import from_values, open_job
from builder.returned.read import read
from builder.stages.estimate import Estimate
from builder.workbook.make import make

LINES = (  # system, length, height as a person types them, and the same in feet
    ("Exterior siding", "=12+14+9", 35, "9.5", 9.5), ("Interior walls", "48", 48, "8", 8), ("Exterior trim", "120", 120, "0.75", 0.75))
JOB = """
takeoff:
  - {system: Exterior siding, length: 35 ft, height: 9.5 ft}
  - {system: Interior walls, length: 48 ft, height: 8 ft}
  - {system: Exterior trim, length: 120 ft, height: 0.75 ft}
"""


def _from_yaml(folder):
    """The same job from YAML: the starter and three takeoff lines."""
    path = folder / "job.yaml"
    path.write_text((ROOT / "catalogs/starter.yaml").read_text() + JOB)
    opened = open_job(path, [ROOT / "catalogs"])
    assert not opened.problems
    return opened.estimate


def test_three_lines_typed_into_a_blank_workbook_give_the_price_of_the_job_from_yaml(books, tmp_path):
    blank = books["blank"]
    engine = IronCalc(blank.path)
    place = {key: blank.layout.places["takeoff", key] for key in ("system", "length", "height")}
    for row, (system, length, _, height, _) in enumerate(LINES):
        for key, text in (("system", system), ("length", length), ("height", height)):
            engine.type("Takeoff", place[key].row + row, place[key].col + 1, text)
    engine.evaluate()
    estimate = _from_yaml(tmp_path)
    assert estimate.rows["price"][0].total > 0
    assert differences(estimate, blank.layout, engine) == []


def test_the_same_in_hyperformula(books, tmp_path, hyperformula_here):
    """Sums typed into inputs are formulas that others rest on."""
    blank = books["blank"]
    engine = HyperFormula(blank.path)
    place = {key: blank.layout.places["takeoff", key] for key in ("system", "length", "height")}
    for row, (system, text, length, _, height) in enumerate(LINES):
        for key, value in (("system", system), ("length", text if text.startswith("=") else length), ("height", height)):
            engine.put("Takeoff", place[key].row + row, place[key].col + 1, value)
    engine.evaluate()
    assert differences(_from_yaml(tmp_path), blank.layout, engine) == []


def test_the_same_in_libreoffice(books, tmp_path, libreoffice_here):
    blank = books["blank"]
    place = {key: blank.layout.places["takeoff", key] for key in ("system", "length", "height")}
    lines = ['sheet = sheets.getByName("Takeoff")']
    for row, (system, length, _, height, _) in enumerate(LINES):
        for key, text in (("system", system), ("length", length), ("height", height)):
            lines.append(f'sheet.getCellByPosition({place[key].col}, {place[key].row - 1 + row}).setFormula("{text}")')
    saved = edited_in_libreoffice(blank.path, tmp_path / "typed.xlsx", lines)
    assert differences(_from_yaml(tmp_path), blank.layout, Values(saved)) == []


def test_a_row_inserted_in_takeoff_counts_in_the_price(books, tmp_path, libreoffice_here):
    book = books["boathouse"]
    place = {key: book.layout.places["takeoff", key] for key in ("system", "length", "height")}
    row = place["system"].row + 3                   # zero-based: below the fourth line
    saved = edited_in_libreoffice(book.path, tmp_path / "inserted.xlsx", [
        'sheet = sheets.getByName("Takeoff")', f"sheet.Rows.insertByIndex({row}, 1)",
        f'sheet.getCellByPosition({place["system"].col}, {row}).setString("Trim")',
        f'sheet.getCellByPosition({place["length"].col}, {row}).setValue(300)',
        f'sheet.getCellByPosition({place["height"].col}, {row}).setValue(1)'])
    values, units, settings = read(saved)
    assert len(values["takeoff"]) == len(book.opened.values["takeoff"]) + 1
    estimate = Estimate(values, units, book.opened.estimate.capacity)
    price = book.layout.places["price", "total"]
    shown = Values(saved).get("Price", price.row, price.col + 1)
    assert shown == estimate.units.to_cell(estimate.rows["price"][0].total, "money")
    assert shown > book.estimate.rows["price"][0].total


def test_a_cell_typed_below_the_rows_stops_the_price(books):
    """Nothing a person typed is left out silently."""
    book = books["shed"]
    engine = IronCalc(book.path)
    place, beyond = book.layout.places["takeoff", "length"], book.layout.places["checks", "beyond"]
    engine.type("Takeoff", place.row + place.rows, place.col + 1, "10")
    engine.evaluate()
    assert engine.get("Checks", beyond.row, 2) == 1 and engine.get("Checks", beyond.row, 3) == "fix"
    total = book.layout.places["price", "total"]
    assert engine.get("Price", total.row, 2) == ""


def test_build_of_read_is_byte_identical(books):
    for book in books.values():
        assert make(from_values(*read(book.path))) == book.data


def test_what_libreoffice_saves_reads_back_the_same(books, tmp_path, libreoffice_here):
    paths = libreoffice([books[name].path for name in ("boathouse", "corridor")], tmp_path)
    for name, path in zip(("boathouse", "corridor"), paths):
        assert make(from_values(*read(path))) == books[name].data
