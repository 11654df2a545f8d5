"""What holds for the whole job: its crew, pump, exposure, people and thresholds of openings, its own or the usual ones;
what a day of it has of work and of travel (E31, E32), an hour of burden and overtime (E44, E57); what
old paint it disturbs (E34); and what a standard window and door take (E3).
"""

from builder.records.terms import BURDENS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import LEAD_INSIDE, LEAD_OUTSIDE, LEAD_YEAR, YEAR
from builder.trade import labor, takeoff
from builder.trade.rental import WEEK
from builder.values import same

USUAL = {"crew": "crews", "pump": "pumps", "exposure": "exposures"}  # of the job -> the catalog it is named in


# fmt: off
def _first(key, block):
    """The row of the one that the job names, else of the first without a fault."""
    return f'IF({{job.{key}}}="",MATCH(1,{{{block}.sound}},0),MATCH({{job.{key}}},{{{block}.known}},0))'


def _own(key):
    return f'IF({{job.{key}}}="",0+{{terms.{key}}},{{job.{key}}})'


BASICS = Block("basics", "Areas", (
    C("live", "Job: worked out", "count", 'IF((N({job.sound})=1)*(N({terms.sound})=1),1,"")', ""),
    *(C(f"{key}_at", f"Job: row of its {key}", "count", _first(key, block)) for key, block in USUAL.items()),
    C("people", "Job: people", "count",
      'IF({job.people}="",{crew.guns}+{crew.rollers}+{crew.tenders},{job.people})'),
    C("productive", "Job: share of a day in which work is done", "share", "1-{terms.unproductive}/{terms.day_hours}"),
    C("burdens", "Job: lines of burden, added up", "share",
      "+".join(f"{{terms.burden_{key}}}" for key, *_ in BURDENS)),
    C("burden", "Job: burden on wages", "share",
      'IF({terms.burden}="",{burdens}+{terms.leave}/({constants.year}-{terms.leave}),{terms.burden})'),
    C("overtime", "Job: overtime on wages, all hours alike", "share",
      'IF({terms.overtime_after}="",0,(0+{terms.overtime_share})'
      "*MAX(0,1-{terms.overtime_after}/({constants.week_days}*{terms.day_hours})))"),
    C("wage_share", "Job: what an hour costs, over its wage", "share", "(1+{burden})*(1+{overtime})"),
    C("travels", "Job: travel is said", "count", '--({job.travel_time}<>"")'),
    C("vehicles", "Job: vehicles", "count", 'IF({job.vehicles}="",1,{job.vehicles})'),
    C("on_site", "Job: hours of a day on the site", "time",
      '{terms.day_hours}-IF({terms.travel_in_day}="yes",2*{job.travel_time},0)'),
    C("beyond_minor", "Job: old paint is disturbed beyond minor work (40 CFR 745.83)", "count",
      "--(({job.disturbed_inside}>{constants.lead_inside}*(1+{terms.slack}))"
      '+({job.disturbed_outside}>{constants.lead_outside}*(1+{terms.slack}))+({job.windows_replaced}="yes")>0)'),
    C("contained", "Job: it is contained as lead paint is", "count",
      '{beyond_minor}*({job.built}<{constants.lead_year})*({job.lead_test}<>"no lead found")'),
    C("disturbed", "Job: old paint so disturbed", "area",
      "{contained}*({job.disturbed_inside}+{job.disturbed_outside})"),
    C("cent", "Job: smallest amount that is paid", "money", "MAX({constants.money_step},{terms.money_step})"),
    C("reach", "Job: reached from the ground", "length", 'IF({terms.ground_reach}="","",{terms.ground_reach})'),
    C("opening_none", "Job: openings not deducted up to", "area", _own("opening_none")),
    C("opening_both", "Job: openings deducted from one face up to", "area", _own("opening_both")),
), {"crew": At("crews", "{crew_at}")}, "live")

