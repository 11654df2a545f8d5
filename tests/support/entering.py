"""What a person types into a blank workbook, cell by cell, as the workbook then holds it."""

import copy
import re

import yaml

from builder.jobs import open_job
from builder.records.kinds import KINDS
from builder.returned.typed import understood
from builder.values import day
from support.places import CATALOGS, ROOT

HOUSE, BEDROOMS = (ROOT / "tests" / "data" / f"{name}.yaml" for name in ("house", "bedrooms"))


def cells(job):
    """(sheet, title of the column, row of its table, text) of each cell typed for a job, in order."""
    path = job.with_name(f"{job.stem}_typed.yaml")
    return [tuple(map(str, cell[:2])) + (cell[2], str(cell[3])) for cell in yaml.safe_load(path.read_text())["cells"]]


def field_of(sheet, title):
    """The kind and the field that a column of a sheet of entries holds."""
    (found,) = [
        (kind, one) for kind in KINDS.values() if kind.sheet == sheet for one in kind.fields if one.title == title
    ]
    return found


def held(text, one):
    """What a cell holds of what is typed: a number or a date where a spreadsheet makes one of it, else the text."""
    if one.quantity == "text":
        return text
    if one.quantity == "date":
        return day(text)
    if re.fullmatch(r"\d+(\.\d+)?%?", text):
        return float(text.rstrip("%")) / (100 if text.endswith("%") else 1)
    return text


def typed(job, read=understood):
    """The blank job with the cells typed. read(value, field, units): what is made of a text that is no number."""
    blank = open_job(None, [CATALOGS])
    values = copy.deepcopy(blank.values)
    for sheet, title, row, text in cells(job):
        kind, one = field_of(sheet, title)
        rows = values[kind.key]
        while len(rows) < row:
            rows.append({field.key: None for field in kind.fields})
        value = blank.units.from_cell(held(text, one), one.quantity)
        rows[row - 1][one.key] = read(value, one, blank.units)
    return blank, values
