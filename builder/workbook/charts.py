"""Charts that answer a question: native, live, readable in grey, with titles, units and alt text."""
from builder.workbook.theme import EDGE, FONT, INK


def how_sure(writer):
    """Range: what the base job may cost, and in how many jobs of ten it costs less."""
    first, last = writer.layout.places["range", "p10"], writer.layout.places["range", "p90"]
    chart = writer.book.add_chart({"type": "bar"})
    chart.add_series({
        "name": "Base",
        "categories": ["Range", first.row - 1, 0, last.row - 1, 0],
        "values": ["Range", first.row - 1, first.col, last.row - 1, first.col],
        "fill": {"color": EDGE}, "border": {"color": INK}, "gap": 60,
        "data_labels": {"value": True, "num_format": "#,##0", "font": {"name": FONT, "color": INK}},
    })
    currency = writer.units.currency
    chart.set_title({"name": f"How sure is the cost of the base job? ({currency})", "name_font": {"name": FONT, "size": 12, "color": INK}})
    chart.set_x_axis({"name": f"Cost ({currency})", "min": 0, "num_format": "#,##0", "num_font": {"name": FONT}, "major_gridlines": {"visible": False}})
    chart.set_y_axis({"reverse": True, "num_font": {"name": FONT}})
    chart.set_legend({"none": True})
    chart.set_size({"width": 620, "height": 300})
    writer.sheets["Range"].insert_chart(4, 6, chart, {
        "description": "Bar chart: the cost that one job in ten, half of all, four in five and nine in ten stay below"})
