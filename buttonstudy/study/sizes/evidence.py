"""What the sets say about a length: one vote each, every reading spread over what it leaves open.

"16 mm" read to the whole millimetre may be anything from 15.5 to 16.5 mm, and counts as if it
were drawn from there again and again. No rounded size is taken as exact, and no curve is assumed.
Nonparametric maximum likelihood (Turnbull 1976) would crowd all that a coarse reading leaves open
into the few gaps between finer ones. In simulated surveys of mixed rulers (240 sets, 400 surveys)
quartiles read off it scattered by 0.44 and 0.62 mm, and those of the even spread by 0.37 and
0.54 mm, as little as exact sizes allow; and intervals about them held the truth in 90 to 93 % of
the surveys, against 96 % here.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import sparse

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats, length_bounds
from buttonstudy.study.evidence.sets import set_keys, shared_weights

__all__ = ["SizeEvidence", "Spread", "size_evidence", "spread_of"]

_TIE = 1e-9
_POINT = 1e-6


@dataclass(frozen=True, slots=True)
class Spread:
    """How sizes are spread: the share of sets up to each of some sizes, straight in between.

    Attributes
    ----------
    sizes
        Sizes in mm, ascending, shape (m,); none if there is nothing to spread.
    up_to
        Share of the sets that are no larger, from 0 to 1.
    """

    sizes: Floats
    up_to: Floats

    def quantiles(self, shares: Sequence[float] | Floats) -> Floats:
        """Give the size that so large a share of the sets does not exceed; missing if empty."""
        wanted = np.asarray(shares, dtype=float)
        if len(self.sizes) == 0:
            return np.full(wanted.shape, np.nan)
        after = np.clip(np.searchsorted(self.up_to, wanted - _TIE), 1, len(self.sizes) - 1)
        below, above = self.up_to[after - 1], self.up_to[after]
        part = np.clip((wanted - below) / np.where(above > below, above - below, 1.0), 0, 1)
        return np.asarray(
            self.sizes[after - 1] + part * (self.sizes[after] - self.sizes[after - 1])
        )

    def share_up_to(self, sizes: Floats) -> Floats:
        """Give the share of the sets up to some sizes; missing if empty."""
        if len(self.sizes) == 0:
            return np.full(np.shape(sizes), np.nan)
        return np.asarray(np.interp(sizes, self.sizes, self.up_to, left=0.0, right=1.0))


@dataclass(frozen=True, slots=True)
class SizeEvidence:
    """What the sets say about one length.

    Attributes
    ----------
    bounds
        Lower and upper bound of the ``k`` distinct readings, shape (k, 2).
    votes
        Sets by distinct readings; each set with a size casts one vote in all, shared evenly
        over its buttons with a size. Sets without one have an empty row.
    """

    bounds: Floats
    votes: sparse.csr_array

    @property
    def sized(self) -> NDArray[np.bool_]:
        """Which sets have a size."""
        return np.asarray(self.votes.sum(axis=1)).reshape(-1) > 0

    def spread(self, weights: Floats) -> Spread:
        """Spread the sets, weighted by ``weights``, shape (sets,), over their readings."""
        return spread_of(self.bounds, self._votes(weights))

    def ends(self, weights: Floats) -> tuple[Spread, Spread]:
        """Put every size at the lower end of its reading, and every one at the upper end."""
        votes = self._votes(weights)
        low, high = (spread_of(self.bounds[:, [side, side]], votes) for side in (0, 1))
        return low, high

    def _votes(self, weights: Floats) -> Floats:
        return np.asarray(self.votes.T @ np.asarray(weights, dtype=float))


def size_evidence(buttons: pd.DataFrame, field: str = "diameter") -> SizeEvidence:
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
    distinct, reading = np.unique(pairs, axis=0, return_inverse=True)
    shape = (int(keys.max(initial=-1)) + 1, len(distinct))
    vote = shared_weights(keys, has)[has]
    return SizeEvidence(
        distinct, sparse.csr_array((vote, (keys[has], reading.reshape(-1))), shape=shape)
    )


def spread_of(bounds: Floats, votes: Floats) -> Spread:
    """Spread votes evenly over the intervals of their readings.

    Parameters
    ----------
    bounds
        Lower and upper bound of ``k`` readings, shape (k, 2); equal ones are an exact size.
    votes
        What each reading counts for, shape (k,).

    Examples
    --------
    >>> spread = spread_of(np.array([[10.0, 11.0], [20.0, 22.0]]), np.array([1.0, 1.0]))
    >>> spread.share_up_to(np.array([10.5, 15.0, 21.0])).round(6).tolist()
    [0.25, 0.5, 0.75]
    >>> spread.quantiles([0.25, 0.75]).tolist()
    [10.5, 21.0]
    """
    used = votes > 0
    if not used.any():
        return Spread(np.zeros(0), np.zeros(0))
    low, high = bounds[used].T
    exact = high <= low
    low, high = np.where(exact, low - _POINT, low), np.where(exact, high + _POINT, high)
    sizes, place = np.unique(np.concatenate([low, high]), return_inverse=True)
    dense = votes[used] / (high - low)
    turns = np.bincount(place, np.concatenate([dense, -dense]), len(sizes))
    rises = np.maximum(np.cumsum(turns)[:-1] * np.diff(sizes), 0.0)
    up_to = np.concatenate([[0.0], np.cumsum(rises)])
    return Spread(sizes, up_to / up_to[-1])
