"""How sure a cost is: four uncertain drivers, each a lognormal factor given by its P10 and P90 (E23).

cost = M*a*l + S*a*l*p + L*a*p + N*a*l*n + fixed, with the factors a of area, l of material, p of time and n of wear
independent of one another. Mean and variance are exact; the variable part is then read as one lognormal.
"""

from math import exp, log
from statistics import NormalDist

NORMAL = NormalDist()
DECILES = NORMAL.inv_cdf(0.9) - NORMAL.inv_cdf(0.1)  # standard deviations between P10 and P90: 2.5631


def sigma(low, high):
    """Standard deviation of the logarithm of a factor (E23; derived from the normal distribution).

        sigma = ln(high / low) / 2.5631

    Parameters
    ----------
    low : P10 of the factor [-]
    high : P90 of the factor, not below `low` [-]

    Returns
    -------
    standard deviation of the logarithm [-]

    Examples
    --------
    >>> round(sigma(0.9, 1.1), 4)
    0.0783
    """
    return log(high / low) / DECILES


def mu(low, high):
    """Mean of the logarithm of a factor (E23; derived from the normal distribution).

        mu = (ln low + ln high) / 2

    Parameters
    ----------
    low : P10 of the factor [-]
    high : P90 of the factor [-]

    Returns
    -------
    mean of the logarithm [-]

    Examples
    --------
    >>> mu(0.5, 2.0)
    0.0
    """
    return (log(low) + log(high)) / 2


def mean_factor(mu, sigma):
    """Mean of a lognormal factor (any text on probability, from memory).

        mean = exp(mu + sigma^2 / 2)

    Parameters
    ----------
    mu : mean of the logarithm [-]
    sigma : standard deviation of the logarithm [-]

    Returns
    -------
    mean [-]

    Examples
    --------
    >>> mean_factor(0.0, 0.0)
    1.0
    """
    return exp(mu + sigma**2 / 2)


def growth(sigma):
    """Mean square over square of the mean of a lognormal factor (any text on probability, from memory).

        growth = exp(sigma^2)

    Parameters
    ----------
    sigma : standard deviation of the logarithm [-]

    Returns
    -------
    growth, 1 where nothing is uncertain [-]

    Examples
    --------
    >>> growth(0.0)
    1.0
    """
    return exp(sigma**2)


def pairs(material, trigger, handling, wear, time, nozzle):
    """Products of the means of parts, gathered by the drivers that both parts share, own growth of time and wear
    included (E23; derived).

        sharing area and material: material^2 + 2*material*(trigger + wear) + 2*trigger*wear + time*trigger^2 +
        nozzle*wear^2 sharing area and time: handling^2 + 2*trigger*handling sharing area alone: 2*handling*(material +
        wear)

    Parameters
    ----------
    material : mean of M*a*l [money]
    trigger : mean of S*a*l*p [money]
    handling : mean of L*a*p [money]
    wear : mean of N*a*l*n [money]
    time : growth of p [-]
    nozzle : growth of n [-]

    Returns
    -------
    the three sums [money**2]

    Examples
    --------
    >>> pairs(1.0, 2.0, 3.0, 4.0, 1.0, 1.0)
    (49.0, 21.0, 30.0)
    """
    return (
        material**2 + 2 * material * (trigger + wear) + 2 * trigger * wear + time * trigger**2 + nozzle * wear**2,
        handling**2 + 2 * trigger * handling,
        2 * handling * (material + wear),
    )


def mean_square(material, trigger, handling, wear, area, loss, time, nozzle):
    """Mean square of the variable cost from the means of its parts (E23; derived).

        mean_square = sum over pairs of parts of their means times the growth of each driver both share

    Parameters
    ----------
    material : mean of M*a*l [money]
    trigger : mean of S*a*l*p [money]
    handling : mean of L*a*p [money]
    wear : mean of N*a*l*n [money]
    area : growth of a [-]
    loss : growth of l [-]
    time : growth of p [-]
    nozzle : growth of n [-]

    Returns
    -------
    mean square [money**2]

    Examples
    --------
    With nothing uncertain the mean square is the square of the mean.

    >>> mean_square(1.0, 2.0, 3.0, 4.0, 1.0, 1.0, 1.0, 1.0)
    100.0
    """
    with_loss, with_time, without = pairs(material, trigger, handling, wear, time, nozzle)
    return area * (loss * with_loss + time * with_time + without)


def log_sigma(excess, slack):
    """Standard deviation of the logarithm of the lognormal whose mean square exceeds the square of its mean so (E23;
    derived).

        log_sigma = sqrt(ln(1 + excess)), 0 where the excess is within the slack

    Parameters
    ----------
    excess : mean square over square of the mean, less 1 [-]
    slack : what rounding may leave [-]

    Returns
    -------
    standard deviation of the logarithm [-]

    Examples
    --------
    >>> round(log_sigma(0.1, 1e-6), 4)
    0.3087
    >>> log_sigma(1e-6, 1e-6)
    0.0
    """
    return log(1 + excess) ** 0.5 if excess > slack else 0.0


def percentile(mean, log_sigma, score, fixed):
    """Cost that is not exceeded at a standard score (E23; derived).

        percentile = fixed + mean * exp(score * log_sigma - log_sigma^2 / 2)

    Parameters
    ----------
    mean : mean of the variable part [money]
    log_sigma : standard deviation of its logarithm [-]
    score : standard normal score, 1.2816 for P90 [-]
    fixed : the part that is certain [money]

    Returns
    -------
    cost [money]

    Examples
    --------
    >>> percentile(100.0, 0.0, 1.2816, 20.0)
    120.0
    """
    return fixed + mean * exp(score * log_sigma - log_sigma**2 / 2)


def chance_above(cost, mean, log_sigma, fixed):
    """Chance that the cost comes out above an amount (E23; derived).

        chance = 1 - Phi((ln((cost - fixed) / mean) + log_sigma^2 / 2) / log_sigma)

    Parameters
    ----------
    cost : the amount [money]
    mean : mean of the variable part [money]
    log_sigma : standard deviation of its logarithm; 0 where nothing is uncertain [-]
    fixed : the part that is certain [money]

    Returns
    -------
    chance, 0 or 1 where nothing is uncertain [-]

    Examples
    --------
    The median of a lognormal with log_sigma 1 is its mean times exp(-1/2).

    >>> from math import exp
    >>> round(chance_above(100.0 * exp(-0.5), 100.0, 1.0, 0.0), 12)
    0.5

    A certain cost is not above itself.

    >>> chance_above(120.0, 100.0, 0.0, 20.0)
    0.0
    """
    if cost <= fixed or log_sigma == 0:
        return float(mean + fixed > cost)
    return NORMAL.cdf(-(log((cost - fixed) / mean) + log_sigma**2 / 2) / log_sigma)
