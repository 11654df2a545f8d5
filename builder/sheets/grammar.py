"""The vocabulary of a sheet: blocks of columns, and how a row of one block finds its row in another.

In formula text, braces hold what the layout turns into cells and names:

    {key}          this row's cell in another column of the same block
    {a:b}  {#a:b}  the run of this row's cells from a to b; the headers above them
    {#key}         the header of a column
    {*key}         all cells of a column of the same block
    {key^}         the cell above in a column of the same table, for a run that goes on from row to row; in the first
                   row the header stands there, so it is asked for where {no} is above 1
    {word.key}     the row that the link `word` finds, in the column `key` of its block
    {block.key}    the whole column of another block, or all cells of an upright one of which this is the `run`;
                   `all` is all its inputs, `head` the headers over them, `around`
                   both with the rows beneath, so that what is typed beside the inputs, an inserted row over or under
                   them too, is seen; `more_head` and the others are those of the inputs to the right of the results
    {^}            in a table of entries, the number of this row, whatever rows were inserted, deleted or cut since. It
                   is counted on blank cells to the right, which nobody cuts. (Not from the first row down to this one:
                   LibreOffice 7.4 then works the columns out in threads and leaves some cells of an edit a step behind)
    {@}            the number above this copy of a repeated column (on a card: the number of this record)
    {...@}         that copy of a repeated column; {...@key} the copy whose number stands in `key`. Without a link it is
                   the one cell of that number in a row: a fact of a card, a repeated column of one record

A formula names nothing else: no address, no guard (`when` puts it in), no unit.

The dialect. Two programs that open one workbook must show one figure, so a formula keeps to what all of them compute
alike (`tests/workbook/test_dialect.py` holds each to it; DEVELOPERS.md tells what each program does otherwise):

    functions   ABS CHOOSE COUNT COUNTA COUNTBLANK COUNTIF DAY EXP FIND FIXED IF IFERROR INDEX INT ISBLANK ISERROR
                ISNUMBER LARGE LEN LN LOWER MATCH MAX MID MIN MOD MONTH N NORMDIST NORMSINV REPT RIGHT ROUNDUP ROW ROWS
                SMALL SQRT SUBSTITUTE SUM SUMPRODUCT TEXT TRIM VALUE WORKDAY YEAR
    INDEX       (column, n) of one column, (row, 1, n) of a row or card, (columns, n, k) of copies. Never an index of 0,
                nor one index of a row: what needs a whole copy stands on that copy's own sheet, as {*key@}, and others
                fetch the result
    ROW, ROWS   ROW without argument or of a cell, ROWS of cells of one's own sheet; neither of a name
    COUNTA      of an area, never of cells found by INDEX: whether one is blank is asked by ISBLANK, a cell at a time,
                or by ="" where an entered "" is blank too
    N           of what a formula gave (a number, '' or nothing else), never of an input: a blank input counts as 0 in a
                sum, and may be text only where its row is not `sound`
    SUMPRODUCT  factors by the comma where one may hold '': a product of '' is an error. Its greatest:
                SUMPRODUCT(LARGE(...,1)). Marks of rows times marks of copies, (column=n)*(row=k), are as wide and high
                as the copies they stand beside
    FIND        and what else takes text apart: of one text, never of an area
    MIN         of cells none of which is blank; a blank one counts as 0 for some and not at all for others
    never       COLUMNS, CHOOSE of areas, A1:INDEX(), a constant array, a volatile function, one newer than 2007
"""

from dataclasses import dataclass, field

from builder.records.fields import Field

COLUMNS, ROWS = 16_384, 1_048_576  # of a sheet, in all common programs
GAP = 6  # rows from the last of a table to the headers of one under it; what is typed in between is noticed
SECTION = 2  # rows between two parts of a page: a blank one, and what the next part is called


@dataclass(frozen=True)
class Column:
    """A column of a table, a row of a card or of an upright block.

    formula: '' on an input or label column. when: blank while that column of the row is blank ('key') or 0 ('key=0');
    None takes the block's. repeat: so many copies side by side, numbered from 1. label: what it carries, or row number
    -> that.
    beside: on an upright block, the column in whose row it stands. view: a cell that a person sets and that is no input
    of the job: the column of the texts to choose from; what is chosen is read by nobody and carried nowhere. at: of a
    strip, the row and the column of its first cell, from 0. pinned: its formulas name their own row as a fixed one, so
    that no program takes them for one run of formulas: LibreOffice 7.4 tries to work such a run out at once, which is
    wrong where each row of it rests on the row above through other columns.
    """

    key: str
    title: str
    quantity: str = "number"
    formula: str = ""
    when: str | None = None
    repeat: int = 0
    label: object = None
    field: Field | None = None
    heads: tuple = ()  # what each copy of a repeated column is for
    beside: str = ""
    rows: int = 0  # of a list shorter than its block
    note: str = ""  # what stands behind an upright block's unit
    look: str = ""  # on a page: the role of its cells (`workbook/reading.py`)
    view: str = ""
    at: tuple = ()
    pinned: bool = False


@dataclass(frozen=True)
class At:
    """A link: the row of `block` whose number is `number`, an expression of this grammar."""

    block: str
    number: str


@dataclass(frozen=True)
class Block:
    """Columns that share their rows.

    form: 'table' (records down), 'card' (records across), 'upright' (one record, fields down); 'list' and 'page' are a
    table and an upright block on a page that is printed, which has its own look (`workbook/printed.py`). place: the
    column of an upright block's values, 1 for B; the first column of a list. 'strip': records down, each `pitch` rows
    high, its cells where their `at` says; after every `each` of them `gap` rows are left free. A strip feeds nothing:
    it has no names. Parts of one block may stand on two sheets: they share their key, and so their names.
    """

    key: str
    sheet: str
    columns: tuple
    links: dict = field(default_factory=dict)
    when: str | None = None
    form: str = "table"
    place: int = 1
    top: int = 5  # the row of the first record (table), fact (card) or field (upright)
    under: str = ""  # the table of the same sheet that a table stands under, instead of `top`
    run: str = ""  # of an upright block: what all its cells together are called elsewhere, as one column
    section: str = ""  # what stands above the headers of such a table
    entered: bool = False  # a person types here
    pitch: int = 1
    each: int = 0
    gap: int = 0
    follows: bool = False  # a view or what lies about a table is shown: no two saves need be alike

    @property
    def down(self):
        """Its records run down, each column one formula."""
        return self.form in ("table", "list", "strip")


def inputs(kind):
    """The input columns that a kind's fields call for."""
    return tuple(Column(one.key, one.title, one.quantity, field=one) for one in kind.fields)


def cell_value(row, column, units, copy=0):
    """What a row of the model says of one cell, as the cell holds it; `copy` of a repeated column."""
    value = getattr(row, column.key)
    if column.repeat and value is not None:
        value = value[copy]
    return units.to_cell(value, column.quantity)


def heading(column, units, copy=0):
    """What stands above a column or before a fact: title, which copy of a repeated column, unit."""
    unit = units.shown(column.quantity)
    title = ": ".join(filter(None, (column.title, *column.heads[copy : copy + 1])))
    return f"{title} ({unit})" if unit else title


def results_first(front, columns):
    """The columns named in `front` in that order, then the others as they stand: the result first, how it was found
    after.
    """
    order = front.split()
    return tuple(sorted(columns, key=lambda column: order.index(column.key) if column.key in order else len(order)))
