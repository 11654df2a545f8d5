"""Findings that have one cause as one: cells of a column with the same trouble, formulas typed over across a sheet."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from builder.returned.findings import Finding

ALIKE = 4  # findings alike in one column that are told as one
MANY = 4  # more runs of cells than these on one sheet are told as one
SPREAD = ("formula", "fixed")  # kinds that a deed to a whole sheet leaves in many columns
NAMED = 5  # places that are named one by one
QUOTED = re.compile(r"'[^']*'|\d[\d.,]*")  # what differs from row to row in one message
CELL = re.compile(r"([A-Z]+|row )(\d+)")
ANEW = "put the sheet back as it was, or 'wetfilm reissue' builds the workbook again of its inputs"


def gathered(findings: Iterable[Finding]) -> list[Finding]:
    """The findings, each cause once, where its first one stands."""
    findings = list(findings)
    sheets: dict[str, set[str]] = {}
    for finding in findings:
        sheets.setdefault(finding.cause, set()).add(finding.sheet)
    causes: dict[object, list[Finding]] = {}
    for finding in findings:
        wide = finding.cause and len(sheets[finding.cause]) > 1
        causes.setdefault(finding.cause if wide else _cause(finding), []).append(finding)
    return [one for alike in causes.values() for one in _one(alike)]


def _cause(finding: Finding) -> object:
    """What findings of one cause have in common; those without a place have none with another."""
    if not finding.sheet or not finding.cell:
        return finding
    if finding.kind in SPREAD:
        return finding.sheet
    column = "".join(filter(str.isalpha, finding.cell.split(":")[0]))
    return finding.kind, finding.sheet, column, QUOTED.sub("", finding.message)


def _one(alike: Sequence[Finding]) -> Sequence[Finding]:
    first, *others = alike
    if first.kind in SPREAD:
        if len(alike) <= MANY:
            return alike
        said = f"{first.message}; and {len(others)} other runs of cells on this sheet: {_places(others, first.sheet)}"
        return [replace(first, message=said, hint=ANEW)]
    if len(alike) < 2 or len(alike) < ALIKE and (not first.cause or any(one.cause != first.cause for one in others)):
        return alike
    return [replace(first, message=f"{first.message}; and {len(others)} more alike: {_places(others, first.sheet)}")]


def _places(findings: Sequence[Finding], sheet: str) -> str:
    """'B6:B9, B12', or 'row 6 to row 9', each cell of a run in a column not by itself; the first few of many."""
    places: list[str] = []
    start = following = ""  # of the run
    for finding in findings:
        if finding.sheet != sheet:
            sheet = finding.sheet
            places.append(f"{sheet} {finding.cell}")
            start = following = ""
            continue
        cell = CELL.fullmatch(finding.cell)
        if cell and finding.cell == following:
            places[-1] = f"{start} to {finding.cell}" if " " in start else f"{start}:{finding.cell}"
        else:
            start = finding.cell
            places.append(start)
        following = f"{cell[1]}{int(cell[2]) + 1}" if cell else ""
    return ", ".join(places[:NAMED]) + (" …" if len(places) > NAMED else "")
