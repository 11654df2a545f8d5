"""The lanes of the schedule: tasks and passes of each system, and the steps of the base system by system (E36)."""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import CLOCK
from builder.stages.plan import MARKS, SHEET, STEPS, day_of, first_of, lost_share, whole_days
from builder.trade import working_days


# fmt: off
def _own(key):
    """Of the coats of a system, all passes."""
    return f"SUMPRODUCT(--({{coat_steps.system_at}}={{no}}),{{coat_steps.times}},{{coat_steps.{key}}})"


def lanes_block(machines):
    by_machine = {"repeat": machines, "heads": tuple(f"machine {number}" for number in range(1, machines + 1))}
    total = {**by_machine, "rows": 1, "when": "passed"}

    def more(scenario, told):
        return C(f"more_{told}", f"Lane: use by alternate {told.upper()}", "time",
                 f"SUMPRODUCT(--({{*apart}}={scenario}),{{*uses@}},{{*added}})", **total)

    return Block("lanes", SHEET, (
        C("no", "System", "count", label=lambda number: number),
        C("ready_day", "Lane: a day has time", "count", "{plan.usable}", ""),
        C("passed", "Lane: scheduled", "count", "{plan.passed}", ""),
        C("live", "Lane: measured", "count", "--((N({system.live})=1)*(N({system.lines})>0)=1)"),
        C("apart", "Lane: of alternate A 1, B 2, C 1+2", "count", "IF({live}=1,MAX(0,{system.only}-1),0)"),
        C("base", "Lane: in the base", "count", "{live}*({apart}=0)"),
        C("passes", "Lane: passes", "count",
          "{base}*SUMPRODUCT(--({coat_steps.system_at}={no}),{coat_steps.times})"),
        C("name", "Lane: system", "text", 'IF({live}=1,{system.name}&"","")'),
        C("labor", "Lane: labor of its tasks", "time",
          "SUMPRODUCT(--({task_hours.system_at}={no}),{task_hours.lane_labor})"),
        C("tasks", "Lane: has tasks", "count", "--({labor}>0)"),
        C("prep", "Lane: tasks are a step of the gun lane", "count", "{base}*(1-{plan.two})*{tasks}"),
        C("tot", "Lane: steps", "count", "{passes}+{prep}"),
        C("upto", "Lane: its last step", "count", "SUMPRODUCT(--({*no}<={no}),{*tot})"),
        C("before", "Lane: steps before", "count", "{upto}-{tot}"),
        C("weather", "Lane: share of the weather that counts", "number", "IF({live}=1,0+{exposure.weather},0)"),
        C("always", "Lane: lost in any month", "share",
          'IF({live}=1,({exposure.weather}="")*(0+{exposure.lost_days}),0)'),
        C("hand", "Lane: tasks in the hand lane", "count", "{base}*{plan.two}*{tasks}"),
        C("hand_start", "Lane: tasks begin at work hour", "time", "IF({no}=1,{plan.begin},{hand_end^})", "passed"),
        C("hand_day", "Lane: tasks begin on day", "count", day_of("{hand_start}"), "passed"),
        C("hand_lost", "Lane: tasks, lost to weather", "share", lost_share("{hand_day}", ""), "passed"),
        C("all_at_it", "Lane: the first of the base, whose tasks all people do", "count",
          "--(SUMPRODUCT(--({*no}<{no}),{*tot}+{*hand})=0)", "passed"),
        C("at_it", "Lane: people at the tasks", "count",
          "IF({all_at_it}=1,{basics.people},MAX(1,{plan.hands}))", "passed"),
        C("hand_end", "Lane: tasks end at work hour", "time",
          "{hand_start}+{hand}*{labor}*{plan.pace}/{at_it}/(1-{hand_lost})", "passed"),
        C("hand_until", "Lane: tasks end on day", "count",
          f"IF({{hand}}=1,MIN(COUNT({{work_days.no}}),MAX(1,{whole_days('{hand_end}')})),0)", "passed"),
        C("ready", "Lane: coated from work hour", "time", "IF({hand}=1,{hand_end},{plan.begin})", "passed"),
        C("added", "Lane: gun time that an alternate adds", "time",
          f"IF({{apart}}=0,0,({_own('time')}+(1-{{plan.two}})*{{labor}}*{{plan.pace}}/{{basics.people}})"
          "/(1-{later_lost}))", "passed"),
        C("later_lost", "Lane: lost to weather after the base", "share",
          lost_share(day_of("{plan.lanes_end}"), ""), "passed"),
        C("last_coat", "Lane: its last coat", "count",
          "SUMPRODUCT(LARGE(({coat_steps.system_at}={no})*{coat_steps.no},1))"),
        C("drying", "Lane: dries, all coats but the last pass", "time",
          f"IF({{last_coat}}=0,0,{_own('recoat')}-{{last.recoat}})"),
        C("alone", "Lane: an alternate takes by itself", "time",
          "IF({apart}=0,0,{added}+{drying}/{constants.clock}*{plan.hours})", "passed"),
        C("uses", "Lane: needs", "count",
          "IF({live}=0,0,"
          "--(SUMPRODUCT(--({areas.system_at}={no}),--({areas.access_at}=INDEX({machines.access_no},{@})),{areas.work})"
          "+SUMPRODUCT(--({coat_steps.system_at}={no}),--({coat_steps.pump_at}=INDEX({machines.pump_no},{@})))>0))",
          **by_machine),
        C("rented", "Lane: needs a rented access", "count",
          "--(SUMPRODUCT(--({areas.system_at}={no}),{areas.hired})>0)"),
        C("hand_use", "Lane: tasks need, until day", "count",
          "SUMPRODUCT(LARGE({*uses@}*{*hand_until},1))*(INDEX({machines.access_no},{@})>0)", **total),
        C("hand_from", "Lane: tasks need, from day", "count",
          f"IF({{hand_use@}}=0,0,{first_of('{*uses@}*{*hand}', '{*hand_day}', '{work_days.no}')})", **total),
        more("1", "a"), more("2", "b"), more("(1+2)", "c"),
    ), {"system": At("systems", "{no}"), "exposure": At("exposures", "{system.exposure_at}"),
        "last": At("coat_steps", "{last_coat}")}, "ready_day", under="months", section="Systems")


