"""Summary: the words around its answers; below them key, cautions and the way to every sheet."""

from textwrap import wrap

from builder.records.sentences import BELOW, STEPS
from builder.sheets.grammar import SECTION
from builder.stages.sheet_list import SHEETS
from builder.stages.summary import ANSWERS, ASKED, BAND, PARTS_TOP, PLACES, QUESTION_PLACES, STEPS_ROW
from builder.workbook import reading
from builder.workbook.columns import folded_on
from builder.workbook.layout import short

PAGE = "Summary"
WIDTHS = (110, 200, 200, 152, 140, 140, 140)  # pixels
FOLDED = ("Bid", "Schedule")  # pages with something folded away, beside the tables that have
LETTERS = 150  # of a line of words below the answers
WAKES, WAKE_FROM = 220, 2  # letters of the names in one formula; the column of the first, beside the title
HEIGHTS = {BAND: 20, BAND + 1: 42, BAND + 2: 20}  # points


def summary(writer):
    """Under the answers: what is asked, three steps, the price by part, then what to know of the book."""
    sheet = writer.sheets[PAGE]
    reading.columns(sheet, WIDTHS)
    _wake(writer, sheet)
    _band(writer, sheet)
    for col in set(range(len(WIDTHS))).difference(QUESTION_PLACES):
        sheet.write_blank(ASKED - 2, col, None, writer.styles("head_list"))
    sheet.write_string(STEPS_ROW - 1, 0, "Three steps", writer.styles("section"))
    for col, title, words in STEPS:
        sheet.write_url(STEPS_ROW - 1, col, f"internal:'{title}'!A1", writer.styles("link"), words)
    sheet.write_string(PARTS_TOP - 3, 0, "Price by part", writer.styles("section"))
    reading.parts(writer, "summary_parts")
    row = _below(writer, sheet, PARTS_TOP - 1 + writer.layout.capacity["summary_parts"] + 1)
    _sheets(writer, sheet, row)
    sheet.set_portrait()


def wakes(layout):
    """(column from 0, formula) of the cells beside the title that look at all that is worked out."""
    names = ", ".join(name for name, _ in layout.worked() if name != f"worked_{short(PAGE)}")
    for col, line in enumerate(wrap(names, WAKES), start=WAKE_FROM):
        yield col, f'=REPT("",COUNT({line.rstrip(",").replace(" ", "")}))'


def _wake(writer, sheet):
    """Cells that show nothing and look at all that is worked out. LibreOffice 7.4 takes formulas that show nothing for
    not worked out yet, works out those on screen alone, and tells nothing that rests on the others of a change: what is
    typed or pasted first into a blank book would leave old figures, or #VALUE!. These are on screen as the book opens.
    """
    for col, formula in wakes(writer.layout):
        writer.formula(sheet, 0, col, formula, writer.styles("quiet"), "")


def _band(writer, sheet):
    """What each answer is, over it; the band runs on where there is none."""
    for row, height in HEIGHTS.items():
        sheet.set_row(row - 1, height)
    for col, (_, title, quantity, *_) in zip(PLACES, ANSWERS):
        role = "answer_name" if col else "answer_first"
        unit = writer.units.shown(quantity) if quantity in ("money", "volume") else ""
        sheet.write_string(BAND - 1, col, f"{title} ({unit})" if unit else title, writer.styles(role))
    for row, role in zip(HEIGHTS, ("answer_name", "answer", "answer_more")):
        for col in set(range(len(WIDTHS))).difference(PLACES):
            sheet.write_blank(row - 1, col, None, writer.styles(role))
    state = BAND, 0, BAND, 0
    reading.call(writer, sheet, state, ("stopped", f'($A{BAND + 1}<>"READY")*($A{BAND + 1}<>"SIGNED")'))


def _below(writer, sheet, row):
    """Lines of words from a row, zero-based; the row after them."""
    facts = {"folded": ", ".join((*folded_on(writer.layout), *FOLDED)), **writer.layout.capacity}
    for role, text in BELOW:
        for line in wrap(text.format(**facts), LETTERS) or ("",):
            if line:
                sheet.write_string(row, 0, line, writer.styles(role))
            row += 1
    return row + SECTION - 1


def _sheets(writer, sheet, row):
    """A link to each sheet in sight; workings are named, since a link to a hidden sheet leads nowhere."""
    sheet.write_string(row, 0, "Sheets", writer.styles("section"))
    for about in SHEETS[1:]:
        row += 1
        if about.title not in writer.shown:
            sheet.write_string(row, 0, about.title, writer.styles("label"))
        else:
            sheet.write_url(row, 0, f"internal:'{about.title}'!A1", writer.styles("link"), about.title)
        sheet.write_string(row, 2, about.purpose, writer.styles("quiet"))
