"""The rules of a workbook that speak of its inputs and checks, one test a rule."""

import re

import pytest
from support.editing import small_book
from support.files import MAIN, cells_of

from builder.records.kinds import CATALOGS
from builder.records.questions import STATES
from builder.records.rules import Length
from builder.stages.checks import STATED
from builder.stages.gathered import OPEN
from builder.stages.sheet_list import SHEETS
from builder.workbook.theme import ROLES

TITLES = [sheet.title for sheet in SHEETS]

# --- inputs ---


def _input_cells(book):
    for (key, _), place in book.layout.places.items():
        if place.column.field:
            for row, col in cells_of(place):
                yield key, place, book.book[place.sheet].cell(row, col)


@pytest.mark.slow
def test_18_and_33_inputs_wear_their_own_style_and_are_unlocked_so_are_rows_of_tables_of_entries_all_else_is_locked_without_a_password(
    book,
):
    """Rows to the end of the widest table of their sheet: one with a locked cell in it cannot be deleted."""
    inputs = {(place.sheet, cell.row, cell.column) for _, place, cell in _input_cells(book)}
    rows = {
        (place.sheet, row)
        for place in book.layout.places.values()
        if place.block.entered and place.block.form == "table"
        for row, _ in cells_of(place)
    }
    inputs |= {(place.sheet, place.row, place.col + 1) for place in book.layout.places.values() if place.column.view}
    fill = ROLES["input"]["bg_color"][1:]
    for title in TITLES:
        sheet = book.book[title]
        assert sheet.protection.sheet and not sheet.protection.password and not sheet.protection.formatColumns, title
        for row in sheet.iter_rows():
            for cell in row:
                entered = (title, cell.row, cell.column) in inputs
                assert (entered or (title, cell.row) in rows) != cell.protection.locked, (title, cell.coordinate)
                styled = cell.fill.fill_type == "solid" and cell.fill.fgColor.rgb[2:] == fill
                assert styled == entered or title == "Summary" and str(cell.value) == "Type here", (
                    title,
                    cell.coordinate,
                )
                assert not (entered and cell.data_type == "f"), (title, cell.coordinate)


def test_19_every_input_has_label_unit_limits_prompt_and_alert_and_lists_point_at_ranges(book):
    checked = {}
    for sheet in book.book:
        for rule in sheet.data_validations.dataValidation:
            if rule.formula1 == "FALSE":  # of a result: nothing may be typed over it
                assert rule.type == "custom" and rule.errorTitle and rule.error
                continue
            assert (
                0 < len(rule.promptTitle) <= 32
                and 0 < len(rule.prompt) <= 255
                and 0 < len(rule.errorTitle) <= 32
                and 0 < len(rule.error) <= 255
            )
            assert rule.type != "list" or rule.formula1 in book.names, rule.formula1
            for area in rule.sqref.ranges:
                checked.update({(sheet.title, *cell): rule for row in area.rows for cell in row})
    for key, place, cell in _input_cells(book):
        rule, field = checked[place.sheet, cell.row, cell.column], place.column.field
        assert field.help and rule.prompt.startswith(field.help), field.key
        label = book.book[place.sheet].cell(
            book.layout.head(place.block) if place.block.form == "table" else cell.row,
            cell.column if place.block.form == "table" else cell.column - 1,
        )
        unit = book.estimate.units.shown(field.quantity)
        beside = (
            label.value
            if place.block.form == "table"
            else str(book.book[place.sheet].cell(cell.row, cell.column + 1).value)
        )
        assert label.value.startswith(field.title) and unit in beside, (key, field.key)
        limits = set(re.findall(r"(?:least|most)_\w+", f"{rule.formula1} {rule.formula2}"))
        numbers = ("custom",) if isinstance(field.rule, Length) else ("decimal", "whole", "date")
        assert hasattr(field.rule, "low") <= (
            rule.type in numbers and len(limits) == 2 and limits <= set(book.names)
        ), field.key


@pytest.mark.parametrize("kind", CATALOGS, ids=lambda kind: kind.key)
def test_20_every_catalog_value_carries_its_source_and_prices_their_date(book, kind):
    priced = [field for field in kind.fields if field.quantity.startswith("money") and "wage" not in field.key]
    rows = [row for row in book.estimate.rows[kind.key] if row.sound]
    if kind.key == "nozzles":
        # a size is its family's
        unsaid = [row.no for row in rows if not book.estimate.row("families", row.family_at).source]
    # Terms has its sources on the sheet Sources; a holiday is known by its name
    elif kind.key in ("terms", "holidays"):
        unsaid = []
    else:
        unsaid = [row.no for row in rows if not row.source]
    assert rows and not unsaid, f"{kind.key}: rows without a source: {unsaid}"
    undated = [row.no for row in rows if priced and "priced_on" in kind.field_of and not row.priced_on]
    assert not undated, f"{kind.key}: rows without the date of their price: {undated}"


