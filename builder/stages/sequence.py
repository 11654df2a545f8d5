"""The base in the order of its work: listed days, then one row a step as the gun does them (E36).

Each row of the sequence goes on from the one above it: when each system could go on, what is in each pump, which system
is taken, from when to when.
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import CLOCK, TIE
from builder.stages.loads import LOAD_COLUMNS, follow, use_columns
from builder.stages.plan import SHEET, day_of, lost_share, whole_days
from builder.trade import labor, schedule, working_days
from builder.values import to_date

# fmt: off
WORK_DAYS = Block("work_days", SHEET, (
    C("no", "Day", "count", label=lambda number: number),
    C("date", "Day: date", "date",
      'IF({plan.passed}="","",WORKDAY(CHOOSE(1+({no}=1),{date^},{plan.start}-1),1,{holidays.day}))', ""),
    C("morning", "Day: begins, on the clock", "time", "({date}-INDEX({*date},1))*{constants.clock}"),
    C("lost", "Day: lost in the open", "share",
      'IF({job.start}="",{plan.mean_lost},INDEX({months.lost},MONTH({date})))'),
    C("gun", "Day: the gun works", "count",
      "--(SUMPRODUCT(--({run.day}<={no}),--({run.last}>={no}))>0)"),
    C("hand", "Day: hands work", "count", f"--({{no}}<={whole_days('{plan.hand_end}')})"),
    C("rest", "Day: what comes last", "count",
      "({no}>INT({plan.lanes_end}/{plan.hours}+{terms.round_slack}))*"
      f"({{no}}<={whole_days('{days.work@1}')})"),
    C("used", "Day: somebody works", "count", "--({gun}+{hand}+{rest}>0)"),
), when="date", under="steps", section="Days")


def run_block(systems, pumps, access):
    every = {"repeat": systems, "heads": tuple(f"system {number}" for number in range(1, systems + 1))}
    in_pump = {"repeat": pumps, "heads": tuple(f"pump {number}" for number in range(1, pumps + 1))}

    def span(key):
        return f"{{{key}@1:{key}@{pumps if key == 'loaded' else systems}}}"

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
        *LOAD_COLUMNS, *use_columns(access),
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
        if not row.live:
            row.set(system=0, step=1, pump=0, load=0, fills=0.0, start=0.0, end=0.0, day=0.0, last=0.0, halts=0.0)
        row.time = row.end - row.start
        row.lost_time = row.time * (row.lost or 0.0)
    follow(est)
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
    plan.lanes_end = max(plan.hand_end, *(one.end for one in est.rows["run"]))
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
        row.date = float(date)
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
    plan.hand_end = now


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
