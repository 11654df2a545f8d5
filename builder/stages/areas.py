"""Systems and measured lines: measured, coated and work area (E1, E2, E28, E37)."""

from builder.records.kinds import KINDS
from builder.records.lookups import BESIDE, place, rank
from builder.records.reasons import TOO_HIGH, TOO_OPEN
from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import ONLY, TOTALS, included, only
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages import lengths
from builder.trade import labor, takeoff
from builder.values import same

# fmt: off
MEASURES = (("measured", "Measured area", "area"), ("coated", "Coated area", "area"),
            ("perimeter", "Opening perimeter", "length"), ("run", "Length of lines", "length"),
            ("opened", "Openings", "number"))     # of a system, and what the amount of a task may be taken from
# How much slower tasks are up there: the same, each line times the work factor of its access, over what is measured
# (E28). Of what -> the sum so weighed, its words; and what it says of tasks.
WORK = {"measured": ("work", "Work area", "area", "slow", "Slower by access, its lines together"),
        "perimeter": ("edge_work", "Opening perimeter times work factor", "length", "edge_slow",
                      "Slower by access, edge of its openings"),
        "opened": ("open_work", "Openings times work factor", "number", "open_slow",
                   "Slower by access, its openings")}


def systems_block(units):
    def own(key, block):
        return f'IF({{row.{key}}}="",{{basics.{key}_at}},MATCH({{row.{key}}},{{{block}.known}},0))'

    def total(key):
        of = "{areas.passed},{areas.length},{areas.count}" if key == "run" else f"{{areas.{key}}}"
        return f"SUMPRODUCT(--({{areas.system_at}}={{no}}),{of})"

    def whole(key, title, quantity):
        """Of all systems of a scenario."""
        return C(f"{key}_all", f"{title}, all systems in", quantity,
                 f"SUMPRODUCT(({{*only}}=0)+({{*only}}={{@}}),{{*{key}}})", **TOTALS)

    return judging(KINDS["systems"], units, (
        C("live", "System: worked out", "count", 'IF((N({job.sound})=1)*(N({terms.sound})=1),1,"")'),
        C("surface_at", "System: row of its surface", "count", "MATCH({row.surface},{surfaces.known},0)", "live"),
        C("profile_at", "System: row of its surface's profile", "count",
          'IF({surface.profile}="","",MATCH({surface.profile},{profiles.known},0))', "live"),
        C("pump_at", "System: row of its pump", "count", own("pump", "pumps"), "live"),
        C("crew_at", "System: row of its crew", "count", own("crew", "crews"), "live"),
        C("exposure_at", "System: row of its exposure", "count", own("exposure", "exposures"), "live"),
        C("shown_width", "System: width to paint in one go", "width",
          'IF({row.clear_width}="",{surface.clear_width},{row.clear_width})', "live"),
        C("shown_solid", "System: painted share of the face", "share", 'IF({row.solid}="",{surface.solid},{row.solid})',
          "live"),
        C("rank", "System: rank of finish", "count",
          'MATCH(IF({row.finish}="",{surface.finish},{row.finish}),{words.finish},0)', "live"),
        C("method_no", "System: number of its method", "count",
          'IF({row.method}="",1,MATCH({row.method},{words.method},0))', "live"),
        C("smooth", "System: smoothest asked", "count", 'IF({row.goal}="",0,MATCH({row.goal},{words.goal},0)-1)',
          "live"),
        C("only", f"System: {ONLY}", "count",
          'IF({row.alternate}="",0,MATCH({row.alternate},{words.alternate},0)+1)', "live"),
        *(C(key, f"System: {title.lower()}", quantity, total(key), "live") for key, title, quantity in MEASURES),
        *(C(key, f"System: {title.lower()}", quantity,
            f"SUMPRODUCT(--({{areas.system_at}}={{no}}),{{areas.{of}}},{{areas.access_factor}})", "live")
          for of, (key, title, quantity, *_) in WORK.items()),
        *(C(key, f"System: {title.lower()}", "number", f"IF({{{of}}}=0,1,{{{work}}}/{{{of}}})", "live")
          for of, (work, _, _, key, title) in WORK.items()),
        C("lines", "System: measured lines", "count", "SUMPRODUCT(--({areas.system_at}={no}),{areas.passed})", "live"),
        C("coat_rows", "System: coats", "count", "SUMPRODUCT(--({film.system_at}={no}),{film.passed})", "live"),
        *(whole(*one) for one in MEASURES),
        *(whole(*one[:3]) for one in WORK.values()),
        *(C(f"{key}_all", f"{title}, all systems in", "number", f"IF({{{of}_all@}}=0,1,{{{work}_all@}}/{{{of}_all@}})",
            **TOTALS) for of, (work, _, _, key, title) in WORK.items()),
    ), {"surface": At("surfaces", "{surface_at}")})


