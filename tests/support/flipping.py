"""Every term of a formula dropped or flipped, one at a time.

Of an operator: the other sign, the left side alone, the right side alone; of a comparison: the other way, and its bound
let in or shut out; of IF, CHOOSE, IFERROR: one branch in place of another; of a function of several: the other of the
pair (MAX, MIN; ROUNDUP, INT), an argument less, none of it; a number: one more; a reference: another column.

What is no term of an equation stays as it is: what makes a number of a blank or of a truth (--x, 0+x); what holds
rounding noise off a bound (SLACK: it moves what lies within a millionth of a bound, and no figure by more); what a
reason weighs beside other reasons, which are told and not counted; whether a row is there to be worked out at all
(GUARDS: of a book with a faulty row no price is told); and, of a sum that is written out number by number, the third
term and those after it: they are the first again.
"""

import re
from collections import Counter

from support.formulas import COMPARISONS, read

OTHER = {"+": "-", "-": "+", "*": "/", "/": "*", "^": "*"}
OPPOSITE = {"=": "<>", "<>": "=", "<": ">=", ">=": "<", ">": "<=", "<=": ">"}
EDGE = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
PAIRS = {"MAX": "MIN", "MIN": "MAX", "ROUNDUP": "INT", "INT": "ROUNDUP", "LARGE": "SMALL", "SMALL": "LARGE"}
SEVERAL = ("MAX", "MIN", "SUM", "SUMPRODUCT")  # an argument less
PLAIN = ("ABS", "SQRT", "EXP", "LN", "INT", "ROUNDUP")  # what they are of, as it is
SLACK = {"terms.slack", "terms.round_slack", "terms.tie_step", "constants.tie"}
GUARDS = {"sound", "live", "passed", "usable", "entry_sound", "system_live", "ready_day", "costed", "priced", "nozzle"}


def changes(formula, others):
    """(what is changed, the formula so changed) of every change. others(reference): another in its place, or None."""
    tree = read(formula)
    quiet, still, times = _quiet(tree, formula), _still(tree), Counter()
    for node in tree.walk():
        if node in quiet or node in still:
            continue
        for start, end, put in _changes(node, formula, quiet, others):
            if put == formula[start:end]:
                continue
            words = f"{formula[node.start : node.end]} -> {_so(node, formula, start, end, put)}"
            times[words] += 1
            again = f" ({times[words]})" if times[words] > 1 else ""  # the same change in another place
            yield words + again, formula[:start] + put + formula[end:]


def _so(node, formula, start, end, put):
    return formula[node.start : start] + put + formula[end : node.end]


def _changes(node, formula, quiet, others):
    """(from, to, what is put there) of each change of a node itself."""
    kids = [formula[kid.start : kid.end] for kid in node.kids]
    if node.kind == "number":
        yield node.start, node.end, str(int(node.said) + 1)
    elif node.kind == "reference":
        if other := others(node.said):
            yield node.start, node.end, f"{{{other}}}"
    elif node.kind == "operator" and not any(kid in quiet for kid in node.kids):
        yield from _operator(node, kids)
    elif node.kind == "call":
        yield from _call(node, kids, quiet)


def _sign(node, said):
    return node.sign_at, node.sign_at + len(node.said), said


def _operator(node, kids):
    left, right = kids
    if node.said in COMPARISONS:
        yield _sign(node, OPPOSITE[node.said])
        if node.said in EDGE and not SLACK & {*_leaves(node)}:
            yield _sign(node, EDGE[node.said])
    elif node.said in OTHER:
        alone = {"-": f"(-{right})", "/": f"(1/{right})"}.get(node.said, right)
        for put in (f"({left}{OTHER[node.said]}{right})", left, *([] if node.said == "^" else [alone])):
            if put != f"({left}{node.said}{right})":
                yield node.start, node.end, put


def _call(node, kids, quiet):
    said, spans = node.said, [(kid.start, kid.end) for kid in node.kids]
    if said == "IF" and node.kids[0] not in quiet:
        yield from ((node.start, node.end, kid) for kid in kids[1:])
    elif said == "CHOOSE":
        options = kids[1:]
        yield from ((*span, other) for span, other in zip(spans[1:], options[1:] + options[:1]))
    elif said == "IFERROR":
        yield from ((node.start, node.end, kid) for kid in kids)
    if said in PAIRS:
        rest = kids + ["0"] if said == "INT" else kids[:1] if said == "ROUNDUP" else kids
        yield node.start, node.end, f"{PAIRS[said]}({','.join(rest)})"
    if said in PLAIN:
        yield node.start, node.end, f"({kids[0]})"
    if said in SEVERAL and len(kids) > 1:
        for at, kid in enumerate(node.kids):
            if kid not in quiet:
                yield node.start, node.end, f"{said}({','.join(kids[:at] + kids[at + 1 :])})"


def _quiet(tree, formula):
    """The nodes that are no terms, with all they hold."""
    silent = (node for node in tree.walk() if _holds_slack(node) or _is_weight(node) or _is_guard(node))
    again = (node.kids[1] for node in tree.walk() if _goes_on(node, formula))
    return {inner for outer in (silent, again) for node in outer for inner in node.walk()}


def _goes_on(node, formula):
    """It adds to a sum of terms one more that differs from the first in its numbers alone."""
    first, length = node, 0
    while first.kind == "operator" and first.said == "+":
        first, length = first.kids[0], length + 1
    return length > 1 and _numberless(node.kids[1], formula) == _numberless(first, formula)


def _numberless(node, formula):
    return re.sub(r"\d+", "", formula[node.start : node.end])


def _still(tree):
    """What makes a number of its operand, which is a term: the signs of --x, the sum and the 0 of 0+x."""
    found = set()
    for node in tree.walk():
        if _coercion(node):
            found |= {node, node.kids[0]} if node.said == "+" else {node}
    return found


def _coercion(node):
    """--x, and 0+x."""
    return (
        node.kind == "sign"
        and node.kids[0].kind == "sign"
        or (node.kind == "operator" and node.said == "+" and node.kids[0].kind == "number" and node.kids[0].said == "0")
    )


def _leaves(node):
    return [one.said for one in node.walk() if one.kind == "reference"]


def _holds_slack(node):
    """It is of slack and numbers alone, or a multiple of it."""
    leaves = _leaves(node)
    if node.kind == "operator" and node.said == "*":
        return any(kid.kind == "reference" and kid.said in SLACK for kid in node.kids)
    return bool(leaves) and set(leaves) <= SLACK


def _is_weight(node):
    return node.kind == "reference" and node.said.startswith("constants.reason_")


def _is_guard(node):
    """It asks of guards alone."""
    leaves = _leaves(node)
    return bool(leaves) and {leaf.split("@")[0].rpartition(".")[2] for leaf in leaves} <= GUARDS
