"""Of changes of formulas that no figure can show (`survivors.py`): the identity or the bound that proves it."""

import re
from fnmatch import fnmatch

EQUIVALENT = (  # columns, change -> identity or bound that proves it; all are patterns
    # ---- packs: the first of costs that differ by less than the slack
    (
        "purchases.cost_none",
        r"0\*\{paint|^\{paint\.pack2_(price|volume)\} ->",
        "nothing times a price or a volume is nothing",
    ),
    (
        "purchases.cost_none",
        r"^0 -> 1 \(2\)$",
        "where nothing is left, as many middle packs as fit are none and cost nothing, and are taken instead",
    ),
    (
        "purchases.cost_more",
        r"^1 -> 2 \(2\)$",
        "one more middle pack than fit holds all the rest; where there is no middle pack, any number holds nothing",
    ),
    (
        "purchases.middle_fit",
        r"^0 -> 1 \(2\)$",
        "where there is no middle pack, any number of it holds and costs nothing, and the first choice stays",
    ),
    (
        "purchases.middle",
        r"^(CHOOSE\(\{rest_choice@3\},0,|\{middle_fit@3\}|1 -> 2 \(3\)$)",
        "one more of the largest holds all: nothing is left, of which the first choice, none, costs nothing",
    ),
    (
        "purchases.choice",
        r"-> MIN\(\{case_cost@(2\},\{case_cost@3\}\)|1\},\{case_cost@3\}\) \(2\)$)",
        "a cost is above the least of all where it is above the least of the others; who is out is not the least",
    ),
    (
        "purchases.rest_choice",
        r"-> MIN\(\{cost_(fit@\},\{cost_more@\}\)|none@\},\{cost_more@\}\) \(2\)$)"
        r"|^\{cost_fit@\} -> \{cost_none@\} \(3\)$|^\{cost_none@\} -> \{cost_fit@\} \([23]\)$",
        "the same",
    ),
    (
        "purchases.choice",
        r"^\{case_cost@1\} -> \{cost_more@1\} \([23]\)$",
        "the same: the first case, of no largest pack, costs the least of its three, of which this is one",
    ),
    (
        "purchases.choice",
        r"-> MIN\(\{case_cost@1\},\{case_cost@2\}\)$",
        "packs are whole multiples: where doing without the largest is no dearer than as many as fit, it is made of "
        "smaller ones for less, and one more of it saves nothing",
    ),
    # ---- money
    (
        "cost.overhead cost.taxed price.of_sales risk.loaded risk.hourly",
        r"^0 -> 1$",
        "of words that stand by the alphabet (overhead_basis, tax_base) a rough match finds the same as an exact one",
    ),
    (
        "price.allowed",
        r"^(IF\(\{terms\.deposit_cap_amount\}=\"\".* -> \{terms\.deposit_cap_amount\}|"
        r"\{terms\.deposit_cap_amount\} -> \{terms\.rounding\})$",
        "this engine leaves a blank cell out of MIN; others take it for 0 (MIN in grammar.py), and are compared",
    ),
    (
        "price.contingency_share",
        r"^\{cost\} -> \{contingency\}$",
        "no contingency is no share of any cost, and a job that costs nothing has none",
    ),
    (
        "price.chance_*",
        r"^MAX\(\{\w+\}-\{outlook\.certain\},0\) -> MAX\(\{",
        "it is asked for only where the difference is above 0",
    ),
    ("price.chance_*", r"^1 -> 2 \(2\)$", "the last argument of NORMDIST: any number but 0 asks for the sum"),
    (
        "price.chance_*",
        r"^\{outlook\.expected\} -> \{outlook\.p10\}$",
        "where it is asked for, nothing is uncertain and P10 is the mean, or less is paid than is certain, below both",
    ),
    # ---- tasks
    (
        "basics.disturbed",
        r"^\{contained\}( -> |\*\()",
        "what is disturbed is read by tasks that contain alone, which are 0 unless it is contained (their `measures`)",
    ),
    # ---- days
    (
        "days.a*",
        r"^(SUMPRODUCT.*\*\(\{no\}>1\) -> SUMPRODUCT.*[^1]\)$|\{no\}>1 -> \{no\}>=1)",
        "lanes of the base, those of no = 1, add nothing: their `added` and `alone` are 0",
    ),
    (
        "*.*",
        r"^MIN\(COUNT\(\{work_days\.no\}\),.* -> MIN\((INT|MAX|ROUNDUP)",
        "what goes on past the days that are listed is refused (Schedule: too long) and has no price",
    ),
    # ---- the schedule: rows that are there for nothing
    (
        "coat_steps.recoat coat_steps.time coat_steps.times coat_steps.unthinned lanes.always lanes.weather",
        r"^0 -> 1$",
        "coats that are not worked out are of no system, and systems that are not measured have no steps",
    ),
    (
        "coat_steps.hoses coat_steps.load",
        r"^0 -> 1 \(2\)$|^IF\(\{pump_at\}>0,\{gallon|^\{pump_at\}>0 -> \{pump_at\}>=0$|^\{pump_at\} -> \{load\}$",
        "of a coat without a pump no load, hose or rental of one is asked for; it has a load where it has a pump",
    ),
    ("coat_steps.rented", r"^\{pump_at\} -> \{load\}$", "it has a load where it has a pump"),
    (
        "coat_steps.first",
        r"^0 -> 1 \(2\)$|^\{here\} -> \{times\}$",
        "a coat that is not in the base takes none of its steps, wherever they would begin",
    ),
    ("steps.load", r"^0 -> 1 \(2\)$", "tasks take no pump, so that nobody asks what would be in it"),
    ("run.day run.load", r"^0 -> 1$", "rows below the last step take no pump, are of no day and end before the first"),
    ("run.system", r"^0 -> 1 \(2\)$", "the same"),
    ("run.step", r"^1 -> 2 \(2\)$", "the same"),
    ("run.last", r"^0 -> 1 \(3\)$", "the same: a day is marked from the day on which a step begins"),
    ("run.hoses run.unthinned", r"^0 -> 1 \(2\)$", "what takes no pump is of no load"),
    (
        "run.evenings run.load_from run.pump_days",
        r"^IF\(\{pump\}=0,0,.* -> |^\{pump\} -> \{step\}$",
        "what takes no pump is never filled; flushing and days of use are asked for by their pump",
    ),
    ("run.evenings run.pump_days", r"^0 -> 1 \(2\)$", "the same"),
    (
        "run.fill",
        r"^\{fills\} -> \{load\}$",
        "of a load that is begun elsewhere nothing is here: hoses and paint of it are 0",
    ),
    (
        "run.loaded run.halts",
        r"^\(\{no\}>1\)\*\(1\+\(\{pump\^\}=\{@\}\)\) -> \(1\+|^\{no\}>1 -> \{no\}>=1$"
        r"|-> CHOOSE\(.*,\{loaded@\^\},\{loaded",
        "over the first row stands its header, which is no number and is in no pump",
    ),
    # ---- the schedule: days and the clock
    ("lanes.hand_until run.last", r"^0 -> 1$|^MAX\(0,", "it stands in MAX(1, ): less than 1 is 1"),
    (
        "lanes.hand_until",
        r"^MAX\(1,ROUNDUP|^\{hand_end\} -> \{ready\}$",
        "it is asked for where hands have tasks, which take time and end when the system is ready",
    ),
    (
        "work_days.hand work_days.rest",
        r"^MAX\(0,",
        "no day is up to 0, nor up to the -1 that nothing less the slack is rounded to",
    ),
    (
        "work_days.rest lanes.later_lost",
        r"^INT\(\{plan\.lanes_end\}.*\) -> \(\{",
        "whole days are above a number where they are above its whole part; a row's number is taken whole",
    ),
    ("run.back", r"^1 -> 2$", "the last argument of MATCH: any number above 0 looks in numbers that grow"),
    (
        "run.ready",
        r"^MAX\(\{end\},.*\) -> MAX\(\{plan",
        "what dries on the clock is dry no sooner than its end, which the way to the clock and back gives again",
    ),
    (
        "run.fresh run.pump_days",
        r"^MAX\(0,\{last\}.* -> MAX\(\{last",
        "no step ends on a day before that of an earlier one, nor before the eve of its own",
    ),
    (
        "*.*",
        r"^\{work_days\.no\} -> \{work_days\.used\}",
        "it is counted how many days are listed: each has a number in either column",
    ),
    (
        "days.finish days.promised plan.start",
        r"^INT\(\{job\.start\}\) -> (\(|ROUNDUP)",
        "the first day of a file is whole; with a time, which a cell may have, tests/model/test_scheduled.py knows it",
    ),
    ("holidays.day", r"^1 -> 2$", "a row without a holiday is a day of 1900, and no job is before 2000"),
    # ---- the schedule: lanes
    (
        "lanes.added lanes.alone",
        r"^0 -> 1 \(2\)$|^IF\(\{apart\}=0,0,|^\{apart\} -> \{live\}$",
        "what a system of the base would add is added to no alternate: alternates are those of their number",
    ),
    (
        "lanes.drying",
        r"^0 -> 1 \(2\)$|^IF\(\{last_coat\}=0,0,",
        "only a system that is not measured has no coats where there is a price, and no alternate waits for it",
    ),
    (
        "lanes.all_at_it",
        r"^\{\*hand\} -> \{\*before\}$|\{\*tot\}\+\{\*hand\} -> \{\*tot\}$",
        "who has tasks by hand has steps of the gun too, and steps are before a system where earlier ones have any",
    ),
    ("lanes.uses", r"^\{areas\.work\} -> \{areas\.coated\}$", "one is above 0 where the other is"),
    (
        "plan.gun_from plan.hand_end",
        r"^\{lanes\.hand_end\} -> \{lanes\.ready\}$|^\{lanes\.hand\}\*\{lanes\.all_at_it\} -> \{lanes\.all_at_it\}$",
        "a system is ready when its hands are done, and one without tasks when they begin, after the first tasks",
    ),
    (
        "plan.lanes_end",
        r"-> MAX\(\{run\.end\}\)$|^\{hand_end\} -> \{gun_from\}$",
        "what hands prepare is coated after it, so that the gun ends last where there is a price",
    ),
    (
        "plan.hands",
        r"^MAX\(0,",
        "a team larger than the job's people leaves no hands, and none work: at least one is reckoned with",
    ),
    ("plan.open_lost", r"^\{open_time\} -> \{lost_time\}$", "time is lost where there is time in the open"),
    # ---- the schedule: which step is next
    (
        "run.worth",
        r"^0 -> 1$|^1 -> 2|^2 -> 3|\+1\)\*2\+1 -> ",
        "the same added to all, or more weight for what goes first anyway; what comes later stays below all",
    ),
    ("run.worth", r"^\{coming\.pump_at\} -> \{coming\.load\}$", "a step has a load where it has a pump"),
    # ---- machines
    (
        "machines.from_gun run.use_from",
        r"^0 -> 1 \(2\)$|^IF\(.*=0,0,1\+COUNT.* -> 1\+COUNT|^\{use_until@\} -> \{use_days@\}$",
        "what is never used has no days on site, whenever they would begin",
    ),
    (
        "machines.since machines.span",
        r"^\{from_gun\} -> \{until\}$|^\{from_gun\}\*\{from_hand\} -> \{from_hand\}$"
        r"|^\{from_gun\}\+\{from_hand\} -> (\(\{from_gun\}-|\{from_gun\}$)|^\{until\} -> \{from_gun\}$",
        "what hands need the gun needs too: hands alone have no machine",
    ),
    (
        "machines.five machines.twenty",
        r"^\{constants\.week_days\} -> \{constants\.month_days\}$|^\{five\}\*\{constants\.month_days\}.*\*",
        "a rate that is not offered, at more than its days or weeks cost, is never the least",
    ),
    (
        "guard_buys.buy guard_buys.cash_all",
        r"^\{gallons\.applied\} -> \{gallons\.need\}$|^\{families\.guard_cost\} -> \{families\.guard_price\}$",
        "a coat needs paint where it is applied; a guard is bought in the row of the family that says its price",
    ),
    # ---- areas, film, parts
    (
        "system_cost.need_rate system_cost.labor_rate system_cost.bought_rate system_cost.worked_rate",
        r"^\{system\.(coated|work)\} -> \{system\.(measured|coated)\}$",
        "a system has coated area where it has measured area, and work there",
    ),
    (
        "systems.slow systems.slow_all systems.open_slow systems.open_slow_all",
        r"^\{(measured|opened)(_all@)?\} -> \{(coated|open_work)(_all@)?\}$",
        "asked for 0 alone: what is measured is coated, what is open is worked at",
    ),
    (
        "film.guard_share film.work_ratio coat_cost.paint hours.pace hours.trigger_share",
        r"^\{(surface_coats\} -> \{coated|coated\} -> \{surface_coats|elapsed\} -> \{labor|"
        r"gallon\.need\} -> \{gallon\.applied)"
        r"\}$",
        "asked for 0 alone: coats go on a face where it is coated, take paint, time and hands there",
    ),
    (
        "task_cost.labor task_cost.own",
        r"days\.visits@1",
        "a task by visit is for the whole job (refused beside a system), and parts share tasks of systems: a term that "
        "could go",
    ),
    (
        "parts.weight",
        r"^\{own\}\+\(SUM\(\{\*own\}\)=0\) -> \(\{own\}-",
        "where nothing costs, all weigh alike, whatever the sign of it",
    ),
    (
        "gallons.own_load gallons.fill",
        r"^\{hoses\}\*\(\{only\}>0\) -> \{hoses\}$|^\{only\}>0 -> \{only\}>=0$|^\{only\} -> |^\{hoses\} -> \{guns\}$",
        "loads of their own are asked of coats of an alternate alone; there are hoses where there are guns",
    ),
    # ---- nozzles
    (
        "fit.in_kit fit.orifice",
        r"^0 -> 1$",
        "a size that is at fault has no worth, by which all is multiplied, and no orifice is as small as 1 thou",
    ),
    ("fit.worth", r"^1 -> 2$", "twice the worth of each: the most of it is of the same size"),
    (
        "fit.largest",
        r"-> SUMPRODUCT\(LARGE",
        "asked for only where some size fits: `smallest` is blank where none does",
    ),
    ("fit.pick_at", r"-> MATCH\(", "the same; the smallest that fits is let in, so that the most is above 0"),
    (
        "picks.gauge",
        r"-> MIN\(\{pressure_most\}\)$",
        "taken where a step up is above what holds: then no step lies between the set pressure and that",
    ),
    ("picks.gauge_up", r"^0 -> 1$", "a pressure above 0 is one step of the gauge at least, rounded up"),
    ("picks.gauge_up", r"-> MAX\(\(\{set_pressure", "no set pressure is below 0"),
    (
        "trials.against*",
        r"\)\*2-\(\{|^\(.* -> \(\(+.*\*2-\(",
        "it is asked whether nothing speaks against a size: twice a whole number less 0 or 1 is 0 where both are, and it "
        "is above 0 or below where not; the words for it give no result",
    ),
    (
        "trials.against_shape",
        r"\} -> .*[<>]=",
        "a limit is widened by the slack, a millionth: no whole thou or inch is the widened limit itself",
    ),
    ("nozzles.lap", r"^0 -> 1$|^IF\(|excess", "terms without an overlap are at fault, and there is no price"),
)


def explained(column, words):
    """Whether a change is proved to be none."""
    return any(
        re.search(what, words) and any(fnmatch(column, one) for one in where.split()) for where, what, _ in EQUIVALENT
    )
