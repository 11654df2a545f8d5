"""Bid: the customer's page. What is done, for how much, under what conditions; no cost, margin or hour stands on it."""

from builder.records.lookups import LOOKUPS, place
from builder.records.questions import DEMO
from builder.records.sentences import CANCEL, CONDITIONS, DRAFT_BID, ESTIMATE, FIXED, LEAD, NO_PRICE, SIGNED, SIGNED_BID
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C
from builder.stages import bid_parts
from builder.stages.brief import money, plain, said_money
from builder.values import same, to_date

# fmt: off
CHAIN = 11                                             # the column, from A = 0, of what is put together beside the page


def typed(cell):
    """Free text as it was typed; blank where it is an error."""
    return f'IF(ISERROR({cell}),"",{cell}&"")'


def day(date):
    """'4 May 2026', which no reader takes for April the fifth."""
    return f'DAY({date})&" "&INDEX({{words.month}},MONTH({date}))&" "&YEAR({date})'


PLACES = {"a": "2", "b": "1+2", "c": "4"}              # of each alternate among the scenarios


def _alternate(letter):
    more = f"INDEX({{price.difference}},1,{PLACES[letter]})"
    told = f'REPT(" less",--({more}<0))&REPT(" more",--({more}>=0))&REPT(", before tax",--({{sales_tax}}>0))'
    return f'IF({{extra_{letter}}}="","",{{extra_{letter}}}&{told})'


def _extra(at):
    more = said_money(f"ABS(INDEX({{price.difference}},1,{at}))")
    return f'IF(INDEX({{price.live}},1,{at})="","",{more})'


FACT_LINES = (  # key, what stands before it, the line
    ("client", "For", typed("{job.client}")),
    ("site", "Where", typed("{job.site}")),
    ("dated", "Date", f'IF({{job.date}}="","",{day("{job.date}")})'),
    ("until", "Valid for", '{terms.validity}&" days"&{until_told}'),
    ("work_days", "Work",
     'IF({job.start}="","",{start_told}&", ")&"about "&{brief.told_days}&" of work"'),
    ("finished", "", '{finish_told}'),
    ("price", "Price", said_money("{price.total@1}")),
    ("tax", "", 'IF({sales_tax}>0,"sales tax of "&{tax_told}&" included","no sales tax is added")'),
    ("kind", "", f'IF({{fixed}}=1,"{FIXED}","{ESTIMATE}")'),
    ("deposit", "Payment",
     f'IF({{price.deposit@1}}>0,{said_money("{price.deposit@1}")}&" at signing","nothing at signing")'),
    ("stages", "",
     f'IF(({{terms.stages}}>1)*({{price.stage@1}}>0)=0,"",REPT(({{terms.stages}}-1)&" x ",--({{terms.stages}}>2))'
                   f'&{said_money("{price.stage@1}")}&" while the work goes on")'),
    ("last", "", f'{said_money("{price.last@1}")}&" when the work is done"'),
    ("alternate_a", "Alternate A", _alternate("a")),
    ("alternate_b", "Alternate B", _alternate("b")),
    ("alternate_c", "Alternate C", _alternate("c")),
)
TERM_LINES = (
    ("tasks", "Also included", '{gathered}'),
    ("exclusions", "Not included", typed("{job.exclusions}")),
    ("lead", "Lead-safe work", f'IF({{checks.old_paint}}=0,"","{LEAD}")'),
    ("conditions", "Conditions", f'"{CONDITIONS}"'),
    ("cancel", "Cancellation",
     f'IF({{terms.cancel_days}}="","","{CANCEL[0]}"&{{terms.cancel_days}}&"{CANCEL[1]}")'),
    ("law", "Required here", typed("{terms.bid_lines}")),
)
LETTERHEAD = 5                                         # the first row of each part of the page
HEADING = LETTERHEAD + 3 + 1                           # under the three lines of the letterhead
FACTS = HEADING + 3
SCOPE = FACTS + len(FACT_LINES) + SECTION              # its header


def _lines(lines, top):
    """Lines of the page, with what stands before them; nothing before a line that is blank."""
    return (Block("bid", "Bid", tuple(C(key, title, "text", formula) for key, title, formula in lines), when="live",
                  form="page", top=top),
            Block("bid", "Bid", tuple(C(f"name_{key}", "", "text", f'IF({{{key}}}="","","{title}")', "",
                                        beside=key) for key, title, _ in lines),
                  form="page", place=0, top=top))


