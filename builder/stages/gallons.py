"""Gallons of each coat; Purchases: whole packs of each coating and color at least cost (E18-E19, E30, E40)."""

from math import floor

from builder.records.lookups import BESIDE, LOOKUPS, place
from builder.records.scenarios import NAMES, SCENARIOS
from builder.sheets.alternates import ONLY, included, within
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.trade import film, packs, spray
from builder.values import same

# fmt: off
GALLONS = Block("gallons", "Gallons", results_first("no what need applied thinner over material due", (
    C("no", "Coat", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF(({pick.live}=1)+({coat.by_hand}=1)>0,1,"")', ""),
    C("what", "Coating and color", "text",
      '{entry.coating}&IF({entry.color}="",""," / "&{entry.color})&IF({entry.owner_supplied}="yes"," (owner supplies)",'
      '"")'),
    C("system_at", "Row of its system", "count", "{coat.system_at}"),
    C("coating_at", "Row of its coating", "count", "{coat.coating_at}"),
    C("only", ONLY, "count", "{coat.only}"),
    C("material", "Material per area", "yield", "IF({coat.by_hand}=1,{coat.hand_material},{pick.material})"),
    C("wet_film", "Wet film on the face", "film", "IF({coat.by_hand}=1,{coat.hand_film},{pick.wet_film})"),
    C("over", "Extra paint", "share", "IF({coat.by_hand}=1,0,{pick.over})"),
    C("applied", "Applied, thinned", "volume", "{coat.surface_coats}*{material}*(1+{over})"),
    C("need", "Needed, unthinned", "volume", "{applied}/(1+{coat.thinning})"),
    C("thinner", "Thinner", "volume", "{need}*{coat.thinning}"),
    C("voc_mass", "VOC given off, at most", "mass",
      "({need}*{paint.voc}+{thinner}*{paint.thinner_voc})*{constants.voc}"),
    C("thinner_cost", "Thinner cost", "money", "{thinner}*{paint.thinner_price}"),
    C("size_at", "Row of its nozzle", "count", 'IF({coat.by_hand}=1,"",{pick.size_at})'),
    C("due", "Nozzles due", "number", "IF({coat.by_hand}=1,0,{applied}/{pick.interval})"),
    C("spent", "Nozzle lives spent", "number", "IF({coat.by_hand}=1,0,{applied}/{pick.life})"),
    C("change_wages", "Wages of changing nozzles", "money", "{due}*{terms.change_time}*N({coat.team})*{coat.wage}"),
    C("guns", "Guns", "count", "IF(N({live})*N({coat.sprayed})=1,{coat.guns},0)", ""),
    C("hoses", "Hoses in use", "count",
      "IF(N({live})*N({coat.sprayed})=1,MIN({pump.hose_count},{guns}),0)", ""),
    C("fill", "Left in hose and pail by a load of its own", "volume",
      "IF({hoses}=0,0,({pump.heel}+(1-(0+{terms.recovered}))*{pump.content}*{hoses})/(1+{coat.thinning}))", ""),
    C("own_load", "Loads of its own, of an alternate", "count",
      "IF({hoses}*({only}>0)=0,0,--(SUMPRODUCT(--({*system_at}={system_at}),--({*lead}={lead}),--({*no}<{no}))=0))"),
    C("share_told", "Share of the area, whole percent", "count",
      'IF({entry.share}="",0,MAX(1,INT({entry.share}*100+1/2+{terms.slack})))'),
    C("part_told", "Share and supply in words", "text",
      'REPT(", on about "&{share_told}&" % of the area",({share_told}>0)*({share_told}<100))&REPT(", which you supply",'
      '--({entry.owner_supplied}="yes"))'),
    C("work", "In words", "text",
      '{entry.times}&" coat"&REPT("s",--({entry.times}>1))&" of "&{entry.coating}&", "&INDEX({words.done},'
      '{coat.method_no})&{part_told}'),
    C("place", "Place on Bid and Crew card", "number",
      'IF({applied}>0,({only}*100+{system_at})*100+{no},"")'),
    C("lead", "First coat of this coating and color", "count", "MATCH({what},{gallons.what},0)"),
)), {"entry": At("coats", "{no}"), "coat": At("film", "{no}"), "pick": At("picks", "{no}"),
     "paint": At("coatings", "{coat.coating_at}"),
    "pump": At("pumps", "{coat.pump_at}")}, "live")


SLACK = "{terms.round_slack}"
# a copy for each number that is tried
CASES = {"repeat": 3, "heads": ("no largest pack", "largest as fit", "one more of the largest")}


def _price(number):
    return f"{{paint.pack{number}_price}}"


def _pack(number):
    return f"{{paint.pack{number}_volume}}"


def _small_cost(middle):
    return (f"{middle}*{_price(2)}+ROUNDUP(MAX(0,({{rest@}}-{middle}*{_pack(2)})/{{paint.pack1_volume}}-{SLACK}),0)"
            f"*{{paint.pack1_price}}")


def _of_choice(figure):
    """The figure of the cheapest case."""
    return f"CHOOSE({{choice}},{','.join(figure.replace('%s', case) for case in '123')})"


def purchases_block(coats):
    """One row a scenario and coat."""
    return Block("purchases", "Purchases",
                 results_first("scenario_name what total small middle large bought from_owner cost left_over", (
        C("scenario", "Base 1, with A 2, with B 3, with C 4", "count", label=lambda number: (number - 1) // coats + 1),
        C("coat", "Coat", "count", label=lambda number: (number - 1) % coats + 1),
        C("scenario_name", "Priced as", "text", label=lambda number: NAMES[(number - 1) // coats]),
        C("coats_need", "Needed by its coats", "volume",
          "IF({gallon.lead}={coat},SUMPRODUCT(--({gallons.lead}={coat})," f"{within('gallons', '{scenario}')},"
                                                                          f"{{gallons.need}}),0)", ""),
        C("live", "To be bought", "count", 'IF({coats_need}>0,1,"")', ""),
        C("what", "Coating and color", "text", "{gallon.what}"),
        C("paint_at", "Row of its coating", "count", "{gallon.coating_at}"),
        C("line_fill", "Left in hose and pail", "volume",
          "SUMPRODUCT(--({run.load}={coat}),{run.fill})+SUMPRODUCT(--({gallons.lead}={coat}),"
          "--({gallons.only}={scenario}),{gallons.own_load},{gallons.fill})"),
        C("touch_up", "Touch-up kept", "volume",
          "{terms.touch_up}*INDEX({words.kind_kept},MATCH({paint.kind},{words.kind},0))"),
        C("total", "Needed in all", "volume", "{coats_need}+{line_fill}+{touch_up}"),
        C("larges", "Largest pack", "count",
          f"IF(({_pack(3)}=0)+({{@}}=1)>0,0,INT({{total}}/{_pack(3)}+{SLACK})+{{@}}-2)", **CASES),
        C("rest", "Rest", "volume", f"MAX(0,{{total}}-{{larges@}}*{_pack(3)})", **CASES),
        C("middle_fit", "Middle pack, as many as fit", "count", f"IF({_pack(2)}=0,0,INT({{rest@}}/{_pack(2)}+{SLACK}))",
          **CASES),
        C("cost_none", "Cost of rest, no middle pack", "money", _small_cost("0"), **CASES),
        C("cost_fit", "Cost of rest, middle packs as fit", "money", _small_cost("{middle_fit@}"), **CASES),
        C("cost_more", "Cost of rest, one more middle pack", "money", _small_cost("({middle_fit@}+1)"), **CASES),
        C("rest_choice", "Choice for the rest", "count", _first_least("{cost_none@}", "{cost_fit@}", "{cost_more@}"),
          **CASES),
        C("case_cost", "Cost of the case", "money",
          f"{{larges@}}*{_price(3)}+CHOOSE({{rest_choice@}},{{cost_none@}},{{cost_fit@}},{{cost_more@}})", **CASES),
        C("choice", "Cheapest case", "count", _first_least("{case_cost@1}", "{case_cost@2}", "{case_cost@3}")),
        C("large", "Largest packs", "count", _of_choice("{larges@%s}")),
        C("middle", "Middle packs", "count",
          _of_choice("CHOOSE({rest_choice@%s},0,{middle_fit@%s},{middle_fit@%s}+1)")),
        C("small", "Smallest packs", "count",
          f"ROUNDUP(MAX(0,({_of_choice('{rest@%s}')}-{{middle}}"
          f"*{_pack(2)})/{{paint.pack1_volume}}-{SLACK}),0)"),
        C("bought", "Bought", "volume", f"{{small}}*{{paint.pack1_volume}}+{{middle}}*{_pack(2)}+{{large}}*{_pack(3)}"),
        C("cost", "Cost", "money",
          f'IF({{entry.owner_supplied}}="yes",0,{_of_choice("{case_cost@%s}")})'),
        C("from_owner", "Of it from the owner", "volume", 'IF({entry.owner_supplied}="yes",{bought},0)'),
        C("left_over", "Left over", "volume", "{bought}-{total}"),
    )), {"gallon": At("gallons", "{coat}"), "paint": At("coatings", "{paint_at}"), "entry": At("coats", "{coat}")},
    "live")


def _first_least(*costs):
    """1, 2 or 3: the earlier of costs that differ by less than the slack."""
    bound = f"MIN({','.join(costs)})*(1+{SLACK})"
    return f"1+({costs[0]}>{bound})*(1+({costs[1]}>{bound}))"
# fmt: on


def gallons(est):
    for row, entry, coat, pick in zip(est.rows["gallons"], est.rows["coats"], est.rows["film"], est.rows["picks"]):
        row.guns = row.hoses = row.fill = 0.0
        row.live = 1.0 if pick.live or coat.by_hand else None
        if not row.live:
            continue
        row.system_at, row.coating_at, row.only = coat.system_at, coat.coating_at, coat.only
        row.material = coat.hand_material if coat.by_hand else pick.material
        row.wet_film = coat.hand_film if coat.by_hand else pick.wet_film
        row.over = 0.0 if coat.by_hand else pick.over
        row.applied = coat.surface_coats * row.material * (1 + row.over)
        row.need = film.paint(row.applied, coat.thinning)
        row.thinner = row.need * coat.thinning
        paint = est.row("coatings", row.coating_at)
        row.voc_mass = row.need * (paint.voc or 0.0) + row.thinner * (paint.thinner_voc or 0.0)
        row.thinner_cost = row.thinner * (paint.thinner_price or 0.0)
        owner = entry.owner_supplied is not None and same(entry.owner_supplied) == "yes"
        color = "" if entry.color is None else f" / {est.judge.as_text(entry.color)}"
        row.what = f"{entry.coating}{color}{' (owner supplies)' if owner else ''}"
        row.size_at = None if coat.by_hand else pick.size_at
        row.due = 0.0 if coat.by_hand else row.applied / pick.interval
        row.change_wages = row.due * est.terms.change_time * (coat.team or 0.0) * coat.wage
        row.spent = 0.0 if coat.by_hand else row.applied / pick.life
        if coat.sprayed:
            pump = est.row("pumps", coat.pump_at)
            row.guns = coat.guns
            row.hoses = min(pump.hose_count, row.guns)
            recovered = est.terms.recovered or 0.0
            row.fill = spray.line_fill(pump.heel, pump.content, recovered, row.hoses, coat.thinning)
        row.share_told = 0.0 if entry.share is None else float(max(1, floor(entry.share * 100 + 0.5 + est.terms.slack)))
        row.work = _in_words(row, entry, coat, owner, est.judge.as_text)
        if row.applied > 0:
            row.place = float((row.only * 100 + row.system_at) * 100 + row.no)
    first = {}
    for row in est.rows["gallons"]:
        if row.live:
            row.lead = first.setdefault(same(row.what), row.no)
            earlier = (one for one in est.rows["gallons"][: row.no - 1] if one.live)
            known = any(one.system_at == row.system_at and one.lead == row.lead for one in earlier)
            row.own_load = float(bool(row.hoses and row.only) and not known)


def _in_words(row, entry, coat, owner, as_text):
    """'2 coats of Interior wall flat, sprayed'"""
    done = LOOKUPS["done"][coat.method_no - 1]
    count = f"{entry.times:g} coat{'s' if entry.times > 1 else ''} of {as_text(entry.coating)}, {done}"
    row.part_told = f", on about {row.share_told:g} % of the area" if 0 < row.share_told < 100 else ""
    row.part_told += ", which you supply" if owner else ""
    return count + row.part_told


def purchases(est):
    """One row a scenario and coat; the first coat of each coating and color buys for all of them."""
    rows = iter(est.rows["purchases"])
    for scenario in SCENARIOS:
        for gallon in est.rows["gallons"]:
            row = next(rows)
            row.scenario, row.coat = scenario, gallon.no
            row.scenario_name = NAMES[scenario - 1]
            row.coats_need = (
                sum(
                    other.need * included(other, scenario)
                    for other in est.rows["gallons"]
                    if other.live and other.lead == gallon.no
                )
                if gallon.lead == gallon.no
                else 0.0
            )
            row.live = 1.0 if row.coats_need > 0 else None
            if row.live:
                _buy(est, row, gallon)


def _buy(est, row, gallon):
    row.what, row.paint_at = gallon.what, gallon.coating_at
    paint = est.row("coatings", row.paint_at)
    alike = [other for other in est.rows["gallons"] if other.lead == gallon.no]
    row.line_fill = sum(one.fill for one in est.rows["run"] if one.load == gallon.no)
    row.line_fill += sum(other.own_load * other.fill for other in alike if other.only == row.scenario)
    row.touch_up = est.terms.touch_up * BESIDE["kind_kept"][place("kind", paint.kind) - 1]
    row.total = row.coats_need + row.line_fill + row.touch_up
    offered = tuple(
        (getattr(paint, f"pack{number}_volume"), getattr(paint, f"pack{number}_price")) for number in (1, 2, 3)
    )
    bought = packs.least_cost(row.total, offered, est.terms.round_slack)
    row.set(
        larges=bought.larges,
        rest=tuple(one.rest for one in bought.rests),
        case_cost=bought.costs,
        choice=float(bought.choice),
        small=bought.small,
        middle=bought.middle,
        large=bought.large,
    )
    row.rest_choice = tuple(float(one.choice) for one in bought.rests)
    row.middle_fit = tuple(one.middles[1] for one in bought.rests)
    row.cost_none, row.cost_fit, row.cost_more = (
        tuple(one.costs[place] for one in bought.rests) for place in (0, 1, 2)
    )
    row.bought = sum(
        number * (volume or 0.0) for number, (volume, _) in zip((row.small, row.middle, row.large), offered)
    )
    owners = same(est.row("coats", gallon.no).owner_supplied or "") == "yes"
    row.from_owner, row.cost = (row.bought, 0.0) if owners else (0.0, bought.cost)
    row.left_over = row.bought - row.total
