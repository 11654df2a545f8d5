"""The rules of a workbook, one test a rule: what a partner, a printer, a screen reader and an auditor find in the file."""
import os
import re
import shutil
import subprocess
import sys
from math import ceil
from types import SimpleNamespace

import pytest
from conftest import ROOT
from editing import SETTINGS
from engines import IronCalc, Values, libreoffice
from files import MAIN, File
from hypothesis import HealthCheck, Phase, given, settings
from made_up import ROOM, jobs
from openpyxl.formula.translate import Translator
from openpyxl.utils import get_column_letter as letter
from openpyxl.utils import range_boundaries

from builder.jobs import open_job
from builder.quantities import Units
from builder.records.checklist import CLEAR, ITEMS
from builder.records.kinds import CATALOGS, KINDS
from builder.stages.estimate import Estimate
from builder.stages.order import SHEETS, blocks, capacities
from builder.workbook.columns import folded, tables, width
from builder.workbook.layout import HEAD, Layout
from builder.workbook.theme import CALLS, EDGE, INK, PAPER, ROLES, RUST
from builder.workbook.write import write

LARGE = "large"                # a job in yen, of millions, with names of 60 letters
DRAWN = ("drawn at random", "drawn at random in metric")
ALL = ("boathouse", "corridor", "blank", "blank in metric", LARGE, *DRAWN)
TITLES = [sheet.title for sheet in SHEETS]

# Rule 12: longer than 250 characters once its names are written out, and why.
LONG = {
    "task_hours.each_hours": "one choice among seven bases", "task_hours.material": "one choice among seven bases",
    "price.chance_over": "one distribution", "price.chance_margin": "one distribution", "fit.score": "one rule, with its guard",
}
COUNTED = "filled"             # a term a field, each the same: the cells of a row are counted one by one
LONG_FLAGS = 330               # a judging column is made from a field's rule, not written; long names of limits make it long
NESTED = {"task_hours.area", "task_hours.edge"}     # an own figure, else the system's, else the whole job's
# Rule 15: rounding for its own sake happens where something is bought, priced, paid, put on a calendar or said in words.
ROUNDED = {"access.days", "film.coats_needed", "picks.pays", "picks.worn_out", "sizes.buy", "days.worked", "days.clock_days", "days.drying_days",
           "days.visits", "days.finish", "picks.next_tenths", "price.net", "price.tax", "price.deposit", "price.stage", "purchases.larges", "purchases.middle_fit",
           "purchases.middle_more", "purchases.cost_none", "purchases.cost_fit", "purchases.cost_more", "purchases.small",
           "gallons.share_told", "brief.told_gallons", "brief.told_days", "price.told_over", "price.told_margin",
           "crew_card.thin", "crew_card.hand_first", "crew_card.hand",
           "crew_card.change", "crew_card.large_told", "crew_card.middle_told", "crew_card.small_told",
           "nozzles.fan", "nozzles.orifice"}       # the last two read the digits of a size


def _random_book(system, folder):
    """The last of a few jobs that hypothesis draws, as a book of small capacity."""
    drawn = []

    @settings(max_examples=4, deadline=None, derandomize=True, phases=(Phase.generate,), suppress_health_check=list(HealthCheck))
    @given(job=jobs(system))
    def draw(job):
        drawn.append(job)

    draw()
    values, units = drawn[-1]
    capacity = capacities(**ROOM)
    layout = Layout(blocks(units, capacity), capacity)
    estimate = Estimate(values, units, capacity)
    path = folder / f"drawn {system}.xlsx"
    path.write_bytes(write(layout, estimate, {**SETTINGS, "units": system, "currency": units.currency, "lines": float(ROOM["lines"])}))
    return SimpleNamespace(layout=layout, path=path, estimate=estimate)


def _large_book(folder):
    """The boathouse with prices 150 times its own and every system and coating of 60 letters."""
    opened = open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"])
    units = Units("us", "JPY", 150.0)
    longer = {row["name"]: f"{row['name']} with a name as long as it can be".ljust(60, "x")[:60]
              for key in ("systems", "coatings") for row in opened.values[key]}
    for block, rows in opened.values.items():
        named = ("name", "system", "coating") if block in ("systems", "coatings") else ("system", "coating")
        for row in rows:
            row.update({key: longer[value] for key, value in row.items() if key in named and value in longer})
    estimate = Estimate(opened.values, units, opened.estimate.capacity)
    assert estimate.rows["price"][0].total * 150 > 1e6 and estimate.checks.stops == 0
    layout = Layout(blocks(units, opened.estimate.capacity), opened.estimate.capacity)
    path = folder / "large.xlsx"
    path.write_bytes(write(layout, estimate, {**opened.settings, "currency": "JPY", "exchange": 150.0}))
    return SimpleNamespace(layout=layout, path=path, estimate=estimate)


