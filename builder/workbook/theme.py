"""How the book looks, by role. Colours are tested for contrast; none of them is the only signal of anything."""
from types import MappingProxyType

FONT = "Arial"
INK, QUIET, PAPER = "#1F2A30", "#4A565C", "#FFFFFF"
SAND, STRAW, EDGE = "#E9E2D3", "#FFF9E8", "#8A7440"
GROUP_TABS = MappingProxyType({"about": "#1F2A30", "input": "#8A7440", "working": "#9AA5AB", "check": "#7A2E1F", "catalogue": "#5F7A6B"})

ROLES = MappingProxyType({
    "title": {"bold": True, "font_size": 15},
    "purpose": {"font_color": QUIET, "italic": True},
    "master": {"bold": True},
    "head": {"bold": True, "bg_color": SAND, "text_wrap": True, "valign": "top", "bottom": 1},
    "number": {"font_color": QUIET, "font_size": 8},
    "label": {},
    "section": {"bold": True, "font_size": 12},
    "quiet": {"font_color": QUIET, "indent": 1},
    "wrap": {"text_wrap": True, "valign": "top"},
    "input": {"bg_color": STRAW, "border": 1, "border_color": EDGE, "locked": False},
    "working": {},
    "fault": {"bold": True, "font_color": "#7A2E1F"},
})


def number_format(quantity, decimals):
    """The fixed decimals of a quantity; text keeps what was typed."""
    if quantity == "text":
        return "General"
    if quantity == "date":
        return "yyyy-mm-dd"
    if quantity == "year":
        return "0"
    if quantity == "share":
        return "0.0%"
    if quantity == "number":
        return "0.###"
    return "#,##0" + ("." + "0" * decimals if decimals else "")


class Styles:
    """Formats by role and quantity, each made once."""

    def __init__(self, book, units):
        self.book, self.units, self.made = book, units, {}

    def __call__(self, role, quantity="text"):
        key = role, quantity
        if key not in self.made:
            look = {"font_name": FONT, "font_size": 10, "font_color": INK, **ROLES[role]}
            if quantity == "text" and role in ("input", "working"):
                look["indent"] = 1               # text does not touch the number before it
            self.made[key] = self.book.add_format({**look, "num_format": number_format(quantity, self.units.decimals(quantity))})
        return self.made[key]
