"""Bid: the customer's page. What is done, for how much, under what conditions; no cost, margin or hour stands on it."""
from builder.sheets.brief import money
from builder.sheets.grammar import SECTION, At, Block
from builder.sheets.grammar import Column as C

CHAIN = 11                                             # the column, from A = 0, of what is put together beside the page


def typed(cell):
    """Free text as it was typed; blank where it is an error."""
    return f'IF(ISERROR({cell}),"",{cell}&"")'


def day(date):
    """'4 May 2026', which no reader takes for April the fifth."""
    return f'DAY({date})&" "&INDEX({{words.month}},MONTH({date}))&" "&YEAR({date})'


NO_PRICE = "This bid is not complete: no price stands on it until this is put right."
LEAD = ("Old paint here may hold lead. It is tested before it is disturbed; the work follows lead-safe work practices (40 CFR 745), "
        "by people certified for them where the law asks it.")
CONDITIONS = ("Coats go on when weather and surface are within what the makers of the coatings ask for; dates move with the weather. "
              "Changes to the work or the price are agreed in writing. Local codes come first.")


PLACES = {"a": "2", "b": "1+2", "c": "4"}              # of each alternate among the scenarios


def _alternate(letter):
    more = f"INDEX({{price.difference}},1,{PLACES[letter]})"
    return f'IF({{extra_{letter}}}="","",{{extra_{letter}}}&REPT(" less",--({more}<0))&REPT(" more",--({more}>=0))&REPT(", before tax",--({{sales_tax}}>0)))'


FACT_LINES = (  # key, what stands before it, the line
    ("client", "For", typed("{job.client}")),
    ("site", "Where", typed("{job.site}")),
    ("dated", "Date", f'IF({{job.date}}="","",{day("{job.date}")})'),
    ("until", "Stands for", '{terms.validity}&" days"&{until_told}'),
    ("work_days", "Work", 'IF({job.start}="","",{start_told}&", ")&"about "&{brief.told_days}&" of work"&{finish_told}'),
    ("price", "Price", money("{price.total@1}")),
    ("tax", "", 'IF({sales_tax}>0,"sales tax of "&{tax_told}&" included","no sales tax is added")'),
    ("deposit", "Payment", f'IF({{price.deposit@1}}>0,{money("{price.deposit@1}")}&" at signing","nothing at signing")'),
    ("stages", "", f'IF(({{terms.stages}}>1)*({{price.stage@1}}>0)=0,"",REPT(({{terms.stages}}-1)&" x ",--({{terms.stages}}>2))'
                   f'&{money("{price.stage@1}")}&" while the work goes on")'),
    ("last", "", f'{money("{price.last@1}")}&" when the work is done"'),
    ("alternate_a", "Alternate A", _alternate("a")),
    ("alternate_b", "Alternate B", _alternate("b")),
    ("alternate_c", "Alternate C", _alternate("c")),
)
TERM_LINES = (
    ("tasks", "Also included", '{gathered}'),
    ("exclusions", "Not included", typed("{job.exclusions}")),
    ("lead", "Lead-safe work", f'IF({{checks.lead}}=0,"","{LEAD}")'),
    ("conditions", "Conditions", f'"{CONDITIONS}"'),
)
SIGNED = (("accepted", "Accepted", '"The price, the work and the conditions above are accepted."'),
          ("customer", "Customer", '"Name, signature, date:"'), ("contractor", "Contractor", '"Name, signature, date:"'))


LETTERHEAD = 5                                         # the first row of each part of the page
HEADING = LETTERHEAD + 3 + 1                           # under the three lines of the letterhead
FACTS = HEADING + 3
SCOPE = FACTS + len(FACT_LINES) + SECTION              # its header


def _lines(lines, top):
    """Lines of the page, with what stands before them; nothing before a line that is blank."""
    return (Block("bid", "Bid", tuple(C(key, title, "text", formula) for key, title, formula in lines), when="live", form="page", top=top),
            Block("bid", "Bid", tuple(C(f"name_{key}", "", "text", f'IF({{{key}}}="","","{title}")', "", beside=key) for key, title, _ in lines),
                  form="page", place=0, top=top))


