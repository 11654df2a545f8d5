"""Checks: everything that is counted, the verdict beside each, and the master check."""
from builder.records.checklist import CLEAR, ITEMS, LOOK, STOP, TABLES
from builder.records.kinds import KINDS
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C


def _differ(one, other):
    return f"--(ABS({one}-{other})>IF(N({{terms.ready}})=0,0,{{terms.tolerance}})*(1+ABS({one})))"


# 40 CFR 745.83: homes and child-occupied buildings before 1978, unless the work is minor; windows never are.
_LEAD_HOME = ('IF(N({job.ready})=0,0,(({job.building}="home")+({job.building}="child-occupied"))'
              "*({job.built}<{constants.lead_year}))")
_LEAD = ("IF({lead_home}=0,0,--(({job.disturbed_inside}>{constants.lead_inside}*(1+{slack}))"
         '+({job.disturbed_outside}>{constants.lead_outside}*(1+{slack}))+({job.windows_replaced}="yes")>0))')

COUNTS = {
    "no_lines": "--(SUM({takeoff.ready})=0)",
    **{f"faults_{kind.key}": f"--({{{kind.key}.faults}}>0)" if kind.upright else f'COUNTIF({{{kind.key}.faults}},">0")' for kind in KINDS.values()},
    "beyond": f"SUM({{beyond_{TABLES[0].key}:beyond_{TABLES[-1].key}}})",
    "too_open": "SUM({areas.too_open})",
    "uncoated": "SUMPRODUCT(--(({systems.lines}>0)*(({systems.coat_rows}=0)*({systems.live}=1))=1))",
    "film": 'COUNTIF({films.faults},">0")',
    "no_nozzle": "SUM({films.sprayed})-SUM({picks.live})",
    "no_day": "N({days.no_day@1})",
    "refused": "N({price.refused@1})",
    "overhead": '--(({job.overhead}<>"")*N({terms.ready})*({terms.overhead_basis}="labour hours")>0)',
    "too_high": "SUM({areas.too_high})",
    "misfit": "SUM({picks.misfit})",
    "sags": "SUM({films.sags})",
    "overthinned": "SUM({films.overthinned})",
    "turbulent": "SUM({picks.turbulent})",
    "lead": _LEAD,
    "voc": "SUM({films.over_voc})",
    "old_prices": "SUM({coatings.old})+SUM({nozzles.old})",
    "area_sum": _differ("SUM({areas.measured})", "SUM({systems.measured})"),
    "gallons_sum": _differ("SUMPRODUCT(--({gallons.only}=0),{gallons.need})",
                           "SUMPRODUCT(--({purchases.scenario}=1),{purchases.coats_need})"),
    "cost_sum": _differ("{kinds_of_cost}", "{items_of_cost}"),
}

_COST = "N({cost.%s@1})"


def _beyond(kind):
    """Cells about a table that are worked out nowhere: those around it less its headers and its rows, or less what is judged of
    them once insertions have pushed rows out of it. (A column of a person's own between ours does no harm.)
    """
    head, first = f"{{{kind.key}.head}}", f"{{{kind.key}.{kind.fields[0].key}}}"
    return (f"COUNTA({{{kind.key}.around}})-IF(ISERROR(SUM({head})),0,COUNTA({head}))"
            f"-IF(COUNTA({first})+COUNTBLANK({first})>{{room_{kind.key}}},SUM({{{kind.key}.filled}}),COUNTA({{{kind.key}.all}}))")


# The checklist keeps those that stop the price together, before the others.
STOPS = [item.key for item in ITEMS if item.stops]
LOOKS = [item.key for item in ITEMS if not item.stops]

CHECKS = (
    Block("checks", "Checks", (
        *(C(item.key, item.words, "count", COUNTS[item.key]) for item in ITEMS),
        C("stops", "To put right: these stop the price", "count", f"SUM({{{STOPS[0]}:{STOPS[-1]}}})"),
        C("looks", "To look at: the price stands", "count", f"SUM({{{LOOKS[0]}:{LOOKS[-1]}}})"),
        C("words", "All checks", "text",
          'IF({stops}+{looks}=0,"All checks clear",{stops}&" to put right, "&{looks}&" to look at"&REPT("; type the first line on Takeoff",{no_lines}))'),
        C("first", "First to put right", "text",
          f'IF({{stops}}=0,"",INDEX({{words.to_put_right}},MATCH("{STOP}",{{verdict_{STOPS[0]}:verdict_{STOPS[-1]}}},0)))'),
        *(C(f"beyond_{kind.key}", f"Cells typed outside the rows of {kind.sheet}", "count", _beyond(kind)) for kind in TABLES),
        *(C(f"room_{kind.key}", f"Rows of {kind.sheet} that are worked out", "count", f"COUNT({{{kind.key}.no}})") for kind in TABLES),
        C("lead_home", "Home or child-occupied building of the years of lead paint", "count", _LEAD_HOME),
        C("slack", "Slack of comparisons, none while Terms have none", "number",
          "IF(ISNUMBER({terms.slack}),{terms.slack},0)"),
        C("items_of_cost", "Cost, added up by item", "money", _COST % "items"),
        C("kinds_of_cost", "Cost, added up by kind", "money", _COST % "cost"),
    ), form="upright"),
    Block("checks", "Checks", tuple(C(f"verdict_{item.key}", "", "text", f'IF({{{item.key}}}=0,"{CLEAR}","{STOP if item.stops else LOOK}")', beside=item.key)
                                    for item in ITEMS), form="upright", place=2),
)
