"""Nozzles: the size of each coat and why; below, every size for one coat that is chosen, those that fit first."""

from math import floor

from builder.records.reasons import REASONS, verdict
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages.constants import BATCH
from builder.stages.in_use import NOTHING_YET, choose, chooser, done

# fmt: off
TOP = 5                                                # the first row of the picks
TRIED = "({chosen.coat_at}-1)*{constants.sizes}+"

RANKING = Block("ranking", "Views", (
    C("no", "Place and size", "count", label=lambda number: number),
    C("nozzle", "Size tried", "text",
      'IF({chosen.coat_at}="","",CHOOSE(1+ISNUMBER({trial.loss}),"",{size.known}))', ""),
    C("score", "Cost where it fits", "money_area", 'IF({trial.against}=0,{trial.cost}+{terms.tie_step}*{no},"")',
      "nozzle"),
    C("rest", "Row where it does not", "count", 'IF({score}="",{no},"")', "nozzle"),
    C("first_at", "Row of the size that fits in this place", "count",
      'IF({no}>COUNT({*score}),"",MATCH(SMALL({*score},{no}),{*score},0))', ""),
    C("rest_at", "Row of the size that does not", "count",
      'IF(({no}>COUNT({*score}))*({no}<=COUNT({*score})+COUNT({*rest}))=1,SMALL({*rest},{no}-COUNT({*score})),"")', ""),
    C("size_at", "Row of the size in this place", "count", 'IF({first_at}="",{rest_at},{first_at})', ""),
    C("told", "Size in this place", "text", "INDEX({nozzles.known},{size_at})", "size_at"),
    C("cost", "Cost per area in this place", "money_area", "{placed.cost}", "first_at"),
    C("extra", "More than the size used", "share", 'IF(N({pick.cost})=0,"",{cost}/{pick.cost}-1)', "first_at"),
    C("percent", "More or less, whole percent", "count", "INT(ABS({extra})*100+1/2+{terms.slack})", "extra"),
    C("compared", "To the size used, in words", "text",
      'IF({size_at}={pick.size_at},"used",REPT("the same",--({percent}=0))'
      '&REPT({percent}&" % more",({percent}>0)*({extra}>0))&REPT({percent}&" % less",({percent}>0)*({extra}<0)))',
      "extra"),
    C("why", "Why it does not fit", "text",
      f'IF({{placed.against}}="","{REASONS["lossy"]}",'
      'INDEX({words.reason},MATCH({placed.against},{words.reason_weight},1)))', "size_at"),
    C("verdict", "Does it fit", "text",
      '{why}&REPT("; used all the same",({first_at}="")*({size_at}={pick.size_at}))', "size_at"),
), {"trial": At("trials", TRIED + "{no}"), "placed": At("trials", TRIED + "{size_at}"),
    "size": At("nozzles", "{no}"), "pick": At("picks", "{chosen.coat_at}")}, follows=True)


