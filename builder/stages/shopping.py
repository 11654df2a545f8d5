"""Shopping: a line each of what is bought, of what adds it up, then of what each coat takes, in one run without gaps;
the page reads the lines as people buy and pay.
"""

from itertools import accumulate

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import between, nearest, to_nearest, to_upward, upward
from builder.stages.brief import plain
from builder.stages.buying import PRICED
from builder.stages.buying import rows as buying_rows
from builder.stages.counter import SHEET
from builder.trade.price import payable

# fmt: off
PAGE, TOP = "Shopping", 7                    # the first line of the page
AFTER = 2                                    # from the last sum to the first coat: a blank line, one that names them
COATS = {"what": "What each coat takes", "which": "Coating, color", "buy": "Wet film, loss"}
NOTHING = "No price yet, so there is nothing to buy."


def _each(**told):
    """Texts of a line, each where the line is of its kind."""
    return "&".join(f'IF({{{kind}}}="","",{text})' for kind, text in told.items())


SHOP_LINES = Block("shop_lines", SHEET, (
    C("no", "Line", "count", label=lambda number: number),
    C("sizes_from", "Lines of paint", "count", "COUNT({bought.place})", "", rows=1),
    C("others_from", "With nozzles", "count", "{sizes_from}+COUNT({nozzle_buys.place})", "", rows=1),
    C("end", "With the sums", "count", "{others_from}+COUNT({other_buys.place})", "", rows=1),
    C("paint_at", "Row of its purchase", "count", 'IF({no}<={*sizes_from},SMALL({bought.place},{no}),"")', ""),
    C("size_at", "Row of its size", "count",
      'IF(({no}>{*sizes_from})*({no}<={*others_from})=1,SMALL({nozzle_buys.place},{no}-{*sizes_from}),"")', ""),
    C("other_at", "Row of what else", "count",
      'IF(({no}>{*others_from})*({no}<={*end})=1,SMALL({other_buys.place},{no}-{*others_from}),"")', ""),
    C("head", "Names the coats", "count", f'IF(({{no}}={{*end}}+2)*{PRICED}=1,1,"")', ""),
    C("coat_at", "Line of its coat", "count",
      'IF(({no}>{*end}+2)*({no}<={*end}+2+COUNT({takes.live}))=1,{no}-{*end}-2,"")', ""),
    C("what", "What", "text",
      _each(paint_at="{paint.coating}", size_at="{size.nozzle}", other_at="{other.called}", coat_at="{coat.what}",
            head=f'"{COATS["what"]}"'), ""),
    C("which", "Color", "text",
      _each(paint_at="{paint.color}", size_at="{size.kit}", other_at="{other.which}", coat_at="{coat.paint}",
            head=f'"{COATS["which"]}"'), ""),
    C("area", "Area", "area", "{coat.area}", "coat_at"),
    C("takes", "A coat takes", "volume", "{coat.need}", "coat_at"),
    C("need", "Needed", "volume", 'IF({paint_at}="",{takes},{paint.need})', ""),
    C("buy", "Buy", "text",
      _each(paint_at="{paint.packs}", size_at="{size.told}", other_at="{other.told}", coat_at="{coat.told}",
            head=f'"{COATS["buy"]}"'), ""),
    C("own", "Adds", "money",
      'IF({paint_at}="",0,{paint.cost})+IF({size_at}="",0,{size.cost})+IF({other_at}="",0,{other.own})', ""),
    C("run", "Up to here", "money", "SUMPRODUCT(--({*no}<={no}),{*own})", ""),
    C("sum", "A sum", "money", 'IF({other_at}="",0,{other.sum})', ""),
    C("paid", "Something is paid", "count", 'IF(({own}>0)+({sum}>0)>0,1,"")', ""),
    C("to", "Money up to here", "money", "IF({sum}>0,{sum},{run})", "paid"),
    C("less", "Money before", "money", "IF({sum}>0,{other.less},{run}-{own})", "paid"),
), {"paint": At("bought", "{paint_at}"), "size": At("nozzle_buys", "{size_at}"),
    "other": At("other_buys", "{other_at}"), "coat": At("takes", "{coat_at}")},
    under="takes", section="Lines as they are read")

