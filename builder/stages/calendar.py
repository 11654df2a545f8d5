"""Schedule: a calendar of systems and machines in letters, then each day in words. Read off the workings; feeds
nothing.
"""

from math import floor

from builder.records.sentences import NO_SCHEDULE, WAITS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.bid import day, spoken_day
from builder.stages.brief import plain
from builder.stages.day_words import ACROSS, HOUR, WHOLE, halves, to_halves
from builder.stages.plan import DATES_TOP, SHEET, TOLD

# fmt: off
PAGE = "Schedule"
HEADLINE = 12                            # planned and promised; standing time; a legend; numbers, headers, then lines
LINES_TOP = HEADLINE + 5
BELOW = 3                                # rows from the last line of the calendar to the headers of the days
FIRST_DAYS = f"; days up to {TOLD} are listed"
WEEKDAY, DATE, FIRST, SYSTEM, LAST, MACHINE = range(1, 7)     # kinds of line


def _kind(number, systems):
    """Of a line of the calendar: weekdays, dates, the first tasks, the systems, what comes last, then machines."""
    if number <= FIRST:
        return number
    return SYSTEM if number <= FIRST + systems else LAST if number == FIRST + systems + 1 else MACHINE


def _at(number, systems, wanted):
    """The row of its system or machine; 1 where it has none."""
    place = {SYSTEM: number - FIRST, MACHINE: number - FIRST - systems - 1}
    return place[wanted] if _kind(number, systems) == wanted else 1


def lines_block(systems):
    """Weekdays and dates, then one row a system, the whole job first and last, a machine; those in use are shown."""
    days = {"repeat": ACROSS, "heads": tuple(f"day {number}" for number in range(1, ACROSS + 1))}
    return Block("cal_lines", SHEET, (
        C("no", "Line of the calendar", "count", label=lambda number: number),
        C("kind", "Line: 1 weekday, 2 date, 1+2 first tasks, 4 system, 4+1 last tasks, 4+2 machine", "count",
          label=lambda number: _kind(number, systems)),
        C("system_at", "Line: row of its system", "count", label=lambda number: _at(number, systems, SYSTEM)),
        C("machine_at", "Line: row of its machine", "count", label=lambda number: _at(number, systems, MACHINE)),
        C("live", "Line: scheduled", "count", "{plan.passed}", ""),
        C("hours", "Line: hours", "time",
          "CHOOSE({kind},1,1,{plan.begin},SUMPRODUCT(--({run.system}={system_at}),{run.time})"
          "+{lane.hand}*({lane.hand_end}-{lane.hand_start}),{days.work@1}-{days.rest_from@1},N({machine.span}))"),
        C("shown", "Line: row, where used", "count", 'IF({hours}>{terms.slack},{no},"")'),
        C("name", "Line: name", "text",
          f'CHOOSE({{kind}},"Weekday","Date","{WHOLE[0].capitalize()}",{{lane.name}},"{WHOLE[1].capitalize()}",'
          '{machine.name}&"")', "shown"),
        C("words", "Line: in words", "text",
          'CHOOSE({kind},"","","of the whole job",{lane.passes}&" pass"&REPT("es",--({lane.passes}<>1))'
          '&REPT(", tasks",{lane.tasks}),"of the whole job",{machine.words}&"")', "shown"),
        C("told", "Line: hours, or days, in words", "text",
          f'CHOOSE(1+({{kind}}>2)+({{kind}}>4+1),"",IF({halves("{hours}")}=0,"< 0.5",{halves("{hours}")})&" h",'
          '{hours}&" day"&REPT("s",--({hours}<>1)))', "shown"),
        C("cell", "Line: on", "text",
          "CHOOSE({kind},INDEX({daily.weekday},{@}),INDEX({daily.short},{@}),INDEX({daily.early},{@}),"
          "INDEX({daily.cell},{@},{system_at}),INDEX({daily.late},{@}),"
          'REPT("on",({machine.since}<={@})*({machine.until}>={@})))&""', "shown", **days),
    ), {"lane": At("lanes", "{system_at}"), "machine": At("machines", "{machine_at}")}, "live", under="daily",
        section="Lines of the calendar")


USED = "ROW()-ROW({{#{0}}})>COUNT({{{1}}})"


