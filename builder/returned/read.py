"""A workbook back to the values of its inputs, found by defined names."""

from openpyxl.utils.cell import get_column_letter

from builder import documents
from builder.problems import Refused
from builder.quantities import Units
from builder.records.kinds import CATALOGS, JOBS, KINDS, TABLES
from builder.records.load import load_record
from builder.records.overlay import label
from builder.records.renamed import current_word
from builder.records.rules import Word
from builder.records.versions import OLD_KEYS, SCHEMA, new_name
from builder.returned import safe
from builder.returned.came_back import Returned, Stray, areas_of, plain
from builder.returned.cells import loaded
from builder.stages.book import BOOK, ROOM
from builder.values import is_number

# What the first line of As issued says; facts that older books do not have.
MADE = {"units": str, "currency": str, "exchange": float, **dict.fromkeys(ROOM, float)}
LATER = {**{fact: float(TABLES[table].capacity) for fact, table in ROOM.items() if fact != "lines"}, "form": None}
INPUTS = 120_000  # cells under the names of all inputs; a book of 2,000 lines and as many days has 60,000
INPUT_NAMES = {f"{kind.key}_{one.key}" for kind in KINDS.values() for one in kind.fields} | {
    *(f"book_{column.key}" for column in BOOK.columns),
    *(f"issued_{key}" for key in ("kind", "record", "text")),
}
DIGITS = 1e-9  # of a number, beyond which another one was typed
FURTHER = 1000  # rows below a table of inputs in which something typed is looked for


def returned(source, inputs_alone=False):
    """Read a workbook that this program wrote, whatever program has saved it since. source: a path or a binary stream;
    inputs_alone: sheets without an input are not read, which is faster, but those of books of another schema.

    Inputs whose cells were deleted are blank, catalogs whose sheet was deleted as they were issued; `gone` names both.
    Raises Refused where it is no such workbook or none of its inputs is left.
    """
    verified = safe.opened(source)
    book, formulas = loaded(verified, names=INPUT_NAMES if inputs_alone else None)
    areas, copies = areas_of(book)
    back = Returned(verified, book, areas, formulas, copies=copies)
    if _renamed(back) and inputs_alone:
        return returned(verified)
    _settings(back)
    back.units = Units(back.settings["units"], back.settings["currency"], back.settings["exchange"])
    back.issued = _issued(back)
    _spanned(back)
    for kind in KINDS.values():
        missing = (
            [one for one in kind.fields if back.area(kind.key, one.key) is None]
            if back.settings["schema"] == SCHEMA
            else []
        )
        whole = len(missing) == len(kind.fields)
        back.gone += [(kind, None)] if whole else [(kind, one) for one in missing]
        rows = list(back.issued.get(kind.key, {}).values()) if whole else _rows(back, kind)
        back.values[kind.key] = [
            _restored(row, back.issued.get(kind.key, {}).get(label(kind, row), {})) for row in rows
        ]
        if not kind.upright:
            back.strays += _strays(back, kind)
    if all((kind, None) in back.gone for kind in JOBS):
        raise safe.refused(
            back.name, "the defined names of its input cells were deleted or point nowhere", safe.PUT_BACK
        )
    return back


def _spanned(back):
    """Refuses names of inputs that span more than an estimate can have rows, each or all together."""
    whole = 0
    for kind in KINDS.values():
        for one in kind.fields:
            area = back.area(kind.key, one.key)
            cells = (area.bottom - area.top + 1) * (area.right - area.left + 1) if area else 0
            whole += cells
            if cells > kind.most or whole > INPUTS:
                words = f"{kind.title}, {one.title}: its defined name covers {cells:,} cells, more than an estimate has"
                raise safe.refused(back.name, words, safe.PUT_BACK)


def _renamed(back):
    """The names of an older book, as they are called now; whether it is one."""
    schema = back.shown("book_schema")[0]
    if not isinstance(schema, float) or schema < 1:
        raise safe.impossible(back.name, "schema", schema)
    if schema < SCHEMA:
        back.areas = {new_name(int(schema), name): area for name, area in back.areas.items()}
    return schema < SCHEMA


