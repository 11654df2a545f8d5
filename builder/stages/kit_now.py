"""The nozzles of the kit by now: how worn the log shows each, the worst of volume, fan and flow (E20, E53), and what it
cost to change it late. The estimate keeps to what the kit was before the job.
"""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages.brief import plain
from builder.stages.logged import SHEET
from builder.trade import wear

# fmt: off
STATES = ("good", "watch: another day like these wears it out", "change it now")
ROLLING = "; it still serves for coats that are back-rolled"     # common practice, no source


def _of_tag(key):
    return f"SUMPRODUCT(--({{log_lines.kit_at}}={{no}}),{{log_lines.{key}}})"


def _last(key):
    """The place in time of the newest reading; 0 where there is none."""
    return f"SUMPRODUCT(LARGE(({{log_lines.kit_at}}={{no}})*{{log_lines.{key}}},1))"


KIT_NOW = Block("kit_now", SHEET, (
    C("no", "Nozzle of the kit", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF((N({own.live})=1)*(N({terms.sound})=1)=1,1,"")', ""),
    C("through", "Through it by the log, in a coating of abrasion 1", "volume", _of_tag("through")),
    C("money", "Price of the paint that went through", "money", _of_tag("money")),
    C("fanned", "Place of its last fan", "number", _last("fanned")),
    C("timed", "Place of its last flow", "number", _last("timed")),
    C("worn_volume", "Worn by volume", "share", "{own.worn_volume}+{through}/{size.reference_life}"),
    C("worn_fan", "Worn by fan", "share",
      "IF({fanned}=0,{own.worn_fan},"
      "MAX(0,(1-INDEX({log.fan},MATCH({fanned},{log_lines.fanned},0))/{size.fan})/(1-{terms.worn_fan})))"),
    C("worn_flow", "Worn by flow", "share",
      "IF({timed}=0,{own.worn_flow},INDEX({log_lines.worn_flow},MATCH({timed},{log_lines.timed},0)))"),
    C("worn", "Worn by now", "share", "MAX({worn_volume},{worn_fan},{worn_flow})"),
    C("soon", "Worn after another day like these", "share",
      "{worn}+{through}/MAX(1,{week.days})/{size.reference_life}"),
    C("state", "1 good, 2 watch, 3 change", "count",
      "MAX(1+({soon}>=1-{terms.slack})*({through}>0),(1+2)*({worn}>=1-{terms.slack}))"),
    C("late", "Paint lost past its life", "money",
      "MIN(1,MAX(0,{worn_volume}-1)*{size.reference_life}/({through}+({through}=0)))*{terms.excess}*{money}"),
    C("rolling", "Coats that are back-rolled", "count", "SUMPRODUCT({film.sprays},{film.rolls})"),
    C("used", "Used in this job", "count", 'IF({through}+{fanned}+{timed}>0,1,"")'),
    C("told_lost", "Paint lost, in words", "text",
      f'REPT(", "&{nearest("{late}", "money")}&" "&{{book.currency}}&" of paint lost",'
      "--({late}>={constants.step_money}))", "used"),
    C("verdict", "Verdict", "text",
      'CHOOSE({state},"' + '","'.join(STATES) + '")'
      f'&{{told_lost}}&REPT("{ROLLING}",({{state}}>2)*({{rolling}}>0))', "used"),
), {"own": At("kit", "{no}"), "size": At("nozzles", "{own.nozzle_at}")}, "live", under="log_days",
    section="Nozzles of the kit by now")
# fmt: on


def kit_now(est):
    slack, lines = est.terms.slack, [one for one in est.rows["log_lines"] if one.live]
    for row, own, entry in zip(est.rows["kit_now"], est.rows["kit"], est.rows["kit"]):
        row.live = 1.0 if own.live and est.terms.sound else None
        if not row.live:
            continue
        mine = [one for one in lines if one.kit_at == row.no]
        size = est.row("nozzles", own.nozzle_at)
        row.through, row.money = sum(one.through for one in mine), sum(one.money for one in mine)
        row.fanned, row.timed = (max((getattr(one, key) for one in mine), default=0.0) for key in ("fanned", "timed"))
        row.worn_volume = wear.worn_by_volume((entry.used or 0.0) + row.through, size.reference_life)
        row.worn_fan, row.worn_flow = own.worn_fan, own.worn_flow
        if row.fanned:
            seen = next(one for one in mine if one.fanned == row.fanned)
            row.worn_fan = wear.worn_by_fan(est.rows["log"][seen.no - 1].fan, size.fan, est.terms.worn_fan)
        if row.timed:
            row.worn_flow = next(one.worn_flow for one in mine if one.timed == row.timed)
        row.worn = max(row.worn_volume, row.worn_fan, row.worn_flow)
        row.soon = row.worn + row.through / max(1.0, est.rows["week"][0].days) / size.reference_life
        worn_out, soon = row.worn >= 1 - slack, row.soon >= 1 - slack and row.through > 0
        row.state = 3.0 if worn_out else 2.0 if soon else 1.0
        past = max(0.0, row.worn_volume - 1) * size.reference_life
        row.late = min(1.0, past / row.through) * est.terms.excess * row.money if row.through else 0.0
        row.rolling = float(sum(1 for one in est.rows["film"] if one.sprays and one.rolls))
        row.used = 1.0 if row.through or row.fanned or row.timed else None
        if row.used:
            row.verdict = _verdict(est, row)


def _verdict(est, row):
    amount = est.units.to_cell(to_nearest(est, row.late, "money"), "money")
    lost = est.units.to_cell(row.late, "money") >= 1
    row.told_lost = f", {plain(amount)} {est.units.currency} of paint lost" if lost else ""
    return STATES[int(row.state) - 1] + row.told_lost + (ROLLING if row.state > 2 and row.rolling else "")
