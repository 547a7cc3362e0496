"""What the sets say about a length: one vote each, every reading kept as an interval.

The distribution is estimated by nonparametric maximum likelihood for interval-censored data
(Peto 1973, Applied Statistics 22:86; Turnbull 1976, J R Stat Soc B 38:290). Drawing sizes within
the intervals would be the simpler way; but it spreads each reading evenly, whatever all the
others say, and so keeps the rulers' heaps. Within one innermost interval the readings cannot tell
where sizes lie: quantiles are read off there as if they were spread evenly.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import sparse

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats, length_bounds
from buttonstudy.study.evidence.resampling import resampled_sums
from buttonstudy.study.evidence.sets import set_keys, shared_weights
from buttonstudy.study.sizes.censored import Ints, innermost_intervals, most_likely_masses

__all__ = [
    "IntervalEvidence",
    "interval_evidence",
    "quantiles_of",
    "shares_up_to",
    "size_evidence",
]

# Steps of the search for each resampled survey, fewer where the intervals are many: so many
# sets lie in them that a resampled survey differs little from the survey itself. More steps
# moved no end of an interval by more than the draws' own chance.
_DRAW_STEPS = (8, 12)
_DRAW_EFFORT = 1800
_DRAW_TOLERANCE = 1e-3
_TIE = 1e-9


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
        Sets by distinct readings; each set with a size casts one vote in all, shared evenly
        over its buttons with a size. Sets without one have an empty row.
    """

    low: Floats
    high: Floats
    bounds: Floats
    first: Ints
    last: Ints
    votes: sparse.csr_array

    @property
    def sized(self) -> NDArray[np.bool_]:
        """Which sets have a size."""
        return np.asarray(self.votes.sum(axis=1)).reshape(-1) > 0

    def of_sets(self, weights: Floats) -> "IntervalEvidence":
        """Keep only the readings of the sets that have a weight, shape (sets,).

        Where one reading spans several innermost intervals of the others, nothing says how it
        lies in them: a few sets are told by their own readings' intervals, not by others'.
        """
        used = np.asarray(self.votes.T @ np.asarray(weights, dtype=float)) > 0
        return _evidence(self.bounds[used], self.votes[:, np.flatnonzero(used)])

    def masses(self, weights: Floats) -> Floats:
        """Estimate the distribution for sets weighted by ``weights``, shape (sets,)."""
        votes = np.asarray(self.votes.T @ np.asarray(weights, dtype=float))
        return most_likely_masses(self.first, self.last, votes, len(self.low))

    def resampled(
        self, weights: Floats, n_draws: int, seed: int, start: Sequence[Floats]
    ) -> Iterator[list[Floats]]:
        """Estimate distributions for surveys of resampled sets, in blocks.

        Parameters
        ----------
        weights
            Weight of each set in each of several groups, shape (sets, groups).
        n_draws, seed
            Number of resampled surveys, and the seed of their random numbers.
        start
            Each group's estimate from the survey itself, where the search begins.

        Yields
        ------
        list of ndarray
            For each group the masses, shape (surveys in the block, m).
        """
        held = [self.votes.multiply(column[:, None]).tocsr() for column in weights.T]
        width = len(self.first)
        even = np.full(len(self.low), 1 / max(len(self.low), 1))
        steps = int(np.clip(_DRAW_EFFORT / max(len(self.low), 1), *_DRAW_STEPS))
        for sums in resampled_sums(sparse.csr_array(sparse.hstack(held)), n_draws, seed):
            yield [
                most_likely_masses(
                    self.first,
                    self.last,
                    sums[:, group * width : (group + 1) * width],
                    len(self.low),
                    start=0.98 * begin + 0.02 * even,
                    tolerance=_DRAW_TOLERANCE,
                    max_steps=steps,
                )
                for group, begin in enumerate(start)
            ]


def size_evidence(buttons: pd.DataFrame, field: str = "diameter") -> IntervalEvidence:
    """Gather the intervals of one length, one vote per set.

    Parameters
    ----------
    buttons
        One row per button, with ``<field>_mm`` and, where known, ``<field>_mm_low`` and
        ``_high``. A size without bounds is taken as exact.
    field
        A length's base name, such as ``"diameter"`` or ``"hole_diameter"``.
    """
    low, _, high = length_bounds(buttons, field)
    keys = set_keys(buttons).to_numpy()
    has = ~np.isnan(low)
    grain = limit("size-grain")
    pairs = np.round(np.column_stack([low[has], high[has]]) / grain) * grain
    sets = int(keys.max(initial=-1)) + 1
    return interval_evidence(pairs, keys[has], shared_weights(keys, has)[has], sets)


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
    return _evidence(distinct, votes)


def _evidence(bounds: Floats, votes: sparse.csr_array) -> IntervalEvidence:
    inner = innermost_intervals(bounds[:, 0], bounds[:, 1])
    return IntervalEvidence(inner.low, inner.high, bounds, inner.first, inner.last, votes)


def quantiles_of(evidence: IntervalEvidence, masses: Floats, quantiles: Sequence[float]) -> Floats:
    """Read quantiles off estimated distributions, shape (distributions, quantiles).

    Missing where a distribution is empty.
    """
    table = np.atleast_2d(masses)
    running = np.cumsum(table, axis=1)
    found = np.full((len(table), len(quantiles)), np.nan)
    if table.shape[1] == 0:
        return found
    rows = np.flatnonzero(running[:, -1] > 0)
    for column, share in enumerate(quantiles):
        target = share * running[rows, -1]
        place = (running[rows] < target[:, None] - _TIE).sum(axis=1)
        mass = table[rows, place]
        part = 1 - (running[rows, place] - target) / np.where(mass > 0, mass, 1.0)
        width = evidence.high[place] - evidence.low[place]
        found[rows, column] = evidence.low[place] + np.clip(part, 0, 1) * width
    return found


def shares_up_to(evidence: IntervalEvidence, masses: Floats, size_mm: float) -> Floats:
    """Give the share of sets up to a size, spreading each innermost interval's share evenly."""
    width = np.where(evidence.high > evidence.low, evidence.high - evidence.low, 1.0)
    part = np.clip((size_mm - evidence.low) / width, 0, 1)
    part = np.where(evidence.high == evidence.low, size_mm >= evidence.high, part)
    return np.atleast_2d(masses) @ part.astype(float)
