"""Checks: everything that is counted, the verdict beside each, and the master check."""

from builder.records.checklist import CLEAR, ITEMS, LOOK, STOP, TABLES
from builder.records.kinds import KINDS
from builder.sheets.alternates import included
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import LEAD_INSIDE, LEAD_OUTSIDE, LEAD_YEAR
from builder.stages.entries import ASIDE
from builder.values import is_number, same


# fmt: off
def _differ_formula(one, other):
    return f"--(ABS({one}-{other})>IF(N({{terms.sound}})=0,0,{{terms.tolerance}})*(1+ABS({one})))"


# 40 CFR 745.83: homes and child-occupied buildings before 1978, unless the work is minor; windows never are.
_LEAD_HOME = ('IF(N({job.sound})=0,0,(({job.building}="home")+({job.building}="child-occupied"))'
              "*({job.built}<{constants.lead_year}))")
_LEAD = ("IF({lead_home}=0,0,--(({job.disturbed_inside}>{constants.lead_inside}*(1+{slack}))"
         '+({job.disturbed_outside}>{constants.lead_outside}*(1+{slack}))+({job.windows_replaced}="yes")>0))')

COUNTS = {
    "no_lines": "--(SUM({takeoff.sound})+SUM({rooms.sound})=0)",
    **{f"faults_{kind.key}": f"--({{{kind.key}.faults}}>0)" if kind.upright else f'COUNTIF({{{kind.key}.faults}},'
                                                                                 '">0")' for kind in KINDS.values()},
    "beyond": f"SUM({{beyond_{TABLES[0].key}:beyond_{TABLES[-1].key}}})",
    "too_open": "SUM({areas.too_open})",
    "uncoated": "SUMPRODUCT(--(({systems.lines}>0)*(({systems.coat_rows}=0)*({systems.live}=1))=1))",
    "film": 'COUNTIF({film.faults},">0")',
    "no_nozzle": "SUM({film.sprayed})-SUM({picks.live})",
    "no_day": "N({days.no_day@1})",
    "refused": "N({price.refused@1})",
    "overhead": '--(({job.overhead}<>"")*N({terms.sound})*({terms.overhead_basis}="labor hours")>0)',
    "too_high": "SUM({areas.too_high})",
    "misfit": "SUM({picks.misfit})",
    "sags": "SUM({film.sags})",
    "overthinned": "SUM({film.overthinned})",
    "turbulent": "SUM({picks.turbulent})",
    "lead": _LEAD,
    "voc": "SUM({film.over_voc})",
    "old_prices": "SUM({coatings.old})+SUM({nozzles.old})",
    "area_sum": _differ_formula("SUM({areas.measured})", "SUM({systems.measured})"),
    "gallons_sum": _differ_formula("SUMPRODUCT(--({gallons.only}=0),{gallons.need})",
                           "SUMPRODUCT(--({purchases.scenario}=1),{purchases.coats_need})"),
    "cost_sum": _differ_formula("{kinds_of_cost}", "{items_of_cost}"),
}

_COST = "N({cost.%s@1})"


def _beyond(kind):
    """Cells about a table that are worked out nowhere: those around it less its headers and its rows, or less what is
    judged of
    them once insertions have pushed rows out of it. (A column of a person's own between ours does no harm.)
    """
    head, first = f"{{{kind.key}.head}}", f"{{{kind.key}.{kind.fields[0].key}}}"
    right = f"+{{right_{kind.key}}}" if kind.key in ASIDE else ""
    return (f"COUNTA({{{kind.key}.around}})-IF(ISERROR(SUM({head})),0,COUNTA({head}))"
            f"-IF(COUNTA({first})+COUNTBLANK({first})>{{room_{kind.key}}},SUM({{{kind.key}.filled}}),"
            f"COUNTA({{{kind.key}.all}})){right}")


def _right(key):
    """The same of its inputs to the right of the results. Rows pushed out of it are counted above."""
    around, head, every = (f"{{{key}.more_{name}}}" for name in ("around", "head", "all"))
    first = f"{{{key}.{ASIDE[key]}}}"
    return (f"COUNTA({around})-IF(ISERROR(SUM({head})),0,COUNTA({head}))"
            f"-IF(COUNTA({first})+COUNTBLANK({first})>{{room_{key}}},0,COUNTA({every}))")


# The checklist keeps those that stop the price together, before the others.
STOPS = [item.key for item in ITEMS if item.stops]
LOOKS = [item.key for item in ITEMS if not item.stops]

