"""An opened job -> the bytes of its workbook."""

from builder.stages.order import blocks
from builder.workbook.layout import Layout
from builder.workbook.write import write


def make(opened, workings=False):
    """opened: a job with its estimate, as `jobs.open_job` and `jobs.from_values` give it; workings: shown."""
    capacity = opened.estimate.capacity
    layout = Layout(blocks(opened.units, capacity), capacity)
    return write(layout, opened.estimate, {**opened.settings, "form": layout.form(opened.units)}, workings)
