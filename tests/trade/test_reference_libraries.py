"""The equations against libraries that others keep: fluids, psychrolib, scipy, numpy."""

import datetime
from math import pi

import fluids
import numpy
import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp, minimize_scalar
from scipy.stats import lognorm
from support.places import ROOT

from builder.jobs import open_job
from builder.trade import labor, packs, risk, spray, wear, weather
from builder.values import EPOCH, to_date

SLACK = 1e-9

# ---- flow and hose
# ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "orifice, pressure, density", [(0.000381, 15.2e6, 1270), (0.00023, 20e6, 1150), (0.00089, 12e6, 1460)]
)
def test_orifice_flow(orifice, pressure, density):
    """fluids' own orifice equation with the discharge coefficient given, from a wide pipe."""
    mass = fluids.flow_meter.flow_meter_discharge(D=0.1, Do=orifice, P1=pressure + 1e5, P2=1e5, rho=density, C=0.8)
    assert spray.flow(0.8, orifice, pressure, density) == pytest.approx(mass / density, rel=1e-6)


@pytest.mark.parametrize(
    "bore, length, viscosity, flow", [(0.00635, 15.24, 0.25, 1.5e-5), (0.0095, 30, 0.1, 4e-5), (0.0127, 45, 0.75, 8e-5)]
)
def test_laminar_hose(bore, length, viscosity, flow):
    """Darcy's equation with fluids' laminar friction factor."""
    density = 1270.0
    speed = flow / (pi / 4 * bore**2)
    reynolds = fluids.Reynolds(V=speed, D=bore, rho=density, mu=viscosity)
    factor = fluids.friction_factor(Re=reynolds)  # the library finds for itself that the flow is laminar
    loss = factor * length / bore * density * speed**2 / 2
    assert reynolds < 2000
    assert spray.resistance(viscosity, 1, spray.hose_run(length, bore)) * flow == pytest.approx(loss, rel=1e-9)
    assert spray.reynolds(density, flow, bore, viscosity) == pytest.approx(reynolds, rel=1e-9)


def test_hose_and_whip_add_up_and_two_guns_lose_twice_as_much():
    """Both pieces carry the flow of all guns: the sum of what the library says of each."""
    flow, viscosity, density, lost = 1.2e-5, 0.25, 1270.0, 0.0
    for bore, length in ((0.009525, 22.86), (0.00635, 0.9144)):
        speed = 2 * flow / (pi / 4 * bore**2)
        factor = fluids.friction_factor(Re=fluids.Reynolds(V=speed, D=bore, rho=density, mu=viscosity))
        lost += factor * length / bore * density * speed**2 / 2
    run = spray.hose_run(22.86, 0.009525) + spray.hose_run(0.9144, 0.00635)
    assert spray.set_pressure(15e6, spray.resistance(viscosity, 2, run), flow) == pytest.approx(15e6 + lost, rel=1e-9)


# ---- weather
# ------------------------------------------------------------------------------------------------------------------


# near freezing the two forms part a little
@pytest.mark.parametrize("least, most, within", [(5, 45, 0.03), (0, 5, 0.04)])
def test_dew_point(least, most, within):
    """psychrolib after ASHRAE against Magnus, from 2 to 45 C and 10 to 100 %, by the dew point; below freezing
    psychrolib takes ice.
    """
    psychrolib.SetUnitSystem(psychrolib.SI)
    places = [(celsius, humidity / 100) for celsius in range(2, 46) for humidity in range(10, 101, 10)]
    expected = {place: psychrolib.GetTDewPointFromRelHum(*place) for place in places}
    compared = {place: dew for place, dew in expected.items() if least <= dew < most and dew > 0}
    assert len(compared) > 30
    for (celsius, humidity), dew in compared.items():
        assert weather.dew_point(celsius + 273.15, humidity) - 273.15 == pytest.approx(dew, abs=within), (
            celsius,
            humidity,
        )


@pytest.mark.parametrize("celsius", [0.5, 5, 12, 20, 25, 33, 40, 50])
def test_saturation_pressure(celsius):
    psychrolib.SetUnitSystem(psychrolib.SI)
    assert weather.saturation_pressure(celsius + 273.15) == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=0.005)


