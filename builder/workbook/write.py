"""Layout + estimate -> .xlsx. Every formula caches the model's value."""

import datetime
import warnings

from xlsxwriter.utility import xl_col_to_name as letters

from builder import seals
from builder.records.kinds import KINDS
from builder.records.questions import SIGNED
from builder.sheets.grammar import cell_value, heading
from builder.stages.sheet_list import in_sight
from builder.workbook import (
    answers,
    charts,
    checks_page,
    pages,
    paper,
    price_page,
    printed,
    progress_sheet,
    schedule_page,
    shopping_page,
    summary_page,
)
from builder.workbook.answers import LOOKS
from builder.workbook.braces import at_record
from builder.workbook.columns import folded_fact, set_columns
from builder.workbook.frame import frame
from builder.workbook.layout import HEAD, beside
from builder.workbook.palette import FONT, TEXT
from builder.workbook.prepared import Prepared
from builder.workbook.shared import CONTROLS
from builder.workbook.theme import ROLE_OF, Styles
from builder.workbook.validation import WORKED_OUT, choosing, validation

CREATED = datetime.datetime(2026, 1, 1)  # fixed, so that the same input gives the same bytes
BESIDE = {"label": "wrap", "unit": "quiet", "help": "help"}  # the roles of what stands beside a fact
# facts beside tables: one line each
FACTS = ("Schedule", "Schedule workings", "Sources", "Summary workings", "Shopping workings", "Price workings")


class WriteError(Exception):
    """The writing library refused something; a defect of this program."""


def _sure(result):
    """The library returns a negative number where it drops what it was given."""
    if result not in (0, None):
        raise WriteError(result)


def _role(block, column):
    """How the cell of an upright block looks."""
    if column.field:
        return "input"
    if column.key.startswith("bad_"):
        return "flag"
    if column.key.startswith("told_"):
        return "line"  # the last of its row: it runs on to the right
    return "line" if block.sheet in FACTS and column.quantity == "text" else "working"


