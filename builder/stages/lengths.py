"""Lengths typed as text, 14'6" or 14 ft, taken apart into whole numbers that are looked up two digits at a time.

No formula asks the program for the value of a text: programs and languages read `1,250` differently. A number counts
where it is the same text again when it is written back, so that what is no number is a fault and never a guess.
"""

from builder.quantities import scale
from builder.records.feet import BLANK, FRACTIONS, QUOTES, SIGNS, WORDS
from builder.records.kinds import KINDS
from builder.records.rules import Length
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.constants import LENGTHS

OF = tuple((kind.key, one.key) for kind in KINDS.values() for one in kind.fields if isinstance(one.rule, Length))
QUOTE = "{constants.quote}"
RATIO = 'MID({split},FIND(" ",{split})+1,LEN({split}))'  # '1/2' of '6 1/2'


def places(capacity):
    """(kind, field, row of the kind) of every row of the block, in order."""
    return [(kind, key, number) for kind, key in OF for number in range(1, capacity[kind] + 1)]


# fmt: off
def columns(kind, capacity):
    """Of a judged kind: what each of its lengths says as text, and what was read."""
    starts = {(block, key): row for row, (block, key, number) in enumerate(places(capacity)) if number == 1}
    for one in kind.fields:
        if isinstance(one.rule, Length):
            cell, about = f"{{row.{one.key}}}", f"{kind.title}, {one.title.lower()}"
            yield C(f"{one.key}_at", f"{about}: row on Lengths", "count",
                    label=lambda number, before=starts[kind.key, one.key]: before + number)
            yield C(f"{one.key}_said", f"{about}: as text", "text",
                    f'IF(ISNUMBER({cell})+ISBLANK({cell})+ISERROR({cell})>0,"",'
                    f'LOWER(TRIM(SUBSTITUTE({cell},"{BLANK}"," "))))', "")
            yield C(f"{one.key}_read", f"{about}: as read", "length",
                    f"IF(ISNUMBER({cell}),{cell},{{{one.key}_apart.worth}})", "")


def links(kind):
    """Where the columns above find their text taken apart."""
    return {f"{one.key}_apart": At("lengths", f"{{{one.key}_at}}") for one in kind.fields
            if isinstance(one.rule, Length)}


def _literal(text):
    """A text in a formula. Programs differ in how a quote stands in quotes, so it stands in a cell."""
    return QUOTE if text == '"' else f'"{text}"'


def _replaced(text, words):
    """SUBSTITUTE in SUBSTITUTE."""
    for word, sign in words:
        text = f"SUBSTITUTE({text},{_literal(word)},{_literal(sign)})"
    return text


def _number(key):
    """The worth of a text of up to four digits; of any other text a number that is not that text."""
    two = "SUMPRODUCT(--({words.pair}=%s),{words.pair_worth})"
    return "100*" + two % f'MID(RIGHT("0000"&{{{key}}},4),1,2)' + "+" + two % f'RIGHT("00"&{{{key}}},2)'


