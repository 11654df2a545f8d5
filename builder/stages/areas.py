"""Systems, openings and takeoff lines: measured, coated and work area (E1-E3)."""

from builder.records.kinds import KINDS
from builder.records.lookups import BESIDE, place, rank
from builder.records.reasons import TOO_HIGH, TOO_OPEN
from builder.records.scenarios import SCENARIOS
from builder.sheets.alternates import BY_SCENARIO, ONLY, TOTALS, included, only
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.trade import takeoff
from builder.values import same


# fmt: off
def systems_block(units):
    def own(key):
        return f'IF({{row.{key}}}="",{{job.{key}}},{{row.{key}}})'

    def total(key):
        return f"SUMPRODUCT(--({{areas.system_at}}={{no}}),{{areas.{key}}})"

    return judging(KINDS["systems"], units, (
        C("live", "System: worked out", "count", 'IF((N({job.sound})=1)*(N({terms.sound})=1),1,"")'),
        C("surface_at", "System: row of its surface", "count", "MATCH({row.surface},{surfaces.known},0)", "live"),
        C("pump_at", "System: row of its pump", "count", f"MATCH({own('pump')},{{pumps.known}},0)", "live"),
        C("crew_at", "System: row of its crew", "count", f"MATCH({own('crew')},{{crews.known}},0)", "live"),
        C("exposure_at", "System: row of its exposure", "count", f"MATCH({own('exposure')},{{exposures.known}},0)",
          "live"),
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
        C("scenarios", "System: in", "count", "({only}=0)+({only}={@})", "live", **BY_SCENARIO),
        C("only", f"System: {ONLY}", "count",
          'IF({row.alternate}="",0,MATCH({row.alternate},{words.alternate},0)+1)', "live"),
        C("measured", "System: measured area", "area", total("measured"), "live"),
        C("coated", "System: coated area", "area", total("coated"), "live"),
        C("work", "System: work area", "area", total("work"), "live"),
        C("perimeter", "System: opening perimeter", "length", total("perimeter"), "live"),
        C("lines", "System: takeoff lines", "count", "SUMPRODUCT(--({areas.system_at}={no}),{areas.passed})", "live"),
        C("coat_rows", "System: coats", "count", "SUMPRODUCT(--({film.system_at}={no}),{film.passed})", "live"),
        C("chain", "System: drying time in", "time",
          "({lines}>0)*{scenarios@}*SUMPRODUCT(--({film.system_at}={no}),{film.chain})", "live", **BY_SCENARIO),
        C("chain_most", "Longest drying time", "time", "MAX(0,MAX({*chain@}))", **TOTALS),
    ), {"surface": At("surfaces", "{surface_at}")})


def openings_block(units):
    job = "{job.opening_%s}*(1+{terms.slack})"
    return judging(KINDS["openings"], units, (
        C("line_at", "Opening: row of its line", "count", "MATCH({row.line},{takeoff.known},0)"),
        C("live", "Opening: worked out", "count", 'IF({line.live}=1,1,"")'),
        C("area", "Opening: area", "area", "{row.width}*{row.height}", "live"),
        C("deducted_share", "Opening: part deducted", "share",
          f"({{area}}>{job % 'none'})*IF({{area}}<={job % 'both'},1/{{line.faces}},1)", "live"),
        C("deducted", "Opening: deducted a face", "area", '{area}*IF({row.count}="",1,{row.count})*{deducted_share}',
          "live"),
        C("perimeter", "Opening: perimeter", "length", '2*({row.width}+{row.height})*IF({row.count}="",1,{row.count})',
          "live"),
    ), {"line": At("areas", "{line_at}")})


AREAS = Block("areas", "Areas", results_first("no system measured coated work gross openings perimeter fault", (
    C("no", "Line", "count", label=lambda number: number),
    C("sound", "Entry without fault", "count", "{line.sound}", ""),
    C("system_at", "Row of its system", "count", "MATCH({line.system},{systems.known},0)", "sound"),
    C("live", "Worked out", "count", 'IF({system.live}=1,1,"")', "sound"),
    C("fault", "First fault", "text", 'IF({too_open}=1,{#too_open},{line.fault}&"")', ""),
    C("system", "System", "text", "{system.name}"),
    C("profile_at", "Row of its profile", "count", 'IF({line.profile}="","",MATCH({line.profile},{profiles.known},0))'),
    C("access_at", "Row of its access", "count", 'IF({line.access}="","",MATCH({line.access},{access.known},0))'),
    C("all_over", "Measured all over", "count", 'IF({profile_at}="",0,--({profile.all_over}="yes"))'),
    C("faces", "Faces", "count", 'IF(({all_over}=1)+({line.sides}="")>0,1,{line.sides})'),
    C("coefficient", "Coefficient", "number", 'IF({profile_at}="",1,{profile.coefficient})'),
    C("paint_given", "Paint coefficient given", "number", 'IF({profile_at}="",0,0+{profile.paint_coefficient})'),
    C("paint_coefficient", "Paint coefficient", "number", "IF({paint_given}=0,{coefficient},{paint_given})"),
    C("access_factor", "Work factor of its access", "number", 'IF({access_at}="",1,{up.factor})'),
    C("shape_no", "Number of its shape", "count", 'IF({line.shape}="",1,MATCH({line.shape},{words.shape},0))'),
    C("factor", "Factor of its shape", "number", "INDEX({words.shape_factor},{shape_no})"),
    C("too_high", TOO_HIGH, "count",
      'IF({access_at}="",0,--({line.height}*INDEX({words.shape_stands},{shape_no})>{up.height_limit}*(1'
      '+{terms.slack})))'),
    C("look", "To review", "text", 'IF({too_high}=1,{#too_high},"")'),
    C("gross", "Gross area", "area", '{factor}*{line.length}*{line.height}*IF({line.count}="",1,{line.count})'),
    C("openings", "Openings deducted", "area", "SUMPRODUCT(--({openings.line_at}={no}),{openings.deducted})"),
    C("too_open", TOO_OPEN, "count", "--({openings}>{gross}*(1+{terms.slack}))"),
    C("passed", "Passed", "count", 'IF({too_open}=0,1,"")'),
    C("measured", "Measured area", "area", "({gross}-{openings})*{coefficient}*{faces}", "passed"),
    C("coated", "Coated area", "area", "({gross}-{openings})*{paint_coefficient}*{faces}", "passed"),
    C("work", "Work area", "area", "{measured}*{access_factor}", "passed"),
    C("perimeter", "Opening perimeter", "length", "SUMPRODUCT(--({openings.line_at}={no}),{openings.perimeter})",
      "passed"),
    C("only", ONLY, "count", "{system.only}"),
)), {"line": At("takeoff", "{no}"), "system": At("systems", "{system_at}"), "profile": At("profiles", "{profile_at}"),
    "up": At("access", "{access_at}")}, "live")
