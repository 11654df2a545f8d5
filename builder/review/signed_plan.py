"""The rows of a signed plan: what each coat and each task takes, and what it costs in itself (E46)."""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from builder.quantities import Value
from builder.records.fields import Record
from builder.records.rules import Name
from builder.sheets.rows import Row
from builder.stages.estimate import Estimate
from builder.values import same

LETTERS = "ABC"
FLUSHING = "Flushing pumps"
# What a row tells in hundredths: its quantity, and whether what is rounded off goes on to the next row.
ROUNDED = {
    "area": ("area", False),
    "hours": ("time", True),
    "gallons": ("volume", False),
    "bought": ("volume", False),
    "cost": ("money", True),
}


class _Paint(NamedTuple):
    """What is bought for a coat: volume and money."""

    bought: float
    cost: float


class _Work(NamedTuple):
    """Hours of a task as they are paid, and what it costs: wages and material."""

    hours: float
    cost: float


def plan_rows(est: Estimate) -> tuple[dict[int, Value], list[Record]]:
    """(row of a coat -> its tag, the rows of the plan in SI): coats in the order of the work, then tasks.

    In hundredths of what the book shows, hours and cost so that they add up.
    """
    tags = _tags(est)
    left: defaultdict[tuple[Value, str], float] = defaultdict(float)
    rows = [*_coats(est, tags), *_tasks(est, tags)]
    for row in rows:
        for key, (quantity, adds) in ROUNDED.items():
            if key in row:
                decimals = est.units.cents if quantity == "money" else 2
                exact = est.units.to_cell(row[key], quantity) + left[row["alternate"], key]
                told = round(exact, decimals) + 0.0  # no -0
                left[row["alternate"], key] = (exact - told) * adds
                row[key] = est.units.from_cell(told, quantity)
    return tags, rows


def letter_of(only: float) -> str | None:
    """The alternate of a scenario; None for the base."""
    return LETTERS[int(only) - 2] if only else None


def _in_order(est: Estimate) -> list[Row]:
    """The coats that are laid, in the order of Bid and Crew card."""
    return sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)


def _free(letter: str, used: set[str]) -> Iterator[str]:
    """C1, C2, ... but those that are used."""
    number = 0
    while True:
        number += 1
        if same(f"{letter}{number}") not in used:
            yield f"{letter}{number}"


def _tags(est: Estimate) -> dict[int, Value]:
    """Row of a coat -> its tag in the plan: its own where the log can name it, else the next that is free."""
    said, own = est.judge.as_text, [one.tag for one in est.rows["coats"]]
    free, tags = _free("C", {same(said(tag)) for tag in own if tag is not None}), {}
    for coat in _in_order(est):
        tag = own[coat.no - 1]
        usable = tag is not None and not Name(unique=False).bad(tag, est.judge)
        tags[coat.no] = tag if usable else next(free)
    return tags


def _coats(est: Estimate, tags: dict[int, Value]) -> Iterator[Record]:
    said = est.judge.as_text
    for gallon in _in_order(est):
        entry, film, hour = (est.row(block, gallon.no) for block in ("coats", "film", "hours"))
        paint, size = _paint(est, gallon), est.row("nozzles", gallon.size_at)
        thinner = gallon.thinner_cost + est.terms.sundries * (paint.cost + gallon.thinner_cost)
        nozzles = gallon.due * size.nozzle_price if size else 0.0
        part = f", {gallon.share_told:g} % of the area" if 0 < gallon.share_told < 100 else ""
        yield {
            "tag": tags[gallon.no],
            "what": f"{said(film.system)}, {said(film.coating)}, {entry.times:g} coat{'s' * (entry.times > 1)}{part}",
            "coating": entry.coating,
            "color": entry.color,
            "alternate": letter_of(gallon.only),
            "area": film.surface_coats,
            "hours": hour.labor / est.basics.productive,
            "gallons": gallon.need,
            "bought": paint.bought,
            "cost": paint.cost + thinner + nozzles + hour.cost + gallon.change_wages,
        }


def _paint(est: Estimate, gallon: Row) -> _Paint:
    """The part of a coat in the packs of its coating and color, in proportion to need; of an alternate in what it adds
    to those of the base.
    """
    coats = est.rows["gallons"]
    need = sum(one.need for one in coats if one.live and one.lead == gallon.lead and one.only == gallon.only)
    packs = [est.rows["purchases"][len(coats) * at + gallon.lead - 1] for at in (max(0, int(gallon.only) - 1), 0)]
    there, base = (_Paint(one.bought or 0.0, one.cost or 0.0) for one in packs)
    if gallon.only:
        there = _Paint(*(max(0.0, more - less) for more, less in zip(there, base)))
    return _Paint(*(gallon.need / need * amount for amount in there))


def _tasks(est: Estimate, tags: dict[int, Value]) -> Iterator[Record]:
    """A row a task that counts. What an alternate adds to tasks of the whole job is in none."""
    said, free = est.judge.as_text, _free("T", {same(est.judge.as_text(tag)) for tag in tags.values()})
    for task in est.rows["task_hours"]:
        if not task.live:
            continue
        system = est.row("systems", task.system_at)
        only = system.only if system else 0.0
        work = _work(est, task, max(0, int(only) - 1))
        if work.hours or work.cost:
            what = f"{said(task.task)}, {said(system.name)}" if system else said(task.task)
            yield {
                "tag": next(free),
                "what": what,
                "alternate": letter_of(only),
                "hours": work.hours,
                "cost": work.cost,
            }
    if flushing := est.rows["plan"][0].flush_labor / est.basics.productive:
        wages = flushing * est.rows["cost"][0].wage
        yield {"tag": next(free), "what": FLUSHING, "alternate": None, "hours": flushing, "cost": wages}


def _work(est: Estimate, task: Row, at: int) -> _Work:
    """A task in its scenario: once, on all its visits, or with all loads of the pumps."""
    day = est.rows["days"][at]
    loads = day.loads * task.hours[at] * task.loads
    hours = (task.labor[at] + loads) / est.basics.productive + day.visits * task.visit_hours[at]
    material = task.once_material[at] + day.visits * task.visit_material[at]
    material += day.loads * task.material[at] * task.by_load
    return _Work(hours, hours * est.rows["cost"][0].wage + material)
