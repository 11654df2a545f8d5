"""The base in the order of its work: listed days, then one row a step as the gun does them (E30, E35, E36).

Each row of the sequence goes on from the one above it: when each system could go on, what is in each pump, which system
is taken, from when to when.
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import CLOCK, TIE
from builder.stages.plan import SHEET, day_of, first_of, lost_share, whole_days
from builder.trade import labor, schedule, spray, working_days
from builder.values import to_date

# fmt: off
WORK_DAYS = Block("work_days", SHEET, (
    C("no", "Day", "count", label=lambda number: number),
    C("live", "Day: scheduled", "count", "{plan.passed}", ""),
    C("date", "Day: date", "date", "WORKDAY(IF({no}=1,{plan.start}-1,{date^}),1,{holidays.day})"),
    C("morning", "Day: begins, on the clock", "time", "({date}-INDEX({*date},1))*{constants.clock}"),
    C("lost", "Day: lost in the open", "share",
      'IF({job.start}="",{plan.mean_lost},INDEX({months.lost},MONTH({date})))'),
    C("gun", "Day: the gun works", "count",
      "--(SUMPRODUCT(--({run.day}<={no}),--({run.last}>={no}),--({run.day}>0))>0)"),
    C("hand", "Day: hands work", "count", f"--({{no}}<={whole_days('{plan.hand_end}')})"),
    C("rest", "Day: what comes last", "count",
      "({no}>INT({plan.lanes_end}/{plan.hours}+{terms.round_slack}))*"
      f"({{no}}<={whole_days('{days.work@1}')})"),
    C("used", "Day: somebody works", "count", "--({gun}+{hand}+{rest}>0)"),
), when="live", under="steps", section="Days")


def run_block(systems, pumps, access):
    every = {"repeat": systems, "heads": tuple(f"system {number}" for number in range(1, systems + 1))}
    in_pump = {"repeat": pumps, "heads": tuple(f"pump {number}" for number in range(1, pumps + 1))}
    by_access = {"repeat": access, "heads": tuple(f"access {number}" for number in range(1, access + 1))}
    total = {**by_access, "rows": 1, "when": ""}

    def span(key):
        return f"{{{key}@1:{key}@{pumps if key == 'loaded' else systems}}}"

    def fresh(which):
        """Of the days of this row, those after the last day of the earlier rows marked by `which`."""
        return f"MAX(0,{{last}}-MAX({{day}}-1,SUMPRODUCT(LARGE({which}*({{*no}}<{{no}})*{{*last}},1))))"

    def by(day):
        """Of the days on which the gun lane needs a machine, those until a day."""
        return (f"SUMPRODUCT({{*fresh@}}*({{*last}}<={day})"
                f"+({day}-{{*last}}+{{*fresh@}})*({{*last}}>{day})*({{*last}}-{{*fresh@}}<{day}))")

    return Block("run", SHEET, (
        C("no", "Place", "count", label=lambda number: number),
        C("live", "Used", "count", 'IF((N({plan.passed})=1)*({no}<=N({plan.steps}))=1,1,"")', ""),
        C("next", "Next step of", "count",
          "IF({no}=1,INDEX({lanes.before},{@})+1,{next@^}+({system^}={@}))", **every),
        C("able", "Could go on from", "time",
          "IF({next@}>INDEX({lanes.upto},{@}),{constants.never},"
          "CHOOSE(1+({no}>1)*(1+({system^}={@})),INDEX({lanes.ready},{@}),{able@^},{ready^}))", **every),
        C("loaded", "Coating in", "count", "CHOOSE(1+({no}>1)*(1+({pump^}={@})),0,{loaded@^},{load^})", **in_pump),
        C("free", "Gun free from", "time", "IF({no}=1,{plan.gun_from},{end^})"),
        C("soonest", "Soonest start", "time", f"MAX({{free}},MIN({span('able')}))"),
        C("worth", "Worth, 0 where later, of", "number",
          "IF({able@}>{soonest}+{constants.tie},0,((INDEX({lanes.upto},{@})-{next@}+1)*2+1-({coming.pump_at}>0)"
          f"*(INDEX({span('loaded')},1,MAX(1,{{coming.pump_at}}))<>{{coming.load}}))*2+{{coming.rented}})", **every),
        C("system", "System, 0 where unused", "count",
          f"IF(N({{live}})=1,MATCH(MAX({span('worth')}),{span('worth')},0),0)", "", pinned=True),
        C("step", "Step, the first where unused", "count",
          f"IF(N({{live}})=1,INDEX({span('next')},1,{{system}}),1)", ""),
        C("pump", "Pump, 0 for none", "count", "IF(N({live})=1,{this.pump_at},0)", ""),
        C("load", "Coating and color", "count", "IF(N({live})=1,{this.load},0)", ""),
        C("fills", "Its pump is filled anew", "count",
          f"IF({{pump}}=0,0,--(INDEX({span('loaded')},1,{{pump}})<>{{load}}))", ""),
        C("start", "Begins at work hour", "time",
          f"IF(N({{live}})=1,MAX({{free}},INDEX({span('able')},1,{{system}})),0)", ""),
        C("day", "Begins on day", "count", f"IF(N({{live}})=1,{day_of('{start}')},0)", ""),
        C("lost", "Lost to weather", "share", lost_share("{day}", "lane.")),
        C("end", "Ends at work hour", "time", "IF(N({live})=1,{start}+{this.time}/(1-{lost}),0)", ""),
        C("last", "Ends on day", "count",
          f"IF(N({{live}})=1,MIN(COUNT({{work_days.no}}),MAX(1,{whole_days('{end}')})),0)", ""),
        C("dry", "Dry, on the clock", "time",
          "INDEX({work_days.morning},{last})+({end}-{plan.hours}*({last}-1))*{plan.stretch}+{this.recoat}"),
        C("back", "Last day begun by then", "count", "MATCH({dry},{work_days.morning},1)"),
        C("ready", "Next coat from work hour", "time",
          "MAX({end},{plan.hours}*({back}-1)+MIN({plan.hours},({dry}-INDEX({work_days.morning},{back}))/{plan.stretch}))"),
        C("time", "Time, weather included", "time", "{end}-{start}", ""),
        C("lost_time", "Time lost to weather", "time", "{time}*N({lost})", ""),
        C("halts", "A bad day stops what follows", "share", "IF(N({live})*({no}>1)=1,MAX(0,N({lost^})-{lost}),0)", ""),
        C("load_from", "Load begun at place", "count",
          "IF({pump}=0,0,SUMPRODUCT(LARGE(({*pump}={pump})*{*fills}*({*no}<={no})*{*no},1)))", ""),
        C("hoses", "Hoses in use", "count", "IF({pump}=0,0,{coat.hoses})", ""),
        C("unthinned", "Paint in what is sprayed", "share", "IF({pump}=0,0,{coat.unthinned})", ""),
        C("fill", "Left in hose and pail by its load", "volume",
          "IF({fills}=0,0,({own.heel}+(1-(0+{terms.recovered}))*{own.content}"
          "*SUMPRODUCT(LARGE(({*load_from}={no})*{*hoses},1)))*SUMPRODUCT(LARGE(({*load_from}={no})*{*unthinned},1)))",
          ""),
        C("evenings", "Evenings on which its load stays", "count",
          "IF({pump}=0,0,MAX(0,{last}-{day})"
          "+(1-{fills})*({day}>SUMPRODUCT(LARGE(({*load_from}={load_from})*({*no}<{no})*{*last},1))))", ""),
        C("flush", "Time of flushing", "time", "IF({pump}=0,0,{evenings}*(0+{own.flush}))", ""),
        C("pump_days", "Days it adds to those of its pump", "count",
          f"IF({{pump}}=0,0,{fresh('({*pump}={pump})')})", ""),
        C("uses", "Needs", "count", "IF(N({live})=1,{lane.uses@},0)", "", **by_access),
        C("fresh", "Days it adds to those of", "count", f"IF({{uses@}}=0,0,{fresh('{*uses@}')})", "", **by_access),
        C("use_from", "Gun lane needs, from day", "count",
          f"IF({{use_until@}}=0,0,{first_of('{*uses@}', '{*day}', '{work_days.no}')})", **total),
        C("use_until", "Gun lane needs, until day", "count", "SUMPRODUCT(LARGE({*uses@}*{*last},1))", **total),
        C("hands_until", "Hands need, until day", "count", "N(INDEX({lanes.hand_use},1,{@}))", **total),
        C("hands_after", "Hands need, after day", "count", "MAX(0,N(INDEX({lanes.hand_from},1,{@}))-1)", **total),
        C("until_hands_end", "Gun lane needs, days until hands end", "count", by("{hands_until@}"), **total),
        C("until_hands_begin", "Gun lane needs, days until hands begin", "count", by("{hands_after@}"), **total),
        C("use_days", "Gun lane needs, days without hands", "count",
          "SUM({*fresh@})-{until_hands_end@}+{until_hands_begin@}", **total),
    ), {"lane": At("lanes", "{system}"), "coming": At("steps", "{next@}"), "this": At("steps", "{step}"),
        "coat": At("coat_steps", "INDEX({steps.coat_at},{step})"), "own": At("pumps", "{pump}")}, "live",
        under="work_days", section="Steps, in the order of the work")
# fmt: on


def sequence(est):
    """Days, hands and gun of the base."""
    plan = est.rows["plan"][0]
    if plan.passed:
        _sequence(est, plan)
    for row in est.rows["run"]:
        _totals(est, row)
    _machines(est)
    if plan.passed:
        _ends(est, plan)


def _sequence(est, plan):
    days = _days(est, plan)
    steps = [[one for one in est.rows["steps"] if one.live and one.system_at == lane.no] for lane in est.rows["lanes"]]
    given = tuple(
        tuple(
            schedule.Step(one.time, one.recoat, lane.weather, lane.always, one.pump_at, one.load, int(one.rented))
            for one in own
        )
        for lane, own in zip(est.rows["lanes"], steps)
    )
    _hands(est, plan, days)
    ready = [lane.ready for lane in est.rows["lanes"]]
    placed = schedule.sequence(plan.gun_from, ready, given, days, TIE)
    state = _State(est, plan, days)
    for row, one in zip(est.rows["run"], placed):
        _row(est, row, one, state)


def _ends(est, plan):
    """When both lanes end, and what weather and pumps take."""
    plan.gun_end = max(plan.begin, *(one.end or 0.0 for one in est.rows["run"]))
    plan.lanes_end = max(plan.hand_end, plan.gun_end)
    plan.gun_time, plan.lost_time = (sum(getattr(one, key) for one in est.rows["run"]) for key in ("time", "lost_time"))
    plan.lost = plan.lost_time / plan.gun_time if plan.gun_time else 0.0
    plan.open_time = sum(one.time for one in est.rows["run"] if one.lost_time > 0)
    plan.open_lost = plan.lost_time / plan.open_time if plan.open_time else 0.0
    plan.halted = schedule.halted(tuple(one.lost for one in est.rows["run"] if one.live), plan.hours)
    plan.loads, plan.flush_labor = (sum(getattr(one, key) for one in est.rows["run"]) for key in ("fills", "flush"))


def _days(est, plan):
    """Dates and months of the listed days."""
    off, lost = {one.day for one in est.rows["holidays"]}, [month.lost for month in est.rows["months"]]
    date = plan.start - 1
    for row in est.rows["work_days"]:
        date = labor.workday(date + 1, 1, off)
        row.live, row.date = 1.0, float(date)
        row.morning = (row.date - est.rows["work_days"][0].date) * CLOCK
        row.lost = plan.mean_lost if est.job.start is None else lost[to_date(date).month - 1]
    listed = est.rows["work_days"]
    return working_days.Days(
        plan.hours,
        plan.stretch,
        tuple(one.morning for one in listed),
        tuple(one.lost for one in listed),
        est.terms.round_slack,
    )


def _hands(est, plan, days):
    """When the tasks of each system are done, in the order of Paint; the gun begins when all have done the first."""
    lanes, listed, beside = est.rows["lanes"], len(days.mornings), max(1.0, plan.hands)
    used = [lane for lane in lanes if lane.tot + lane.hand]
    tasks = tuple(
        schedule.Step(lane.labor * plan.pace, 0.0, lane.weather, lane.always) if lane.hand else None for lane in used
    )
    done = schedule.by_hand(plan.begin, tasks, est.basics.people, beside, days)
    ready = {lane.no: end for lane, end in zip(used, done)}
    plan.gun_from, now = done[0] if done else plan.begin, plan.begin
    for lane in lanes:
        lane.all_at_it = float(not used or lane.no <= used[0].no)
        lane.at_it = est.basics.people if lane.all_at_it else beside
        lane.passed, lane.hand_start, lane.ready = 1.0, now, ready.get(lane.no, plan.begin)
        first = min(listed - 1, working_days.first_day(now, days.hours, days.slack))
        lane.hand_day = first + 1.0
        lane.hand_lost = working_days.lost_share(days.months[first], lane.weather, lane.always)
        now = lane.hand_end = lane.ready if lane.hand else now
        last = working_days.last_day(now, days.hours, days.slack)
        lane.hand_until = min(float(listed), last + 1.0) if lane.hand else 0.0
    plan.hand_end = max(plan.begin, now)


class _State:
    """What the rows of the sequence hand on: the next step of each system and from when, what is in each pump."""

    def __init__(self, est, plan, days):
        lanes = est.rows["lanes"]
        self.days, self.upto = days, [lane.upto for lane in lanes]
        self.next = [lane.before + 1 for lane in lanes]
        self.able = [lane.ready for lane in lanes]
        self.loaded = [0.0 for _ in est.rows["pumps"]]
        self.free = plan.gun_from


def _row(est, row, one, state):
    """One step, and why it is taken: as the cells of its row say it."""
    days, listed = state.days, len(est.rows["work_days"])
    row.live, row.next, row.loaded, row.free = 1.0, tuple(state.next), tuple(state.loaded), state.free
    row.able = tuple(
        schedule.NEVER if ahead > upto else able for ahead, upto, able in zip(state.next, state.upto, state.able)
    )
    row.soonest = max(row.free, min(row.able))
    row.worth = tuple(_worth(est, row, state, at) for at, _ in enumerate(row.able))
    step = est.row("steps", int(state.next[one.system]))
    row.system, row.step = one.system + 1, step.no
    row.pump, row.load = step.pump_at, step.load
    row.fills = float(one.changed)
    row.start, row.end, row.lost, row.ready = one.start, one.end, one.lost, one.ready
    row.day = min(listed, working_days.first_day(one.start, days.hours, days.slack) + 1.0)
    row.last = min(listed, working_days.last_day(one.end, days.hours, days.slack) + 1.0)
    morning = days.mornings[int(row.last) - 1]
    row.dry = working_days.clock_of(one.end, row.last - 1, days.hours, days.stretch, morning) + step.recoat
    row.back = float(sum(begun <= row.dry for begun in days.mornings))
    state.free, state.able[one.system] = one.end, one.ready
    state.next[one.system] += 1
    if row.pump:
        state.loaded[row.pump - 1] = row.load
    before = est.rows["run"][row.no - 2].lost if row.no > 1 else 0.0
    row.halts = max(0.0, before - one.lost)


def _worth(est, row, state, at):
    """Steps left, then whether its pump is kept, then whether a rented machine is needed, as one number."""
    if row.able[at] > row.soonest + TIE:
        return 0.0
    coming = est.row("steps", int(state.next[at]))
    kept = float(coming.pump_at == 0 or state.loaded[coming.pump_at - 1] == coming.load)
    left = state.upto[at] - state.next[at] + 1
    return (left * 2 + kept) * 2 + coming.rented


def _totals(est, row):
    """What follows from a row once all are known: its load, its evenings, the days on which machines are needed."""
    rows, earlier = est.rows["run"], est.rows["run"][: row.no - 1]
    if not row.live:
        row.set(system=0, step=1, pump=0, load=0, fills=0.0, start=0.0, end=0.0, day=0.0, last=0.0, halts=0.0)
    row.time = row.end - row.start
    row.lost_time = row.time * (row.lost or 0.0)
    row.load_from = row.hoses = row.unthinned = row.fill = row.evenings = row.flush = row.pump_days = 0.0
    if row.pump:
        _pump(est, row, rows, earlier)
    uses = est.row("lanes", row.system).uses if row.live else (0.0,) * len(est.rows["machines"])
    row.uses = uses[: len(est.rows["access"])]
    row.fresh = tuple(used * _fresh(row, [one for one in earlier if one.uses[at]]) for at, used in enumerate(row.uses))


def _pump(est, row, rows, earlier):
    """Of a step that is sprayed: when its load was begun, and how long it stays."""
    row.load_from = max(one.no for one in rows[: row.no] if one.pump == row.pump and one.fills)
    coat, pump = est.row("coat_steps", est.row("steps", row.step).coat_at), est.row("pumps", row.pump)
    row.hoses, row.unthinned = coat.hoses, coat.unthinned
    row.pump_days = _fresh(row, [one for one in earlier if one.pump == row.pump])
    same_load = [one.last for one in earlier if one.load_from == row.load_from]
    # what takes no time may end on the evening before the morning that it begins on
    row.evenings = max(0.0, row.last - row.day) + (not row.fills and row.day > max(same_load))
    row.flush = row.evenings * (pump.flush or 0.0)


def _fresh(row, before):
    """Days of a row after the last day of the rows before it."""
    return max(0.0, row.last - max(row.day - 1, max((one.last for one in before), default=0.0)))


def _machines(est):
    """Fills of each load; from which day to which lifts and scaffold are needed."""
    rows, terms = est.rows["run"], est.terms
    for row in rows:
        if row.fills:
            load = [one for one in rows if one.load_from == row.no]
            pump, least = est.row("pumps", row.pump), 1 / max(one.unthinned for one in load) - 1
            row.fill = spray.line_fill(
                pump.heel, pump.content, terms.recovered or 0.0, max(one.hoses for one in load), least
            )
    places = range(len(est.rows["access"]))
    needs = [[one for one in rows if one.uses[at]] for at in places]
    rows[0].use_from = tuple(min((one.day for one in own), default=0.0) for own in needs)
    rows[0].use_until = tuple(max((one.last for one in own), default=0.0) for own in needs)
    if est.rows["plan"][0].passed:
        _hand_days(est)
    hands, none = est.rows["lanes"][0], (0.0,) * len(est.rows["machines"])
    rows[0].hands_until = (hands.hand_use or none)[: len(places)]
    rows[0].hands_after = tuple(max(0.0, one - 1) for one in (hands.hand_from or none)[: len(places)])
    for key, border in (("end", "hands_until"), ("begin", "hands_after")):
        days = tuple(sum(_until(one, at, day) for one in rows) for at, day in enumerate(getattr(rows[0], border)))
        setattr(rows[0], f"until_hands_{key}", days)
    rows[0].use_days = tuple(
        sum(one.fresh[at] for one in rows) - rows[0].until_hands_end[at] + rows[0].until_hands_begin[at]
        for at in places
    )


def _until(row, at, day):
    """Of the days that a row adds to those of an access, those until a day."""
    return min(row.fresh[at], max(0.0, day - (row.last - row.fresh[at])))


def _hand_days(est):
    """From which day until which hands need each access."""
    lanes, machines = est.rows["lanes"], est.rows["machines"]
    for key, reach, pick in (("hand_use", "hand_until", max), ("hand_from", "hand_day", min)):
        found = []
        for at, machine in enumerate(machines):
            own = [lane for lane in lanes if lane.hand and lane.uses[at] and machine.access_no]
            found.append(pick((getattr(lane, reach) for lane in own), default=0.0))
        setattr(lanes[0], key, tuple(found))
