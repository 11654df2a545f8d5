"""How long a nozzle lives, when replacing it pays, how worn a used one is, and the guard it sits in (E13-E15, E20, E47,
E48). Nothing here checks its range: callers do.
"""


def endurance(life, orifice, life_orifice, life_pressure):
    """Life of a size times the pressure it is stated at: wall eroded to a relative growth (E13; common practice, no
    source).

        endurance = life * (orifice / life_orifice)**2 * life_pressure

    Parameters
    ----------
    life : volume until worn out, of the size `life_orifice` at `life_pressure` [m**3]
    orifice : of this size [m]
    life_orifice : of the size whose life is known [m]
    life_pressure : pressure at which it is known [Pa]

    Returns
    -------
    volume times pressure [m**3*Pa]

    Examples
    --------
    Three times the orifice, nine times the volume.

    >>> round(endurance(0.2, 0.0009, 0.0003, 15e6), 3)
    27000000.0
    """
    return life * (orifice / life_orifice) ** 2 * life_pressure


def life(endurance, pressure, abrasion):
    """Volume through a nozzle until it is worn out (E13; common practice, no source).

        life = endurance / (pressure * abrasion)

    Parameters
    ----------
    endurance : volume times pressure [m**3*Pa]
    pressure : at the gun while spraying [Pa]
    abrasion : of the coating, 1 for the one the life is stated for [-]

    Returns
    -------
    volume until worn out [m**3]

    Examples
    --------
    >>> life(12e6, 20e6, 1.5)
    0.4
    """
    return endurance / (pressure * abrasion)


def change_cost(nozzle_price, change_time, wage):
    """Cost of one replacement (E14, E47; derived).

        change_cost = nozzle_price + change_time * wage

    Parameters
    ----------
    nozzle_price : of a new nozzle [money]
    change_time : time it takes, in which the whole team waits [s]
    wage : of the team [money/s]

    Returns
    -------
    cost [money]

    Examples
    --------
    Six minutes at 45 an hour.

    >>> change_cost(34.0, 360.0, 0.0125)
    38.5
    """
    return nozzle_price + change_time * wage


def waste_rate(excess, paint_price, thinning, slow, wage, flow):
    """Cost per volume sprayed that a worn-out nozzle adds, paint and time (E14; derived; 5 % and 10 %: common practice,
    no source).

        waste_rate = excess * paint_price / (1 + thinning) + slow * wage / flow

    Parameters
    ----------
    excess : extra material when worn out, net of the larger flow [-]
    paint_price : of unthinned paint [money/m**3]
    thinning : thinner over paint, by volume [-]
    slow : extra trigger time when worn out, net of the larger flow [-]
    wage : of one gun's people [money/s]
    flow : of one gun, nozzle new [m**3/s]

    Returns
    -------
    cost over volume sprayed [money/m**3]

    Examples
    --------
    Paint 0.05 * 10000 / 1.25 = 400, time 0.1 * 0.0125 / 1.25e-5 = 100.

    >>> round(waste_rate(0.05, 10000.0, 0.25, 0.1, 0.0125, 1.25e-5), 6)
    500.0
    """
    return excess * paint_price / (1 + thinning) + slow * wage / flow


def interval(life, change_cost, waste_rate):
    """Volume after which replacing is cheapest, waste growing linearly from 0 to `waste_rate` at life (E14;
    order-quantity form, derived).

        interval = min(life, sqrt(2 * change_cost * life / waste_rate)), life where waste_rate is 0

    Sprayed volume v costs change_cost / v + waste_rate * v / (2 * life) per volume; the interval is where that is
    least.

    Parameters
    ----------
    life : volume until worn out [m**3]
    change_cost : of one replacement [money]
    waste_rate : cost over volume sprayed that a worn-out nozzle adds [money/m**3]

    Returns
    -------
    volume until replacing pays [m**3]

    Examples
    --------
    sqrt(2 * 25 * 0.2 / 1000); dear to change, and nothing wasted: the whole life.

    >>> [round(interval(0.2, cost, waste), 9) for cost, waste in ((25.0, 1000.0), (500.0, 1000.0), (25.0, 0.0))]
    [0.1, 0.2, 0.2]

    References
    ----------
    [1] The economic order quantity: any text on stock keeping (from memory).
    """
    if waste_rate == 0:
        return life
    return min(life, (2 * change_cost * life / waste_rate) ** 0.5)


