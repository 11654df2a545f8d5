"""A look at a returned workbook: what in it is not as it was made, what stops its price, and whether its figures are up
to date.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.jobs import BUILDER, Opened, fingerprint, from_values
from builder.records.checklist import ITEMS
from builder.records.differ import Difference, differences
from builder.records.kinds import CATALOGS, KINDS, TABLES
from builder.records.rules import Day
from builder.records.versions import SCHEMA
from builder.returned.came_back import Returned, plain
from builder.returned.findings import Finding, span
from builder.returned.located import XLS, Located
from builder.returned.lost import lost
from builder.returned.standing import alike, standing
from builder.returned.taken import Taken, taken
from builder.review.causes import gathered
from builder.review.overwritten import overwritten
from builder.sheets.grammar import cell_value, heading
from builder.stages.estimate import Estimate
from builder.values import is_number, to_date
from builder.workbook.layout import sheet_name
from builder.workbook.make import written

# Kinds of finding: what makes a price doubtful, and what else a person did that a job made of the book may miss.
DOUBTFUL = (
    "start",
    "formula",
    "fixed",
    "name",
    "sheet",
    "row above",
    "row below",
    "cell",
    "space",
    "formula without a value",
    "fault",
    "xls",
    "stale",
)
# Kinds that tell what is wrong with rows, one by one, and the checks that count those rows.
FAULTY = ("fault", "cell", "formula without a value", "name", "sheet")
OF_ROWS = ("faults_", "too_open", "film")
TOUCHED = (*DOUBTFUL[:-1], "form", "own sheet", "beside", "understood", "formula typed")


@dataclass(frozen=True)
class Inspection:
    """What a look at a workbook found: the facts of its making in words, and a Finding for each thing that is not as it
    was made.
    """

    facts: tuple[str, ...]
    findings: tuple[Finding, ...]
    taken: Taken

    @property
    def opened(self) -> Opened:
        """The estimate that its inputs give."""
        return self.taken.opened

    @property
    def doubtful(self) -> tuple[Finding, ...]:
        """The findings that make its price doubtful."""
        return tuple(finding for finding in self.findings if finding.kind in DOUBTFUL)

    @property
    def touched(self) -> tuple[Finding, ...]:
        """The findings that tell what a person did in the book and may miss in a job that is made of it."""
        return tuple(finding for finding in self.findings if finding.kind in TOUCHED)


def inspect(back: Returned, catalogs: Iterable[str | Path] = ()) -> Inspection:
    """Look at a Returned workbook; `catalogs` are the folders in force, which the facts are told of."""
    one = taken(back)
    found, located = list(one.findings), Located(back)
    if located.same_form and located.cut_off():
        found.append(
            Finding(
                "xls",
                "",
                "",
                f"the workbook went through the format .xls, which has {XLS} columns: what stood right of them is lost",
                "use the workbook as it was before, or 'wetfilm reissue' builds it again of its inputs",
            )
        )
    elif located.same_form:
        found += lost(back.source)
        found += _names(located)
        # as it stands, whatever a person may have meant
        raw = from_values(back.values, back.units, back.settings, located.taken_up())
        located, broken, others = _as_made(back, located, raw)
        crowded = list(_crowded(back, located))
        found += broken + others + crowded
        silent = broken or located.gone or back.strays or back.copies or crowded
        if not (silent or any(one.kind == "fixed" for one in others)):
            found += _stale(back, located, raw.estimate)
    elif back.settings["schema"] == SCHEMA and back.settings["builder"] == BUILDER:
        found.append(
            Finding(
                "form",
                "Sources",
                "",
                "the rows of its tables were changed, or another build of this version made the workbook",
            )
        )
    found += _catalogs(back, one)
    found += _checks(one, any(finding.kind in FAULTY for finding in found))
    return Inspection(tuple(_facts(back, one, catalogs, located.same_form)), tuple(gathered(found)), one)


def _as_made(back: Returned, located: Located, raw: Opened) -> tuple[Located, list[Finding], list[Finding]]:
    """(where its cells are, formulas that are not as they were made, what else is not). raw: its inputs, opened as they
    stand. Where pages are not as they were made, their rows are looked for by what stands in them, if that tells less.
    """
    made = written(raw)

    def looked(at: Located) -> tuple[Located, list[Finding], list[Finding]]:
        return at, list(overwritten(back, at, raw.estimate)), list(standing(back, at, made))

    first = looked(located)
    touched = {finding.sheet for found in first[1:] for finding in found}
    pages = {title: made[title] for title in located.pages() if located.sheets[title] in touched}
    if not pages:
        return first
    return min(first, looked(Located(back, pages)), key=lambda one: len(one[1]) + len(one[2]))


def _facts(back: Returned, one: Taken, catalogs: Iterable[str | Path], same_form: bool) -> Iterator[str]:
    settings = back.settings
    here = "the ones in use here" if settings["catalogs"] == fingerprint(catalogs) else "not the ones in use here"
    rows = (row for kind in CATALOGS for row in one.opened.values[kind.key])
    priced = [day for row in rows if is_number(day := row.get("priced_on")) and Day().low <= day <= Day().high]
    date = one.opened.estimate.job.date
    age = f", newest price of {to_date(max(priced))}" if priced else ""
    if priced and is_number(date):
        age += (
            f", {date - max(priced):g} days before the estimate"
            if date >= max(priced)
            else ", after the date of the estimate"
        )
    built = f"built by {settings['builder']}, schema {settings['schema']:g}"
    yield f"{built}, with catalogs {settings['catalogs']}, {here}{age}"
    if not same_form:
        yield (
            "built by another version of wetfilm: overwritten formulas cannot be found in it; "
            "'wetfilm reissue' builds it again"
        )
    yield f"its inputs give: {one.opened.summary()}"
    yield from (f"open: {question}" for question in one.opened.questions())
    shown, price = back.saved_price(), one.opened.price()
    if not alike(shown, price):
        yield f"the file itself shows {f'the price {back.units.amount(shown)}' if is_number(shown) else 'no price'}"


def _names(located: Located) -> Iterator[Finding]:
    """Sheets that were renamed; sheets and names that were deleted, but those of inputs, which are told where they are
    read; single inputs that were cut and pasted.
    """
    for title, now in located.sheets.items():
        if now and now != title and now not in located.back.copies.values():
            yield Finding("renamed", now, "", f"the sheet {title} was renamed; it still counts")
    entered = {block.sheet for block in located.blocks if block.entered}
    for title in [title for title, now in located.sheets.items() if now is None and title not in entered]:
        yield Finding("sheet", title, "", "the sheet was deleted")
    for block in located.headless:
        if located.sheets[block.sheet]:
            yield Finding(
                "fixed",
                located.sheets[block.sheet],
                f"row {located.head(block)}",
                "the header row was deleted",
                "its columns still count",
            )
    places = {"_".join(key): place for key, place in located.places.items()}
    frame = {f"{block.key}_{name}" for block in located.blocks if block.entered for name in ("head", "all", "around")}
    frame |= {sheet_name(title) for title, now in located.sheets.items() if now is None}
    frame |= {name for name, _ in located.made.worked()}  # nothing that is read rests on them
    for name in located.gone:
        place = places.get(name)
        if place and place.column.field or name in frame:
            continue
        if place is None or located.sheets[place.sheet]:
            what = f"{place.column.title} on the sheet {place.sheet}" if place else f"the name {name}"
            yield Finding(
                "name",
                "",
                "",
                f"{what} was deleted, or its defined name points nowhere: formulas that use it show an error",
            )
    for place, area in located.pasted:
        yield Finding(
            "moved",
            area.sheet,
            area.cell(),
            f"{place.column.title} was moved here from the sheet {place.sheet} by cut and paste; it still counts",
        )


def _crowded(back: Returned, located: Located) -> Iterator[Finding]:
    """Tables in which more rows are filled than the book works out, since some were inserted: it shows no price."""
    for table, kind in TABLES.items():
        filled, room = len(back.values[table]), located.made.capacity[table]
        if filled > room:
            words = f"{kind.title}: {filled} rows are filled, and the workbook has room for {room}: it shows no price"
            yield Finding("row below", kind.sheet, "", words, "'wetfilm reissue' makes room for all")


def _stale(back: Returned, located: Located, estimate: Estimate) -> Iterator[Finding]:
    """Whether the values saved in the book are those of its inputs; the price first."""
    differ = []
    for key, place in located.places.items():
        block = key[0]
        if not place.column.formula or place.block.follows or len(estimate.rows[block]) < place.rows:
            continue
        sheet = back.book[located.sheets[place.sheet]]
        judged = block in KINDS and not KINDS[block].upright and back.area(block, KINDS[block].fields[0].key)
        for record, copy, row, col, _ in located.formulas(key, place):
            if judged and record > judged.bottom - judged.top + 1:
                continue  # rows of the table were deleted: nothing is judged there
            want = cell_value(estimate.rows[block][record - 1], place.column, back.units, copy)
            saved = plain(sheet.cell(row, col).value)
            saved = "" if saved is None else saved
            if not alike(saved, want):
                differ.append(
                    (
                        block != "price",
                        sheet.title,
                        span(col, row),
                        heading(place.column, back.units, copy),
                        saved,
                        want,
                    )
                )
    if differ and all(saved == "" for *_, saved, _ in differ) and back.saved_price() in (None, ""):
        yield Finding(
            "stale",
            "",
            "",
            "the program that saved the workbook left the results of its formulas out",
            "open the workbook in a spreadsheet program, let it recalculate, and save",
        )
    elif differ:
        _, where, cell, title, saved, want = min(differ, key=lambda one: one[0])
        shows, gives = (
            "a blank" if value == "" else f"{value:.10g}" if is_number(value) else value for value in (saved, want)
        )
        yield Finding(
            "stale",
            where,
            cell,
            f"{title}: the file shows {shows}, its inputs give {gives}; cells out of date: {len(differ)}",
            "open the workbook in a spreadsheet program, let it recalculate, and save",
        )


def _catalogs(back: Returned, one: Taken) -> Iterator[Finding]:
    """Catalog values that are not as they were issued."""
    if any(back.issued.values()):
        issued = {kind.key: list(back.issued[kind.key].values()) for kind in CATALOGS}
        deleted = {(kind.key, field.key) for kind, field in back.gone if field}  # told already
        records: dict[tuple[str, int], list[Difference]] = {}
        for difference in differences(CATALOGS, issued, one.opened.values):
            if (difference.block, difference.key) not in deleted:
                records.setdefault((difference.block, id(difference.values)), []).append(difference)
        for alike in records.values():
            yield from _of_record(alike, back)


def _of_record(found: list[Difference], back: Returned) -> Iterator[Finding]:
    """The changed values of a record, each by itself; one that has another name, as one: another was put over it."""
    kind = KINDS[found[0].block]
    over = [one for one in found if one.key == kind.named] if len(found) > 2 else []
    for one in over:
        others = [kind.field_of[other.key].title.lower() for other in found if other is not one]
        words = f"{one.words(back.units)}; and {len(others)} more values of it: {', '.join(others[:5])}"
        yield Finding("catalog", "", "", words + (" …" if len(others) > 5 else ""))
    if not over:
        yield from (Finding("catalog", "", "", one.words(back.units)) for one in found)


def _checks(one: Taken, faulty: bool) -> Iterator[Finding]:
    """What stops the price; where faults of rows are told, not how many they are."""
    for row, item in zip(one.opened.estimate.rows["findings"], ITEMS):
        if row.count and not (faulty and item.key.startswith(OF_ROWS)):
            yield Finding("check", "", "", str(row.line), "to fix: this stops the price")