def profiles_block(units):
    return judging(KINDS["profiles"], units, (
        C("of_paint", "Profile: coefficient of what is painted", "number",
          'IF({row.paint_coefficient}="",{row.coefficient},{row.paint_coefficient})'),
    ))


def takeoff_block(units, capacity):
    kind = KINDS["takeoff"]
    return judging(kind, units, (
        *lengths.columns(kind, capacity),
    ), lengths.links(kind))


def areas_block(capacity):
    """The measured lines: those of Takeoff, then walls, ceilings and bases of Rooms."""
    lines, rooms = capacity["takeoff"], capacity["rooms"]

    def part(number):
        return 0 if number <= lines else (number - lines - 1) // rooms + 1

    def row_of(number, parts):
        inside = number if number <= lines else (number - lines - 1) % rooms + 1
        return inside if bool(part(number)) == parts else 1

    kinds = "CHOOSE(1+({part}>0),{line.%s},{room.%s})"
    return Block("areas", "Areas", results_first("no asked measured coated work gross openings perimeter fault", (
        C("no", "Line", "count", label=lambda number: number),
        C("part", "Of a room: 1 walls, 2 ceiling, 3 base", "count", label=part),
        C("line_at", "Row of Takeoff", "count", label=lambda number: row_of(number, False)),
        C("room_at", "Row of Rooms", "count", label=lambda number: row_of(number, True)),
        C("asked", "System asked for, by an entry without fault", "text",
          'IF(%s=1,CHOOSE(1+{part},{line.system}&"",{room.walls}&"",{room.ceiling}&"",{room.base}&""),"")'
          % (kinds % ("sound", "sound")), ""),
        C("system_at", "Row of its system", "count", "MATCH({asked},{systems.known},0)", "asked"),
        C("live", "Worked out", "count", 'IF({system.live}=1,1,"")', "asked"),
        C("fault", "First fault", "text",
          f'IF((N({{live}})=1)*(N({{passed}})=0)=1,"{TOO_OPEN}",{kinds % ("fault", "fault")}&"")', ""),
        C("profile_at", "Row of its profile", "count",
          'IF(({part}>0)+({line.profile}="")>0,{system.profile_at},MATCH({line.profile},{profiles.known},0))'),
        C("access_at", "Row of its access", "count",
          'IF(({part}>0)+({line.access}="")>0,"",MATCH({line.access},{access.known},0))'),
        C("all_over", "Measured all over", "count", 'IF({profile_at}="",0,--({profile.all_over}="yes"))'),
        C("faces", "Faces", "count", 'IF(({part}>0)+({all_over}=1)+({line.sides}="")>0,1,{line.sides})'),
        C("coefficient", "Coefficient", "number", 'IF({profile_at}="",1,{profile.coefficient})'),
        C("paint_coefficient", "Paint coefficient", "number", 'IF({profile_at}="",1,{profile.of_paint})'),
        C("hired", "Its access is rented", "count", 'IF({access_at}="",0,{up.hired})'),
        C("access_factor", "Work factor of its access", "number", 'IF({access_at}="",1,{up.factor})'),
        C("shape_no", "Number of its shape", "count",
          'IF(({part}>0)+({line.shape}="")>0,1,MATCH({line.shape},{words.shape},0))'),
        C("length", "Length", "length",
          "CHOOSE(1+{part},{line.length_read},{room.round},{room.length_read},{room.base_length})"),
        C("height", "Height", "length",
          "CHOOSE(1+{part},{line.height_read},{room.height_read},{room.width_read},0+{terms.base_height})"),
        C("count", "Count", "number", 'CHOOSE(1+({part}>0),IF({line.count}="",1,{line.count}),{room.times})'),
        C("windows", "Standard windows", "count",
          "0+CHOOSE(1+{part},{line.windows},{count}*{room.window_count},0,0)"),
        C("doors", "Standard doors", "count", "0+CHOOSE(1+{part},{line.doors},{count}*{room.door_count},0,0)"),
        C("reach", "Reached up to", "length", 'IF({access_at}="",{basics.reach},{up.height_limit})'),
        C("too_high", TOO_HIGH, "count",
          'IF({reach}="",0,--(CHOOSE(1+({part}>0),{line.base}+{height}*INDEX({words.shape_stands},{shape_no}),0)'
          ">{reach}*(1+{terms.slack})))"),
        C("gross", "Gross area", "area", "INDEX({words.shape_factor},{shape_no})*{length}*{height}*{count}"),
        C("standard", "Standard windows and doors deducted", "area",
          "{windows}*{window.deducted}*IF({window.once}=1,1/{faces},1)"
          "+{doors}*{door.deducted}*IF({door.once}=1,1/{faces},1)"),
        C("openings", "Openings deducted", "area",
          "SUMPRODUCT(--({openings.line_at}={no}),{openings.deducted})+{standard}"),
        # By no flag of its own: LibreOffice 7.4, which works long columns out in threads, then leaves an error in the
        # first room of a book that is recalculated while it is open.
        C("passed", "Passed", "count", 'IF({openings}>{gross}*(1+{terms.slack}),"",1)'),
        C("measured", "Measured area", "area", "({gross}-{openings})*{coefficient}*{faces}", "passed"),
        C("coated", "Coated area", "area", "({gross}-{openings})*{paint_coefficient}*{faces}", "passed"),
        C("work", "Work area", "area", "{measured}*{access_factor}", "passed"),
        C("perimeter", "Opening perimeter", "length",
          "SUMPRODUCT(--({openings.line_at}={no}),{openings.perimeter})+{windows}*{window.perimeter}"
          "+{doors}*{door.perimeter}", "passed"),
        C("opened", "Openings", "number",
          "SUMPRODUCT(--({openings.line_at}={no}),{openings.pieces})+{windows}+{doors}", "passed"),
    )), {"line": At("takeoff", "{line_at}"), "room": At("rooms", "{room_at}"), "system": At("systems", "{system_at}"),
         "profile": At("profiles", "{profile_at}"), "up": At("access", "{access_at}"),
         "window": At("standards", "1"), "door": At("standards", "2")}, "live")
