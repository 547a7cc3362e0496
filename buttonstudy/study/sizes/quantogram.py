"""Kendall's cosine quantogram, which shows whether sizes sit on the multiples of one step.

For a step q the quantogram adds up, over the sizes, a wave that is highest at every multiple of
q. Sizes without a common step leave it near zero; sizes made to a step lift it. A ruler has a
step of its own, and a wave cannot tell the maker's from the ruler's. So the value is never held
against a textbook curve, only against simulated surveys without any step, in which each size
went through the very rounding that its reading went through.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import stats

Floats = NDArray[np.float64]

_CLOSE = 1e-6
_GRAIN = 0.01
_BLOCK = 200


@dataclass(frozen=True, slots=True)
class NullWaves:
    """Quantograms of simulated surveys that have no step.

    Attributes
    ----------
    waves
        Quantogram values at the steps looked at, shape (draws, s); missing where too few
        readings can tell.
    mean, spread
        Mean and standard deviation over as many further draws, shape (s,). They are not taken
        from ``waves`` itself: a survey would then stand out from them more easily than the
        draws that helped to make them.
    """

    waves: Floats
    mean: Floats
    spread: Floats


def step_grid(smallest_mm: float, largest_mm: float, size_range_mm: float) -> Floats:
    """List the steps to search, evenly spaced in 1/q, from the largest to the smallest.

    Notes
    -----
    The spacing in 1/q is at most 1/(4 x the range of the sizes), so that no peak of the
    quantogram falls between two steps of the grid.
    """
    slowest, fastest = 1 / largest_mm, 1 / smallest_mm
    count = int(np.ceil((fastest - slowest) * 4 * max(size_range_mm, largest_mm))) + 1
    return 1 / np.linspace(slowest, fastest, count)


def can_tell(rounding_mm: Floats, steps_mm: Floats, finest_share: float) -> NDArray[np.bool_]:
    """Say which readings are fine enough to be evidence for which steps, shape (n, steps)."""
    return np.asarray(rounding_mm)[:, None] <= finest_share * np.asarray(steps_mm) + _CLOSE


def waves_of(
    sizes_mm: Floats,
    rounding_mm: Floats,
    steps_mm: Floats,
    *,
    finest_share: float = 0.25,
    fewest: int = 1,
) -> tuple[Floats, NDArray[np.int64]]:
    """Evaluate the quantogram with, for each step, only the readings fine enough to tell.

    The quantogram of a step q is phi(q) = sqrt(2/N) * sum of cos(2 pi x / q): 0 on average and 1
    in spread where the sizes have no step, and sqrt(2N) where each is an exact multiple of q.

    Parameters
    ----------
    sizes_mm, rounding_mm
        Readings and the step that each was rounded to, shape (n,).
    steps_mm
        Steps q, shape (s,).
    finest_share
        A reading counts where its rounding is at most this share of q.
    fewest
        Steps with fewer readings get no value.

    Returns
    -------
    tuple
        The values, shape (s,), missing where too few readings can tell; and the number of
        readings that counted, shape (s,).

    Notes
    -----
    Kendall 1974, Phil Trans R Soc A 276:231.

    Examples
    --------
    >>> waves, counted = waves_of([6.0, 9.0, 15.0, 21.0], np.full(4, 0.1), np.array([3.0]))
    >>> round(float(waves[0]), 3), int(counted[0])
    (2.828, 4)
    """
    sizes, rounding = np.asarray(sizes_mm, dtype=float), np.asarray(rounding_mm, dtype=float)
    waves, counted = _waves(sizes, rounding, np.asarray(steps_mm), finest_share)
    return np.where(counted >= max(fewest, 1), waves, np.nan), counted


def simulated_waves(
    sizes_mm: Floats,
    rounding_mm: Floats,
    steps_mm: Floats,
    *,
    finest_share: float = 0.25,
    fewest: int = 1,
    draws: int = 1000,
    seed: int = 1840,
) -> NullWaves:
    """Simulate surveys without a step, rounded as this survey's readings were rounded.

    Parameters
    ----------
    sizes_mm, rounding_mm
        Readings and the step that each was rounded to, shape (n,).
    steps_mm
        Steps q, shape (s,).
    finest_share, fewest
        As for ``waves_of``.
    draws, seed
        Number of simulated surveys to hold against (as many again set mean and spread), and the
        seed of their random numbers.

    Notes
    -----
    The readings of each rounding step make a smooth curve: each reading is spread over its own
    rounding interval (the "unrounding" of Kendall 1974) and over a normal kernel at least half
    the longest step wide, so that no step survives. Every draw takes as many sizes from that
    curve and rounds them to that step again. So each kind of reading keeps its own distribution
    and its own rounding. Only counts on the rounded values are drawn, which keeps large surveys
    quick.
    """
    rng = np.random.default_rng(seed)
    steps = np.asarray(steps_mm, dtype=float)
    rounding = np.maximum(np.asarray(rounding_mm, dtype=float), _GRAIN)
    width = _smoothing(np.asarray(sizes_mm, dtype=float), float(steps.max()))
    usable = can_tell(rounding, steps, finest_share)
    counted = usable.sum(axis=0)
    waves = np.zeros((2 * draws, len(steps)))
    for ruler in np.unique(rounding):
        group = rounding == ruler
        wanted = usable[group][0]
        if wanted.any():
            values, chances = _smooth_and_rounded(np.asarray(sizes_mm)[group], ruler, width)
            cosines = np.cos(2 * np.pi * np.divide.outer(values, steps[wanted]))
            for begin in range(0, len(waves), _BLOCK):
                block = waves[begin : begin + _BLOCK]
                drawn = rng.multinomial(int(group.sum()), chances, len(block))
                block[:, wanted] += drawn.astype(float) @ cosines
    waves *= np.sqrt(2 / np.maximum(counted, 1))
    waves[:, counted < max(fewest, 1)] = np.nan
    scale, held = waves[:draws], waves[draws:]
    return NullWaves(held, scale.mean(axis=0), scale.std(axis=0, ddof=1))


def highest_studentised(waves: Floats, null: NullWaves) -> tuple[int, float, float]:
    """Find the step that stands out most, and how often chance alone does as well.

    Parameters
    ----------
    waves
        The survey's quantogram at the null's steps.
    null
        Simulated surveys.

    Returns
    -------
    tuple
        Index of the step, its height in standard deviations above the mean of the simulated
        surveys, and the share of surveys (this one among them) whose own highest step reaches
        as high. The index is -1 and the rest missing if no step can be told.
    """
    usable = np.isfinite(waves) & (null.spread > _CLOSE)
    if not usable.any():
        return -1, float("nan"), float("nan")
    score = np.where(usable, (waves - null.mean) / np.where(usable, null.spread, 1.0), -np.inf)
    drawn = (null.waves[:, usable] - null.mean[usable]) / null.spread[usable]
    best = int(np.argmax(score))
    reached = int((drawn.max(axis=1) >= score[best] - _CLOSE).sum())
    return best, float(score[best]), (1 + reached) / (1 + len(drawn))


def _smoothing(sizes: Floats, longest_step: float) -> float:
    """Choose the kernel's width: Silverman's rule, but never below half the longest step."""
    spread = float(np.std(sizes)) if len(sizes) > 1 else 0.0
    return max(0.9 * spread * len(sizes) ** -0.2, longest_step / 2)


def _smooth_and_rounded(sizes: Floats, ruler: float, width: float) -> tuple[Floats, Floats]:
    """Give the values that a ruler can show, and the chance of each under the smooth curve."""
    spread = np.sqrt(width**2 + ruler**2 / 12)
    last = int(np.ceil((sizes.max() + 6 * spread) / ruler))
    values = ruler * np.arange(1, last + 1)
    edges = np.append(values - ruler / 2, values[-1] + ruler / 2)
    distinct, times = np.unique(sizes, return_counts=True)
    below = np.zeros(len(edges))
    for size, number in zip(distinct, times):
        below += number * stats.norm.cdf((edges - size) / spread)
    chances = np.maximum(np.diff(below), 0)
    return np.asarray(values, dtype=np.float64), chances / chances.sum()


def _waves(
    sizes: Floats, rounding: Floats, steps: Floats, finest_share: float
) -> tuple[Floats, NDArray[np.int64]]:
    """Evaluate one survey's quantogram, each step with the readings that can tell."""
    usable = can_tell(rounding, steps, finest_share)
    counted = usable.sum(axis=0)
    total = np.zeros(len(steps))
    for ruler in np.unique(rounding):
        group = rounding == ruler
        wanted = usable[group][0]
        distinct, times = np.unique(np.round(sizes[group], 6), return_counts=True)
        phases = np.divide.outer(distinct, steps[wanted])
        total[wanted] += times @ np.cos(2 * np.pi * phases)
    return total * np.sqrt(2 / np.maximum(counted, 1)), counted
