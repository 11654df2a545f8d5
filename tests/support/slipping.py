"""Files of YAML as tired, hurried or foreign hands leave them: values, keys, lines, records, letters, encodings.

A slip takes (draw, lines): a random.Random and the lines of a file, and gives other lines. `slipped` gives the bytes of
a file after a few of them.
"""

import re

VALUE = re.compile(r"(?<=: )[^,{}\[\]#]+?(?=[,}\]]|\s*$)|(?<=- )[^,{}\[\]#:]+?(?=\s*$)")
KEY = re.compile(r"(?<![\w ])[a-z_]\w*(?=:(?: |$))|(?<= )[a-z_]\w*(?=:(?: |$))")
NUMBER = re.compile(r"\d+(?:\.\d+)?")

VALUES = (
    "",
    "yes",
    "no",
    "null",
    "~",
    "true",
    "0",
    "-1",
    "-0.0",
    "1e3",
    "1e400",
    ".inf",
    ".nan",
    "9" * 400,
    "0.0000000001",
    "011",
    "0x1F",
    "12:30",
    "1_000",
    "12,5",
    "1.234,56",
    "1 062",
    "1/0 mil",
    "1/3 ft",
    "14'6\"",
    "14' 6 1/2\"",
    "14 ft",
    "14ft",
    "14 feet of it",
    "5 %",
    "500 %",
    "5 gal/min",
    "8 mil",
    "8 mil mil",
    "3 h",
    "3 hours and a half",
    "-40 degF",
    "20 C",
    "1e9 ft",
    "USD",
    "EUR",
    "$5",
    "5 $",
    "2026-02-30",
    "2026-05-04",
    "1899-12-31",
    "9999-12-31",
    "0000-00-00",
    "05/06/26",
    "today",
    "[]",
    "{}",
    "[1, 2]",
    "{a: b}",
    "[[[[]]]]",
    "''",
    '""',
    "' '",
    "'5'",
    '"5 ft"',
    "&a 5",
    "*a",
    "!!int 3",
    "!x y",
    "|",
    ">",
    "| text",
    "- x",
    "? x",
    "%",
    "@",
    "`",
    "#",
    "five",
    "é",
    "Ünïcödé ﬁne",
    "１２ ft",
    "٣ ft",
    "½ in",
    "12\u00a0ft",
    "12\u200bft",
    "\u202e12",
    "Ехterior",
    "😀",
    "a\u0300" * 30,
    '"\\x07"',
    '"\\ud800"',
    '"\\u0085"',
    '"a\\nb"',
    "x" * 300,
    "y" * 3000,
    "z" * 40_000,
    "=1+1",
    "+5",
    "@SUM(A1)",
    "<b>",
    "a: b",
    "a #b",
    "Boards",
    "boards",
    "White",
    "spray",
    "A",
    "standard 515",
    "base",
)
LETTERS = ("\t", "\u00a0", "\u3000", "\ufeff", "\u200b", "\x00", "\x07", "\x85", "\u2028", "\r", "«", "’", "“", "–", "：", "，", "é", "Я", "\u202e", "😀")  # fmt: skip
KEYS = (
    "<<",
    "null",
    "yes",
    "name",
    "",
    "1",
    "a" * 250,
    "é",
    "change",
    "own",
    "without",
    "job",
    "unit",
    "?",
    "Name",
    "size",
)
UNITS = (
    "ft",
    "m",
    "mil",
    "um",
    "gal",
    "L",
    "psi",
    "bar",
    "h",
    "min",
    "%",
    "USD",
    "kg",
    "gpm",
    "in",
    "degF",
    "x",
    "ft2",
)


def _places(lines, pattern):
    return [
        (number, match)
        for number, line in enumerate(lines)
        if not line.lstrip().startswith("#")
        for match in pattern.finditer(line)
    ]


def _replaced(lines, number, match, new):
    line = lines[number]
    return [*lines[:number], line[: match.start()] + new + line[match.end() :], *lines[number + 1 :]]


def _at(pattern, change):
    """A slip in one value, key or number: change(draw, its text) -> another text."""

    def slip(draw, lines):
        places = _places(lines, pattern)
        if not places:
            return lines
        number, match = draw.choice(places)
        return _replaced(lines, number, match, change(draw, match[0]))

    return slip


def _scaled(draw, text):
    return draw.choice((f"{float(text) * draw.choice((10, 0.1, 1000, 1e-6, -1, 1e12, 0)):.12g}", text + "5", text[:-1]))


def _misspelt(draw, word):
    at = draw.randrange(len(word))
    return draw.choice(
        (
            word[:at] + word[at + 1 :],
            word[:at] + word[at] + word[at:],
            word.upper(),
            word.title(),
            word[::-1],
            word + "s",
            word[:at] + draw.choice("aeiouäя_- ") + word[at + 1 :],
        )
    )


def _unit(draw, text):
    number = NUMBER.match(text)
    return f"{number[0] if number else text} {draw.choice(UNITS)}"


def _line(change):
    """A slip of one line: change(draw, line) -> lines."""

    def slip(draw, lines):
        at = draw.randrange(len(lines))
        return [*lines[:at], *change(draw, lines[at]), *lines[at + 1 :]]

    return slip


def _lettered(draw, line):
    at = draw.randrange(len(line) + 1)
    return [line[:at] + draw.choice(LETTERS) + line[at + draw.randint(0, 1) :]]


def _punctuated(draw, line):
    """A mark of punctuation that is gone, or one too many."""
    marks = [at for at, letter in enumerate(line) if letter in ":,{}[]'\"-#"]
    if marks and draw.random() < 0.6:
        at = draw.choice(marks)
        return [line[:at] + line[at + 1 :]]
    at = draw.randrange(len(line) + 1)
    return [line[:at] + draw.choice(":,{}[]'\"-#|>&*!%") + line[at:]]