# fmt: on


def systems(est):
    """Which surface, pump and crew a system uses, and the scenarios it belongs to."""
    for row in est.rows["systems"]:
        row.live = 1.0 if row.sound and est.job.sound and est.terms.sound else None
        if not row.live:
            continue
        row.surface_at = est.judge.at("surfaces", row.surface)
        own = est.row("surfaces", row.surface_at).profile
        row.profile_at = None if own is None else est.judge.at("profiles", own)
        for key, block in (("pump", "pumps"), ("crew", "crews"), ("exposure", "exposures")):
            own, at = getattr(row, key), f"{key}_at"
            setattr(row, at, getattr(est.basics, at) if own is None else est.judge.at(block, own))
        surface = est.row("surfaces", row.surface_at)
        row.shown_width = surface.clear_width if row.clear_width is None else row.clear_width
        row.shown_solid = surface.solid if row.solid is None else row.solid
        row.rank = rank(surface.finish if row.finish is None else row.finish)
        row.method_no = place("method", row.method, 1)
        row.smooth = place("goal", row.goal, 1) - 1
        row.only = only(row.alternate)


def profiles(est):
    for row in est.rows["profiles"]:
        if row.sound:
            row.of_paint = row.coefficient if row.paint_coefficient is None else row.paint_coefficient


def lines(est):
    """Faces, size and gross area of each measured line."""
    takeoff_rows, rooms = est.rows["takeoff"], est.rows["rooms"]
    parts = [("system", line) for line in takeoff_rows]
    parts += [(key, room) for key in ("walls", "ceiling", "base") for room in rooms]
    for row, (key, entry) in zip(est.rows["areas"], parts):
        row.fault = entry.fault
        row.asked = getattr(entry, key) if entry.sound else None
        if row.asked is None:
            continue
        row.system_at = est.judge.at("systems", row.asked)
        system = est.row("systems", row.system_at)
        row.live = system.live
        if row.live:
            row.count = 1.0 if entry.count is None else entry.count
            _face(est, row, entry if key == "system" else None)
            _size(est, row, key, entry)
            row.gross = takeoff.gross(BESIDE["shape_factor"][row.shape_no - 1], row.length, row.height) * row.count


