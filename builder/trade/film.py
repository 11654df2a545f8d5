"""Wet film, loss and what a coated area takes of material and paint (E4-E8, E47). Nothing here checks its range:
callers do.
"""


def wet_film(dry_film, volume_solids, thinning):
    """Wet film that dries to `dry_film` (E4; ASTM D4414-95(2020) 4.2, read).

        wet_film = dry_film * (1 + thinning) / volume_solids

    For volume_solids above 0 and up to 1.

    Parameters
    ----------
    dry_film : film after drying [m]
    volume_solids : share of the unthinned volume that stays [-]
    thinning : thinner over paint, by volume [-]

    Returns
    -------
    film as laid [m]

    Examples
    --------
    2.8 mil dry at 35 % is 8 mil wet [2], and 8.8 mil when thinned by a tenth.

    >>> [round(wet_film(71.12e-6, 0.35, thinning) * 1e6, 2) for thinning in (0.0, 0.1)]
    [203.2, 223.52]

    References
    ----------
    [1] ASTM D4414-95(2020), 4.2 (read).
    [2] MIL-HDBK-1110, procedure 13 (read).
    """
    return dry_film * (1 + thinning) / volume_solids


def wet_film_of_spread(spread, thinning):
    """Wet film of a coating bought by spread (E4; derived).

        wet_film_of_spread = (1 + thinning) / spread

    Parameters
    ----------
    spread : area over volume of unthinned material [1/m]
    thinning : thinner over paint, by volume [-]

    Returns
    -------
    film as laid [m]

    Examples
    --------
    2.5 m2/L unthinned, then 10 m2/L thinned by a tenth.

    >>> round(wet_film_of_spread(2500.0, 0.0) * 1e6, 6), round(wet_film_of_spread(10000.0, 0.1) * 1e6, 6)
    (400.0, 110.0)
    """
    return (1 + thinning) / spread


def theoretical_spread(dry_film, volume_solids):
    """Area one volume of unthinned paint covers without loss (E5; derived).

        theoretical_spread = volume_solids / dry_film

    Parameters
    ----------
    dry_film : film after drying [m]
    volume_solids : share of the unthinned volume that stays [-]

    Returns
    -------
    area over volume [1/m]

    Examples
    --------
    65 % at 125 um is 5.20 m2/L.

    >>> round(theoretical_spread(125e-6, 0.65), 6)
    5200.0
    """
    return volume_solids / dry_film


def mean_uptake(uptake, coats):
    """Uptake averaged over the coats, the first alone meeting the bare face (E8; derived).

        mean_uptake = (uptake + coats - 1) / coats

    Parameters
    ----------
    uptake : material a bare face takes, over that of a sealed one [-]
    coats : number of coats, 1 or more [-]

    Returns
    -------
    mean of the coats [-]

    Examples
    --------
    >>> mean_uptake(1.5, 2)
    1.25
    """
    return (uptake + coats - 1) / coats


def loss(surface_loss, family_factor, exposure_factor):
    """Share of the sprayed material that misses the work as overspray and bounce (E6; common practice, no source).

        loss = surface_loss * family_factor * exposure_factor

    May exceed 1: callers leave a row blank at 0.95 and more.

    Parameters
    ----------
    surface_loss : share lost on this surface under shelter [-]
    family_factor : of the nozzle family [-]
    exposure_factor : of the wind [-]

    Returns
    -------
    share lost [-]

    Examples
    --------
    >>> loss(0.25, 0.5, 2.0)
    0.25
    """
    return surface_loss * family_factor * exposure_factor


def lap(fan, overlap):
    """Advance from one pass to the next (E7; derived).

        lap = fan * (1 - overlap)

    Parameters
    ----------
    fan : width of the pattern [m]
    overlap : share of it that the next pass covers again, below 1 [-]

    Returns
    -------
    advance [m]

    Examples
    --------
    A fan of 10 in at half an overlap, the usual one [1].

    >>> lap(0.254, 0.5)
    0.127

    References
    ----------
    [1] MIL-HDBK-1110, 9.6.8.1 (read).
    """
    return fan * (1 - overlap)


