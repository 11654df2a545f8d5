"""The nozzle of a coat as a person sets it: pressure to the step of the gauge and what that does to the hand, the next
best beside it, and why the pick (E10, E16, E17).
"""

from math import floor

from builder.sheets.grammar import Column as C
from builder.sheets.shown import STEPS, to_upward, upward
from builder.stages.constants import STROKE
from builder.trade import spray

# fmt: off
# What the step of the gauge may do to a size that fits: key -> the words, the test.
SO_SET = {
    "starves": ("the pump cannot feed it once worn",
                "{gauge_flow}>{coat.fed_flow}*(1+{terms.slack})"),
    "over_crew": ("the flow is too high for the crew", "{gauge_flow}>{coat.crew_flow}*(1+{terms.slack})"),
    "too_fast": ("the hand is too fast", "{gauge_speed}>{coat.fastest}*(1+{terms.slack})"),
    "too_slow": ("the hand is too slow", "{gauge_first}<{coat.slowest}*(1-{terms.slack})"),
    "turbulent": ("the flow in the hose is no longer laminar",
                  "{reynolds}*{gauge_share}>MAX({terms.reynolds_max},{reynolds})*(1+{terms.slack})"),
}
NONE_FITS = "no size fits; choose this coat below to see why"


def seconds_of(speed):
    """A formula: how long a hand of this speed takes for the stroke, to half a second."""
    return f"MAX(1,INT({{constants.stroke}}/({speed})*2+1/2+{{terms.slack}}))/2"


SETTING = (
    C("place", "Place in the order of the work", "number",
      'IF((N({coat.passed})=1)*(N({coat.surface_coats})>0)=1,({coat.only}*100+{coat.system_at})*100+{no},"")', ""),
    C("pressure_most", "Never above", "pressure", "MIN({size.pressure_max},{coat.holds})", "live"),
    C("gauge_up", "Set pressure, up to a step of the gauge", "pressure", upward("{set_pressure}", "pressure"), "live"),
    C("gauge", "Set pressure on the gauge", "pressure",
      "IF({gauge_up}<={pressure_most}*(1+{terms.slack}),{gauge_up},"
      "INT(MIN({set_pressure},{pressure_most})/{constants.step_pressure}+{terms.slack})*{constants.step_pressure})",
      "live"),
    C("drop", "Lost in hose and whip", "pressure", "{set_pressure}-{pressure}", "live"),
    C("gauge_share", "Flow so set, over the flow worked out", "number",
      "2*{gauge}/({drop}+SQRT({drop}^2+4*{pressure}*{gauge}))", "live"),
    C("gauge_flow", "Flow so set", "flow", "{flow}*{gauge_share}", "live"),
    C("gauge_speed", "Hand so set, later coats", "speed", "{gun_speed}*{gauge_share}", "live"),
    C("gauge_first", "Hand so set, first coat", "speed", "{first_speed}*{gauge_share}", "live"),
    C("stroke_time", "Time for its stroke, later coats", "seconds", seconds_of("{gauge_speed}"), "live"),
    C("stroke_first", "Time for its stroke, first coat", "seconds", seconds_of("{gauge_first}"), "live"),
    C("hand_time", "Time for its stroke, of most of its coats", "seconds",
      "IF({entry.coats}=1,{stroke_first},{stroke_time})", "live"),
    *(C(f"set_{key}", f"; so set, {words}", "count", f"--({{fits}}*({test})>0)", "live")
      for key, (words, test) in SO_SET.items()),
    C("set_words", "What speaks against it, in words", "text",
      'REPT("; it does not fit: "&{why},{misfit})&' + "&".join(
          f"REPT({{#set_{key}}},{{set_{key}}})" for key in SO_SET), "live"),
    C("rival_at", "Next best beside the size used, row", "count",
      "IF({size_at}={pick_at},{next_at},{pick_at})", "live"),
    C("rival", "Next best beside the size used", "text", "INDEX({nozzles.known},{rival_at})", "rival_at"),
    C("rival_extra", "It costs more by", "share", "{other.cost}/{cost}-1", "rival_at"),
    C("rival_percent", "It costs more or less by, whole percent", "count",
      "INT(ABS({rival_extra})*100+1/2+{terms.slack})",
      "rival_at"),
    C("rival_words", "It costs, in words", "text",
      'REPT("the same",--({rival_percent}=0))&REPT({rival_percent}&" % more",({rival_percent}>0)*({rival_extra}>0))'
      '&REPT({rival_percent}&" % less",({rival_percent}>0)*({rival_extra}<0))', "rival_at"),
    C("guard_words", "The guard that it lacks, in words", "text",
      '"; needs the "&{family.guard}&" guard: not on the van"', "guard_at"),
    C("own", "Chosen on Paint", "count", '--({entry.nozzle}<>"")', "live"),
    C("dearer", "Dearer than the next best", "count", "(N({rival_percent})>0)*(N({rival_extra})<0)", "live"),
    C("least", "Why it was picked, where nothing is cheaper", "text",
      'REPT("the only size that fits",--({rival_at}=""))&REPT("costs as little as the next best",'
      '--({rival_percent}=0))&REPT("costs least of "&{fitting}&" that fit",--(N({rival_percent})>0))'
      '&REPT(", the finest asked for",{coat.smooth})', "live"),
    C("reason", "Why", "text",
      f'IF({{live}}="","{NONE_FITS}",'
      'REPT("your choice on Paint",{own})&REPT("in your kit",(1-{own})*{dearer})'
      '&REPT(", though another costs less",{dearer})&REPT({least},(1-{own})*(1-{dearer}))'
      '&{set_words}&{guard_words})'),
    C("change_words", "When to change it", "text",
      'IF({interval}<{life}*(1-{terms.slack}),"after "&{pays}&"; worn out at "&{worn_out},"when worn out, at "'
      '&{worn_out})', "live"),
)
# fmt: on


