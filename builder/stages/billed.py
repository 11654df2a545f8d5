"""Bills: of each its part of the contract by what is done (E52); of the last one what it says, line by line."""

from builder.records.kinds import KINDS
from builder.records.sentences import BILL_HELD, BILL_SETTLED, BILL_STAGED, BILL_WORKED
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages.bid import day, spoken_day
from builder.stages.brief import plain
from builder.stages.changed import SHEET
from builder.stages.cost import payable_formula
from builder.trade import billing
from builder.trade.price import payable
from builder.values import same

# fmt: off
LINES = (                               # of a bill, in its order, with the words beside those that always say the same
    ("Contract as signed", ""), ("Change", ""), ("Contract with changes", ""), ("Done so far", ""),
    ("Due to date", ""), ("Held back", "until all is done"), ("Paid before", "on earlier bills"),
    ("Paid ahead", "counts on the next bill"), ("Due now", ""), ("Open afterwards", "once this bill is paid"),
)
SIGNED, CHANGE, CONTRACT, DONE, DUE, HELD, PAID, AHEAD, NOW, OPEN = range(1, len(LINES) + 1)
FACTS = 74                              # the row of the first fact of the last bill, below the tables


def contract_block(units):
    """The rows of the contract: which of them are payments, and the number of each; 1 is the deposit."""
    return judging(KINDS["contract"], units, (
        C("listed", "Contract: a payment", "count", '--({row.payment}<>"")'),
        C("pay_at", "Contract: which payment, 0 none", "count",
          "IF(N({listed})=1,SUMPRODUCT(--({*no}<={no}),{*listed}),0)", ""),
        C("pay", "Contract: payment", "money", "IF(N({listed})=1,{row.payment},0)", ""),
    ))


BILL_LINES = Block("bill_lines", SHEET, (
    C("no", "Row of Bills", "count", label=lambda number: number),
    C("live", "Sound, of a signed price", "count", 'IF((N({row.sound})=1)*({agreed.signed}<>"")=1,1,"")', ""),
    C("day", "Day", "count", "IF({live}=1,{row.date},0)", ""),
    C("place", "Place in time", "number", "{day}+{no}/(COUNT({*no})+1)", ""),
    C("number", "Number of the bill", "count", "SUMPRODUCT(--({*place}<={place}),--({*day}>0))"),
    C("changes", "Changes up to its day", "money",
      "SUMPRODUCT(--({change_lines.day}<={day}),{change_lines.worth})"),
    C("contract", "Contract with them", "money", "{agreed.signed}+{changes}"),
    C("earned", "Hours earned up to its day", "time", "SUMPRODUCT(--({log_lines.day}<={day}),{log_lines.earned})"),
    C("logged", "Done by the log", "share", "IF({week.planned}=0,0,MIN(1,{earned}/{week.planned}))"),
    C("done", "Done so far", "share", 'IF({row.done}="",{logged},{row.done})'),
    C("whole", "All of it", "count", "--({done}>=1-{terms.slack})"),
    C("deposit", "Deposit", "money", "SUMPRODUCT(--({contract.pay_at}=1),{contract.pay})"),
    C("reached", "Payments come due", "count",
      "INT(MAX(0,SUM({contract.listed})-1)*{done}+{terms.slack})"),
    C("staged", "Those, added up", "money",
      "SUMPRODUCT(--({contract.pay_at}>1),--({contract.pay_at}<=1+{reached}),{contract.pay})"),
    C("by_stages", "Due by stages", "money", "{deposit}+{staged}+{changes}*{done}"),
    C("by_work", "Due by the work done", "money", "MAX({deposit},{contract}*{done})"),
    C("reckoned", "Due as Terms say", "money", 'IF({terms.bill_by}="work done",{by_work},{by_stages})'),
    C("most", "Due at most", "money", 'IF({terms.not_ahead}="yes",MIN({contract},{by_work}),{contract})'),
    C("due", "Due to date", "money",
      payable_formula("MAX(0,{contract}*{whole}+MIN({most},{reckoned})*(1-{whole}))")),
    C("retained", "Share held back", "share", 'IF({terms.retained}="",0,{terms.retained})*(1-{whole})'),
    C("held", "Held back", "money", payable_formula("{retained}*MAX(0,{due}-{deposit})")),
    C("paid", "Paid on it", "money", 'IF({row.paid}="",0,{row.paid})'),
    C("before", "Paid before", "money", payable_formula("SUMPRODUCT(--({*place}<{place}),{*paid})")),
    C("due_now", "Due now", "money", payable_formula("MAX(0,{due}-{held}-{before})")),
    C("ahead", "Paid ahead of what is due", "money", payable_formula("MAX(0,{before}-{due}+{held})")),
    C("open", "Open afterwards", "money", payable_formula("MAX(0,{contract}-{before}-{due_now})")),
), {"row": At("bills", "{no}")}, "live", under="change_lines", section="Bills")


