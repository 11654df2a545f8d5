"""Dew point and whether a surface is dry enough to coat (E24)."""

from math import exp, log

ICE = 273.15  # K at 0 C
SATURATION = 611.2  # Pa over water at 0 C, WMO-No. 8 (restated)


def saturation_pressure(air, slope=17.62, offset=243.12):
    """Pressure of saturated water vapour over water (Magnus form, WMO-No. 8, restated).

        pressure = 611.2 Pa * exp(slope * t / (offset + t)), t in degrees Celsius

    Parameters
    ----------
    air : temperature of the air [K]
    slope : first coefficient [-]
    offset : second coefficient [K]

    Returns
    -------
    pressure [Pa]

    Notes
    -----
    Stated for -45 to 60 C.

    Examples
    --------
    >>> round(saturation_pressure(273.15), 1)
    611.2
    """
    degrees = air - ICE
    return SATURATION * exp(slope * degrees / (offset + degrees))


def magnus(degrees, humidity, slope, offset):
    """Exponent of the Magnus form for moist air (WMO-No. 8, restated).

        magnus = ln(humidity) + slope * degrees / (offset + degrees)

    Parameters
    ----------
    degrees : temperature of the air in degrees Celsius [K]
    humidity : relative humidity, above 0 and up to 1 [-]
    slope : first coefficient [-]
    offset : second coefficient [K]

    Returns
    -------
    exponent [-]

    Examples
    --------
    >>> magnus(0.0, 1.0, 17.62, 243.12)
    0.0
    """
    return log(humidity) + slope * degrees / (offset + degrees)


def dew_point(air, humidity, slope=17.62, offset=243.12):
    """Temperature at which the water in the air begins to settle on a surface (Magnus form, WMO-No. 8, restated).

        g = ln(humidity) + slope * t / (offset + t), dew point = offset * g / (slope - g) in degrees Celsius

    Parameters
    ----------
    air : temperature of the air [K]
    humidity : relative humidity, above 0 and up to 1 [-]
    slope : first coefficient [-]
    offset : second coefficient [K]

    Returns
    -------
    dew point [K]

    Examples
    --------
    >>> round(dew_point(293.15, 0.5) - 273.15, 2)
    9.26
    """
    gamma = magnus(air - ICE, humidity, slope, offset)
    return ICE + offset * gamma / (slope - gamma)


def dry_enough(surface, dew_point, margin):
    """Whether a surface is far enough above the dew point to be coated: 3 C, 5 F (FHWA-RD-98-084; MIL-HDBK-1110 9.6.6).

        surface >= dew_point + margin

    Parameters
    ----------
    surface : temperature of the surface [K]
    dew_point : dew point of the air beside it [K]
    margin : how far above it must be [K]

    Returns
    -------
    True or False [-]

    Examples
    --------
    >>> dry_enough(290.0, 285.0, 3.0), dry_enough(287.0, 285.0, 3.0)
    (True, False)
    """
    return surface >= dew_point + margin
