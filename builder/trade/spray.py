"""Flow, hose and hand (E9-E12, E29, E38). Nothing here checks its range: callers do."""

from math import pi


def flow(cd, orifice, pressure, density):
    """Flow through a nozzle, the orifice law (E9; NFPA 291, restated; cd 0.80: common practice, no source).

        flow = cd * (pi / 4) * orifice**2 * sqrt(2 * pressure / density)

    Thick paint is taken to flow as its density alone says. A sharp-edged plate has cd 0.62 [2].

    Parameters
    ----------
    cd : discharge coefficient [-]
    orifice : diameter of a round hole of the same area [m]
    pressure : at the gun while spraying [Pa]
    density : as sprayed [kg/m**3]

    Returns
    -------
    volume over time [m**3/s]

    Examples
    --------
    Water at 20 C and 2000 psi through 15 thou, in L/min: NFPA's 0.1862 gal/min for 0.62; 0.24 gal/min for 0.80.

    >>> [round(flow(cd, 0.000381, 13.7895e6, 998.2067) * 60000, 3) for cd in (0.62, 0.80)]
    [0.705, 0.91]

    References
    ----------
    [1] NFPA 291, flow from an open orifice: Q = 29.84 c d^2 sqrt(P) in gal/min, in, psi (restated).
    [2] Encyclopaedia Britannica, 11th ed., "Hydraulics", 17 (read).
    """
    return cd * pi / 4 * orifice**2 * (2 * pressure / density) ** 0.5


def hose_run(length, bore):
    """What length and bore of a hose contribute to its resistance (E10; Hagen-Poiseuille, from memory).

        hose_run = length / bore**4

    Parameters
    ----------
    length : length of the hose [m]
    bore : inside diameter [m]

    Returns
    -------
    length over bore to the fourth [1/m**3]

    Examples
    --------
    >>> hose_run(16.0, 0.5)
    256.0
    """
    return length / bore**4


def guns_on_hose(guns, hoses):
    """Guns whose paint a hose carries (E38; derived).

        guns_on_hose = guns / min(guns, hoses)

    Behind a hose each gun has a whip of its own, which carries its flow alone.

    Parameters
    ----------
    guns : at work [-]
    hoses : from the pump, side by side [-]

    Returns
    -------
    guns a hose, at least 1 [-]

    Examples
    --------
    >>> [guns_on_hose(*pair) for pair in ((2, 1), (2, 2), (1, 3), (3, 2))]
    [2.0, 1.0, 1.0, 1.5]
    """
    return guns / min(guns, hoses)


def resistance(viscosity, guns, run):
    """Pressure lost in a hose, or in a whip, per flow of one gun (E10, E38; Hagen-Poiseuille, from memory).

        resistance = (128 / pi) * viscosity * guns * run

    Holds for laminar flow, `reynolds` below about 2000; above it more is lost.

    Parameters
    ----------
    viscosity : as it moves through the hose, at about 500 1/s [Pa*s]
    guns : guns whose paint it carries, 1 for a whip [-]
    run : its `hose_run` [1/m**3]

    Returns
    -------
    pressure over flow of one gun [Pa*s/m**3]

    Examples
    --------
    100 ft of 1/4 in hose, 250 cP, 0.5 gal/min: 874 psi, 6.02 MPa; twice that for two guns.

    >>> [round(resistance(0.25, guns, hose_run(30.48, 0.00635)) * 3.1545e-5 / 1e6, 2) for guns in (1, 2)]
    [6.02, 12.05]

    References
    ----------
    [1] Hagen-Poiseuille: any text on fluid mechanics (from memory).
    """
    return 128 / pi * viscosity * guns * run


def set_pressure(pressure, resistance, flow):
    """What the pump must show so that the gun has `pressure` (E10; derived).

        set_pressure = pressure + resistance * flow

    Parameters
    ----------
    pressure : at the gun while spraying [Pa]
    resistance : pressure lost over flow of one gun [Pa*s/m**3]
    flow : of one gun [m**3/s]

    Returns
    -------
    pressure at the pump [Pa]

    Examples
    --------
    >>> set_pressure(15e6, 2e11, 1e-5)
    17000000.0
    """
    return pressure + resistance * flow


def flow_share(drop, pressure, gauge):
    """Flow while the gauge shows a pressure, over the flow at the one worked out (E10 and E9 together; derived).

        share**2 * pressure + share * drop = gauge

    The flow grows with the root of the pressure at the gun, what the hose takes off with the flow itself.

    Parameters
    ----------
    drop : pressure that hose and whip take off at the flow worked out [Pa]
    pressure : at the gun, at that flow [Pa]
    gauge : pressure that the pump shows instead [Pa]

    Returns
    -------
    flow over flow [-]

    Examples
    --------
    At gauge = pressure + drop it is 1; with 3 at the gun and 2 in the hose, 16 on the gauge give 2: 4 * 3 + 2 * 2.

    >>> [flow_share(2e6, 3e6, gauge) for gauge in (5e6, 16e6)]
    [1.0, 2.0]
    """
    return 2 * gauge / (drop + (drop**2 + 4 * pressure * gauge) ** 0.5)


def reynolds(density, flow, bore, viscosity):
    """Reynolds number in a hose: laminar below about 2000 (E10; any text on fluid mechanics, from memory).

        reynolds = 4 * density * flow / (pi * bore * viscosity)

    Parameters
    ----------
    density : as sprayed [kg/m**3]
    flow : in the hose, or of one of its guns [m**3/s]
    bore : inside diameter, over its guns where the flow is that of one [m]
    viscosity : as it moves through the hose [Pa*s]

    Returns
    -------
    Reynolds number [-]

    Examples
    --------
    0.04 / (pi * 0.01 * 0.1) = 40 / pi.

    >>> round(reynolds(1000.0, 1e-5, 0.01, 0.1), 4)
    12.7324
    """
    return 4 * density * flow / (pi * bore * viscosity)


