"""Every text that a person may be told stands in tests/data/messages.txt: a change of words shows in the diff of that
file.

The texts are those of the source: all of two words or more, and the titles of fields and columns. What the program
puts into one stands in braces. They are sorted under the way they leave by (what they are handed to, the list or
function they stand in), so that no line hangs on a module or on a place in it. The texts of one call share a line.
"""

import ast
import re
from collections import defaultdict
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCE, KEPT = ROOT / "builder", ROOT / "tests/data/messages.txt"
ANEW = "write it anew with: python tests/project/test_message_words.py"
TITLED = ("Field", "Column")  # their second argument is a title, which may be one word
PROSE = re.compile(r"""[\w})'",.:;%] ([('"]?[A-Za-z]{2,}|['(]*\{|[a-z]\b)""")
SILENT = (  # nobody reads these
    "results_first",
    "namedtuple",
    "compile",
    "write",
    "write_shared",
    "as_html",
    "set_footer",
    "encode",
)
WRAPS = ("MappingProxyType", "tuple", "dict")  # what they wrap leaves under the name of its list
WAYS = (  # those that are known today; all others are found too
    "Problem",
    "problem",
    "Finding",
    "BadValue",
    "ValueError",
    "refused",
    "stop",
    "Check",
    "Doubt",
    "Item",
    "Caution",
    "Field",
    "Column",
    "add_argument",
    "ArgumentTypeError",
    "REASONS",
    "FILM_FAULTS",
    "SLIPS",
    "WORDS",
    "words",
    "fault",
    "report",
    "summary",
)
FORMULA = re.compile(r"[A-Z]{3,}\(|\}[-+*/<>=,)]+[\d{]|[-+*/<>=(]\{|PK")


def inside(node):
    """What stands for a value: the first name in it."""
    names = [getattr(part, "id", getattr(part, "attr", "")) for part in ast.walk(node)]
    return f"{{{next(filter(None, names), '')}}}"


def text_of(node):
    """A text as the source has it; '' for what is none."""
    if isinstance(node, ast.JoinedStr):
        return "".join(text_of(part) or inside(part.value) for part in node.values)
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def is_prose(text):
    return PROSE.search(text) is not None and FORMULA.search(text) is None


def below(node):
    """What stands in a node, but for the plain parts of a text."""
    parts = ast.iter_child_nodes(node)
    return [part for part in parts if not (isinstance(node, ast.JoinedStr) and isinstance(part, ast.Constant))]


def ways(node, way, names):
    """(way, texts) of all that is said at and below a node. names: what a module calls by another name -> its own."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):  # a docstring
        return
    parts = below(node)
    if isinstance(node, ast.Call):
        called = getattr(node.func, "id", getattr(node.func, "attr", ""))
        way = way if called in WRAPS else names.get(called, called)
        given = [*node.args, *(keyword.value for keyword in node.keywords)]
        title = given[1:2] if way in TITLED else []
        told = [one for one in given if is_prose(text_of(one)) or one in title and text_of(one)]
        yield way, tuple(map(text_of, told))
        parts = [part for one in (node.func, *given) for part in (below(one) if one in told else [one])]
    elif isinstance(node, ast.FunctionDef | ast.ClassDef):
        way = node.name
    elif isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "").isupper():
        way = node.targets[0].id
    elif is_prose(text_of(node)):
        yield way, (text_of(node),)
    for part in parts:
        yield from ways(part, way, names)


def gathered(sources):
    """way -> lines, of the texts of some modules."""
    lines = defaultdict(set)
    for source in sources:
        tree = ast.parse(source)
        imported = [one for part in ast.walk(tree) if isinstance(part, ast.ImportFrom) for one in part.names]
        for way, texts in ways(tree, "at large", {one.asname: one.name for one in imported if one.asname}):
            if texts and way not in SILENT:
                lines[way].add(" | ".join(texts).replace("\n", "\\n"))
    return lines


def found():
    return gathered(path.read_text(encoding="utf-8") for path in SOURCE.rglob("*.py"))


def as_text(lines):
    return "\n".join(f"[{way}]\n" + "".join(f"{line}\n" for line in sorted(lines[way])) for way in sorted(lines))


def test_every_text_is_as_it_is_kept():
    assert as_text(found()) == KEPT.read_text(encoding="utf-8"), ANEW


def test_a_text_is_found_however_it_leaves():
    source = '''
from builder.sheets.grammar import Column as C
NOTES = {"key": "a text of a list"}
def said(one, units, *rest):
    """A docstring is not told."""
    yield mark.problem(f"{one.title}: '{one.value}' is odd", hint="say it again" if one else f"say {rest[0]} twice")
    C("key", "Title", "count", "IF({row.key}=1,{a}+{b},0)")
    raise Refused([Problem(str(path), 0, 0, "no way out", "go back, " + hint)])
    return f"{units.shown(one)} of {', '.join('each of ' + name for name in rest)}"
'''
    assert gathered([source]) == {
        "NOTES": {"a text of a list"},
        "Column": {"Title"},
        "said": {"{shown} of {join}"},
        "join": {"each of "},
        "Problem": {"no way out", "go back, "},
        "problem": {"{title}: '{value}' is odd", "say it again", "say {rest} twice"},
    }


@pytest.mark.slow
@pytest.mark.parametrize("way", WAYS)
def test_each_way_that_is_known_has_texts(way):
    assert found()[way]


if __name__ == "__main__":
    KEPT.write_text(as_text(found()), encoding="utf-8")