class _Writer:
    def __init__(self, layout, estimate, book, paper_name, shown):
        self.layout, self.estimate, self.units, self.paper = layout, estimate, estimate.units, paper_name
        self.book, self.styles = book, Styles(book, estimate.units)
        self.sheets, self.shown = {}, shown

    def cell_value(self, row, column, copy):
        return cell_value(row, column, self.units, copy)

    def formula(self, sheet, row, col, formula, style, value):
        """A formula with what it comes to."""
        _sure(
            sheet.write_formula(
                row, col, formula, style, value.translate(CONTROLS) if isinstance(value, str) else value
            )
        )

    def put(self, sheet, row, col, value, style):
        """A value as it is: nothing is taken for a formula or a link."""
        if value == "":
            _sure(sheet.write_blank(row, col, None, style))
        elif isinstance(value, str):
            _sure(sheet.write_string(row, col, value, style))
        else:
            _sure(sheet.write_number(row, col, float(f"{value:.15g}"), style))

    def block(self, block):
        {
            "table": self.table,
            "card": self.card,
            "upright": self.upright,
            "page": self.page,
            "list": self.list,
            "strip": self.strip,
        }[block.form](block)

    def table(self, block):
        sheet, rows, top = self.sheets[block.sheet], self.estimate.rows[block.key], self.layout.head(block)
        if block.section:
            _sure(sheet.write_string(top - 2, 0, block.section, self.styles("section")))
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            head = "head_number" if column.quantity != "text" else "head" if place.col else "head_first"
            for copy in range(place.cols):
                col = place.col + copy
                if column.repeat:
                    _sure(sheet.write_number(top - 2, col, copy + 1, self.styles("number", "count")))
                _sure(sheet.write_string(top - 1, col, heading(column, self.units, copy), self.styles(head)))
                self.column(sheet, block, column, place, copy, rows[: place.rows])
            if block.entered:
                cell = f"{letters(place.col)}{place.row}"
                test = validation(KINDS[block.key], column.field, self.units, cell) if column.field else WORKED_OUT
                first, last = place.row - 1, place.row + place.rows - 2
                _sure(sheet.data_validation(first, place.col, last, place.col, test))

    def column(self, sheet, block, column, place, copy, rows):
        """One column of a table, from the first record down."""
        col = place.col + copy
        if column.formula:
            template = self.layout.template(block, column, copy)
            usual = ROLE_OF.get(column.key, "result" if block.entered else "working")
            style = self.styles(printed.role(block, column) if block.key in LOOKS else usual, column.quantity)
            values = [self.cell_value(row, column, copy) for row in rows]
            if column.pinned:
                for line, value in enumerate(values, start=place.row):
                    self.formula(sheet, line - 1, col, at_record(template, line, col), style, value)
            else:
                sheet.write_shared(place.row - 1, col, at_record(template, place.row, col)[1:], values, style)
            return
        style = self.styles("input" if column.field else "working", column.quantity)
        for row in rows:
            value = column.label(row.no) if column.label else self.cell_value(row, column, copy)
            self.put(sheet, place.row - 2 + row.no, col, value, style)

    def card(self, block):
        sheet, rows = self.sheets[block.sheet], self.estimate.rows[block.key]
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            label = self.styles("label")
            _sure(sheet.write_string(place.row - 1, beside(block, column)["label"], heading(column, self.units), label))
            style = self.styles("aside" if column.quantity == "text" else "working", column.quantity)
            if column.label:
                for row in rows:
                    self.put(sheet, place.row - 1, place.col + row.no - 1, column.label(row.no), style)
            else:
                formula = at_record(self.layout.template(block, column), place.row, place.col)[1:]
                sheet.write_shared(
                    place.row - 1,
                    place.col,
                    formula,
                    [self.cell_value(row, column, 0) for row in rows],
                    style,
                    across=True,
                )

    def upright(self, block):
        sheet, row = (
            self.sheets[block.sheet],
            self.estimate.rows[block.key][0] if block.key in self.estimate.rows else None,
        )
        if block.section:
            _sure(sheet.write_string(block.top - 2, 0, block.section, self.styles("section")))
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            line = place.row - 1
            if folded_fact(block, column):
                sheet.set_row(line, None, None, {"level": 1, "hidden": True})
            quantity = "figure" if column.quantity == "number" else column.quantity
            style = self.styles(_role(block, column), quantity)
            unit = column.note or self.units.shown(column.quantity)
            words = {"label": column.title, "unit": unit, "help": column.field and column.field.help}
            for what, col in beside(block, column).items():
                _sure(sheet.write_string(line, col, words[what], self.styles(BESIDE[what])))
            if column.field:
                entry = str(self.cell_value(row, column, 0)) if column.quantity == "text" else ""
                texts = (column.title, entry, "", column.field.help)
                for text, (_, room) in zip(texts, pages.UPRIGHT_HEADS.get(block.sheet, ())):
                    sheet.fit(line, text, room - 1)
            if column.formula:
                self.formula(
                    sheet, line, place.col, self.layout.template(block, column), style, self.cell_value(row, column, 0)
                )
            elif column.label is not None:
                self.put(
                    sheet,
                    line,
                    place.col,
                    self.units.to_cell(column.label, column.quantity),
                    self.styles("quiet", quantity),
                )
            else:
                self.put(sheet, line, place.col, self.cell_value(row, column, 0), style)
            if column.field:
                _sure(
                    sheet.data_validation(
                        line, place.col, line, place.col, validation(KINDS[block.key], column.field, self.units)
                    )
                )

    def page(self, block):
        """Lines of a page that is printed."""
        sheet, row = self.sheets[block.sheet], self.estimate.rows[block.key][0]
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            if column.view:
                self.put(sheet, place.row - 1, place.col, self.cell_value(row, column, 0), self.styles("choice"))
                cell = place.row - 1, place.col
                _sure(sheet.data_validation(*cell, *cell, choosing(column)))
                continue
            style = self.styles(printed.role(block, column), column.quantity)
            self.formula(
                sheet,
                place.row - 1,
                place.col,
                self.layout.template(block, column),
                style,
                self.cell_value(row, column, 0),
            )

    def list(self, block):
        """A table on a page that is printed."""
        sheet, rows = self.sheets[block.sheet], self.estimate.rows[block.key]
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            words = "head" if column.look.startswith("words") else "head_list"
            head = self.styles(words if column.quantity == "text" else "head_number")
            _sure(sheet.write_string(place.row - 2, place.col, heading(column, self.units), head))
            formula = at_record(self.layout.template(block, column), place.row, place.col)[1:]
            style = self.styles(printed.role(block, column), column.quantity)
            sheet.write_shared(
                place.row - 1, place.col, formula, [self.cell_value(row, column, 0) for row in rows], style
            )

    def strip(self, block):
        """A record in several rows of a page."""
        sheet, rows = self.sheets[block.sheet], self.estimate.rows[block.key]
        for column in block.columns:
            place = self.layout.places[block.key, column.key]
            template = self.layout.template(block, column)
            style = self.styles(printed.role(block, column), column.quantity)
            for record, row in enumerate(rows):
                line, value = place.line(record), self.cell_value(row, column, 0)
                self.formula(sheet, line - 1, place.col, at_record(template, line, place.col), style, value)

    def heads(self):
        """The headers of the sheets of cards and of facts, once each."""
        cards = [block.sheet for block in self.layout.blocks if block.form == "card"]
        for title, heads in {**pages.UPRIGHT_HEADS, **dict.fromkeys(cards, pages.CARD_HEADS)}.items():
            sheet, style = self.sheets[title], self.styles("head_number" if title in cards else "head")
            for col, (text, width) in enumerate(heads):
                _sure(sheet.write_string(HEAD - 1, col, text, style))
                sheet.set_column(col, col, width)
            sheet.set_portrait()
            sheet.freeze_panes(HEAD, 0)

    def names(self):
        for name, address in self.layout.names():
            _sure(self.book.define_name(name, address))


