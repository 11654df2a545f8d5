"""Systems, openings and takeoff lines: measured, coated and work area (E1-E3)."""
from builder.estimate.scenarios import SCENARIOS, included, only
from builder.estimate.stock import rank
from builder.records.reasons import TOO_HIGH, TOO_OPEN
from builder.records.words import BESIDE, WORDS
from builder.rules import same
from builder.trade import takeoff


def place(list_name, word, blank=None):
    """The place of a word in its closed list, from 1; `blank` stands for a blank cell."""
    return blank if word is None else list(map(same, WORDS[list_name])).index(same(word)) + 1


def systems(est):
    """Which surface, pump and crew a system uses, and the scenarios it belongs to."""
    for row in est.rows["systems"]:
        row.live = 1.0 if row.ready and est.job.ready and est.terms.ready else None
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
        row.smooth = place("aim", row.aim, 1) - 1
        row.only = only(row.alternate)
        row.scenarios = tuple(included(row, scenario) for scenario in SCENARIOS)


def lines(est):
    """Faces, gross area and what the openings take, line by line."""
    for row, line in zip(est.rows["areas"], est.rows["takeoff"]):
        row.entered = line.ready
        if not row.entered:
            row.fault = line.fault
            continue
        row.system_at = est.judge.at("systems", line.system)
        system = est.row("systems", row.system_at)
        row.live = system.live
        if not row.live:
            continue
        row.system = system.name
        row.profile_at = est.judge.at("profiles", line.profile) if line.profile is not None else None
        row.reach_at = est.judge.at("reaches", line.reach) if line.reach is not None else None
        profile, reach = est.row("profiles", row.profile_at), est.row("reaches", row.reach_at)
        row.all_over = float(profile is not None and same(profile.all_over) == "yes")
        row.faces = 1.0 if row.all_over or line.sides is None else line.sides
        row.coefficient = profile.coefficient if profile else 1.0
        row.paint_given = (profile.paint_coefficient or 0.0) if profile else 0.0
        row.paint_coefficient = row.paint_given or row.coefficient
        row.reach_factor = reach.factor if reach else 1.0
        row.shape_no = place("shape", line.shape, 1)
        row.factor = BESIDE["shape_factor"][row.shape_no - 1]
        top = line.height * BESIDE["shape_stands"][row.shape_no - 1]
        row.too_high = float(reach is not None and top > reach.height_limit * (1 + est.terms.slack))
        row.look = TOO_HIGH if row.too_high else None
        row.gross = takeoff.gross(row.factor, line.length, line.height) * (1.0 if line.count is None else line.count)
        row.only = system.only


def openings(est):
    """What each opening takes from its line, and its edge."""
    job = est.job
    for row in est.rows["openings"]:
        if not row.ready:
            continue
        row.line_at = est.judge.at("takeoff", row.line)
        line = est.row("areas", row.line_at)
        row.live = line.live
        if not row.live:
            continue
        count = 1.0 if row.count is None else row.count
        row.size = row.width * row.height
        more = 1 + est.terms.slack
        row.deducted_share = takeoff.opening_share(row.size, job.opening_none * more, job.opening_both * more, line.faces)
        row.deducted = row.size * count * row.deducted_share
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
        row.sound = None if row.too_open else 1.0
        if row.sound:
            row.measured = takeoff.measured(row.gross, row.openings, row.coefficient, row.faces)
            row.coated = takeoff.measured(row.gross, row.openings, row.paint_coefficient, row.faces)
            row.work = row.measured * row.reach_factor
            row.perimeter = sum(opening.perimeter for opening in own)


def sums(est):
    """Areas of each system."""
    for system in est.rows["systems"]:
        if system.live:
            own = [row for row in est.rows["areas"] if row.system_at == system.no and row.sound]
            for key in ("measured", "coated", "work", "perimeter"):
                setattr(system, key, sum(getattr(row, key) for row in own))
            system.lines = float(len(own))