# fmt: on


def systems(est):
    """Which surface, pump and crew a system uses, and the scenarios it belongs to."""
    for row in est.rows["systems"]:
        row.live = 1.0 if row.sound and est.job.sound and est.terms.sound else None
        if not row.live:
            continue
        row.surface_at = est.judge.at("surfaces", row.surface)
        row.pump_at = est.judge.at("pumps", row.pump if row.pump is not None else est.job.pump)
        row.crew_at = est.judge.at("crews", row.crew if row.crew is not None else est.job.crew)
        row.exposure_at = est.judge.at("exposures", row.exposure if row.exposure is not None else est.job.exposure)
        surface = est.row("surfaces", row.surface_at)
        row.shown_width = surface.clear_width if row.clear_width is None else row.clear_width
        row.shown_solid = surface.solid if row.solid is None else row.solid
        row.rank = rank(surface.finish if row.finish is None else row.finish)
        row.method_no = place("method", row.method, 1)
        row.smooth = place("goal", row.goal, 1) - 1
        row.only = only(row.alternate)
        row.scenarios = tuple(included(row, scenario) for scenario in SCENARIOS)


def lines(est):
    """Faces, gross area and what the openings take, line by line."""
    for row, line in zip(est.rows["areas"], est.rows["takeoff"]):
        row.sound = line.sound
        if not row.sound:
            row.fault = line.fault
            continue
        row.system_at = est.judge.at("systems", line.system)
        system = est.row("systems", row.system_at)
        row.live = system.live
        if not row.live:
            continue
        row.system = system.name
        row.profile_at = est.judge.at("profiles", line.profile) if line.profile is not None else None
        row.access_at = est.judge.at("access", line.access) if line.access is not None else None
        profile, access = est.row("profiles", row.profile_at), est.row("access", row.access_at)
        row.all_over = float(profile is not None and same(profile.all_over) == "yes")
        row.faces = 1.0 if row.all_over or line.sides is None else line.sides
        row.coefficient = profile.coefficient if profile else 1.0
        row.paint_given = (profile.paint_coefficient or 0.0) if profile else 0.0
        row.paint_coefficient = row.paint_given or row.coefficient
        row.access_factor = access.factor if access else 1.0
        row.shape_no = place("shape", line.shape, 1)
        row.factor = BESIDE["shape_factor"][row.shape_no - 1]
        top = line.height * BESIDE["shape_stands"][row.shape_no - 1]
        row.too_high = float(access is not None and top > access.height_limit * (1 + est.terms.slack))
        row.look = TOO_HIGH if row.too_high else None
        row.gross = takeoff.gross(row.factor, line.length, line.height) * (1.0 if line.count is None else line.count)
        row.only = system.only


def openings(est):
    """What each opening takes from its line, and its edge."""
    job = est.job
    for row in est.rows["openings"]:
        if not row.sound:
            continue
        row.line_at = est.judge.at("takeoff", row.line)
        line = est.row("areas", row.line_at)
        row.live = line.live
        if not row.live:
            continue
        count = 1.0 if row.count is None else row.count
        row.area = row.width * row.height
        more = 1 + est.terms.slack
        row.deducted_share = takeoff.opening_share(
            row.area, job.opening_none * more, job.opening_both * more, line.faces
        )
        row.deducted = row.area * count * row.deducted_share
        row.perimeter = takeoff.opening_perimeter(row.width, row.height) * count


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
        row.openings = sum(opening.deducted for opening in own)
        row.too_open = float(row.openings > row.gross * (1 + est.terms.slack))
        row.fault = TOO_OPEN if row.too_open else None
        row.passed = None if row.too_open else 1.0
        if row.passed:
            row.measured = takeoff.measured(row.gross, row.openings, row.coefficient, row.faces)
            row.coated = takeoff.measured(row.gross, row.openings, row.paint_coefficient, row.faces)
            row.work = row.measured * row.access_factor
            row.perimeter = sum(opening.perimeter for opening in own)


def sums(est):
    """Areas of each system."""
    for system in est.rows["systems"]:
        if system.live:
            own = [row for row in est.rows["areas"] if row.system_at == system.no and row.passed]
            for key in ("measured", "coated", "work", "perimeter"):
                setattr(system, key, sum(getattr(row, key) for row in own))
            system.lines = float(len(own))
