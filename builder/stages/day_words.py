"""Each day of a job in words: who works on what, in letters for the calendar and in sentences for the list below it.
Feeds nothing but what is read.
"""

from math import floor

from builder.records.lookups import LOOKUPS, WEEKDAYS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.brief import plain
from builder.stages.plan import SHEET, first_of
from builder.values import to_date

# fmt: off
WHOLE = ("first tasks", "last tasks")
OTHER = "other tasks"                                   # when gun and hands are done with the systems
HOUR = 3600.0
ACROSS = 20                                             # days of the calendar; all are told in words
HOURS = "{upto@}-IF({no}=1,0,{upto@^})"                 # of a system on a day


def halves(amount):
    """A time to its nearest half hour."""
    return f"INT(({amount})*2+1/2+{{terms.slack}})/2"


def weekday(date):
    """'Mon' (day 1 of spreadsheets is a Sunday)."""
    return f"INDEX({{words.weekday}},1+MOD({date},COUNTA({{words.weekday}})))"


def short(date):
    """'May 18'"""
    return f'MID(INDEX({{words.month}},MONTH({date})),1,1+2)&" "&DAY({date})'


def gun(of):
    """What the gun has done by the evening of the day, of the rows that `of` marks."""
    until = "({run.time}+({evening}<{run.end})*({evening}-{run.end}))"
    return f"SUMPRODUCT({of},({{run.start}}<{{evening}})*{until})"


def task(time):
    """'T 2.5', where there is any; 'T' under a quarter of an hour."""
    told = f'"T"&REPT(" "&{halves(time)},--({halves(time)}>0))'
    return f"REPT({told},--({time}>{{plan.hours}}*{{terms.slack}}))"


def told_block(systems):
    """What is done each day, system by system."""
    every = {"repeat": systems, "heads": tuple(f"system {number}" for number in range(1, systems + 1))}
    joined = "&".join(f"{{say@{number}}}" for number in range(1, systems + 1))
    time = f"{gun('--({run.system}={@})')}+MAX(0,MIN({{evening}},{{lane.hand_end}})-{{lane.hand_start}})"
    on = "({run.system}={@})*({run.day}<={no})*({run.last}>={no})"
    return Block("daily", SHEET, (
        C("no", "Day told", "count", label=lambda number: number),
        C("live", "Day told: of the job", "count",
          "IF((N({plan.passed})=1)*({no}<=N({plan.took}))=1,1,\"\")", ""),
        C("evening", "Day told: work hour of its evening", "time", "{no}*{plan.hours}"),
        C("last", "Day told: last place of", "count",
          f"IF({{lane.tot}}=0,0,SUMPRODUCT(LARGE({on}*{{run.no}},1)))", **every),
        C("first", "Day told: first place of", "count",
          f"IF({{last@}}=0,0,{first_of(on, '{run.no}', '{run.no}')})", **every),
        C("hand", "Day told: hands work on", "count", "({lane.hand_day}<={no})*({lane.hand_until}>={no})", **every),
        C("upto", "Day told: hours up to its evening of", "number",
          f"IF({{lane.base}}=0,0,{halves(time)})", **every),
        C("cell", "Day told: on the calendar", "text",
          'REPT("T",{hand@})&REPT(" ",{hand@}*({last@}>0))&REPT({end.mark}&"",--({last@}>0))'
          f'&REPT(" "&({HOURS}),--({HOURS}>0))', rows=ACROSS, **every),
        C("say", "Day told: in words", "text",
          'IF({hand@}+{last@}=0,"",{lane.name}&": "&REPT("tasks",{hand@})&REPT(", ",{hand@}*({last@}>0))'
          '&REPT({start.words}&" to ",--({first@}<{last@}))&REPT({end.words}&"",--({last@}>0))&"; ")', **every),
        C("opens", "Day told: first tasks", "time", "MAX(0,MIN({plan.begin},{evening})-{evening}+{plan.hours})"),
        C("closes", "Day told: last tasks", "time",
          "MAX(0,MIN({days.work@1},{evening})-MAX({days.rest_from@1},{evening}-{plan.hours}))"),
        C("others", "Day told: other tasks, by themselves", "time",
          "MAX(0,MIN({days.rest_from@1},{evening})-MAX({days.lanes@1},{evening}-{plan.hours}))"),
        C("early", "Day told: first tasks, on the calendar", "text", task("{opens}")),
        C("late", "Day told: last tasks, on the calendar", "text", task("{closes}")),
        C("gun", "Day told: time of the gun up to its evening", "time", gun("--({run.system}>0)")),
        C("words", "Day told: all of it", "text",
          f'IF({{early}}="","","{WHOLE[0]}; ")&{joined}'
          f'&REPT("{OTHER}; ",--({{others}}>{{plan.hours}}*{{terms.slack}}))&IF({{late}}="","","{WHOLE[1]}; ")'),
        C("place", "Day told: row, where somebody works", "count", 'IF({work.used}=1,{no},"")'),
        C("weekday", "Day told: weekday", "text", f'REPT({weekday("{work.date}")},--({{job.start}}<>""))'),
        C("short", "Day told: month and day", "text", f'REPT({short("{work.date}")},--({{job.start}}<>""))'),
        C("date", "Day told: date", "text", 'IF({job.start}="","Day "&{no},{weekday}&" "&{short})'),
        C("crew", "Day told: people and gun", "text",
          'IF({basics.people}=1,"1 person",{basics.people}&" people")&", gun "'
          f'&({halves("{gun}")}-{halves("IF({no}=1,0,{gun^})")})&" h"'),
    ), {"work": At("work_days", "{no}"), "lane": At("lanes", "{@}"),
        "end": At("steps", "INDEX({run.step},MAX(1,{last@}))"),
        "start": At("steps", "INDEX({run.step},MAX(1,{first@}))")}, "live",
        under="machines", section="Days in words")