@pytest.fixture(scope="session")
def files(books, tmp_path_factory):
    folder = tmp_path_factory.mktemp("drawn")
    made = {**{name: books[name] for name in ALL if name in books}, LARGE: _large_book(folder),
            **{name: _random_book(system, folder) for name, system in zip(DRAWN, ("us", "metric"))}}
    return {name: SimpleNamespace(file=File(book.path), layout=book.layout, estimate=book.estimate) for name, book in made.items()}


@pytest.fixture(params=ALL)
def book(request, files):
    return files[request.param]


def declared(layout):
    """(name, place, formula with names written out) of every column that works something out."""
    for (key, column), place in layout.places.items():
        if place.column.formula:
            yield f"{key}.{column}", place, layout.template(place.block, place.column)


def cells_of(place):
    """(row, column) from 1 of every cell of a column, fact or field."""
    block = place.block
    for down in range(place.rows if block.down else 1):
        for across in range(place.cols):
            yield place.row + down, place.col + across + 1


# --- structure ---

def test_1_sheets_stand_in_groups_from_left_to_right(book):
    groups = [sheet.group for sheet in SHEETS]
    assert book.file.titles == TITLES and groups == sorted(groups, key=["about", "input", "working", "page", "check", "catalog"].index)


def test_2_the_first_sheet_says_what_this_is_how_to_use_it_and_what_to_beware_of(book):
    text = "\n".join(str(cell.value) for row in book.file.book["Start"].iter_rows() for cell in row if cell.value is not None)
    for part in ("Estimate of a spray-painting job", "Where this estimate stands", "steps to an estimate", "Key", "Before anyone sprays",
                 "What to know of the figures", "This book",
                 "Fingerprint of the catalogs", "Builder", "Units", "Currency", "invented for the demo"):
        assert part in text
    assert {f"'{title}'!A1" for title in TITLES[1:]} <= set(book.file.links("Start").values())


def test_3_a_sheet_opens_with_its_title_and_a_table_has_one_row_of_unique_headers_without_gaps(book):
    for title in TITLES:
        assert book.file.book[title]["A1"].value == title
    for title, columns in tables(book.layout).items():
        heads = [book.file.book[title].cell(HEAD, col + 1).value for col, _, _ in columns]
        assert [col for col, _, _ in columns] == list(range(len(columns))), title
        assert all(heads) and len(set(heads)) == len(heads), title
        assert book.file.book[title].max_column == len(columns), title


def test_4_no_cell_is_merged(book):
    assert not any(sheet.merged_cells.ranges for sheet in book.file.book)


def test_5_nothing_is_hidden_but_the_folded_steps_that_the_first_sheet_names(book):
    assert all(sheet.sheet_state == "visible" for sheet in book.file.book)
    start = "\n".join(str(cell.value) for cell in book.file.book["Start"]["A"])
    for title in TITLES:
        hidden = [col for col in book.file.sheets[title].iter(f"{MAIN}col") if col.get("hidden")]
        assert all(col.get("outlineLevel") for col in hidden), title
        assert not hidden or title in re.search(r"Folded away[^\n]*", start)[0], title
        assert not any(row.get("hidden") for row in book.file.sheets[title].iter(f"{MAIN}row")), title


def test_6_no_macros_links_to_other_books_or_queries(book):
    assert not book.file.matching("vba|externalLink|connections|queryTable|customXml|activeX")
    assert "TargetMode" not in "".join(book.file.text(part) for part in book.file.matching("rels$"))


def test_7_and_16_no_circular_reference_and_no_error_value(book):
    assert "iterate" not in book.file.text("xl/workbook.xml")
    engine, cached = IronCalc(book.file.path), Values(book.file.path)
    for name, place, _ in declared(book.layout):
        for row, col in cells_of(place):
            found = engine.get(place.sheet, row, col), cached.get(place.sheet, row, col)
            assert not any(str(value).startswith("#") for value in found), (name, row, found)


def test_8_the_book_opens_on_the_first_sheet_and_none_is_empty(book):
    assert book.file.book.active.title == TITLES[0]
    assert all(sheet.max_row > 4 for sheet in book.file.book)


