"""Weather: may this face be coated now? Dew point against the surface (E24)."""

from builder.records.kinds import KINDS
from builder.records.sentences import VERDICTS
from builder.sheets.grammar import Column as C
from builder.sheets.judging import upright
from builder.trade import weather


# fmt: off
def weather_blocks(units):
    dry, damp = VERDICTS
    return upright(KINDS["weather"], units, (
        C("live", "All three read", "count", 'IF((N({sound})=1)*(N({terms.sound})=1)*(ISNUMBER({air})'
                                             '*ISNUMBER({humidity})*ISNUMBER({surface})=1),1,"")', ""),
        C("air_c", "Air, degrees Celsius", "number", "({air}-{constants.freezing})*{constants.degree}", "live"),
        C("gamma", "Magnus exponent", "number", "LN({humidity})+{terms.dew_slope}*{air_c}/({terms.dew_offset}+{air_c})",
          "live"),
        C("dew_point", "Dew point", "temperature",
          "{terms.dew_offset}*{gamma}/({terms.dew_slope}-{gamma})/{constants.degree}+{constants.freezing}", "live"),
        C("least", "Lowest surface temperature", "temperature", "{dew_point}+{terms.dew_margin}", "live"),
        C("verdict", "May it be coated", "text", f'IF({{surface}}-{{least}}>=-{{terms.slack}},"{dry}","{damp}")',
          "live"),
    ))
# fmt: on


def readings(est):
    row = est.rows["weather"][0]
    read = row.air is not None and row.humidity is not None and row.surface is not None
    row.live = 1.0 if row.sound and est.terms.sound and read else None
    if row.live:
        terms = est.terms
        row.air_c = row.air - weather.ICE
        row.gamma = weather.magnus(row.air_c, row.humidity, terms.dew_slope, terms.dew_offset)
        row.dew_point = weather.dew_point(row.air, row.humidity, terms.dew_slope, terms.dew_offset)
        row.least = row.dew_point + terms.dew_margin
        row.verdict = VERDICTS[
            0 if weather.dry_enough(row.surface, row.dew_point, terms.dew_margin - terms.slack) else 1
        ]
