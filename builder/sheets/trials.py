"""Nozzle check: every coat with every size, and why it does not fit (E6-E16); Fit: the same at a glance; Picks (E17)."""
from builder.records.reasons import COLUMN_OF, COLUMNS, FITS, REASONS
from builder.sheets.grammar import At, Block, results_first
from builder.sheets.grammar import Column as C

TESTS = {
    "lossy": "{loss}>{terms.loss_plausible}*(1+{terms.slack})",
    "over_rated": "{set_pressure}>{size.pressure_max}*(1+{terms.slack})",
    "over_pump": "{set_pressure}>{film.holds}*(1+{terms.slack})",
    "starves": "{flow}*{terms.worn_orifice}^2*{film.guns}>{film.pump_flow}*(1+{terms.slack})",
    "too_small": "{size.orifice}<{film.orifice_min}*(1-{terms.slack})",
    "too_large": "{size.orifice}>{film.orifice_max}*(1+{terms.slack})",
    "too_narrow": "{size.fan}<{film.fan_min}*(1-{terms.slack})",
    "too_wide": "{size.fan}>{film.fan_max}*(1+{terms.slack})",
    "too_coarse": "{size.rank}<{film.rank}",
    "over_crew": "{flow}>{film.crew_flow}*(1+{terms.slack})",
    "too_fast": "{gun_speed}>{film.fastest}*(1+{terms.slack})",
    "too_slow": "{gun_speed}/{film.uptake}<{film.slowest}*(1-{terms.slack})",
}


def _reasons():
    """Columns that add up the weights of the reasons that hold; 0 where none of a column's does."""
    for key, reasons in COLUMNS.items():
        words = " or ".join(REASONS[reason] for reason in reasons)
        yield C(f"not_{key}", words, "count", "+".join(f"({TESTS[reason]})*{{constants.reason_{reason}}}" for reason in reasons))


