"""What a book is made of, in order: its sheets, their blocks and rows, and the steps of the model that fill them."""

from dataclasses import dataclass

from builder.records.kinds import CATALOGS, KINDS
from builder.records.lookups import BESIDE, LOOKUPS
from builder.records.scenarios import SCENARIOS
from builder.records.sources import SOURCES
from builder.sheets.judging import judging, limits, upright
from builder.stages import (
    areas,
    bid,
    book,
    brief,
    budget,
    buying,
    checks,
    choice,
    coats,
    constants,
    contingency,
    cost,
    counter,
    crew,
    days,
    drawn,
    entries,
    gallons,
    hours,
    in_use,
    issued,
    lists,
    parts,
    picks,
    priced,
    readings,
    setting,
    shopping,
    sizes,
    stock,
    strips,
    summary,
    trace,
    trials,
)


# fmt: off
@dataclass(frozen=True)
class Sheet:
    """A sheet: its group (enter, read, run, keep; working: hidden) and what it is for, in one line."""

    title: str
    group: str
    purpose: str


# fmt: off
SHEETS = (
    Sheet("Summary", "enter", "Estimate of a spray-painting job, from measured surfaces to price"),
    Sheet("Job", "enter", "The job as a whole: who, where, with what crew and pump; leave a figure blank to use Terms"),
    Sheet("Takeoff", "enter", "One row a measured surface: where it is, its system, its size"),
    Sheet("Openings", "enter", "Doors and windows of takeoff lines, named by the line's tag"),
    Sheet("Paint", "enter",
          "Systems, one row a kind of surface with its own coats; below, what goes on each, in order"),
    Sheet("Tasks", "enter", "Work beside the coats: washing, masking, setting up"),
    Sheet("Price", "read", "What the price is made of, what is paid when, the price of each part of the work"),
    Sheet("Bid", "read", "For the customer: what is done, for how much, under what conditions"),
    Sheet("Shopping", "read", "What to buy, then what each coat takes"),
    Sheet("Crew card", "read",
          "For the crew: nozzle, pressure, hand, film and weather of each coat, in the order of the work"),
    Sheet("Nozzles", "read", "The size for each coat, the next best, and why; below, every size for one coat"),
    Sheet("Wear budget", "read", "Nozzles in lives: what the job wears off, what the kit still gives, what to buy"),
    Sheet("Trace", "read", "How the figures of one coat came about, a line at a time"),
    Sheet("Checks", "read", "Everything that is counted before the price may be trusted"),
    Sheet("Kit", "run", "Nozzles you have, and how far they are used"),
    Sheet("Weather", "run", "Readings of the day: is the face dry enough to coat?"),
    Sheet("Terms", "keep", "How this contractor works and charges"),
    Sheet("Coatings", "keep", "Coatings: figures of the data sheets, packs and prices"),
    Sheet("Nozzle sizes", "keep",
          "Families, named by what they do; below, sizes: leading digits half the fan in inches at 12 inches, "
          "last two the orifice in thou"),
    Sheet("Pumps", "keep", "Pumps with hose and whip"),
    Sheet("Surfaces", "keep",
          "Surfaces: loss, width, hand speed, handling; below, profiles: coefficients of measurement with their "
          "standard"),
    Sheet("Task rates", "keep", "Work rates of tasks"),
    Sheet("Lists", "keep", "Crews, exposure to wind and weather, access to high work, days off"),
    Sheet("Sources", "keep",
          "Where each equation and each default comes from, and how to put your own in its place"),
    Sheet("Entries", "working", "Every entered row judged field by field, and what follows from it alone"),
    Sheet("Areas", "working", "Measured, coated and work area of each takeoff line"),
    Sheet("Film", "working", "What belongs to a coat alone, whatever nozzle sprays it"),
    Sheet("Nozzle check", "working",
          "Every coat tried with every size: flow, hand speed, cost, and why a size does not fit"),
    Sheet("Fit", "working", "Sizes down, coats across: cost per area where it fits, the reason where it does not"),
    Sheet("Picks", "working",
          "The nozzle of each coat: least cost among those that fit, the next best, your own choice before both"),
    Sheet("Sizes", "working", "Nozzles due, left in the kit, to buy"),
    Sheet("Gallons", "working", "Coating of each coat, loss, overspray and nozzle wear included"),
    Sheet("Purchases", "working", "Whole packs of each coating and color at the lowest cost"),
    Sheet("Hours", "working", "Hours of each coat: trigger and handling"),
    Sheet("Task hours", "working", "Hours and material of each task"),
    Sheet("Days", "working", "Labor, visits and finish date of the base and of each alternate"),
    Sheet("Cost", "working", "Cost of the base and of each alternate, item by item"),
    Sheet("Risk", "working",
          "How sure the cost is: area, material, time and wear, and the contingency that follows"),
    Sheet("Price workings", "working", "From cost to price: contingency, margin, tax, payments"),
    Sheet("Parts", "working", "What each part of the work costs in itself, and its part of the price"),
    Sheet("Shopping workings", "working", "What is bought and what it adds up to, line by line"),
    Sheet("Summary workings", "working", "The job's result in a few facts, and in one line"),
    Sheet("Coat words", "working", "The coats in the order of the work, and what the Crew card says of each"),
    Sheet("Views", "working", "What Nozzles and Trace show of the coat that is chosen there"),
    Sheet("Words", "working", "Closed lists of words"),
    Sheet("Limits", "working", "Smallest and largest of every number that may be entered"),
    Sheet("Constants", "working", "Scales between the units of this book"),
    Sheet("As issued", "working",
          "The catalogs as this book was made, so that a change in it can be told from a change of theirs"),
)
# fmt: on


