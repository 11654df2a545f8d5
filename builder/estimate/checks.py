"""The checks, counted."""
from builder.estimate.constants import LEAD_INSIDE, LEAD_OUTSIDE, LEAD_YEAR
from builder.estimate.scenarios import included
from builder.records.checklist import CLEAR, ITEMS, LOOK, STOP, TABLES
from builder.records.kinds import KINDS
from builder.rules import is_number, same


def checks(est):
    row = est.checks
    for kind in TABLES:
        setattr(row, f"beyond_{kind.key}", 0.0)      # the model holds no cell that it does not judge
        setattr(row, f"room_{kind.key}", float(len(est.rows[kind.key])))
    for key, count in _counts(est).items():
        setattr(row, key, float(count))
    for item in ITEMS:
        setattr(row, f"verdict_{item.key}", CLEAR if getattr(row, item.key) == 0 else STOP if item.stops else LOOK)
    row.stops = sum(getattr(row, item.key) for item in ITEMS if item.stops)
    row.looks = sum(getattr(row, item.key) for item in ITEMS if not item.stops)
    row.first = next((item.words for item in ITEMS if item.stops and getattr(row, item.key)), None)
    row.words = "All checks clear" if row.stops + row.looks == 0 else f"{row.stops:g} to put right, {row.looks:g} to look at"
    if row.no_lines:
        row.words += "; type the first line on Takeoff"


def _counts(est):
    rows = est.rows
    films, picks = rows["films"], rows["picks"]
    est.checks.slack = est.terms.slack if is_number(est.terms.slack) else 0.0
    counts = {f"faults_{key}": sum((row.faults or 0) > 0 for row in rows[key]) for key in KINDS}
    counts.update(
        no_lines=not any(row.ready for row in rows["takeoff"]),
        beyond=0,
        too_open=sum(row.too_open or 0 for row in rows["areas"]),
        uncoated=sum(row.live is not None and row.lines > 0 and row.coat_rows == 0 for row in rows["systems"]),
        film=sum((row.faults or 0) > 0 for row in films),
        no_nozzle=sum(row.sprayed or 0 for row in films) - sum(row.live or 0 for row in picks),
        no_day=rows["days"][0].no_day or 0,
        refused=rows["price"][0].refused or 0,
        overhead=bool(est.job.overhead is not None and est.terms.ready
                      and same(est.terms.overhead_basis) == "labour hours"),
        too_high=sum(row.too_high or 0 for row in rows["areas"]),
        misfit=sum(row.misfit or 0 for row in picks),
        sags=sum(row.sags or 0 for row in films),
        overthinned=sum(row.overthinned or 0 for row in films),
        turbulent=sum(row.turbulent or 0 for row in picks),
        lead=_lead(est.job, est.checks.slack),
        voc=sum(row.over_voc or 0 for row in films),
        old_prices=sum(row.old or 0 for key in ("coatings", "nozzles") for row in rows[key]),
    )
    counts["area_sum"] = _differ(est, sum(row.measured or 0 for row in rows["areas"]), sum(row.measured or 0 for row in rows["systems"]))
    counts["gallons_sum"] = _differ(est, sum(row.need * included(row, 1) for row in rows["gallons"] if row.live),
                                    sum(row.coats_need for row in rows["purchases"] if row.scenario == 1))
    est.checks.lead_home = float(_lead_home(est.job))
    cost = rows["cost"][0]
    est.checks.items_of_cost = cost.items or 0.0
    est.checks.kinds_of_cost = cost.cost or 0.0
    counts["cost_sum"] = _differ(est, est.checks.kinds_of_cost, est.checks.items_of_cost)
    return counts


def _lead_home(job):
    return bool(job.ready and job.building is not None and same(job.building) in ("home", "child-occupied") and (job.built or 0) < LEAD_YEAR)


def _lead(job, slack):
    """40 CFR 745.83: homes and child-occupied buildings before 1978, unless the work is minor; windows never are."""
    if not _lead_home(job):
        return False
    more = 1 + slack
    return ((job.disturbed_inside or 0) > LEAD_INSIDE * more or (job.disturbed_outside or 0) > LEAD_OUTSIDE * more
            or job.windows_replaced is not None and same(job.windows_replaced) == "yes")


def _differ(est, one, other):
    return abs(one - other) > (est.terms.tolerance if est.terms.ready else 0.0) * (1 + abs(one))
