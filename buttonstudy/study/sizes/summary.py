"""Sizes of sets: how large, how they spread, how they differ between periods.

A reading is an interval, and its best value is only the middle of it. What is told here from
best values always has beside it what the intervals allow. Each set counts once; buttons of
several sizes off one garment share its weight.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import sparse

from buttonstudy.schemes import PeriodScheme, limit, units
from buttonstudy.study.evidence.columns import Floats, length_bounds
from buttonstudy.study.evidence.dating import (
    ALL_PERIODS,
    period_rows,
    period_weights,
    wholly_within,
)
from buttonstudy.study.evidence.resampling import interval_of, resampled_sums
from buttonstudy.study.evidence.sets import set_dates, set_keys, shared_weights
from buttonstudy.study.sizes.quantiles import weighted_quantiles

__all__ = [
    "size_summary",
    "sizes_by_period",
]

_QUARTILES = {"lower_quartile": 0.25, "median": 0.5, "upper_quartile": 0.75}
_SUMMARY = {
    "smallest": 0.0,
    "a tenth are no larger than": 0.1,
    "a quarter are no larger than": 0.25,
    "half are no larger than": 0.5,
    "three quarters are no larger than": 0.75,
    "nine tenths are no larger than": 0.9,
    "largest": 1.0,
}
_DIGITS = 4


def size_summary(buttons: pd.DataFrame, field: str = "diameter") -> pd.DataFrame:
    """Summarise a length by its quantiles over sets.

    Parameters
    ----------
    buttons
        One row per button.
    field
        A length's base name.

    Returns
    -------
    DataFrame
        One row for each of seven quantiles: ``says`` (in words), ``quantile``, ``best_mm`` (from
        best values), ``low_mm`` and ``high_mm`` (if every size lay at the lower, or the upper,
        end of what its reading allows), the same in button lines, ``buttons`` and ``sets`` with
        a size. Blank sizes if there are none.

    Examples
    --------
    >>> table = size_summary(pd.DataFrame({"diameter_mm": [12.7, 15.24, 15.24, 19.05]}))
    >>> table[["says", "best_mm", "best_lines"]].values.tolist()[3]
    ['half are no larger than', 15.24, 24.0]
    """
    bounds = dict(zip(("low", "best", "high"), length_bounds(buttons, field)))
    has = ~np.isnan(bounds["best"])
    keys = set_keys(buttons).to_numpy()
    weights = shared_weights(keys, has)[has]
    table = pd.DataFrame({"says": list(_SUMMARY), "quantile": list(_SUMMARY.values())})
    for name in ("best", "low", "high"):
        sizes = bounds[name][has]
        order = np.argsort(sizes, kind="stable")
        found = weighted_quantiles(sizes[order], weights[order], list(_SUMMARY.values()))
        table[f"{name}_mm"] = np.round(found, _DIGITS)
    for name in ("best", "low", "high"):
        table[f"{name}_lines"] = np.round(table[f"{name}_mm"] / float(units()["lines"]), _DIGITS)
    table["buttons"] = int(has.sum())
    table["sets"] = len(np.unique(keys[has]))
    return table


def sizes_by_period(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    field: str = "diameter",
    *,
    n_draws: int | None = None,
    seed: int = 1,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Give the median and quartiles of a length by period, with intervals.

    Sets count in each period by their aoristic weight, so that this describes the record as it
    is dated.

    Parameters
    ----------
    buttons, field
        As for :func:`size_summary`.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.
    n_draws
        Number of resampled surveys; the limit ``resampling-draws`` if not given.
    seed
        Seed of their random numbers: the same seed gives the same intervals.

    Returns
    -------
    DataFrame
        The rows of :func:`.evidence.dating.period_rows` with ``sets`` (weights of the
        sets with a size, summed), ``dated_within``, then ``median_mm`` with ``median_low_mm``
        and ``median_high_mm``, the same for ``lower_quartile`` and ``upper_quartile``, and
        ``few``: fewer sets than the limit ``few-sets-for-sizes``, and so no intervals.

    Notes
    -----
    Whole sets are drawn again, and the middle 95 % of the answers is the interval, widened for
    small numbers (:mod:`.evidence.resampling`). It covers chance in which sets were
    surveyed; not the rounding of the readings, nor what wide dates blur.
    """
    _, best, _ = length_bounds(buttons, field)
    keys = set_keys(buttons)
    dates = set_dates(buttons, keys)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    within = wholly_within(weights)
    weights = weights.assign(**{ALL_PERIODS: 1.0})
    has = ~np.isnan(best)
    sized = np.bincount(keys.to_numpy()[has], minlength=len(dates)) > 0
    table = period_rows(scheme)
    table["sets"] = weights[sized].sum().to_numpy()
    labels = [period.label for period in scheme.periods]
    table["dated_within"] = [
        *within[sized].sum(),
        int(within.loc[sized, labels].to_numpy().sum()),
    ]
    sizes, held = _sizes_held(best, keys.to_numpy(), weights.to_numpy(dtype=np.float64))
    draws = int(limit("resampling-draws")) if n_draws is None else n_draws
    return _with_quartiles(table, sizes, held, draws, seed)


def _sizes_held(
    best: Floats, keys: NDArray[np.int64], weights: Floats
) -> tuple[Floats, sparse.csr_array]:
    """Give the distinct sizes, and each set's weight on each of them in each period.

    The second has one row per set and one column per period and size, the period's sizes
    together.
    """
    has = ~np.isnan(best)
    sizes, place = np.unique(np.round(best[has], _DIGITS), return_inverse=True)
    owner = keys[has]
    vote = shared_weights(keys, has)[has]
    row, period = np.nonzero(weights[owner])
    value = vote[row] * weights[owner[row], period]
    shape = (len(weights), weights.shape[1] * len(sizes))
    cells = (owner[row], period * len(sizes) + place[row])
    return sizes, sparse.csr_array((value, cells), shape=shape)


def _with_quartiles(
    table: pd.DataFrame, sizes: Floats, held: sparse.csr_array, draws: int, seed: int
) -> pd.DataFrame:
    """Add quartiles and their intervals to the rows of a table by period."""
    shape = (len(table), len(sizes))
    shares = list(_QUARTILES.values())
    found = weighted_quantiles(sizes, np.asarray(held.sum(axis=0)).reshape(shape), shares)
    blocks = resampled_sums(held, draws, seed) if len(sizes) else iter(())
    drawn = [
        weighted_quantiles(sizes, block.reshape(len(block), *shape), shares) for block in blocks
    ]
    sets = table["sets"].to_numpy()
    table["few"] = sets < limit("few-sets-for-sizes")
    for place, name in enumerate(_QUARTILES):
        ends = np.full((len(table), 2), np.nan)
        for row in np.flatnonzero(~table["few"]) if drawn else ():
            answers = np.concatenate([block[:, row, place] for block in drawn])
            ends[row] = interval_of(answers, sets[row], limit("confidence") / 100)
        table[f"{name}_mm"] = found[:, place]
        table[f"{name}_low_mm"], table[f"{name}_high_mm"] = ends[:, 0], ends[:, 1]
    few = table.pop("few")
    return table.assign(few=few)
