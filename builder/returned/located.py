"""The layout of a returned workbook: where the cells of each column are by now, after rows and columns were inserted
and sheets renamed.

Named cells are found by their names, all others by how far the named ones around them have moved.
"""

from bisect import bisect_left, bisect_right
from collections import Counter
from itertools import pairwise

from builder.returned.aligned import rows_now
from builder.sheets.grammar import heading
from builder.stages.book import room_of
from builder.stages.order import blocks, capacities
from builder.stages.sheet_list import FOR_PEOPLE
from builder.workbook.layout import Layout, sheet_name

XLS = 256  # columns of the format .xls


class Moves:
    """How far the rows, or the columns, of one sheet have moved, by what its names tell. Counted from 1."""

    def __init__(self):
        self.told = {}  # was -> Counter of where names say it is
        self.gone = set()  # rows that were deleted, of a page that is aligned

    def tell(self, was, now):
        self.told.setdefault(was, Counter())[now] += 1

    def settle(self):
        """Believe what most names say, and none that alone moved otherwise than those on both sides: that one was cut
        and pasted.
        """
        known = {was: said.most_common(1)[0][0] for was, said in sorted(self.told.items())}
        by = {was: now - was for was, now in known.items()}
        order = list(known)
        odd = [was for before, was, after in zip(order, order[1:], order[2:]) if by[before] == by[after] != by[was]]
        self.known = {was: now for was, now in known.items() if was not in odd}
        self._ordered()

    def _ordered(self):
        self.order = list(self.known)
        self.still = not self.gone and all(was == now for was, now in self.known.items())

    def align(self, known):
        """Take the places of more rows; of those between, what has no room any more is gone."""
        known = dict(sorted({**known, **self.known}.items()))
        steps = list(pairwise(known.items()))
        if any(then <= now for (_, now), (_, then) in steps):
            return
        for (was, now), (following, then) in steps:
            room = then - now - 1
            for step, row in enumerate(range(was + 1, following)):
                if step < room:
                    known[row] = now + 1 + step
                else:
                    self.gone.add(row)
        self.known = dict(sorted(known.items()))
        self._ordered()

    @property
    def torn(self):
        """Whether rows came or went between its rows."""
        return bool(self.gone) or len({now - was for was, now in self.known.items()}) > 1

    def now(self, was, fits=None):
        """Where a row or column is by now. Between two that moved differently, the first that `fits`; else it moved as
        the one before.
        """
        if self.still:
            return was
        no_more, no_less = bisect_right(self.order, was), bisect_left(self.order, was)
        before = self.order[no_more - 1] if no_more else self.order[no_less]
        after = self.order[no_less] if no_less < len(self.order) else before
        first, last = (was + self.known[one] - one for one in (before, after))
        if fits is None or last <= first:
            return first
        return next((now for now in range(first, last + 1) if fits(now)), first)


