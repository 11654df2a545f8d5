"""Tables as a workbook of their own: a sheet a table, text alone."""

import warnings

from builder.seals import BOOK_SEAL
from builder.workbook.prepared import Prepared
from builder.workbook.theme import Styles
from builder.workbook.write import CREATED

HEADER, WIDE, NARROW = 3, 70, 24  # the row of the headers, from 0; widths of columns


def plain_book(units, builder):
    """A new workbook that holds no estimate, sealed, and its styles. builder: what makes it."""
    book = Prepared({"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False})
    book.set_properties({"created": CREATED, "comments": "Made by Wetfilm"})
    book.set_custom_property("builder", builder)
    book.set_custom_property("seal", BOOK_SEAL)
    return book, Styles(book, units)


def tables(sections, purpose, units, builder):
    """Bytes of a workbook. sections: (title, header, rows of texts); purpose: a line under every title; builder: what
    made it.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        book, styles = plain_book(units, builder)
        for title, header, rows in sections:
            sheet = book.add_worksheet(title)
            sheet.write_string(0, 0, title, styles("title"))
            sheet.write_string(1, 0, purpose, styles("purpose"))
            for col, text in enumerate(header):
                sheet.write_string(HEADER, col, text, styles("head"))
                sheet.set_column(col, col, WIDE if text == "What" else NARROW)
            for line, row in enumerate(rows or [("none",)], start=HEADER + 1):
                for col, text in enumerate(row):
                    sheet.write_string(line, col, text, styles("wrap"))
            sheet.hide_gridlines(2)
            sheet.freeze_panes(HEADER + 1, 0)
            sheet.fit_to_pages(1, 0)
        return book.done()
