"""Fit: sizes and coats at a glance; Picks: the nozzle of each coat, next best, the own choice before both (E16-E17,
E41).
"""

from math import floor

from builder.records.reasons import verdict
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.stages.setting import SETTING
from builder.trade import film, spray, wear

# fmt: off
# What is let in: the area that money pays for, 0 for a size that does not fit or is too coarse for the system's aim.
LET_IN = "{*worth@}*({*orifice}<={pick.coarsest})"


def fit_block(coats):
    """Sizes down, coats across."""
    across = {"repeat": coats, "when": "", "heads": tuple(f"coat {number + 1}" for number in range(coats))}
    found = {**across, "rows": 1}                        # of all sizes, one figure a coat
    return Block("fit", "Fit", (
        C("no", "Size, row", "count", label=lambda number: number),
        C("nozzle", "Nozzle", "text", '{size.known}&""', ""),
        C("orifice", "Orifice", "orifice", "IF({size.sound}=1,{size.orifice},0)", ""),
        C("in_kit", "In the kit", "count", "IF({size.sound}=1,{size.in_kit},0)", ""),
        C("worth", "Area that money pays for, if it fits; the earlier size at a tie", "number",
          "IF({trial.against}=0,1/({trial.cost}+{terms.tie_step}*{no}),0)", **across),
        C("fitting", "Sizes that fit", "count", "SUMPRODUCT(--({*worth@}>0))", **found),
        C("smallest", "Smallest orifice that fits", "orifice",
          'IF({fitting@}=0,"",MAX({*orifice})-SUMPRODUCT(LARGE(({*worth@}>0)*(MAX({*orifice})-{*orifice}),1)))',
          **found),
        C("largest", "Largest orifice that fits", "orifice",
          'IF({fitting@}=0,"",SUMPRODUCT(LARGE(({*worth@}>0)*{*orifice},1)))', **found),
        C("most", "Most area", "number", f"SUMPRODUCT(LARGE({LET_IN},1))", **found),
        C("kit_most", "Most area, nozzles of the kit", "number", f"SUMPRODUCT(LARGE({LET_IN}*{{*in_kit}},1))", **found),
        # E41: a nozzle of the kit may cost (1 + preference) times the least.
        C("pick_most", "Area by the pick", "number",
          "IF({kit_most@}*(1+{terms.kit_preference}+{terms.slack})>={most@},{kit_most@},{most@})", **found),
        C("next_most", "Area by the next best", "number",
          f"IF({{pick_most@}}={{most@}},SUMPRODUCT(LARGE({LET_IN},2)),{{most@}})", **found),
        *(C(f"{key}_at", title, "count", f'IF({{{key}_most@}}=0,"",MATCH({{{key}_most@}},{{*worth@}},0))', **found)
          for key, title in (("pick", "Pick, row"), ("next", "Next best, row"))),
    ), {"size": At("nozzles", "{no}"), "pick": At("picks", "{@}"),
        "trial": At("trials", "({@}-1)*{constants.sizes}+{no}")})


TAKEN = (
    ("against", "Against it: all reasons, each by its weight", "count"),
    ("pressure", "Gun pressure", "pressure"),
    ("set_pressure", "Set pressure", "pressure"), ("gun_speed", "Hand speed, later coats", "speed"),
    ("flow", "Flow", "flow"), ("miss", "Miss", "share"),
    ("loss", "Loss", "share"), ("material", "Material", "yield"), ("life", "Life", "volume"),
    ("interval", "Replace after", "volume"),
    ("time", "Elapsed per area", "area_time"), ("cost", "Cost per area", "money_area"))


def _whole(volume):
    """A volume in words, to the nearest whole unit."""
    return f'INT({volume}+1/2+{{terms.slack}})&" "&{{constants.volume_unit}}'


# What a crew wants to know stands first.
FRONT = ("no coating system nozzle set_pressure first_speed gun_speed wet_film why "
         "pick next next_extra reason rival rival_words change_words")

