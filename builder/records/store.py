"""The values of records -> the text of a file that `load` reads as the same values."""

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from builder.quantities import Units, Value
from builder.records.fields import Field, Kind, Record, Values
from builder.records.kinds import JOBS, KINDS
from builder.records.load import TRAPS
from builder.records.rules import Rule, Word
from builder.values import day_text, is_number

Nested: TypeAlias = dict[str | int, Any]  # step of a path -> Nested, or the text of a value

LONGEST = 150  # letters of a record on one line
_PLAIN = re.compile(r"[A-Za-z0-9](?:[\w .%/()'+-]*[\w.%/)'])?", re.ASCII)
_NOT_PLAIN = re.compile(r"null|~|y|n|yes|no|on|off|true|false|[\d.+-]+", re.IGNORECASE)
_ESCAPED = {0x85: "\\u0085", 0x2028: "\\u2028", 0x2029: "\\u2029"}  # line breaks to YAML alone


def scalar(text: str, rule: Rule | None = None) -> str:
    """Text as YAML: plain where every reader takes it for text (or the rule knows its words), else in quotes."""
    trapped = _NOT_PLAIN.fullmatch(text) or any(pattern.fullmatch(text) for _, pattern in TRAPS)
    if _PLAIN.fullmatch(text) and (not trapped or isinstance(rule, Word)):
        return text
    return json.dumps(text, ensure_ascii=False).translate(_ESCAPED)


def field_text(one: Field, value: Value, units: Units) -> str:
    """One value as YAML."""
    if one.quantity == "date" and is_number(value):
        return day_text(value)
    if isinstance(value, str):
        return scalar(value, one.rule)
    return units.to_text(value, one.quantity)


def _nested(kind: Kind, values: Record, units: Units) -> Nested:
    """The record as nested dicts and lists of YAML texts, by the paths of its fields; blanks and what is missing are
    left out.
    """
    top: Nested = {}
    for one in kind.fields:
        if values.get(one.key) is not None:
            at = top
            for step in one.steps[:-1]:
                at = at.setdefault(step, {})
            at[one.steps[-1]] = field_text(one, values[one.key], units)
    return top


def flow(node: Nested | str) -> str:
    """Nested dicts and lists of YAML texts on one line."""
    if isinstance(node, str):
        return node
    if places := [key for key in node if isinstance(key, int)]:
        return "[" + ", ".join(flow(node.get(place, {})) for place in range(max(places) + 1)) + "]"
    return "{" + ", ".join(f"{key}: {flow(value)}" for key, value in node.items()) + "}"


def record_text(kind: Kind, values: Record, units: Units) -> str:
    """A record on one line: '{name: Lap boards, coefficient: 1.05}'."""
    return flow(_nested(kind, values, units))


def _lines(kind: Kind, values: Record, units: Units, dash: str) -> list[str]:
    """A record of a list: on one line, or a line a key where that would be long."""
    short = f"{dash}{record_text(kind, values, units)}"
    if len(short) <= LONGEST and not kind.upright:
        return [short]
    entries = [f"{key}: {flow(value)}" for key, value in _nested(kind, values, units).items()]
    return [(dash if place == 0 else " " * len(dash)) + entry for place, entry in enumerate(entries)]


def kinds_text(kinds: Iterable[Kind], values: Values, units: Units, indent: str = "") -> Iterator[str]:
    """Every record of some kinds, as the lines of a file."""
    for kind in kinds:
        rows = [row for row in values.get(kind.key, ()) if any(value is not None for value in row.values())]
        if not rows:
            continue
        yield f"{indent}{kind.key}:"
        for row in rows:
            yield from _lines(kind, row, units, indent + ("  " if kind.upright else "  - "))


def job_text(
    values: Values,
    units: Units,
    own: Values | None = None,
    without: Mapping[str, Sequence[str]] | None = None,
    unfinished: bool = False,
) -> str:
    """A job file that builds to the same estimate.

    own: catalog records of the job's own, by kind; without: names of catalog records it does without, by kind;
    unfinished: it has faults and is to be built all the same.
    """
    settings = [f"units: {units.system}", *([f"currency: {units.currency}"] if units.currency else ())]
    settings += [f"exchange: {units.to_text(units.exchange, 'number')}"] if units.exchange != 1.0 else []
    lines = ["# A job read back from its workbook."]
    if unfinished:
        lines += ["unfinished: yes                 # it has faults: the workbook shows them and leaves the price blank"]
    lines += ["job:"]
    lines += [f"  {line}" for line in settings]
    lines += _lines(KINDS["job"], values["job"][0], units, "  ")
    lines += kinds_text([kind for kind in JOBS if kind.key != "job"], values, units)
    if own or without:
        lines += ["own:                              # catalog records of this job alone"]
        lines += kinds_text([KINDS[key] for key in own or ()], own or {}, units, "  ")
        if without:
            lines += ["  without:"]
            lines += [f"    {key}: [{', '.join(map(scalar, names))}]" for key, names in without.items()]
    return "\n".join(lines) + "\n"
