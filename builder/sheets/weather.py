"""Weather: may this face be coated now? Dew point against the surface (E24)."""
from builder.records.kinds import KINDS
from builder.sheets.grammar import Column as C
from builder.sheets.judging import upright
from builder.trade.weather import VERDICTS


def weather(units):
    dry, damp = VERDICTS
    return upright(KINDS["weather"], units, (
        C("live", "All three read", "count", 'IF((N({ready})=1)*(N({terms.ready})=1)*(ISNUMBER({air})*ISNUMBER({humidity})*ISNUMBER({surface})=1),1,"")', ""),
        C("air_c", "Air, degrees Celsius", "number", "({air}-{constants.freezing})*{constants.degree}", "live"),
        C("gamma", "Magnus exponent", "number", "LN({humidity})+{terms.dew_slope}*{air_c}/({terms.dew_offset}+{air_c})", "live"),
        C("dew_point", "Dew point", "temperature",
          "{terms.dew_offset}*{gamma}/({terms.dew_slope}-{gamma})/{constants.degree}+{constants.freezing}", "live"),
        C("least", "Least surface temperature", "temperature", "{dew_point}+{terms.dew_margin}", "live"),
        C("verdict", "May it be coated", "text", f'IF({{surface}}-{{least}}>=-{{terms.slack}},"{dry}","{damp}")', "live"),
    ))