# --- formulas ---

def test_9_one_formula_a_column_and_one_a_row_of_a_card(book):
    found = {title: dict(book.file.formulas(title)) for title in TITLES}
    for name, place, _ in declared(book.layout):
        formulas = found[place.sheet]
        for copy in range(place.cols if place.block.down else 0):
            assert len({formulas[f"{letter(place.col + copy + 1)}{place.row + down}"] for down in range(place.rows)}) == 1, name
        if place.block.form == "card":
            first, *others = (f"{letter(place.col + 1 + across)}{place.row}" for across in range(place.cols))
            for other in others:
                assert Translator(f"={formulas[first]}", first).translate_formula(other) == f"={formulas[other]}", (name, other)


def test_12_formulas_are_short_and_look_up_instead_of_nesting(book):
    for name, place, text in declared(book.layout):
        flag = place.column.key.startswith("bad_")
        crossed = flag and place.column.key[4:] not in KINDS[place.block.key].field_of
        assert len(text) <= (LONG_FLAGS if flag or name in LONG else 250) or crossed or place.column.key == COUNTED, (name, len(text))
        guard = place.block.when if place.column.when is None else place.column.when
        assert _depth(text) - bool(guard) <= 1 or name in NESTED, name


def _depth(text):
    """How deep IF stands in IF."""
    deepest, calls = 0, []
    for token in re.finditer(r'"[^"]*"|([A-Z]*)\(|\)', text):
        if token[0] == ")":
            calls.pop()
        elif token[1] is not None:
            calls.append(token[1])
            deepest = max(deepest, calls.count("IF"))
    return deepest


def test_15_rounding_only_where_something_is_bought_priced_planned_or_said(book):
    for name, place, text in declared(book.layout):
        if re.search(r"\b(ROUND|ROUNDUP|ROUNDDOWN|INT|CEILING|FLOOR|MOD)\(", text):
            assert name in ROUNDED or place.column.key.startswith(("bad_", "told_")), name     # a flag asks for whole numbers; weights are taken apart


def test_16_no_error_is_turned_into_a_figure(book):
    """IFERROR stands in judging columns alone, where its 1 means: wrong."""
    for name, place, text in declared(book.layout):
        assert "IFERROR(" not in text or place.column.key.startswith("bad_") and re.search(r",1\)+(\*1>0\)+)?$", text), name


def test_17_a_name_spans_its_whole_block_spare_rows_included(book):
    for (key, column), place in book.layout.places.items():
        area = book.file.names.get(f"{key}_{column}")
        if area and place.block.form == "table":
            left, top, right, bottom = range_boundaries(area.split("!")[1].replace("$", ""))
            assert (bottom - top + 1, right - left + 1) == (place.column.rows or book.layout.capacity[key], place.cols)


# --- inputs ---

def _input_cells(book):
    for (key, _), place in book.layout.places.items():
        if place.column.field:
            for row, col in cells_of(place):
                yield key, place, book.file.book[place.sheet].cell(row, col)


def test_18_and_33_inputs_wear_their_own_style_and_are_unlocked_all_else_is_locked_without_a_password(book):
    inputs = {(place.sheet, cell.row, cell.column) for _, place, cell in _input_cells(book)}
    fill = ROLES["input"]["bg_color"][1:]
    for title in TITLES:
        sheet = book.file.book[title]
        assert sheet.protection.sheet and not sheet.protection.password and not sheet.protection.formatColumns, title
        for row in sheet.iter_rows():
            for cell in row:
                entered = (title, cell.row, cell.column) in inputs
                assert entered != cell.protection.locked, cell.coordinate
                styled = cell.fill.fill_type == "solid" and cell.fill.fgColor.rgb[2:] == fill
                assert styled == entered or title == "Start" and str(cell.value).startswith("Cells like this"), (title, cell.coordinate)
                assert not (entered and cell.data_type == "f"), (title, cell.coordinate)


