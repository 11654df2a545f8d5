"""Gallons of each coat; Purchases: whole packs of each coating and colour at least cost (E18-E19)."""
from builder.estimate.scenarios import NAMES
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C
from builder.sheets.stock import ONLY, within

GALLONS = Block("gallons", "Gallons", results_first("no what need applied thinner over material due", (
    C("no", "Coat", "count", label=lambda number: number),
    C("live", "Worked out", "count", 'IF(({pick.live}=1)+({film.by_hand}=1)>0,1,"")', ""),
    C("what", "Coating and colour", "text",
      '{coat.coating}&IF({coat.colour}="",""," / "&{coat.colour})&IF({coat.owner_supplied}="yes"," (owner supplies)","")'),
    C("system_at", "Row of its system", "count", "{film.system_at}"),
    C("coating_at", "Row of its coating", "count", "{film.coating_at}"),
    C("only", ONLY, "count", "{film.only}"),
    C("material", "Material per area", "yield", "IF({film.by_hand}=1,{film.hand_material},{pick.material})"),
    C("over", "Extra paint", "share", "IF({film.by_hand}=1,0,{pick.over})"),
    C("applied", "Applied, thinned", "volume", "{film.surface_coats}*{material}*(1+{over})"),
    C("need", "Needed, unthinned", "volume", "{applied}/(1+{film.thinning})"),
    C("thinner", "Thinner", "volume", "{need}*{film.thinning}"),
    C("voc_mass", "VOC given off, at most", "mass", "({need}*{paint.voc}+{thinner}*{paint.thinner_voc})*{constants.voc}"),
    C("thinner_cost", "Thinner cost", "money", "{thinner}*{paint.thinner_price}"),
    C("size_at", "Row of its nozzle", "count", 'IF({film.by_hand}=1,"",{pick.size_at})'),
    C("due", "Nozzles due", "number", "IF({film.by_hand}=1,0,{applied}/{pick.interval})"),
    C("spent", "Nozzle lives spent", "number", "IF({film.by_hand}=1,0,{applied}/{pick.life})"),
    C("change_wages", "Wages of changing nozzles", "money", "{due}*{terms.change_time}*N({film.gun_wage})"),
    C("guns", "Guns", "count", "IF(N({live})*N({film.sprayed})=1,{film.guns},0)", ""),
    C("fill", "Left in hose and pail", "volume", "IF(N({live})*N({film.sprayed})=1,{pump.content}+{pump.heel},0)", ""),
    C("most", "Wears most nozzles", "count", "({due}>0)*({due}>=MAX({gallons.due})*(1-{terms.slack}))"),
    C("share_told", "Share of the area, whole per cent", "count", 'IF({coat.share}="",0,MAX(1,INT({coat.share}*100+1/2+{terms.slack})))'),
    C("part_told", "Share and supply in words", "text",
      'REPT(", on about "&{share_told}&" % of the area",({share_told}>0)*({share_told}<100))&REPT(", which you supply",--({coat.owner_supplied}="yes"))'),
    C("work", "In words", "text",
      '{coat.coats}&" coat"&REPT("s",--({coat.coats}>1))&" of "&{coat.coating}&", "&INDEX({words.done},{film.method_no})&{part_told}'),
    C("place", "Place on Bid and Crew card", "number",
      'IF({applied}>0,({only}*100+{system_at})*100+{no},"")'),
    C("lead", "First coat of this coating and colour", "count", "MATCH({what},{gallons.what},0)"),
)), {"coat": At("coats", "{no}"), "film": At("films", "{no}"), "pick": At("picks", "{no}"), "paint": At("coatings", "{film.coating_at}"),
    "pump": At("pumps", "{film.pump_at}")}, "live")


SLACK = "{terms.round_slack}"
CASES = {"repeat": 3, "heads": ("no largest pack", "largest as fit", "one more of the largest")}   # a copy for each number that is tried


def _price(number):
    return f"{{paint.pack{number}_price}}"


def _size(number):
    return f"{{paint.pack{number}_size}}"


def _small_cost(middle):
    return (f"{middle}*{_price(2)}+ROUNDUP(MAX(0,({{rest@}}-{middle}*{_size(2)})/{{paint.pack1_size}}-{SLACK}),0)*{{paint.pack1_price}}")