def page_blocks(lines):
    """The calendar of so many lines, and the list of days below it."""
    header = Block("schedule", PAGE, (
        C("headline", "", "text",
          f'IF(N({{days.visits@1}})*(1-N({{plan.too_long}}))=0,"{NO_SCHEDULE}",'
          '{days.visits@1}&" working day"&REPT("s",--({days.visits@1}<>1))&{schedule.dates})', "", look="section"),
        C("standing", "", "text", '{schedule.waits}&""', "", look="line"),
    ), form="page", place=0, top=HEADLINE)
    dates = Block("schedule", SHEET, (
        C("passed", "Scheduled, for the page", "count", "{plan.passed}", ""),
        C("planned", "Planned, in words", "text", f'IF({{days.finish@1}}="","",{day("{days.finish@1}")})', "passed"),
        C("promised", "Promised, in words", "text", f'IF({{days.promised@1}}="","",{day("{days.promised@1}")})',
          "passed"),
        C("dates", "Both, in words", "text",
          'IF({planned}="",", no first day yet",": planned until "&{planned}&", promised by "&{promised})'
          f'&REPT("{FIRST_DAYS}",--({{plan.took}}>COUNT({{daily.no}})))', "passed"),
        C("worth", "Wages of standing time, whole", "number",
          "INT({days.standing@1}/{basics.productive}*{cost.wage@1}+1/2+{terms.slack})", "passed"),
        C("waits", "Standing time, in words", "text",
          f'REPT("{WAITS[0]}"&{halves("{days.standing@1}")}&"{WAITS[1]}"&FIXED({{worth}},0)&" "&{{book.currency}}'
          f'&"{WAITS[2]}",--({{days.standing@1}}>{{plan.hours}}*{{terms.slack}}))', "passed"),
    ), form="upright", top=DATES_TOP)
    at = {"line": At("cal_lines", "SMALL({cal_lines.shown},ROW()-ROW({#name}))")}
    calendar = Block("calendar", PAGE, (
        C("name", "System", "text", f'IF({USED.format("name", "cal_lines.shown")},"",{{line.name}})', ""),
        C("words", "What", "text", "{line.words}"),
        C("told", "Hours", "text", "{line.told}"),
        C("day", "", "text", '{line.cell@}&""', repeat=ACROSS,
          heads=tuple(f"Day {number}" for number in range(1, ACROSS + 1))),
    ), at, "name", top=LINES_TOP)
    days = Block("day_list", PAGE, (
        C("date", "Day", "text", f'IF({USED.format("date", "daily.place")},"",{{one.date}})', "",
          look="row_first"),
        C("crew", "Crew", "text", "{one.crew}", look="row"),
        C("work", "Work", "text", "MID({one.words},1,LEN({one.words})-2)", look="line"),
    ), {"one": At("daily", "SMALL({daily.place},ROW()-ROW({#date}))")}, "date", "list", 0,
        LINES_TOP + lines + BELOW)
    return header, dates, calendar, days
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    lines = 2 + 1 + capacity["systems"] + 1 + capacity["machines"]
    return {"daily": TOLD, "cal_lines": lines, "calendar": lines, "day_list": TOLD, "schedule": 1}


def calendar(est):
    """What is read of a job that is scheduled."""
    plan, page = est.rows["plan"][0], est.rows["schedule"][0]
    page.standing, page.headline, page.passed = "", NO_SCHEDULE, plan.passed
    systems = est.capacity["systems"]
    for line in est.rows["cal_lines"]:
        line.kind, line.live = _kind(line.no, systems), plan.passed
        line.system_at = _at(line.no, systems, SYSTEM)
    if not plan.passed:
        return
    day = est.rows["days"][0]
    page.dates = ", no first day yet"
    if day.finish is not None:
        page.planned, page.promised = spoken_day(day.finish), spoken_day(day.promised)
        page.dates = f": planned until {page.planned}, promised by {page.promised}"
    wages = est.units.to_cell(day.standing / est.basics.productive * est.rows["cost"][0].wage, "money")
    page.worth = float(floor(wages + 0.5 + est.terms.slack))
    page.waits = _waits(est, day, plan, page.worth)
    page.standing = page.waits
    page.dates += FIRST_DAYS if plan.took > TOLD else ""
    if day.visits and not plan.too_long:
        page.headline = f"{_plural(day.visits, 'working day')}{page.dates}"
    for line in est.rows["cal_lines"]:
        _line(est, line, plan, day)
    _read(est)


def _waits(est, day, plan, worth):
    """Hours in which people are there and idle, and what they would cost."""
    if day.standing <= plan.hours * est.terms.slack:
        return ""
    told = f"{worth:,.0f} {est.units.currency}"
    return f"{WAITS[0]}{plain(to_halves(est, day.standing))}{WAITS[1]}{told}{WAITS[2]}"


def _plural(number, word, more="s"):
    return f"{plain(number)} {word}{'' if number == 1 else more}"


def _line(est, line, plan, day):
    """One line of the calendar."""
    slack, lane = est.terms.slack, est.rows["lanes"][line.system_at - 1]
    machine = est.rows["machines"][_at(line.no, est.capacity["systems"], MACHINE) - 1]
    busy = sum(one.time for one in est.rows["run"] if one.system == lane.no) + lane.hand * (
        lane.hand_end - lane.hand_start
    )
    rest = day.work - day.rest_from
    span = (machine.span or 0.0) * HOUR
    line.hours = (HOUR, HOUR, plan.begin, busy, rest, span)[line.kind - 1]
    if line.hours / HOUR <= slack:
        return
    line.shown = float(line.no)
    passes = _plural(lane.passes, "pass", "es") + (", tasks" if lane.tasks else "")
    first, last = (one.capitalize() for one in WHOLE)
    line.name = ("Weekday", "Date", first, lane.name, last, machine.name)[line.kind - 1]
    line.words = ("", "", "of the whole job", passes, "of the whole job", machine.words)[line.kind - 1]
    halved = to_halves(est, line.hours)
    hours = f"{plain(halved) if halved else '< 0.5'} h"
    line.told = ("", "", hours, hours, hours, _plural(machine.span or 0.0, "day"))[line.kind - 1]
    line.cell = tuple(_mark(line, told, machine) for told in est.rows["daily"][:ACROSS])


def _mark(line, told, machine):
    """What a line says of a day."""
    if line.kind == MACHINE:
        return "on" if machine.since <= told.no <= machine.until else ""
    if not told.live:
        return ""
    if line.kind == SYSTEM:
        return told.cell[line.system_at - 1]
    return {WEEKDAY: told.weekday, DATE: told.short, FIRST: told.early, LAST: told.late}[line.kind]


def _read(est):
    """The page: lines and days in use."""
    lines = [one for one in est.rows["cal_lines"] if one.shown]
    for row, line in zip(est.rows["calendar"], lines):
        row.name, row.words, row.told = line.name, line.words, line.told
        row.day = line.cell
    days = [one for one in est.rows["daily"] if one.place]
    for row, one in zip(est.rows["day_list"], days):
        row.date, row.crew, row.work = one.date, one.crew, one.words[:-2]
