"""The count of each question, 0 where there is nothing to ask; and what answers it already, in words."""

from builder.records.lookups import place
from builder.records.questions import PLACEHOLDERS, QUESTIONS, accepted_list
from builder.sheets.alternates import included
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.bid import day, spoken_day, typed, typed_text
from builder.stages.constants import LEAD_YEAR
from builder.values import same


# fmt: off
def _differ_formula(one, other):
    return f"--(ABS({one}-{other})>IF(N({{terms.sound}})=0,0,{{terms.tolerance}})*(1+ABS({one})))"


def _unsaid(key):
    """1 where a text is blank or that of the demo."""
    return f'--((TRIM({{said_{key}}})="")+SUMPRODUCT(--({{words.placeholder}}={{said_{key}}}))>0)'


COUNTS = {
    "area_sum": _differ_formula("SUM({areas.measured})", "SUM({systems.measured})"),
    "gallons_sum": _differ_formula("SUMPRODUCT(--({gallons.only}=0),{gallons.need})",
                                   "SUMPRODUCT(--({purchases.scenario}=1),{purchases.coats_need})"),
    "cost_sum": _differ_formula("{kinds_of_cost}", "{items_of_cost}"),
    "demo": '--({said_demo}="yes")',
    "tasks": "IF(N({basics.live})=0,0,"
             "--(N({task_hours.labor_all@1})+N({task_hours.visit_hours_all@1})+N({task_hours.load_hours_all@1})=0))",
    "travel": 'IF(N({job.sound})=0,0,--(({job.travel_time}="")+({job.distance}="")>0))',
    "profile": 'SUMPRODUCT(--({areas.part}=0),--({areas.profile_at}=""),{areas.passed})',
    "empty": "SUMPRODUCT(--({areas.part}=0),--({areas.gross}=0),{areas.passed})",
    "old_prices": "SUM({coatings.old})+SUM({nozzles.old})",
    "inside": "SUM({coat_asks.inside})",
    "lead_test": "--({old_paint}*({tested}=1)=1)",
    "lead_safe": "--({old_paint}*({tested}-1=2)=1)",
    "building": '--(({disturbing}>0)*({said_building}="")=1)',
    "misfit": "SUM({picks.misfit})",
    "spots": "SUM({coat_asks.spots})",
    "too_high": "SUM({areas.too_high})",
    "sags": "SUM({film.sags})",
    "overthinned": "SUM({film.overthinned})",
    "turbulent": "SUM({picks.turbulent})",
    "guards": "SUM({kit.unguarded})",
    "stock": "SUM({coat_asks.ordered})",
    "rental": "SUM({machines.idle})",
    "idle": "--(2*N({days.standing@1})>N({days.work@1})*N({basics.people})*(1+{slack}))",
    "team": "SUM({task_asks.crowded})",
    "start": 'IF(N({job.sound})=0,0,--(({job.start}="")*(N({plan.lost})>0)=1))',
    "minimum": "IF({price.live@1}=1,--({price.asked@1}*(1+{slack})<{price.minimum@1}),0)",
    "deposit": "IF({price.live@1}=1,--({price.total@1}*{terms.deposit}>{price.allowed@1}*(1+{slack})),0)",
    "voc": "SUM({film.over_voc})",
    "client": '--(TRIM({said_client})="")',
    "date": 'IF(N({job.sound})=0,0,--({job.date}=""))',
    "firm": _unsaid("firm"),
    "license": _unsaid("license"),
    "accepted": '--(LEN({accepted_names})-LEN(SUBSTITUTE({accepted_names},",",""))-1>SUM({findings.accepted}))',
}
ANSWERS = {  # blank where nothing answers: then the question does not arise, or is open
    "demo": 'IF(N({terms.sound})=0,"",{terms.demo}&"")',
    "tasks": 'IF(({tasks}=1)+(COUNT({task_hours.live})=0)>0,"",COUNT({task_hours.live})&" in all")',
    "lead_test": 'IF({old_paint}*({tested}>1)=0,"",{job.lead_test}&"")',
    "building": 'IF(({disturbing}=0)+(N({job.sound})=0)>0,"",{job.building}&"")',
    "client": typed("{job.client}"),
    "date": f'IF((N({{job.sound}})=0)+({{date}}=1)>0,"",{day("{job.date}")})',
    "firm": typed("{terms.firm}"),
    "license": typed("{terms.license}"),
}
_COST = "N({cost.%s@1})"
# 40 CFR 745.83: homes and child-occupied buildings before 1978, unless the work is minor; windows never are. 745.82:
# not where no lead was found (from memory).
_LEAD_HOME = ('IF(N({job.sound})=0,0,(({job.building}="home")+({job.building}="child-occupied"))'
              "*({job.built}<{constants.lead_year})*({tested}<>2))")
