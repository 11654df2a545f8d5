"""Bill: the page of the last bill for the customer. What is asked, on what terms, how it adds up; nothing of cost."""

from builder.records.sentences import BILL_TAX, NO_BILL, UNSIGNED_BILL
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.stages.bid import HEADING, LETTERHEAD, day, spoken_day, typed, typed_text
from builder.stages.brief import money, plain, said_money

# fmt: off
PAGE = "Bill"
FACT_LINES = (  # key, what stands before it, the line, its look
    ("client", "For", typed("{job.client}"), "line"),
    ("site", "Where", typed("{job.site}"), "line"),
    ("dated", "Date", day("{bill.day}"), "line"),
    ("asked", "Due now", said_money("{bill.due_now}"), "price"),
    ("terms_told", "Terms of payment", "{bill.pay_terms}", "prose"),
    ("tax", "Sales tax", f'"{BILL_TAX}"', "line"),
)
FACTS = HEADING + 3
LIST = FACTS + len(FACT_LINES) + SECTION + 1            # its first row; its header and heading above
NUMBER = "ROW()-ROW({#line})"
OWN = {"own": At("bill_sums", NUMBER), "said": At("bill_sums", "{own.at}")}


def _line(key):
    return f'IF({{own.at}}="","",{{said.{key}}})'


BLOCKS = (
    Block("bill", PAGE, (
        C("firm", "", "text", typed("{terms.firm}")), C("contact", "", "text", typed("{terms.contact}")),
        C("license", "", "text", typed("{terms.license}")),
    ), form="page", place=0, top=LETTERHEAD),
    Block("bill", PAGE, (
        C("heading", "", "text",
          '"Bill"&IF(N({bill.live})=1," "&{bill.number},"")&IF(ISERROR({job.name}),"",'
          'REPT(": ",--({job.name}<>""))&{job.name})', look="section"),
        C("state", "", "text",
          f'IF(N({{bill.live}})=1,"",CHOOSE(1+({{agreed.signed}}<>""),"{UNSIGNED_BILL}","{NO_BILL}"))', look="master"),
    ), form="page", place=0, top=HEADING),
    Block("bill", PAGE, tuple(C(key, title, "text", f'IF(N({{bill.live}})=0,"",{formula})', look=look)
                              for key, title, formula, look in FACT_LINES),
          form="page", top=FACTS),
    Block("bill", PAGE, tuple(C(f"name_{key}", "", "text", f'IF({{{key}}}="","","{title}")', beside=key)
                              for key, title, _, _ in FACT_LINES),
          form="page", place=0, top=FACTS),
    Block("bill_list", PAGE, (
        C("line", "Line", "text", _line("line"), look="named"),
        C("what", "What it is", "text", _line("words"), look="prose"),
        C("amount", "Amount", "money", _line("amount"), look="paid_line"),
    ), OWN, form="list", place=0, top=LIST),
)
# fmt: on


def bill(est):
    row, job, terms = est.rows["bill"][0], est.job, est.terms
    row.set(**{key: typed_text(est, getattr(terms, key)) for key in ("firm", "contact", "license")})
    name = typed_text(est, job.name)
    row.heading = (f"Bill {plain(row.number)}" if row.live else "Bill") + (f": {name}" if name else "")
    if not row.live:
        row.state = UNSIGNED_BILL if est.rows["agreed"][0].signed is None else NO_BILL
        return
    row.client, row.site = typed_text(est, job.client), typed_text(est, job.site)
    row.dated, row.asked = spoken_day(row.day), money(est, row.due_now)
    row.terms_told, row.tax = row.pay_terms, BILL_TAX
    for key, title, _, _ in FACT_LINES:
        setattr(row, f"name_{key}", title if getattr(row, key) else None)
    lines = est.rows["bill_sums"]
    for shown, place in zip(est.rows["bill_list"], lines):
        if place.at is not None:
            said = lines[int(place.at) - 1]
            shown.line, shown.what, shown.amount = said.line, said.words, said.amount
