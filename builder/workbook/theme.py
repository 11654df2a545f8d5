"""How the book looks, by role: five colors, none of them the only signal of anything, and the sizes of what is read.

A cell to type in is pale with a dotted rule under it, as on a paper form; results stand on white; red comes with
a word.
"""

from types import MappingProxyType

from builder.workbook import reading
from builder.workbook.palette import (
    ALERT,
    ANSWER,
    BIG,
    DOTTED,
    ENTRY,
    FONT,
    HAIR,
    HEAD,
    INK,
    PAPER,
    QUIET,
    RULE,
    SECTION,
    TEXT,
    THIN,
)

GROUP_TABS = MappingProxyType(
    {
        "enter": "#C08A2D",
        "read": "#1F4A43",
        "run": "#7C6A58",
        "week": "#7C6A58",
        "keep": "#A9A194",
        "working": "#CFC6B6",
    }
)
_HEAD = {"bold": True, "font_color": HEAD, "text_wrap": True, "valign": "bottom", "bottom": THIN, "bottom_color": HEAD}
_ROW = {"valign": "top", "bottom": THIN, "bottom_color": HAIR}
ROLES = MappingProxyType(
    {
        "title": {"bold": True, "font_color": HEAD, "font_size": BIG, "valign": "vcenter"},
        "title_long": {"bold": True, "font_color": HEAD, "font_size": SECTION, "valign": "vcenter"},
        "purpose": {"font_color": QUIET},
        "state": {"bold": True, "font_color": HEAD, "align": "left"},
        "banner": {"bold": True, "font_color": HEAD, "align": "left", "shrink": True},
        "master": {"bold": True},
        "head": {**_HEAD, "align": "left", "indent": 1},
        "head_first": {**_HEAD, "align": "left"},
        "head_list": {**_HEAD, "align": "left"},
        "head_number": {**_HEAD, "align": "right"},  # over numbers, which stand to the right
        "number": {"font_color": QUIET, "font_size": 8, "align": "center"},
        "label": {"valign": "top"},
        "section": {"bold": True, "font_color": HEAD, "font_size": SECTION, "valign": "bottom"},
        "quiet": {"font_color": QUIET, "align": "left", "indent": 1, "valign": "top"},
        "help": {"font_color": QUIET, "align": "left", "indent": 1, "valign": "top", "text_wrap": True},
        "link": {"font_color": HEAD, "underline": 1, "valign": "top"},
        "wrap": {"text_wrap": True, "valign": "top"},
        "input": {"bg_color": ENTRY, "bottom": DOTTED, "bottom_color": RULE, "locked": False, "valign": "top"},
        "sample": {"bg_color": ENTRY, "bottom": DOTTED, "bottom_color": RULE},  # what an input looks like, on Summary
        "working": _ROW,
        "plain": {"valign": "top"},
        # a result beside entries: open, so that its row can be deleted and sorted; what is typed over it is refused
        "result": {**_ROW, "locked": False},
        "open": {"locked": False},
        # words among figures, which stand to the right
        "aside": {**_ROW, "align": "right", "text_wrap": True},
        "either": {**_ROW, "align": "center"},  # a number, or words in its place
        "letterhead": {"bold": True, "font_size": BIG},  # the roles of the pages that are printed
        "price": {"bold": True, "font_size": BIG},
        "named": {"bold": True, "valign": "top", "align": "left", "text_wrap": True},
        "prose": {"valign": "top", "align": "left", "text_wrap": True},
        "line": {"valign": "top", "align": "left"},
        "fact": {**_ROW, "align": "left", "text_wrap": True},
        "first": {**_ROW, "bold": True, "align": "left", "text_wrap": True},
        "shrunk": {"valign": "top", "align": "left", "shrink": True},
        "sign": {"font_color": QUIET},
        # 1 shows as a word, 0 not at all
        "flag": {"bold": True, "font_color": ALERT, "valign": "top", "align": "center", "num_format": '"fix";;'},
        "fault": {**_ROW, "bold": True, "font_color": ALERT, "text_wrap": True, "locked": False},
        **reading.ROLES,
    }
)

ROLE_OF = MappingProxyType({"shown_fault": "fault", "shown": "either"})  # columns of their own role

# What a cell turns into when it calls for the eye; each of them says so in words or numbers too.
CALLS = MappingProxyType(
    {
        "look": {"bold": True, "font_color": ALERT, "bg_color": ANSWER},  # a check that is not clear
        "open": {"bold": True, "font_color": ALERT},  # a state that is not READY
        "ready": {"bold": True, "font_color": PAPER, "bg_color": HEAD},
        "signed": {"bottom": THIN},
        "begins": {"top": THIN, "top_color": RULE},  # a line over the first row of a group
        **reading.CALLS,
    }
)


WRAPPED = ("input", "working", "result", "row", "row_first", "lined", "lined_first", "lined_sum")
AS_TYPED = ("text", "figure", "date", "year")  # quantities that show as they are, nothing included


def number_format(quantity, decimals):
    """The fixed decimals of a quantity; text keeps what was typed, and so does a figure that has no unit."""
    if quantity in ("text", "figure"):
        return "General"
    if quantity == "date":
        return "yyyy-mm-dd"
    if quantity == "year":
        return "0"
    if quantity == "share":
        return "0.0%"
    return "#,##0" + ("." + "0" * decimals if decimals else "")


def quiet_zero(pattern):
    """The format with a dash for nothing: a sheet that waits for its inputs is not littered with 0.00."""
    return f'{pattern};-{pattern};"–"'


class Styles:
    """Formats by role and quantity, each made once."""

    def __init__(self, book, units):
        self.book, self.units, self.made = book, units, {}

    def __call__(self, role, quantity="text"):
        key = role, quantity
        if key not in self.made:
            look = {"font_name": FONT, "font_size": TEXT, "font_color": INK, **ROLES[role]}
            if quantity == "text" and role in WRAPPED:
                # text does not touch the number before it, and shows whole
                look |= {"align": "left", "indent": 1, "text_wrap": True}
            elif role == "input":
                look["align"] = "right"  # what is typed as text too: 18'6"
            decimals = 0 if quantity == "figure" else self.units.decimals(quantity)
            pattern = number_format(quantity, decimals)
            if role in reading.ROLES:
                pattern = reading.pattern(role, quantity, self.units)
            elif role not in ("input", "quiet") and quantity not in AS_TYPED:  # a limit of nothing is one
                pattern = quiet_zero(pattern)
            self.made[key] = self.book.add_format({"num_format": pattern, **look})
        return self.made[key]

    def call(self, name):
        """The format of a conditional format."""
        return self.made.setdefault(name, self.book.add_format(CALLS[name]))