_LEAD = "{lead_home}*N({basics.beyond_minor})"
HELPERS = (
    C("tested", "Test for lead: 1 not done, 2 none found, 3 found", "count",
      'IF(N({job.sound})=0,1,1+({job.lead_test}="no lead found")+2*({job.lead_test}="lead found"))'),
    C("lead_home", "Home or child-occupied building of the years of lead paint, not found free of it", "count",
      _LEAD_HOME),
    C("lead", "Old paint is disturbed beyond minor work (40 CFR 745.83)", "count", _LEAD),
    C("disturbing", "Tasks that disturb old paint", "count", "SUM({task_asks.disturbs})"),
    C("old_paint", "Old paint that may hold lead is disturbed", "count",
      "--({lead_home}*(({disturbing}>0)+{lead})>0)"),
    C("accepted_names", "Accepted as it is, as it is compared", "text",
      f'SUBSTITUTE(","&SUBSTITUTE(SUBSTITUTE(LOWER({typed("{job.accepted}")})," ",""),"_","")&",",",,",",")'),
    C("items_of_cost", "Cost, added up by item", "money", _COST % "items"),
    C("kinds_of_cost", "Cost, added up by kind", "money", _COST % "cost"),
)

COAT_ASKS = Block("coat_asks", "Questions", (
    C("no", "Coat, row", "count", label=lambda number: number),
    C("live", "Coat: worked out", "count", "{coat.passed}", ""),
    C("inside", "Coat: meant for inside, used outdoors", "count",
      '--(({paint.where}="inside")*({exposure.outdoors}<>"no")*({system.lines}>0)=1)'),
    C("spots", "Coat: sprayed on less than half of its area", "count",
      '--((N({coat.sprayed})=1)*({entry.share}<>"")*(2*{entry.share}<1-{terms.slack})*({system.lines}>0)=1)'),
    C("ordered", "Coat: nozzle to buy that must be ordered", "count",
      'IF({pick.live}=1,--(({size.stocked}="no")*({budget.buy@1}>0)=1),0)'),
), {"coat": At("film", "{no}"), "entry": At("coats", "{no}"), "paint": At("coatings", "{coat.coating_at}"),
    "system": At("systems", "{coat.system_at}"), "exposure": At("exposures", "{system.exposure_at}"),
    "pick": At("picks", "{no}"), "size": At("nozzles", "{pick.size_at}"), "budget": At("sizes", "{pick.size_at}")},
    "live")
TASK_ASKS = Block("task_asks", "Questions", (
    C("no", "Task, row", "count", label=lambda number: number),
    C("live", "Task: worked out", "count", "{done.live}", ""),
    C("disturbs", "Task: disturbs old paint", "count", '--({rate.disturbs}="yes")'),
    C("crowded", "Task: for more people than the job has", "count", "--({done.people}>{basics.people})"),
), {"done": At("task_hours", "{no}"), "rate": At("rates", "{done.rate_at}")}, "live")
# fmt: on


def questions(est):
    """Counts and answers of all questions; once the price is known, which one of them asks about."""
    row = est.checks
    _coats(est)
    _tasks(est)
    _lead(est, row)
    answers = _answers(est, row)
    row.accepted_names = accepted_list(typed_text(est, est.job.accepted) or "")
    for key, count in {**_sums(est, row), **_of_rows(est), **_of_price(est), **_of_words(est, row, answers)}.items():
        setattr(row, key, float(count or 0))
    counted = sum(one.live is not None for one in est.rows["task_hours"])
    answers["tasks"] = None if row.tasks or not counted else f"{counted} in all"
    row.set(**{f"said_{key}": answer for key, answer in answers.items()})


def _coats(est):
    for row, entry, coat, pick in zip(*(est.rows[key] for key in ("coat_asks", "coats", "film", "picks"))):
        row.live = coat.passed
        if not row.live:
            continue
        paint, system = est.row("coatings", coat.coating_at), est.row("systems", coat.system_at)
        outdoors = same(est.row("exposures", system.exposure_at).outdoors) != "no"
        row.inside = float(same(paint.where) == "inside" and outdoors and system.lines > 0)
        spots = entry.share is not None and 2 * entry.share < 1 - est.terms.slack
        row.spots = float(bool(coat.sprayed) and spots and system.lines > 0)
        row.ordered = 0.0
        if pick.live:
            size, budget = est.row("nozzles", pick.size_at), est.row("sizes", pick.size_at)
            row.ordered = float(same(size.stocked) == "no" and budget.buy[0] > 0)


def _tasks(est):
    for row, done in zip(est.rows["task_asks"], est.rows["task_hours"]):
        row.live = done.live
        if row.live:
            row.crowded = float(done.people > est.basics.people)
            row.disturbs = float(same(est.row("rates", done.rate_at).disturbs) == "yes")


