"""The sheets of a book, in their order."""

from dataclasses import dataclass

from builder.records.kinds import TABLES

SIGNING = ("signed_on", "signed_price", "closed_on")  # of Job


# fmt: off
@dataclass(frozen=True)
class Sheet:
    """A sheet: its group and what it is for, in one line.

    Groups: enter, read, run, keep; week: what a signed job is run with, hidden before; working: hidden.
    """

    title: str
    group: str
    purpose: str


SHEETS = (
    Sheet("Summary", "enter", "Estimate of a spray-painting job, from measured surfaces to price"),
    Sheet("Job", "enter", "The job as a whole: who, where, with what crew and pump; leave a figure blank to use Terms"),
    Sheet("Takeoff", "enter", "One row a measured surface: where it is, its system, its size"),
    Sheet("Rooms", "enter", "One row a room: its walls, ceiling and base as lines of takeoff"),
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
    Sheet("Checks", "read", "What is to fix before there is a price, and what to answer before it is signed"),
    Sheet("Kit", "run", "Nozzles you have, and how far they are used; below, the guards on the van"),
    Sheet("Schedule", "run", "Who does what on which day, and whether the face is dry enough to coat"),
    Sheet("Log", "week", "One row a day and coat or task: who, how long, how much paint, how much area"),
    Sheet("Progress", "week", "What is done, what is to go, what it will come to, what paint to order"),
    Sheet("Changes", "week", "What was agreed after signing; below, bills, and the contract and plan as signed"),
    Sheet("Bill", "week", "For the customer: what the last bill asks for, and how it adds up"),
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
    Sheet("Lengths", "working", "Lengths typed as text, such as 14'6\", taken apart digit by digit"),
    Sheet("Areas", "working", "Measured, coated and work area of each line of takeoff and each part of a room"),
    Sheet("Film", "working", "What belongs to a coat alone, whatever nozzle sprays it"),
    Sheet("Nozzle check", "working",
          "Every coat tried with every size: flow, hand speed, cost, and why a size does not fit"),
    Sheet("Fit", "working",
          "Sizes down, coats across: the area that money pays for where a size fits, 0 where it does not"),
    Sheet("Picks", "working",
          "The nozzle of each coat: least cost among those that fit, the next best, your own choice before both"),
    Sheet("Sizes", "working", "Nozzles due, left in the kit, to buy; below, guards to buy"),
    Sheet("Gallons", "working", "Coating of each coat, loss, overspray and nozzle wear included"),
    Sheet("Purchases", "working", "Whole packs of each coating and color at the lowest cost"),
    Sheet("Hours", "working", "Hours of each coat: trigger and handling"),
    Sheet("Task hours", "working", "Hours and material of each task"),
    Sheet("Schedule workings", "working",
          "The working day, steps system by system, then in the order of the work; pumps and access on site"),
    Sheet("Days", "working", "Labor, visits and dates of the base and of each alternate"),
    Sheet("Cost", "working", "Cost of the base and of each alternate, item by item"),
    Sheet("Risk", "working",
          "How sure the cost is: area, material, time and wear, and the contingency that follows"),
    Sheet("Price workings", "working", "From cost to price: contingency, margin, tax, payments"),
    Sheet("Parts", "working", "What each part of the work costs in itself, and its part of the price"),
    Sheet("Shopping workings", "working", "What is bought and what it adds up to, line by line"),
    Sheet("Summary workings", "working", "The job's result in a few facts, and in one line"),
    Sheet("Coat words", "working", "The coats in the order of the work, and what the Crew card says of each"),
    Sheet("Views", "working", "What Nozzles and Trace show of the coat that is chosen there"),
    Sheet("Check counts", "working", "What stops the price and what is asked of it, each counted"),
    Sheet("Questions", "working", "What was found, put in the order in which Checks tells it"),
    Sheet("Log workings", "working",
          "The log against the signed plan, row by row; what it adds up to by coat, task and day"),
    Sheet("Progress workings", "working", "Where the job stands, figure by figure"),
    Sheet("Contract workings", "working", "What agreed changes add to the contract, and what each bill asks for"),
    Sheet("Words", "working", "Closed lists of words"),
    Sheet("Limits", "working", "Smallest and largest of every number that may be entered"),
    Sheet("Constants", "working", "Scales between the units of this book"),
    Sheet("As issued", "working",
          "The catalogs as this book was made, so that a change in it can be told from a change of theirs"),
)
# fmt: on
FOR_PEOPLE = frozenset(sheet.title for sheet in SHEETS if sheet.group != "working")  # all but workings
WEEK = frozenset(sheet.title for sheet in SHEETS if sheet.group == "week")


def in_sight(est):
    """Titles of the sheets that a book shows: those of a signed job's week once it is signed, or anything is typed."""
    typed = (row.filled for key, kind in TABLES.items() if kind.sheet in WEEK for row in est.rows[key])
    begun = any(getattr(est.job, key) is not None for key in SIGNING) or any(typed)
    return FOR_PEOPLE if begun else FOR_PEOPLE - WEEK
