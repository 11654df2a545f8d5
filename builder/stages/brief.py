"""The job's result in a few facts, and in the one line that stands in the frozen rows of every sheet."""

from math import floor

from builder.records.questions import DRAFT, NO_PRICE, READY, SIGNED
from builder.sheets.grammar import Column as C
from builder.values import is_number


# fmt: off
def said_hundredths(amount):
    """An amount rounded to hundredths in its cell: what is said in words is rounded the same way by every program."""
    return f"INT({amount}*100+1/2+{{terms.slack}})/100"


def said_money(amount):
    """'48,230.00 USD', '48,230 JPY', of an amount in whole cents."""
    return f'FIXED({amount},{{constants.money_decimals}})&" "&{{book.currency}}'


HALF = "{constants.money_step}/2"
MOVED = (" less than was signed.", "what was signed.", " more than was signed.")
BY_TODAY = "by today's inputs"
STATE = (f'IF({{agreed.signed}}="",REPT("{NO_PRICE}",--({{checks.stops}}>0))'
         f'&REPT("{DRAFT}: "&{{checks.open}}&" OPEN",({{checks.stops}}=0)*({{checks.open}}>0))'
         f'&REPT("{READY}",({{checks.stops}}=0)*({{checks.open}}=0)),"{SIGNED}")')
FACTS = (
    C("price", "Price", "money", "{price.total@1}", ""),
    C("gallons", "To buy, all coatings", "volume",
      "SUMPRODUCT(--({purchases.scenario}=1),{purchases.bought})-{from_owner}"),
    C("from_owner", "From the owner", "volume", "SUMPRODUCT(--({purchases.scenario}=1),{purchases.from_owner})"),
    C("days", "Days of work", "days", "{days.days@1}"),
    C("finish", "Promised to be finished on", "date", "{days.promised@1}"),
    C("state", "State", "text", STATE, ""),
    C("first", "First to fix or to answer", "text", "{checks.first}", ""),
    C("priced_on", "Newest price in the catalogs", "date",
      'IF(MAX({coatings.priced_on},{nozzles.priced_on})=0,"",MAX({coatings.priced_on},{nozzles.priced_on}))', ""),
    C("stands", "The price that stands: the contract once it is signed", "money",
      'IF({agreed.signed}="",{price},{agreed.contract})', ""),
    C("moved", "Price by today's inputs, above what was signed", "money",
      'IF(ISNUMBER({price})*ISNUMBER({agreed.signed})=1,{price}-{agreed.signed},"")', ""),
)

TOLD = (
    C("told_price", "Price, in words", "text", said_money("{price}")),
    C("told_gallons", "To buy, in words", "text", f'{said_hundredths("{gallons}")}&" "&{{constants.volume_unit}}'),
    C("told_owner", "From the owner, in words", "text",
      f'IF({{from_owner}}=0,""," and "&{said_hundredths("{from_owner}")}&" "&{{constants.volume_unit}}&" from the '
      'owner")'),
    C("told_days", "Days, in words", "text", f'{said_hundredths("{days}")}&" day"&REPT("s",--({{days}}<>1))'),
    C("shown_price", "Price, whole, in words", "text",
      'IF({stands}="","",FIXED(INT({stands}+1/2+{terms.slack}),0)&" "&{book.currency})', ""),
    C("moved_way", "It is 1 less, 2 as it was, 3 more", "count",
      f"2+({{moved}}>{HALF})-({{moved}}<0-{HALF})", "moved"),
    C("told_moved", "How far it has moved, in words", "text",
      f'"By today\'s inputs the price is "&REPT({said_money("ABS({moved})")},--({{moved_way}}<>2))'
      f'&CHOOSE({{moved_way}},"{MOVED[0]}","{MOVED[1]}","{MOVED[2]}")', "moved"),
    C("told_stands", "Contract, in words", "text",
      f'IF({{agreed.signed}}="",""," · contract "&{said_money("{stands}")})', ""),
    C("next", "Next to do", "text", '{first}&""', ""),
    C("words", "All in one line", "text",
      '{state}&{told_stands}'
      '&IF({price}="",""," · "&{told_price}&" · "&{told_gallons}&" to buy"&{told_owner}&" · "&{told_days})'
      '&REPT(" · "&{first},--({first}<>""))', ""),
)
# fmt: on


def hundredths(est, value, quantity):
    """The shown figure of a value, rounded to hundredths."""
    return floor(est.units.to_cell(value, quantity) * 100 + 0.5 + est.terms.slack) / 100


def plain(number):
    """'12.5'"""
    return f"{number:.15g}"


def money(est, amount):
    """'48,230.00 USD', '48,230 JPY', of an amount in whole cents."""
    return f"{est.units.amount(est.units.to_cell(amount, 'money'))} {est.units.currency}"


def state(checks, signed=None):
    """The state of a price: signed, whatever is to fix since; else none, a draft with so many questions open, ready."""
    if signed is not None:
        return SIGNED
    if checks.stops:
        return NO_PRICE
    return f"{DRAFT}: {checks.open:g} OPEN" if checks.open else READY


def brief(est):
    row, base = est.rows["brief"][0], est.rows["price"][0]
    agreed = est.rows["agreed"][0]
    row.state, row.first = state(est.checks, agreed.signed), est.checks.first
    first = f" · {row.first}" if row.first else ""
    dates = [one.priced_on for block in ("coatings", "nozzles") for one in est.rows[block] if is_number(one.priced_on)]
    row.priced_on = max(dates, default=0) or None
    row.price = base.total
    row.next = row.first
    _signed(est, row, agreed)
    if row.price is None:
        row.words = row.state + (row.told_stands or "") + first
        return
    base_buys = [one for one in est.rows["purchases"] if one.live and one.scenario == 1]
    row.from_owner = sum(one.from_owner for one in base_buys)
    row.gallons = sum(one.bought for one in base_buys) - row.from_owner
    row.days, row.finish = est.rows["days"][0].days, est.rows["days"][0].promised
    row.told_price = money(est, row.price)
    row.told_gallons, owners = (
        f"{plain(hundredths(est, one, 'volume'))} {est.units.shown('volume')}" for one in (row.gallons, row.from_owner)
    )
    row.told_owner = f" and {owners} from the owner" if row.from_owner else None
    row.told_days = f"{plain(hundredths(est, row.days, 'days'))} day{'' if row.days == 1 else 's'}"
    row.words = (
        f"{row.state}{row.told_stands or ''} · {row.told_price} · {row.told_gallons} to buy{row.told_owner or ''} · "
        f"{row.told_days}{first}"
    )


def _signed(est, row, agreed):
    """The price that stands, and how far that of today's inputs has moved from what was signed."""
    row.stands = row.price
    if agreed.signed is not None:
        row.stands = agreed.contract
        row.told_stands = f" · contract {money(est, row.stands)}"
    if agreed.signed is not None and row.price is not None:
        row.moved = row.price - agreed.signed
        half = est.units.from_cell(est.units.money_step, "money") / 2
        way = (row.moved > half) - (row.moved < -half)
        row.moved_way = 2.0 + way
        row.told_moved = f"By today's inputs the price is {money(est, abs(row.moved)) if way else ''}{MOVED[1 + way]}"
    if row.stands is not None:
        whole = floor(est.units.to_cell(row.stands, "money") + 0.5 + est.terms.slack)
        row.shown_price = f"{whole:,.0f} {est.units.currency}"