def _lead(est, row):
    """Whether old paint that may hold lead is disturbed: by figures of the job (40 CFR 745.83), or by a task."""
    job = est.job
    row.tested = float(place("lead_test", job.lead_test, 1)) if job.sound else 1.0
    home = job.sound and same(job.building) in ("home", "child-occupied") and (job.built or 0) < LEAD_YEAR
    row.lead_home = float(bool(home) and row.tested != 2)
    row.lead = row.lead_home * (est.basics.beyond_minor or 0.0)
    row.disturbing = float(sum(one.disturbs or 0 for one in est.rows["task_asks"]))
    row.old_paint = float(row.lead_home and (row.disturbing > 0 or row.lead))


def _answers(est, row):
    job, terms = est.job, est.terms
    return {
        "demo": typed_text(est, terms.demo) if terms.sound else None,
        "lead_test": typed_text(est, job.lead_test) if row.old_paint and row.tested > 1 else None,
        "building": typed_text(est, job.building) if row.disturbing and job.sound else None,
        "client": typed_text(est, job.client),
        "date": spoken_day(job.date) if job.sound and job.date is not None else None,
        "firm": typed_text(est, terms.firm),
        "license": typed_text(est, terms.license),
    }


def _sums(est, row):
    """Sums taken two ways."""
    rows, cost = est.rows, est.rows["cost"][0]
    row.items_of_cost, row.kinds_of_cost = cost.items or 0.0, cost.cost or 0.0
    ways = {
        "area_sum": [sum(one.measured or 0 for one in rows[key]) for key in ("areas", "systems")],
        "gallons_sum": (
            sum(one.need * included(one, 1) for one in rows["gallons"] if one.live),
            sum(one.coats_need for one in rows["purchases"] if one.scenario == 1),
        ),
        "cost_sum": (row.kinds_of_cost, row.items_of_cost),
    }
    tolerance = est.terms.tolerance if est.terms.sound else 0.0
    return {key: abs(one - other) > tolerance * (1 + abs(one)) for key, (one, other) in ways.items()}


def _of_rows(est):
    """What is counted row by row."""

    def count(key, *blocks):
        return sum(getattr(row, key) or 0 for block in blocks for row in est.rows[block])

    lines = est.rows["areas"][: est.capacity["takeoff"]]  # Rooms says no profile
    return {
        "profile": sum(row.passed is not None and row.profile_at is None for row in lines),
        "empty": sum(row.passed is not None and row.gross == 0 for row in lines),
        "old_prices": count("old", "coatings", "nozzles"),
        "inside": count("inside", "coat_asks"),
        "guards": count("unguarded", "kit"),
        "stock": count("ordered", "coat_asks"),
        "misfit": count("misfit", "picks"),
        "turbulent": count("turbulent", "picks"),
        "spots": count("spots", "coat_asks"),
        "too_high": count("too_high", "areas"),
        "rental": count("idle", "machines"),
        "team": count("crowded", "task_asks"),
        "sags": count("sags", "film"),
        "overthinned": count("overthinned", "film"),
        "voc": count("over_voc", "film"),
    }


def _of_price(est):
    """Tasks that cost something, people who stand idle, the price that is lifted, the deposit that is limited."""
    price, terms, done = est.rows["price"][0], est.terms, est.rows["task_hours"][0]
    day = est.rows["days"][0]
    more = 1 + est.checks.slack
    return {
        "tasks": est.basics.live
        and not any((each or (0,))[0] for each in (done.labor_all, done.visit_hours_all, done.load_hours_all)),
        "idle": 2 * (day.standing or 0) > (day.work or 0) * (est.basics.people or 0) * more,
        "minimum": price.live is not None and price.asked * more < price.minimum,
        "deposit": price.live is not None and price.total * terms.deposit > price.allowed * more,
    }


def _of_words(est, row, answers):
    """What somebody must say."""
    unsaid = {"", *map(same, PLACEHOLDERS)}

    def blank(key):
        return not (answers[key] or "").strip(" ")

    typed_names = row.accepted_names.count(",") - 1
    known = sum(f",{question.code}," in row.accepted_names for question in QUESTIONS)
    return {
        "demo": same(answers["demo"]) == "yes",
        "lead_test": row.old_paint and row.tested == 1,
        "lead_safe": row.old_paint and row.tested == 3,
        "start": est.job.sound and est.job.start is None and (est.rows["plan"][0].lost or 0) > 0,
        "travel": est.job.sound and (est.job.travel_time is None or est.job.distance is None),
        "building": row.disturbing > 0 and answers["building"] is None,
        "client": blank("client"),
        "date": est.job.sound and est.job.date is None,
        **{key: blank(key) or same(answers[key]) in unsaid for key in ("firm", "license")},
        "accepted": typed_names > known,
    }
