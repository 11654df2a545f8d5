"""Readings of the day, on Schedule: may this face be coated now? Dew point against the surface (E24)."""

from builder.records.kinds import KINDS
from builder.records.sentences import VERDICTS
from builder.records.wording import judged
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C
from builder.sheets.judging import beside_inputs
from builder.stages.plan import READINGS_TOP, SHEET
from builder.trade import weather

TOP, PLACE = 5, 2  # the first reading on the page


# fmt: off
def weather_blocks(units):
    """Readings with what is wrong beside them and what follows below; how it follows stands on the workings."""
    kind, (dry, damp) = KINDS["weather"], VERDICTS
    keys = [one.key for one in judged(kind)]
    faults = "+".join(f"{{weather.bad_{key}}}" for key in keys)
    told = [f"{{weather.told_{key}}}" for key in keys]
    first = told[0] + "".join(
        f'&REPT({one}&"",--({"&".join(told[:at])}=""))' for at, one in enumerate(told[1:], start=1))

    def read(formula):
        return f'IF({{weather.live}}="","",{formula})'

    inputs, *flags = beside_inputs(kind, units, PLACE)
    return (
        inputs, *flags,
        Block("weather", kind.sheet, (
            C("dew_point", "Dew point", "temperature",
              read("{terms.dew_offset}*{weather.gamma}/({terms.dew_slope}-{weather.gamma})/{constants.degree}"
                   "+{constants.freezing}")),
            C("least", "Surface at least", "temperature", read("{dew_point}+{terms.dew_margin}")),
            C("verdict", "May it be coated?", "text",
              read(f'REPT("{dry}",--({{weather.surface}}-{{least}}>=-{{terms.slack}}))'
                   f'&REPT("{damp}",--({{weather.surface}}-{{least}}<-{{terms.slack}}))')),
        ), form="upright", place=PLACE, top=TOP + len(keys)),
        Block("weather", SHEET, (
            C("faults", "Faults of the readings", "count", faults, ""),
            C("fault", "First of them", "text", first, ""),
            C("sound", "Readings sound", "count", 'IF({faults}=0,1,"")', ""),
            C("live", "All three read", "count",
              'IF((N({sound})=1)*(N({terms.sound})=1)*(ISNUMBER({weather.air})*ISNUMBER({weather.humidity})'
              '*ISNUMBER({weather.surface})=1),1,"")', ""),
            C("air_c", "Air, degrees Celsius", "number", "({weather.air}-{constants.freezing})*{constants.degree}"),
            C("gamma", "Magnus exponent", "number",
              "LN({weather.humidity})+{terms.dew_slope}*{air_c}/({terms.dew_offset}+{air_c})"),
        ), when="live", form="upright", top=READINGS_TOP),
    )
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
