"""Entries: what the catalogues and the kit say beyond their fields."""
from builder.estimate.scenarios import NAMES
from builder.records.kinds import KINDS
from builder.sheets.grammar import At
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging

SCENARIOS = {"repeat": len(NAMES), "heads": NAMES}
TOTALS = {**SCENARIOS, "rows": 1, "when": ""}          # of all rows, one figure a scenario
ONLY = "In (all 0, with A 2, with B 3, with C 4)"
OLD = 'IF(ISNUMBER({job.date})*ISNUMBER({row.priced_on})*(N({job.ready})*N({terms.ready})=1),--({job.date}-{row.priced_on}>{terms.price_age_max}),"")'


def within(block, scenario):
    """1 for the rows of a block that belong to a scenario: those of the base belong to all, those of an alternate to its own."""
    return f"({{{block}.only}}=0)+({{{block}.only}}={scenario})"


def total(key, title, quantity):
    """The sum of a repeated column, copy by copy, on its own sheet: others fetch it by the number of the copy."""
    return C(f"{key}_all", title, quantity, f"SUM({{*{key}@}})", **TOTALS)


def nozzles(units):
    return judging(KINDS["nozzles"], units, (
        C("known", "Nozzle", "text", '{row.family}&" "&{row.size}'),
        C("family_at", "Nozzle: row of its family", "count", "MATCH({row.family},{families.known},0)"),
        C("fan", "Nozzle: fan", "width", "2*INT(VALUE({row.size})/100)*{constants.inch}"),
        C("orifice", "Nozzle: orifice", "orifice", "MOD(VALUE({row.size}),100)"),
        C("lap", "Nozzle: lap", "width", '{fan}*(1-IF(ISNUMBER({terms.overlap}),{terms.overlap},0))'),
        C("loss_factor", "Nozzle: loss factor", "number", "{family.loss_factor}"),
        C("pressure_factor", "Nozzle: pressure factor", "number", "{family.pressure_factor}"),
        C("rank", "Nozzle: rank of finish", "count", "MATCH({family.finish},{words.finish},0)"),
        C("pressure_max", "Nozzle: rated to", "pressure", "{family.pressure_max}"),
        C("endurance", "Nozzle: life times pressure", "endurance", "{family.life}*({orifice}/{family.life_orifice})^2*{family.life_pressure}"),
        C("reference_life", "Nozzle: life at reference", "volume", "{endurance}/{family.life_pressure}"),
        C("in_kit", "Nozzle: usable in the kit", "count", "MIN(1,SUMPRODUCT(--({kit.nozzle_at}={no}),{kit.usable}))"),
        C("old", "Nozzle: price too old", "count", OLD),
    ), {"family": At("families", "{family_at}")})


def coatings(units):
    def price(number):
        return f'IF({{row.pack{number}_size}}="",{{first_price}},{{row.pack{number}_price}}/{{row.pack{number}_size}})'

    return judging(KINDS["coatings"], units, (
        C("first_price", "Coating: price in pack 1", "money_volume", "{row.pack1_price}/{row.pack1_size}"),
        C("second_price", "Coating: price in pack 2", "money_volume", price(2)),
        C("third_price", "Coating: price in pack 3", "money_volume", price(3)),
        C("price", "Coating: least price", "money_volume", "MIN({first_price:third_price})"),
        C("old", "Coating: price too old", "count", OLD),
    ))


