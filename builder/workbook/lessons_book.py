"""The report of closed jobs as a workbook of its own: estimate against actual by driver, by crew and by job, what is
proposed, what was left out; figures alone, with two charts.
"""

import warnings

from builder.workbook.charts import LETTERS, chart_of
from builder.workbook.palette import HEAD, INK, PAPER, QUIET, RULE
from builder.workbook.tables import plain_book

HEADER, FIRST = 3, 4  # rows, from 0: of the headers, and the first below them
CHART_ROWS = 18  # that a chart covers
DRIVERS, JOBS = "By driver", "By job"
INSIDE, EIGHT_IN_TEN = 5, 6  # columns of By driver that the chart shows
NUMBER, RATIO = 0, 7  # columns of By job that the chart shows
SHAPES = {"time": ("circle", HEAD), "material": ("diamond", RULE)}


def lessons_book(sheets, runs, units, builder):
    """Bytes of a workbook. sheets: (title, purpose, columns as (header, quantity, width), rows in shown units); the one
    called By driver has two charts, of itself and of By job. runs: driver -> its first and last row on By job, from 0;
    builder: what made it.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        book, styles = plain_book(units, builder)
        made = {title: _sheet(book, styles, title, *rest) for title, *rest in sheets}
        rows = {title: len(rest[-1]) for title, *rest in sheets}
        if rows[DRIVERS]:
            _held(book, made[DRIVERS], rows[DRIVERS])
        if any(runs.get(driver) for driver in SHAPES):
            _by_job(book, made[DRIVERS], runs, FIRST + rows[DRIVERS] + 1 + CHART_ROWS)
        return book.done()


def _sheet(book, styles, title, purpose, columns, rows):
    sheet = book.add_worksheet(title)
    sheet.write_string(0, 0, title, styles("title"))
    sheet.write_string(1, 0, purpose, styles("purpose"))
    for col, (header, quantity, width) in enumerate(columns):
        sheet.write_string(
            HEADER, col, header, styles("head_number" if quantity != "text" else "head" if col else "head_first")
        )
        sheet.set_column(col, col, width)
    for line, row in enumerate(rows, start=FIRST):
        for col, (value, (_, quantity, _)) in enumerate(zip(row, columns)):
            if isinstance(value, str):
                sheet.write_string(line, col, value, styles("quiet" if col else "line"))
            elif value is not None:
                sheet.write_number(line, col, value, styles("plain", quantity))
    if not rows:
        sheet.write_string(FIRST, 0, "none", styles("line"))
    sheet.hide_gridlines(2)
    sheet.freeze_panes(FIRST, 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    return sheet


def _chart(book, kind, question, across, up, **up_axis):
    chart = chart_of(book, kind, question, across, up, y=up_axis)
    chart.set_legend({"position": "bottom", "font": LETTERS})
    chart.set_size({"width": 640, "height": 330})
    return chart


def _held(book, sheet, rows):
    """Bars: the share of jobs between P10 and P90, beside what it is to be."""
    chart = _chart(
        book,
        {"type": "column"},
        "Do P10 and P90 hold 8 jobs in 10?",
        "",
        "Share of jobs",
        num_format="0%",
        min=0,
        max=1,
    )
    for name, col, fill in (("Jobs between P10 and P90", INSIDE, HEAD), ("8 in 10", EIGHT_IN_TEN, PAPER)):
        chart.add_series(
            {
                "name": name,
                "categories": [DRIVERS, FIRST, 0, FIRST + rows - 1, 0],
                "values": [DRIVERS, FIRST, col, FIRST + rows - 1, col],
                "fill": {"color": fill},
                "border": {"color": INK},
                "data_labels": {"value": True, "num_format": "0%", "font": LETTERS},
            }
        )
    told = (
        "Bar chart: for each driver of cost the share of closed jobs between P10 and P90, beside the 80 % it is to be"
    )
    sheet.insert_chart(FIRST + rows + 1, 0, chart, {"description": told})


def _by_job(book, sheet, runs, row):
    """Points: actual over estimate of each job, in the order in which they were closed."""
    chart = _chart(
        book,
        {"type": "scatter"},
        "Do jobs take what was estimated?",
        "Jobs in the order in which they were closed",
        "Actual over estimate (1: as estimated)",
        num_format="0.0",
        crossing=1,
        label_position="low",
    )
    for driver, (shape, color) in SHAPES.items():
        if driver in runs:
            first, last = (FIRST + at for at in runs[driver])
            chart.add_series(
                {
                    "name": driver.capitalize(),
                    "categories": [JOBS, first, NUMBER, last, NUMBER],
                    "values": [JOBS, first, RATIO, last, RATIO],
                    "marker": {"type": shape, "size": 8, "fill": {"color": color}, "border": {"color": QUIET}},
                }
            )
    told = "Scatter chart: actual over estimate of time and material of each closed job, in the order of closing"
    sheet.insert_chart(row, 0, chart, {"description": told})
