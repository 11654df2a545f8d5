"""Charts that answer a question: native, live, readable in gray (outline, pattern and shape tell series apart), with
titles, units and alt text.
"""

from builder.workbook.palette import FONT, HEAD, INK, PAPER, QUIET, RULE

LETTERS = {"name": FONT, "size": 9, "color": INK}


def draw(writer):
    _where_it_goes(writer)
    _which_sizes(writer)
    _when_to_change(writer)


def chart_of(book, kind, question, across, up, **axes):
    """A chart with its question as title and its axes named; `axes`: more options of the axis x and y."""
    chart = book.add_chart(kind)
    chart.set_title({"name": question, "name_font": {"name": FONT, "size": 12, "color": INK}, "overlay": False})
    for set_axis, name, key in ((chart.set_x_axis, across, "x"), (chart.set_y_axis, up, "y")):
        set_axis(
            {
                "name": name,
                "num_font": LETTERS,
                "name_font": LETTERS,
                "line": {"color": INK},
                "major_gridlines": {"visible": False},
                **axes.get(key, {}),
            }
        )
    chart.set_legend({"none": True})
    chart.set_chartarea({"border": {"color": RULE}, "fill": {"color": PAPER}})
    return chart


def _bars(writer, block, first_key, last_key, question, told):
    """Lines that stand one below the other on a page, as bars with their figures."""
    first, last = writer.layout.places[block, first_key], writer.layout.places[block, last_key]
    chart = chart_of(
        writer.book, {"type": "bar"}, question, "", "", x={"visible": False, "min": 0}, y={"reverse": True}
    )
    chart.add_series(
        {
            "name": "Part of the price",
            "categories": [first.sheet, first.row - 1, 0, last.row - 1, 0],
            "values": [first.sheet, first.row - 1, first.col, last.row - 1, first.col],
            "fill": {"color": HEAD},
            "gap": 50,
            "data_labels": {"value": True, "num_format": "#,##0", "font": LETTERS},
        }
    )
    chart.set_size({"width": 540, "height": 340})
    writer.sheets[first.sheet].insert_chart(first.row - 2, first.col + 3, chart, {"description": told})


def _where_it_goes(writer):
    """Beside the lines of Price."""
    currency = writer.units.currency
    _bars(
        writer,
        "priced",
        "paint",
        "profit",
        f"Where does the price go? ({currency})",
        "Bar chart: the parts of the price before sales tax: paint, nozzles and other material, labor, rental, "
        "tax on purchases, overhead, contingency, profit",
    )


def _points(writer, block, across, up, **look):
    """A series of points from two columns of one block."""
    first, second = (writer.layout.places[block, key] for key in (across, up))
    return {
        "categories": [first.sheet, first.row - 1, first.col, first.row + first.rows - 2, first.col],
        "values": [second.sheet, second.row - 1, second.col, second.row + second.rows - 2, second.col],
        **look,
    }


def _marker(shape, size, color):
    return {"type": shape, "size": size, "fill": {"color": color}, "border": {"color": INK}}


def _which_sizes(writer):
    """Beside the sizes: flow against fan of those that fit the chosen coat; the one used is the large diamond."""
    units = writer.units
    chart = chart_of(
        writer.book,
        {"type": "scatter"},
        "Which sizes fit this coat?",
        f"Fan ({units.shown('width')})",
        f"Flow ({units.shown('flow')})",
        x={"num_format": "0"},
        y={"num_format": "0.00", "min": 0},
    )
    chart.add_series(
        _points(writer, "choices", "fan", "flow", name="Sizes that fit", marker=_marker("circle", 7, QUIET))
    )
    chart.add_series(
        _points(
            writer,
            "choices",
            "used_fan",
            "used_flow",
            name="Nozzle used",
            marker=_marker("diamond", 13, RULE),
            data_labels={"custom": [{"value": "used"}], "value": True, "position": "right", "font": LETTERS},
        )
    )
    _beside_sizes(
        writer,
        chart,
        0,
        "Scatter chart: fan and flow of every nozzle size that fits the chosen coat; the one used is a large diamond",
    )


