"""The contract: what was signed, and what agreed changes add to it (E51)."""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.bid import day, spoken_day, typed, typed_text
from builder.stages.cost import payable_formula
from builder.trade.price import payable
from builder.values import same

# fmt: off
SHEET = "Contract workings"
CHANGE_LINES = Block("change_lines", SHEET, (
    C("no", "Change", "count", label=lambda number: number),
    C("live", "Sound", "count", 'IF((N({row.sound})=1)*(N({basics.live})=1)=1,1,"")', ""),
    C("day", "Day", "count", "IF({live}=1,{row.date},0)", ""),
    C("told", "In words, for a bill", "text", f'{typed("{row.what}")}&", "&{day("{day}")}'),
    C("alternate", "Alternate taken", "text", '{row.alternate}&""'),
    C("by_alternate", "Price of the alternate in the contract", "money",
      'IF({alternate}="",0,SUMPRODUCT(--({contract.alternate}={alternate}),{contract.price}))'),
    C("by_work", "By area and hours", "money",
      'IF({row.area}="",0,{row.area}*{terms.extra_area})+IF({row.hours}="",0,{row.hours}*{terms.extra_hour})'),
    C("worth", "Adds to the contract", "money",
      f'IF({{row.amount}}="",{payable_formula("MAX(0,{by_work}+{by_alternate})")}'
      f'-{payable_formula("MAX(0,0-{by_work}-{by_alternate})")},{{row.amount}})'),
), {"row": At("changes", "{no}")}, "live")
AGREED = Block("agreed", SHEET, (
    C("signed", "Price as signed, with its day", "money",
      'IF((N({basics.live})=1)*ISNUMBER({job.signed_price})*ISNUMBER({job.signed_on})=1,{job.signed_price},"")', ""),
    C("changes", "Agreed changes", "money", "SUM({change_lines.worth})", "signed"),
    C("contract", "Contract with its changes", "money", "{signed}+{changes}", "signed"),
), form="upright", top=70)
BLOCKS = (CHANGE_LINES, AGREED)
# fmt: on


def changed(est):
    """What each change adds, and what the contract comes to with them."""
    terms, cent = est.terms, est.basics.cent
    for row, entry in zip(est.rows["change_lines"], est.rows["changes"]):
        row.live = 1.0 if entry.sound and est.basics.live else None
        row.day = entry.date if row.live else 0.0
        if not row.live:
            continue
        row.told = f"{typed_text(est, entry.what)}, {spoken_day(row.day)}"
        row.alternate = entry.alternate
        row.by_alternate = 0.0
        if entry.alternate is not None:
            own = [one for one in est.rows["contract"] if one.sound and one.alternate is not None]
            row.by_alternate = sum(one.price or 0.0 for one in own if same(one.alternate) == same(entry.alternate))
        row.by_work = (entry.area or 0.0) * (terms.extra_area or 0.0) + (entry.hours or 0.0) * (terms.extra_hour or 0.0)
        row.worth = entry.amount
        if entry.amount is None:
            both = row.by_work + row.by_alternate  # an alternate may be less
            row.worth = payable(max(0.0, both), cent, terms.slack) - payable(max(0.0, -both), cent, terms.slack)
    agreed = est.rows["agreed"][0]
    agreed.signed = est.job.signed_price if est.basics.live and est.job.signed_on is not None else None
    if agreed.signed is not None:
        agreed.changes = sum(row.worth for row in est.rows["change_lines"] if row.live)
        agreed.contract = agreed.signed + agreed.changes
