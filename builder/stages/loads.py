"""What follows from the sequence: how long each load stays in its pump (E30, E35), when access is needed (E33)."""

from builder.sheets.grammar import Column as C
from builder.stages.plan import first_of
from builder.trade import spray


# fmt: off
def _fresh_days(which):
    """Of the days of this row, those after the last day of the earlier rows marked by `which`."""
    return f"MAX(0,{{last}}-MAX({{day}}-1,SUMPRODUCT(LARGE({which}*({{*no}}<{{no}})*{{*last}},1))))"


LOAD_COLUMNS = (
    C("load_from", "Load begun at place", "count",
      "IF({pump}=0,0,SUMPRODUCT(LARGE(({*pump}={pump})*{*fills}*({*no}<={no})*{*no},1)))", ""),
    C("hoses", "Hoses in use", "count", "IF({pump}=0,0,{coat.hoses})", ""),
    C("unthinned", "Paint in what is sprayed", "share", "IF({pump}=0,0,{coat.unthinned})", ""),
    C("fill", "Left in hose and pail by its load", "volume",
      "IF({fills}=0,0,({own.heel}+(1-(0+{terms.recovered}))*{own.content}"
      "*SUMPRODUCT(LARGE(({*load_from}={no})*{*hoses},1)))*SUMPRODUCT(LARGE(({*load_from}={no})*{*unthinned},1)))",
      ""),
    C("evenings", "Evenings on which its load stays", "count",
      "IF({pump}=0,0,MAX(0,{last}-{day})"
      "+(1-{fills})*({day}>SUMPRODUCT(LARGE(({*load_from}={load_from})*({*no}<{no})*{*last},1))))", ""),
    C("flush", "Time of flushing", "time", "IF({pump}=0,0,{evenings}*(0+{own.flush}))", ""),
    C("pump_days", "Days it adds to those of its pump", "count",
      f"IF({{pump}}=0,0,{_fresh_days('({*pump}={pump})')})", ""),
)


def use_columns(access):
    """On which days each access is needed, of so many."""
    by_access = {"repeat": access, "heads": tuple(f"access {number}" for number in range(1, access + 1))}
    total = {**by_access, "rows": 1, "when": ""}

    def by(day):
        """Of the days on which the gun lane needs a machine, those until a day."""
        return (f"SUMPRODUCT({{*fresh@}}*({{*last}}<={day})"
                f"+({day}-{{*last}}+{{*fresh@}})*({{*last}}>{day})*({{*last}}-{{*fresh@}}<{day}))")

    return (
        C("uses", "Needs", "count", "IF(N({live})=1,{lane.uses@},0)", "", **by_access),
        C("fresh", "Days it adds to those of", "count",
          f"IF({{uses@}}=0,0,{_fresh_days('{*uses@}')})", "", **by_access),
        C("use_from", "Gun lane needs, from day", "count",
          f"IF({{use_until@}}=0,0,{first_of('{*uses@}', '{*day}', '{work_days.no}')})", **total),
        C("use_until", "Gun lane needs, until day", "count", "SUMPRODUCT(LARGE({*uses@}*{*last},1))", **total),
        C("hands_until", "Hands need, until day", "count", "N(INDEX({lanes.hand_use},1,{@}))", **total),
        C("hands_after", "Hands need, after day", "count", "MAX(0,N(INDEX({lanes.hand_from},1,{@}))-1)", **total),
        C("until_hands_end", "Gun lane needs, days until hands end", "count", by("{hands_until@}"), **total),
        C("until_hands_begin", "Gun lane needs, days until hands begin", "count", by("{hands_after@}"), **total),
        C("use_days", "Gun lane needs, days without hands", "count",
          "SUM({*fresh@})-{until_hands_end@}+{until_hands_begin@}", **total),
    )
# fmt: on


def follow(est):
    """All of it, once every step has its place."""
    for row in est.rows["run"]:
        _totals(est, row)
    _machines(est)