PICKS = Block("picks", "Picks", results_first(FRONT, (
    C("no", "Coat", "count", label=lambda number: number),
    C("sprayed", "Sprayed", "count", "{coat.sprayed}", ""),
    C("system", "System", "text", "{coat.system}"),
    C("coating", "Coating", "text", "{coat.coating}"),
    C("fitting", "Sizes that fit", "count", "{fit.fitting@no}"),
    C("smallest", "Smallest orifice that fits", "orifice", "{fit.smallest@no}"),
    C("coarsest", "Coarsest orifice let in", "orifice",
      "IF({coat.smooth}=1,{smallest}*{terms.smooth_span}*(1+{terms.slack}),{fit.largest@no})", "smallest"),
    C("pick_at", "Pick, row", "count", "{fit.pick_at@no}", "smallest"),
    C("pick", "Pick", "text", "INDEX({nozzles.known},{pick_at})", "pick_at"),
    C("next_at", "Next best, row", "count", "{fit.next_at@no}", "smallest"),
    C("next", "Next best", "text", "INDEX({nozzles.known},{next_at})", "next_at"),
    C("next_extra", "Next best: difference of cost", "share", "{second.cost}/{first.cost}-1", "next_at"),
    C("size_at", "Size used, row", "count", 'IF({entry.nozzle}="",{pick_at},MATCH({entry.nozzle},{nozzles.known},0))'),
    C("used_at", "Row in Nozzle check", "count", "({no}-1)*{constants.sizes}+{size_at}", "size_at"),
    C("live", "Worked out", "count", 'IF({used.pressure}="","",1)', "used_at"),
    *(C(key, title, quantity, f"{{used.{key}}}", "live") for key, title, quantity in TAKEN),
    C("nozzle", "Nozzle used", "text", "{size.known}", "live"),
    C("guard_at", "Guard to buy, row of its family", "count", "{family.guard_at}", "live"),
    C("fits", "Fits", "count", "--({against}=0)", "live"),
    C("why", "Verdict", "text", "INDEX({words.reason},MATCH({against},{words.reason_weight},1))", "live"),
    C("step", "Step", "width", "IF({coat.clear_width}<={size.fan}*(1+{terms.slack}),{size.fan},{size.lap})", "live"),
    C("wear", "Mean wear", "share", "{interval}/(2*{life})", "live"),
    C("change_cost", "Cost of a change", "money", "{size.nozzle_price}+{coat.change_wage}", "live"),
    C("waste_rate", "Waste when worn", "money_volume",
      "{terms.excess}*{coat.mixed_price}+{terms.slow}*{coat.gun_wage}/({flow}*{constants.hour})", "live"),
    C("first_speed", "Hand speed, first coat", "speed", "{gun_speed}/{coat.uptake}", "live"),
    C("over", "Extra paint by wear", "share", "{terms.excess}*{wear}", "live"),
    C("drag", "Extra time by wear", "share", "{terms.slow}*{wear}", "live"),
    C("labor", "Labor per area", "area_time", "{time}*{coat.team}", "live"),
    C("pays", "Replace after, rounded", "text", _whole("{interval}"), "live"),
    C("worn_out", "Life, rounded", "text", _whole("{life}"), "live"),
    C("fan", "Fan", "width", "{size.fan}", "live"),
    C("orifice", "Orifice", "orifice", "{size.orifice}", "live"),
    C("wet_film", "Wet film", "film", "{coat.wet_film}*IF({coat.practical}=1,(1-{loss})*(1-{miss}),1)", "live"),
    C("misfit", "Chosen nozzle that does not fit", "count", "1-{fits}", "live"),
    C("reynolds", "Reynolds number in the hose", "number",
      "{constants.reynolds}*{coat.density}*{flow}/({coat.bore}*{paint.viscosity})", "live"),
    C("turbulent", "No longer laminar", "count", "--({reynolds}>{terms.reynolds_max})", "live"),
    *SETTING,
)), {"coat": At("film", "{no}"), "entry": At("coats", "{no}"), "used": At("trials", "{used_at}"),
     "size": At("nozzles", "{size_at}"), "family": At("families", "{size.family_at}"),
    "first": At("trials", "({no}-1)*{constants.sizes}+{pick_at}"),
    "second": At("trials", "({no}-1)*{constants.sizes}+{next_at}"),
    "other": At("trials", "({no}-1)*{constants.sizes}+{rival_at}"),
    "paint": At("coatings", "{coat.coating_at}")}, "sprayed")


# fmt: on


def _tried(est, coat_no):
    """The rows of the nozzle check that belong to one coat, by size."""
    count = len(est.rows["nozzles"])
    return est.rows["trials"][(coat_no - 1) * count : coat_no * count]


def fitting(est):
    """How many sizes fit, and the coarsest orifice that the system's aim lets in."""
    for row, coat in zip(est.rows["picks"], est.rows["film"]):
        row.sprayed = coat.sprayed
        if not row.sprayed:
            continue
        row.system, row.coating = coat.system, coat.coating
        orifices = [est.row("nozzles", trial.size_at).orifice for trial in _tried(est, row.no) if trial.against == 0]
        row.fitting = float(len(orifices))
        if orifices:
            row.smallest = min(orifices)
            span = row.smallest * est.terms.smooth_span * (1 + est.terms.slack)
            row.coarsest = span if coat.smooth else max(orifices)


def _change(est, row):
    """After how much it is changed, and how much wears it out, in words."""
    row.pays, row.worn_out = (
        f"{floor(est.units.to_cell(volume, 'volume') + 0.5 + est.terms.slack)} {est.units.shown('volume')}"
        for volume in (row.interval, row.life)
    )


