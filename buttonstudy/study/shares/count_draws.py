"""Draws the shares of numbers of which often only bounds were seen.

Each draw first deals every bounded reading out to the numbers that it allows, in proportion to
their shares, and then draws new shares from those counts: data augmentation (Tanner & Wong 1987,
Journal of the American Statistical Association 82:528). Many chains run side by side, started
far apart, so that where the readings leave a share open the draws stay spread out over all that
is possible.
"""

import numpy as np

from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.shares.censored import Ints

__all__ = ["drawn_shares"]

_CHAINS = 500
_SETTLING = 60
_BETWEEN = 5
_TINY = 1e-12


def drawn_shares(
    low: Floats, high: Floats, votes: Floats, up_to: int, *, n_draws: int, seed: int
) -> Floats:
    """Draw the shares of the numbers from 0 up.

    Parameters
    ----------
    low, high
        Bounds of ``k`` distinct readings, both possible themselves; ``high`` may be infinite.
    votes
        Sets behind each reading; broken numbers where sets differ within or are widely dated.
    up_to
        The numbers go at least one above this, and one above the highest reading.
    n_draws, seed
        Number of draws, and the seed of their random numbers.

    Returns
    -------
    ndarray
        Shape (draws, numbers), each row summing to 1; the last column is "or more".

    Notes
    -----
    The prior is a Dirichlet distribution that weighs one set in all, spread evenly over the
    numbers (Berger, Bernardo & Sun 2015, Bayesian Analysis 10:189).

    Examples
    --------
    >>> drawn = drawn_shares(
    ...     np.array([1.0]), np.array([1.0]), np.array([20.0]), 1, n_draws=1000, seed=1
    ... )
    >>> drawn.shape, round(float(drawn[:, 1].mean()), 2)
    ((1000, 3), 0.97)
    """
    rng = np.random.default_rng(seed)
    top = int(max([up_to, *low, *high[np.isfinite(high)]])) + 1
    used = votes > 0
    first = low[used].astype(np.int64)
    last = np.minimum(high[used], top).astype(np.int64) + 1
    prior = 1 / (top + 1)
    shares = _dirichlet(rng, np.full((min(_CHAINS, n_draws), top + 1), prior))
    kept: list[Floats] = []
    for step in range(_SETTLING + _BETWEEN * -(-n_draws // len(shares))):
        shares = _dirichlet(rng, _dealt(rng, shares, first, last, votes[used]) + prior)
        if step >= _SETTLING and (step - _SETTLING) % _BETWEEN == 0:
            kept.append(shares)
    return np.concatenate(kept)[:n_draws]


def _dealt(
    rng: np.random.Generator, shares: Floats, first: Ints, last: Ints, votes: Floats
) -> Floats:
    """Deal each reading's votes out to the numbers that it allows, shape (chains, numbers)."""
    counts = np.zeros(shares.shape)
    for begin, end, number in zip(first, last, votes):
        if end - begin == 1:
            counts[:, begin] += number
            continue
        chance = shares[:, begin:end] / shares[:, begin:end].sum(axis=1, keepdims=True)
        whole, rest = divmod(number, 1.0)
        if whole:
            counts[:, begin:end] += rng.multinomial(int(whole), chance)
        if rest > _TINY:
            counts[:, begin:end] += rest * rng.multinomial(1, chance)
    return counts


def _dirichlet(rng: np.random.Generator, weights: Floats) -> Floats:
    drawn = rng.standard_gamma(weights) + _TINY
    return np.asarray(drawn / drawn.sum(axis=1, keepdims=True))