def band(fan, clear_width):
    """Width sprayed to cover a face `clear_width` wide (E7; a quarter of the fan past the edges: common practice, no
    source).

        band = max(fan, clear_width + fan / 4)

    A quarter of the fan is half a lap at the usual overlap of a half. It does not hang on the overlap, so that more
    overlap never seems to save paint.

    Parameters
    ----------
    fan : width of the pattern [m]
    clear_width : unbroken width of the face [m]

    Returns
    -------
    width sprayed [m]

    Examples
    --------
    >>> band(0.25, 0.75), band(0.25, 0.1)
    (0.8125, 0.25)
    """
    return max(fan, clear_width + fan / 4)


def step(fan, clear_width, lap, slack=0.0):
    """Width that one pass covers: the fan where one pass does, else the lap (E7; derived).

        step = fan if clear_width <= fan * (1 + slack) else lap

    Parameters
    ----------
    fan : width of the pattern [m]
    clear_width : unbroken width of the face [m]
    lap : advance from pass to pass [m]
    slack : what rounding may add to the width [-]

    Returns
    -------
    width of one pass [m]

    Examples
    --------
    >>> step(0.25, 0.25, 0.125), step(0.25, 0.26, 0.125), step(0.25, 0.26, 0.125, 0.1)
    (0.25, 0.125, 0.25)
    """
    return fan if clear_width <= fan * (1 + slack) else lap


def miss(solid, clear_width, band):
    """Share of the pattern that passes the face by (E7; derived).

        miss = 1 - solid * clear_width / band

    Parameters
    ----------
    solid : share of the face that is there, less than 1 for railings [-]
    clear_width : unbroken width of the face, up to `band` [m]
    band : width sprayed [m]

    Returns
    -------
    share missing the face [-]

    Examples
    --------
    >>> miss(0.5, 1.5, 2.0)
    0.625
    """
    return 1 - solid * clear_width / band


def on_face(wet_film, loss, miss, practical):
    """Film that stays on the face (E47; derived).

        on_face = wet_film * (1 - loss) * (1 - miss) where the spread is practical, else wet_film

    A practical spread, as most labels state it, has the loss in it: what is sprayed is `wet_film`, less stays.

    Parameters
    ----------
    wet_film : of what is stated, dry film or spread [m]
    loss : share lost as overspray and bounce, or by hand [-]
    miss : share sprayed past the edges of the face [-]
    practical : 1 where the film comes of a practical spread, else 0 [-]

    Returns
    -------
    film [m]

    Examples
    --------
    1 L on 10 m2, a fifth lost: 80 of 100 um.

    >>> [round(on_face(1e-4, 0.2, 0.0, practical) * 1e6, 9) for practical in (0, 1)]
    [100.0, 80.0]
    """
    return wet_film * (1 - loss) * (1 - miss) if practical else wet_film


def material(wet_film, mean_uptake, loss, miss):
    """Thinned material per coated area and coat (E8; derived).

        material = wet_film * mean_uptake / ((1 - loss) * (1 - miss))

    For loss and miss below 1.

    Parameters
    ----------
    wet_film : film as laid [m]
    mean_uptake : uptake averaged over the coats [-]
    loss : share lost as overspray and bounce [-]
    miss : share passing the face by [-]

    Returns
    -------
    volume over area [m]

    Examples
    --------
    >>> round(material(100e-6, 1.2, 0.25, 0.2) * 1e6, 6)
    200.0
    """
    return wet_film * mean_uptake / ((1 - loss) * (1 - miss))


def paint(material, thinning):
    """The unthinned part of a material (E8; derived).

        paint = material / (1 + thinning)

    Parameters
    ----------
    material : thinned volume, or volume per area [any]
    thinning : thinner over paint, by volume [-]

    Returns
    -------
    unthinned volume, in the unit of the material [any]

    Examples
    --------
    >>> paint(10.0, 0.25)
    8.0
    """
    return material / (1 + thinning)


def thinned_density(density, thinning, thinner_density):
    """Density as sprayed, the volumes adding up (E9; derived).

        thinned_density = (density + thinning * thinner_density) / (1 + thinning)

    Parameters
    ----------
    density : of the paint as bought [kg/m**3]
    thinning : thinner over paint, by volume [-]
    thinner_density : of the thinner [kg/m**3]

    Returns
    -------
    density of the mixture [kg/m**3]

    Examples
    --------
    >>> thinned_density(1200.0, 0.25, 1000.0)
    1160.0
    """
    return (density + thinning * thinner_density) / (1 + thinning)
