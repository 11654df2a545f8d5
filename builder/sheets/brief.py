"""The job's result in a few facts, and in the one line that stands in the frozen rows of every sheet."""
from builder.sheets.grammar import Column as C


def hundredths(amount):
    """An amount rounded to hundredths in its cell: what is said in words is rounded the same way by every program."""
    return f"INT({amount}*100+1/2+{{terms.slack}})/100"


def money(amount):
    """'48,230.00 USD', '48,230 JPY', of an amount in whole cents."""
    return f'FIXED({amount},{{constants.money_decimals}})&" "&{{book.currency}}'


FACTS = (
    C("price", "Price", "money", "{price.total@1}", ""),
    C("gallons", "To buy, all coatings", "volume", "SUMPRODUCT(--({purchases.scenario}=1),{purchases.bought})-{from_owner}"),
    C("from_owner", "From the owner", "volume", "SUMPRODUCT(--({purchases.scenario}=1),{purchases.from_owner})"),
    C("days", "Days of work", "days", "{days.days@1}"),
    C("finish", "Finished on", "date", "{days.finish@1}"),
    C("checks", "Checks", "text", "{checks.words}", ""),
    C("first", "First to put right", "text", "{checks.first}", ""),
    C("priced_on", "Newest price in the catalogues", "date",
      'IF(MAX({coatings.priced_on},{nozzles.priced_on})=0,"",MAX({coatings.priced_on},{nozzles.priced_on}))', ""),
)

TOLD = (
    C("told_price", "Price, in words", "text", money("{price}")),
    C("told_gallons", "To buy, in words", "text", f'{hundredths("{gallons}")}&" "&{{constants.volume_unit}}'),
    C("told_owner", "From the owner, in words", "text",
      f'IF({{from_owner}}=0,""," and "&{hundredths("{from_owner}")}&" "&{{constants.volume_unit}}&" from the owner")'),
    C("told_days", "Days, in words", "text", f'{hundredths("{days}")}&" day"&REPT("s",--({{days}}<>1))'),
    C("words", "All in one line", "text",
      'IF({price}="","No price yet","Price "&{told_price}&" · "&{told_gallons}&" to buy"&{told_owner}&" · "&{told_days})&" · "&{checks}', ""),
)