def hose_volume(length, bore):
    """What a hose holds (E18; geometry, derived).

        hose_volume = (pi / 4) * length * bore**2

    Parameters
    ----------
    length : length of the hose [m]
    bore : inside diameter [m]

    Returns
    -------
    volume [m**3]

    Examples
    --------
    50 ft of 1/4 in hose: 0.1275 gal, 0.483 L.

    >>> round(hose_volume(15.24, 0.00635) * 1000, 3)
    0.483
    """
    return pi / 4 * length * bore**2


def gun_speed(flow, loss, wet_film, step):
    """Hand speed that lays `wet_film` (E11; derived).

        gun_speed = flow * (1 - loss) / (wet_film * step)

    Parameters
    ----------
    flow : of one gun [m**3/s]
    loss : share lost as overspray and bounce, below 1 [-]
    wet_film : film as laid, times uptake on a bare face [m]
    step : width that one pass covers [m]

    Returns
    -------
    speed of the hand [m/s]

    Examples
    --------
    0.18616 gal/min, 6 mil wet, steps of 5 in, nothing lost: 119.5 ft/min; a quarter lost.

    >>> [round(gun_speed(1.17449e-5, loss, 152.4e-6, 0.127), 3) for loss in (0.0, 0.25)]
    [0.607, 0.455]
    """
    return flow * (1 - loss) / (wet_film * step)


def spot_handling(share, walk):
    """Handling of what is painted in spots, over that of as much in one piece (E29; walk: common practice, no source).

        spot_handling = (share + walk * (1 - share)) / share

    Who paints spots walks past what lies between them: `walk` is what a stretch of that takes, over the handling of as
    much that is painted.

    Parameters
    ----------
    share : part of the area that is painted, above 0 [-]
    walk : handling of what is passed over, as a part of that of what is painted [-]

    Returns
    -------
    factor on the handling of what is painted, 1 where all of it is [-]

    Examples
    --------
    A quarter painted, a third for the rest: (1/4 + 1/3 * 3/4) / (1/4); all of it painted; nothing for the rest.

    >>> [round(spot_handling(*pair), 9) for pair in ((0.25, 1 / 3), (1.0, 1 / 3), (0.25, 0.0))]
    [2.0, 1.0, 1.0]
    """
    return (share + walk * (1 - share)) / share


def hand_time(rate, handling, spots):
    """Time of one person by hand over the area that is painted, walking past the rest too (E12, E29; derived).

        hand_time = 1 / rate + handling * (spots - 1)

    A rate by hand holds the handling of what is painted. What lies between spots takes handling alone.

    Parameters
    ----------
    rate : area that one person rolls or brushes in a time [m**2/s]
    handling : time off the trigger over work area, of the surface [s/m**2]
    spots : handling of spots over that of one piece, as `spot_handling` has it [-]

    Returns
    -------
    time over the area that is painted [s/m**2]

    Examples
    --------
    20 s/m2 by brush; handling of 6 s/m2 once more for what lies between.

    >>> hand_time(0.05, 6.0, 2.0)
    26.0
    """
    return 1 / rate + handling * (spots - 1)


def gun_time(material, drag, flow, work_ratio, handling):
    """Time of one gun per coated area and coat: trigger and handling (E12; derived).

        gun_time = material * (1 + drag) / flow + work_ratio * handling

    Parameters
    ----------
    material : thinned volume over coated area [m]
    drag : time that wear adds to the trigger [-]
    flow : of one gun [m**3/s]
    work_ratio : work area over coated area [-]
    handling : time off the trigger over work area, of spots that of what lies between them too [s/m**2]

    Returns
    -------
    gun's time over coated area [s/m**2]

    Examples
    --------
    Trigger 10 s/m2, a tenth more by drag; 5 s/m2 of handling twice.

    >>> round(gun_time(200e-6, 0.1, 2e-5, 2.0, 5.0), 9)
    21.0
    """
    return material * (1 + drag) / flow + work_ratio * handling


def elapsed(gun_time, guns, roll_time):
    """Time on the clock per coated area: guns side by side, or the rollers behind them where slower (E12; derived).

        elapsed = max(gun_time / guns, roll_time)

    Parameters
    ----------
    gun_time : one gun's time over coated area [s/m**2]
    guns : guns at work [-]
    roll_time : all rollers' time over coated area, 0 where nobody rolls [s/m**2]

    Returns
    -------
    clock time over coated area [s/m**2]

    Examples
    --------
    >>> elapsed(21.0, 2, 8.0), elapsed(21.0, 3, 8.0)
    (10.5, 8.0)
    """
    return max(gun_time / guns, roll_time)


def line_fill(heel, content, recovered, hoses, thinning):
    """Unthinned paint that a load leaves in pail and hose: one coating and color in one pump (E30; derived).

        line_fill = (heel + (1 - recovered) * content * hoses) / (1 + thinning)

    Parameters
    ----------
    heel : left in pail and pump [m**3]
    content : of one hose with its whip [m**3]
    recovered : share of the hose's content won back [-]
    hoses : hoses in use [-]
    thinning : thinner over paint of the least thinned coat of the load [-]

    Returns
    -------
    volume [m**3]

    Examples
    --------
    >>> line_fill(0.25, 0.5, 0.75, 2, 0.0)
    0.5
    """
    return (heel + (1 - recovered) * content * hoses) / (1 + thinning)
