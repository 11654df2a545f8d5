"""What closed jobs teach: against published forms, another library, and draws whose truth is known."""

from math import exp, log, sqrt
from random import Random

import pytest
from scipy import integrate, stats
from support.slow import some

from builder.trade import learning
from builder.trade.learning import WORTH, learn

SIGMA = 0.208  # of time as the demo's terms state it: ln(1.45 / 0.85) / 2.5631 = 0.2084, by hand
REPEATS = 400


def test_credibility_is_buhlmanns():
    """Bühlmann: Z = n / (n + K), K the variance within over the variance of the means. A usual textbook case, from
    memory: within 5, between 2, four years: K = 2.5, Z = 4 / 6.5.
    """
    assert learning.credibility(4, 5 / 2) == pytest.approx(8 / 13, rel=1e-12)
    assert learning.pooled(120.0, 100.0, 4, 5 / 2) == pytest.approx(100 + 20 * 8 / 13, rel=1e-12)


@pytest.mark.parametrize("jobs, mean, sigma, tau", ((1, 0.3, 0.2, 0.1), (7, -0.2, 0.3, 0.05), (40, 0.1, 0.1, 0.2)))
def test_the_pooled_mean_is_that_of_bayes_theorem(jobs, mean, sigma, tau):
    """The posterior worked out by integrating prior times likelihood, with scipy's densities and quadrature."""

    def weight(truth, power):
        return truth**power * stats.norm.pdf(truth, 0, tau) * stats.norm.pdf(mean, truth, sigma / sqrt(jobs))

    near = jobs / sigma**2 / (jobs / sigma**2 + 1 / tau**2) * mean  # where the quadrature is to look
    span = [near - 1.0, near + 1.0]
    whole, first, second = (
        integrate.quad(weight, *span, args=(power,), points=[near], limit=400)[0] for power in (0, 1, 2)
    )
    worth = sigma**2 / tau**2
    assert learning.pooled(mean, 0.0, jobs, worth) == pytest.approx(first / whole, abs=1e-8)
    assert learning.pooled_sigma(sigma, jobs, worth) == pytest.approx(
        sqrt(second / whole - (first / whole) ** 2), rel=1e-5
    )


def test_the_spread_without_surprise_is_the_stated_one_and_a_wide_one_is_found():
    draw = Random(4)
    values = [draw.gauss(0, 3 * SIGMA) for _ in range(4000)]
    assert learning.spread(values, 0.0, SIGMA) == pytest.approx(3 * SIGMA, rel=0.05)
    assert learning.spread(values[:2], 0.0, SIGMA) == SIGMA


def test_the_constants_are_those_of_the_books():
    """1.4826 and 1.6449: tables of the normal distribution. Influence of the biweight at its peak, by hand:
    z = 4.685 / sqrt(5), z * (1 - 1/5)^2 = 1.341.
    """
    assert learning.MAD == pytest.approx(1.4826, abs=5e-5)
    assert learning.SCORE == pytest.approx(1.6449, abs=5e-5)
    peak = learning.CUT / sqrt(5)
    assert peak * learning.counts(peak, 1.0) == pytest.approx(1.341, abs=5e-4)


def test_the_cumulative_average_of_wright():
    """An 80 % curve: the second unit takes 60 % of the first, since both average 80 %; four average 64 % (published in
    any text on learning curves, from memory).
    """
    assert learning.doubling_rate(100.0, (100.0 + 60.0) / 2, 2) == pytest.approx(0.8, rel=1e-12)
    assert learning.doubling_rate(100.0, 64.0, 4) == pytest.approx(0.8, rel=1e-12)


@pytest.mark.parametrize("jobs, chance", ((5, 0.41), (10, 0.65), (20, 0.88)))
def test_few_jobs_have_not_shown_a_p90(jobs, chance):
    """1 - 0.9^n to two digits: 0.59049, 0.34868, 0.12158 by hand."""
    assert round(learning.worst_above(jobs), 2) == chance
    draw = Random(jobs)
    above = sum(max(draw.random() for _ in range(jobs)) > 0.9 for _ in range(4000)) / 4000
    assert above == pytest.approx(chance, abs=0.03)


