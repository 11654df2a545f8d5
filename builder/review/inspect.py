"""A look at a returned workbook: what in it is not as it was made, what stops its price, and whether its figures are up to date."""
import io
from collections import defaultdict
from dataclasses import dataclass
from textwrap import shorten

from openpyxl.utils.cell import get_column_letter

from builder.jobs import BUILDER, fingerprint, from_values
from builder.records.checklist import ITEMS
from builder.records.kinds import CATALOGS, KINDS
from builder.records.versions import SCHEMA
from builder.review.differ import LONGEST, differences
from builder.review.findings import Finding
from builder.review.taken import Taken, taken
from builder.rules import is_number, to_date
from builder.sheets.grammar import cell_value, heading
from builder.workbook.cells import loaded
from builder.workbook.located import Located
from builder.workbook.make import make
from builder.workbook.read import plain

CLOSE = 1e-8                   # of a cached value, which is written with ten digits
TOUCHED = ("start", "formula", "name", "sheet", "own sheet", "row above", "row below", "beside", "cell", "formula without a value", "fault", "understood")


@dataclass(frozen=True)
class Inspection:
    """What a look at a workbook found: the facts of its making in words, and a Finding for each thing that is not as it was made."""

    facts: tuple
    findings: tuple
    taken: Taken

    @property
    def touched(self):
        """The findings that tell what a person did in the book and may miss in a job that is made of it."""
        return tuple(finding for finding in self.findings if finding.kind in TOUCHED)


def inspect(back, catalogs):
    """Look at a Returned workbook; `catalogs` are the folders in force."""
    one = taken(back)
    found, located = list(one.findings), Located(back)
    if located.same_form:
        found += _names(located)
        broken = list(_formulas(back, located))
        raw = from_values(back.values, back.units, back.settings)            # as it stands, whatever a person may have meant
        found += broken + list(_beside(back, located, raw))
        if not (broken or located.gone or back.strays):
            found += _stale(back, located, raw.estimate)
    elif back.settings["schema"] == SCHEMA and back.settings["builder"] == BUILDER:
        found.append(Finding("start", "Start", "", "units, currency or room were changed there, or another build of the same version made the book"))
    found += _catalogues(back, one)
    found += _checks(one)
    return Inspection(tuple(_facts(back, one, catalogs, located.same_form)), tuple(found), one)


def _facts(back, one, catalogs, same_form):
    settings = back.settings
    here = "those in force here" if settings["catalogues"] == fingerprint(catalogs) else "not those in force here"
    priced = [row["priced_on"] for kind in CATALOGS for row in one.opened.values[kind.key] if is_number(row.get("priced_on"))]
    date = one.opened.estimate.job.date
    age = f", newest price of {to_date(max(priced))}" if priced else ""
    if priced and is_number(date):
        age += f", {date - max(priced):g} days before the estimate" if date >= max(priced) else ", after the date of the estimate"
    yield f"made by {settings['builder']}, schema {settings['schema']:g}, on catalogues {settings['catalogues']}, {here}{age}"
    if not same_form:
        yield "made by another version of wetfilm: whether formulas were typed over cannot be told; 'wetfilm reissue' makes it anew"
    yield f"its inputs give: {one.opened.summary()}"
    shown, price = back.saved_price(), one.opened.price()
    if not _alike(shown, price):
        yield f"the file itself shows {f'the price {back.units.amount(shown)}' if is_number(shown) else 'no price'}"


def _alike(one, other):
    """Whether a saved value is the one worked out."""
    if is_number(one) and is_number(other):
        return abs(one - other) <= CLOSE * max(abs(one), abs(other)) + 1e-12
    return one == other


def _names(located):
    """Sheets and names that were deleted; single inputs that were cut and pasted."""
    for title in [title for title, now in located.sheets.items() if now is None]:
        yield Finding("sheet", title, "", "the sheet was deleted")
    places = {"_".join(key): place for key, place in located.places.items()}
    for name in located.gone:
        place = places.get(name)
        if place is None or located.sheets[place.sheet]:
            what = f"{place.column.title} on the sheet {place.sheet}" if place else f"the name {name}"
            yield Finding("name", "", "", f"{what} was deleted, or its name points at nothing: what uses it shows an error")
    for place, area in located.pasted:
        yield Finding("moved", area.sheet, area.cell(), f"{place.column.title} was cut and pasted here from the sheet {place.sheet}; it still counts")


def _same(one, other):
    return isinstance(one, str) and "".join(one.split()).casefold() == "".join(other.split()).casefold()


