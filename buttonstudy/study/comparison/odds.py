"""Odds ratios of two-by-two tables of sets, with intervals that hold at small numbers.

An odds ratio of 1 is no association; 4 says that the odds of one feature are four times as high
where the other is there. Where a cell of the table is empty the plain ratio is nought or without
end; where a whole row or column is empty there is nothing to compare, and that is said.
"""

from dataclasses import dataclass

import numpy as np
from scipy import sparse, stats

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats

__all__ = ["Odds", "odds_with_interval"]

_WHOLE = 1e-9
_ADDED = "½ added to each cell, one being empty (Haldane–Anscombe)"


@dataclass(frozen=True, slots=True)
class Odds:
    """An odds ratio.

    Attributes
    ----------
    ratio, low, high
        The estimate and its interval; missing where it cannot be estimated or the interval is
        open.
    how
        By which method, or why there is no estimate.
    """

    ratio: float
    low: float
    high: float
    how: str


def odds_with_interval(per_set: sparse.csr_array, n_draws: int, seed: int) -> Odds:
    """Estimate an odds ratio from sets.

    Parameters
    ----------
    per_set
        Shape (sets, 4): how each set lies in the cells both, first only, second only, neither;
        rows sum to 1.
    n_draws, seed
        Number of resampled surveys where sets are mixed, and the seed of their random numbers.

    Returns
    -------
    Odds
        Where every set lies in one cell: the conditional maximum likelihood ratio with its exact
        interval (Fisher 1935, J R Stat Soc 98:39; Cornfield 1956, Proceedings of the Third
        Berkeley Symposium 4:135), or above the limit ``exact-odds-sets`` the plain ratio with
        Woolf's interval (1955, Annals of Human Genetics 19:251). Where sets are mixed: the ratio
        of the summed shares with an interval from resampled sets. Where a cell is empty: the
        ratio with one half added to each cell (Haldane 1956, Annals of Human Genetics 20:309;
        Anscombe 1956, Biometrika 43:461), and an exact interval that is open on that side.
    """
    cells = np.asarray(per_set.sum(axis=0)).reshape(-1)
    missing = _nothing_to_compare(cells)
    if missing:
        return Odds(float("nan"), float("nan"), float("nan"), f"not estimable: {missing}")
    empty = bool((cells < _WHOLE).any())
    level = limit("confidence") / 100
    if np.abs(per_set.data - np.round(per_set.data)).max(initial=0.0) > _WHOLE:
        return _mixed(per_set, cells, empty, n_draws, seed, level)
    if cells.sum() > limit("exact-odds-sets"):
        return _woolf(cells, empty, level)
    from scipy.stats.contingency import odds_ratio

    found = odds_ratio(np.round(cells).astype(int).reshape(2, 2), kind="conditional")
    ends = found.confidence_interval(level)
    ratio = float(_plain(cells + 0.5)) if empty else float(found.statistic)
    how = f"{_ADDED}; exact interval" if empty else "conditional estimate and exact interval"
    low = float(ends.low) if ends.low > 0 else float("nan")
    return Odds(ratio, low, float(ends.high) if np.isfinite(ends.high) else float("nan"), how)


def _nothing_to_compare(cells: Floats) -> str:
    """Say which row or column of the table is empty, if one is."""
    both, first, second, neither = cells
    if cells.sum() < _WHOLE:
        return "no set was examined for both"
    sides = {
        "no set had the term": both + first,
        "every set had the term": second + neither,
        "no set was in the group": both + second,
        "every set was in the group": first + neither,
    }
    return next((says for says, total in sides.items() if total < _WHOLE), "")


def _plain(cells: Floats) -> Floats:
    """Give the cross ratio of tables, shape (..., 4)."""
    return np.asarray(cells[..., 0] * cells[..., 3] / (cells[..., 1] * cells[..., 2]))


def _mixed(
    per_set: sparse.csr_array, cells: Floats, empty: bool, n_draws: int, seed: int, level: float
) -> Odds:
    # Sets that lie alike are drawn together: which of them were drawn makes no difference.
    patterns, alike = np.unique(per_set.toarray(), axis=0, return_counts=True)
    rng = np.random.default_rng(seed)
    times = rng.multinomial(alike.sum(), alike / alike.sum(), n_draws)
    drawn = np.log(_plain(times @ patterns + 0.5))
    low, high = _resampled_ends(drawn, per_set.shape[0], level)
    how = "mixed sets by their shares; interval from resampled sets"
    ratio = float(_plain(cells + 0.5 if empty else cells))
    ends = (float(np.exp(low)), float(np.exp(high)))
    return Odds(ratio, *ends, f"{how}; {_ADDED}" if empty else how)


def _resampled_ends(values: Floats, sets: int, confidence: float) -> tuple[float, float]:
    """Read an interval off the answers of resampled surveys.

    The cluster bootstrap (Davison & Hinkley 1997, Bootstrap Methods and their Application,
    section 3.8): a resampled survey draws as many sets as there are, with replacement, each with
    all its buttons. With few sets the plain percentiles are too narrow, and are widened as
    Hesterberg 2015 (The American Statistician 69:371) gives it. Missing below two sets.
    """
    if sets < 2:
        return float("nan"), float("nan")
    edge = stats.t.ppf((1 - confidence) / 2, sets - 1) * np.sqrt(sets / (sets - 1))
    tail = float(stats.norm.cdf(edge))
    low, high = np.quantile(values, [tail, 1 - tail])
    return float(low), float(high)


def _woolf(cells: Floats, empty: bool, level: float) -> Odds:
    used = cells + 0.5 if empty else cells
    ratio = float(_plain(used))
    reach = stats.norm.ppf((1 + level) / 2) * np.sqrt((1 / used).sum())
    how = "plain estimate and Woolf's interval"
    return Odds(
        ratio,
        float(ratio * np.exp(-reach)),
        float(ratio * np.exp(reach)),
        f"{how}; {_ADDED}" if empty else how,
    )
