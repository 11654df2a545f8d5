"""The rules of a workbook that speak of its look, on the screen and on paper, one test a rule."""

import re
from math import ceil

import pytest
from support.files import MAIN
from support.glyphs import DIGIT, GLYPHS, LARGER, PIXELS, SEEN

from builder.stages.sheet_list import SHEETS
from builder.workbook.columns import folded, tables, width
from builder.workbook.layout import HEAD
from builder.workbook.palette import ALERT, ENTRY, INK, PAPER, ROW_HEIGHT, RULE
from builder.workbook.palette import HEAD as HEAD_COLOR
from builder.workbook.printed import PAGES
from builder.workbook.theme import CALLS, ROLES

TITLES = [sheet.title for sheet in SHEETS]

# --- look ---


def luminance(color):
    """WCAG 2.2, relative luminance of '#rrggbb'."""
    parts = (int(color[at : at + 2], 16) / 255 for at in (1, 3, 5))
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
    if look.get("bg_color") == ENTRY:
        edge = look.get("border_color", look.get("bottom_color", INK))
        assert min(contrast(edge, paper), contrast(edge, PAPER)) >= 3
    if "bg_color" in look or look.get("font_color") == ALERT:
        assert {"bold", "border", "bottom"} & set(look)


CHARTED = ("Price", "Picks", "Picks")


@pytest.mark.slow
def test_28_every_chart_has_a_title_axes_with_units_and_a_text_for_who_cannot_see_it(book):
    charts = [book.text(part) for part in book.matching("xl/charts/chart")]
    texts = [
        text
        for part in book.matching("xl/drawings/drawing")
        for text in re.findall(r'<xdr:cNvPr [^>]*descr="([^"]+)"', book.text(part))
    ]
    assert len(charts) == len(texts) == len(CHARTED) + book.estimate.rows["week"][0].signed and all(
        len(text) > 40 for text in texts
    )
    for chart in charts:
        titles = [
            "".join(re.findall(r"<a:t>([^<]*)</a:t>", title)) for title in re.findall(r"<c:title>.*?</c:title>", chart)
        ]
        assert titles[0].rstrip(")").count("?") == 1, titles  # a chart answers a question
        assert sum(bool(re.search(r"\([^)]+\)$", title)) for title in titles) >= 1, titles
        assert all(
            color in (INK[1:], RULE[1:], HEAD_COLOR[1:], "FFFFFF") or luminance(f"#{color}") < 0.9
            for color in re.findall(r'srgbClr val="(\w+)"', chart)
        )


INDENT = 9  # pixels of one step


def shown(value, pattern):
    """A number as its format shows it; of a format in parts the first is for what is more than nothing."""
    if pattern == "yyyy-mm-dd":
        return "2026-05-04"
    pattern = pattern.partition(";")[0]
    decimals = len(pattern.partition(".")[2].rstrip("%"))
    return (
        f"{value * 100:.{decimals}f}%"
        if pattern.endswith("%")
        else f"{value:{',' if ',' in pattern else ''}.{decimals}f}"
    )


@pytest.mark.slow
def test_29_no_number_is_wider_than_its_column(book):
    for sheet in book.book:
        widths = book.widths(sheet.title)
        for row in sheet.iter_rows(min_row=HEAD + 1):
            for cell in row:
                # General gives up digits, never shows ###
                if cell.data_type != "n" or cell.value is None or cell.number_format == "General":
                    continue
                room = widths[cell.column] * DIGIT
                need = sum(GLYPHS[sign] for sign in shown(cell.value, cell.number_format)) * PIXELS
                assert need + 6 <= room, (sheet.title, cell.coordinate, cell.value)


# Bold letters of Helvetica are at most a tenth wider than the others (Adobe's AFM, from memory).
BOLD = 1.1


@pytest.mark.parametrize("title", ["Takeoff", "Rooms", "Openings", "Tasks", "Kit", "Nozzles", "Checks"])
def test_29_a_row_and_the_words_that_say_what_to_fix_in_it_are_seen_on_a_laptop(book, title):
    widths, columns = book.widths(title), tables(book.layout)[title]
    last = {"Nozzles": "change", "Checks": "short"}.get(title, "shown_fault")
    end = max(col for col, stack in columns.items() for place, _ in stack if place.column.key == last)
    assert sum(widths[col + 1] * DIGIT for col in range(end + 1)) * LARGER <= SEEN