def _when_to_change(writer):
    """Below it: what nozzles and waste cost, by the volume after which the nozzle is changed."""
    units = writer.units
    chart = chart_of(
        writer.book,
        {"type": "scatter", "subtype": "smooth"},
        "When does a new nozzle pay on it?",
        f"Sprayed through it ({units.shown('volume')})",
        f"Nozzles and waste ({units.shown('money_volume')})",
        x={"num_format": "0", "min": 0},
        y={"num_format": "0.00"},
    )
    chart.add_series(
        _points(
            writer,
            "curve",
            "through",
            "cost",
            name="Cost",
            line={"color": QUIET, "width": 2.25},
            marker={"type": "none"},
        )
    )
    for volume, cost, words, side in (
        ("pays", "pays_cost", "replacing pays", "above"),
        ("worn", "worn_cost", "worn out", "below"),
    ):
        chart.add_series(
            _points(
                writer,
                "curve",
                volume,
                cost,
                name=words,
                line={"none": True},
                marker=_marker("diamond", 11, RULE),
                data_labels={"custom": [{"value": words}], "value": True, "position": side, "font": LETTERS},
            )
        )
    _beside_sizes(
        writer,
        chart,
        15,
        "Line chart: cost of nozzles and waste for each volume, by the volume after which the nozzle is changed; "
        "diamonds mark where replacing pays and where it is worn out",
    )


def _beside_sizes(writer, chart, down, told):
    """To the right of the sizes of the chosen coat, so many rows below their header."""
    place = writer.layout.places["size_list", "cost"]
    chart.set_size({"width": 500, "height": 290})
    chart.show_hidden_data()  # its figures stand on workings
    writer.sheets[place.sheet].insert_chart(place.row - 2 + down, place.col + 2, chart, {"description": told})


FEWEST_DAYS, SPARE_DAYS, CHART_ROWS = 10, 5, 16  # of the chart: days at least, days after the plan's last, its height


def hours_by_day(writer, row):
    """On Progress, from a row (zero-based): hours planned, earned and paid, each up to the evening of the day. Returns
    its last row.
    """
    places, week = writer.layout.places, writer.estimate.rows["week"][0]
    ended = sum(1 for one in writer.estimate.rows["log_days"] if 0 < one.date <= week.as_of)
    shown = min(places["log_days", "date"].rows, max(FEWEST_DAYS, int(week.plan_days) + SPARE_DAYS, ended + SPARE_DAYS))
    chart = chart_of(
        writer.book,
        {"type": "scatter", "subtype": "straight_with_markers"},
        "Are the hours as planned?",
        "Evening of",
        "Hours (h)",
        x={"num_format": "mmm d", "major_unit": max(1, shown // 7)},
        y={"num_format": "0", "min": 0},
    )
    for key, date, dash, shape in (
        ("planned", "date", "dash", "none"),
        ("earned", "until", "solid", "circle"),  # what came later is drawn where the last day is: a line that ends
        ("paid", "until", "solid", "square"),
    ):
        place, day = places["log_days", key], places["log_days", date]
        last = place.row + shown - 2
        chart.add_series(
            {
                "name": key,
                "categories": [day.sheet, day.row - 1, day.col, last, day.col],
                "values": [place.sheet, place.row - 1, place.col, last, place.col],
                "line": {"color": INK if key == "paid" else QUIET, "width": 2, "dash_type": dash},
                "marker": {"type": "none"} if shape == "none" else _marker(shape, 6, RULE if key == "paid" else HEAD),
            }
        )
    chart.set_legend({"position": "bottom", "font": LETTERS})
    chart.set_size({"width": 900, "height": 300})
    chart.show_hidden_data()  # its figures stand on workings
    told = (
        "Line chart: hours planned, earned and paid up to the evening of each working day; the lines above say the same"
    )
    writer.sheets["Progress"].insert_chart(row, 0, chart, {"description": told})
    return row + CHART_ROWS
