"""How far would another survey like this one differ? Whole sets are drawn again to find out.

A resampled survey draws as many sets as there are, with replacement, each with all its buttons
(the cluster bootstrap: Davison & Hinkley 1997, Bootstrap Methods and their Application, section
3.8). The middle 95 % of the answers is the interval. With few sets the plain percentiles are
too narrow; they are widened as Hesterberg 2015 (The American Statistician 69:371) gives it.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from scipy import sparse, stats

from buttonstudy.study.evidence.columns import Floats

__all__ = ["effective_number", "interval_of", "resampled_sums"]

_CELLS = 4_000_000


def resampled_sums(
    per_set: sparse.csr_array, draws: int, seed: int, block: int = 400
) -> Iterator[Floats]:
    """Draw the sets again and again, and add up what they hold.

    Parameters
    ----------
    per_set
        What each set holds, shape (sets, columns).
    draws, seed
        Number of resampled surveys, and the seed of their random numbers.
    block
        Most surveys worked on at a time.

    Yields
    ------
    ndarray
        Sums over the drawn sets, shape (surveys in the block, columns).
    """
    rng = np.random.default_rng(seed)
    sets = per_set.shape[0]
    if sets == 0:
        return
    at_once = max(1, min(block, _CELLS // sets))
    transposed = per_set.T.tocsr()
    for begin in range(0, draws, at_once):
        number = min(at_once, draws - begin)
        drawn = rng.integers(0, sets, (number, sets)) + sets * np.arange(number)[:, None]
        times = np.bincount(drawn.reshape(-1), minlength=number * sets).reshape(number, sets)
        yield np.asarray((transposed @ times.T.astype(float)).T)


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
