"""Books that are unlike a usual job: one of millions with long names, and some that nobody thought of."""

from types import SimpleNamespace

from hypothesis import HealthCheck, Phase, given, settings

from builder.jobs import open_job
from builder.quantities import Units
from builder.stages.book import room_facts
from builder.stages.estimate import Estimate
from builder.stages.order import blocks, capacities
from builder.workbook.layout import Layout
from builder.workbook.write import prepared
from support.editing import SETTINGS
from support.made_up import ROOM, jobs
from support.places import BOATHOUSE
from support.small import CATALOGS, small_books


def _written(folder, name, estimate, facts):
    layout, path = Layout(blocks(estimate.units, estimate.capacity), estimate.capacity), folder / f"{name}.xlsx"
    path.write_bytes(prepared(layout, estimate, facts).done())
    return SimpleNamespace(layout=layout, path=path, estimate=estimate)


def drawn(system, folder):
    """The last of a few jobs that hypothesis draws, as a book of small capacity."""
    found = []

    @settings(
        max_examples=4,
        deadline=None,
        derandomize=True,
        database=None,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @given(job=jobs(system))
    def draw(job):
        found.append(job)

    draw()
    values, units = found[-1]
    room = capacities(**ROOM)
    facts = {**SETTINGS, **room_facts(room), "units": system, "currency": units.currency}
    return _written(folder, f"drawn {system}", Estimate(values, units, room), facts)


def large(folder):
    """The boathouse in yen with prices 150 times its own and every system and coating of 60 letters."""
    with small_books():
        opened = open_job(BOATHOUSE, [CATALOGS])
    units = Units("us", "JPY", 150.0)
    longer = {
        row["name"]: f"{row['name']} with a name as long as it can be".ljust(60, "x")[:60]
        for key in ("systems", "coatings")
        for row in opened.values[key]
    }
    for block, rows in opened.values.items():
        named = ("name", "system", "coating") if block in ("systems", "coatings") else ("system", "coating")
        for row in rows:
            row.update({key: longer[value] for key, value in row.items() if key in named and value in longer})
    estimate = Estimate(opened.values, units, opened.estimate.capacity)
    assert estimate.rows["price"][0].total * 150 > 1e6 and estimate.checks.stops == 0, estimate.checks.first
    return _written(folder, "large", estimate, {**opened.settings, "currency": "JPY", "exchange": 150.0})


ODD = {
    "large": large,
    "drawn at random": lambda folder: drawn("us", folder),
    "drawn at random in metric": lambda folder: drawn("metric", folder),
}