def test_19_every_input_has_label_unit_limits_prompt_and_alert_and_lists_point_at_ranges(book):
    checked = {}
    for sheet in book.file.book:
        for rule in sheet.data_validations.dataValidation:
            assert 0 < len(rule.promptTitle) <= 32 and 0 < len(rule.prompt) <= 255 and 0 < len(rule.errorTitle) <= 32 and 0 < len(rule.error) <= 255
            assert rule.type != "list" or rule.formula1 in book.file.names, rule.formula1
            for area in rule.sqref.ranges:
                checked.update({(sheet.title, *cell): rule for row in area.rows for cell in row})
    for key, place, cell in _input_cells(book):
        rule, field = checked[place.sheet, cell.row, cell.column], place.column.field
        assert field.help and rule.prompt.startswith(field.help), field.key
        label = book.file.book[place.sheet].cell(HEAD if place.block.form == "table" else cell.row, cell.column if place.block.form == "table" else 1)
        unit = book.estimate.units.shown(field.quantity)
        beside = label.value if place.block.form == "table" else str(book.file.book[place.sheet].cell(cell.row, 3).value)
        assert label.value.startswith(field.title) and unit in beside, (key, field.key)
        assert hasattr(field.rule, "low") <= (rule.type in ("decimal", "whole", "date") and {rule.formula1, rule.formula2} <= set(book.file.names)), field.key


@pytest.mark.parametrize("kind", CATALOGS, ids=lambda kind: kind.key)
def test_20_every_catalog_value_carries_its_source_and_prices_their_date(files, kind):
    priced = [field for field in kind.fields if field.quantity.startswith("money") and "wage" not in field.key]
    for name in ("boathouse", "corridor", "blank"):
        rows = [row for row in files[name].estimate.rows[kind.key] if row.sound]
        if kind.key == "nozzles":
            assert all(files[name].estimate.row("families", row.family_at).source for row in rows)     # a size is its family's
        elif kind.key not in ("terms", "holidays"):                        # Terms has its sources on the sheet Sources; a holiday is known by its name
            assert rows and all(row.source for row in rows)
        assert not (priced and "priced_on" in kind.field_of) or all(row.priced_on for row in rows)


def test_21_demo_data_says_that_it_is_invented(book):
    start = [str(cell.value) for cell in book.file.book["Start"]["A"]]
    assert any("invented for the demo" in line for line in start)
    assert any("invented for the demo" in row.source for row in book.estimate.rows["coatings"] if row.source)


def test_22_names_have_an_underscore_are_absolute_and_no_cell_addresses(book):
    for name, area in book.file.names.items():
        assert "_" in name and not re.fullmatch(r"[A-Za-z]{1,3}\d{1,7}|[Rr]\d*[Cc]\d*", name), name
        assert re.fullmatch(r"'[^']+'!\$[A-Z]+\$\d+(:\$[A-Z]+\$\d+)?", area), name


# --- checks ---

def test_23_every_check_has_a_word_and_leads_to_its_sheet_and_the_master_check_is_frozen_on_every_sheet(book):
    cached, links = Values(book.file.path), book.file.links("Checks")
    for item in ITEMS:
        row = book.layout.places["checks", item.key].row
        assert (cached.get("Checks", row, 1), cached.get("Checks", row, 3) == CLEAR) == (item.words, cached.get("Checks", row, 2) == 0)
        assert item.where == "Checks" or links[f"D{row}"] == f"'{item.where}'!A1"
    for title in TITLES:
        assert book.file.book[title]["A2"].value == "=brief_words"
        pane = book.file.sheets[title].find(f".//{MAIN}pane")
        assert title == "Start" or pane is not None and int(float(pane.get("ySplit"))) >= 2, title


def test_24_the_tolerance_of_the_cross_sums_is_a_cell(book):
    for item in ("area_sum", "gallons_sum", "cost_sum"):
        assert "terms_tolerance" in book.layout.template(*_column(book, "checks", item))


def _column(book, key, column):
    place = book.layout.places[key, column]
    return place.block, place.column


@pytest.mark.parametrize("key, column, check", [("systems", "measured", "area_sum"), ("purchases", "coats_need", "gallons_sum"), ("cost", "wages", "cost_sum")])
def test_25_a_sum_overwritten_by_hand_is_noticed_by_its_cross_sum(files, key, column, check):
    book = files["boathouse"]
    engine, place, told = IronCalc(book.file.path), book.layout.places[key, column], book.layout.places["checks", check]
    row = place.row + next(number for number, one in enumerate(book.estimate.rows[key]) if getattr(one, column)) * (place.block.form == "table")
    engine.put(place.sheet, row, place.col + 1, 12345.0)
    engine.evaluate()
    assert engine.get("Checks", told.row, 2) == 1 and engine.get("Checks", told.row, 3) == "review"


