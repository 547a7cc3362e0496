"""Quantiles of weighted sizes, for one survey or for many resampled ones at once.

The q-quantile is the smallest size that at least the share q of the weight does not exceed; where
exactly q of the weight ends at a size, the middle between it and the next (so that the median of
two sizes lies between them). Without weights this is numpy's "averaged_inverted_cdf".
"""

from collections.abc import Sequence

import numpy as np

from buttonstudy.study.evidence.columns import Floats

__all__ = ["weighted_quantiles"]

_TIE = 1e-9


def weighted_quantiles(sizes: Floats, weights: Floats, quantiles: Sequence[float]) -> Floats:
    """Give quantiles of sizes under one or many sets of weights.

    Parameters
    ----------
    sizes
        ``m`` ascending sizes.
    weights
        Weights of the sizes, shape (..., m).
    quantiles
        Shares between 0 and 1.

    Returns
    -------
    ndarray
        Shape (..., len(quantiles)); not-a-number where there is no weight.

    Examples
    --------
    >>> weighted_quantiles(np.array([10.0, 20.0]), np.array([1.0, 1.0]), [0.25, 0.5]).tolist()
    [10.0, 15.0]
    """
    shape = (*np.shape(weights)[:-1], len(quantiles))
    if len(sizes) == 0:
        return np.full(shape, np.nan)
    running = np.cumsum(weights, axis=-1)
    total = running[..., -1:]
    found = np.empty(shape)
    for place, share in enumerate(quantiles):
        reached = (running < (share - _TIE) * total).sum(axis=-1)
        passed = (running <= (share + _TIE) * total).sum(axis=-1)
        first = np.minimum(passed if share <= 0 else reached, len(sizes) - 1)
        last = np.minimum(reached if share >= 1 else passed, len(sizes) - 1)
        found[..., place] = (sizes[first] + sizes[last]) / 2
    return np.where(total > 0, found, np.nan)
