"""What closed jobs teach a figure of the catalogs: robust, shrunk towards what stands there (E56).

Job j says y_j, the logarithm of its figure over the catalog's (of a share by month their difference). The jobs scatter
with sigma about a truth, and the truth about the catalog with sigma / sqrt(WORTH): the catalog's figure is worth as
many jobs. That is the normal mean with a normal prior, and the same as Bühlmann's credibility.
"""

from dataclasses import dataclass
from math import comb, log2
from statistics import NormalDist, median

WORTH = 10.0  # jobs that a catalog's figure is worth; a choice, no source
FEWEST = 10  # jobs below which no quantile moves; see `worst_above`
SCORE = NormalDist().inv_cdf(0.95)  # of an interval of 90 %
CUT = 4.685  # spreads from the center at which a job no longer counts: 95 % efficient for normal jobs
MAD = 1 / NormalDist().inv_cdf(0.75)  # standard deviations of a normal distribution to its median absolute deviation
KNOWN, EFFICIENT = 10.0, 0.37  # jobs that the stated spread is worth; a choice. What a job counts for beside them
ROUNDS = 30


def credibility(evidence, worth):
    """Weight of what jobs say beside what stands in the catalog (E56; Bühlmann 1967, restated).

        credibility = evidence / (evidence + worth)

    Parameters
    ----------
    evidence : jobs, those that count in part as such [-]
    worth : jobs that the catalog's figure is worth: variance within jobs over variance of truths, above 0 [-]

    Returns
    -------
    weight, from 0 to 1 [-]

    Examples
    --------
    No job, as many as the catalog is worth, three times as many.

    >>> [credibility(jobs, 10.0) for jobs in (0.0, 10.0, 30.0)]
    [0.0, 0.5, 0.75]
    """
    return evidence / (evidence + worth)


def pooled(mean, prior, evidence, worth):
    """Mean of a normal truth after what was seen (E56; Gelman et al., Bayesian Data Analysis, 2.5, from memory).

        pooled = prior + credibility * (mean - prior)

    Parameters
    ----------
    mean : of what jobs say [any]
    prior : what stands in the catalog [any]
    evidence : jobs [-]
    worth : jobs that the catalog's figure is worth [-]

    Returns
    -------
    mean [any]

    Examples
    --------
    >>> pooled(14.0, 10.0, 30.0, 10.0)
    13.0
    """
    return prior + credibility(evidence, worth) * (mean - prior)


def pooled_sigma(sigma, evidence, worth):
    """Standard deviation of a normal truth after what was seen: precisions add (E56; Gelman et al., Bayesian Data
    Analysis, 2.5, from memory).

        pooled_sigma = sigma / sqrt(evidence + worth)

    Parameters
    ----------
    sigma : scatter of jobs about their truth [any]
    evidence : jobs [-]
    worth : jobs that the catalog's figure is worth [-]

    Returns
    -------
    standard deviation [any]

    Examples
    --------
    >>> pooled_sigma(0.5, 15.0, 10.0)
    0.1
    """
    return sigma / (evidence + worth) ** 0.5


def counts(distance, spread):
    """Weight of a job by how far it lies from the others: the further, the less, and none at all beyond CUT spreads
    (E56; Huber 1964 for bounded influence, Beaton and Tukey 1974 for the weight, from memory).

        counts = (1 - (distance / (4.685 * spread))**2)**2, 0 beyond

    Parameters
    ----------
    distance : of the job from the center [any]
    spread : standard deviation of jobs about it [any]

    Returns
    -------
    weight, from 0 to 1 [-]

    Examples
    --------
    At the center, half way to the cut: (1 - 1/4)^2, beyond it.

    >>> [counts(distance, 1.0) for distance in (0.0, 2.3425, 5.0)]
    [1.0, 0.5625, 0.0]
    """
    return max(0.0, 1 - (distance / (CUT * spread)) ** 2) ** 2


def spread(values, center, sigma):
    """Scatter of jobs: what is stated of it, worth KNOWN jobs, and the median absolute deviation of these, whose
    efficiency is 37 % (E56; scaled inverse chi-squared prior, Gelman et al., 2.6; Hampel 1974, from memory).

        spread**2 = (10 * sigma**2 + f * (1.4826 * median |value - center|)**2) / (10 + f), f = 0.37 * (jobs - 1)

    Parameters
    ----------
    values : what each job says [any]
    center : of them [any]
    sigma : scatter that Terms state [any]

    Returns
    -------
    standard deviation, that of Terms below FEWEST jobs [any]

    Examples
    --------
    Eleven jobs, half of them within 1: (10 * 1 + 3.7 * 1.4826^2) / 13.7; one job.

    >>> jobs = (-9.0, -5.0, -2.0, -1.0, -1.0, 0.0, 0.0, 0.5, 1.0, 2.0, 50.0)
    >>> round(spread(jobs, 0.0, 1.0) ** 2, 4), spread((5.0,), 0.0, 1.0)
    (1.3236, 1.0)
    """
    if len(values) < FEWEST:
        return sigma
    deviation = MAD * median(abs(value - center) for value in values)
    jobs = EFFICIENT * (len(values) - 1)
    return ((KNOWN * sigma**2 + jobs * deviation**2) / (KNOWN + jobs)) ** 0.5


