"""Pumps and access on site: from when to when, for how many days, at what price (E33)."""

from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import BY_SCENARIO, TOTALS, copies
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.plan import SHEET, first_of
from builder.trade import rental
from builder.trade.packs import whole

NOTHING = -1  # row of no pump and of no access
KINDS = {"pump": 1, "access": 2}
OWN = "({run.pump}={pump_no})"


# fmt: off
def machines_block(access):
    """`access`: rows of Access; those of Pumps follow."""
    def row_of(number, kind):
        own = number if kind == "access" else number - access
        return own if (number <= access) == (kind == "access") else None

    def either(key):
        return f"CHOOSE({{kind}},{{pump.{key}}},{{up.{key}}})"

    def label(kind, missing):
        return lambda number: row_of(number, kind) or missing

    def blank(key):
        return f'CHOOSE({{kind}},--({{pump.{key}}}=""),--({{up.{key}}}=""))'

    def bill(kind):
        return C(f"{kind}_cost", f"Machine: cost of all {kind}s" if kind == "pump" else "Machine: cost of all access",
                 "money", f"SUMPRODUCT(--({{*kind}}={KINDS[kind]}),{{*cost@}})", **TOTALS)

    def short(days):
        """So many days by ones and fives."""
        return (f"MIN({days}*{{one}},INT({days}/{{constants.week_days}})*{{five}}"
                f"+MOD({days},{{constants.week_days}})*{{one}},ROUNDUP({days}/{{constants.week_days}},0)*{{five}})")

    def gun(key, pump):
        """Of the days on which the gun lane needs it."""
        return f"CHOOSE({{kind}},{pump},INDEX({{run.{key}}},1,{{access_at}}))"

    return Block("machines", SHEET, (
        C("no", "Machine", "count", label=lambda number: number),
        C("kind", "Machine: 1 a pump, 2 access", "count", label=lambda number: 1 + (number <= access)),
        C("pump_no", "Machine: row of its pump", "count", label=label("pump", NOTHING)),
        C("access_no", "Machine: row of its access", "count", label=label("access", 0)),
        C("pump_at", "Machine: row on Pumps", "count", label=label("pump", 1)),
        C("access_at", "Machine: row on Access", "count", label=label("access", 1)),
        C("live", "Machine: scheduled", "count",
          'IF((N({plan.passed})=1)*(N(CHOOSE({kind},{pump.live},{up.live}))=1)=1,1,"")', ""),
        C("name", "Machine: its name", "text", either("name")),
        C("hired", "Machine: rented", "count", either("hired")),
        *(C(f"no_{key}", f"Machine: no {key}", "count", blank(key)) for key in ("rental", "rental_5", "rental_20")),
        C("one", "Machine: rental of a day", "money",
          f"CHOOSE(1+{{no_rental}}*(1+{{no_rental_5}}),{either('rental')},{either('rental_5')},0+{either('rental_20')})"),
        C("five", "Machine: of five days", "money",
          f"IF({{no_rental_5}}=0,{either('rental_5')},{{one}}*{{constants.week_days}})"),
        C("twenty", "Machine: of twenty days", "money",
          f"IF({{no_rental_20}}=0,{either('rental_20')},{{five}}*{{constants.month_days}}/{{constants.week_days}})"),
        C("delivery", "Machine: delivery, a trip", "money", f"0+{either('delivery')}"),
        C("owned_day", "Machine: own, a day", "money", f"0+{either('owned_day')}"),
        C("until", "Machine: until day", "count",
          gun("use_until", f"SUMPRODUCT(LARGE({OWN}*{{run.last}},1))")),
        C("from_gun", "Machine: gun lane, from day", "count",
          gun("use_from", f"IF(SUMPRODUCT(--{OWN})=0,0,{first_of(OWN, '{run.day}', '{work_days.no}')})")),
        C("from_hand", "Machine: hand lane, from day", "count", "INDEX({lanes.hand_from},1,{no})"),
        C("since", "Machine: from day", "count",
          "IF({from_gun}*{from_hand}=0,{from_gun}+{from_hand},MIN({from_gun},{from_hand}))"),
        C("span", "Machine: working days from first to last use", "count", "IF({until}=0,0,{until}-{since}+1)"),
        C("worked", "Machine: days of use", "count",
          f"{gun('use_days', f'SUMPRODUCT({OWN}*{{run.pump_days}})')}"
          "+IF({from_hand}=0,0,INDEX({lanes.hand_use},1,{no})-{from_hand}+1)"),
        C("idle", "Machine: rented, and on site more than twice its use", "count",
          '{hired}*({span}>2*{worked})*({job.rental_days}="")'),
        C("more", "Machine: use that an alternate adds", "time",
          "CHOOSE({@},0,INDEX({lanes.more_a},1,{no}),INDEX({lanes.more_b},1,{no}),INDEX({lanes.more_c},1,{no}))",
          **BY_SCENARIO),
        C("planned", "Machine: days by the schedule", "count",
          "{span}+ROUNDUP(MAX(0,{more@}/{plan.hours}-{terms.round_slack}),0)", **BY_SCENARIO),
        C("days", "Machine: days", "count",
          'IF(({job.rental_days}="")+({planned@}=0)>0,{planned@},{job.rental_days})', **BY_SCENARIO),
        C("words", "Machine: rented, in words", "text",
          'IF({hired}=1,"rented"&REPT(" for "&{days@1}&" day"&REPT("s",--({days@1}<>1)),--({days@1}<>{span})),'
          '"not rented")'),
        C("by_week", "Machine: rental by ones and fives", "money", short("{days@}"), **BY_SCENARIO),
        C("rest", "Machine: days after whole twenties", "count", "MOD({days@},{constants.month_days})", **BY_SCENARIO),
        C("by_month", "Machine: by twenties, the rest by ones and fives", "money",
          "INT({days@}/{constants.month_days})*{twenty}+" + short("{rest@}"), **BY_SCENARIO),
        C("cost", "Machine: cost", "money",
          "IF({hired}=1,MIN({by_week@},{by_month@},ROUNDUP({days@}/{constants.month_days},0)*{twenty})"
          "+2*{delivery}*({days@}>0),"
          "{owned_day}*({worked}+{planned@}-{span}))", **BY_SCENARIO),
        C("base_cost", "Machine: cost, base", "money", "{cost@1}"),
        bill("pump"), bill("access"),
    ), {"pump": At("pumps", "{pump_at}"), "up": At("access", "{access_at}")}, "live", under="run",
        section="Pumps and access")