COAT_STEPS = Block("coat_steps", SHEET, (
    C("no", "Coat", "count", label=lambda number: number),
    C("usable", "Coat: a day has time", "count", "{plan.usable}", ""),
    C("live", "Coat: worked out", "count", "--(N({hour.live})=1)"),
    C("system_at", "Coat: row of its system", "count", "IF({live}=1,{coat.system_at},0)"),
    C("times", "Coat: passes", "count", "IF({live}=1,{entry.times},0)"),
    C("here", "Coat: passes in the base", "count", "IF({live}=1,{times}*{lane.base},0)"),
    C("first", "Coat: its first step", "count",
      "IF({here}=0,0,{lane.before}+{lane.prep}+1+SUMPRODUCT(--({*system_at}={system_at}),--({*no}<{no}),{*times}))"),
    C("time", "Coat: time of a pass", "time", "IF({live}=1,{hour.elapsed}/{times}*{plan.pace},0)"),
    C("recoat", "Coat: dries", "time", "IF({live}=1,{paint.recoat},0)"),
    C("pump_at", "Coat: row of its pump", "count", "N({hour.pump_at})"),
    C("load", "Coat: its coating and color", "count", "IF({pump_at}>0,{gallon.lead},0)"),
    C("rented", "Coat: its pump is rented", "count", "IF({pump_at}>0,{pump.hired},0)"),
    C("unthinned", "Coat: paint in what is sprayed", "share", "IF({live}=1,1/(1+{coat.thinning}),0)"),
    C("hoses", "Coat: hoses in use", "count", "IF({pump_at}>0,{gallon.hoses},0)"),
), {"coat": At("film", "{no}"), "hour": At("hours", "{no}"), "gallon": At("gallons", "{no}"),
    "entry": At("coats", "{no}"), "lane": At("lanes", "{system_at}"), "paint": At("coatings", "{coat.coating_at}"),
    "pump": At("pumps", "{pump_at}")}, "usable", under="lanes", section="Coats")