def _settings(back):
    """The facts of a book; where one was changed there, as the book was made, if it says so."""
    keys = [column.key for column in BOOK.columns]
    absent = {key for key in LATER if f"book_{key}" not in back.areas}
    here = {key: LATER[key] if key in absent else back.shown(f"book_{key}")[0] for key in keys}
    made = _made(back)
    back.settings = {**here, **made}
    back.restated = [
        (key, here[key])
        for key, value in made.items()
        if key not in absent and here[key] != value and not _alike(here[key], value)
    ]
    safe.sound(back.name, back.settings)


def _made(back):
    """What the sheet As issued says of the making of the book; an older book says nothing there."""
    for block, _, text in _issued_lines(back):
        if block == BOOK.key:
            try:
                said = documents.parse(text.encode(), "")
                told = [key for key in MADE if key not in LATER or said.get(key)]
                return {key: MADE[key](said.get(key).value) for key in told}
            except (Refused, ValueError, AttributeError):  # no YAML; one is missing, not a number, or a list
                raise _typed_over(back, "its first row") from None
    return {}


def _alike(one, other):
    return is_number(one) and is_number(other) and abs(one - other) <= DIGITS * abs(other)


def _restored(row, issued):
    """A catalog row with the digits it was issued with: some programs keep fewer of a very small number."""
    return {key: issued[key] if _alike(value, issued.get(key)) else value for key, value in row.items()}


def _rows(back, kind):
    """The rows of a kind, down to the last one that is not blank."""
    columns, older = {}, back.settings["schema"] < SCHEMA
    for one in kind.fields:
        area = back.area(kind.key, one.key)
        values = [back.units.from_cell(value, one.quantity) for value in back.cells(area)] if area else []
        columns[one.key] = list(map(current_word, values)) if older and isinstance(one.rule, Word) else values
    count = max(map(len, columns.values()))
    rows = [
        {key: values[place] if place < len(values) else None for key, values in columns.items()}
        for place in range(count)
    ]
    while rows and not kind.upright and all(value is None for value in rows[-1].values()):
        rows.pop()
    return rows


def _strays(back, kind):
    areas = {one.key: area for one in kind.fields if (area := back.area(kind.key, one.key))}
    if not areas:
        return
    sheet = back.book[next(iter(areas.values())).sheet]
    top, below = min(area.top for area in areas.values()), max(area.bottom for area in areas.values()) + 1
    # the latter in older books
    whole = back.areas.get(f"{kind.key}_around") or back.areas.get(f"{kind.key}_headed")
    # inserted over the first row: names do not grow
    above = range(whole.top + 1, top) if whole and whole.sheet == sheet.title else ()
    heads = [head.top for name, head in back.areas.items() if name.endswith("_head") and head.sheet == sheet.title]
    end = min([sheet.max_row, below + FURTHER, *(head - 2 for head in heads if head >= below)])
    for row in (*above, *range(below, end + 1)):
        cells = {key: f"{get_column_letter(area.left)}{row}" for key, area in areas.items()}
        raw = {key: plain(sheet[cell].value) for key, cell in cells.items()}
        # else a note, not a row
        if any(raw[one.key] is not None for one in kind.fields if one.required and one.key in raw):
            where = "above" if row < top else "below"
            yield Stray(
                kind.key,
                sheet.title,
                row,
                where,
                {key: back.units.from_cell(value, kind.field_of[key].quantity) for key, value in raw.items()},
                cells,
            )


def _issued_lines(back):
    """(kind, record, text) of every line of the sheet As issued; none in a book older than that."""
    areas = [back.areas.get(f"issued_{key}") for key in ("kind", "record", "text")]
    return [line for line in zip(*map(back.cells, areas)) if isinstance(line[2], str)] if all(areas) else []


def _issued(back):
    """Block -> record -> its values as issued; empty for a book older than that."""
    found = {kind.key: {} for kind in CATALOGS}
    for old, record, text in _issued_lines(back):
        block = old if old in found else OLD_KEYS.get(old)
        if block in found:
            try:
                found[block][record] = load_record(KINDS[block], text, back.units, "")
            except Refused:  # what is wrong with its YAML is no matter of who reads a workbook
                raise _typed_over(back, f"its row of {record} ({KINDS[block].title})") from None
    return found


def _typed_over(back, row):
    """The refusal of a book whose sheet As issued says something else than what the maker wrote there."""
    return safe.refused(back.name, f"the sheet As issued was changed: {row} is not as it was built", safe.PUT_BACK)


def read(source):
    """The values of each block as `records.load` gives them, the units they are in, and the facts of the
    book.
    """
    back = returned(source)
    return back.values, back.units, back.settings
