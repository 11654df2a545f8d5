"""The rules of a workbook that speak of its formulas, one test a rule."""

import re

from openpyxl.formula.translate import Translator
from openpyxl.utils import get_column_letter as letter
from openpyxl.utils import range_boundaries

from builder.records.kinds import KINDS
from builder.stages.sheet_list import SHEETS

TITLES = [sheet.title for sheet in SHEETS]

# Rule 12: longer than 250 characters once its names are written out, and why.
LONG = {
    "task_hours.by_rate": "one choice among eight bases",
    "task_hours.material": "one choice among eight bases",
    "price.chance_over": "one distribution",
    "price.chance_margin": "one distribution",
}
COUNTED = "filled"  # a term a field, each the same: the cells of a row are counted one by one
# a judging column is made from a field's rule, not written; long names of limits make it long
LONG_FLAGS = 330
NESTED = {"task_hours.area", "task_hours.edge"}  # an own figure, else the system's, else the whole job's
# Rule 15: rounding for its own sake happens where something is bought, priced, paid, put on a calendar or said in
# words.
ROUNDED = {
    "film.coats_needed",
    "picks.pays",
    "picks.worn_out",
    "sizes.buy",
    "lanes.hand_day",
    "lanes.hand_until",
    "lanes.later_lost",
    "work_days.hand",
    "work_days.rest",
    "run.day",
    "run.last",
    "machines.planned",
    "machines.rest",
    "machines.by_week",
    "machines.by_month",
    "machines.cost",
    "plan.start",
    "plan.took",
    "days.days",
    "days.visits",
    "days.finish",
    "days.promised",
    "progress.lasts",
    "progress.short",
    "week.days_to_go",
    "parts.price_from",
    "parts.price_to",
    "price.net",
    "price.tax",
    "price.deposit",
    "price.stage",
    "change_lines.worth",
    "bill_lines.reached",
    "bill_lines.due",
    "bill_lines.held",
    "bill_lines.before",
    "bill_lines.due_now",
    "bill_lines.ahead",
    "bill_lines.open",
    "purchases.larges",
    "purchases.middle_fit",
    "purchases.cost_none",
    "purchases.cost_fit",
    "purchases.cost_more",
    "purchases.small",
    "gallons.share_told",
    "brief.told_gallons",
    "brief.told_days",
    "brief.shown_price",
    "schedule.worth",
    "price.told_over",
    "price.told_margin",
    "crew_card.large_told",
    "crew_card.middle_told",
    "crew_card.small_told",
    "nozzles.fan",
    "nozzles.orifice",
}  # the last two read the digits of a size


READ = {sheet.title for sheet in SHEETS if sheet.group == "read"}
# figures to the step of a gauge, and those that a working keeps for a sheet that people read
SHOWN = (
    "daily.",
    "picks.gauge",
    "picks.stroke_",
    "picks.rival_percent",
    "ranking.percent",
    "worn.",
    "crew_card.",
    "path.",
)


def test_9_one_formula_a_column_and_one_a_row_of_a_card(book):
    found = {title: dict(book.formulas(title)) for title in TITLES}
    for name, place, _ in book.declared():
        formulas = found[place.sheet]
        if place.block.form == "strip":
            continue  # held by the comparison of every cell with the formula that belongs there
        for copy in range(place.cols if place.block.down else 0):
            lines = range(place.row, place.row + place.rows)
            column = {line: formulas[f"{letter(place.col + copy + 1)}{line}"] for line in lines}
            if place.column.pinned:
                column = {line: text.replace(f"${line}", "$own") for line, text in column.items()}
            assert len(set(column.values())) == 1, name
        if place.block.form == "card":
            first, *others = (f"{letter(place.col + 1 + across)}{place.row}" for across in range(place.cols))
            for other in others:
                assert Translator(f"={formulas[first]}", first).translate_formula(other) == f"={formulas[other]}", (
                    name,
                    other,
                )


def test_12_formulas_are_short_and_look_up_instead_of_nesting(book):
    for name, place, text in book.declared():
        flag = place.column.key.startswith("bad_")
        crossed = flag and place.column.key[4:] not in KINDS[place.block.key].field_of
        assert len(text) <= (LONG_FLAGS if flag or name in LONG else 250) or crossed or place.column.key == COUNTED, (
            name,
            len(text),
        )
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
    for name, place, text in book.declared():
        if re.search(r"\b(ROUND|ROUNDUP|ROUNDDOWN|INT|CEILING|FLOOR|MOD)\(", text):
            # a flag asks for whole numbers; weights are taken apart; what is said or shown to people is rounded for it
            column = place.column
            said = column.quantity == "text" or column.look or place.sheet in READ or name.startswith(SHOWN)
            assert name in ROUNDED or said or column.key.startswith(("bad_", "told")), name


def test_16_no_error_is_turned_into_a_figure(book):
    """IFERROR stands in judging columns alone, where its 1 means: wrong."""
    for name, place, text in book.declared():
        assert (
            "IFERROR(" not in text or place.column.key.startswith("bad_") and re.search(r",1\)+(\*1>0\)+)?$", text)
        ), name


def test_17_a_name_spans_its_whole_block_spare_rows_included(book):
    for (key, column), place in book.layout.places.items():
        area = book.names.get(f"{key}_{column}")
        if area and place.block.form == "table":
            left, top, right, bottom = range_boundaries(area.split("!")[1].replace("$", ""))
            assert (bottom - top + 1, right - left + 1) == (place.column.rows or book.layout.capacity[key], place.cols)