def _face(est, row, line):
    """Profile, faces, shape and access of a line of Takeoff; a part of a room is done from the floor."""
    row.profile_at = est.row("systems", row.system_at).profile_at
    if line is not None:
        if line.profile is not None:
            row.profile_at = est.judge.at("profiles", line.profile)
        row.access_at = est.judge.at("access", line.access) if line.access is not None else None
    profile, access = est.row("profiles", row.profile_at), est.row("access", row.access_at)
    row.all_over = float(profile is not None and same(profile.all_over) == "yes")
    row.faces = 1.0 if line is None or row.all_over or line.sides is None else line.sides
    row.coefficient = profile.coefficient if profile else 1.0
    row.paint_coefficient = profile.of_paint if profile else 1.0
    row.access_factor = access.factor if access else 1.0
    row.hired = access.hired if access else 0.0
    row.shape_no = place("shape", line.shape, 1) if line is not None else 1


def _size(est, row, key, entry):
    row.length, row.height = {
        "system": lambda: (entry.length_read, entry.height_read),
        "walls": lambda: (entry.round, entry.height_read),
        "ceiling": lambda: (entry.length_read, entry.width_read),
        "base": lambda: (entry.base_length, est.terms.base_height),
    }[key]()
    row.windows, row.doors = 0.0, 0.0
    if key in ("system", "walls"):
        windows, doors = (entry.window_count, entry.door_count) if key == "walls" else (entry.windows, entry.doors)
        times = row.count if key == "walls" else 1.0
        row.windows, row.doors = times * (windows or 0.0), times * (doors or 0.0)
    access = est.row("access", row.access_at)
    top, stands = 0.0, bool(BESIDE["shape_stands"][row.shape_no - 1])
    if key == "system":  # a room says no access: it is done from its floor
        top = takeoff.top(entry.base or 0.0, row.height if stands else 0.0)
    row.reach = est.basics.reach if access is None else access.height_limit
    row.too_high = float(row.reach is not None and top > row.reach * (1 + est.terms.slack))


def areas(est):
    """Measured, coated and work area of each line; more opening than wall is a fault."""
    by_line = {}
    for opening in est.rows["openings"]:
        if opening.live:
            by_line.setdefault(opening.line_at, []).append(opening)
    for row in est.rows["areas"]:
        if not row.live:
            continue
        own = by_line.get(row.no, ())
        window, door = est.rows["standards"]
        counted = [(row.windows, window), (row.doors, door)]
        row.standard = sum(count * (one.deducted or 0.0) / (row.faces if one.once else 1.0) for count, one in counted)
        row.openings = sum(opening.deducted for opening in own) + row.standard
        too_open = row.openings > row.gross * (1 + est.terms.slack)
        row.fault, row.passed = (TOO_OPEN, None) if too_open else (None, 1.0)
        if row.passed:
            row.measured = takeoff.measured(row.gross, row.openings, row.coefficient, row.faces)
            row.coated = takeoff.measured(row.gross, row.openings, row.paint_coefficient, row.faces)
            row.work = row.measured * row.access_factor
            row.opened = sum(opening.pieces for opening in own) + row.windows + row.doors
            row.perimeter = sum(opening.perimeter for opening in own)
            row.perimeter += sum(count * (one.perimeter or 0.0) for count, one in counted)


def sums(est):
    """Areas of each system."""
    for system in est.rows["systems"]:
        if system.live:
            own = [row for row in est.rows["areas"] if row.system_at == system.no and row.passed]
            for key, *_ in MEASURES:
                figures = (row.length * row.count if key == "run" else getattr(row, key) for row in own)
                setattr(system, key, sum(figures))
            for of, (work, _, _, key, _) in WORK.items():
                setattr(system, work, sum(getattr(row, of) * row.access_factor for row in own))
                setattr(system, key, labor.slower(getattr(system, work), getattr(system, of)))
            system.lines = float(len(own))
    live = [system for system in est.rows["systems"] if system.live]
    first, summed = est.rows["systems"][0], (*(key for key, *_ in MEASURES), *(work for work, *_ in WORK.values()))
    for key in summed:
        of_all = (sum(getattr(one, key) * included(one, scenario) for one in live) for scenario in SCENARIOS)
        setattr(first, f"{key}_all", tuple(of_all))
    for of, (work, _, _, key, _) in WORK.items():
        pairs = zip(getattr(first, f"{work}_all"), getattr(first, f"{of}_all"))
        setattr(first, f"{key}_all", tuple(labor.slower(*pair) for pair in pairs))