def lengths_block(capacity):
    rows = places(capacity)
    cells = ",".join(f"{{of_{kind}.{key}_said}}" for kind, key in OF)
    return Block("lengths", "Lengths", (
        C("of", "Field", "count", label=lambda number: OF.index(rows[number - 1][:2]) + 1),
        *(C(f"{kind}_at", f"Row of {KINDS[kind].title}", "count",
            label=lambda number, kind=kind: rows[number - 1][2] if rows[number - 1][0] == kind else 1)
          for kind in dict(OF)),
        C("said", "As typed", "text", f"CHOOSE({{of}},{cells})&\"\"", ""),
        C("worth", "Read as", "length",
          "{feet_no}*{constants.foot_long}"
          f"+({{whole_no}}+{{part_no}}/100^2+SUMPRODUCT(--({{words.fraction}}={RATIO}),{{words.fraction_worth}}))*{{unit}}",
          "proven"),
        C("plain", "Quotes and primes as ' and \"", "text", _replaced("{said}", QUOTES)),
        C("text", "Each unit as one sign", "text", _replaced("{plain}", WORDS)),
        C("at", "First unit stands at", "count",
          "MIN(" + ",".join(f"FIND({sign},{{text}}&{sign})" for sign in map(_literal, SIGNS)) + ")"),
        C("rest", "After it", "text", "TRIM(MID({text},{at}+1,LEN({text})))"),
        C("feet", "Feet before inches", "text", 'IF({rest}="","0",TRIM(MID({text},1,{at}-1)))'),
        C("last", "Number as text", "text",
          'IF({rest}="",TRIM(MID({text},1,{at}-1)),TRIM(MID({rest},1,LEN({rest})-1)))'),
        C("unit", "Its unit, in lengths of this book", "number",
          f'CHOOSE(IF({{rest}}="",FIND(MID({{text}}&" ",{{at}},1)," \'"&{QUOTE}&"m\u2018\u201c"),2+1),1,'
          + ",".join(f"{{constants.{unit}_long}}" for unit in LENGTHS) + ")"),
        C("split", "Number with its fraction", "text",
          'IF(ISERROR(FIND("/",{last})),{last}&" 0/1",REPT("0 ",--ISERROR(FIND(" ",{last})))&{last})'),
        C("front", "Before the fraction", "text", 'SUBSTITUTE(MID({split},1,FIND(" ",{split})-1),",",".")'),
        C("whole", "Whole", "text",
          'REPT("0",(MID({front},1,1)=".")*(LEN({front})>1))&MID({front},1,FIND(".",{front}&".")-1)'),
        C("part", "Decimals, four of them", "text", 'MID(MID({front},FIND(".",{front}&".")+1,4)&"0000",1,4)'),
        C("feet_no", "Feet, worth", "count", _number("feet")),
        C("whole_no", "Whole, worth", "count", _number("whole")),
        C("part_no", "Decimals, worth", "count", _number("part")),
        C("pointed", "Comma and point as they should", "count",
          '(LEN({last})<>FIND(",",{last}&","))*(LEN({last})-FIND(",",{last}&",")<>4-1)*(MID({last},1,1)<>",")'
          '*(LEN({front})-FIND(".",{front}&".")<=4)*(ISERROR(FIND("/",{last}))+ISERROR(FIND(".",{front}))>0)'),
        C("proven", "Understood: all are digits, and where they should be", "count",
          'IF(({feet_no}&""={feet})*({whole_no}&""={whole})*(100^2+{part_no}&""="1"&{part})'
          f'*(SUMPRODUCT(--({{words.fraction}}={RATIO}))=1)*{{pointed}}'
          '*(({rest}="")+(MID({text},{at},1)="\'")*(LEN({whole})<=2)'
          f'*(RIGHT({{rest}},1)={QUOTE}))=1,1,"")'),
    ), {f"of_{kind}": At(kind, f"{{{kind}_at}}") for kind in dict(OF)}, "said")
# fmt: on


def lengths(est):
    """Each text taken apart, as the sheet does it; what it is worth was read when its row was judged."""
    for row, (kind, key, number) in zip(est.rows["lengths"], places(est.capacity)):
        entry = est.rows[kind][number - 1]
        row.said = getattr(entry, f"{key}_said")
        if row.said is not None:
            _apart(est, row)
            row.worth = getattr(entry, f"{key}_read")


def _apart(est, row):
    row.plain, row.text = _signs(row.said)
    row.at = float(min(f"{row.text}{sign}".index(sign) for sign in SIGNS) + 1)
    before, mark = row.text[: int(row.at) - 1].strip(" "), row.text[int(row.at) - 1 : int(row.at)]
    row.rest = row.text[int(row.at) :].strip(" ")
    row.feet = before if row.rest else "0"
    row.last = row.rest[:-1].strip(" ") if row.rest else before
    unit = SIGNS['"'] if row.rest else SIGNS.get(mark)
    row.unit = scale(unit) / est.units.scale("length") if unit else 1.0
    fraction = "/" in row.last
    row.split = ("" if " " in row.last else "0 ") + row.last if fraction else f"{row.last} 0/1"
    front, _, ratio = row.split.partition(" ")
    row.front = front.replace(",", ".")
    whole, _, decimals = row.front.partition(".")
    row.whole = "0" if whole == "" and decimals else whole
    row.part = f"{decimals[:4]}0000"[:4]
    for key in ("feet", "whole", "part"):
        digits = getattr(row, key)
        setattr(row, f"{key}_no", 100 * _pair(f"0000{digits}"[-4:][:2]) + _pair(f"00{digits}"[-2:]))
    digits = (
        all(f"{getattr(row, f'{key}_no'):g}" == getattr(row, key) for key in ("feet", "whole"))
        and f"{row.part_no:04g}" == row.part
        and ratio in FRACTIONS
    )
    after = row.last.partition(",")[2] if "," in row.last else None  # digits after a comma
    comma = after is None or len(after) not in (0, 3) and not row.last.startswith(",")
    row.pointed = float(comma and len(decimals) <= 4 and not (fraction and "." in row.front))
    inches = mark == "'" and len(row.whole) <= 2 and row.rest.endswith('"')
    row.proven = 1.0 if digits and row.pointed and (not row.rest or inches) else None


def _signs(text):
    """The text with one sign for each unit, in the two steps of the sheet."""
    for words in (QUOTES, WORDS):
        for word, sign in words:
            text = text.replace(word, sign)
        yield text


def _pair(digits):
    """The worth of two digits; 0 for anything else."""
    return float(digits) if digits.isascii() and digits.isdigit() else 0.0
