"""Openings of odd sizes: what each takes from its line, and its edge (E3)."""

from builder.records.kinds import KINDS
from builder.sheets.grammar import At
from builder.sheets.grammar import Column as C
from builder.sheets.judging import judging
from builder.stages import lengths
from builder.trade import takeoff


# fmt: off
def openings_block(units, capacity):
    kind, job = KINDS["openings"], "{basics.opening_%s}*(1+{terms.slack})"
    return judging(kind, units, (
        *lengths.columns(kind, capacity),
        C("line_at", "Opening: row of its line", "count", "MATCH({row.line},{takeoff.known},0)"),
        C("live", "Opening: worked out", "count", 'IF({line.live}=1,1,"")'),
        C("pieces", "Opening: how many", "count", 'IF({row.count}="",1,{row.count})', "live"),
        C("area", "Opening: area", "area", "{width_read}*{height_read}", "live"),
        C("deducted", "Opening: deducted a face", "area",
          f"{{area}}*{{pieces}}*({{area}}>{job % 'none'})*IF({{area}}<={job % 'both'},1/{{line.faces}},1)", "live"),
        C("perimeter", "Opening: perimeter", "length", "2*({width_read}+{height_read})*{pieces}", "live"),
    ), {**lengths.links(kind), "line": At("areas", "{line_at}")})
# fmt: on


def openings(est):
    """What each opening takes from its line, and its edge."""
    for row in est.rows["openings"]:
        if not row.sound:
            continue
        row.line_at = est.judge.at("takeoff", row.line)
        line = est.row("areas", row.line_at)
        row.live = line.live
        if not row.live:
            continue
        row.pieces = 1.0 if row.count is None else row.count
        row.area = row.width_read * row.height_read
        more = 1 + est.terms.slack
        share = takeoff.opening_share(
            row.area, est.basics.opening_none * more, est.basics.opening_both * more, line.faces
        )
        row.deducted = row.area * row.pieces * share
        row.perimeter = takeoff.opening_perimeter(row.width_read, row.height_read) * row.pieces