LINE = {"line": At("shop_lines", "ROW()-ROW({#what})")}
LIST = (
    Block("shopping", PAGE, (C("what", "What", "text", '{line.what}&""', "", look="read"),), LINE, form="list", place=0,
          top=TOP),
    Block("shopping", PAGE, (
        C("which", "Color", "text", '{line.which}&""', look="words"),
        C("area", "Coated", "area", f'IF({{line.area}}="","",{nearest("{line.area}", "area")})', look="read"),
        C("need", "Need", "volume", f'IF({{line.need}}="","",{upward("{line.need}", "volume")})', look="read"),
        C("buy", "Buy", "text", '{line.buy}&""', look="words_bold"),
        C("money", "Amount", "money",
          f'IF({{line.paid}}="","",{between("{line.less}", "{line.to}", "{constants.money_step}")})', "",
          look="paid"),
    ), LINE, "what", "list", 2, TOP),
)
NOTE = Block("shopping_note", PAGE, (
    C("heading", "", "text", '"What to buy"&IF({bid.job_told}="","",": "&{bid.job_told})', "", look="section"),
    C("note", "", "text",
      f'IF({PRICED}=0,"{NOTHING} "&{{checks.first}},{nearest("{brief.gallons}", "volume")}&" "'
      f'&{{constants.volume_unit}}&" of paint to buy"&{{brief.told_owner}})', "", look="line"),
), form="page", place=0, top=TOP - 3)
BLOCKS = (SHOP_LINES, NOTE, *LIST)
# fmt: on


def rows(capacity):
    """Rows of the blocks of this stage."""
    made = buying_rows(capacity)
    lines = 2 * made["bought"] + made["other_buys"] + AFTER + made["takes"]  # a coat has one size of nozzle at most
    return {**made, "shop_lines": lines, "shopping": lines, "shopping_note": 1, "counter": 1}


SOURCES = {"bought": "paint_at", "nozzle_buys": "size_at", "other_buys": "other_at"}


def shopping(est):
    used = {key: [one for one in est.rows[key] if one.place is not None] for key in SOURCES}
    takes = [one for one in est.rows["takes"] if one.live]
    priced = est.rows["price"][0].live
    lines = [(kind, one) for key, kind in SOURCES.items() for one in used[key]]
    sizes_from = len(used["bought"])
    others_from = sizes_from + len(used["nozzle_buys"])
    end = len(lines)
    if priced:
        lines += [(None, None), ("head", None), *(("coat_at", one) for one in takes)]
    first = est.rows["shop_lines"][0]
    first.sizes_from, first.others_from, first.end = float(sizes_from), float(others_from), float(end)
    runs = list(accumulate(_own(kind, one) for kind, one in lines))
    for row in est.rows["shop_lines"]:
        kind, one = lines[row.no - 1] if row.no <= len(lines) else (None, None)
        row.own, row.run, row.sum = _own(kind, one), (runs[min(row.no, len(runs)) - 1] if runs else 0.0), 0.0
        if kind:
            setattr(row, kind, 1.0 if kind == "head" else float(one.no))
            _say(row, kind, one)
        row.paid = 1.0 if row.own > 0 or row.sum > 0 else None
        if row.paid:
            row.to = row.sum or row.run
            row.less = one.less if row.sum else row.run - row.own
    _read(est)
    note = est.rows["shopping_note"][0]
    job = est.job.name
    note.heading = "What to buy" + ("" if job is None else f": {est.judge.as_text(job)}")
    note.note = f"{NOTHING} {est.checks.first or ''}"
    if priced:
        brief = est.rows["brief"][0]
        amount = plain(est.units.to_cell(to_nearest(est, brief.gallons, "volume"), "volume"))
        note.note = f"{amount} {est.units.shown('volume')} of paint to buy{brief.told_owner or ''}"


ADDS = {"paint_at": "cost", "size_at": "cost", "other_at": "own"}


def _own(kind, one):
    """What a line adds to what is paid."""
    return getattr(one, ADDS[kind]) if kind in ADDS else 0.0


def _say(row, kind, one):
    if kind == "head":
        row.set(**COATS)
    elif kind == "paint_at":
        row.what, row.which, row.need, row.buy = one.coating, one.color, one.need, one.packs
    elif kind == "size_at":
        row.what, row.which, row.buy = one.nozzle, one.kit, one.told
    elif kind == "other_at":
        row.what, row.which, row.buy, row.sum = one.called, one.which, one.told, one.sum
    else:
        row.what, row.which, row.buy = one.what, one.paint, one.told
        row.area, row.takes, row.need = one.area, one.need, one.need


def _read(est):
    cent = est.units.money_step * est.units.scale("money")
    for row, line in zip(est.rows["shopping"], est.rows["shop_lines"]):
        row.what = line.what
        if not line.what:
            continue
        row.which, row.buy = line.which, line.buy
        row.area = None if line.area is None else to_nearest(est, line.area, "area")
        row.need = None if line.need is None else to_upward(est, line.need, "volume")
        if line.paid:
            upto, before = (payable(one, cent, est.terms.slack) for one in (line.to, line.less))
            row.money = upto - before