# fmt: on


def listed(est):
    """Which pump or access each row is."""
    access = len(est.rows["access"])
    for row in est.rows["machines"]:
        pump = row.no - access
        row.kind = KINDS["pump" if pump > 0 else "access"]
        row.pump_no, row.access_no = (pump, 0) if pump > 0 else (NOTHING, row.no)
        row.pump_at, row.access_at = (pump, 1) if pump > 0 else (1, row.no)


def _machine(est, row):
    return est.row("pumps", row.pump_at) if row.kind == 1 else est.row("access", row.access_at)


def machines(est):
    """Days and cost of each machine in each scenario."""
    plan = est.rows["plan"][0]
    for row in est.rows["machines"]:
        machine = _machine(est, row)
        row.live = 1.0 if plan.passed and machine.live else None
        if row.live:
            _span(est, row, machine)
            _cost(est, row, machine, plan)
    for kind, number in KINDS.items():
        own = [row for row in est.rows["machines"] if row.kind == number]
        est.rows["machines"][0].set(**{f"{kind}_cost": copies(own, "cost") or tuple(0.0 for _ in SCENARIOS)})


def _gun(est, row):
    """From which day until which the gun lane needs it, and on how many days hands do not."""
    if row.access_no:
        found = est.rows["run"][0]
        return tuple(getattr(found, key)[row.access_no - 1] for key in ("use_from", "use_until", "use_days"))
    own = [one for one in est.rows["run"] if one.pump == row.pump_no]
    first, last = min((one.day for one in own), default=0.0), max((one.last for one in own), default=0.0)
    return first, last, float(sum(one.pump_days for one in own))


def _span(est, row, machine):
    at, hand, gun = row.no - 1, est.rows["lanes"][0], _gun(est, row)
    row.name, row.hired = machine.name, machine.hired
    for key in ("rental", "rental_5", "rental_20"):
        setattr(row, f"no_{key}", float(getattr(machine, key) is None))
    row.one, row.five, row.twenty = rental.offered(machine.rental, machine.rental_5, machine.rental_20)
    row.delivery, row.owned_day = machine.delivery or 0.0, machine.owned_day or 0.0
    row.from_gun, row.from_hand = gun[0], hand.hand_from[at]
    row.until = gun[1]
    row.since = min((one for one in (row.from_gun, row.from_hand) if one), default=0.0)
    row.span = row.until - row.since + 1 if row.until else 0.0
    by_hand = hand.hand_use[at] - row.from_hand + 1 if row.from_hand else 0.0
    row.worked = gun[2] + by_hand
    row.idle = float(bool(row.hired) and row.span > 2 * row.worked and est.job.rental_days is None)


def _cost(est, row, machine, plan):
    at, lanes = row.no - 1, est.rows["lanes"][0]
    row.more = (0.0, *(getattr(lanes, f"more_{letter}")[at] for letter in "abc"))
    row.planned = tuple(row.span + whole(more / plan.hours, est.terms.round_slack) for more in row.more)
    own = est.job.rental_days
    row.days = tuple(one if own is None or not one else own for one in row.planned)
    told = f" for {row.days[0]:g} day{'' if row.days[0] == 1 else 's'}" if row.days[0] != row.span else ""
    row.words = f"rented{told}" if row.hired else "not rented"
    row.by_week = tuple(rental.short_rental(days, row.one, row.five) for days in row.days)
    row.rest = tuple(days % rental.MONTH for days in row.days)
    row.by_month = tuple(
        days // rental.MONTH * row.twenty + rental.short_rental(rest, row.one, row.five)
        for days, rest in zip(row.days, row.rest)
    )
    row.cost = tuple(
        rental.least_rental(days, row.one, row.five, row.twenty) + 2 * row.delivery * (days > 0)
        if row.hired
        else row.owned_day * (row.worked + planned - row.span)
        for days, planned in zip(row.days, row.planned)
    )
    row.base_cost = row.cost[0]