def pumps(units):
    runs = f"SUMPRODUCT(--({{hours.pump_at}}={{no}}),{within('hours', '{@}')},{{hours.%s}})"
    run = '{constants.run}*({length}/{row.hose_bore}^4+IF({row.whip_length}="",0,{row.whip_length}/{row.whip_bore}^4))'
    content = '{constants.bore}*({length}*{row.hose_bore}^2+IF({row.whip_length}="",0,{row.whip_length}*{row.whip_bore}^2))'

    def least(*keys):
        """Of pump, hose and a whip that may be missing."""
        *others, whip = (f"{{row.{key}}}" for key in keys)
        return f'MIN({",".join(others)},IF({whip}="",{others[0]},{whip}))'

    return judging(KINDS["pumps"], units, (
        C("live", "Pump: worked out", "count", 'IF({job.ready}=1,1,"")'),
        C("length", "Pump: hose length", "length", 'IF({job.hose_length}="",{row.hose_length},{job.hose_length})', "live"),
        C("run", "Pump: length over bore^4", "run", run, "live"),
        C("content", "Pump: hose and whip hold", "volume", content, "live"),
        C("holds", "Pump: weakest rating", "pressure", least("pressure_max", "hose_pressure_max", "whip_pressure_max"), "live"),
        C("narrowest", "Pump: narrowest bore", "width", least("hose_bore", "whip_bore"), "live"),
        C("used", "Pump: runs in", "count", f"--({runs % 'labour'}>0)", "live", **SCENARIOS),
        C("clock", "Pump: hours on the clock in", "time", runs % "elapsed", "live", **SCENARIOS),
        C("hire_day", "Pump: hire a day in", "money_day", "{used@}*{row.hire}", "live", **SCENARIOS),
        C("clock_most", "Longest time of one pump on the clock", "time", "MAX(0,MAX({*clock@}))", **TOTALS),
        total("hire_day", "Hire of pumps a day, all", "money_day"),
    ))


def kit(units):
    return judging(KINDS["kit"], units, (
        C("live", "Kit: worked out", "count", 'IF({terms.ready}=1,1,"")'),
        C("nozzle_at", "Kit: row of its size", "count", "MATCH({row.nozzle},{nozzles.known},0)", "live"),
        C("worn_volume", "Kit: worn by volume", "share", "{row.used}/{size.reference_life}", "live"),
        C("worn_fan", "Kit: worn by fan", "share", 'IF({row.fan}="",0,MAX(0,(1-{row.fan}/{size.fan})/(1-{terms.worn_fan})))', "live"),
        C("new_flow", "Kit: flow of water when new", "flow",
          "{terms.cd}*{constants.jet}*{size.orifice}^2*SQRT({terms.test_pressure}/{constants.water})", "live"),
        C("worn_flow", "Kit: worn by flow", "share", 'IF({row.flow}="",0,MAX(0,({row.flow}/{new_flow}-1)/({terms.worn_orifice}^2-1)))', "live"),
        C("worn", "Kit: worn", "share", "MAX({worn_volume},{worn_fan},{worn_flow})", "live"),
        C("usable", "Kit: usable", "count", "--({worn}<1-{terms.slack})", "live"),
        C("left", "Kit: left in", "share", "MAX(0,1-{worn}*INDEX({sizes.ratio},{nozzle_at},{@}))", "live", **SCENARIOS),
    ), {"size": At("nozzles", "{nozzle_at}")})


def reaches(units):
    days = "IF(N({day.work})=0,0,{terms.day_step}*ROUNDUP(MAX(0,{day.days}*{work@}/{day.work}/{terms.day_step}-{terms.round_slack}),0))"
    work = f"SUMPRODUCT(--({{areas.reach_at}}={{no}}),{within('areas', '{@}')},{{areas.work}})"
    return judging(KINDS["reaches"], units, (
        C("live", "Reach: worked out", "count", 'IF({terms.ready}=1,1,"")'),
        C("work", "Reach: work area in", "area", work, "live", **SCENARIOS),
        C("days", "Reach: days in", "days", days, "live", **SCENARIOS),
        C("hire_cost", "Reach: hire in", "money", "{days@}*{row.hire}", "live", **SCENARIOS),
        total("hire_cost", "Hire of lifts and scaffold, all", "money"),
    ), {"day": At("days", "{@}")})


def holidays(units):
    return judging(KINDS["holidays"], units, (C("day", "Holiday: day", "count", "IF({ready}=1,{row.date},1)", ""),))

