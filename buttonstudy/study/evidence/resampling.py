"""How far would another survey like this one differ? Whole sets are drawn again to find out.

A resampled survey draws as many sets as there are, with replacement, each with all its buttons
(the cluster bootstrap: Davison & Hinkley 1997, Bootstrap Methods and their Application, section
3.8). The middle 95 % of the answers is the interval. With few sets the plain percentiles are
too narrow; they are widened as Hesterberg 2015 (The American Statistician 69:371) gives it.
"""

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from buttonstudy.study.evidence.columns import Floats

__all__ = ["effective_number", "interval_of"]


def interval_of(values: Floats, sets: float, confidence: float = 0.95) -> tuple[float, float]:
    """Read an interval off the answers of resampled surveys.

    Parameters
    ----------
    values
        One answer per resampled survey; missing ones (a survey that drew no evidence) are left
        out.
    sets
        Effective number of sets, which widens the percentiles where it is small.
    confidence
        Share of the answers that the interval holds when sets are many.

    Returns
    -------
    tuple of float
        Lower and upper end; both missing below two sets, or where more than one resampled
        survey in twenty had no answer.
    """
    found: NDArray[np.float64] = values[np.isfinite(values)]
    if sets < 2 or len(found) < 0.95 * max(len(values), 1):
        return float("nan"), float("nan")
    edge = stats.t.ppf((1 - confidence) / 2, sets - 1) * np.sqrt(sets / (sets - 1))
    tail = float(stats.norm.cdf(edge))
    low, high = np.quantile(found, [tail, 1 - tail])
    return float(low), float(high)


def effective_number(weights: Floats) -> float:
    """Give the effective number of sets, (sum of weights)^2 / (sum of squares), of Kish 1965.

    Examples
    --------
    >>> effective_number(np.array([1.0, 1.0, 0.5, 0.5]))
    3.6
    """
    squares = float((np.asarray(weights) ** 2).sum())
    return float(np.asarray(weights).sum()) ** 2 / squares if squares > 0 else 0.0