def _totals(est, row):
    """What follows from a row once all are known: its load, its evenings, the days on which machines are needed."""
    rows, earlier = est.rows["run"], est.rows["run"][: row.no - 1]
    row.load_from = row.hoses = row.unthinned = row.fill = row.evenings = row.flush = row.pump_days = 0.0
    if row.pump:
        _pump(est, row, rows, earlier)
    uses = est.row("lanes", row.system).uses if row.live else (0.0,) * len(est.rows["machines"])
    row.uses = uses[: len(est.rows["access"])]
    row.fresh = tuple(used * _fresh(row, [one for one in earlier if one.uses[at]]) for at, used in enumerate(row.uses))


def _pump(est, row, rows, earlier):
    """Of a step that is sprayed: when its load was begun, and how long it stays."""
    row.load_from = max(one.no for one in rows[: row.no] if one.pump == row.pump and one.fills)
    coat, pump = est.row("coat_steps", est.row("steps", row.step).coat_at), est.row("pumps", row.pump)
    row.hoses, row.unthinned = coat.hoses, coat.unthinned
    row.pump_days = _fresh(row, [one for one in earlier if one.pump == row.pump])
    same_load = [one.last for one in earlier if one.load_from == row.load_from]
    # what takes no time may end on the evening before the morning that it begins on
    row.evenings = max(0.0, row.last - row.day) + (not row.fills and row.day > max(same_load))
    row.flush = row.evenings * (pump.flush or 0.0)


def _fresh(row, before):
    """Days of a row after the last day of the rows before it."""
    return max(0.0, row.last - max(row.day - 1, max((one.last for one in before), default=0.0)))


def _machines(est):
    """Fills of each load; from which day to which lifts and scaffold are needed."""
    rows, terms = est.rows["run"], est.terms
    for row in rows:
        if row.fills:
            load = [one for one in rows if one.load_from == row.no]
            pump, least = est.row("pumps", row.pump), 1 / max(one.unthinned for one in load) - 1
            row.fill = spray.line_fill(
                pump.heel, pump.content, terms.recovered or 0.0, max(one.hoses for one in load), least
            )
    places = range(len(est.rows["access"]))
    needs = [[one for one in rows if one.uses[at]] for at in places]
    rows[0].use_from = tuple(min((one.day for one in own), default=0.0) for own in needs)
    rows[0].use_until = tuple(max((one.last for one in own), default=0.0) for own in needs)
    if est.rows["plan"][0].passed:
        _hand_days(est)
    hands, none = est.rows["lanes"][0], (0.0,) * len(est.rows["machines"])
    rows[0].hands_until = (hands.hand_use or none)[: len(places)]
    rows[0].hands_after = tuple(max(0.0, one - 1) for one in (hands.hand_from or none)[: len(places)])
    for key, border in (("end", "hands_until"), ("begin", "hands_after")):
        days = tuple(sum(_until(one, at, day) for one in rows) for at, day in enumerate(getattr(rows[0], border)))
        setattr(rows[0], f"until_hands_{key}", days)
    rows[0].use_days = tuple(
        sum(one.fresh[at] for one in rows) - rows[0].until_hands_end[at] + rows[0].until_hands_begin[at]
        for at in places
    )


def _until(row, at, day):
    """Of the days that a row adds to those of an access, those until a day."""
    return min(row.fresh[at], max(0.0, day - (row.last - row.fresh[at])))


def _hand_days(est):
    """From which day until which hands need each access."""
    lanes, machines = est.rows["lanes"], est.rows["machines"]
    for key, reach, pick in (("hand_use", "hand_until", max), ("hand_from", "hand_day", min)):
        found = []
        for at, machine in enumerate(machines):
            own = [lane for lane in lanes if lane.hand and lane.uses[at] and machine.access_no]
            found.append(pick((getattr(lane, reach) for lane in own), default=0.0))
        setattr(lanes[0], key, tuple(found))