def sums_block(changes):
    """What the last bill may say, line by line; `changes`: rows of Changes."""
    same_words = ",".join(f'"{words}"' for _, words in LINES[DUE - 1:])
    return Block("bill_sums", SHEET, (
        C("no", "Line of the last bill", "count", label=lambda number: number),
        C("kind", "What it is, by number", "count", label=lambda number: _kind(number, changes)),
        C("line", "What it is", "text", label=lambda number: LINES[_kind(number, changes) - 1][0]),
        C("change_at", "Row of its change", "count", label=lambda number: _change(number, changes)),
        C("shows", "Said", "count",
          "IF(N({bill.live})=0,0,CHOOSE({kind},1,N({change.live})*({change.day}<={bill.day}),1,1,1,"
          "--({bill.held}>0),1,--({bill.ahead}>0),1,1))", ""),
        C("place", "Place of what is said", "count", "{shows}*SUMPRODUCT(--({*no}<={no}),{*shows})", ""),
        C("at", "Line that is said in this place", "count", 'IF({no}>SUM({*shows}),"",MATCH({no},{*place},0))', ""),
        C("words", "In words", "text",
          f'CHOOSE({{kind}},{{bill.told_signed}},{{change.told}},"",{{bill.told_done}},{same_words})'),
        C("amount", "Amount", "money",
          'CHOOSE({kind},{agreed.signed},{change.worth},{bill.contract},"",{bill.due},0-{bill.held},0-{bill.before},'
          "{bill.ahead},{bill.due_now},{bill.open})"),
    ), {"change": At("change_lines", "{change_at}")}, "shows=0", under="bill_lines", section="The last bill")


def _kind(number, changes):
    """Of a line by its number: the changes stand behind the first, a line each."""
    return number if number <= CHANGE else max(CHANGE, number - changes + 1)


def _change(number, changes):
    """The row of Changes that a line speaks of; any for the others."""
    return min(max(number - 1, 1), changes)


LAST = ("number", "day", "contract", "done", "whole", "due", "held", "before", "ahead", "due_now", "open")
TITLES = {column.key: (column.title, column.quantity) for column in BILL_LINES.columns}
BILL = Block("bill", SHEET, (
    C("at", "Last bill: its row", "count",
      'IF(SUM({bill_lines.number})=0,"",MATCH(MAX({bill_lines.number}),{bill_lines.number},0))', ""),
    C("live", "There is one", "count", 'IF({at}="","",1)', ""),
    *(C(key, TITLES[key][0], TITLES[key][1], f"{{last.{key}}}") for key in LAST),
    C("told_signed", "Signed when", "text", f'IF({{job.signed_on}}="","","on "&{day("{job.signed_on}")})'),
    C("percent", "Done, in hundredths", "count", "MIN(INT({done}*100+1/2+{terms.slack}),100-1+{whole})"),
    C("told_done", "Done, in words", "text",
      '{percent}&" % of the work"&REPT(", by our log",--({entry.done}=""))'),
    C("told_terms", "What falls due, in words", "text",
      f'CHOOSE(1+({{terms.bill_by}}="work done"),"{BILL_STAGED}","{BILL_WORKED}")'),
    C("pay_terms", "Terms of payment", "text",
      f'IF({{whole}}=1,"{BILL_SETTLED}",{{told_terms}}&REPT(" {BILL_HELD}",--({{held}}>0)))'),
), {"last": At("bill_lines", "{at}"), "entry": At("bills", "{at}")}, "live", "upright", top=FACTS)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    lines = capacity["changes"] + len(LINES) - 1
    return {"bill_lines": capacity["bills"], "bill_sums": lines, "bill_list": lines, "bill": 1}


def billed(est):
    """What each bill asks for, in the order of their days."""
    _payments(est)
    agreed = est.rows["agreed"][0]
    rows = est.rows["bill_lines"]
    for row, entry in zip(rows, est.rows["bills"]):
        row.live = 1.0 if entry.sound and agreed.signed is not None else None
        row.day = entry.date if row.live else 0.0
        row.place = row.day + row.no / (len(rows) + 1)
        row.paid = (entry.paid or 0.0) if row.live else None
    in_time = sorted((row for row in rows if row.live), key=lambda row: row.place)
    for number, row in enumerate(in_time, start=1):
        row.number = float(number)
        _reckon(est, row, est.rows["bills"][row.no - 1])
        _ask(est, row, sum(one.paid for one in in_time[: number - 1]))
    _last(est, in_time[-1] if in_time else None)
    _say(est)