# ---- wear
# ---------------------------------------------------------------------------------------------------------------------

# the last outlives what pays
INTERVALS = [(0.17, 40.0, 1500.0), (0.05, 75.0, 9000.0), (0.3, 12.0, 400.0), (0.17, 40.0, 300.0)]


@pytest.mark.parametrize("life, change, waste", INTERVALS)
def test_replacement_interval(life, change, waste):
    """The least of the cost as it stands: a change each interval, waste growing linearly to `waste` at life."""
    least = minimize_scalar(
        lambda volume: change / volume + waste * volume / (2 * life),
        bounds=(life * 1e-3, life),
        method="bounded",
        options={"xatol": life * 1e-10},
    ).x
    assert wear.interval(life, change, waste) == pytest.approx(least, rel=1e-6)


@pytest.mark.parametrize(
    "paint_price, wage, flow, life, nozzle",
    [(11000, 0.0103, 1.5e-5, 0.17, 28), (25000, 0.02, 0.9e-5, 0.08, 44), (0, 0.0103, 1.5e-5, 0.17, 28)],
)
def test_the_interval_costs_hardly_more_than_the_least_of_the_whole_cost(paint_price, wage, flow, life, nozzle):
    """E14 leaves out that extra paint wears nozzles too: against the least of E15 itself, which does not, it costs at
    most 0.1 % more.
    """
    excess, slow, thinning, material, handling = 0.05, 0.10, 0.05, 1.4e-4, 45.0
    change = wear.change_cost(nozzle, 360, wage)

    def cost(interval):
        part = wear.mean_wear(interval, life)
        hours = spray.gun_time(material, slow * part, flow, 1.0, handling)
        return wear.cost(material / (1 + thinning), excess * part, paint_price, hours, wage, material, change, interval)

    chosen = wear.interval(life, change, wear.waste_rate(excess, paint_price, thinning, slow, wage, flow))
    least = minimize_scalar(cost, bounds=(life * 1e-3, life), method="bounded", options={"xatol": life * 1e-8})
    assert least.fun <= cost(chosen) * (1 + 1e-9) and cost(chosen) <= 1.001 * least.fun
    assert chosen == pytest.approx(least.x, rel=0.05)


# ---- packs
# --------------------------------------------------------------------------------------------------------------------

# sizes in gallons and prices: the usual, a dear pail, a cheap pail, one size, three sizes, a dear gallon, a pail dearer
# than its gallons
PACKS = (
    ((1, 44.0), (5, 205.0), (None, None)),
    ((1, 44.0), (5, 230.0), (None, None)),
    ((1, 44.0), (5, 130.0), (None, None)),
    ((5, 112.0), (None, None), (None, None)),
    ((0.25, 16.0), (1, 44.0), (5, 205.0)),
    ((0.25, 10.0), (1, 44.0), (5, 180.0)),
    ((0.25, 16.0), (1, 44.0), (5, 250.0)),
)


def least_by_trying(sizes, costs, most):
    """Least cost of every whole need up to `most`, sizes whole too: one more pack of some size on the best
    of the rest.
    """
    best = [0.0]
    for need in range(1, most + 1):
        best.append(min(cost + best[max(0, need - size)] for size, cost in zip(sizes, costs)))
    return best


def check_purchase(need, offered, cost):
    """The cost is the least, it is that of the packs named, and they hold what is needed."""
    bought = packs.least_cost(need, offered, SLACK)
    numbers = bought.small, bought.middle, bought.large
    assert bought.cost == pytest.approx(cost, rel=1e-9), need
    assert sum(number * (price or 0.0) for number, (_, price) in zip(numbers, offered)) == pytest.approx(
        cost, rel=1e-9
    ), need
    assert sum(number * (size or 0.0) for number, (size, _) in zip(numbers, offered)) >= need * (1 - 1e-7), need
    assert all(number == int(number) >= 0 for number in numbers)


