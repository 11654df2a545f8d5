"""Bid: the customer's page, in words."""
from builder.estimate.areas import place
from builder.estimate.brief import money, plain
from builder.records.words import WORDS
from builder.rules import same, to_date
from builder.sheets.bid import CONDITIONS, FACT_LINES, LEAD, NO_PRICE, SIGNED, TERM_LINES


def _day(number):
    """'4 May 2026'"""
    date = to_date(number)
    return f"{date.day} {WORDS['month'][date.month - 1]} {date.year}"


def _typed(est, value):
    return None if value is None else est.judge.as_text(value)


def scope(est):
    """One row a coat that is laid, system by system, the base before the alternates."""
    if not est.rows["price"][0].live:
        return
    order = sorted((one for one in est.rows["gallons"] if one.place is not None), key=lambda one: one.place)
    seen = set()
    for row in est.rows["scope"]:
        row.live = 1.0
        if row.no > len(order):
            continue
        gallon = order[row.no - 1]
        row.coat_at, row.work, row.system_at = gallon.no, gallon.work, gallon.system_at
        row.colour = _typed(est, est.row("coats", gallon.no).colour)
        own = est.row("systems", gallon.system_at)
        row.alternate_told = None if own.alternate is None else f", alternate {WORDS['alternate'][place('alternate', own.alternate) - 1]}"
        row.surface_told = None if same(own.name) == same(own.surface) else f" ({est.judge.as_text(own.surface)})"
        row.first = float(gallon.system_at not in seen)
        seen.add(gallon.system_at)
        if row.first:
            row.system = est.judge.as_text(own.name) + (row.surface_told or "") + (row.alternate_told or "")
            row.area = own.measured


def bid(est):
    row, job, terms, price = est.rows["bid"][0], est.job, est.terms, est.rows["price"][0]
    row.set(firm=_typed(est, terms.firm), contact=_typed(est, terms.contact), licence=_typed(est, terms.licence), job_told=_typed(est, job.name))
    row.heading = "Bid for painting" + (f": {row.job_told}" if row.job_told else "")
    row.live = price.live
    if not row.live:
        row.state, row.missing = NO_PRICE, est.checks.first
        return
    row.client, row.site = _typed(est, job.client), _typed(est, job.site)
    _dates(est, row)
    _prices(est, row, price)
    _gather(est, row)
    row.exclusions = _typed(est, job.exclusions)
    row.lead = LEAD if est.checks.lead else None
    row.conditions = CONDITIONS
    row.set(**{key: formula.strip('"') for key, _, formula in SIGNED})
    for key, title, _ in (*FACT_LINES, *TERM_LINES, *SIGNED):
        setattr(row, f"name_{key}", title if getattr(row, key) else None)


def _dates(est, row):
    job, told = est.job, est.rows["brief"][0]
    row.until = f"{plain(est.terms.validity)} days"
    if job.date is not None:
        row.until_date = job.date + est.terms.validity
        row.dated, row.until_told = _day(job.date), f", until {_day(row.until_date)}"
        row.until += row.until_told
    row.start_told = None if job.start is None else f"begins {_day(job.start)}"
    row.finish_told = None if told.finish is None else f", finished about {_day(told.finish)}, weather permitting"
    row.work_days = f"{row.start_told + ', ' if row.start_told else ''}about {told.told_days} of work{row.finish_told or ''}"


def _prices(est, row, base):
    row.price, row.sales_tax, row.tax_told = money(est, base.total), base.tax, money(est, base.tax)
    row.tax = f"sales tax of {row.tax_told} included" if base.tax > 0 else "no sales tax is added"
    for other, letter in zip(est.rows["price"][1:], "abc"):
        if other.live:
            extra = money(est, abs(other.difference))
            setattr(row, f"extra_{letter}", extra)
            setattr(row, f"alternate_{letter}", f"{extra} {'less' if other.difference < 0 else 'more'}{', before tax' if base.tax > 0 else ''}")
    row.deposit = f"{money(est, base.deposit)} at signing" if base.deposit > 0 else "nothing at signing"
    if est.terms.stages > 1 and base.stage > 0:
        times = f"{plain(est.terms.stages - 1)} x " if est.terms.stages > 2 else ""
        row.stages = f"{times}{money(est, base.stage)} while the work goes on"
    row.last = f"{money(est, base.last)} when the work is done"


def _gather(est, row):
    """The names of the tasks of the base, each once."""
    so_far = row.task_0 = ", "
    for number, task in enumerate(est.rows["task_hours"], start=1):
        name = _typed(est, task.task)
        if task.live and task.scenarios[0] == 1 and f", {name}, " not in so_far:
            so_far += f"{name}, "
        setattr(row, f"task_{number}", so_far)
    row.gathered = row.tasks = so_far[2:-2] or None