def _formulas(back, located):
    """Formulas overwritten or cleared, runs of neighbours in a column as one. A row that was inserted has none, and needs none."""
    book = back.formulas
    blocks = defaultdict(list)
    for key, place in located.places.items():
        if place.column.formula and located.sheets[place.sheet]:
            blocks[place.block.key, place.block.place, place.sheet].append((key, place))
    for places in blocks.values():
        sheet = book[located.sheets[places[0][1].sheet]]
        wrong, rows = [], defaultdict(list)
        for key, place in places:
            for _, copy, row, col, formula in located.formulas(key, place):
                found = sheet.cell(row, col).value
                found = getattr(found, "text", found)
                rows[row].append(found)
                if not _same(found, formula):
                    wrong.append((col, row, heading(place.column, located.units, copy), found, formula))
        inserted = {row for row, found in rows.items() if places[0][1].block.form == "table" and all(value is None for value in found)}
        yield from _told(sheet.title, [one for one in wrong if one[1] not in inserted])


def _told(sheet, wrong):
    """A Finding for each run of (column, row, title, what stands there, formula) down a column."""
    runs = []
    for one in sorted(wrong, key=lambda one: one[:2]):
        if runs and one[0] == runs[-1][-1][0] and one[1] == runs[-1][-1][1] + 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    for (col, row, title, found, formula), *others in runs:
        letters = get_column_letter(col)
        cell = f"{letters}{row}" + (f":{letters}{others[-1][1]}" if others else "")
        stands = "nothing stands" if found is None else f"{found} stands"
        yield Finding("formula", sheet, cell, f"{title}: {stands} where a formula belongs", f"it should be {formula}")


def _beside(back, located, raw):
    """What was typed where nothing is read: beside and far below the tables, on other sheets of ours, on sheets of a person's own."""
    made = loaded(io.BytesIO(make(raw)))
    told = {(stray.sheet, cell) for stray in back.strays for cell in stray.cells.values()}
    for title, now in located.sheets.items():
        if now is None:
            continue
        rows, cols = located.rows[title], located.cols[title]
        ours = {(rows.now(row), cols.now(col)) for (row, col), cell in made[title]._cells.items() if plain(cell.value) is not None}
        for place in located.places.values():
            if place.sheet == title:
                top = located.numbers(title) if place.block.form == "table" else place.row
                ours |= {(row, place.col + 1 + copy) for row in range(top, place.row + place.rows) for copy in range(place.cols)}
        for (row, col), cell in sorted(back.book[now]._cells.items()):       # those that are there; walking rows and columns would visit all between
            if plain(cell.value) is not None and (row, col) not in ours and (now, cell.coordinate) not in told:
                yield Finding("beside", now, cell.coordinate, f"'{shorten(str(cell.value), LONGEST, placeholder=' …')}' is typed where nothing is read")
    for title in back.book.sheetnames:
        if title not in located.sheets.values() and back.book[title]._cells:
            yield Finding("own sheet", title, "", "the sheet is not one of this book's", "it is not carried over")


def _stale(back, located, estimate):
    """Whether the values saved in the book are those of its inputs; the price first."""
    differ = []
    for key, place in located.places.items():
        block = key[0]
        if not place.column.formula or len(estimate.rows[block]) < place.rows:
            continue
        sheet = back.book[located.sheets[place.sheet]]
        judged = block in KINDS and not KINDS[block].upright and back.area(block, KINDS[block].fields[0].key)
        for record, copy, row, col, _ in located.formulas(key, place):
            if judged and record > judged.bottom - judged.top + 1:
                continue                       # rows of the table were deleted: nothing is judged there
            want = cell_value(estimate.rows[block][record - 1], place.column, back.units, copy)
            saved = plain(sheet.cell(row, col).value)
            saved = "" if saved is None else saved
            if not _alike(saved, want):
                differ.append((block != "price", sheet.title, f"{get_column_letter(col)}{row}", heading(place.column, back.units, copy), saved, want))
    if differ:
        _, sheet, cell, title, saved, want = min(differ, key=lambda one: one[0])
        shows, gives = ("a blank" if value == "" else f"{value:.10g}" if is_number(value) else value for value in (saved, want))
        yield Finding("stale", sheet, cell, f"{title}: the file shows {shows}, its inputs give {gives}; {len(differ)} such cells",
                      "open the workbook in a spreadsheet program, let it recalculate, and save")


def _catalogues(back, one):
    """Catalogue values that are not as they were issued."""
    if any(back.issued.values()):
        issued = {kind.key: list(back.issued[kind.key].values()) for kind in CATALOGS}
        for difference in differences(CATALOGS, issued, one.opened.values):
            yield Finding("catalogue", "", "", difference.words(back.units))


def _checks(one):
    checks = one.opened.estimate.checks
    for item in ITEMS:
        count = getattr(checks, item.key)
        if count:
            yield Finding("check", "", "", f"{item.words}: {count:g}", "this stops the price" if item.stops else "to look at")