@pytest.mark.parametrize("offered", PACKS)
def test_packs_against_brute_force(offered):
    """Every need up to 60 gal in steps of 0.1, and every whole pack between; the search counts in twentieths of a
    gallon.
    """
    whole = [(round(size * 20), price) for size, price in offered if size]
    best = least_by_trying(*zip(*whole), 60 * 20)
    for twentieths in sorted({*range(2, 1201, 2), *range(5, 1201, 5)}):
        check_purchase(twentieths / 20, offered, best[twentieths])


@pytest.mark.parametrize("offered", PACKS)
def test_packs_against_integer_programming(offered):
    sizes, costs = (numpy.array([pack[place] for pack in offered if pack[0]]) for place in (0, 1))
    for need in (0.3, 1.0, 4.9, 5.0, 7.3, 16.0, 23.1, 39.6, 59.9):
        found = milp(
            costs,
            integrality=numpy.ones(len(costs)),
            bounds=Bounds(0, numpy.inf),
            constraints=LinearConstraint(sizes, need - 1e-6, numpy.inf),
        )
        check_purchase(need, offered, found.fun)


@settings(max_examples=150)
@given(
    times=st.tuples(st.integers(2, 8), st.integers(2, 6)),
    prices=st.tuples(*[st.integers(1, 4000)] * 3),
    need=st.integers(1, 300),
)
def test_any_three_packs_against_brute_force(times, prices, need):
    """Whatever they cost, even a larger pack cheaper than a smaller one."""
    sizes = 1, times[0], times[0] * times[1]
    check_purchase(
        float(need),
        tuple((float(size), float(price)) for size, price in zip(sizes, prices)),
        least_by_trying(sizes, prices, need)[need],
    )


# ---- days
# ---------------------------------------------------------------------------------------------------------------------


@settings(max_examples=200)
@given(
    start=st.dates(datetime.date(2024, 1, 1), datetime.date(2029, 12, 31)),
    days=st.integers(1, 60),
    off=st.lists(st.integers(0, 90), max_size=8),
)
def test_working_days(start, days, off):
    """numpy's business days: the last of `days`, the first being the start or the next working day after it."""
    holidays = [start + datetime.timedelta(days=one) for one in off]
    expected = numpy.busday_offset(start, days - 1, roll="forward", holidays=holidays)
    found = labor.workday((start - EPOCH).days, days, {(one - EPOCH).days for one in holidays})
    assert to_date(found) == expected.item()


# ---- range
# --------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("low, high", [(0.98, 1.04), (0.85, 1.45), (0.5, 2.0), (1.1, 3.0)])
def test_a_factor_is_the_lognormal_of_its_deciles(low, high):
    """scipy's lognormal: a tenth below `low`, a tenth above `high`, its mean and mean square."""
    sigma, mu = risk.sigma(low, high), risk.mu(low, high)
    factor = lognorm(s=sigma, scale=numpy.exp(mu))
    assert (factor.cdf(low), factor.sf(high)) == (pytest.approx(0.1), pytest.approx(0.1))
    assert risk.mean_factor(mu, sigma) == pytest.approx(factor.mean())
    assert risk.growth(sigma) == pytest.approx(factor.moment(2) / factor.mean() ** 2)


@pytest.mark.parametrize("mean, deviation, fixed", [(14300.0, 1680.0, 660.0), (9000.0, 4500.0, 0.0)])
def test_percentiles_of_a_lognormal(mean, deviation, fixed):
    log_sigma = risk.log_sigma((deviation / mean) ** 2, 1e-6)
    cost = lognorm(s=log_sigma, scale=mean * numpy.exp(-(log_sigma**2) / 2), loc=fixed)
    assert cost.mean() == pytest.approx(mean + fixed) and cost.std() == pytest.approx(deviation)
    for share in (0.1, 0.5, 0.8, 0.9, 0.99):
        assert risk.percentile(mean, log_sigma, risk.NORMAL.inv_cdf(share), fixed) == pytest.approx(cost.ppf(share))
        assert risk.chance_above(cost.ppf(share), mean, log_sigma, fixed) == pytest.approx(1 - share)


