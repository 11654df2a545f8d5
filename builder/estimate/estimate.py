"""The estimate: one chain of numbers from takeoff to price, in the order in which it flows."""
from builder.estimate import (
    areas,
    bid,
    brief,
    chance,
    checks,
    cost,
    crew,
    days,
    drawn,
    film,
    gallons,
    hours,
    issued,
    picks,
    shown,
    sizes,
    stock,
    trials,
    weather,
)
from builder.estimate.constants import shown_constants
from builder.estimate.rows import Judge, entry_rows
from builder.estimate.scenarios import SCENARIOS
from builder.records.kinds import CATALOGS, KINDS
from builder.records.sources import SOURCES
from builder.records.words import BESIDE, WORDS

STAGES = (
    stock.nozzles, stock.coatings, stock.pumps, stock.kit, stock.holidays,
    areas.systems, areas.lines, areas.openings, areas.areas, areas.sums,
    film.films, film.chains, trials.trials, picks.fitting, picks.scores, picks.best, picks.picks,
    gallons.gallons, drawn.most, drawn.drawn, gallons.purchases, sizes.sizes, hours.hours, hours.pump_use, hours.tasks,
    days.days, days.reach_use, cost.costs, chance.ranges, stock.ages, cost.margins, checks.checks, cost.prices, weather.readings, shown.beside, issued.issued,
    brief.brief, bid.scope, bid.bid, crew.crew,
)


def capacities(lines=100, **more):
    """Rows of every block. `lines` of takeoff; any other block by its key."""
    rows = {kind.key: kind.capacity for kind in KINDS.values() if not kind.upright}
    rows.update({"takeoff": lines}, **more)
    rows["issued"] = 1 + sum(1 if kind.upright else rows[kind.key] for kind in CATALOGS)
    coats = rows["coats"]
    rows.update(areas=rows["takeoff"], films=coats, trials=coats * rows["nozzles"], fit=rows["nozzles"], picks=coats, gallons=coats,
                purchases=coats * len(SCENARIOS), sizes=rows["nozzles"], hours=coats, task_hours=rows["tasks"],
                words=max(map(len, (*WORDS.values(), *BESIDE.values()))), sources=len(SOURCES),
                days=len(SCENARIOS), choices=rows["nozzles"], curve=drawn.POINTS, brief=1,
                scope=coats, bid=1, crew_card=coats, cost=len(SCENARIOS), range=len(SCENARIOS), price=len(SCENARIOS))
    return rows


class Estimate:
    """Rows by block key, SI inside. `values` are those of `records.load`; faulty and blank ones are judged, not refused.

    types: block -> the type of its rows, of the names that the sheets declare; `jobs.estimated` brings both together.
    """

    def __init__(self, values, units, capacity, types):
        self.units = units
        self.capacity = capacity
        self.rows = entry_rows(values, capacity, types)
        for key, count in {**capacity, "checks": 1, "constants": 1, "book": 1}.items():
            self.rows.setdefault(key, [types[key](no) for no in range(1, count + 1)])
        self.judge = Judge(self.rows, units)
        for kind in KINDS.values():
            self.judge.run(kind)
            if kind.key == "nozzles":
                self.judge.name_as(kind, stock.nozzle_name)
        self.job, self.terms = self.rows["job"][0], self.rows["terms"][0]
        self.exposure_at = self.judge.at("exposures", self.job.exposure)
        self.checks = self.rows["checks"][0]
        self.rows["constants"][0].set(**shown_constants(units, capacity["nozzles"]))
        for stage in STAGES:
            stage(self)

    def row(self, block, no):
        """The row of that number; None for None."""
        return None if no is None else self.rows[block][no - 1]
