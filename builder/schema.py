"""JSON Schema of a kind of file, made from the same fields and rules, so that editors complete and check."""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeAlias

from builder.quantities import PLAIN, units_of
from builder.records.fields import Field, Kind
from builder.records.kinds import CATALOGS, JOBS, KINDS
from builder.records.load import OWN, SETTINGS, UNFINISHED, WITHOUT
from builder.records.misplaced import CHANGE, INSIDE
from builder.records.rules import Between, Day, SizeNumber, Word
from builder.spellings import WORDS

Schema: TypeAlias = dict[str, Any]  # a JSON Schema, or the part of one for one place

FILES = {  # name of a schema -> the kinds its file holds
    "coatings": ("coatings",),
    "nozzles": ("families",),
    "pumps": ("pumps",),
    "surfaces": ("surfaces",),
    "profiles": ("profiles",),
    "tasks": ("rates",),
    "terms": ("terms", "crews", "exposures", "access", "holidays"),
    "job": tuple(kind.key for kind in JOBS),
}
NUMBER = r"[+-]?(\d+ +\d+/\d+|\d+/\d+|\d+(\.\d*)?|\.\d+)"


UNITLESS = (*PLAIN, "share", "money", "money_hour", "money_day")  # a number of these needs no unit


def _value(one: Field, blank: bool) -> Schema:
    """What one value may be. A quantity is text with a unit; a number without one may be written plain. blank: whether
    nothing may stand there.
    """
    rule = one.rule
    null = ["null"] if blank else []
    if isinstance(rule, Word):
        return {
            "enum": [*rule.allowed(), *((True, False) if rule.list == "answer" else ()), *([None] if blank else [])]
        }
    if isinstance(rule, Day):
        return {"type": ["string", *null], "pattern": r"^\d{4}([-/.])\d\d?\1\d\d?$"}
    if one.quantity == "text":
        return {"type": ["string", *(["integer"] if isinstance(rule, SizeNumber) else []), *null]}
    listed = units_of(one.quantity)
    units = [*listed, *(word for word, unit in WORDS.items() if unit in listed and word not in listed)]
    with_unit = f"({NUMBER} *({'|'.join(map(re.escape, units))}) *)+" if units else NUMBER
    allowed: list[Schema] = [{"type": "string", "pattern": f"^ *{with_unit} *$"}, *({"type": kind} for kind in null)]
    if one.quantity in UNITLESS:
        number: Schema = {"type": "number"}
        if isinstance(rule, Between) and not rule.unit:
            number |= {"minimum": rule.low, "maximum": rule.high}
        allowed += [number, {"type": "string", "pattern": f"^ *{NUMBER} *$"}]
    return {"anyOf": allowed}


def _node(fields: Sequence[tuple[list[str | int], Field]], whole: bool) -> Schema:
    """The schema of the values at one place: `fields` are (rest of the path, field). whole: with what is required."""
    if not fields[0][0]:
        one = fields[0][1]
        return (
            _value(one, not (whole and one.required))
            | {"title": one.title}
            | ({"description": one.help} if one.help else {})
        )
    inside: dict[str | int, list[tuple[list[str | int], Field]]] = {}
    for (step, *rest), one in fields:
        inside.setdefault(step, []).append((rest, one))
    if all(isinstance(step, int) for step in inside):
        entries = [_node(inside[step], whole) for step in sorted(inside)]
        if not whole:  # found by what stands first in it: a pack by its size
            entries = [entry | {"required": [next(iter(entry["properties"]))]} for entry in entries]
        return {"type": "array" if whole else ["array", "null"], "prefixItems": entries, "items": False}
    needed = sorted(step for step, found in inside.items() if whole and any(one.required for _, one in found))
    return {
        "type": "object" if whole else ["object", "null"],
        "additionalProperties": False,
        "properties": {step: _node(found, whole) for step, found in inside.items()},
        "required": needed,
    }


def _record(kind: Kind, extra: Mapping[str, Schema], whole: bool = True) -> Schema:
    """A record as nested objects, by the paths of its fields."""
    record = _node([(list(one.steps), one) for one in kind.fields], whole) | {"type": "object"}
    record["properties"].update(extra)
    return record


def _inner(kind: Kind, whole: bool = True) -> dict[str, Schema]:
    """The lists within a record of this kind."""
    found = {}
    for (outer, name), (block, owner) in INSIDE.items():
        if outer == kind.key:
            record = _record(KINDS[block], {}, whole)
            record["properties"].pop(owner)
            needed = record["required"] if whole else [next(iter(record["properties"]))]
            record["required"] = [key for key in needed if key != owner]
            found[name] = {"type": ["array", "null"], "items": record}
    return found


def _changes(kind: Kind) -> Schema:
    """A record that states only what differs from one below."""
    name = {
        "type": ["string", "integer"],
        "title": "Record below",
        "description": "Its name. What is stated here changes, all else stays.",
    }
    return _record(kind, {CHANGE: name, **_inner(kind, False)}, False) | {"required": [CHANGE]}


def _kinds(keys: Iterable[str]) -> dict[str, Schema]:
    """The lists and mappings of some kinds, by key."""
    properties = {}
    for key in keys:
        kind = KINDS[key]
        extra = _inner(kind)
        if key == "job":
            extra |= {setting: {"type": ["string", "number"]} for setting in SETTINGS}
        record = _record(kind, extra)
        if kind in CATALOGS and not kind.upright:
            record = {"if": {"type": "object", "required": [CHANGE]}, "then": _changes(kind), "else": record}
        properties[key] = record if kind.upright else {"type": ["array", "null"], "items": record}
    return properties


def _object(properties: Mapping[str, Schema]) -> Schema:
    return {"type": "object", "additionalProperties": False, "properties": properties}


def _beside() -> dict[str, Schema]:
    """What a job file may say beside its kinds. A figure of Terms may be its own alone, so none is required."""
    own = _kinds([kind.key for kind in CATALOGS])
    own["terms"].pop("required", None)
    names = {"type": "array", "items": {"type": "string"}}
    without = _object({kind.key: names for kind in CATALOGS if not kind.upright})
    return {UNFINISHED: {"enum": ["yes", "no", True, False]}, OWN: _object(own | {WITHOUT: without})}


def schema(name: str) -> Schema:
    """The JSON Schema (draft 2020-12) of one kind of file; KeyError for an unknown name."""
    properties = _kinds(FILES[name]) | (_beside() if name == "job" else {})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Wetfilm: {name}",
        **_object(properties),
    }


def as_text(name: str, plain: bool = False) -> str:
    """The same as a file holds it. plain: in ASCII alone."""
    return json.dumps(schema(name), indent=1, ensure_ascii=plain) + "\n"