def swapped(draw, lines):
    one, other = draw.randrange(len(lines)), draw.randrange(len(lines))
    lines = list(lines)
    lines[one], lines[other] = lines[other], lines[one]
    return lines


def _records(lines):
    """(first line, line behind) of each record of a list."""
    starts = [number for number, line in enumerate(lines) if line.lstrip().startswith("- ")]
    found = []
    for start in starts:
        depth = len(lines[start]) - len(lines[start].lstrip())
        end = start + 1
        while end < len(lines) and lines[end].strip() and len(lines[end]) - len(lines[end].lstrip()) > depth:
            end += 1
        found.append((start, end))
    return found


def record(draw, lines):
    """A record gone, twice, many times over, renamed, or in another place."""
    if not (found := _records(lines)):
        return lines
    start, end = draw.choice(found)
    whole, how = lines[start:end], draw.randrange(6)
    if how == 0:
        return lines[:start] + lines[end:]
    if how == 1:
        return lines[:end] + whole + lines[end:]
    if how == 2:
        return lines[:end] + whole * draw.choice((20, 300, 3000)) + lines[end:]
    if how == 3:
        named = [
            re.sub(
                r"(\b(?:name|size|family|tag|task): )[^,}]+",
                r"\g<1>" + draw.choice(("Other", "x" * 90, "5", "é")),
                whole[0],
            )
        ]
        return lines[:start] + named + whole[1:] + lines[end:]
    rest = lines[:start] + lines[end:]
    at = draw.randrange(len(rest) + 1)
    return rest[:at] + whole + rest[at:]


def block(draw, lines):
    """A whole list or mapping of the file gone, twice, or a level deeper."""
    tops = [number for number, line in enumerate(lines) if re.match(r"[a-z_]+:", line)]
    if not tops:
        return lines
    start = draw.choice(tops)
    end = next((number for number in tops if number > start), len(lines))
    whole = lines[start:end]
    new = draw.choice(
        (
            [],
            whole * 2,
            [f"  {line}" for line in whole],
            [whole[0].split(":")[0] + ":"],
            [whole[0].split(":")[0] + ": 5"],
            [line.replace("- ", "  ", 1) for line in whole],
        )
    )
    return lines[:start] + new + lines[end:]


def deep(draw, lines):
    at = draw.randrange(len(lines) + 1)
    return [
        *lines[:at],
        draw.choice(("x: " + "[" * 5000, "x: " + "{a: " * 40 + "1" + "}" * 40, "? " * 50, "- " * 2000, "&a [*a, *a]")),
        *lines[at:],
    ]


def document(draw, lines):
    at = draw.choice((0, len(lines), draw.randrange(len(lines) + 1)))
    return [
        *lines[:at],
        draw.choice(("---", "...", "%YAML 1.2", "%TAG ! x", "<<<<<<< HEAD", "=======", "<<: *base", "\t", "x", "null")),
        *lines[at:],
    ]


SLIPS = {
    "a value": _at(VALUE, lambda draw, text: draw.choice(VALUES)),
    "a number": _at(NUMBER, _scaled),
    "a unit": _at(VALUE, _unit),
    "a word": _at(VALUE, _misspelt),
    "a key misspelt": _at(KEY, _misspelt),
    "another key": _at(KEY, lambda draw, text: draw.choice(KEYS)),
    "a line gone": _line(lambda draw, line: []),
    "a line twice": _line(lambda draw, line: [line, line]),
    "a line further in": _line(lambda draw, line: [draw.choice((" ", "  ", "\t", "    ")) + line]),
    "a line further out": _line(lambda draw, line: [line[draw.randint(1, 3) :]]),
    "a line cut off": _line(lambda draw, line: [line[: draw.randrange(len(line) + 1)]]),
    "a line broken": _line(lambda draw, line: [line[: len(line) // 2], line[len(line) // 2 :]]),
    "lines swapped": swapped,
    "a letter": _line(_lettered),
    "punctuation": _line(_punctuated),
    "a record": record,
    "a block": block,
    "depth": deep,
    "a document": document,
}
OFTEN = ("a value", "a value", "a number", "a unit", "a word", "a key misspelt", "punctuation", "a record")


def _stored(draw, text):
    """The bytes of a file: UTF-8 mostly."""
    how = draw.randrange(60)
    if how == 0:
        return b"\xef\xbb\xbf" + text.encode("utf-8", "surrogatepass")
    if how == 1:
        return text.encode(
            draw.choice(("utf-16", "utf-16-le", "utf-32", "cp1252", "latin-1", "cp437", "shift_jis", "utf-7")),
            "replace",
        )
    if how == 2:
        return text.replace("\n", draw.choice(("\r\n", "\r", "\n\r", "\x85", "\u2028"))).encode(
            "utf-8", "surrogatepass"
        )
    if how == 3:
        data = bytearray(text.encode())
        for _ in range(draw.randint(1, 4)):
            data[draw.randrange(len(data))] = draw.randrange(256)
        return bytes(data)
    return text.encode("utf-8", "surrogatepass")


def slipped(draw, text):
    """(what slipped, the bytes of the file after it)."""
    lines, hows = text.split("\n"), draw.choices([*SLIPS, *OFTEN], k=draw.choice((1, 1, 1, 2, 4)))
    for how in hows:
        lines = SLIPS[how](draw, lines) or [""]
    return hows, _stored(draw, "\n".join(lines))
