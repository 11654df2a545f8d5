"""Volatile organic compounds of a coating as sprayed."""


def voc_less_water(volatile_mass, water_mass, volume, water_density):
    """VOC content less water, as regulations limit it (40 CFR 59, symbols read, form from memory).

        voc = (volatile_mass - water_mass) / (volume - water_mass / water_density)

    Parameters
    ----------
    volatile_mass : all that evaporates, water included [kg]
    water_mass : water in it [kg]
    volume : volume of the coating [m**3]
    water_density : density of water [kg/m**3]

    Returns
    -------
    VOC less water [kg/m**3]

    Examples
    --------
    500 g volatile, 400 g of it water, in one litre.

    >>> round(voc_less_water(0.5, 0.4, 0.001, 1000.0), 2)
    166.67
    """
    return (volatile_mass - water_mass) / (volume - water_mass / water_density)


def thinned_voc(voc, thinning, thinner_voc):
    """VOC content of a coating that was thinned (derived: mass over volume, volumes adding up).

        voc = (voc + thinning * thinner_voc) / (1 + thinning)

    Parameters
    ----------
    voc : of the coating as bought [kg/m**3]
    thinning : thinner over coating, by volume [-]
    thinner_voc : of the thinner, 0 for water [kg/m**3]

    Returns
    -------
    VOC as sprayed [kg/m**3]

    Examples
    --------
    >>> thinned_voc(400.0, 0.25, 0.0)
    320.0
    """
    return (voc + thinning * thinner_voc) / (1 + thinning)