def placed(est):
    """The place of each coat that is laid, system by system, the base before the alternates."""
    for row, coat in zip(est.rows["picks"], est.rows["film"]):
        if coat.passed and coat.surface_coats > 0:
            row.place = (coat.only * 100 + coat.system_at) * 100 + row.no


def settings(est):
    """What the gauge shows, the hand at that, the next best and the reason of each pick that is worked out."""
    for row, entry, coat in zip(est.rows["picks"], est.rows["coats"], est.rows["film"]):
        if row.live:
            _gauge(est, row, est.row("nozzles", row.size_at), coat)
            row.hand_time = row.stroke_first if entry.coats == 1 else row.stroke_time
            _rival(est, row)
            _reason(est, row, entry, coat)
        elif row.sprayed:
            row.reason = NONE_FITS


def _gauge(est, row, size, coat):
    slack, step = est.terms.slack, STEPS["pressure"][est.units.system == "metric"] * est.units.scale("pressure")
    row.pressure_most = min(size.pressure_max, coat.holds)
    row.gauge = row.gauge_up = to_upward(est, row.set_pressure, "pressure")
    if row.gauge_up > row.pressure_most * (1 + slack):
        row.gauge = floor(min(row.set_pressure, row.pressure_most) / step + slack) * step
    row.drop = row.set_pressure - row.pressure
    row.gauge_share = spray.flow_share(row.drop, row.pressure, row.gauge)
    row.gauge_flow, row.gauge_speed, row.gauge_first = (
        one * row.gauge_share for one in (row.flow, row.gun_speed, row.first_speed)
    )
    row.stroke_time, row.stroke_first = (
        max(1, floor(STROKE[est.units.system] / speed * 2 + 0.5 + slack)) / 2
        for speed in (row.gauge_speed, row.gauge_first)
    )
    more = 1 + slack
    so_set = {
        "starves": row.gauge_flow > coat.fed_flow * more,
        "over_crew": row.gauge_flow > coat.crew_flow * more,
        "too_fast": row.gauge_speed > coat.fastest * more,
        "too_slow": row.gauge_first < coat.slowest * (1 - slack),
        "turbulent": row.reynolds * row.gauge_share > max(est.terms.reynolds_max, row.reynolds) * more,
    }
    row.set(**{f"set_{key}": float(bool(row.fits and one)) for key, one in so_set.items()})
    row.set_words = f"; it does not fit: {row.why}" if row.misfit else ""
    row.set_words += "".join(f"; so set, {SO_SET[key][0]}" for key, one in so_set.items() if row.fits and one)


def _rival(est, row):
    """The cheapest other size, or the pick where the contractor chose another."""
    row.rival_at = row.next_at if row.size_at == row.pick_at else row.pick_at
    if row.rival_at is None:
        return
    count = len(est.rows["nozzles"])
    other = est.rows["trials"][(row.no - 1) * count + int(row.rival_at) - 1]
    row.rival, row.rival_extra = est.row("nozzles", row.rival_at).known, other.cost / row.cost - 1
    row.rival_percent = float(floor(abs(row.rival_extra) * 100 + 0.5 + est.terms.slack))
    dearer = "more" if row.rival_extra > 0 else "less"
    row.rival_words = f"{row.rival_percent:g} % {dearer}" if row.rival_percent else "the same"


def _reason(est, row, entry, coat):
    row.own = float(entry.nozzle is not None)
    row.dearer = float(bool(row.rival_percent and row.rival_extra < 0))
    if row.rival_at is None:
        row.least = "the only size that fits"
    elif row.rival_percent:
        row.least = f"costs least of {row.fitting:g} that fit"
    else:
        row.least = "costs as little as the next best"
    row.least += ", the finest asked for" if coat.smooth else ""
    row.reason = "your choice on Paint" if row.own else "in your kit" if row.dearer else row.least
    row.reason += ", though another costs less" if row.dearer else ""
    row.reason += row.set_words
    if row.guard_at is not None:
        family = est.row("families", est.row("nozzles", row.size_at).family_at)
        row.guard_words = f"; needs the {est.judge.as_text(family.guard)} guard: not on the van"
        row.reason += row.guard_words
    pays = row.interval < row.life * (1 - est.terms.slack)
    row.change_words = f"after {row.pays}; worn out at {row.worn_out}" if pays else f"when worn out, at {row.worn_out}"