def trials(sizes):
    """`sizes`: rows of the nozzle catalogue, spare ones included."""
    return Block("trials", "Nozzle check", results_first("coat size nozzle why cost flow gun_speed set_pressure", (
        C("coat", "Coat", "count", label=lambda number: (number - 1) // sizes + 1),
        C("size", "Size, row", "count", label=lambda number: (number - 1) % sizes + 1),
        C("nozzle", "Nozzle", "text", 'IF(({film.sprayed}=1)*({size.ready}=1)=1,{size.known},"")', ""),
        C("loss", "Loss", "share", "{film.loss}*{size.loss_factor}", "nozzle"),
        C("live", "Worked out", "count", 'IF({loss}<{terms.loss_limit}*(1-{terms.slack}),1,"")', "nozzle"),
        C("pressure", "Gun pressure", "pressure", "{film.pressure}*IF({film.own_pressure}=1,1,{size.pressure_factor})"),
        C("step", "Step", "width", "IF({film.clear_width}<={size.fan}*(1+{terms.slack}),{size.fan},{size.lap})"),
        C("miss", "Miss", "share", "1-{film.solid}*{film.clear_width}/MAX({size.fan},{film.clear_width}+{size.fan}/4)"),
        C("flow", "Flow", "flow", "{terms.cd}*{constants.jet}*{size.orifice}^2*SQRT({pressure}/{film.density})"),
        C("set_pressure", "Set pressure", "pressure", "{pressure}+{film.resistance}*{flow}"),
        C("material", "Material", "yield", "{film.wet_film}*{film.mean_uptake}/({constants.cover}*(1-{loss})*(1-{miss}))"),
        C("gun_speed", "Hand speed", "speed", "{constants.pace}*{flow}*(1-{loss})/({film.wet_film}*{step})"),
        C("life", "Life", "volume", "{size.endurance}/({pressure}*{film.abrasion})"),
        C("change_cost", "Cost of a change", "money", "{size.nozzle_price}+{terms.change_time}*{film.gun_wage}"),
        C("waste_rate", "Waste when worn", "money_volume",
          "{terms.excess}*{film.paint_price}/(1+{film.thinning})+{terms.slow}*{film.gun_wage}/({flow}*{constants.hour})"),
        C("interval", "Replace after", "volume", "MIN({life},IF({waste_rate}=0,{life},SQRT(2*{change_cost}*{life}/{waste_rate})))"),
        C("wear", "Mean wear", "share", "{interval}/(2*{life})"),
        C("time", "Elapsed per area", "area_time",
          "MAX(({material}*(1+{terms.slow}*{wear})/({flow}*{constants.hour})+{film.work_ratio}*{film.handling}/{constants.seconds})/{film.guns},{film.roll_time})"),
        C("cost", "Cost per area", "money_area",
          "{material}*(1+{terms.excess}*{wear})*({film.paint_price}/(1+{film.thinning})+{change_cost}/{interval})+{time}*{film.team}*{film.wage}"),
        *_reasons(),
        C("fits", FITS, "count", "1-MIN(1,SUM({not_limits:not_spray}))"),
        C("why", "Verdict", "text",
          "IF({fits}=1,{#fits},INDEX({words.reason},MATCH(SUM({not_limits:not_spray}),{words.reason_weight},1)))"),
    )), {"film": At("films", "{coat}"), "size": At("nozzles", "{size}")}, "live")


# What the pick goes by (E41): a nozzle of the kit may cost (1 + preference) times the least; the earlier size at a tie.
SCORE = ('IF(({trial.fits}=1)*({size.orifice}<={pick.coarsest})=1,'
         '{trial.cost}/(1+({terms.kit_preference}+{terms.slack})*{size.in_kit})+{terms.tie_step}*{no},"")')
# What the next best goes by: cost alone, the pick left out.
OTHERS = 'IF(({score@}<>"")*({no}<>{pick.pick_at})=1,{trial.cost}+{terms.tie_step}*{no},"")'


def fit(coats):
    """Sizes down, coats across."""
    across = {"repeat": coats, "when": "nozzle", "heads": tuple(f"coat {number + 1}" for number in range(coats))}
    found = {**across, "when": "", "rows": 1}            # of all sizes, one figure a coat
    return Block("fit", "Fit", (
        C("no", "Size, row", "count", label=lambda number: number),
        C("nozzle", "Nozzle", "text", '{size.known}&""', ""),
        C("shown", "Cost per area, or why not", "money_area", 'IF({trial.fits}=1,{trial.cost},{trial.why}&"")', **across),
        C("orifice", "Orifice if it fits", "orifice", 'IF({trial.fits}=1,{size.orifice},"")', **across),
        C("score", "Score", "money_area", SCORE, **across),
        C("others", "Cost but for the pick", "money_area", OTHERS, **across),
        C("fitting", "Sizes that fit", "count", "COUNT({*orifice@})", **found),
        C("smallest", "Smallest orifice that fits", "orifice", 'IF({fitting@}=0,"",MIN({*orifice@}))', **found),
        C("largest", "Largest orifice that fits", "orifice", 'IF({fitting@}=0,"",MAX({*orifice@}))', **found),
        C("pick_at", "Least score, row", "count", 'IF({fitting@}=0,"",MATCH(MIN({*score@}),{*score@},0))', **found),
        C("next_at", "Least other cost, row", "count", 'IF(COUNT({*others@})=0,"",MATCH(MIN({*others@}),{*others@},0))', **found),
        C("used_at", "Size used, row", "count", "{pick.size_at}", **found),
    ), {"size": At("nozzles", "{no}"), "pick": At("picks", "{@}"), "trial": At("trials", "({@}-1)*{constants.sizes}+{no}")})


TAKEN = (
    ("nozzle", "Nozzle used", "text"), ("why", "Verdict", "text"), ("fits", "Fits", "count"), ("pressure", "Gun pressure", "pressure"),
    ("set_pressure", "Set pressure", "pressure"), ("gun_speed", "Hand speed, later coats", "speed"), ("flow", "Flow", "flow"), ("miss", "Miss", "share"),
    ("loss", "Loss", "share"), ("material", "Material", "yield"), ("life", "Life", "volume"), ("interval", "Replace after", "volume"),
    ("wear", "Mean wear", "share"), ("time", "Elapsed per area", "area_time"), ("cost", "Cost per area", "money_area"))


def _whole(volume):
    """A volume in words, to the nearest whole unit."""
    return f'INT({volume}+1/2+{{terms.slack}})&" "&{{constants.volume_unit}}'


def _told():
    """All reasons in words, gathered column by column."""
    before = ""
    for key, words in REASONS.items():
        yield C(f"told_{key}", words, "text",
                f'{before}REPT({{#told_{key}}}&"; ",MOD(INT({{used.not_{COLUMN_OF[key]}}}/{{constants.reason_{key}}}),2))', "live")
        before = f"{{told_{key}}}&"


# The pick costs more than the next best only where it is of the kit.
_PER_CENT = 'FIXED({next_tenths}*{constants.tenth},1)&" %"'
NEXT_WORDS = (f'IF(({{next_tenths}}>0)*({{next_extra}}<0)=1,"in your kit; "&{{next}}&" would save "&{_PER_CENT},'
              f'{{next}}&" costs "&REPT({_PER_CENT}&" more",--({{next_tenths}}>0))&REPT("the same",--({{next_tenths}}=0)))')


# What a crew wants to know stands first.
FRONT = "no coating system nozzle set_pressure first_speed gun_speed wet_film why pick next next_extra next_words advice"

PICKS = Block("picks", "Picks", results_first(FRONT, (
    C("no", "Coat", "count", label=lambda number: number),
    C("sprayed", "Sprayed", "count", "{film.sprayed}", ""),
    C("system", "System", "text", "{film.system}"),
    C("coating", "Coating", "text", "{film.coating}"),
    C("fitting", "Sizes that fit", "count", "{fit.fitting@no}"),
    C("smallest", "Smallest orifice that fits", "orifice", "{fit.smallest@no}"),
    C("coarsest", "Coarsest orifice let in", "orifice",
      "IF({film.smooth}=1,{smallest}*{terms.smooth_span}*(1+{terms.slack}),{fit.largest@no})", "smallest"),
    C("pick_at", "Pick, row", "count", "{fit.pick_at@no}", "smallest"),
    C("pick", "Pick", "text", "INDEX({nozzles.known},{pick_at})", "pick_at"),
    C("next_at", "Next best, row", "count", "{fit.next_at@no}", "smallest"),
    C("next", "Next best", "text", "INDEX({nozzles.known},{next_at})", "next_at"),
    C("next_extra", "Next best: difference of cost", "share", "{second.cost}/{first.cost}-1", "next_at"),
    C("next_tenths", "Next best: difference in tenths of a per cent", "count",
      "INT(ABS({next_extra})*100/{constants.tenth}+1/2+{terms.slack})", "next_at"),
    C("next_words", "Next best in words", "text", NEXT_WORDS, "next_at"),
    C("size_at", "Size used, row", "count", 'IF({coat.nozzle}="",{pick_at},MATCH({coat.nozzle},{nozzles.known},0))'),
    C("used_at", "Row in Nozzle check", "count", "({no}-1)*{constants.sizes}+{size_at}", "size_at"),
    C("live", "Worked out", "count", 'IF({used.live}=1,1,"")', "used_at"),
    *(C(key, title, quantity, f"{{used.{key}}}", "live") for key, title, quantity in TAKEN),
    C("first_speed", "Hand speed, first coat", "speed", "{gun_speed}/{film.uptake}", "live"),
    C("over", "Extra paint by wear", "share", "{terms.excess}*{wear}", "live"),
    C("drag", "Extra time by wear", "share", "{terms.slow}*{wear}", "live"),
    C("labour", "Labour per area", "area_time", "{time}*{film.team}", "live"),
    C("advice", "When to change it", "text",
      'IF({interval}<{life}*(1-{terms.slack}),"changing it after "&{pays}&" pays; worn out at "&{worn_out},"use it until worn out, at "&{worn_out})', "live"),
    C("pays", "Replace after, rounded", "text", _whole("{interval}"), "live"), C("worn_out", "Life, rounded", "text", _whole("{life}"), "live"),
    C("fan", "Fan", "width", "{size.fan}", "live"),
    C("orifice", "Orifice", "orifice", "{size.orifice}", "live"),
    C("wet_film", "Wet film", "film", "{film.wet_film}", "live"),
    C("misfit", "Own nozzle that does not fit", "count", "1-{fits}", "live"),
    C("reynolds", "Reynolds number in the hose", "number",
      "{constants.reynolds}*{film.density}*{flow}*{film.guns}/({pump.narrowest}*{paint.viscosity})", "live"),
    C("turbulent", "No longer laminar", "count", "--({reynolds}>{terms.reynolds_max})", "live"),
    *_told(),
)), {"film": At("films", "{no}"), "coat": At("coats", "{no}"), "used": At("trials", "{used_at}"), "size": At("nozzles", "{size_at}"),
    "first": At("trials", "({no}-1)*{constants.sizes}+{pick_at}"), "second": At("trials", "({no}-1)*{constants.sizes}+{next_at}"),
    "pump": At("pumps", "{film.pump_at}"), "paint": At("coatings", "{film.coating_at}")}, "sprayed")
