"""Rooms: walls, ceiling and base of one row, each a measured line of Areas."""

from builder.records.kinds import KINDS
from builder.sheets.grammar import At
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages import lengths


# fmt: off
def rooms_block(units, capacity):
    kind, parts = KINDS["rooms"], ("walls", "ceiling", "base")

    before = {part: capacity["takeoff"] + at * capacity["rooms"] for at, part in enumerate(parts)}
    return judging(kind, units, (
        *lengths.columns(kind, capacity),
        C("times", "Room: how often", "count", 'IF({row.count}="",1,{row.count})'),
        C("window_count", "Room: windows in one", "count", "0+{row.windows}"),
        C("door_count", "Room: doors in one", "count", "0+{row.doors}"),
        C("round", "Room: once around", "length", "2*({length_read}+{width_read})"),
        C("base_length", "Room: base, doors left out", "length",
          "MAX(0,{round}-{door_count}*IF(N({terms.sound})=1,0+{terms.door_width},0))"),
        *(C(f"{part}_at", f"Room: row of its {part} on Areas", "count",
            label=lambda number, first=before[part]: first + number) for part in parts),
        C("coated", "Room: coated area", "area", "+".join(f"N({{{part}_line.coated}})" for part in parts)),
    ), {**lengths.links(kind), **{f"{part}_line": At("areas", f"{{{part}_at}}") for part in parts}})
# fmt: on


def rooms(est):
    """What each room measures; no doors are left out of its base where Terms are faulty."""
    door = (est.terms.door_width or 0.0) if est.terms.sound else 0.0
    for row in est.rows["rooms"]:
        if row.sound:
            row.times = 1.0 if row.count is None else row.count
            row.window_count, row.door_count = row.windows or 0.0, row.doors or 0.0
            row.round = 2 * (row.length_read + row.width_read)
            row.base_length = max(0.0, row.round - row.door_count * door)


def coated(est):
    """What is coated in each room."""
    lines, count = len(est.rows["takeoff"]), len(est.rows["rooms"])
    for row in est.rows["rooms"]:
        if row.sound:
            parts = (est.rows["areas"][lines + part * count + row.no - 1] for part in range(3))
            row.coated = sum(part.coated or 0.0 for part in parts)