def purchases(coats):
    """One row a scenario and coat."""
    return Block("purchases", "Purchases", results_first("scenario_name what total small middle large bought from_owner cost left_over", (
        C("scenario", "Base 1, with A 2, with B 3, with C 4", "count", label=lambda number: (number - 1) // coats + 1),
        C("coat", "Coat", "count", label=lambda number: (number - 1) % coats + 1),
        C("scenario_name", "Priced as", "text", label=lambda number: NAMES[(number - 1) // coats]),
        C("coats_need", "Needed by its coats", "volume",
          "IF({gallon.lead}={coat},SUMPRODUCT(--({gallons.lead}={coat})," f"{within('gallons', '{scenario}')},{{gallons.need}}),0)", ""),
        C("live", "To be bought", "count", 'IF({coats_need}>0,1,"")', ""),
        C("what", "Coating and colour", "text", "{gallon.what}"),
        C("paint_at", "Row of its coating", "count", "{gallon.coating_at}"),
        C("line_fill", "Left in hose and pail", "volume",
          f"SUMPRODUCT(LARGE(({{gallons.lead}}={{coat}})*({within('gallons', '{scenario}')})*{{gallons.fill}},1))"),
        C("touch_up", "Touch-up kept", "volume", "{terms.touch_up}"),
        C("total", "Needed in all", "volume", "{coats_need}+{line_fill}+{touch_up}"),
        C("larges", "Largest pack", "count",
          f'IF({_size(3)}=0,0,CHOOSE({{@}},0,INT({{total}}/{_size(3)}+{SLACK}),ROUNDUP(MAX(0,{{total}}/{_size(3)}-{SLACK}),0)))', **CASES),
        C("rest", "Rest", "volume", f"MAX(0,{{total}}-{{larges@}}*{_size(3)})", **CASES),
        C("middle_fit", "Middle pack, as many as fit", "count", f"IF({_size(2)}=0,0,INT({{rest@}}/{_size(2)}+{SLACK}))", **CASES),
        C("middle_more", "Middle pack, one more", "count",
          f"IF({_size(2)}=0,0,ROUNDUP(MAX(0,{{rest@}}/{_size(2)}-{SLACK}),0))", **CASES),
        C("cost_none", "Cost of rest, no middle pack", "money", _small_cost("0"), **CASES),
        C("cost_fit", "Cost of rest, middle packs as fit", "money", _small_cost("{middle_fit@}"), **CASES),
        C("cost_more", "Cost of rest, one more middle pack", "money", _small_cost("{middle_more@}"), **CASES),
        C("rest_choice", "Choice for the rest", "count", _first_least("{cost_none@}", "{cost_fit@}", "{cost_more@}"), **CASES),
        C("rest_cost", "Cost of the rest", "money", "CHOOSE({rest_choice@},{cost_none@},{cost_fit@},{cost_more@})", **CASES),
        C("middle_taken", "Middle packs", "count", "CHOOSE({rest_choice@},0,{middle_fit@},{middle_more@})", **CASES),
        C("case_cost", "Cost of the case", "money", f"{{larges@}}*{_price(3)}+{{rest_cost@}}", **CASES),
        C("choice", "Cheapest case", "count", _first_least("{case_cost@1}", "{case_cost@2}", "{case_cost@3}")),
        C("large", "Largest packs", "count", "CHOOSE({choice},{larges@1},{larges@2},{larges@3})"),
        C("middle", "Middle packs", "count", "CHOOSE({choice},{middle_taken@1},{middle_taken@2},{middle_taken@3})"),
        C("small", "Smallest packs", "count",
          f"ROUNDUP(MAX(0,(CHOOSE({{choice}},{{rest@1}},{{rest@2}},{{rest@3}})-{{middle}}*{_size(2)})/{{paint.pack1_size}}-{SLACK}),0)"),
        C("bought", "Bought", "volume", f"{{small}}*{{paint.pack1_size}}+{{middle}}*{_size(2)}+{{large}}*{_size(3)}"),
        C("cost", "Cost", "money", 'IF({entry.owner_supplied}="yes",0,CHOOSE({choice},{case_cost@1},{case_cost@2},{case_cost@3}))'),
        C("from_owner", "Of it from the owner", "volume", 'IF({entry.owner_supplied}="yes",{bought},0)'),
        C("left_over", "Left over", "volume", "{bought}-{total}"),
    )), {"gallon": At("gallons", "{coat}"), "paint": At("coatings", "{paint_at}"), "entry": At("coats", "{coat}")}, "live")


def _first_least(*costs):
    """1, 2 or 3: the earlier of costs that differ by less than the slack."""
    bound = f"MIN({','.join(costs)})*(1+{SLACK})"
    return f"1+({costs[0]}>{bound})*(1+({costs[1]}>{bound}))"
