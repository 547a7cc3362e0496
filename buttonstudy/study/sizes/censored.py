"""The distribution behind readings of which only two bounds are known.

A diameter written "16 mm" lies somewhere between 15.5 and 16.5 mm, and "at least two layers"
lies somewhere above one. The nonparametric maximum likelihood estimate spreads each reading
over its own interval in the way that all the readings together make most likely. It needs no
curve to be assumed, and it never treats a rounded value as an exact one.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_TINY = 1e-300


@dataclass(frozen=True, slots=True)
class Innermost:
    """Turnbull's innermost intervals, and which of them each reading covers.

    Attributes
    ----------
    low, high
        Ends of the ``m`` intervals that can hold probability, (low, high], ascending. An
        interval with ``low == high`` is a single point.
    first, last
        For each of the ``n`` readings: it covers the intervals ``first`` up to, not
        including, ``last``.
    """

    low: Floats
    high: Floats
    first: Ints
    last: Ints


def innermost_intervals(low: Floats, high: Floats) -> Innermost:
    """Find the only places where the estimate can put probability.

    Parameters
    ----------
    low, high
        Bounds of ``n`` readings, (low, high]; ``high`` may be infinite. Equal bounds are an
        exact value.

    Raises
    ------
    ValueError
        If a lower bound exceeds its upper bound, or a bound is missing.

    Notes
    -----
    Peto 1973 (Applied Statistics 22:86) and Turnbull 1976 (J R Stat Soc B 38:290). Bounds are
    half-open, so that two rounding intervals that touch share no value.

    Examples
    --------
    >>> found = innermost_intervals(np.array([0.0, 1.0, 2.0]), np.array([2.0, 3.0, 4.0]))
    >>> list(zip(found.low.tolist(), found.high.tolist()))
    [(1.0, 2.0), (2.0, 3.0)]
    """
    if np.isnan(low).any() or np.isnan(high).any() or (low > high).any():
        raise ValueError("Every reading needs a lower bound that does not exceed its upper bound.")
    exact = low == high
    # Order at one value: the start of an exact reading, then ends, then starts of open ones.
    keys = np.concatenate([np.where(exact, 0, 2), np.ones(len(high), dtype=np.int64)])
    values = np.concatenate([low, high])
    distinct, rank = np.unique(np.column_stack([values, keys]), axis=0, return_inverse=True)
    rank = rank.reshape(-1)
    is_start = distinct[:, 1] != 1
    starts = np.flatnonzero(is_start[:-1] & ~is_start[1:])
    start_rank, end_rank = rank[: len(low)], rank[len(low) :]
    return Innermost(
        low=distinct[starts, 0],
        high=distinct[starts + 1, 0],
        first=np.searchsorted(starts, start_rank, side="left").astype(np.int64),
        last=np.searchsorted(starts + 1, end_rank, side="right").astype(np.int64),
    )


def most_likely_masses(
    first: Ints,
    last: Ints,
    weights: Floats,
    n_intervals: int,
    *,
    start: Floats | None = None,
    tolerance: float = 1e-6,
    max_steps: int = 20_000,
) -> Floats:
    """Estimate the probability of each innermost interval by the EM algorithm.

    Parameters
    ----------
    first, last
        For each of ``k`` readings, the range of intervals it covers.
    weights
        Votes, shape (k,), or (draws, k) to solve many resampled surveys at once.
    n_intervals
        Number of intervals, ``m``.
    start
        Masses to begin from, shape (m,); equal masses by default. An interval that starts at
        zero stays there.
    tolerance
        Stop when no interval could raise the likelihood by more than this share of a vote
        per vote cast.
    max_steps
        Stop in any case after this many steps.

    Returns
    -------
    ndarray
        Masses that sum to 1, shape (m,) or (draws, m); zeros where no vote was cast.

    Notes
    -----
    Self-consistency of Turnbull 1976; the stopping rule is the condition for a maximum in
    Gentleman & Geyer 1994 (Biometrika 81:618). A reading covers neighbouring intervals, so one
    step costs a cumulative sum rather than a full table of readings by intervals. Every second
    step is extrapolated (Varadhan & Roland 2008, Scand J Stat 35:335).
    """
    votes = np.atleast_2d(np.asarray(weights, dtype=float))
    begin = np.full(n_intervals, 1.0 / max(n_intervals, 1)) if start is None else start
    masses = np.tile(begin, (len(votes), 1))
    total = votes.sum(axis=1, keepdims=True)
    scatter = _scatter(first, last, n_intervals)

    def step(current: Floats) -> tuple[Floats, Floats]:
        slope = _slope(current, first, last, votes, scatter) / np.maximum(total, _TINY)
        return current * slope, slope

    for _ in range(max_steps):
        once, slope = step(masses)
        if np.all(slope.max(axis=1, initial=0.0) <= 1.0 + tolerance):
            masses = once
            break
        twice, _ = step(once)
        masses = _extrapolated(masses, once, twice)
    return masses if np.ndim(weights) == 2 else masses[0]


def _scatter(first: Ints, last: Ints, n_intervals: int) -> sparse.csr_array:
    """Return the matrix, intervals by readings, that adds each vote at its first interval.

    Past the last one it takes the vote off again.
    """
    rows = np.arange(len(first))
    ones = np.ones(len(first))
    return sparse.csr_array(
        (
            np.concatenate([ones, -ones]),
            (np.concatenate([first, last]), np.concatenate([rows, rows])),
        ),
        shape=(n_intervals + 1, len(first)),
    )


def _slope(
    masses: Floats, first: Ints, last: Ints, votes: Floats, scatter: sparse.csr_array
) -> Floats:
    """Return how fast the log likelihood grows with each interval's mass."""
    running = np.zeros((len(masses), masses.shape[1] + 1))
    np.cumsum(masses, axis=1, out=running[:, 1:])
    covered = running[:, last] - running[:, first]
    ratio = votes / np.maximum(covered, _TINY)
    added: Floats = np.asarray((scatter @ ratio.T).T)
    return np.maximum(np.cumsum(added, axis=1)[:, :-1], 0.0)


def _extrapolated(before: Floats, once: Floats, twice: Floats) -> Floats:
    """Take one long step along the way the last two steps went, within the simplex."""
    first_move = once - before
    bend = (twice - once) - first_move
    length = np.linalg.norm(first_move, axis=1, keepdims=True)
    turn = np.linalg.norm(bend, axis=1, keepdims=True)
    stretch = np.clip(length / np.maximum(turn, _TINY), 1.0, 64.0)
    far = before + 2 * stretch * first_move + stretch**2 * bend
    # A mass that would fall to nothing keeps its ordinary step: zero is never left again.
    far = np.where(far > 0, far, twice)
    return far / np.maximum(far.sum(axis=1, keepdims=True), _TINY)