def test_26_a_value_pasted_over_the_validation_is_counted(files):
    book = files["boathouse"]
    for key, column, value in (("takeoff", "length", "12,5"), ("coatings", "density", -1.0), ("job", "people", 1.5)):
        engine, place, told = IronCalc(book.file.path), book.layout.places[key, column], book.layout.places["checks", f"faults_{key}"]
        engine.put(place.sheet, place.row, place.col + 1, value)
        engine.evaluate()
        assert engine.get("Checks", told.row, 2) == 1 and engine.get("Checks", told.row, 3) == "fix", key


# --- look ---

def luminance(color):
    """WCAG 2.2, relative luminance of '#rrggbb'."""
    parts = (int(color[at:at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_is_that_of_wcag():
    """WCAG 2.2: black on white is 21; #767676 on white is the well-known lightest gray at 4.5 (W3C, G18)."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21) and 4.5 <= contrast("#767676", "#FFFFFF") < 4.6


@pytest.mark.parametrize("look", [*ROLES.values(), *CALLS.values()], ids=[*ROLES, *CALLS])
def test_27_text_stands_out_and_color_is_never_the_only_signal(look):
    paper = look.get("bg_color", PAPER)
    assert contrast(look.get("font_color", INK), paper) >= 4.5
    if "border" in look:
        assert min(contrast(look["border_color"], paper), contrast(look["border_color"], PAPER)) >= 3
    if "bg_color" in look or look.get("font_color") == RUST:
        assert {"bold", "border"} & set(look) or look is CALLS["fits"]     # a number among words says by itself that the size fits


CHARTED = ("Risk", "Price", "Picks", "Picks")


def test_28_every_chart_has_a_title_axes_with_units_and_a_text_for_who_cannot_see_it(book):
    charts = [book.file.text(part) for part in book.file.matching("xl/charts/chart")]
    texts = [text for part in book.file.matching("xl/drawings/drawing") for text in re.findall(r'<xdr:cNvPr [^>]*descr="([^"]+)"', book.file.text(part))]
    assert len(charts) == len(texts) == len(CHARTED) and all(len(text) > 40 for text in texts)
    for chart in charts:
        titles = ["".join(re.findall(r"<a:t>([^<]*)</a:t>", title)) for title in re.findall(r"<c:title>.*?</c:title>", chart)]
        assert titles[0].rstrip(")").count("?") == 1, titles                        # a chart answers a question
        assert sum(bool(re.search(r"\([^)]+\)$", title)) for title in titles[1:]) >= 1, titles
        assert all(color in (INK[1:], EDGE[1:], "FFFFFF") or luminance(f"#{color}") < 0.9 for color in re.findall(r'srgbClr val="(\w+)"', chart))


# Widths of Helvetica, to which Arial is metrically equal, in thousandths of the font's size (Adobe's AFM of Helvetica, from memory).
GLYPHS = {**dict.fromkeys("0123456789abdeghnopquL", 556), **dict.fromkeys("fIt,. /:;", 278), **dict.fromkeys("ckvxyzsJ", 500), **dict.fromkeys("ijl", 222),
          **dict.fromkeys("-r()", 333), **dict.fromkeys("ABEKPSVXY", 667), **dict.fromkeys("CDHNRUw", 722), **dict.fromkeys("GOQ", 778),
          **dict.fromkeys("FTZ", 611), "m": 833, "M": 833, "W": 944, "%": 889, "+": 584}
PIXELS = 10 * 96 / 72 / 1000      # of a 10 point font
INDENT = 9                        # pixels of one step


def shown(value, pattern):
    """A number as its format shows it; of a format in parts the first is for what is more than nothing."""
    if pattern == "yyyy-mm-dd":
        return "2026-05-04"
    pattern = pattern.partition(";")[0]
    decimals = len(pattern.partition(".")[2].rstrip("%"))
    return f"{value * 100:.{decimals}f}%" if pattern.endswith("%") else f"{value:{',' if ',' in pattern else ''}.{decimals}f}"


def test_29_no_number_is_wider_than_its_column(book):
    for sheet in book.file.book:
        widths = book.file.widths(sheet.title)
        for row in sheet.iter_rows(min_row=HEAD + 1):
            for cell in row:
                if cell.data_type != "n" or cell.value is None or cell.number_format == "General":      # General gives up digits, never shows ###
                    continue
                room = widths[cell.column] * 7
                need = sum(GLYPHS[sign] for sign in shown(cell.value, cell.number_format)) * PIXELS
                assert need + 6 <= room, (sheet.title, cell.coordinate, cell.value)


def test_29_rows_are_high_enough_for_their_words(book):
    """12.75 points hold a line of a 10 point font; a line may break a word's length before its end."""
    cached = Values(book.file.path)
    for title, columns in tables(book.layout).items():
        heights = {int(row.get("r")): float(row.get("ht", 15)) for row in book.file.sheets[title].iter(f"{MAIN}row")}
        widths = book.file.widths(title)
        for col, place, _ in columns:
            if place.column.quantity != "text" or folded(place.block, place.column):
                continue
            for row in range(place.row, place.row + place.rows):
                text = cached.get(title, row, col + 1) or ""
                need = sum(GLYPHS.get(sign, 556) for sign in str(text)) * PIXELS
                assert ceil(need / (widths[col + 1] * 7 - INDENT)) * 12.75 <= heights[row] + 1, (title, row, text)


def test_29_workings_have_room_for_a_job_of_a_million_and_text_breaks_into_lines(book):
    for title, columns in tables(book.layout).items():
        for _, place, _ in columns:
            quantity, room = place.column.quantity, width(place.column) * 7
            if quantity in ("money", "area", "volume", "length"):
                pattern = book.file.book[title].cell(HEAD + 1, place.col + 1).number_format
                assert sum(GLYPHS[sign] for sign in shown(1_000_000 if quantity == "money" else 100_000, pattern)) * PIXELS + 6 <= room, place.column.key
            elif quantity == "text":
                assert book.file.book[title].cell(HEAD + 1, place.col + 1).alignment.wrap_text, (title, place.column.key)


def test_30_a_unit_has_one_number_of_decimals_dates_are_explicit_and_the_file_says_what_it_is(book):
    formats = {}
    for place in book.layout.places.values():
        cell = book.file.book[place.sheet].cell(place.row, place.col + 1)
        word = place.block.form == "upright" and (place.column.quantity == "number" or place.column.key.startswith("bad_"))     # a flag shows as a word
        if place.column.quantity != "text" and not word:
            formats.setdefault(place.column.quantity, set()).add(cell.number_format.partition(";")[0])
    assert {quantity: found for quantity, found in formats.items() if len(found) > 1} == {}
    assert formats["date"] == {"yyyy-mm-dd"} and "General" not in set.union(*formats.values())
    assert book.file.book.properties.title and book.file.book.properties.description


# --- paper ---

def test_31_paper_page_numbers_repeated_titles_and_print_areas(book):
    printed, repeated = book.file.reserved("Print_Area"), book.file.reserved("Print_Titles")
    for number, title in enumerate(TITLES):
        sheet = book.file.book[title]
        assert sheet.page_setup.paperSize in (1, 9) and sheet.page_setup.orientation and sheet.sheet_properties.pageSetUpPr.fitToPage, title
        assert sheet.oddFooter.right.text == "Page &P of &N", title
        if SHEETS[number].group != "page":                  # what is handed on bears neither the sheet's name nor what is for the office
            assert sheet.oddFooter.left.text == "&A" and f"$1:${HEAD}" in repeated[number], title
        if title in tables(book.layout) or SHEETS[number].group == "page":
            assert number in printed, title


# --- file ---

@pytest.fixture(scope="session")
def saved_elsewhere(files, tmp_path_factory, libreoffice_here):
    paths = libreoffice([book.file.path for book in files.values()], tmp_path_factory.mktemp("saved"))
    return dict(zip(files, map(File, paths)))


@pytest.mark.parametrize("name", ALL)
def test_36_every_name_still_points_at_its_cells_after_a_save_by_another_program(files, saved_elsewhere, name):
    ours, theirs = files[name].file, saved_elsewhere[name]
    assert set(ours.names) <= set(theirs.names)
    plain = {key: area.replace("$'", "'").replace("'", "").replace("$", "") for key, area in theirs.names.items()}
    for key, area in ours.names.items():
        assert plain[key] == area.replace("'", "").replace("$", ""), key


def test_the_file_is_valid_office_open_xml(files):
    """openxml-audit, against the schemas of Office 2013."""
    if not shutil.which("openxml-audit", path=f"{os.path.dirname(sys.executable)}{os.pathsep}{os.environ['PATH']}"):
        if os.environ.get("CI"):
            pytest.fail("openxml-audit is missing; the extra `test` installs it")
        pytest.skip("openxml-audit is not installed: pip install -e '.[test]'")
    for book in files.values():
        told = subprocess.run([sys.executable, "-m", "openxml_audit", "-f", "office2013", str(book.file.path)], capture_output=True, text=True)
        assert told.returncode == 0, told.stdout + told.stderr