# fmt: on


def day_words(est):
    """Every day that the base takes, as far as there is room."""
    plan, day = est.rows["plan"][0], est.rows["days"][0]
    if plan.passed:
        for row in est.rows["daily"][: int(plan.took)]:
            _told(est, row, plan, day)


def to_halves(est, time):
    return floor(time / HOUR * 2 + 0.5 + est.terms.slack) / 2


def _before(evening, begun, done):
    """Of a time between two work hours, what lies before an evening."""
    return min(max(evening - begun, 0.0), done - begun)


def said_date(number):
    date = to_date(number)
    return WEEKDAYS[int(number) % 7], f"{LOOKUPS['month'][date.month - 1][:3]} {date.day}"


def _told(est, row, plan, day):
    """One day: each system with its passes, hands and hours."""
    row.evening, steps, run = row.no * plan.hours, est.rows["steps"], est.rows["run"]
    before = est.rows["daily"][row.no - 2] if row.no > 1 else None
    row.live, lanes = 1.0, est.rows["lanes"]
    on = [[one for one in run if one.system == lane.no and one.day <= row.no <= one.last] for lane in lanes]
    row.last, row.first = (tuple(pick((one.no for one in own), default=0) for own in on) for pick in (max, min))
    row.hand = tuple(float(bool(lane.hand and lane.hand_day <= row.no <= lane.hand_until)) for lane in lanes)
    row.upto = tuple(
        to_halves(
            est,
            sum(_before(row.evening, one.start, one.end) for one in run if one.system == lane.no)
            + _before(row.evening, lane.hand_start, lane.hand_end),
        )
        for lane in lanes
    )
    hours = [upto - (before.upto[at] if before else 0.0) for at, upto in enumerate(row.upto)]
    cells, says = [], []
    for at, (lane, own, hand) in enumerate(zip(lanes, on, row.hand)):
        if not own and not hand:
            cells.append("")
            says.append(None)
            continue
        told = [steps[one.step - 1] for one in own]
        marks = ["T"] * bool(hand) + [one.mark for one in told[-1:]]
        passes = [*dict.fromkeys((told[0].words, told[-1].words))] if told else []
        marks += [plain(hours[at])] * (hours[at] > 0)
        cells.append(" ".join(marks))
        says.append(f"{lane.name}: {', '.join([*['tasks'] * bool(hand), *[' to '.join(passes)] * bool(told)])}; ")
    row.cell, row.say = tuple(cells) if row.no <= ACROSS else None, tuple(says)
    morning = row.evening - plan.hours
    row.opens = max(0.0, min(plan.begin, row.evening) - morning)
    row.closes = max(0.0, min(day.work, row.evening) - max(day.rest_from, morning))
    row.others = max(0.0, min(day.rest_from, row.evening) - max(day.lanes, morning))
    tiny = plan.hours * est.terms.slack
    row.early, row.late = (
        f"T {plain(to_halves(est, time))}".removesuffix(" 0") if time > tiny else "" for time in (row.opens, row.closes)
    )
    row.gun = sum(_before(row.evening, one.start, one.end) for one in run)
    first, last = (f"{words}; " * bool(told) for words, told in zip(WHOLE, (row.early, row.late)))
    row.words = first + "".join(say or "" for say in says) + f"{OTHER}; " * (row.others > tiny) + last
    listed = est.rows["work_days"][row.no - 1]
    row.place = float(row.no) if listed.used else None
    row.weekday, row.short = ("", "") if est.job.start is None else said_date(listed.date)
    row.date = f"Day {row.no}" if est.job.start is None else f"{row.weekday} {row.short}"
    gun = to_halves(est, row.gun) - (to_halves(est, before.gun) if before else 0.0)
    people = est.basics.people
    row.crew = f"{'1 person' if people == 1 else f'{plain(people)} people'}, gun {plain(gun)} h"
