"""A partner at work in LibreOffice: the edits of one sitting, as StarBasic lines; and what of a book must come back."""

from xlsxwriter.utility import xl_col_to_name

from builder.records.kinds import JOBS
from support.parcels import retyped


def inputs(values):
    """Every field of the job's own blocks, blank rows left out."""
    return {
        kind.key: [
            row
            for given in values[kind.key]
            if any((row := {one.key: given.get(one.key) for one in kind.fields}).values())
        ]
        for kind in JOBS
    }


def partner(place):
    """Lines that insert takeoff rows and a column, rename and reorder sheets, cut and paste an input, type a row below
    the table, overwrite three formulas, and change a coating and a price."""

    def at(block, key, row=0):
        return f"{place[block, key].col}, {place[block, key].row - 1 + row}"

    takeoff = place["takeoff", "system"]
    below = takeoff.row - 1 + takeoff.rows + 2  # zero-based, after the two rows were inserted
    return [
        'takeoff = sheets.getByName("Takeoff")',
        f"takeoff.Rows.insertByIndex({takeoff.row + 1}, 2)",
        f'takeoff.getCellByPosition({at("takeoff", "system", 2)}).setString("Trim")',
        f'takeoff.getCellByPosition({at("takeoff", "length", 2)}).setFormula("=12+14")',
        f'takeoff.getCellByPosition({at("takeoff", "height", 2)}).setString("9 in")',
        f'takeoff.getCellByPosition({at("takeoff", "system", 3)}).setString("Trim")',
        f"takeoff.getCellByPosition({at('takeoff', 'length', 3)}).setValue(40)",
        f'takeoff.getCellByPosition({at("takeoff", "height", 3)}).setString("0,75")',
        f'takeoff.getCellByPosition({takeoff.col}, {below}).setString("Trim")',
        f"takeoff.getCellByPosition({place['takeoff', 'length'].col}, {below}).setValue(20)",
        f"takeoff.getCellByPosition({place['takeoff', 'height'].col}, {below}).setValue(1)",
        f"takeoff.Columns.insertByIndex({place['takeoff', 'length'].col}, 1)",
        # cut the tag of the first line and paste it on the note of the same line
        *moved(
            "Takeoff", place["takeoff", "place"].col, takeoff.row - 1, place["takeoff", "item"].col, takeoff.row - 1 + 5
        ),
        # cut the number of people and paste it below the inputs of the sheet
        *moved(
            "Job",
            place["job", "people"].col,
            place["job", "people"].row - 1,
            place["job", "people"].col,
            place["job", "fault"].row + 3,
        ),
        f'sheets.getByName("Areas").getCellByPosition({at("areas", "coated", 3)}).setValue(250)',
        f'sheets.getByName("Hours").getCellByPosition({at("hours", "labor", 1)}).setValue(8)',
        f'sheets.getByName("Price workings").getCellByPosition({at("price", "cost")}).setFormula("=9999")',
        f'sheets.getByName("Paint").getCellByPosition({at("coats", "coating", 1)}).setString("Exterior acrylic heavy coat")',
        f'sheets.getByName("Coatings").getCellByPosition({at("coatings", "pack2_price", 1)}).setValue(199)',
        'sheets.getByName("Takeoff").Name = "Measured"',
        'sheets.moveByName("Paint", 0)',
        'sheets.moveByName("Price", 3)',
    ]


def moved(sheet, col, row, to_col, to_row):
    """Cut one cell and paste it elsewhere on its sheet."""
    return [
        f'source = sheets.getByName("{sheet}").getCellRangeByName("{xl_col_to_name(col)}{row + 1}")',
        f'target = sheets.getByName("{sheet}").getCellRangeByName("{xl_col_to_name(to_col)}{to_row + 1}")',
        f'sheets.getByName("{sheet}").moveRange(target.CellAddress, source.RangeAddress)',
    ]


def at(book, block, key, row=0):
    """The sheet and cell of a place; row: of a record, from 0."""
    place = book.layout.places[block, key]
    return place.sheet, f"{xl_col_to_name(place.col)}{place.row + row}"


def entered(book, changes):
    """The bytes of a book with other values in some inputs: (block, key, row from 0) -> value."""
    return retyped(book.data, {at(book, *place): value for place, value in changes.items()})


def satin(book):
    """The row of the coating of that name."""
    return next(no for no, row in enumerate(book.opened.values["coatings"]) if row["name"] == "Exterior acrylic satin")
