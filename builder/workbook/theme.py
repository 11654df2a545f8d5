"""How the book looks, by role. Colors are tested for contrast; none of them is the only signal of anything.

Ink on sand and straw, edged in bronze: an input is outlined, a header underlined, a fault bold and said in words.
"""

from types import MappingProxyType

FONT = "Arial"
INK, QUIET, RUST, PAPER = "#1F2A30", "#4A565C", "#7A2E1F", "#FFFFFF"
SAND, STRAW, EDGE, MOSS = "#E9E2D3", "#FFF9E8", "#7D6735", "#DDE8DF"
GROUP_TABS = MappingProxyType(
    {"enter": "#C08A2D", "read": "#1F4A43", "run": "#7C6A58", "keep": "#A9A194", "working": "#C8C3BA"}
)

_HEAD = {"bold": True, "bg_color": SAND, "text_wrap": True, "valign": "top", "bottom": 2, "bottom_color": EDGE}
ROLES = MappingProxyType(
    {
        "title": {"bold": True, "font_size": 15},
        "purpose": {"font_color": QUIET, "italic": True},
        "master": {"bold": True},
        "head": {**_HEAD, "align": "left", "indent": 1},
        "head_list": {**_HEAD, "align": "left"},
        "head_number": {**_HEAD, "align": "right"},  # over numbers, which stand to the right
        "number": {"font_color": QUIET, "font_size": 8, "align": "center"},
        "label": {"valign": "top"},
        "section": {"bold": True, "font_size": 12},
        "quiet": {"font_color": QUIET, "align": "left", "indent": 1, "valign": "top"},
        "link": {"font_color": INK, "underline": 1, "valign": "top"},
        "wrap": {"text_wrap": True, "valign": "top"},
        "input": {"bg_color": STRAW, "border": 1, "border_color": EDGE, "locked": False, "valign": "top"},
        "sample": {"bg_color": STRAW, "border": 1, "border_color": EDGE},  # what an input looks like, on Start
        "working": {"valign": "top"},
        # words among figures, which stand to the right
        "aside": {"valign": "top", "align": "right", "text_wrap": True},
        "either": {"valign": "top", "align": "center"},  # a number, or words in its place
        "letterhead": {"bold": True, "font_size": 16},  # the roles of the pages that are printed
        "price": {"bold": True, "font_size": 14},
        "named": {"bold": True, "valign": "top", "align": "left", "text_wrap": True},
        "prose": {"valign": "top", "align": "left", "text_wrap": True},
        "line": {"valign": "top", "align": "left"},
        "fact": {"valign": "top", "align": "left", "text_wrap": True, "bottom": 1, "bottom_color": EDGE},
        "first": {"bold": True, "valign": "top", "align": "left", "text_wrap": True, "bottom": 1, "bottom_color": EDGE},
        "sign": {"font_color": QUIET},
        # 1 shows as a word, 0 not at all
        "flag": {"bold": True, "font_color": RUST, "valign": "top", "align": "center", "num_format": '"fix";;'},
        "fault": {"bold": True, "font_color": RUST, "valign": "top", "text_wrap": True},
    }
)

ROLE_OF = MappingProxyType({"shown_fault": "fault", "shown": "either"})  # columns of their own role

# What a cell turns into when it calls for the eye; each of them says so in words or numbers too.
CALLS = MappingProxyType(
    {
        "look": {"bold": True, "font_color": RUST, "bg_color": SAND},  # a check that is not clear
        "pick": {"bold": True, "font_color": INK, "bg_color": MOSS, "border": 1, "border_color": EDGE},
        "fits": {"font_color": INK, "bg_color": STRAW},
        "signed": {"bottom": 1},
        "begins": {"top": 1, "top_color": EDGE},  # a line over the first row of a group
    }
)


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
            look = {"font_name": FONT, "font_size": 10, "font_color": INK, **ROLES[role]}
            if quantity == "text" and role in ("input", "working"):
                # text does not touch the number before it, and shows whole
                look |= {"align": "left", "indent": 1, "text_wrap": True}
            decimals = 0 if quantity == "figure" else self.units.decimals(quantity)
            pattern = number_format(quantity, decimals)
            if role not in ("input", "quiet") and quantity not in AS_TYPED:  # a limit of nothing is one
                pattern = quiet_zero(pattern)
            self.made[key] = self.book.add_format({"num_format": pattern, **look})
        return self.made[key]

    def call(self, name):
        """The format of a conditional format."""
        return self.made.setdefault(name, self.book.add_format(CALLS[name]))
