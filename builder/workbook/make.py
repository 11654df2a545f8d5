"""An opened job -> the bytes of its workbook."""

from builder.stages.order import blocks
from builder.stages.sheet_list import SHEETS
from builder.workbook.layout import Layout
from builder.workbook.write import prepared


def make(opened, workings=False, only=None):
    """opened: a job with its estimate, as `jobs.open_job` and `jobs.from_values` give it; workings: every sheet is
    shown; only: the title of the one sheet that is.
    """
    shown = {only} if only else {sheet.title for sheet in SHEETS} if workings else None
    return _prepared(opened, shown).done()


def written(opened):
    """What stands in the cells of its workbook, as `Prepared.written` gives it, without making its file."""
    return _prepared(opened, cells_alone=True).written()


def _prepared(opened, shown=None, cells_alone=False):
    capacity = opened.estimate.capacity
    layout = Layout(blocks(opened.units, capacity), capacity)
    return prepared(layout, opened.estimate, {**opened.settings, "form": layout.form(opened.units)}, shown, cells_alone)