def test_21_demo_data_says_that_it_is_invented(book):
    start = [str(cell.value) for cell in book.book["Summary"]["A"]]
    assert any("invented for the demo" in line for line in start)
    assert any("invented for the demo" in row.source for row in book.estimate.rows["coatings"] if row.source)


def test_22_names_have_an_underscore_are_absolute_and_no_cell_addresses(book):
    for name, area in book.names.items():
        assert "_" in name and not re.fullmatch(r"[A-Za-z]{1,3}\d{1,7}|[Rr]\d*[Cc]\d*", name), name
        assert re.fullmatch(r"'[^']+'!\$[A-Z]+\$\d+(:\$[A-Z]+\$\d+)?", area), name


# --- checks ---


def test_23_checks_tell_what_is_to_fix_and_to_answer_first_and_lead_to_its_sheet_and_every_sheet_says_the_state(book):
    cached, links, place = book.cached, book.links("Checks"), book.layout.places["check_lines", "state"]
    states = [cached.get("Checks", row, 1) for row in range(place.row, place.row + place.rows)]
    told = [state for state in states if state]
    assert told == sorted(told, key=STATES.index) and told.count("clear") == 1 and not any(states[len(told) :])
    open_ones = [row for row in book.estimate.rows["findings"] if row.state_no == OPEN]
    assert told.count("open") == len(open_ones) == book.estimate.checks.open
    stated = {getattr(one, "sheet", one.where) for one in STATED}
    in_sight = [title for title in TITLES if title in stated and book.book[title].sheet_state == "visible"]
    assert [f"'{title}'!A1" for title in in_sight] == list(links.values())
    for title in TITLES:
        assert [book.book[title][cell].value for cell in ("A2", "A3")] == ["=brief_state", "=brief_shown_price"]
        pane = book.sheets[title].find(f".//{MAIN}pane")
        assert pane is not None and int(float(pane.get("ySplit"))) >= 3, title


def test_23_nothing_says_that_all_is_well_while_a_question_is_open(book):
    """READY, and nothing else, says so; and only where no question is open. A signed book says that it is signed."""
    stops, still_open = book.estimate.checks.stops, book.estimate.checks.open
    state = "NO PRICE" if stops else f"DRAFT: {still_open:g} OPEN" if still_open else "READY"
    if book.estimate.job.signed_on is not None:
        state = "SIGNED"
    place = book.layout.places["brief", "state"]
    assert book.cached.get(place.sheet, place.row, 2) == state
    texts = [str(cell.value).lower() for sheet in book.book for row in sheet.iter_rows() for cell in row if cell.value]
    assert not [text for text in texts if "all checks" in text or "all clear" in text]


def test_24_the_tolerance_of_the_cross_sums_is_a_cell(book):
    for item in ("area_sum", "gallons_sum", "cost_sum"):
        assert "terms_tolerance" in book.layout.template(*_column(book, "checks", item))


def _column(book, key, column):
    place = book.layout.places[key, column]
    return place.block, place.column


@pytest.mark.slow
def test_25_a_sum_overwritten_by_hand_is_noticed_by_its_cross_sum(tmp_path):
    book = small_book("us", tmp_path)
    estimate, engine, places = book.estimate(), book.engine, book.layout.places
    for key, column, check in (
        ("systems", "measured", "area_sum"),
        ("purchases", "coats_need", "gallons_sum"),
        ("cost", "wages", "cost_sum"),
    ):
        place, told = places[key, column], places["checks", check]
        assert engine.get(told.sheet, told.row, 2) == 0, check
        row = place.row + next(number for number, one in enumerate(estimate.rows[key]) if getattr(one, column)) * (
            place.block.form == "table"
        )
        engine.put(place.sheet, row, place.col + 1, 12345.0)
        assert (engine.get(told.sheet, told.row, 2), estimate.checks.stops) == (1, 0), check


@pytest.mark.slow
def test_26_a_value_pasted_over_the_validation_is_counted(tmp_path):
    book = small_book("us", tmp_path)
    for key, column, value in (("takeoff", "length", "1,250"), ("coatings", "density", -1.0), ("job", "people", 1.5)):
        place, told = book.layout.places[key, column], book.layout.places["checks", f"faults_{key}"]
        assert book.engine.get(told.sheet, told.row, 2) == 0, key
        book.engine.put(place.sheet, place.row, place.col + 1, value)
        assert book.engine.get(told.sheet, told.row, 2) == 1, key
        assert book.engine.get("Checks", book.layout.places["check_lines", "state"].row, 1) == "to fix", key