def bid_blocks(tasks, coats):
    """`tasks`, `coats`: rows of Tasks and of Coats."""
    terms = SCOPE + 1 + coats + 1
    helpers = Block("bid", "Bid", (
        C("live", "Priced", "count", 'IF({price.live@1}=1,1,"")', ""),
        C("job_told", "Job", "text", typed("{job.name}"), ""),
        C("drafted", "Said of a draft", "text",
          f'REPT("{DRAFT_BID}",({{checks.open}}>0)*({{agreed.signed}}=""))'),
        C("said_signed", "Said of a signed bid", "text", f'REPT("{SIGNED_BID}",--({{agreed.signed}}<>""))'),
        C("sales_tax", "Sales tax", "money", "{price.tax@1}"),
        C("fixed", "The price is fixed", "count",
          '--(IF({job.price_is}="",{terms.price_is},{job.price_is})<>"estimate")'),
        C("tax_told", "Sales tax in words", "text", said_money("{sales_tax}")),
        *(C(f"extra_{letter}", f"Alternate {letter.upper()}", "text", _extra(at)) for letter, at in PLACES.items()),
        C("until_date", "Valid until", "date", 'IF({job.date}="","",{job.date}+{terms.validity})'),
        C("until_told", "The same in words", "text", f'IF({{until_date}}="","",", until "&{day("{until_date}")})'),
        C("start_told", "Begins", "text", f'IF({{job.start}}="","","begins "&{day("{job.start}")})'),
        C("finish_told", "Finished", "text",
          f'IF({{brief.finish}}="","","finished about "&{day("{brief.finish}")}&", weather permitting")'),
        C("gathered", "Tasks", "text",
          f'IF({{task_{tasks}}}=", ","",MID({{task_{tasks}}},1+2,LEN({{task_{tasks}}})-4))'),
        C("task_0", "Tasks, gathered one by one", "text", '", "'),
        *(C(f"task_{number}", "", "text", _gathered(number)) for number in range(1, tasks + 1)),
    ), when="live", form="page", place=CHAIN, top=LETTERHEAD)
    scope = Block("scope", "Bid", (
        C("system", "Part of the work", "text",
          'IF({first}=1,{own.name}&{surface_told}&{alternate_told},"")'),
        C("work", "What is done", "text", "{gallon.work}"),
        C("color", "Color", "text", '{entry.color}&""'),
        C("area", "Area", "area", 'IF({first}=1,{own.measured},"")'),
        C("coat_at", "Row of its coat", "count", 'IF(ROW()-ROW({#system})>COUNT({gallons.place}),"",'
          "MATCH(SMALL({gallons.place},ROW()-ROW({#system})),{gallons.place},0))", "live"),
        C("live", "Priced", "count", 'IF({price.live@1}=1,1,"")', ""),
        C("first", "First of its system", "count",
          "--(MATCH({gallon.system_at},{scope.system_at},0)=ROW()-ROW({#system}))"),
        C("system_at", "Row of its system", "count", "{gallon.system_at}"),
        C("surface_told", "Surface", "text", 'IF({own.name}={own.surface},""," ("&{own.surface}&")")'),
        C("alternate_told", "Alternate", "text",
          'IF({own.alternate}="","",", alternate "&INDEX({words.alternate},MATCH({own.alternate},{words.alternate},'
          '0)))'),
    ), {"gallon": At("gallons", "{coat_at}"), "entry": At("coats", "{coat_at}"), "own": At("systems", "{system_at}")},
    "coat_at", "list", 0, SCOPE + 1)
    letterhead = Block("bid", "Bid", (
        C("firm", "", "text", typed("{terms.firm}")), C("contact", "", "text", typed("{terms.contact}")),
        C("license", "", "text", typed("{terms.license}")),
    ), form="page", place=0, top=LETTERHEAD)
    heading = Block("bid", "Bid", (
        C("heading", "", "text", '"Bid for painting"&IF({job_told}="","",": "&{job_told})'),
        C("state", "", "text", f'IF({{price.live@1}}=1,{{drafted}}&{{said_signed}},"{NO_PRICE}")'),
        C("missing", "", "text",
          f'IF({{price.live@1}}=1,REPT("{DEMO}",--({{checks.said_demo}}="yes")),{{checks.first}})'),
    ), form="page", place=0, top=HEADING)
    beside = bid_parts.page(FACTS + [key for key, *_ in FACT_LINES].index("dated"))
    return (letterhead, heading, *_lines(FACT_LINES, FACTS), *beside, scope, *_lines(TERM_LINES, terms),
            *_lines(SIGNED, terms + len(TERM_LINES) + 1), helpers)


def _gathered(number):
    """The tasks so far and this one, where it belongs to the base and does not stand there yet."""
    row = "ROW()-ROW({task_0})"
    name = f"INDEX({{task_hours.task}},{row})"
    named = f"(INDEX({{task_hours.scenarios}},{row},1)=1)*(INDEX({{task_hours.named}},{row})=1)"
    new = f'{named}*ISERROR(FIND(", "&{name}&", ",{{task_{number - 1}}}))'
    return f'{{task_{number - 1}}}&REPT({name}&", ",{new})'


