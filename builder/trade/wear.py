"""How long a nozzle lives, when replacing it pays, and how worn a used one is (E13-E15, E20)."""


def endurance(life, orifice, life_orifice, life_pressure):
    """Life of a size times the pressure it is stated at: erosion per wall perimeter to a relative growth (E13).

    life [m3]; orifice, life_orifice [m]; life_pressure [Pa]. Returns [m3 Pa].
    """
    return life * (orifice / life_orifice) ** 2 * life_pressure


def life(endurance, pressure, abrasion):
    """Volume through a nozzle until it is worn out (E13). [m3 Pa], [Pa], [-]. Returns [m3]."""
    return endurance / (pressure * abrasion)


def change_cost(nozzle_price, change_time, wage):
    """Cost of one replacement (E14). nozzle_price [money]; change_time [s]; wage [money/s]. Returns [money]."""
    return nozzle_price + change_time * wage


def waste_rate(excess, paint_price, thinning, slow, wage, flow):
    """Cost per volume sprayed that a worn-out nozzle adds, paint and time (E14).

    excess, thinning, slow [-]; paint_price [money/m3]; wage: of one gun's people [money/s]; flow [m3/s].
    Returns [money/m3].
    """
    return excess * paint_price / (1 + thinning) + slow * wage / flow


def interval(life, change_cost, waste_rate):
    """Volume after which replacing is cheapest: waste grows linearly from 0 to `waste_rate` at life (E14).

    life [m3]; change_cost [money]; waste_rate [money/m3]. Returns [m3], at most life; life where nothing is wasted.
    """
    if waste_rate == 0:
        return life
    return min(life, (2 * change_cost * life / waste_rate) ** 0.5)


def mean_wear(interval, life):
    """Mean wear over an interval, wear growing linearly to 1 at life: what is lost at life times this is lost on average (E14: over, drag).

    interval, life [m3]. Returns [-].
    """
    return interval / (2 * life)


def cost(paint, over, paint_price, labour, wage, material, change_cost, interval):
    """Cost per coated area and coat: paint, hands and nozzle (E15).

    paint, material [m]; over [-]; paint_price [money/m3]; labour [s/m2]; wage [money/s]; change_cost [money];
    interval [m3]. Returns [money/m2].
    """
    return paint * (1 + over) * paint_price + labour * wage + material * (1 + over) * change_cost / interval


def worn_by_volume(used, life):
    """Share of a nozzle's life that a volume has taken (E20). [m3], [m3]. Returns [-]."""
    return used / life


def worn_by_fan(fan, new_fan, worn_fan):
    """Share of wear that a narrowed fan shows; 1 at `worn_fan` of the new width (E20). [m], [m], [-]. Returns [-]."""
    return max(0.0, (1 - fan / new_fan) / (1 - worn_fan))


def worn_by_flow(flow, new_flow, worn_orifice):
    """Share of wear that a grown flow shows; 1 where the orifice has grown to `worn_orifice` of the new (E20). Returns [-]."""
    return max(0.0, (flow / new_flow - 1) / (worn_orifice**2 - 1))