STEP_LIST = Block("steps", SHEET, (
    C("no", "Step", "count", label=lambda number: number),
    C("live", "Step: used", "count", 'IF((N({plan.passed})=1)*({no}<=N({plan.steps}))=1,1,"")', ""),
    C("system_at", "Step: row of its system", "count",
      "SUMPRODUCT(({lanes.before}<{no})*({lanes.upto}>={no})*{lanes.no})"),
    C("coat_at", "Step: row of its coat, 0 for tasks", "count",
      "SUMPRODUCT(({coat_steps.first}<={no})*({coat_steps.first}+{coat_steps.here}>{no})*{coat_steps.no})"),
    C("time", "Step: time", "time",
      'IF({coat_at}=0,{lane.labor}*{plan.pace}/{basics.people},{coat.time})'),
    C("recoat", "Step: dries", "time", 'IF({coat_at}=0,0,{coat.recoat})'),
    C("pump_at", "Step: row of its pump, 0 for none", "count", 'IF({coat_at}=0,0,{coat.pump_at})'),
    C("load", "Step: its coating and color", "count", 'IF({coat_at}=0,0,{coat.load})'),
    C("rented", "Step: needs a rented machine", "count",
      'IF({coat_at}=0,{lane.rented},MAX({lane.rented},{coat.rented}))'),
    C("number", "Step: number of the pass in its system, 0 for tasks", "count", "{no}-{lane.before}-{lane.prep}"),
    C("mark", "Step: on the calendar", "text", 'IF({coat_at}=0,"T",MID("SBRH",{layer.method_no},1)&{number})'),
    C("words", "Step: in words", "text",
      'IF({coat_at}=0,"tasks","coat "&{number}&", "&CHOOSE(1+({entry.color}<>""),{layer.coating},{entry.color}))'),
), {"layer": At("film", "{coat_at}"), "entry": At("coats", "{coat_at}"), "lane": At("lanes", "{system_at}"),
    "coat": At("coat_steps", "{coat_at}")}, "live", under="coat_steps", section="Steps, system by system")
# fmt: on


def lanes(est):
    """Passes and tasks of each system, each step of the base."""
    plan = est.rows["plan"][0]
    if not plan.usable:
        return
    for row, hour in zip(est.rows["coat_steps"], est.rows["hours"]):
        row.usable, row.live = 1.0, float(bool(hour.live))
        row.system_at = est.rows["film"][row.no - 1].system_at if row.live else 0
        row.times = est.rows["coats"][row.no - 1].times if row.live else 0.0
    upto = 0.0
    for row in est.rows["lanes"]:
        _lane(est, row, plan)
        row.before, upto = upto, upto + row.tot
        row.upto = upto
    for row in est.rows["coat_steps"]:
        _coat(est, row, plan)
    for row in est.rows["lanes"]:
        _needs(est, row)
    plan.steps = upto
    plan.too_many = float(upto > STEPS)
    plan.passed = None if plan.too_many else 1.0
    if plan.passed:
        for row in est.rows["steps"][: int(upto)]:
            _step(est, row, plan)


def _lane(est, row, plan):
    system = est.row("systems", row.no)
    row.ready_day, row.live = 1.0, float(bool(system.live and system.lines > 0))
    row.name = est.judge.as_text(system.name) if row.live else None
    row.apart = max(0.0, system.only - 1) if row.live else 0.0
    row.base = float(row.live and row.apart == 0)
    row.passes = row.base * sum(one.times for one in est.rows["coat_steps"] if one.system_at == row.no)
    row.labor = sum(one.lane_labor for one in est.rows["task_hours"] if one.live and one.system_at == row.no)
    row.tasks = float(row.labor > 0)
    row.prep = row.base * (1 - plan.two) * row.tasks
    row.hand = row.base * plan.two * row.tasks
    row.tot = row.passes + row.prep
    row.weather = row.always = 0.0
    if row.live:
        exposure = est.row("exposures", system.exposure_at)
        row.weather = exposure.weather or 0.0
        row.always = exposure.lost_days or 0.0 if exposure.weather is None else 0.0