def _payments(est):
    count = 0
    for row in est.rows["contract"]:
        row.listed = float(row.payment is not None) if row.sound else None
        count += int(row.listed or 0)
        row.pay_at, row.pay = (float(count), row.payment) if row.listed else (0.0, 0.0)


def _reckon(est, row, entry):
    """What is done by its day, and what would fall due by it."""
    terms, week = est.terms, est.rows["week"][0]
    row.changes = sum(one.worth for one in est.rows["change_lines"] if one.live and one.day <= row.day)
    row.contract = billing.contract_to_date(est.rows["agreed"][0].signed, row.changes)
    row.earned = sum(one.earned or 0.0 for one in est.rows["log_lines"] if one.day <= row.day)
    row.logged = billing.done_so_far(row.earned, week.planned)
    row.done = row.logged if entry.done is None else entry.done
    row.whole = float(row.done >= 1 - terms.slack)
    payments = [one.pay for one in est.rows["contract"] if one.listed]
    row.deposit = sum(payments[:1])
    row.reached = float(billing.payments_reached(max(0, len(payments) - 1), row.done, terms.slack))
    row.staged = sum(payments[1 : 1 + int(row.reached)])
    row.by_stages = billing.by_stages(row.deposit, row.staged, row.changes, row.done)
    row.by_work = billing.by_work(row.deposit, row.contract, row.done)


def _said(value, word):
    return value is not None and same(value) == word


def _ask(est, row, before):
    """What is due of it, and what is left to ask for."""
    terms = est.terms

    def cents(amount):
        return payable(amount, est.basics.cent, terms.slack)

    row.reckoned = row.by_work if _said(terms.bill_by, "work done") else row.by_stages
    not_ahead = _said(terms.not_ahead, "yes")
    row.most = min(row.contract, row.by_work) if not_ahead else row.contract
    due = billing.due_to_date(row.reckoned, row.contract, row.deposit, row.done, row.whole, not_ahead)
    row.due = cents(max(0.0, due))
    row.retained = 0.0 if row.whole else terms.retained or 0.0
    row.held = cents(billing.held_back(row.due, row.deposit, row.retained))
    row.before = cents(before)
    row.due_now = cents(billing.due_now(row.due, row.held, row.before))
    row.ahead = cents(max(0.0, row.before - row.due + row.held))
    row.open = cents(max(0.0, row.contract - row.before - row.due_now))


def _last(est, last):
    """The last bill, in figures and in words."""
    bill, terms = est.rows["bill"][0], est.terms
    if last is None:
        return
    bill.set(at=float(last.no), live=1.0, **{key: getattr(last, key) for key in LAST})
    signed = est.job.signed_on
    bill.told_signed = None if signed is None else f"on {spoken_day(signed)}"
    bill.percent = float(min(int(bill.done * 100 + 0.5 + terms.slack), 99 + bill.whole))
    by_log = "" if est.rows["bills"][last.no - 1].done is not None else ", by our log"
    bill.told_done = f"{plain(bill.percent)} % of the work{by_log}"
    bill.told_terms = BILL_WORKED if _said(terms.bill_by, "work done") else BILL_STAGED
    held = f" {BILL_HELD}" if bill.held > 0 else ""
    bill.pay_terms = BILL_SETTLED if bill.whole else bill.told_terms + held


def _say(est):
    """Which lines of it are said, in their order."""
    bill, lines, changes = est.rows["bill"][0], est.rows["bill_sums"], est.rows["change_lines"]
    amounts = {
        SIGNED: est.rows["agreed"][0].signed,
        CONTRACT: bill.contract,
        DUE: bill.due,
        PAID: -(bill.before or 0.0),
    }
    amounts |= {HELD: -(bill.held or 0.0), AHEAD: bill.ahead, NOW: bill.due_now, OPEN: bill.open}
    told = {SIGNED: bill.told_signed, DONE: bill.told_done}
    seldom = {HELD: (bill.held or 0) > 0, AHEAD: (bill.ahead or 0) > 0}
    for row in lines:
        row.kind, change = _kind(row.no, len(changes)), changes[_change(row.no, len(changes)) - 1]
        row.line, row.shows = LINES[row.kind - 1][0], 0.0
        if bill.live:
            agreed = bool(change.live) and change.day <= bill.day
            row.shows = float(agreed if row.kind == CHANGE else seldom.get(row.kind, True))
        row.place = row.shows * sum(one.shows for one in lines[: row.no])
        if row.shows:
            row.words = change.told if row.kind == CHANGE else told.get(row.kind, LINES[row.kind - 1][1])
            row.amount = change.worth if row.kind == CHANGE else amounts.get(row.kind)
    said = [row for row in lines if row.shows]
    for row, line in zip(lines, said):
        row.at = float(line.no)
