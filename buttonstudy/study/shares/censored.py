"""The distribution behind readings of which only bounds are known.

"At least two layers" lies somewhere above one. The nonparametric maximum likelihood estimate
spreads each reading over its own interval in the way that all the readings together make most
likely. It needs no curve to be assumed, and it never treats a bound as a count.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse

from buttonstudy.study.evidence.columns import Floats

__all__ = [
    "Innermost",
    "IntervalEvidence",
    "Ints",
    "innermost_intervals",
    "interval_evidence",
    "most_likely_masses",
]

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


@dataclass(frozen=True, slots=True)
class IntervalEvidence:
    """What the sets say about one quantity of which bounds are known.

    Attributes
    ----------
    low, high
        Innermost intervals, (low, high], shape (m,).
    bounds
        Lower and upper bound of the ``k`` distinct readings, (lower, upper], shape (k, 2).
    first, last
        For each of them, the range of innermost intervals it covers.
    votes
        Sets by distinct readings; each set with a reading casts one vote in all, shared over its
        readings. Sets without one have an empty row.
    """

    low: Floats
    high: Floats
    bounds: Floats
    first: Ints
    last: Ints
    votes: sparse.csr_array

    @property
    def sized(self) -> NDArray[np.bool_]:
        """Which sets have a reading."""
        return np.asarray(self.votes.sum(axis=1)).reshape(-1) > 0

    def masses(self, weights: Floats) -> Floats:
        """Estimate the distribution for sets weighted by ``weights``, shape (sets,)."""
        votes = np.asarray(self.votes.T @ np.asarray(weights, dtype=float))
        return most_likely_masses(self.first, self.last, votes, len(self.low))


def interval_evidence(
    bounds: Floats, owner: NDArray[np.int64], vote: Floats, sets: int
) -> IntervalEvidence:
    """Gather readings of which two bounds are known.

    Parameters
    ----------
    bounds
        Lower and upper bound of ``n`` readings, (lower, upper], shape (n, 2).
    owner, vote
        Each reading's set, and what it counts for there.
    sets
        Number of sets.
    """
    distinct, reading = np.unique(bounds, axis=0, return_inverse=True)
    shape = (sets, len(distinct))
    votes = sparse.csr_array((vote, (owner, reading.reshape(-1))), shape=shape)
    inner = innermost_intervals(distinct[:, 0], distinct[:, 1])
    return IntervalEvidence(inner.low, inner.high, distinct, inner.first, inner.last, votes)


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
    tolerance: float = 1e-6,
    max_steps: int = 20_000,
) -> Floats:
    """Estimate the probability of each innermost interval by the EM algorithm.

    Parameters
    ----------
    first, last
        For each of ``k`` readings, the range of intervals it covers.
    weights
        Votes, shape (k,).
    n_intervals
        Number of intervals, ``m``.
    tolerance
        Stop when no interval could raise the likelihood by more than this share of a vote
        per vote cast.
    max_steps
        Stop in any case after this many steps.

    Returns
    -------
    ndarray
        Masses that sum to 1, shape (m,); zeros where no vote was cast.

    Notes
    -----
    Self-consistency of Turnbull 1976; the stopping rule is the condition for a maximum in
    Gentleman & Geyer 1994 (Biometrika 81:618). Every second step is extrapolated (Varadhan &
    Roland 2008, Scand J Stat 35:335).
    """
    votes = np.asarray(weights, dtype=float)
    places = np.arange(n_intervals)
    covers = ((first[:, None] <= places) & (places < last[:, None])).astype(float)
    masses = np.full(n_intervals, 1.0 / max(n_intervals, 1))
    total = max(float(votes.sum()), _TINY)
    for _ in range(max_steps):
        once, slope = _step(masses, covers, votes, total)
        if slope.max(initial=0.0) <= 1.0 + tolerance:
            return once
        masses = _extrapolated(masses, once, _step(once, covers, votes, total)[0])
    return masses


def _step(masses: Floats, covers: Floats, votes: Floats, total: float) -> tuple[Floats, Floats]:
    """Give the next masses, and how fast the log likelihood grows with each."""
    slope = covers.T @ (votes / np.maximum(covers @ masses, _TINY)) / total
    return masses * slope, slope


def _extrapolated(before: Floats, once: Floats, twice: Floats) -> Floats:
    """Take one long step along the way the last two steps went, within the simplex."""
    first_move = once - before
    bend = (twice - once) - first_move
    turn = max(float(np.linalg.norm(bend)), _TINY)
    stretch = float(np.clip(np.linalg.norm(first_move) / turn, 1.0, 64.0))
    far = before + 2 * stretch * first_move + stretch**2 * bend
    # A mass that would fall to nothing keeps its ordinary step: zero is never left again.
    far = np.where(far > 0, far, twice)
    return np.asarray(far / max(float(far.sum()), _TINY))