def _coat(est, row, plan):
    row.here = row.first = row.time = row.recoat = row.rented = row.unthinned = row.hoses = 0.0
    row.pump_at = row.load = 0
    if not row.live:
        return
    coat, hour, gallon = (est.row(block, row.no) for block in ("film", "hours", "gallons"))
    lane = est.row("lanes", row.system_at)
    row.here = row.times * lane.base
    if row.here:
        earlier = (one.times for one in est.rows["coat_steps"][: row.no - 1] if one.system_at == row.system_at)
        row.first = lane.before + lane.prep + 1 + sum(earlier)
    row.time = hour.elapsed / row.times * plan.pace
    row.recoat = est.row("coatings", coat.coating_at).recoat
    row.unthinned = 1 / (1 + coat.thinning)
    row.pump_at = hour.pump_at or 0
    if row.pump_at:
        row.load, row.hoses = gallon.lead, gallon.hoses
        row.rented = est.row("pumps", row.pump_at).hired


def _needs(est, row):
    """The pumps and the access of a system, and how long its coats dry in all."""
    own = [one for one in est.rows["areas"] if one.passed and one.system_at == row.no]
    coats = [one for one in est.rows["coat_steps"] if one.system_at == row.no]
    row.uses = tuple(
        row.live
        * (
            sum(one.work for one in own if one.access_at == machine.access_no) > 0
            or any(one.pump_at == machine.pump_no for one in coats)
        )
        for machine in est.rows["machines"]
    )
    row.rented = float(any(one.hired for one in own))
    row.last_coat = float(max((one.no for one in coats), default=0))
    row.drying = sum(one.times * one.recoat for one in coats) - coats[-1].recoat if coats else 0.0


def _step(est, row, plan):
    row.live = 1.0
    lane = next(one for one in est.rows["lanes"] if one.before < row.no <= one.upto)
    coat = next((one for one in est.rows["coat_steps"] if one.first <= row.no < one.first + one.here), None)
    row.system_at, row.number = lane.no, row.no - lane.before - lane.prep
    row.coat_at = coat.no if coat else 0
    row.recoat, row.pump_at, row.load = 0.0, 0, 0
    if coat is None:
        row.time, row.rented = lane.labor * plan.pace / est.basics.people, lane.rented
        row.mark, row.words = "T", "tasks"
        return
    layer, entry = est.row("film", coat.no), est.row("coats", coat.no)
    row.mark = f"{MARKS[layer.method_no - 1]}{row.number:g}"
    paint = layer.coating if entry.color is None else est.judge.as_text(entry.color)  # the Crew card names both
    row.words = f"coat {row.number:g}, {paint}"
    row.time, row.recoat = coat.time, coat.recoat
    row.pump_at, row.load, row.rented = coat.pump_at, coat.load, max(lane.rented, coat.rented)


def added(est):
    """What each alternate adds to the gun's time, once the base has its end."""
    plan, listed = est.rows["plan"][0], est.rows["work_days"]
    if not plan.passed:
        return
    day = min(len(listed) - 1, working_days.first_day(plan.lanes_end, plan.hours, est.terms.round_slack))
    for row in est.rows["lanes"]:
        coats = [one for one in est.rows["coat_steps"] if one.system_at == row.no]
        row.later_lost = working_days.lost_share(listed[day].lost, row.weather, row.always)
        row.added = row.alone = 0.0
        if row.apart:
            time = sum(one.times * one.time for one in coats)
            time += (1 - plan.two) * row.labor * plan.pace / est.basics.people
            row.added = time / (1 - row.later_lost)
            row.alone = row.added + row.drying / CLOCK * plan.hours
    lanes = est.rows["lanes"]
    for apart, letter in enumerate("abc", start=1):
        own = [one for one in lanes if one.apart == apart]
        more = (sum(one.added for one in own if one.uses[at]) for at, _ in enumerate(est.rows["machines"]))
        setattr(lanes[0], f"more_{letter}", tuple(map(float, more)))
