"""Entries of systems and openings; Areas: measured, coated and work area (E1-E3)."""
from builder.records.kinds import KINDS
from builder.records.reasons import TOO_HIGH, TOO_OPEN
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.sheets.stock import ONLY, SCENARIOS, TOTALS


def systems(units):
    def own(key):
        return f'IF({{row.{key}}}="",{{job.{key}}},{{row.{key}}})'

    def total(key):
        return f"SUMPRODUCT(--({{areas.system_at}}={{no}}),{{areas.{key}}})"

    return judging(KINDS["systems"], units, (
        C("live", "System: worked out", "count", 'IF((N({job.ready})=1)*(N({terms.ready})=1),1,"")'),
        C("surface_at", "System: row of its surface", "count", "MATCH({row.surface},{surfaces.known},0)", "live"),
        C("pump_at", "System: row of its pump", "count", f"MATCH({own('pump')},{{pumps.known}},0)", "live"),
        C("crew_at", "System: row of its crew", "count", f"MATCH({own('crew')},{{crews.known}},0)", "live"),
        C("exposure_at", "System: row of its exposure", "count", f"MATCH({own('exposure')},{{exposures.known}},0)", "live"),
        C("shown_width", "System: clear width", "width", 'IF({row.clear_width}="",{surface.clear_width},{row.clear_width})', "live"),
        C("shown_solid", "System: solid share", "share", 'IF({row.solid}="",{surface.solid},{row.solid})', "live"),
        C("rank", "System: rank of finish", "count", 'MATCH(IF({row.finish}="",{surface.finish},{row.finish}),{words.finish},0)', "live"),
        C("method_no", "System: number of its method", "count", 'IF({row.method}="",1,MATCH({row.method},{words.method},0))', "live"),
        C("smooth", "System: smoothest asked", "count", 'IF({row.aim}="",0,MATCH({row.aim},{words.aim},0)-1)', "live"),
        C("scenarios", "System: in", "count", "({only}=0)+({only}={@})", "live", **SCENARIOS),
        C("only", f"System: {ONLY}", "count",
          'IF({row.alternate}="",0,MATCH({row.alternate},{words.alternate},0)+1)', "live"),
        C("measured", "System: measured area", "area", total("measured"), "live"),
        C("coated", "System: coated area", "area", total("coated"), "live"),
        C("work", "System: work area", "area", total("work"), "live"),
        C("perimeter", "System: opening perimeter", "length", total("perimeter"), "live"),
        C("lines", "System: takeoff lines", "count", "SUMPRODUCT(--({areas.system_at}={no}),{areas.sound})", "live"),
        C("coat_rows", "System: coats", "count", "SUMPRODUCT(--({films.system_at}={no}),{films.sound})", "live"),
        C("chain", "System: drying time in", "time", "({lines}>0)*{scenarios@}*SUMPRODUCT(--({films.system_at}={no}),{films.chain})", "live", **SCENARIOS),
        C("chain_most", "Longest drying time", "time", "MAX(0,MAX({*chain@}))", **TOTALS),
    ), {"surface": At("surfaces", "{surface_at}")})


def openings(units):
    job = "{job.opening_%s}*(1+{terms.slack})"
    return judging(KINDS["openings"], units, (
        C("line_at", "Opening: row of its line", "count", "MATCH({row.line},{takeoff.known},0)"),
        C("live", "Opening: worked out", "count", 'IF({line.live}=1,1,"")'),
        C("size", "Opening: size", "area", "{row.width}*{row.height}", "live"),
        C("deducted_share", "Opening: part deducted", "share",
          f"({{size}}>{job % 'none'})*IF({{size}}<={job % 'both'},1/{{line.faces}},1)", "live"),
        C("deducted", "Opening: deducted a face", "area", '{size}*IF({row.count}="",1,{row.count})*{deducted_share}', "live"),
        C("perimeter", "Opening: perimeter", "length", '2*({row.width}+{row.height})*IF({row.count}="",1,{row.count})', "live"),
    ), {"line": At("areas", "{line_at}")})


AREAS = Block("areas", "Areas", results_first("no system measured coated work gross openings perimeter fault", (
    C("no", "Line", "count", label=lambda number: number),
    C("entered", "Entered without fault", "count", "{line.ready}", ""),
    C("system_at", "Row of its system", "count", "MATCH({line.system},{systems.known},0)", "entered"),
    C("live", "Worked out", "count", 'IF({system.live}=1,1,"")', "entered"),
    C("fault", "First fault", "text", 'IF({too_open}=1,{#too_open},{line.fault}&"")', ""),
    C("system", "System", "text", "{system.name}"),
    C("profile_at", "Row of its profile", "count", 'IF({line.profile}="","",MATCH({line.profile},{profiles.known},0))'),
    C("reach_at", "Row of its reach", "count", 'IF({line.reach}="","",MATCH({line.reach},{reaches.known},0))'),
    C("all_over", "Measured all over", "count", 'IF({profile_at}="",0,--({profile.all_over}="yes"))'),
    C("faces", "Faces", "count", 'IF(({all_over}=1)+({line.sides}="")>0,1,{line.sides})'),
    C("coefficient", "Coefficient", "number", 'IF({profile_at}="",1,{profile.coefficient})'),
    C("paint_given", "Paint coefficient given", "number", 'IF({profile_at}="",0,0+{profile.paint_coefficient})'),
    C("paint_coefficient", "Paint coefficient", "number", "IF({paint_given}=0,{coefficient},{paint_given})"),
    C("reach_factor", "Work factor of its reach", "number", 'IF({reach_at}="",1,{reach.factor})'),
    C("shape_no", "Number of its shape", "count", 'IF({line.shape}="",1,MATCH({line.shape},{words.shape},0))'),
    C("factor", "Factor of its shape", "number", "INDEX({words.shape_factor},{shape_no})"),
    C("too_high", TOO_HIGH, "count",
      'IF({reach_at}="",0,--({line.height}*INDEX({words.shape_stands},{shape_no})>{reach.height_limit}*(1+{terms.slack})))'),
    C("look", "To look at", "text", 'IF({too_high}=1,{#too_high},"")'),
    C("gross", "Gross area", "area", '{factor}*{line.length}*{line.height}*IF({line.count}="",1,{line.count})'),
    C("openings", "Openings deducted", "area", "SUMPRODUCT(--({openings.line_at}={no}),{openings.deducted})"),
    C("too_open", TOO_OPEN, "count", "--({openings}>{gross}*(1+{terms.slack}))"),
    C("sound", "Sound", "count", 'IF({too_open}=0,1,"")'),
    C("measured", "Measured area", "area", "({gross}-{openings})*{coefficient}*{faces}", "sound"),
    C("coated", "Coated area", "area", "({gross}-{openings})*{paint_coefficient}*{faces}", "sound"),
    C("work", "Work area", "area", "{measured}*{reach_factor}", "sound"),
    C("perimeter", "Opening perimeter", "length", "SUMPRODUCT(--({openings.line_at}={no}),{openings.perimeter})", "sound"),
    C("only", ONLY, "count", "{system.only}"),
)), {"line": At("takeoff", "{no}"), "system": At("systems", "{system_at}"), "profile": At("profiles", "{profile_at}"),
    "reach": At("reaches", "{reach_at}")}, "live")