def _title(estimate):
    """Of the file; a signed one is not written over unasked (`seals`)."""
    begins = seals.SIGNED if estimate.rows["brief"][0].state == SIGNED else "Estimate: "
    return f"{begins}{estimate.job.name or 'blank'}"


def prepared(layout, estimate, settings, shown=None, cells_alone=False):
    """The workbook, to be `done`, which gives its bytes. settings: the facts of the book; shown: titles of the sheets
    that are not hidden, by default those that its job calls for; cells_alone: to be looked at, without what writes no
    cell.
    """
    estimate.rows["book"][0].set(**settings)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        book = Prepared({"default_format_properties": {"font_name": FONT, "font_size": TEXT}})
        book.set_properties({"created": CREATED, "title": _title(estimate), "comments": "Made by Wetfilm"})
        for key, value in settings.items():
            book.set_custom_property(key, str(value))
        book.set_custom_property("seal", seals.BOOK_SEAL)
        writer = _Writer(layout, estimate, book, settings["paper"], shown or in_sight(estimate))
        frame(writer)
        writer.heads()
        for block in layout.blocks:
            writer.block(block)
        if not cells_alone:
            paper.areas(writer, set_columns(writer))
        pages.sources(writer)
        summary_page.summary(writer)
        price_page.price(writer)
        shopping_page.shopping(writer)
        printed.bid(writer)
        printed.bill(writer)
        answers.nozzles(writer)
        answers.wear_budget(writer)
        answers.trace(writer)
        schedule_page.schedule(writer)
        progress_sheet.progress(writer)
        answers.crew_card(writer)
        paper.unprinted(writer)
        checks_page.checks(writer)
        if not cells_alone:
            charts.draw(writer)
            writer.names()
        return book
