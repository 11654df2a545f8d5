"""An opened job -> the bytes of its workbook."""

from builder.stages.order import blocks
from builder.stages.sheet_list import SHEETS
from builder.workbook.frame import VISIBLE
from builder.workbook.layout import Layout
from builder.workbook.write import write


def make(opened, workings=False, only=None):
    """opened: a job with its estimate, as `jobs.open_job` and `jobs.from_values` give it; workings: shown; only: the
    title of the one sheet that is.
    """
    shown = {only} if only else {sheet.title for sheet in SHEETS} if workings else VISIBLE
    capacity = opened.estimate.capacity
    layout = Layout(blocks(opened.units, capacity), capacity)
    return write(layout, opened.estimate, {**opened.settings, "form": layout.form(opened.units)}, shown)
