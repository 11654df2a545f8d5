"""Flow, hose and hand (E9-E12)."""
from math import pi


def flow(cd, orifice, pressure, density):
    """Flow through a nozzle, the orifice law (E9).

    cd [-]; orifice [m]; pressure: at the gun [Pa]; density: as sprayed [kg/m3]. Returns [m3/s].
    """
    return cd * pi / 4 * orifice**2 * (2 * pressure / density) ** 0.5


def hose_run(length, bore):
    """What length and bore of a hose contribute to its resistance (E10). length, bore [m]. Returns [1/m3]."""
    return length / bore**4


def resistance(viscosity, guns, run):
    """Pressure lost in hose and whip per flow of one gun: Hagen-Poiseuille, laminar (E10).

    viscosity [Pa s]; guns on the hose [-]; run: sum of `hose_run` [1/m3]. Returns [Pa s/m3].
    """
    return 128 / pi * viscosity * guns * run


def set_pressure(pressure, resistance, flow):
    """What the pump must show so that the gun has `pressure` (E10). [Pa], [Pa s/m3], [m3/s]. Returns [Pa]."""
    return pressure + resistance * flow


def reynolds(density, flow, bore, viscosity):
    """Reynolds number in a hose: laminar below about 2000 (E10).

    density [kg/m3]; flow in the hose [m3/s]; bore [m]; viscosity [Pa s]. Returns [-].
    """
    return 4 * density * flow / (pi * bore * viscosity)


def hose_volume(length, bore):
    """What a hose holds. length, bore [m]. Returns [m3]."""
    return pi / 4 * length * bore**2


def gun_speed(flow, loss, wet_film, step):
    """Hand speed that lays `wet_film` (E11).

    flow [m3/s]; loss [-]; wet_film: times uptake on a bare face [m]; step [m]. Returns [m/s].
    """
    return flow * (1 - loss) / (wet_film * step)


def gun_time(material, drag, flow, work_ratio, handling):
    """Time of one gun per coated area and coat: trigger and handling (E12).

    material [m]; drag [-]; flow [m3/s]; work_ratio: work over coated area [-]; handling [s/m2]. Returns [s/m2].
    """
    return material * (1 + drag) / flow + work_ratio * handling


def elapsed(gun_time, guns, roll_time):
    """Time on the clock per coated area: guns side by side, or the rollers behind them where they are slower (E12).

    gun_time, roll_time (0 where nobody rolls) [s/m2]; guns [-]. Returns [s/m2].
    """
    return max(gun_time / guns, roll_time)
