"""The job's result in a few facts, and in the one line that stands in the frozen rows of every sheet."""
from math import floor

from builder.rules import is_number


def hundredths(est, value, quantity):
    """The shown figure of a value, rounded to hundredths."""
    return floor(est.units.to_cell(value, quantity) * 100 + 0.5 + est.terms.slack) / 100


def plain(number):
    """'12.5'"""
    return f"{number:.15g}"


def money(est, amount):
    """'48,230.00 USD', '48,230 JPY', of an amount in whole cents."""
    return f"{est.units.amount(est.units.to_cell(amount, 'money'))} {est.units.currency}"


def brief(est):
    row, base = est.rows["brief"][0], est.rows["price"][0]
    row.checks, row.first = est.checks.words, est.checks.first
    dates = [one.priced_on for block in ("coatings", "nozzles") for one in est.rows[block] if is_number(one.priced_on)]
    row.priced_on = max(dates, default=0) or None
    row.price = base.total
    if row.price is None:
        row.words = f"No price yet · {row.checks}"
        return
    base_buys = [one for one in est.rows["purchases"] if one.live and one.scenario == 1]
    row.from_owner = sum(one.from_owner for one in base_buys)
    row.gallons = sum(one.bought for one in base_buys) - row.from_owner
    row.days, row.finish = est.rows["days"][0].days, est.rows["days"][0].finish
    row.told_price = money(est, row.price)
    row.told_gallons, owners = (f"{plain(hundredths(est, one, 'volume'))} {est.units.shown('volume')}" for one in (row.gallons, row.from_owner))
    row.told_owner = f" and {owners} from the owner" if row.from_owner else None
    row.told_days = f"{plain(hundredths(est, row.days, 'days'))} day{'' if row.days == 1 else 's'}"
    row.words = f"Price {row.told_price} · {row.told_gallons} to buy{row.told_owner or ''} · {row.told_days} · {row.checks}"
