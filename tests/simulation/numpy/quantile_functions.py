"""What a quantity is worth at a standard normal score, by SciPy's quantile functions.

A quantity of the document is a number or one of the distributions of its section 2. `exact_function` gives its quantile
function at Phi(z); where that is a plain exponential or a straight line of the score, the detour over Phi is left out.
`table_function` interpolates between 513 knots of the same function, uniform in z over [-6.5, 6.5]. What moves in steps
is never interpolated.
"""
import math

import numpy as np
from scipy import optimize, special, stats

KNOTS = np.linspace(-6.5, 6.5, 513)
Z90 = float(special.ndtri(0.9))


def exact_function(uncertain):
    """The quantile function of a distribution, as a function of an array of scores."""
    return KINDS[uncertain["kind"]](uncertain)


def table_function(uncertain):
    """The same, interpolated; built once, so outside whatever is timed."""
    exact = exact_function(uncertain)
    if uncertain["kind"] in ("sample", "discrete"):
        return exact
    table = exact(KNOTS)
    return lambda z: np.interp(z, KNOTS, table)


def uniform(it):
    low, width = it["low"], it["high"] - it["low"]
    return lambda z: low + width * special.ndtr(z)


def triangular(it):
    low, high = absolute_ends(it)
    mode, width = it["mode"], high - low
    if width == 0:
        return lambda z: np.full_like(z, low)
    rising, falling = width * (mode - low), width * (high - mode)
    share = (mode - low) / width

    def at(z):
        u = special.ndtr(z)
        return np.where(u < share, low + np.sqrt(u * rising), high - np.sqrt((1 - u) * falling))

    return at


def pert(it):
    low, high = absolute_ends(it)
    width = high - low
    if width == 0:
        return lambda z: np.full_like(z, low)
    weight = it.get("weight", 4)
    alpha = 1 + weight * (it["mode"] - low) / width
    beta = 1 + weight * (high - it["mode"]) / width
    return lambda z: low + width * special.betaincinv(alpha, beta, special.ndtr(z))


def absolute_ends(it):
    """The ends of a three-point distribution whose low..high holds the share `covers`, its mode kept.

    The shape is known by where the mode lies between the ends, a share r of their distance: the r is looked for at which
    the two percentiles lie as far from the mode, in proportion, as low and high do.
    """
    low, mode, high = it["low"], it["mode"], it["high"]
    covers, weight = it.get("covers", 1), it.get("weight", 4)
    if covers == 1 or low == high:
        return low, high
    tail = (1 - covers) / 2

    def law(r):
        return stats.triang(r) if it["kind"] == "triangular" else stats.beta(1 + weight * r, 1 + weight * (1 - r))

    def imbalance(r):
        below, above = law(r).ppf([tail, 1 - tail])
        return (r - below) * (high - mode) - (above - r) * (mode - low)

    r = optimize.brentq(imbalance, 0, 1, xtol=1e-14)
    below, above = law(r).ppf([tail, 1 - tail])
    width = (high - low) / (above - below)
    return mode - r * width, mode + (1 - r) * width


def percentiles(it):
    floor = it.get("floor", 0)
    middle = math.log(it["p50"] - floor)
    below = (middle - math.log(it["p10"] - floor)) / Z90
    above = (math.log(it["p90"] - floor) - middle) / Z90
    return lambda z: floor + np.exp(middle + np.where(z < 0, below, above) * z)


def lognormal(it):
    if "p10" in it:
        middle = (math.log(it["p10"]) + math.log(it["p90"])) / 2
        spread = (math.log(it["p90"]) - math.log(it["p10"])) / (2 * Z90)
    else:
        variance = math.log1p((it["sd"] / it["mean"]) ** 2)
        middle, spread = math.log(it["mean"]) - variance / 2, math.sqrt(variance)
    return lambda z: np.exp(middle + spread * z)


def normal(it):
    mean, sd, least = it["mean"], it["sd"], it.get("atLeast", -math.inf)
    return lambda z: np.maximum(mean + sd * z, least)


def log_student(it):
    location, scale, freedom = it["location"], it["scale"], it["freedom"]
    return lambda z: np.exp(location + scale * special.stdtrit(freedom, np.clip(special.ndtr(z), 0.001, 0.999)))


def exponential(it):
    mean = it["mean"]
    return lambda z: -mean * special.log_ndtr(-z)


def steps(pairs):
    """Ascending values, each held up to the score at which its share of the outcomes is used up."""
    pairs = sorted(pairs)
    values = np.array([value for value, _ in pairs], dtype=float)
    weights = np.array([weight for _, weight in pairs], dtype=float)
    ends = special.ndtri(np.minimum(1, np.cumsum(weights)[:-1] / weights.sum()))
    return lambda z: values[np.searchsorted(ends, z)]


def sample(it):
    return steps(zip(it["values"], it.get("weights") or [1] * len(it["values"])))


def discrete(it):
    return steps((outcome["value"], outcome["probability"]) for outcome in it["outcomes"])


KINDS = {
    "uniform": uniform,
    "triangular": triangular,
    "pert": pert,
    "percentiles": percentiles,
    "lognormal": lognormal,
    "normal": normal,
    "log-student": log_student,
    "exponential": exponential,
    "sample": sample,
    "discrete": discrete,
}
