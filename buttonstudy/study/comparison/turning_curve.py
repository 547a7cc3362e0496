"""Lays a logistic curve of a trait's share over the years out on a grid, with its chances.

The posterior is laid out on a grid: turning year (even over the years that any set allows),
length of the change (even on a log scale), and the two levels (Jeffreys' prior each), then again
on the part of the grid that holds the mass. Latent dates with a logistic curve are standard for
interval-valued covariates (Carroll, Ruppert, Stefanski & Crainiceanu 2006, Measurement Error in
Nonlinear Models, chapter 8).
"""

from dataclasses import dataclass

import numpy as np
from scipy import stats

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.patterns import Ints

__all__ = ["Curve", "posterior_curve"]

_SIZES = (40, 6, 10, 10)
_PASSES = 3
_GRAINS = (1, 2, 5, 10, 20)
_TRACE = 1e-3
_YEARS = 1_000_000
_LEVELS = (1e-5, 1 - 1e-5)


@dataclass(frozen=True, slots=True)
class Curve:
    """The posterior: chance of each turning year, spread and pair of levels."""

    years: Floats
    spreads: Floats
    before: Floats
    after: Floats
    chance: Floats

    @property
    def change(self) -> Floats:
        """How much larger the share is after the turn than before it, per pair of levels."""
        return self.after - self.before


def posterior_curve(start: Ints, end: Ints, answer: Floats) -> Curve:
    """Lay the posterior out on a grid, and again on the part of it that holds the mass."""
    ranges = _counted(start, end, answer)
    first, last = ranges.first.min(), ranges.end.max()
    widest = np.log(max((last - first) / 4, 2.0))
    box = np.array([[first, last], [0.0, widest], [0.0, 1.0], [0.0, 1.0]])
    for _ in range(_PASSES):
        axes = [_middles(low, high, size) for (low, high), size in zip(box, _SIZES)]
        chance = _chance(ranges, axes)
        box = np.array([_held(axis, chance, place) for place, axis in enumerate(axes)])
    years, spreads, before, after = _scales(axes)
    before, after = (side.reshape(-1) for side in np.meshgrid(before, after, indexing="ij"))
    return Curve(years, spreads, before, after, chance.reshape(len(years), len(spreads), -1))


@dataclass(frozen=True, slots=True)
class _Ranges:
    """Sets counted by date range: first year, end (open), how many have the trait and lack it."""

    first: Floats
    end: Floats
    having: Floats
    lacking: Floats


def _counted(start: Ints, end: Ints, answer: Floats) -> _Ranges:
    """Count sets by date range; of very many ranges, like ones together at their means."""
    for grain in _GRAINS:
        ranges = (start // grain) * _YEARS + end // grain
        _, group, sets = np.unique(ranges, return_inverse=True, return_counts=True)
        if len(sets) <= limit("turning-date-ranges"):
            break
    first, last = np.bincount(group, start) / sets, np.bincount(group, end) / sets
    having = np.bincount(group, answer).astype(np.float64)
    return _Ranges(first, last + 1, having, sets.astype(np.float64) - having)


def _middles(low: float, high: float, size: int) -> Floats:
    """Cut a stretch into equal parts and give their middles."""
    return np.asarray(low + (high - low) * (np.arange(size) + 0.5) / size)


def _scales(axes: list[Floats]) -> tuple[Floats, Floats, Floats, Floats]:
    """Turn the grid's axes into years, spreads and levels; levels by Jeffreys' prior."""
    before, after = (np.clip(stats.beta.ppf(axis, 0.5, 0.5), *_LEVELS) for axis in axes[2:])
    return axes[0], np.exp(axes[1]), before, after


def _held(axis: Floats, chance: Floats, place: int) -> tuple[float, float]:
    """Give the stretch of one axis that holds all but a trace of the mass."""
    others = tuple(other for other in range(chance.ndim) if other != place)
    mass = chance.sum(axis=others)
    kept, step = axis[mass > mass.max() * _TRACE], axis[1] - axis[0]
    low, high = float(kept.min() - step), float(kept.max() + step)
    return max(low, float(axis[0] - step / 2)), min(high, float(axis[-1] + step / 2))


def _chance(ranges: _Ranges, axes: list[Floats]) -> Floats:
    years, spreads, before, after = _scales(axes)
    fitted = np.empty((len(years), len(spreads), len(before), len(after)))
    rise = (after[None, :] - before[:, None]).reshape(-1, 1).astype(np.float32)
    start = np.repeat(before, len(after))[:, None].astype(np.float32)
    having, lacking = ranges.having > 0, ranges.lacking > 0
    for place, spread in enumerate(spreads):
        reached = _mean_curves(ranges, years, float(spread)).astype(np.float32)
        for year, row in enumerate(reached):
            told = np.log(start + rise * row[having]) @ ranges.having[having]
            told += np.log(1 - start - rise * row[lacking]) @ ranges.lacking[lacking]
            fitted[year, place] = told.reshape(len(before), len(after))
    chance = np.exp(fitted - fitted.max())
    return np.asarray(chance / chance.sum())


def _mean_curves(ranges: _Ranges, years: Floats, spread: float) -> Floats:
    """Average the logistic curve over each range's years, shape (turning years, ranges).

    The mean over [a, b] is the difference of log(1 + exp((t - turning year) / spread)).
    """
    upper = np.logaddexp(0, (ranges.end - years[:, None]) / spread)
    lower = np.logaddexp(0, (ranges.first - years[:, None]) / spread)
    return np.asarray(np.clip((upper - lower) * spread / (ranges.end - ranges.first), 0, 1))