def nozzle_blocks(units, coats):
    """The sheet Nozzles, in these units, for so many coats."""
    area = {"us": "1,000 ft2", "metric": "100 m2"}[units.system]
    sizes_top = TOP + coats + 3
    use = {"use": At("in_use", "ROW()-ROW({#part})"), "coat": At("film", "{use.coat_at}"),
           "pick": At("picks", "{use.coat_at}")}
    picked = Block("pick_list", "Nozzles", (
        C("part", "System", "text", "{use.part}", ""),
        C("nozzle", "Nozzle", "text", 'IF({coat.sprayed}=1,{pick.nozzle}&"",INDEX({words.done},{coat.method_no}))'),
        C("what", "Coating and color", "text",
          f'IF({{part}}="",REPT("{NOTHING_YET}",--(ROW()-ROW({{#part}})+COUNT({{picks.place}})=1)),{{use.what}})', ""),
        C("gauge", "Set to", "pressure", "{pick.gauge}"),
        C("fan", "Fan", "width", "{pick.fan}"),
        C("hand", f"Hand: {stroke(units)} in", "seconds", "{pick.hand_time}"),
        C("rival", "Next best", "text", "{pick.rival}"),
        C("rival_words", "It costs", "text", "{pick.rival_words}"),
        C("reason", "Why this one", "text", "{pick.reason}"),
        C("change", "When to change it", "text", "{pick.change_words}"),
    ), use, "part", top=TOP)
    sizes = Block("size_list", "Nozzles", (
        C("nozzle", "Nozzle", "text", "{rank.told}", ""),
        C("compared", "To the one used", "text", "{rank.compared}"),
        C("verdict", "Does it fit?", "text", "{rank.verdict}"),
        C("cost", f"Cost of {area}", "money", 
          f'IF({{rank.cost}}="","",{nearest("{rank.cost}*{constants.batch}", "money")})'),
    ), {"rank": At("ranking", "ROW()-ROW({#nozzle})")}, "nozzle", top=sizes_top, section="All sizes for",
        follows=True)
    return picked, *chooser("chosen", "Nozzles", sizes_top - 2, 2, (sizes_top - 2, 6)), RANKING, sizes
# fmt: on


def stroke(units):
    """The stroke by which a hand is told, in words."""
    return {"us": "8 ft", "metric": "2.5 m"}[units.system]


def chosen(est):
    choose(est, "chosen")


def ranking(est):
    """All sizes for the chosen coat: those that fit by cost, then the others as they stand in the catalog."""
    chosen, rows, count = est.rows["chosen"][0].coat_at, est.rows["ranking"], len(est.rows["nozzles"])
    if chosen is None:
        return
    tried, pick = est.rows["trials"][(chosen - 1) * count : chosen * count], est.row("picks", chosen)
    for row, trial in zip(rows, tried):
        if trial.loss is not None:
            row.nozzle = est.row("nozzles", row.no).known
            row.score = trial.cost + est.terms.tie_step * row.no if trial.against == 0 else None
            row.rest = None if trial.against == 0 else float(row.no)
    fitting = sorted((row for row in rows if row.score is not None), key=lambda row: row.score)
    others = [row for row in rows if row.rest is not None]
    for place, size in zip(rows, (*fitting, *others)):
        trial = tried[size.no - 1]
        place.size_at, place.told = float(size.no), est.row("nozzles", size.no).known
        place.why = place.verdict = REASONS["lossy"] if trial.against is None else verdict(trial.against)
        used = size.no == pick.size_at
        if size.score is None:
            place.rest_at = place.size_at
            place.verdict += "; used all the same" if used else ""
        else:
            place.first_at, place.cost = place.size_at, trial.cost
            if pick.cost:
                _compared(est, place, pick, used)


def _compared(est, place, pick, used):
    place.extra = place.cost / pick.cost - 1
    place.percent = float(floor(abs(place.extra) * 100 + 0.5 + est.terms.slack))
    other = f"{place.percent:g} % {'more' if place.extra > 0 else 'less'}" if place.percent else "the same"
    place.compared = "used" if used else other


def nozzle_lists(est):
    """What the sheet Nozzles shows."""
    for row, use in zip(est.rows["pick_list"], est.rows["in_use"]):
        row.part, row.what = use.part, use.what
        if use.coat_at is None:
            row.what = NOTHING_YET if row.no == 1 else None
            continue
        coat, pick = est.row("film", use.coat_at), est.row("picks", use.coat_at)
        row.nozzle = pick.nozzle if coat.sprayed else done(coat)
        row.gauge, row.fan, row.hand, row.change = pick.gauge, pick.fan, pick.hand_time, pick.change_words
        row.rival, row.rival_words, row.reason = pick.rival, pick.rival_words, pick.reason
    for row, place in zip(est.rows["size_list"], est.rows["ranking"]):
        row.nozzle, row.compared, row.verdict = place.told, place.compared, place.verdict
        if place.cost is not None:
            row.cost = to_nearest(est, place.cost * BATCH[est.units.system], "money")
