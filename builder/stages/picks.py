"""Fit: sizes and coats at a glance; Picks: the nozzle of each coat, next best, the own choice before both (E16-E17,
E41).
"""

from math import floor

from builder.records.reasons import REASONS, WEIGHT, verdict
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.stages.setting import SETTING
from builder.trade import film, spray, wear

# fmt: off
# What the pick goes by (E41): a nozzle of the kit may cost (1 + preference) times the least; the earlier size at a tie.
SCORE = ('IF(({trial.against}=0)*({size.orifice}<={pick.coarsest})=1,'
         '{trial.cost}/(1+({terms.kit_preference}+{terms.slack})*{size.in_kit})+{terms.tie_step}*{no},"")')
# What the next best goes by: cost alone, the pick left out.
OTHERS = 'IF(({score@}<>"")*({no}<>{pick.pick_at})=1,{trial.cost}+{terms.tie_step}*{no},"")'


def fit_block(coats):
    """Sizes down, coats across."""
    across = {"repeat": coats, "when": "nozzle", "heads": tuple(f"coat {number + 1}" for number in range(coats))}
    found = {**across, "when": "", "rows": 1}            # of all sizes, one figure a coat
    return Block("fit", "Fit", (
        C("no", "Size, row", "count", label=lambda number: number),
        C("nozzle", "Nozzle", "text", '{size.known}&""', ""),
        C("orifice", "Orifice if it fits", "orifice", 'IF({trial.against}=0,{size.orifice},"")', **across),
        C("score", "Score", "money_area", SCORE, **across),
        C("others", "Cost but for the pick", "money_area", OTHERS, **across),
        C("fitting", "Sizes that fit", "count", "COUNT({*orifice@})", **found),
        C("smallest", "Smallest orifice that fits", "orifice", 'IF({fitting@}=0,"",MIN({*orifice@}))', **found),
        C("largest", "Largest orifice that fits", "orifice", 'IF({fitting@}=0,"",MAX({*orifice@}))', **found),
        C("pick_at", "Least score, row", "count", 'IF({fitting@}=0,"",MATCH(MIN({*score@}),{*score@},0))', **found),
        C("next_at", "Least other cost, row", "count", 'IF(COUNT({*others@})=0,"",MATCH(MIN({*others@}),{*others@},0))',
          **found),
    ), {"size": At("nozzles", "{no}"), "pick": At("picks", "{@}"),
        "trial": At("trials", "({@}-1)*{constants.sizes}+{no}")})


TAKEN = (
    ("against", "Against it: all reasons, each by its weight", "count"),
    ("pressure", "Gun pressure", "pressure"),
    ("set_pressure", "Set pressure", "pressure"), ("gun_speed", "Hand speed, later coats", "speed"),
    ("flow", "Flow", "flow"), ("miss", "Miss", "share"),
    ("loss", "Loss", "share"), ("material", "Material", "yield"), ("life", "Life", "volume"),
    ("interval", "Replace after", "volume"),
    ("wear", "Mean wear", "share"), ("time", "Elapsed per area", "area_time"), ("cost", "Cost per area", "money_area"))


def _whole(volume):
    """A volume in words, to the nearest whole unit."""
    return f'INT({volume}+1/2+{{terms.slack}})&" "&{{constants.volume_unit}}'


def _told():
    """All reasons in words, gathered column by column."""
    before = ""
    for key, words in REASONS.items():
        yield C(f"told_{key}", words, "text",
                f'{before}REPT({{#told_{key}}}&"; ",MOD(INT({{against}}/{{constants.reason_{key}}}),'
                '2))', "live")
        before = f"{{told_{key}}}&"


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
    C("fits", "Fits", "count", "--({against}=0)", "live"),
    C("why", "Verdict", "text", "INDEX({words.reason},MATCH({against},{words.reason_weight},1))", "live"),
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
    *_told(),
    *SETTING,
)), {"coat": At("film", "{no}"), "entry": At("coats", "{no}"), "used": At("trials", "{used_at}"),
     "size": At("nozzles", "{size_at}"),
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


def scores(est):
    """Sizes down, coats across: orifice and cost of what fits or the reason in words, and the score the
    pick goes by.
    """
    count = len(est.rows["nozzles"])
    for row, size in zip(est.rows["fit"], est.rows["nozzles"]):
        row.nozzle = size.known
        tried = [est.rows["trials"][(pick.no - 1) * count + row.no - 1] for pick in est.rows["picks"]]
        row.orifice = tuple(size.orifice if trial.against == 0 else None for trial in tried)
        row.score = tuple(
            _score(est.terms, trial, size) if trial.against == 0 and size.orifice <= pick.coarsest else None
            for trial, pick in zip(tried, est.rows["picks"])
        )
        row.others = ()


def _score(terms, trial, size):
    """The cost, for a nozzle of the kit over 1 + preference; the earlier size at a tie (E41).

    So the least score is one of the kit just where the cheapest of them costs at most 1 + preference times the least
    cost.
    """
    return trial.cost / (1 + (terms.kit_preference + terms.slack) * size.in_kit) + terms.tie_step * size.no


def best(est):
    """Pick of each coat by score, next best by cost alone among the others that are let in."""
    for row in est.rows["picks"]:
        scores = [fit.score[row.no - 1] for fit in est.rows["fit"]]
        row.pick_at = _least(scores)
        others = [
            None if score is None or trial.size_at == row.pick_at else trial.cost + est.terms.tie_step * trial.size_at
            for score, trial in zip(scores, _tried(est, row.no))
        ]
        for fit, cost in zip(est.rows["fit"], others):
            fit.others += (cost,)
        row.next_at = _least(others)
        if row.pick_at:
            row.pick = est.row("nozzles", row.pick_at).known
        if row.next_at:
            row.next = est.row("nozzles", row.next_at).known
            _next_best(row, *(_tried(est, row.no)[at - 1] for at in (row.pick_at, row.next_at)))


def _least(figures):
    """The place of the least of some figures, from 1, the first of equal ones; None where all are blank."""
    return min(
        ((figure, place) for place, figure in enumerate(figures, start=1) if figure is not None), default=(None, None)
    )[1]


def _next_best(row, pick, other):
    """What the next best would cost more; it saves only where the pick is of the kit."""
    row.next_extra = other.cost / pick.cost - 1


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
    _beside_sizes(est)


def _beside_sizes(est):
    """What the sheet Fit tells of all sizes of a coat, coat by coat."""
    told = {"smallest": "smallest", "pick_at": "pick_at", "next_at": "next_at"}
    rows = est.rows["picks"]
    found = {key: tuple(getattr(row, where) for row in rows) for key, where in told.items()}
    orifices = [[row.orifice[at] for row in est.rows["fit"] if row.orifice[at]] for at, _ in enumerate(rows)]
    found.update(
        fitting=tuple(float(len(one)) for one in orifices), largest=tuple(max(one, default=None) for one in orifices)
    )
    est.rows["fit"][0].set(**found)


def _take(est, row, entry, used):
    row.set(**{key: getattr(used, key) for key, *_ in TAKEN})
    size, coat = est.row("nozzles", row.size_at), est.row("film", row.no)
    row.nozzle, row.fan, row.orifice = size.known, size.fan, size.orifice
    row.fits, row.why = float(row.against == 0), verdict(row.against)
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
    told = ""
    for key, words in REASONS.items():
        told += f"{words}; " if row.against // WEIGHT[key] % 2 else ""
        setattr(row, f"told_{key}", told or None)