def blocks(units, capacity):
    """Every block of a book in these units, with `capacity[key]` rows."""
    judged = (
        stock.kit_block(units),
        stock.nozzles_block(units),
        stock.coatings_block(units),
        stock.pumps_block(units),
        stock.access_block(units),
        stock.holidays_block(units),
        areas.systems_block(units),
        areas.openings_block(units),
        hours.tasks_block(units),
        *(
            judging(KINDS[key], units)
            for key in ("takeoff", "coats", "families", "surfaces", "profiles", "rates", "crews", "exposures")
        ),
    )
    return (
        *upright(KINDS["job"], units),
        *upright(KINDS["terms"], units),
        *readings.weather_blocks(units),
        *entries.TABLES,
        *judged,
        areas.AREAS,
        coats.FILM,
        trials.trials_block(capacity["nozzles"]),
        picks.fit_block(capacity["coats"]),
        picks.PICKS,
        drawn.CHOICES,
        drawn.CURVE,
        gallons.GALLONS,
        gallons.purchases_block(capacity["coats"]),
        sizes.SIZES,
        hours.HOURS,
        hours.TASK_HOURS,
        days.DAYS,
        cost.COST,
        contingency.RISK,
        cost.PRICE,
        *checks.CHECKS,
        lists.WORD_LISTS,
        *limits(KINDS.values()),
        constants.CONSTANTS,
        lists.SOURCE_LIST,
        issued.ISSUED,
        *parts.BLOCKS,
        counter.COUNTER,
        *buying.BLOCKS,
        *shopping.BLOCKS,
        *priced.BLOCKS,
        *summary.BLOCKS,
        *bid.bid_blocks(capacity["tasks"], capacity["scope"]),
        book.BOOK,
        in_use.IN_USE,
        *choice.nozzle_blocks(units, capacity["coats"]),
        *budget.wear_blocks(units),
        crew.said_block(units),
        *strips.strip_blocks(units),
        *trace.trace_blocks(units),
    )


def names(units, capacity):
    """Block -> the keys of its columns: what a row of the model may hold, and no other name."""
    found = {}
    for block in blocks(units, capacity):
        found.setdefault(block.key, set()).update(column.key for column in block.columns)
    return found


def capacities(lines=100, **more):
    """Rows of every block. `lines` of takeoff; any other block by its key."""
    rows = {kind.key: kind.capacity for kind in KINDS.values() if not kind.upright}
    rows.update({"takeoff": lines}, **more)
    rows["issued"] = 1 + sum(1 if kind.upright else rows[kind.key] for kind in CATALOGS)
    coats = rows["coats"]
    rows.update(
        areas=rows["takeoff"],
        film=coats,
        trials=coats * rows["nozzles"],
        fit=rows["nozzles"],
        picks=coats,
        gallons=coats,
        purchases=coats * len(SCENARIOS),
        sizes=rows["nozzles"],
        hours=coats,
        task_hours=rows["tasks"],
        words=max(map(len, (*LOOKUPS.values(), *BESIDE.values()))),
        sources=len(SOURCES),
        days=len(SCENARIOS),
        choices=rows["nozzles"],
        curve=drawn.POINTS,
        brief=1,
        scope=coats,
        bid=1,
        in_use=coats,
        pick_list=coats,
        chosen=1,
        ranking=rows["nozzles"],
        size_list=rows["nozzles"],
        worn=rows["nozzles"],
        wear_total=1,
        wear_list=min(rows["nozzles"], coats + rows["kit"]),
        crew_card=coats,
        card_page=1,
        card_strip=coats,
        card_note=strips.pages(coats),
        traced=1,
        path=1,
        trace=1,
        cost=len(SCENARIOS),
        risk=len(SCENARIOS),
        price=len(SCENARIOS),
        **parts.rows(rows),
        **shopping.rows(rows),
        **priced.rows(rows),
        **summary.rows(rows),
    )
    return rows


STAGES = (
    stock.nozzles,
    stock.coatings,
    stock.pumps,
    stock.kit,
    stock.holidays,
    areas.systems,
    areas.lines,
    areas.openings,
    areas.areas,
    areas.sums,
    coats.films,
    coats.chains,
    trials.trials,
    picks.fitting,
    picks.scores,
    picks.best,
    picks.picks,
    setting.placed,
    setting.settings,
    gallons.gallons,
    drawn.most,
    drawn.drawn,
    gallons.purchases,
    sizes.sizes,
    hours.hours,
    stock.pump_use,
    hours.tasks,
    days.days,
    stock.access_use,
    cost.costs,
    contingency.ranges,
    stock.ages,
    cost.margins,
    checks.checks,
    cost.prices,
    readings.readings,
    entries.beside,
    issued.issued,
    brief.brief,
    parts.own_costs,
    parts.parts,
    counter.counter,
    buying.buying,
    shopping.shopping,
    priced.priced,
    summary.summary,
    bid.scope,
    bid.bid,
    crew.crew,
    strips.strips,
    in_use.in_use,
    choice.chosen,
    choice.ranking,
    choice.nozzle_lists,
    budget.budget,
    trace.chosen,
    trace.trace,
)
# fmt: on