def bid(tasks, coats):
    """`tasks`, `coats`: rows of Tasks and of Coats."""
    terms = SCOPE + 1 + coats + 1
    helpers = Block("bid", "Bid", (
        C("live", "Priced", "count", 'IF({price.live@1}=1,1,"")', ""),
        C("job_told", "Job", "text", typed("{job.name}"), ""),
        C("sales_tax", "Sales tax", "money", "{price.tax@1}"),
        C("tax_told", "Sales tax in words", "text", money("{sales_tax}")),
        *(C(f"extra_{letter}", f"Alternate {letter.upper()}", "text",
            f'IF(INDEX({{price.live}},1,{at})="","",{money(f"ABS(INDEX({{price.difference}},1,{at}))")})') for letter, at in PLACES.items()),
        C("until_date", "Stands until", "date", 'IF({job.date}="","",{job.date}+{terms.validity})'),
        C("until_told", "The same in words", "text", f'IF({{until_date}}="","",", until "&{day("{until_date}")})'),
        C("start_told", "Begins", "text", f'IF({{job.start}}="","","begins "&{day("{job.start}")})'),
        C("finish_told", "Finished", "text", f'IF({{brief.finish}}="","",", finished about "&{day("{brief.finish}")}&", weather permitting")'),
        C("gathered", "Tasks", "text", f'IF({{task_{tasks}}}=", ","",MID({{task_{tasks}}},1+2,LEN({{task_{tasks}}})-4))'),
        C("task_0", "Tasks, gathered one by one", "text", '", "'),
        *(C(f"task_{number}", "", "text", _gather(number)) for number in range(1, tasks + 1)),
    ), when="live", form="page", place=CHAIN, top=LETTERHEAD)
    scope = Block("scope", "Bid", (
        C("system", "Part of the work", "text",
          'IF({first}=1,{own.name}&{surface_told}&{alternate_told},"")'),
        C("work", "What is done", "text", "{gallon.work}"),
        C("colour", "Colour", "text", '{coat.colour}&""'),
        C("area", "Area", "area", 'IF({first}=1,{own.measured},"")'),
        C("coat_at", "Row of its coat", "count", 'IF(ROW()-ROW({#system})>COUNT({gallons.place}),"",'
          "MATCH(SMALL({gallons.place},ROW()-ROW({#system})),{gallons.place},0))", "live"),
        C("live", "Priced", "count", 'IF({price.live@1}=1,1,"")', ""),
        C("first", "First of its system", "count", "--(MATCH({gallon.system_at},{scope.system_at},0)=ROW()-ROW({#system}))"),
        C("system_at", "Row of its system", "count", "{gallon.system_at}"),
        C("surface_told", "Surface", "text", 'IF({own.name}={own.surface},""," ("&{own.surface}&")")'),
        C("alternate_told", "Alternate", "text",
          'IF({own.alternate}="","",", alternate "&INDEX({words.alternate},MATCH({own.alternate},{words.alternate},0)))'),
    ), {"gallon": At("gallons", "{coat_at}"), "coat": At("coats", "{coat_at}"), "own": At("systems", "{system_at}")}, "coat_at", "list", 0, SCOPE + 1)
    letterhead = Block("bid", "Bid", (
        C("firm", "", "text", typed("{terms.firm}")), C("contact", "", "text", typed("{terms.contact}")), C("licence", "", "text", typed("{terms.licence}")),
    ), form="page", place=0, top=LETTERHEAD)
    heading = Block("bid", "Bid", (
        C("heading", "", "text", '"Bid for painting"&IF({job_told}="","",": "&{job_told})'),
        C("state", "", "text", f'IF({{price.live@1}}=1,"","{NO_PRICE}")'), C("missing", "", "text", "{checks.first}"),
    ), form="page", place=0, top=HEADING)
    return (letterhead, heading, *_lines(FACT_LINES, FACTS), scope, *_lines(TERM_LINES, terms), *_lines(SIGNED, terms + len(TERM_LINES) + 1), helpers)


def _gather(number):
    """The tasks so far and this one, where it belongs to the base and does not stand there yet."""
    row = "ROW()-ROW({task_0})"
    name = f"INDEX({{task_hours.task}},{row})"
    new = f'(INDEX({{task_hours.scenarios}},{row},1)=1)*ISERROR(FIND(", "&{name}&", ",{{task_{number - 1}}}))'
    return f'{{task_{number - 1}}}&REPT({name}&", ",{new})'