def mean_wear(interval, life):
    """Mean wear over an interval, growing linearly to 1 at life (E14; derived).

        mean_wear = interval / (2 * life)

    What is lost at life (excess, slow) times this is lost on average (over, drag).

    Parameters
    ----------
    interval : volume until replaced, up to `life` [m**3]
    life : volume until worn out [m**3]

    Returns
    -------
    mean share of wear [-]

    Examples
    --------
    >>> mean_wear(0.1, 0.2)
    0.25
    """
    return interval / (2 * life)


def cost(paint, over, paint_price, labor, wage, material, change_cost, interval):
    """Cost per coated area and coat: paint, hands and nozzle (E15; derived).

        cost = paint * (1 + over) * paint_price + labor * wage + material * (1 + over) * change_cost / interval

    Parameters
    ----------
    paint : unthinned volume over coated area [m]
    over : extra material by mean wear [-]
    paint_price : of unthinned paint, 0 where the owner supplies it [money/m**3]
    labor : all hands' time over coated area [s/m**2]
    wage : of one of them [money/s]
    material : thinned volume over coated area [m]
    change_cost : of one replacement [money]
    interval : volume until replaced [m**3]

    Returns
    -------
    cost over coated area [money/m**2]

    Examples
    --------
    Paint 1.1, hands 0.25, nozzle 2.2e-4 * 40 / 0.1 = 0.088.

    >>> round(cost(1e-4, 0.1, 10000.0, 20.0, 0.0125, 2e-4, 40.0, 0.1), 6)
    1.438
    """
    return paint * (1 + over) * paint_price + labor * wage + material * (1 + over) * change_cost / interval


def guard_share(guns, area):
    """Guards over coated area of a coat: one for each gun, bought once. Times the price of a guard that is not on the
    van, it is what a size of that guard adds to the cost per area (E48; guards of different families do not take each
    other's nozzles, while their thread fits any gun: common practice, no source).

        guard_share = guns / area, 0 where nothing is coated

    Parameters
    ----------
    guns : that spray the coat at once [-]
    area : coated, times coats [m**2]

    Returns
    -------
    guards over coated area [1/m**2]

    Examples
    --------
    Two guns, two coats on 200 m2; nothing to coat yet.

    >>> [guard_share(2, area) for area in (400.0, 0.0)]
    [0.005, 0.0]
    """
    return guns / area if area else 0.0


def worn_by_volume(used, life):
    """Share of a nozzle's life that a volume has taken (E20; derived).

        worn_by_volume = used / life

    Parameters
    ----------
    used : volume it has sprayed [m**3]
    life : volume until worn out [m**3]

    Returns
    -------
    share of wear, above 1 past its life [-]

    Examples
    --------
    >>> worn_by_volume(0.05, 0.2)
    0.25
    """
    return used / life


def worn_by_fan(fan, new_fan, worn_fan):
    """Share of wear that a narrowed fan shows (E20; a quarter narrower is worn out: common practice, no source).

        worn_by_fan = max(0, (1 - fan / new_fan) / (1 - worn_fan))

    Parameters
    ----------
    fan : width it sprays now [m]
    new_fan : width of a new one [m]
    worn_fan : width when worn out over that of a new one, below 1 [-]

    Returns
    -------
    share of wear, 0 for a wider fan, above 1 past its life [-]

    Examples
    --------
    Half way, wider than new, and 12 in gone to 9.

    >>> [round(worn_by_fan(fan, 0.3048, 0.75), 9) for fan in (0.2667, 0.31, 0.2286)]
    [0.5, 0.0, 1.0]
    """
    return max(0.0, (1 - fan / new_fan) / (1 - worn_fan))


def worn_by_flow(flow, new_flow, worn_orifice):
    """Share of wear that a grown flow shows (E20; flow by orifice squared, derived; 17/15: common practice, no source).

        worn_by_flow = max(0, (flow / new_flow - 1) / (worn_orifice**2 - 1))

    Parameters
    ----------
    flow : what it sprays now, at the same pressure [m**3/s]
    new_flow : of a new one [m**3/s]
    worn_orifice : orifice when worn out over that of a new one, above 1 [-]

    Returns
    -------
    share of wear, 0 for a smaller flow, above 1 past its life [-]

    Examples
    --------
    22 % more where 44 % is worn out; less than new; the limit of 10 % for field sprayers [1].

    >>> [round(worn_by_flow(flow, 1e-5, worn), 3) for flow, worn in ((1.22e-5, 1.2), (0.9e-5, 1.2), (1.1e-5, 1.0488))]
    [0.5, 0.0, 1.0]

    References
    ----------
    [1] USGA Green Section, 2016: a sprayer's nozzles are replaced at 10 % more flow (read).
    """
    return max(0.0, (flow / new_flow - 1) / (worn_orifice**2 - 1))