CHECKS = (
    Block("checks", "Checks", (
        *(C(item.key, item.words, "count", COUNTS[item.key]) for item in ITEMS),
        C("stops", "To fix: these stop the price", "count", f"SUM({{{STOPS[0]}:{STOPS[-1]}}})"),
        C("looks", "To review: these do not stop it", "count", f"SUM({{{LOOKS[0]}:{LOOKS[-1]}}})"),
        C("words", "All checks", "text",
          'IF({stops}+{looks}=0,"All checks clear",{stops}&" to fix, "&{looks}&" to review"&REPT("; type the '
          'first line on Takeoff",{no_lines}))'),
        C("first", "First to fix", "text",
          f'IF({{stops}}=0,"",INDEX({{words.to_put_right}},MATCH("{STOP}",{{verdict_{STOPS[0]}:verdict_{STOPS[-1]}}},'
          '0)))'),
        *(C(f"beyond_{kind.key}", f"Cells typed outside the rows of {kind.title}", "count",
            _beyond(kind)) for kind in TABLES),
        *(C(f"room_{kind.key}", f"Rows of {kind.title} that are worked out", "count",
            f"COUNT({{{kind.key}.no}})") for kind in TABLES),
        *(C(f"right_{key}", f"Of {KINDS[key].title}, to the right of the results", "count", _right(key))
          for key in ASIDE),
        C("lead_home", "Home or child-occupied building of the years of lead paint", "count", _LEAD_HOME),
        C("slack", "Slack of comparisons, none while Terms have none", "number",
          "IF(ISNUMBER({terms.slack}),{terms.slack},0)"),
        C("items_of_cost", "Cost, added up by item", "money", _COST % "items"),
        C("kinds_of_cost", "Cost, added up by kind", "money", _COST % "cost"),
    ), form="upright"),
    Block("checks", "Checks", tuple(C(f"verdict_{item.key}", "", "text", f'IF({{{item.key}}}=0,"{CLEAR}",'
                                                                         f'"{STOP if item.stops else LOOK}")',
                                                                         beside=item.key)
                                    for item in ITEMS), form="upright", place=2),
)
# fmt: on


def checks(est):
    row = est.checks
    for kind in TABLES:
        setattr(row, f"beyond_{kind.key}", 0.0)  # the model holds no cell that it does not judge
        setattr(row, f"room_{kind.key}", float(len(est.rows[kind.key])))
        if kind.key in ASIDE:
            setattr(row, f"right_{kind.key}", 0.0)
    for key, count in _counts(est).items():
        setattr(row, key, float(count))
    for item in ITEMS:
        setattr(row, f"verdict_{item.key}", CLEAR if getattr(row, item.key) == 0 else STOP if item.stops else LOOK)
    row.stops = sum(getattr(row, item.key) for item in ITEMS if item.stops)
    row.looks = sum(getattr(row, item.key) for item in ITEMS if not item.stops)
    row.first = next((item.words for item in ITEMS if item.stops and getattr(row, item.key)), None)
    row.words = "All checks clear" if row.stops + row.looks == 0 else f"{row.stops:g} to fix, {row.looks:g} to review"
    if row.no_lines:
        row.words += "; type the first line on Takeoff"


def _counts(est):
    rows = est.rows
    films, picks = rows["film"], rows["picks"]
    est.checks.slack = est.terms.slack if is_number(est.terms.slack) else 0.0
    counts = {f"faults_{key}": sum((row.faults or 0) > 0 for row in rows[key]) for key in KINDS}
    counts.update(
        no_lines=not any(row.sound for key in ("takeoff", "rooms") for row in rows[key]),
        beyond=0,
        too_open=sum(row.too_open or 0 for row in rows["areas"]),
        uncoated=sum(row.live is not None and row.lines > 0 and row.coat_rows == 0 for row in rows["systems"]),
        film=sum((row.faults or 0) > 0 for row in films),
        no_nozzle=sum(row.sprayed or 0 for row in films) - sum(row.live or 0 for row in picks),
        no_day=rows["days"][0].no_day or 0,
        refused=rows["price"][0].refused or 0,
        overhead=bool(
            est.job.overhead is not None and est.terms.sound and same(est.terms.overhead_basis) == "labor hours"
        ),
        too_high=sum(row.too_high or 0 for row in rows["areas"]),
        misfit=sum(row.misfit or 0 for row in picks),
        sags=sum(row.sags or 0 for row in films),
        overthinned=sum(row.overthinned or 0 for row in films),
        turbulent=sum(row.turbulent or 0 for row in picks),
        lead=_lead(est.job, est.checks.slack),
        voc=sum(row.over_voc or 0 for row in films),
        old_prices=sum(row.old or 0 for key in ("coatings", "nozzles") for row in rows[key]),
    )
    counts["area_sum"] = _differ(
        est, sum(row.measured or 0 for row in rows["areas"]), sum(row.measured or 0 for row in rows["systems"])
    )
    counts["gallons_sum"] = _differ(
        est,
        sum(row.need * included(row, 1) for row in rows["gallons"] if row.live),
        sum(row.coats_need for row in rows["purchases"] if row.scenario == 1),
    )
    est.checks.lead_home = float(_lead_home(est.job))
    cost = rows["cost"][0]
    est.checks.items_of_cost = cost.items or 0.0
    est.checks.kinds_of_cost = cost.cost or 0.0
    counts["cost_sum"] = _differ(est, est.checks.kinds_of_cost, est.checks.items_of_cost)
    return counts


def _lead_home(job):
    return bool(
        job.sound
        and job.building is not None
        and same(job.building) in ("home", "child-occupied")
        and (job.built or 0) < LEAD_YEAR
    )


def _lead(job, slack):
    """40 CFR 745.83: homes and child-occupied buildings before 1978, unless the work is minor; windows never are."""
    if not _lead_home(job):
        return False
    more = 1 + slack
    return (
        (job.disturbed_inside or 0) > LEAD_INSIDE * more
        or (job.disturbed_outside or 0) > LEAD_OUTSIDE * more
        or job.windows_replaced is not None
        and same(job.windows_replaced) == "yes"
    )


def _differ(est, one, other):
    return abs(one - other) > (est.terms.tolerance if est.terms.sound else 0.0) * (1 + abs(one))