class Located(Layout):
    """A Layout whose places are those of a Returned workbook.

    made: the same as it was made; sheets: title -> what the sheet is called now (None: gone); gone: names that point at
    nothing any more; headless: tables whose header row is gone; pasted: (place, area) of
    single inputs that were cut and pasted elsewhere; hidden: keys of places on another sheet than their block's;
    same_form: whether this program would make the book with the same formulas in the same places. If not, only `sheets`
    and `gone` are to be relied on.
    """

    def __init__(self, back, written=None):
        """written: what the maker wrote on the pages whose rows are looked for by it, title -> cells."""
        capacity = capacities(**room_of(back.settings))
        self.back = back
        super().__init__(blocks(back.units, capacity), capacity)
        self.made = Layout(self.blocks, capacity)
        self.same_form = self.made.form(back.units) == back.settings.get("form")
        self.gone = [name for name, _ in self.made.names() if name not in back.areas]
        self.headless = [
            block
            for block in self.blocks
            if block.entered and block.form == "table" and f"{block.key}_head" in self.gone
        ]
        self.sheets = {title: self._sheet(title) for title in dict.fromkeys(block.sheet for block in self.blocks)}
        self.rows, self.cols = ({title: Moves() for title in self.sheets} for _ in range(2))
        self._learn()
        self.aligned = set(written or ())
        for title in self.aligned:
            sheet = back.formulas[self.sheets[title]]
            self.rows[title].align(rows_now(self.made, title, written[title], sheet, self._typed(title)))
        self.tops = {(key, title): self.rows[title].now(top - 1) + 1 for (key, title), top in self.tops.items()}
        self.pasted, self.hidden = [], set()
        for key, place in self.places.items():
            self._move(key, place)

    def cut_off(self):
        """Whether the columns that the format .xls has no room for are gone: their names point at the first ones."""
        if any(self.back.book[now].max_column > XLS for now in self.sheets.values() if now):
            return False
        wide = {"_".join(key): place.col for key, place in self.made.places.items() if place.col >= XLS}
        areas = {name: self.back.areas.get(name) for name, _ in self.made.names() if name in wide}
        return bool(areas) and all(area is None or area.left == wide[name] % XLS + 1 for name, area in areas.items())

    def _each_cell_once(self):
        """Looked at as it was made, in `made`: by now a person may have put cells anywhere."""

    def taken_up(self):
        """Kind -> the rows of its table by now."""
        first = {block.key: self.back.area(block.key, block.columns[0].key) for block in self.blocks if block.entered}
        return {key: area.bottom - area.top + 1 for key, area in first.items() if area}

    def foot(self, block):
        area = self.back.areas.get(f"{block}_around")
        return area.bottom if area else super().foot(block)

    def _sheet(self, title):
        area = self.back.areas.get(sheet_name(title))
        return area.sheet if area else title if title in self.back.book.sheetnames else None

    def _typed(self, title):
        """The cells of single inputs on a sheet by now."""
        keys = [key for key, place in self.made.places.items() if place.sheet == title and place.column.field]
        areas = [area for key in keys if (area := self.back.areas.get("_".join(key)))]
        return {(area.top, area.left) for area in areas if area.sheet == self.sheets[title]}

    def pages(self):
        """The sheets that are there and are looked at row by row: people see them, and no rows are entered there."""
        tables = {block.sheet for block in self.blocks if block.entered and block.form == "table"}
        pages = FOR_PEOPLE - tables
        return [title for title, now in self.sheets.items() if now and title in pages]

    def lines(self, key, place):
        """(record from 0, its row by now) of a column that runs down, but of those whose row was deleted."""
        if place.sheet not in self.aligned:
            return [(record, place.line(record)) for record in range(place.rows)]
        was, rows = self.made.places[key], self.rows[place.sheet]
        lines = [(record, was.line(record)) for record in range(was.rows)]
        return [(record, rows.now(line)) for record, line in lines if line not in rows.gone]

    def _learn(self):
        """Gather what the names tell of every sheet."""
        for title in self.sheets:
            corner = self.back.areas.get(sheet_name(title))
            self.rows[title].tell(1, corner.top if corner else 1)
            self.cols[title].tell(1, corner.left if corner else 1)
        for (block, key), place in self.places.items():
            area = self.back.areas.get(f"{block}_{key}")
            if area and area.sheet == self.sheets[place.sheet]:
                self.cols[place.sheet].tell(place.col + 1, area.left)
                self.rows[place.sheet].tell(place.row, area.top)
                if place.rows > 1:
                    self.rows[place.sheet].tell(place.row + place.rows - 1, area.bottom)
        for block in self.blocks:
            head = self.back.areas.get(f"{block.key}_head") if block.entered and block.form == "table" else None
            if head and head.sheet == self.sheets[block.sheet]:
                self.rows[block.sheet].tell(self.made.head(block), head.top)
        for moves in (*self.rows.values(), *self.cols.values()):
            moves.settle()

    def _move(self, key, place):
        """Put a place where its cells are by now: where its name points, or as its neighbors moved."""
        rows, cols = self.rows[place.sheet], self.cols[place.sheet]
        title = heading(place.column, self.units)

        def headed(col):
            sheet = self.sheets[place.sheet]
            return sheet is not None and self.back.book[sheet].cell(self.head(place.block), col).value == title

        left = cols.now(place.col + 1, headed if place.block.form == "table" else None)
        top, bottom = rows.now(place.row), rows.now(place.row + place.rows - 1)
        area = self.back.areas.get("_".join(key))
        if area and area.sheet != self.sheets[place.sheet]:
            self.pasted.append((place, area))
            self.hidden.add(key)
            return
        if area and (area.left, area.top) != (left, top):
            if place.rows == 1:
                self.pasted.append((place, area))
            left, top, bottom = area.left, area.top, area.bottom
        place.col, place.row, place.rows = left - 1, top, bottom - top + 1

    @property
    def units(self):
        return self.back.units

    def formulas(self, key, place):
        """(record from 1, copy, row, column from 1, the template of its formula) of every cell of a column of formulas:
        `at_record` says the formula that belongs there.
        """
        if any(block == key[0] and f"{{{hidden}" in place.column.formula for block, hidden in self.hidden):
            return  # it speaks of another sheet by now: not told
        lines = self.lines(key, place)
        for copy in range(place.cols):
            template = self.template(place.block, place.column, copy if place.block.form == "table" else 0)
            for record, row in lines if place.block.down else lines[:1]:
                yield (record if place.block.down else copy) + 1, copy, row, place.col + copy + 1, template