def simulated(parts, fixed, spreads, count=1_000_000):
    """The cost of so many jobs: each driver drawn once a job from the lognormal of its P10 and P90 (1.28155 standard
    deviations either side).
    """
    draw = numpy.random.default_rng(20261125)
    area, loss, time, worn = (
        numpy.exp(draw.normal((numpy.log(low) + numpy.log(high)) / 2, numpy.log(high / low) / 2 / 1.2815515655, count))
        for low, high in spreads
    )
    material, trigger, handling, nozzle = parts
    return area * (material * loss + trigger * loss * time + handling * time + nozzle * loss * worn) + fixed


@pytest.mark.parametrize(
    "parts, fixed, spreads",
    [
        ((6800.0, 310.0, 5600.0, 115.0), 830.0, ((0.98, 1.04), (0.92, 1.18), (0.85, 1.45), (0.7, 1.5))),  # a usual job
        ((9000.0, 2500.0, 7000.0, 1500.0), 0.0, ((0.85, 1.2), (0.75, 1.5), (0.7, 1.6), (0.5, 2.0))),  # a wide one
    ],
)
def test_range_against_a_million_jobs(parts, fixed, spreads):
    """Mean and standard deviation within 0.5 %, percentiles within 1.5 %: the sum of lognormals is read as one
    lognormal.
    """
    cost = simulated(parts, fixed, spreads)
    sigmas = [risk.sigma(*one) for one in spreads]
    means = [risk.mean_factor(risk.mu(*one), sigma) for one, sigma in zip(spreads, sigmas)]
    material, trigger, handling, nozzle = parts
    expected = (
        material * means[0] * means[1],
        trigger * means[0] * means[1] * means[2],
        handling * means[0] * means[2],
        nozzle * means[0] * means[1] * means[3],
    )
    mean = sum(expected)
    square = risk.mean_square(*expected, *map(risk.growth, sigmas))
    assert mean + fixed == pytest.approx(cost.mean(), rel=0.005) and (square - mean**2) ** 0.5 == pytest.approx(
        cost.std(), rel=0.005
    )
    log_sigma = risk.log_sigma(square / mean**2 - 1, 1e-6)
    for share in (0.1, 0.5, 0.8, 0.9):
        at = risk.percentile(mean, log_sigma, risk.NORMAL.inv_cdf(share), fixed)
        assert at == pytest.approx(numpy.quantile(cost, share), rel=0.015)
        assert risk.chance_above(at, mean, log_sigma, fixed) == pytest.approx((cost > at).mean(), abs=0.02)


def test_the_range_of_a_job_against_a_million_of_it():
    """From the cost by part to the contingency and the chances beside the price, as the model has them."""
    estimate = open_job(ROOT / "examples/boathouse.yaml", [ROOT / "catalogs"]).estimate
    terms, row, price = estimate.terms, estimate.rows["risk"][0], estimate.rows["price"][0]
    spreads = [
        (getattr(terms, f"{key}_low"), getattr(terms, f"{key}_high")) for key in ("area", "material", "time", "wear")
    ]
    assert row.base == pytest.approx(estimate.rows["cost"][0].cost)
    cost = simulated((row.material_cost, row.trigger_cost, row.handling_cost, row.nozzle_cost), row.certain, spreads)
    assert row.expected == pytest.approx(cost.mean(), rel=0.005) and row.mean * row.excess**0.5 == pytest.approx(
        cost.std(), rel=0.005
    )
    for key, share in (("p10", 0.1), ("p50", 0.5), ("p80", 0.8), ("p90", 0.9), ("covered", terms.percentile)):
        assert getattr(row, key) == pytest.approx(numpy.quantile(cost, share), rel=0.015)
    # a small part of what is within 1.5 %
    assert row.contingency == pytest.approx(numpy.quantile(cost, terms.percentile) - row.base, rel=0.1)
    assert (price.chance_over, price.chance_margin) == pytest.approx(
        ((cost > price.net * (1 - price.of_sales)).mean(), (cost > price.kept).mean()), abs=0.01
    )
