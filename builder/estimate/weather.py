"""Dew point against the surface (E24)."""
from builder.trade import weather


def readings(est):
    row = est.rows["weather"][0]
    read = row.air is not None and row.humidity is not None and row.surface is not None
    row.live = 1.0 if row.ready and est.terms.ready and read else None
    if row.live:
        terms = est.terms
        row.air_c = row.air - weather.ICE
        row.gamma = weather.magnus(row.air_c, row.humidity, terms.dew_slope, terms.dew_offset)
        row.dew_point = weather.dew_point(row.air, row.humidity, terms.dew_slope, terms.dew_offset)
        row.least = row.dew_point + terms.dew_margin
        row.verdict = weather.VERDICTS[0 if weather.dry_enough(row.surface, row.dew_point, terms.dew_margin - terms.slack) else 1]