def best(est):
    """Pick of each coat by score, next best by cost alone among the others that are let in."""
    sizes = est.rows["nozzles"]
    found = {key: [] for key in ("fitting", "smallest", "largest", "most", "kit_most", "pick_most", "next_most")}
    worths = [_best(est, row, sizes, found) for row in est.rows["picks"]]
    for row, size in zip(est.rows["fit"], sizes):
        row.nozzle = size.known
        row.orifice, row.in_kit = (size.orifice, size.in_kit) if size.sound else (0.0, 0.0)
        row.worth = tuple(worth[row.no - 1] for worth in worths)
    at = {key: tuple(getattr(row, key) for row in est.rows["picks"]) for key in ("pick_at", "next_at")}
    est.rows["fit"][0].set(**{key: tuple(figures) for key, figures in found.items()}, **at)


def _score(terms, trial, size):
    """The cost, for a nozzle of the kit over 1 + preference; the earlier size at a tie (E41).

    So the least score is one of the kit just where the cheapest of them costs at most 1 + preference times the least
    cost.
    """
    return trial.cost / (1 + (terms.kit_preference + terms.slack) * size.in_kit) + terms.tie_step * size.no


def _best(est, row, sizes, found):
    """Pick and next best of one coat; gives back what each size is worth to it."""
    tried, tie = _tried(est, row.no), est.terms.tie_step
    fits = [trial.against == 0 for trial in tried]
    worth = [_worth(est, trial) if fit else 0.0 for trial, fit in zip(tried, fits)]
    let_in = [fit and size.orifice <= row.coarsest for fit, size in zip(fits, sizes)]
    row.pick_at = _least(
        [_score(est.terms, trial, size) if let else None for trial, size, let in zip(tried, sizes, let_in)]
    )
    others = [
        trial.cost + tie * trial.size_at if let and trial.size_at != row.pick_at else None
        for trial, let in zip(tried, let_in)
    ]
    row.next_at = _least(others)
    if row.pick_at:
        row.pick = est.row("nozzles", row.pick_at).known
    if row.next_at:
        row.next = est.row("nozzles", row.next_at).known
        row.next_extra = tried[row.next_at - 1].cost / tried[row.pick_at - 1].cost - 1
    orifices = [size.orifice for size, fit in zip(sizes, fits) if fit]
    figures = {
        "fitting": float(len(orifices)),
        "smallest": min(orifices, default=None),
        "largest": max(orifices, default=None),
        "most": max((one for one, let in zip(worth, let_in) if let), default=0.0),
        "kit_most": max((one for one, let, size in zip(worth, let_in, sizes) if let and size.in_kit), default=0.0),
        **{f"{key}_most": worth[at - 1] if at else 0.0 for key, at in (("pick", row.pick_at), ("next", row.next_at))},
    }
    for key, figure in figures.items():
        found[key].append(figure)
    return worth


def _worth(est, trial):
    """Area that a unit of money pays for, in the units of the book."""
    return 1 / est.units.to_cell(trial.cost + est.terms.tie_step * trial.size_at, "money_area")


def _least(figures):
    """The place of the least of some figures, from 1, the first of equal ones; None where all are blank."""
    return min(
        ((figure, place) for place, figure in enumerate(figures, start=1) if figure is not None), default=(None, None)
    )[1]


def picks(est):
    for row, entry in zip(est.rows["picks"], est.rows["coats"]):
        if not row.sprayed:
            continue
        row.size_at = row.pick_at if entry.nozzle is None else est.judge.at("nozzles", entry.nozzle)
        if row.size_at is None:
            continue
        tried = _tried(est, row.no)
        row.used_at = (row.no - 1) * len(tried) + row.size_at
        used = tried[row.size_at - 1]
        row.live = None if used.pressure is None else 1.0
        if row.live:
            _take(est, row, entry, used)


def _take(est, row, entry, used):
    row.set(**{key: getattr(used, key) for key, *_ in TAKEN})
    size, coat = est.row("nozzles", row.size_at), est.row("film", row.no)
    row.nozzle, row.fan, row.orifice = size.known, size.fan, size.orifice
    row.guard_at = est.row("families", size.family_at).guard_at
    row.fits, row.why = float(row.against == 0), verdict(row.against)
    row.step = film.step(size.fan, coat.clear_width, size.lap, est.terms.slack)
    row.wear = wear.mean_wear(row.interval, row.life)
    row.change_cost = wear.change_cost(size.nozzle_price, est.terms.change_time, coat.team_wage)
    row.waste_rate = wear.waste_rate(
        est.terms.excess, coat.paint_price, coat.thinning, est.terms.slow, coat.gun_wage, row.flow
    )
    row.wet_film = film.on_face(coat.wet_film, row.loss, row.miss, coat.practical)
    row.first_speed = row.gun_speed / coat.uptake
    row.over, row.drag = est.terms.excess * row.wear, est.terms.slow * row.wear
    row.labor = row.time * coat.team
    _change(est, row)
    row.misfit = float(not row.fits)
    paint = est.row("coatings", coat.coating_at)
    row.reynolds = spray.reynolds(coat.density, row.flow, coat.bore, paint.viscosity)
    row.turbulent = float(row.reynolds > est.terms.reynolds_max)
