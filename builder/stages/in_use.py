"""The coats of the job in the order of the work, and the one that a person chooses to look at on a sheet.

What is chosen is no input of the job: nothing is worked out of it but what that sheet shows.
"""

from builder.records.lookups import LOOKUPS
from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.values import same

# fmt: off
NOTHING_YET = "nothing is measured yet: type lines on Takeoff"

IN_USE = Block("in_use", "Coat words", (
    C("no", "Coat of the job", "count", label=lambda number: number),
    C("coat_at", "Row of the coat", "count",
      'IF({no}>COUNT({picks.place}),"",MATCH(SMALL({picks.place},{no}),{picks.place},0))', ""),
    C("part", "Number and system", "text", '{no}&". "&{coat.system}'),
    C("what", "Coating with its color", "text", '{coat.coating}&IF({entry.color}="",""," / "&{entry.color})'),
    C("label", "To choose by", "text", '{part}&": "&{what}'),
    C("sprayed", "Sprayed", "count", "{coat.sprayed}"),
    C("usual", "Place of the first that is sprayed, else of the first", "count",
      "IF(SUM({*sprayed})=0,1,MATCH(1,{*sprayed},0))", "", rows=1),
    C("how", "How often and how", "text",
      '{entry.times}&" coat"&REPT("s",--({entry.times}>1))&", "&INDEX({words.done},{coat.method_no})'),
), {"coat": At("film", "{coat_at}"), "entry": At("coats", "{coat_at}")}, "coat_at")


def chooser(key, sheet, top, place, shown):
    """A cell of a sheet in which a coat is chosen, what it comes to in the row and column `shown`, and the row of that
    coat on Views. Blank or no such coat: the first that is sprayed, else the first. What is chosen is longer than its
    cell and runs on to the right.
    """
    row, column = shown
    return (
        Block(key, sheet, (C("coat", "Choose a coat", "text", view="in_use.label"),), form="page", place=place,
              top=top),
        Block(key, sheet, (
            C("shown", "", "text",
              f'IF({{{key}.coat_at}}="","{NOTHING_YET}",{{use.part}}&": "&{{use.what}}&", "&{{use.how}})'),
        ), {"use": At("in_use", f"{{{key}.at}}")}, form="page", place=column, top=row, follows=True),
        Block(key, "Views", (
            C("said", f"{sheet}: chosen", "text", f'IF(ISERROR({{{key}.coat}}),"",{{{key}.coat}}&"")'),
            C("hits", f"{sheet}: coats of that name", "count",
              'SUMPRODUCT(({in_use.label}={said})*({in_use.label}<>""))'),
            C("at", f"{sheet}: place of the coat shown", "count",
              "IF({hits}=0,{in_use.usual},MATCH({said},{in_use.label},0))"),
            C("coat_at", f"{sheet}: row of the coat shown", "count", "{use.coat_at}"),
        ), {"use": At("in_use", "{at}")}, follows=True),
    )
# fmt: on


def in_use(est):
    order = sorted((one for one in est.rows["picks"] if one.place is not None), key=lambda one: one.place)
    for row, pick in zip(est.rows["in_use"], order):
        entry, coat = est.row("coats", pick.no), est.row("film", pick.no)
        row.coat_at, row.part = pick.no, f"{row.no}. {coat.system}"
        color = "" if entry.color is None else f" / {est.judge.as_text(entry.color)}"
        row.what = f"{est.judge.as_text(coat.coating)}{color}"
        row.label = f"{row.part}: {row.what}"
        row.sprayed = coat.sprayed
        row.how = f"{entry.times:g} coat{'s' if entry.times > 1 else ''}, {done(coat)}"
    spray = [row.no for row in est.rows["in_use"] if row.sprayed]
    est.rows["in_use"][0].usual = float(spray[0] if spray else 1)


def done(coat):
    """What is done with a coat: 'sprayed'."""
    return LOOKUPS["done"][coat.method_no - 1]


def choose(est, key):
    """The coat that a sheet shows: the one chosen in `est.views`, else the usual one."""
    row, usual = est.rows[key][0], est.rows["in_use"][0].usual
    labels = [use.label for use in est.rows["in_use"] if use.label]
    row.coat = est.views.get(key, labels[int(usual) - 1] if labels else None)
    row.said = row.coat
    row.hits = float(sum(same(label) == same(row.said or "") for label in labels))
    row.at = float(next((at for at, label in enumerate(labels, start=1) if same(label) == same(row.said or "")), usual))
    use = est.rows["in_use"][int(row.at) - 1]
    row.coat_at = use.coat_at
    row.shown = f"{use.part}: {use.what}, {use.how}" if row.coat_at else NOTHING_YET
