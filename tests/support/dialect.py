"""The dialect of `builder/sheets/grammar.py`, held: what in a formula two programs would compute differently."""

import re

from builder.sheets import grammar

FUNCTIONS = frozenset(re.search(r"functions {3}([A-Z\s]+)\n {4}INDEX", grammar.__doc__)[1].split())
RANGE = re.compile(r"\$([A-Z]+)(\$\d+|§):\$([A-Z]+)(\$\d+|§)")
NEVER = {  # in a formula whose texts are blanked out
    "an area that ends at a found cell": re.compile(r":\s*INDEX\(|\):"),
    "a constant array": re.compile(r"[{}]"),
    "ROW of a name": re.compile(r"\bROW\((?!\)|\$[A-Z]+\$\d+\))"),
    "ROWS of a name": re.compile(r"\bROWS\((?!\$[A-Z]+\$\d+:\$[A-Z]+\$\d+\))"),
    "a count of found cells": re.compile(r"\bCOUNT(A|BLANK)\((?![a-z]+_\w+\))"),
    "MAX or MIN of an array": re.compile(r"\bSUMPRODUCT\((MAX|MIN|SMALL)\("),
    "an address of another sheet": re.compile("!"),
}


def calls(text, function):
    """The arguments of every call of a function."""
    for match in re.finditer(rf"\b{function}\(", text):
        depth, start, arguments = 1, match.end(), []
        for at in range(match.end(), len(text)):
            depth += {"(": 1, ")": -1}.get(text[at], 0)
            if depth == 0 or depth == 1 and text[at] == ",":
                arguments.append(text[start:at])
                start = at + 1
            if depth == 0:
                break
        yield arguments


def _shape(layout, area):
    """(more rows than one, more columns than one) of a name or a range; None for anything else."""
    if re.fullmatch(r"\$[A-Z]+(\$\d+|§)", area):
        return False, False
    if match := RANGE.fullmatch(area):
        return match[2] != match[4], match[1] != match[3]
    if area in {"_".join(run) for run in layout.runs}:
        return True, False
    place = next((place for (block, key), place in layout.places.items() if f"{block}_{key}" == area), None)
    return place and (place.block.down and place.rows > 1, place.cols > 1)


def _indexes(layout, text):
    for area, *numbers in calls(text, "INDEX"):
        shape = _shape(layout, area)
        if shape is None:
            yield f"INDEX of what is no area: {area}"
        elif "0" in numbers:
            yield f"INDEX with 0: {area}"
        elif shape[1] and len(numbers) < 2 or not shape[0] and shape[1] and numbers[0] != "1":
            yield f"INDEX of a row or of copies without both numbers: {area}"
        elif shape == (True, False) and len(numbers) > 1:
            yield f"INDEX of a column with two numbers: {area}"


def _field(layout, block, braces):
    """The input that braces speak of, or None."""
    word, _, key = braces.rpartition(".")
    target = block.links[word].block if word in block.links else word or block.key
    place = layout.places.get((target, key.partition("@")[0]))
    return place and place.column.field


def _blanks(layout, block, formula):
    """Functions whose result for a blank input differs. Looked for in the formula as declared."""
    for (argument,) in calls(formula, "N"):
        if any(_field(layout, block, braces) for braces in re.findall(r"\{([^{}]+)\}", argument)):
            yield f"N of an input: {argument}"
    for arguments in calls(formula, "MIN"):
        for argument in arguments:
            one = re.fullmatch(r"\{([^{}:]+)\}", argument) and _field(layout, block, argument[1:-1])
            if one and not one.required:
                yield f"MIN of what may be blank: {argument}"


def strays(layout, block, column, copy=0):
    """What in a column's formula is not of the dialect, in words."""
    text = re.sub(r'"[^"]*"', '""', layout.template(block, column, copy))
    yield from (f"function {name}" for name in set(re.findall(r"([A-Z][A-Z.]*)\(", text)) - FUNCTIONS)
    yield from (words for words, pattern in NEVER.items() if pattern.search(text))
    yield from _indexes(layout, text)
    for _, *chosen in calls(text, "CHOOSE"):
        yield from (f"CHOOSE of areas: {one}" for one in chosen if any(_shape(layout, one) or ()))
    for function in ("FIND", "SUBSTITUTE", "MID", "LEN", "RIGHT"):
        for taken in calls(text, function):
            yield from (f"{function} of an area: {one}" for one in taken if any(_shape(layout, one) or ()))
    for (asked,) in calls(text, "ISBLANK"):
        yield from (["ISBLANK of an area"] if any(_shape(layout, asked) or ()) else ())
    yield from _blanks(layout, block, re.sub(r'"[^"]*"', '""', column.formula))
