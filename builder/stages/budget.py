"""Wear budget: the sizes that the job uses or the kit holds, in lives of a nozzle: kit + bought - worn = left (E20)."""

from math import floor

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.sheets.shown import nearest, to_nearest
from builder.stages.constants import SQUARES

# fmt: off
TOP = 6                                                # the row of the totals; the sizes follow
NONE = "No nozzle is used or kept yet: type lines on Takeoff, and what you have on Kit."


def _tenths(lives):
    return f"INT({lives}*{{constants.squares}}+1/2+{{terms.slack}})"


# What stands on the sheet, so that it adds up to the eye: in tenths of a life, of a use however small a tenth.
WORN = Block("worn", "Sizes", (
    C("no", "Wear budget, row", "count", label=lambda number: number),
    C("size_at", "Wear budget: row of the size", "count",
      'IF({no}>COUNT({sizes.rank}),"",MATCH(LARGE({sizes.rank},{no}),{sizes.rank},0))', ""),
    C("lives", "Wear budget: lives worn", "lives",
      f'IF({{size.due@1}}=0,0,MAX(1,{_tenths("{size.due@1}")})/{{constants.squares}})'),
    C("kit", "Wear budget: lives in the kit", "lives", _tenths("{size.left@1}") + "/{constants.squares}"),
    C("buy", "Wear budget: to buy", "count", "{size.buy@1}"),
    C("left", "Wear budget: lives left", "lives", "MAX(0,{kit}+{buy}-{lives})"),
    C("money", "Wear budget: at the counter", "money", "{size.buy@1}*{size.price}"),
    C("sprayed", "Wear budget: sprayed", "volume", nearest("{size.applied}", "volume")),
    *(C(f"said_{key}", f"Wear budget, said: {what}", "text",
        f"FIXED({nearest(f'{{sizes.{key}_all@1}}', 'money')},0)", rows=1)
      for key, what in (("wear_cost", "what wear costs"), ("cash", "what is paid at the counter"))),
), {"size": At("sizes", "{size_at}")}, "size_at")


def wear_blocks(units):
    """The sheet Wear budget: a sentence, the sums, a row a size, in these units."""
    unit, money = units.shown("volume"), units.shown("money")
    heads = (
        C("nozzle", "Nozzle", "text"), C("bar", "This job wears off: ■, each a tenth of a nozzle", "text"),
        C("lives", "Lives worn", "lives"),
        C("kit", "In your kit (lives)", "lives"), C("buy", "To buy", "count"), C("left", "Left after (lives)", "lives"),
        C("money", "At the counter", "money"), C("sprayed", "Sprays", "volume"), C("change", "Change it", "text"),
    )
    sums = {
        "nozzle": 'IF(COUNT({worn.size_at})=0,"","Together")', "bar": 'COUNT({worn.size_at})&" size"'
                                                                      '&REPT("s",--(COUNT({worn.size_at})<>1))',
        **{key: f"SUM({{worn.{key}}})" for key in ("lives", "kit", "buy", "left", "sprayed")},
        "money": nearest("SUM({worn.money})", "money"), "change": '""',
    }
    row = "ROW()-ROW({#nozzle})"
    of_a_size = {
        "nozzle": 'IF({mine.size_at}="","",{size.nozzle})',
        "bar": f'REPT("■",MIN(2*{{constants.squares}},{_tenths("{lives}")}))'
               f'&REPT("+",--({_tenths("{lives}")}>2*{{constants.squares}}))'
               f'&REPT("□",MAX(0,{{constants.squares}}-{_tenths("{lives}")}))',
        **{key: f"{{mine.{key}}}" for key in ("lives", "kit", "buy", "left", "sprayed")},
        "money": nearest("{mine.money}", "money"),
        "change": f'IF({{size.due@1}}=0,"",'
                  f'"about every "&INT({{size.applied}}/{{size.due@1}}+1/2+{{terms.slack}})&" {unit}")',
    }
    return (
        WORN,
        Block("wear_total", "Wear budget", (
            C("says", "", "text",
              f'IF(COUNT({{worn.size_at}})=0,"{NONE}","The price carries the wear, "&{{worn.said_wear_cost}}'
              f'&" {money}; at '
              f'the counter you pay "&{{worn.said_cash}}&" {money}, and what is left over is yours.")', ""),
        ), form="page", place=0, top=TOP - 2),
        Block("wear_total", "Wear budget", tuple(
            _with(one, sums[one.key], when="" if one.key == "nozzle" else None) for one in heads
        ), when="nozzle", top=TOP),
        Block("wear_list", "Wear budget", tuple(
            _with(one, of_a_size[one.key], at=(0, place), when="" if one.key == "nozzle" else None)
            for place, one in enumerate(heads)
        ), {"mine": At("worn", row), "size": At("sizes", "{mine.size_at}")}, "nozzle", "strip", 0, TOP + 1),
    )


def _with(column, formula, **more):
    return C(column.key, column.title, column.quantity, formula, **more)
# fmt: on


def budget(est):
    """The sizes of the base job and of the kit, those that wear most first."""
    ranked = sorted((one for one in est.rows["sizes"] if one.rank is not None), key=lambda one: -one.rank)
    rows = []
    for row, size in zip(est.rows["worn"], ranked):
        row.size_at, row.buy, row.money = float(size.no), size.buy[0], size.buy[0] * size.price
        row.lives = max(1, _to_tenths(est, size.due[0])) / SQUARES if size.due[0] else 0.0
        row.kit = _to_tenths(est, size.left[0]) / SQUARES
        row.left = max(0.0, row.kit + row.buy - row.lives)
        row.sprayed = to_nearest(est, size.applied, "volume")
        rows.append(row)
    for row, worn, size in zip(est.rows["wear_list"], rows, ranked):
        _row(est, row, worn, size)
    _sums(est, rows)


def _sums(est, rows):
    sums = est.rows["wear_total"][0]
    sums.says = NONE
    if not rows:
        return
    wear, cash = (
        f"{est.units.to_cell(to_nearest(est, one[0], 'money'), 'money'):,.0f}"
        for one in (est.rows["sizes"][0].wear_cost_all, est.rows["sizes"][0].cash_all)
    )
    est.rows["worn"][0].set(said_wear_cost=wear, said_cash=cash)
    unit = est.units.shown("money")
    paid = f"at the counter you pay {cash} {unit}, and what is left over is yours."
    sums.says = f"The price carries the wear, {wear} {unit}; {paid}"
    sums.set(**{key: sum(getattr(row, key) for row in rows) for key in ("lives", "kit", "buy", "left", "sprayed")})
    sums.money = to_nearest(est, sum(row.money for row in rows), "money")
    sums.nozzle, sums.bar = "Together", f"{len(rows)} size{'' if len(rows) == 1 else 's'}"


def _to_tenths(est, lives):
    return floor(lives * SQUARES + 0.5 + est.terms.slack)


def _row(est, row, worn, size):
    row.nozzle = size.nozzle
    row.set(**{key: getattr(worn, key) for key in ("lives", "kit", "buy", "left", "sprayed")})
    row.money = to_nearest(est, worn.money, "money")
    tenths = _to_tenths(est, worn.lives)
    row.bar = "■" * min(20, tenths) + ("+" if tenths > 20 else "") + "□" * max(0, 10 - tenths)
    if size.due[0]:
        every = floor(est.units.to_cell(size.applied / size.due[0], "volume") + 0.5 + est.terms.slack)
        row.change = f"about every {every:g} {est.units.shown('volume')}"
