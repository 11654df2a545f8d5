"""Jobs that nobody thought of: hypothesis strategies for the values of the job's blocks, catalogs as shipped."""

import functools

from hypothesis import strategies as st

from builder.jobs import open_job
from builder.records.kinds import JOBS, KINDS
from builder.records.rules import Between, Day, Name, Offered, OneOf, Word
from support.places import ROOT

ROOM = {
    "takeoff": 8,
    "coats": 5,
    "openings": 5,
    "rooms": 3,
    "tasks": 5,
    "kit": 3,
    "systems": 4,
    "nozzles": 12,
    "signed": 3,
    "contract": 3,
    "log": 5,
    "changes": 3,
    "bills": 2,
}
ROWS = {
    "systems": (1, 3),
    "coats": (0, 4),
    "takeoff": (0, 6),
    "rooms": (0, 2),
    "openings": (0, 4),
    "kit": (0, 2),
    "guards": (0, 2),
    "tasks": (0, 4),
    "signed": (0, 3),
    "contract": (0, 3),
    "log": (0, 5),
    "changes": (0, 2),
    "bills": (0, 2),
}
SIZES = ("310", "410", "510", "515", "621", "527", "630", "1223")


@functools.cache
def shipped(system):
    """The starter with the shipped catalogs, few nozzles so that a recalculation is quick."""
    opened = open_job(None, [ROOT / "catalogs"], system)
    opened.values["nozzles"] = [row for row in opened.values["nozzles"] if row["size"] in SIZES][: ROOM["nozzles"] - 1]
    return opened


def _names(values, block):
    if block == "nozzles":
        return [f"{row['family']} {row['size']}" for row in values["nozzles"]]
    return [row[KINDS[block].named] for row in values[block] if row[KINDS[block].named]]


def _value(field, values, units, number):
    """A strategy for one field; names are those of rows that exist by then."""
    rule = field.rule
    if field is KINDS["guards"].field_of["guard"]:
        return st.just(values["families"][number]["guard"])
    if isinstance(rule, OneOf):
        names = _names(values, rule.block)
        return st.sampled_from(names) if names else st.none()
    if isinstance(rule, Offered):
        return st.sampled_from([*_names(values, rule.block), "Fence"])
    if isinstance(rule, Word):
        return st.sampled_from(rule.allowed())
    if isinstance(rule, Day):
        return st.integers(45000, 47000).map(float)
    if isinstance(rule, Between):
        low, high = rule.limits()
        if rule.whole:
            return st.integers(int(low), int(min(high, low + 12))).map(float)
        most = max(low + (high - low) * 0.02, min(high, 20.0))
        return st.integers(0, 400).map(lambda part: units.settle(low + (most - low) * part / 400, field.quantity))
    if isinstance(rule, Name):
        return st.just(f"{field.title} {number}") if rule.unique else st.sampled_from(["Slate", "White", "slate"])
    return st.sampled_from(["North", "Wall", "as agreed"])


class Drawn(tuple):
    """(values, units), told by what of the job is filled in: all of the catalogs too is more than hypothesis prints."""

    def __repr__(self):
        values, units = self
        told = {
            kind.key: [{key: value for key, value in row.items() if value is not None} for row in values[kind.key]]
            for kind in JOBS
        }
        return f"{units.system}: {told}"


@st.composite
def jobs(draw, system):
    """(values, units): every block of a job drawn at random, required fields filled, others now and then."""
    opened = shipped(system)
    values = dict(opened.values)
    for kind in JOBS:
        if kind.upright:
            row = dict(values[kind.key][0])
            for field in draw(st.lists(st.sampled_from(kind.fields), max_size=4, unique=True)):
                row[field.key] = draw(_value(field, values, opened.units, 0))
            values[kind.key] = [row]
            continue
        values[kind.key] = []
        for number in range(draw(st.integers(*ROWS[kind.key]))):
            some = draw(st.lists(st.sampled_from(kind.fields), max_size=3, unique=True))
            row = {
                field.key: draw(_value(field, values, opened.units, number))
                if field.required or field in some
                else None
                for field in kind.fields
            }
            if any(value is not None for value in row.values()):
                values[kind.key].append(row)
    return Drawn((values, opened.units))
