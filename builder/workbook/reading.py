"""How the pages that people read look: roles of their cells, what a row turns into, and numbers as they are read."""

from math import ceil
from types import MappingProxyType

from builder.sheets.shown import STEPS, step
from builder.workbook import measured
from builder.workbook.palette import ALERT, ANSWER, BIG, DIGIT, ENTRY, HAIR, HEAD, INK, PADDING, PRICE, QUIET, RULE

# fmt: off
_LINED = {"valign": "vcenter", "bottom": 1, "bottom_color": HAIR}
ROLES = MappingProxyType({
    "read": {"valign": "vcenter"},
    "words": {"valign": "vcenter", "indent": 1},
    "words_small": {"valign": "vcenter", "indent": 1, "font_size": 9, "font_color": QUIET},
    "words_bold": {"valign": "vcenter", "bold": True, "indent": 1},
    "sum": {"bold": True, "bg_color": ANSWER, "valign": "vcenter", "top": 1, "top_color": HEAD},
    "paid": {"valign": "vcenter"}, "paid_line": {"valign": "top"},
    "answer_name": {"bg_color": ANSWER, "font_color": QUIET, "bold": True, "align": "right", "top": 2,
                    "top_color": HEAD},
    "answer_first": {"bg_color": ANSWER, "font_color": QUIET, "bold": True, "align": "left", "top": 2,
                     "top_color": HEAD},
    "answer": {"bg_color": ANSWER, "bold": True, "font_size": BIG, "align": "right", "valign": "vcenter"},
    "answer_price": {"bg_color": ANSWER, "bold": True, "font_size": PRICE, "font_color": HEAD, "align": "right",
                     "valign": "vcenter"},
    "answer_state": {"bg_color": ANSWER, "bold": True, "font_size": BIG, "align": "left", "valign": "vcenter"},
    "answer_more": {"bg_color": ANSWER, "font_color": QUIET, "bold": True, "align": "right", "bottom": 1,
                    "bottom_color": HEAD},
    "row": {"valign": "top"}, "row_first": {"valign": "top", "bold": True},
    "lined": _LINED, "lined_first": {**_LINED, "bold": True}, "lined_sum": {**_LINED, "bold": True, "bg_color": ANSWER},
    "choice": {"bg_color": ENTRY, "border": 1, "border_color": RULE, "locked": False, "bold": True,
               "valign": "vcenter"},
    "mark_name": {"valign": "top", "bold": True, "font_size": 10, "text_wrap": True},
    "mark": {"valign": "top", "align": "center", "font_size": 10, "text_wrap": True},
    "strip_title": {"bold": True, "font_size": 14, "align": "left"},
    "strip_work": {"bold": True, "font_size": 10.5},
    "strip_label": {"font_color": QUIET, "font_size": 9},
    "strip_figure": {"bold": True, "font_size": 22, "font_color": HEAD, "align": "left", "valign": "vcenter"},
    "strip_note": {"font_color": QUIET, "font_size": 8.5, "text_wrap": True, "valign": "top"},
    "strip_line": {"font_size": 9}, "strip_heading": {"font_size": 9, "bold": True}, "strip_small": {"font_size": 8.5},
})
# a strip's columns keep apart from the one before
ROLES = MappingProxyType({**ROLES, **{f"{role}_beside": {**look, "indent": 1} for role, look in ROLES.items()
                                      if role.startswith("strip_")}})
PAID = ("paid", "paid_line")
INDENTED = 14  # pixels of an indent and the edges of a cell
CALLS = MappingProxyType({
    "line": {"bottom": 1, "bottom_color": HAIR},
    "whole": {"bold": True, "bg_color": ANSWER, "top": 1, "top_color": HEAD},
    "beside": {"font_color": QUIET},
    "total": {"bold": True, "top": 1, "top_color": HEAD},
    "part": {"bold": True, "font_color": HEAD, "bottom": 1, "bottom_color": HEAD},
    "box": {"border": 1, "border_color": QUIET},
    "begins_strip": {"top": 1, "top_color": INK, "bg_color": ANSWER, "bold": True},
    "stopped": {"font_color": ALERT, "bold": True},
})
# fmt: on


def pattern(role, quantity, units):
    """Decimals that the steps of reading leave; of what is paid, those of the currency; no dash for nothing."""
    if quantity in ("text", "days"):
        return "General"
    if quantity == "share":
        return "0%"
    decimals = units.cents if role in PAID else 0 if quantity == "money" else units.decimals(quantity)
    if role not in PAID and quantity in STEPS:
        decimals = len(f"{step(quantity, units.system):g}".partition(".")[2])
    return "#,##0" + ("." + "0" * decimals if decimals else "")


def columns(sheet, widths):
    """Widths of the columns from A, in pixels; what stands in A stays in sight."""
    for col, width in enumerate(widths):
        sheet.set_column(col, col, (width - PADDING) / DIGIT)
    sheet.freeze_panes(3, 1)


def grown(least, texts, before=0):
    """Pixels of a column in which the longest of some texts is seen whole, `least` at least; `before`: pixels of the
    columns before it, over which they run.
    """
    longest = max((measured.width(text or "") for text in texts), default=0)
    return max(least, ceil(longest) + INDENTED - before)


def call(writer, sheet, area, *rules):
    """`rules`: (name of a call, formula of the first row) for the rows of an area, the first that holds before the
    others.
    """
    for name, formula in rules:
        sheet.conditional_format(
            *area, {"type": "formula", "criteria": f"={formula}", "format": writer.styles.call(name)}
        )


def parts(writer, block):
    """The rows of a list of the price by part: hair lines, the whole in bold, alternates in a softer ink."""
    first, money, share = (writer.layout.places[block, key] for key in ("name", "money", "share"))
    sheet, row, last = writer.sheets[first.sheet], first.row, first.row + first.rows - 1
    right = max(place.col for (key, _), place in writer.layout.places.items() if key == block)
    sheet.write_blank(row - 2, 1, None, writer.styles("head_list"))
    name, price, part = (f"${'ABCDEFGH'[place.col]}{row}" for place in (first, money, share))
    call(
        writer,
        sheet,
        (row - 1, 0, last - 1, right),
        ("whole", f'{name}="Price"'),
        ("beside", f"ISNUMBER({price})*(1-ISNUMBER({part}))=1"),
        ("line", f"LEN({name})>0"),
    )