@dataclass(frozen=True)
class Learned:
    """What jobs teach one figure, as a step from the catalog's (E56; derived).

    Attributes
    ----------
    step : of the figure's truth from the catalog's figure [any]
    sigma : standard deviation of the step [any]
    scatter : of jobs about their truth [any]
    evidence : jobs, those that count in part as such [-]
    weights : of each job, 0 for one that is left out [-]
    """

    step: float
    sigma: float
    scatter: float
    evidence: float
    weights: tuple

    @property
    def low(self):
        """The lower end of the interval that holds the truth in nine cases of ten."""
        return self.step - SCORE * self.sigma

    @property
    def high(self):
        """Its upper end."""
        return self.step + SCORE * self.sigma


def learn(values, volumes, sigma, worth=WORTH):
    """The step that jobs teach a figure, robust against one that is far from all others (E56; Bühlmann and Straub 1970;
    Huber 1964, from memory).

        step = sum(w * y) / (sum(w) + worth), w = volume * counts(y - step, spread of a job), repeated

    It begins at the catalog's figure, from FEWEST jobs on at their median. The spread of a job is that of Terms and of
    the step together, so that it is not the jobs themselves that say how far one of them may lie. One job moves the
    step by 1.35 spreads over (jobs + worth), and by half as much again through the weights of others.

    Parameters
    ----------
    values : step of each job from the catalog's figure [any]
    volumes : what each counts for, 1 for a whole job [-]
    sigma : scatter that Terms state [any]
    worth : jobs that the catalog's figure is worth [-]

    Returns
    -------
    what is learned [any]

    Examples
    --------
    Thirty like jobs go three quarters of the way; one more, ten times too large, goes nowhere.

    >>> round(learn((0.1,) * 30, (1.0,) * 30, 0.2).step, 3)
    0.075
    >>> found = learn((0.1,) * 30 + (2.4,), (1.0,) * 31, 0.2)
    >>> round(found.step, 3), found.weights[-1]
    (0.075, 0.0)
    """
    step = median(values) if len(values) >= FEWEST else 0.0
    scatter = spread(values, step, sigma)
    doubt = pooled_sigma(scatter, 0.0, worth)
    for _ in range(ROUNDS):
        reach = (sigma**2 + doubt**2) ** 0.5
        weights = tuple(volume * counts(value - step, reach) for value, volume in zip(values, volumes))
        evidence = sum(weights)
        mean = sum(weight * value for weight, value in zip(weights, values)) / evidence if evidence else 0.0
        step, doubt = pooled(mean, 0.0, evidence, worth), pooled_sigma(scatter, evidence, worth)
    return Learned(step, doubt, scatter, evidence, weights)


def worst_above(jobs, share=0.9):
    """Chance that the worst of some jobs lies above a quantile of all of them (E56; derived).

        worst_above = 1 - share**jobs

    Where it is far from certain, the jobs have not shown what lies there: below FEWEST no quantile moves.

    Parameters
    ----------
    jobs : independent of one another [-]
    share : of all jobs that lie below the quantile, 0.9 for P90 [-]

    Returns
    -------
    chance [-]

    Examples
    --------
    >>> [round(worst_above(jobs), 2) for jobs in (5, 10, 20)]
    [0.41, 0.65, 0.88]
    """
    return 1 - share**jobs


def chance_at_most(inside, jobs, share):
    """Chance that no more than so many of some jobs lie within a range that holds a share of all (E56; the binomial
    distribution, derived).

        chance_at_most = sum of comb(jobs, k) * share**k * (1 - share)**(jobs - k), k from 0 to inside

    Parameters
    ----------
    inside : jobs within it, whole [-]
    jobs : all of them, whole [-]
    share : of all jobs that the range is to hold [-]

    Returns
    -------
    chance [-]

    Examples
    --------
    Two coins: no head, one at most.

    >>> chance_at_most(0, 2, 0.5), chance_at_most(1, 2, 0.5)
    (0.25, 0.75)
    """
    return sum(comb(jobs, k) * share**k * (1 - share) ** (jobs - k) for k in range(inside + 1))


def doubling_rate(first, average, jobs):
    """Cumulative average of jobs over that of half as many, of whoever gets faster by doing (E56; Wright 1936, from
    memory).

        doubling_rate = (average / first)**(1 / log2(jobs))

    Parameters
    ----------
    first : average of the first jobs, or the figure of the first one [any]
    average : of all of them [any]
    jobs : how many all are, over the first, above 1 [-]

    Returns
    -------
    rate, 1 where nobody gets faster [-]

    Examples
    --------
    A second job of 60 % makes an average of 80 %; four with an average of 64 % are the same curve.

    >>> round(doubling_rate(1.0, 0.8, 2), 9), round(doubling_rate(1.0, 0.64, 4), 9)
    (0.8, 0.8)
    """
    return (average / first) ** (1 / log2(jobs))