def spoken_day(number):
    """'4 May 2026' of a day number."""
    date = to_date(number)
    return f"{date.day} {LOOKUPS['month'][date.month - 1]} {date.year}"
# fmt: on


def typed_text(est, value):
    """Free text as it was typed; None for blank."""
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
        row.color = typed_text(est, est.row("coats", gallon.no).color)
        own = est.row("systems", gallon.system_at)
        row.alternate_told = (
            None
            if own.alternate is None
            else f", alternate {LOOKUPS['alternate'][place('alternate', own.alternate) - 1]}"
        )
        row.surface_told = None if same(own.name) == same(own.surface) else f" ({est.judge.as_text(own.surface)})"
        row.first = float(gallon.system_at not in seen)
        seen.add(gallon.system_at)
        if row.first:
            row.system = est.judge.as_text(own.name) + (row.surface_told or "") + (row.alternate_told or "")
            row.area = own.measured


def bid(est):
    row, job, terms, price = est.rows["bid"][0], est.job, est.terms, est.rows["price"][0]
    row.set(
        firm=typed_text(est, terms.firm),
        contact=typed_text(est, terms.contact),
        license=typed_text(est, terms.license),
        job_told=typed_text(est, job.name),
    )
    row.heading = "Bid for painting" + (f": {row.job_told}" if row.job_told else "")
    row.live = price.live
    if not row.live:
        row.state, row.missing = NO_PRICE, est.checks.first
        return
    signed = est.rows["agreed"][0].signed is not None
    row.drafted = DRAFT_BID if est.checks.open and not signed else None
    row.said_signed = SIGNED_BID if signed else None
    row.state = row.said_signed or row.drafted
    row.missing = DEMO if est.checks.demo else None
    row.client, row.site = typed_text(est, job.client), typed_text(est, job.site)
    _dates(est, row)
    _prices(est, row, price)
    _gather(est, row)
    row.exclusions = typed_text(est, job.exclusions)
    row.lead = LEAD if est.checks.old_paint else None
    row.conditions = CONDITIONS
    row.cancel = None if terms.cancel_days is None else plain(terms.cancel_days).join(CANCEL)
    row.law = typed_text(est, terms.bid_lines)
    row.set(**{key: formula.strip('"') for key, _, formula in SIGNED})
    for key, title, _ in (*FACT_LINES, *TERM_LINES, *SIGNED):
        setattr(row, f"name_{key}", title if getattr(row, key) else None)


def _dates(est, row):
    job, told = est.job, est.rows["brief"][0]
    row.until = f"{plain(est.terms.validity)} days"
    if job.date is not None:
        row.until_date = job.date + est.terms.validity
        row.dated, row.until_told = spoken_day(job.date), f", until {spoken_day(row.until_date)}"
        row.until += row.until_told
    row.start_told = None if job.start is None else f"begins {spoken_day(job.start)}"
    row.finish_told = None if told.finish is None else f"finished about {spoken_day(told.finish)}, weather permitting"
    row.work_days = f"{row.start_told + ', ' if row.start_told else ''}about {told.told_days} of work"
    row.finished = row.finish_told


def _prices(est, row, base):
    row.price, row.sales_tax, row.tax_told = money(est, base.total), base.tax, money(est, base.tax)
    said = est.terms.price_is if est.job.price_is is None else est.job.price_is
    row.fixed = float(same(said) != "estimate")
    row.kind = FIXED if row.fixed else ESTIMATE
    row.tax = f"sales tax of {row.tax_told} included" if base.tax > 0 else "no sales tax is added"
    for other, letter in zip(est.rows["price"][1:], "abc"):
        if other.live:
            extra = money(est, abs(other.difference))
            setattr(row, f"extra_{letter}", extra)
            setattr(
                row,
                f"alternate_{letter}",
                f"{extra} {'less' if other.difference < 0 else 'more'}{', before tax' if base.tax > 0 else ''}",
            )
    row.deposit = f"{money(est, base.deposit)} at signing" if base.deposit > 0 else "nothing at signing"
    if est.terms.stages > 1 and base.stage > 0:
        times = f"{plain(est.terms.stages - 1)} x " if est.terms.stages > 2 else ""
        row.stages = f"{times}{money(est, base.stage)} while the work goes on"
    row.last = f"{money(est, base.last)} when the work is done"


def _gather(est, row):
    """The names of the tasks of the base, each once."""
    so_far = row.task_0 = ", "
    for number, task in enumerate(est.rows["task_hours"], start=1):
        name = typed_text(est, task.task)
        if task.live and task.scenarios[0] == 1 and task.named and f", {name}, " not in so_far:
            so_far += f"{name}, "
        setattr(row, f"task_{number}", so_far)
    row.gathered = row.tasks = so_far[2:-2] or None