@pytest.mark.parametrize("inside, jobs, share", ((0, 5, 0.8), (3, 12, 0.8), (12, 12, 0.8), (20, 40, 0.5)))
def test_the_binomial_against_scipy(inside, jobs, share):
    assert learning.chance_at_most(inside, jobs, share) == pytest.approx(
        stats.binom.cdf(inside, jobs, share), rel=1e-12
    )


def _drawn(draw, jobs, sigma=SIGMA):
    """A truth of the stated prior, and what each job says of it."""
    truth = draw.gauss(0, sigma / sqrt(WORTH))
    return truth, [draw.gauss(truth, sigma) for _ in range(jobs)]


@pytest.mark.slow
@pytest.mark.parametrize("jobs", (1, 2, 3, 5, 10, 40, 200))
def test_nine_intervals_of_ten_hold_the_truth(jobs):
    """Truths drawn from the stated prior: an interval of 90 % held in 86 to 94 % of 400 repeats (two and a half
    standard deviations of a binomial share are 3.75 %).
    """
    draw, held = Random(1000 + jobs), 0
    for _ in range(REPEATS):
        truth, values = _drawn(draw, jobs)
        found = learn(values, [1.0] * jobs, SIGMA)
        held += found.low <= truth <= found.high
    assert 0.86 <= held / REPEATS <= 0.94


@pytest.mark.parametrize("jobs", (10, 40))
def test_nor_fewer_with_a_wild_job_among_them(jobs):
    """One job in each repeat has a digit too many: a factor of ten up or down."""
    draw, held = Random(2000 + jobs), 0
    for _ in range(REPEATS):
        truth, values = _drawn(draw, jobs)
        values[draw.randrange(jobs)] += draw.choice((-1, 1)) * log(10)
        found = learn(values, [1.0] * jobs, SIGMA)
        held += found.low <= truth <= found.high
    assert 0.86 <= held / REPEATS <= 0.94


@pytest.mark.parametrize("jobs", some((1, 2, 3, 5, 12, 40), 3))
@pytest.mark.parametrize("sigma", (0.097, 0.208, 0.297))  # material, time and wear of the demo's terms
def test_a_typing_error_moves_nothing_by_more_than_a_twentieth(jobs, sigma):
    draw, worst = Random(jobs), 0.0
    for _ in range(REPEATS):
        _, values = _drawn(draw, jobs, sigma)
        right = learn(values, [1.0] * jobs, sigma)
        at = draw.randrange(jobs)
        for slip in (-log(10), log(10)):
            wrong = learn([*values[:at], values[at] + slip, *values[at + 1 :]], [1.0] * jobs, sigma)
            worst = max(worst, abs(exp(wrong.step - right.step) - 1))
    assert worst <= 0.05


@pytest.mark.slow
@pytest.mark.parametrize("jobs", (1, 3, 10, 40))
def test_one_job_moves_little(jobs):
    """Whatever it says: the peak of its influence, 1.341 spreads of a job, over (jobs + 10), and some more through the
    others' weights: twice that in the worst of 400 draws.
    """
    draw = Random(jobs)
    spread = SIGMA * sqrt(1 + 1 / WORTH)
    for _ in range(REPEATS):
        _, values = _drawn(draw, jobs)
        without = learn(values[1:], [1.0] * (jobs - 1), SIGMA).step
        for own in (-3.0, -0.6, -0.3, 0.0, 0.2, 0.45, 1.0, 4.0):
            moved = abs(learn([own, *values[1:]], [1.0] * jobs, SIGMA).step - without)
            assert moved <= 2 * 1.341 * spread / (jobs + WORTH)


def test_many_jobs_speak_for_themselves_and_few_for_the_catalog():
    """One job goes an eleventh of its way, less what it is doubted; three spreads off, four hundred are believed."""
    draw = Random(9)
    many = [draw.gauss(3 * SIGMA, SIGMA) for _ in range(400)]
    assert learn(many, [1.0] * 400, SIGMA).step == pytest.approx(3 * SIGMA, abs=0.03)
    assert 0 < learn([0.2], [1.0], SIGMA).step < 0.2 / 11
    assert learn([0.2], [0.5], SIGMA).step < 0.2 / 21
    assert learn((), (), SIGMA).step == 0.0