STANDARDS = Block("standards", "Areas", (
    C("opening", "Standard opening", "text", label=lambda number: ("window", "door")[number - 1]),
    C("live", "Its size is known", "count", "{basics.live}", ""),
    C("width", "Width of it", "length", "CHOOSE({no},0+{terms.window_width},0+{terms.door_width})"),
    C("height", "Height of it", "length", "CHOOSE({no},0+{terms.window_height},0+{terms.door_height})"),
    C("size", "Area of it", "area", "{width}*{height}"),
    C("deducted", "Deducted of it", "area", "{size}*({size}>{basics.opening_none}*(1+{terms.slack}))"),
    C("once", "From one face only", "count", "--({size}<={basics.opening_both}*(1+{terms.slack}))"),
    C("perimeter", "Perimeter of it", "length", "2*({width}+{height})"),
    C("no", "Standard opening, number", "count", label=lambda number: number),
), {}, "live")
# fmt: on


def basics(est):
    """Which crew, pump and exposure the job has, with how many people, and what is deducted."""
    row, job, terms = est.basics, est.job, est.terms
    row.live = 1.0 if job.sound and terms.sound else None
    if row.live:
        for key, block in USUAL.items():
            name = getattr(job, key)
            found = est.judge.first(block) if name is None else est.judge.find(block, name)
            setattr(row, f"{key}_at", found.no)
        crew = est.row("crews", row.crew_at)
        row.people = crew.guns + crew.rollers + crew.tenders if job.people is None else job.people
        row.productive = labor.productive(terms.unproductive or 0.0, terms.day_hours)
        row.burdens = sum(getattr(terms, f"burden_{key}") or 0.0 for key, *_ in BURDENS)
        summed = labor.burden(row.burdens, terms.leave or 0.0, YEAR)
        row.burden = summed if terms.burden is None else terms.burden
        week = WEEK * terms.day_hours
        plain = week if terms.overtime_after is None else terms.overtime_after
        row.overtime = labor.overtime(week, plain, terms.overtime_share or 0.0)
        row.wage_share = (1 + row.burden) * (1 + row.overtime)
        row.reach = terms.ground_reach
        row.travels = float(job.travel_time is not None)
        row.vehicles = 1.0 if job.vehicles is None else job.vehicles
        way = labor.travel(1, 1, job.travel_time or 0.0)
        row.on_site = terms.day_hours - (way if same(terms.travel_in_day) == "yes" else 0.0)
        row.cent = max(est.units.money_step, terms.money_step or 0.0) * est.units.scale("money")
        _old_paint(row, job, 1 + terms.slack)
        for key in ("opening_none", "opening_both"):
            own = getattr(job, key)
            setattr(row, key, (getattr(terms, key) or 0.0) if own is None else own)


def _old_paint(row, job, more):
    """How much old paint is disturbed that may hold lead: beyond minor work, in a building of its years, unless a test
    found none (E34; 40 CFR 745.83).
    """
    inside, outside = job.disturbed_inside or 0.0, job.disturbed_outside or 0.0
    beyond = inside > LEAD_INSIDE * more or outside > LEAD_OUTSIDE * more or same(job.windows_replaced) == "yes"
    row.beyond_minor = float(beyond)
    row.contained = float(beyond and (job.built or 0) < LEAD_YEAR and same(job.lead_test) != "no lead found")
    row.disturbed = row.contained * (inside + outside)


def standards(est):
    """What a standard window and a standard door take from a line, and their edge."""
    terms, more = est.terms, 1 + (est.terms.slack if est.terms.sound else 0.0)
    for row, key in zip(est.rows["standards"], ("window", "door")):
        row.live = est.basics.live
        if row.live:
            row.width, row.height = (getattr(terms, f"{key}_{side}") or 0.0 for side in ("width", "height"))
            row.size = row.width * row.height
            row.deducted = row.size if row.size > est.basics.opening_none * more else 0.0
            row.once = float(row.size <= est.basics.opening_both * more)
            row.perimeter = takeoff.opening_perimeter(row.width, row.height)