@pytest.mark.slow
def test_29_the_state_of_the_price_is_never_cut_and_shrinks_to_nine_points_at_most(book):
    for sheet in SHEETS:
        cell = book.book[sheet.title].cell(2, 1)
        need = sum(GLYPHS.get(sign, 778) for sign in "DRAFT: 10 OPEN") * PIXELS * BOLD
        assert cell.alignment.shrink_to_fit, sheet.title
        assert need * 9 / 11 <= book.widths(sheet.title)[1] * DIGIT, sheet.title


@pytest.mark.slow
def test_29_rows_are_high_enough_for_their_words(book):
    """14 points hold a line of an 11 point font; a line may break a word's length before its end."""
    cached = book.cached
    for title, columns in tables(book.layout).items():
        heights = {int(row.get("r")): float(row.get("ht", ROW_HEIGHT)) for row in book.sheets[title].iter(f"{MAIN}row")}
        widths = book.widths(title)
        for col, place in ((col, place) for col, stack in columns.items() for place, _ in stack):
            if place.column.quantity != "text" or folded(place.block, place.column):
                continue
            for row in range(place.row, place.row + place.rows):
                text = cached.get(title, row, col + 1) or ""
                need = sum(GLYPHS.get(sign, 556) for sign in str(text)) * PIXELS
                lines = ceil(need / (widths[col + 1] * DIGIT - INDENT))
                assert lines * 14 <= heights.get(row, ROW_HEIGHT) + 1, (title, row, text)


def test_29_workings_have_room_for_a_job_of_a_million_and_text_breaks_into_lines(book):
    for title, columns in tables(book.layout).items():
        for place in (place for stack in columns.values() for place, _ in stack):
            quantity, room = place.column.quantity, width(place.column) * DIGIT
            if quantity in ("money", "area", "volume", "length"):
                pattern = book.book[title].cell(place.row, place.col + 1).number_format
                assert (
                    sum(GLYPHS[sign] for sign in shown(1_000_000 if quantity == "money" else 100_000, pattern)) * PIXELS
                    + 6
                    <= room
                ), place.column.key
            elif quantity == "text" and place.rows > 1:
                assert book.book[title].cell(place.row, place.col + 1).alignment.wrap_text, (title, place.column.key)


def test_30_a_unit_has_one_number_of_decimals_dates_are_explicit_and_the_file_says_what_it_is(book):
    formats, read = {}, {sheet.title for sheet in SHEETS if sheet.group == "read"}
    for place in book.layout.places.values():
        if place.sheet in read:  # to the step to which people read it
            continue
        cell = book.book[place.sheet].cell(place.row, place.col + 1)
        word = place.block.form == "upright" and (
            place.column.quantity == "number" or place.column.key.startswith("bad_")
        )  # a flag shows as a word
        if place.column.quantity != "text" and not word and not place.column.look:  # a page rounds by its own steps
            formats.setdefault(place.column.quantity, set()).add(cell.number_format.partition(";")[0])
    assert {quantity: found for quantity, found in formats.items() if len(found) > 1} == {}
    assert formats["date"] == {"yyyy-mm-dd"} and "General" not in set.union(*formats.values())
    assert book.book.properties.title and book.book.properties.description


# --- paper ---


def test_31_paper_page_numbers_repeated_titles_and_print_areas(book):
    printed, repeated = book.reserved("Print_Area"), book.reserved("Print_Titles")
    for number, title in enumerate(TITLES):
        sheet = book.book[title]
        assert (
            sheet.page_setup.paperSize in (1, 9)
            and sheet.page_setup.orientation
            and (sheet.sheet_properties.pageSetUpPr.fitToPage or title == "Crew card" and sheet.page_setup.scale)
        ), title
        assert sheet.oddFooter.right.text == "Page &P of &N", title
        # what is handed on bears neither the sheet's name nor what is for the office
        if title not in (*PAGES, "Shopping"):
            # on a sheet of several tables the headers of the first would stand over the others
            heads = {place.row for place in book.layout.places.values()
                     if place.sheet == title and place.block.form in ("table", "list")}  # fmt: skip
            rows = f"$1:${HEAD if len(heads) < 2 else HEAD - 1}"
            assert sheet.oddFooter.left.text == "&A" and rows in repeated[number], title
        if title in tables(book.layout) or title in PAGES:
            assert number in printed, title
