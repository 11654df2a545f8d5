"""The nozzle of each coat: pick, next best, the own choice before both (E16-E17, E41)."""
from math import floor

from builder.records.reasons import COLUMN_OF, REASONS, WEIGHT
from builder.trade import spray

TAKEN = ("nozzle", "why", "fits", "pressure", "set_pressure", "gun_speed", "flow", "miss", "loss", "material", "life", "interval",
         "wear", "time", "cost")


def _tried(est, coat_no):
    """The rows of the nozzle check that belong to one coat, by size."""
    count = len(est.rows["nozzles"])
    return est.rows["trials"][(coat_no - 1) * count:coat_no * count]


def fitting(est):
    """How many sizes fit, and the coarsest orifice that the system's aim lets in."""
    for row, coat in zip(est.rows["picks"], est.rows["films"]):
        row.sprayed = coat.sprayed
        if not row.sprayed:
            continue
        row.system, row.coating = coat.system, coat.coating
        orifices = [est.row("nozzles", trial.size).orifice for trial in _tried(est, row.no) if trial.fits]
        row.fitting = float(len(orifices))
        if orifices:
            row.smallest = min(orifices)
            span = row.smallest * est.terms.smooth_span * (1 + est.terms.slack)
            row.coarsest = span if coat.smooth else max(orifices)


def _advice(est, row):
    """When to change the nozzle, in words."""
    row.pays, row.worn_out = (f"{floor(est.units.to_cell(volume, 'volume') + 0.5 + est.terms.slack)} {est.units.shown('volume')}"
                              for volume in (row.interval, row.life))
    if row.interval < row.life * (1 - est.terms.slack):
        return f"changing it after {row.pays} pays; worn out at {row.worn_out}"
    return f"use it until worn out, at {row.worn_out}"


def scores(est):
    """Sizes down, coats across: orifice and cost of what fits or the reason in words, and the score the pick goes by."""
    count = len(est.rows["nozzles"])
    for row, size in zip(est.rows["fit"], est.rows["nozzles"]):
        row.nozzle = size.known
        tried = [est.rows["trials"][(pick.no - 1) * count + row.no - 1] for pick in est.rows["picks"]]
        row.orifice = tuple(size.orifice if trial.fits else None for trial in tried)
        row.shown = tuple(trial.cost if trial.fits else trial.why for trial in tried)
        row.score = tuple(_score(est.terms, trial, size) if trial.fits and size.orifice <= pick.coarsest else None
                          for trial, pick in zip(tried, est.rows["picks"]))
        row.others = ()


def _score(terms, trial, size):
    """The cost, for a nozzle of the kit over 1 + preference; the earlier size at a tie (E41).

    So the least score is one of the kit just where the cheapest of them costs at most 1 + preference times the least cost.
    """
    return trial.cost / (1 + (terms.kit_preference + terms.slack) * size.in_kit) + terms.tie_step * size.no


def best(est):
    """Pick of each coat by score, next best by cost alone among the others that are let in."""
    for row in est.rows["picks"]:
        scores = [fit.score[row.no - 1] for fit in est.rows["fit"]]
        row.pick_at = _least(scores)
        others = [None if score is None or trial.size == row.pick_at else trial.cost + est.terms.tie_step * trial.size
                  for score, trial in zip(scores, _tried(est, row.no))]
        for fit, cost in zip(est.rows["fit"], others):
            fit.others += (cost,)
        row.next_at = _least(others)
        if row.pick_at:
            row.pick = est.row("nozzles", row.pick_at).known
        if row.next_at:
            _next_best(est, row, *(_tried(est, row.no)[at - 1] for at in (row.pick_at, row.next_at)))


def _least(figures):
    """The place of the least of some figures, from 1, the first of equal ones; None where all are blank."""
    return min(((figure, place) for place, figure in enumerate(figures, start=1) if figure is not None), default=(None, None))[1]


def _next_best(est, row, pick, other):
    """What the next best would cost or save, in words; it saves only where the pick is of the kit."""
    row.next, row.next_extra = other.nozzle, other.cost / pick.cost - 1
    row.next_tenths = float(floor(abs(row.next_extra) * 1000 + 0.5 + est.terms.slack))
    told = f"{row.next_tenths / 10:,.1f} %"
    if row.next_tenths and row.next_extra < 0:
        row.next_words = f"in your kit; {row.next} would save {told}"
    else:
        row.next_words = f"{row.next} costs {f'{told} more' if row.next_tenths else 'the same'}"


def picks(est):
    for row, coat in zip(est.rows["picks"], est.rows["coats"]):
        if not row.sprayed:
            continue
        row.size_at = row.pick_at if coat.nozzle is None else est.judge.at("nozzles", coat.nozzle)
        if row.size_at is None:
            continue
        tried = _tried(est, row.no)
        row.used_at = (row.no - 1) * len(tried) + row.size_at
        used = tried[row.size_at - 1]
        row.live = used.live
        if row.live:
            _take(est, row, coat, used)
    _beside_sizes(est)


def _beside_sizes(est):
    """What the sheet Fit tells of all sizes of a coat, coat by coat."""
    told = {"smallest": "smallest", "pick_at": "pick_at", "next_at": "next_at", "used_at": "size_at"}
    rows = est.rows["picks"]
    found = {key: tuple(getattr(row, where) for row in rows) for key, where in told.items()}
    orifices = [[row.orifice[at] for row in est.rows["fit"] if row.orifice[at]] for at, _ in enumerate(rows)]
    found.update(fitting=tuple(float(len(one)) for one in orifices), largest=tuple(max(one, default=None) for one in orifices))
    est.rows["fit"][0].set(**found)


def _take(est, row, coat, used):
    row.set(**{key: getattr(used, key) for key in TAKEN})
    size, film = est.row("nozzles", row.size_at), est.row("films", row.no)
    row.fan, row.orifice, row.wet_film = size.fan, size.orifice, film.wet_film
    row.first_speed = row.gun_speed / film.uptake
    row.over, row.drag = est.terms.excess * row.wear, est.terms.slow * row.wear
    row.labour = row.time * film.team
    row.advice = _advice(est, row)
    row.misfit = float(not row.fits)
    pump, paint = est.row("pumps", film.pump_at), est.row("coatings", film.coating_at)
    row.reynolds = spray.reynolds(film.density, row.flow * film.guns, pump.narrowest, paint.viscosity)
    row.turbulent = float(row.reynolds > est.terms.reynolds_max)
    told = ""
    for key, words in REASONS.items():
        told += f"{words}; " if getattr(used, f"not_{COLUMN_OF[key]}") // WEIGHT[key] % 2 else ""
        setattr(row, f"told_{key}", told or None)

