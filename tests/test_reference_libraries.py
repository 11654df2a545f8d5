"""The equations against libraries that others keep: fluids, psychrolib, stockpyl, scipy, numpy."""
from math import pi

import fluids
import numpy
import psychrolib
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp, minimize_scalar
from stockpyl.eoq import economic_order_quantity

from builder.trade import packs, spray, spread, wear, weather

SLACK = 1e-9


@pytest.mark.parametrize("orifice, pressure, density", [(0.000381, 15.2e6, 1270), (0.00023, 20e6, 1150), (0.00089, 12e6, 1460)])
def test_orifice_flow(orifice, pressure, density):
    """fluids' own orifice equation with the discharge coefficient given, from a wide pipe."""
    mass = fluids.flow_meter.flow_meter_discharge(D=0.1, Do=orifice, P1=pressure + 1e5, P2=1e5, rho=density, C=0.8)
    assert spray.flow(0.8, orifice, pressure, density) == pytest.approx(mass / density, rel=1e-6)


@pytest.mark.parametrize("bore, length, viscosity, flow", [(0.00635, 15.24, 0.25, 1.5e-5), (0.0095, 30, 0.1, 4e-5)])
def test_laminar_hose(bore, length, viscosity, flow):
    """Darcy's equation with fluids' laminar friction factor."""
    density = 1270.0
    speed = flow / (pi / 4 * bore**2)
    reynolds = fluids.Reynolds(V=speed, D=bore, rho=density, mu=viscosity)
    loss = fluids.friction.friction_laminar(reynolds) * length / bore * density * speed**2 / 2
    assert spray.resistance(viscosity, 1, spray.hose_run(length, bore)) * flow == pytest.approx(loss, rel=1e-9)
    assert spray.reynolds(density, flow, bore, viscosity) == pytest.approx(reynolds, rel=1e-9)


@pytest.mark.parametrize("celsius, humidity", [(12, 0.6), (20, 0.5), (25, 0.6), (30, 0.7)])
def test_dew_point(celsius, humidity):
    """psychrolib after ASHRAE; the Magnus form over water holds within 0.03 C of it above freezing, saturation pressure within 0.5 %."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    assert weather.dew_point(celsius + 273.15, humidity) - 273.15 == pytest.approx(psychrolib.GetTDewPointFromRelHum(celsius, humidity), abs=0.03)
    assert weather.saturation_pressure(celsius + 273.15) == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=0.005)


@pytest.mark.parametrize("life, change, waste", [(0.17, 40.0, 1500.0), (0.05, 75.0, 9000.0), (0.3, 12.0, 400.0)])
def test_replacement_interval(life, change, waste):
    """An economic order quantity, and the least of the cost as it stands: a change each interval, waste growing linearly to `waste` at life."""
    quantity, _ = economic_order_quantity(fixed_cost=change, holding_cost=waste / life, demand_rate=1.0)
    least = minimize_scalar(lambda volume: change / volume + waste * volume / (2 * life), bounds=(life * 1e-3, life * 10), method="bounded",
                            options={"xatol": life * 1e-9}).x
    assert wear.interval(1e9 * life, change, waste * 1e9) == pytest.approx(quantity, rel=1e-9)     # the same rate, far from worn out
    assert wear.interval(life, change, waste) == pytest.approx(min(life, least), rel=1e-6)


PACKS = (  # sizes in gallons and prices: the usual, a dear pail, a cheap pail, one size, three sizes
    ((1, 44.0), (5, 205.0), (None, None)), ((1, 44.0), (5, 230.0), (None, None)), ((1, 44.0), (5, 130.0), (None, None)),
    ((5, 112.0), (None, None), (None, None)), ((0.25, 16.0), (1, 44.0), (5, 205.0)), ((0.25, 10.0), (1, 44.0), (5, 180.0)),
)


def _brute_force(offered, most):
    """Least cost of every need up to `most` tenths of the smallest step, by trying every number of every pack."""
    step = min(size for size, _ in offered if size) / 10 if offered[0][0] < 1 else 0.1
    count = int(most / step) + 1
    best = numpy.full(count, numpy.inf)
    best[0] = 0.0
    sizes = [(int(round(size / step)), cost) for size, cost in offered if size]
    for need in range(1, count):
        best[need] = min(cost + best[max(0, need - size)] for size, cost in sizes)
    return step, best


@pytest.mark.parametrize("offered", PACKS)
def test_packs_against_brute_force(offered):
    step, best = _brute_force(offered, 60)
    for need in range(1, len(best), 1 if step >= 0.1 else 4):
        assert packs.least_cost(need * step, offered, SLACK).cost == pytest.approx(best[need], rel=1e-9), need * step


@pytest.mark.parametrize("offered", PACKS)
def test_packs_against_integer_programming(offered):
    sizes, costs = (numpy.array([pack[place] for pack in offered if pack[0]]) for place in (0, 1))
    for need in (0.3, 1.0, 4.9, 5.0, 7.3, 23.1, 59.9):
        found = milp(costs, integrality=numpy.ones(len(costs)), bounds=Bounds(0, numpy.inf), constraints=LinearConstraint(sizes, need - 1e-9, numpy.inf))
        assert packs.least_cost(need, offered, SLACK).cost == pytest.approx(found.fun, rel=1e-9)


@pytest.mark.parametrize("parts, fixed, spreads", [
    ((6800.0, 310.0, 5600.0, 115.0), 830.0, ((0.98, 1.04), (0.92, 1.18), (0.85, 1.45), (0.7, 1.5))),      # a usual job
    ((9000.0, 2500.0, 7000.0, 1500.0), 0.0, ((0.85, 1.2), (0.75, 1.5), (0.7, 1.6), (0.5, 2.0))),          # a wide one
])
def test_range_against_a_million_jobs(parts, fixed, spreads):
    """Mean and standard deviation within 0.5 %, percentiles within 1.5 %: the sum of lognormals is read as one lognormal."""
    draw = numpy.random.default_rng(20261125)
    sigmas = [spread.sigma(*one) for one in spreads]
    mus = [spread.mu(*one) for one in spreads]
    area, loss, time, worn = (numpy.exp(draw.normal(mu, sigma, 1_000_000)) for mu, sigma in zip(mus, sigmas))
    material, trigger, handling, nozzle = parts
    cost = material * area * loss + trigger * area * loss * time + handling * area * time + nozzle * area * loss * worn + fixed
    means = [spread.mean_factor(mu, sigma) for mu, sigma in zip(mus, sigmas)]
    expected = (material * means[0] * means[1], trigger * means[0] * means[1] * means[2], handling * means[0] * means[2],
                nozzle * means[0] * means[1] * means[3])
    mean = sum(expected)
    square = spread.mean_square(*expected, *map(spread.growth, sigmas))
    assert mean + fixed == pytest.approx(cost.mean(), rel=0.005) and (square - mean**2) ** 0.5 == pytest.approx(cost.std(), rel=0.005)
    log_spread = spread.log_spread(square / mean**2 - 1, 1e-6)
    for share in (0.1, 0.5, 0.8, 0.9):
        at = spread.percentile(mean, log_spread, spread.NORMAL.inv_cdf(share), fixed)
        assert at == pytest.approx(numpy.quantile(cost, share), rel=0.015)
        assert spread.chance_above(at, mean, log_spread, fixed) == pytest.approx(1 - share, abs=1e-9)
