"""What the other side changed in a workbook, and what that did to the results."""
import warnings
from dataclasses import dataclass

from builder.problems import Problem, Refused
from builder.records.differ import differences
from builder.records.kinds import CATALOGS, JOBS
from builder.review.effects import effects, nozzles, results
from builder.review.inspect import inspect
from builder.seals import BOOK_SEAL
from builder.workbook.prepared import Prepared
from builder.workbook.theme import Styles
from builder.workbook.write import CREATED


@dataclass(frozen=True)
class Comparison:
    """Two workbooks of one job: results, nozzles, the Effect of each changed input and catalogue value, and what was touched in each book."""

    before: object
    after: object
    inputs: tuple
    catalogues: tuple
    touched: tuple             # (book, Finding)

    @property
    def differ(self):
        return bool(self.inputs or self.catalogues or self.touched)


def compare(one, other, catalogs):
    """Compare two Returned workbooks. Refused where their units or currencies differ."""
    if (one.units.system, one.units.currency) != (other.units.system, other.units.currency):
        raise Refused([Problem(other.name, 0, 0, f"it is in {other.units.system} units and {other.units.currency}, "
                               f"the other in {one.units.system} units and {one.units.currency}", "compare books of the same units")])
    looks = inspect(one, catalogs), inspect(other, catalogs)
    before, after = (look.taken.opened for look in looks)
    inputs, stock = (tuple(effects(before, differences(kinds, before.values, after.values))) for kinds in (JOBS, CATALOGS))
    touched = tuple((book.name, finding) for book, look in zip((one, other), looks) for finding in look.touched)
    return Comparison(before, after, inputs, stock, touched)


def _sections(found):
    """(title, header, rows) of every part of a comparison."""
    units = found.before.units
    yield "Results", ("What", "Before", "After", "Unit"), list(results(found.before, found.after)) + [(coat, old, new, "nozzle") for coat, old, new
                                                                                                 in nozzles(found.before, found.after)]
    for title, changes in (("Inputs changed", found.inputs), ("Catalogue values changed", found.catalogues)):
        yield title, ("What", f"Price, this alone ({units.currency})"), [
            (one.difference.words(units), "no price" if one.price is None else units.amount(one.price, "+")) for one in changes]
    yield "Touched by hand", ("Book", "What"), [(book, str(finding)) for book, finding in found.touched]


def report(found):
    """The lines that say a comparison in words."""
    for title, header, rows in _sections(found):
        yield f"{title}:"
        if not rows:
            yield "  none"
        for row in rows:
            if title == "Results":
                yield f"  {row[0]}: {row[1]} -> {row[2]} {row[3]}".rstrip()
            elif header[0] == "Book":
                yield f"  {row[0]}: {row[1]}"
            else:
                yield f"  {row[1]:>14}  {row[0]}"


def as_workbook(found, names):
    """The comparison as a workbook of one sheet a part, in bytes. names: of the two books."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        book = Prepared({"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False})
        book.set_properties({"created": CREATED, "comments": "Made by Wetfilm"})
        book.set_custom_property("builder", found.after.settings["builder"])
        book.set_custom_property("seal", BOOK_SEAL)
        styles = Styles(book, found.before.units)
        for title, header, rows in _sections(found):
            sheet = book.add_worksheet(title)
            sheet.write_string(0, 0, title, styles("title"))
            sheet.write_string(1, 0, f"Before: {names[0]}. After: {names[1]}.", styles("purpose"))
            for col, text in enumerate(header):
                sheet.write_string(3, col, text, styles("head"))
                sheet.set_column(col, col, 70 if text == "What" else 24)
            for line, row in enumerate(rows or [("none",)], start=4):
                for col, text in enumerate(row):
                    sheet.write_string(line, col, text, styles("wrap"))
            sheet.hide_gridlines(2)
            sheet.freeze_panes(4, 0)
            sheet.fit_to_pages(1, 0)
        return book.done()
