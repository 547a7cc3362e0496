"""Whether the buttons of one period are larger than those of another, and by how much.

The effect is told as a chance that needs no unit: of two sets taken at random, one from each
period, how often is the later one the larger? One half is no difference. It rests on the whole
distribution, and readings that overlap count as undecided, as far as they do.
"""

import numpy as np
import pandas as pd
from scipy import optimize, stats

from buttonstudy.schemes import PeriodScheme, SchemeError, limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.dating import period_weights
from buttonstudy.study.evidence.resampling import effective_number, interval_of
from buttonstudy.study.evidence.sets import set_dates
from buttonstudy.study.sizes.evidence import IntervalEvidence, quantiles_of, size_evidence

__all__ = [
    "COMPARISON_COLUMNS",
    "chance_larger",
    "compare_sizes",
    "superiority",
    "superiority_interval",
]

COMPARISON_COLUMNS = (
    "dating",
    "first",
    "second",
    "sets_first",
    "sets_second",
    "median_first_mm",
    "median_second_mm",
    "difference_mm",
    "difference_low_mm",
    "difference_high_mm",
    "superiority",
    "superiority_low",
    "superiority_high",
)

_POINT = 1e-6
_WHOLE = 1 - 1e-9


def chance_larger(low: Floats, high: Floats, other_low: Floats, other_high: Floats) -> Floats:
    """Give the chance that a size in the second interval exceeds one in the first.

    Parameters
    ----------
    low, high
        ``a`` intervals; the size may lie anywhere in one with the same chance. Equal ends are an
        exact size.
    other_low, other_high
        ``b`` intervals.

    Returns
    -------
    ndarray
        Shape (a, b); one half for two equal exact sizes.

    Examples
    --------
    >>> chance_larger(np.array([10.0]), np.array([12.0]), np.array([11.0]), np.array([13.0]))
    array([[0.875]])
    """
    start, end = _spread(low[:, None], high[:, None])
    begin, stop = _spread(other_low[None, :], other_high[None, :])
    above = np.maximum(0.0, stop - np.maximum(begin, end))
    from_, to = np.maximum(begin, start), np.minimum(stop, end)
    shared = np.maximum(0.0, to - from_)
    within = shared * ((from_ + to) / 2 - start) / (end - start)
    return np.asarray((above + within) / (stop - begin))


def superiority(evidence: IntervalEvidence, first: Floats, second: Floats) -> Floats:
    """Give P(second larger) + P(equal)/2 for pairs of estimated distributions.

    Parameters
    ----------
    evidence
        The innermost intervals that both distributions lie on.
    first, second
        Masses, shape (m,) or (pairs, m).

    Returns
    -------
    ndarray
        Shape (pairs,); missing where a distribution is empty.

    Notes
    -----
    The measure A of Vargha & Delaney 2000 (Journal of Educational and Behavioral Statistics
    25:101), the Mann-Whitney statistic divided by the number of pairs; here between two
    nonparametric maximum likelihood estimates.
    """
    larger = chance_larger(evidence.low, evidence.high, evidence.low, evidence.high)
    one, two = np.atleast_2d(first), np.atleast_2d(second)
    both = one.sum(axis=1) * two.sum(axis=1)
    wins = ((one @ larger) * two).sum(axis=1)
    return np.where(both > 0, wins / np.where(both > 0, both, 1.0), np.nan)


def compare_sizes(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    first: str = "",
    second: str = "",
    field: str = "diameter",
    *,
    n_draws: int | None = None,
    seed: int = 1,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Compare the sizes of two periods.

    Sets whose date ranges touch both periods count in both by their aoristic weights, which
    draws the two together: where there is a difference, this understates it. The same figures
    for the sets dated wholly within stand beside.

    Parameters
    ----------
    buttons, field
        As for :func:`buttonstudy.study.sizes.evidence.size_evidence`.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.
    first, second
        The labels of the two periods compared. Left open, they are the earliest and the latest
        period with as many effective sets as the limit ``few-sets-for-sizes``: chosen by their
        dates, before any size is looked at.
    n_draws
        Number of resampled surveys; the limit ``resampling-draws`` if not given. With none the
        difference has no interval.
    seed
        Seed of their random numbers: the same seed gives the same intervals.

    Returns
    -------
    DataFrame
        :data:`COMPARISON_COLUMNS`, two rows, ``dating`` "by weights" and "dated within":
        ``first``, ``second``, ``sets_first``, ``sets_second`` (weights summed),
        ``median_first_mm``, ``median_second_mm``, ``difference_mm`` with ``difference_low_mm`` and
        ``difference_high_mm``, ``superiority`` (chance that a set of the second period is the
        larger of the two) with ``superiority_low`` and ``superiority_high``. Intervals are
        at the
        level of the limit ``confidence``, of the difference from resampled sets, of the chance by
        :func:`superiority_interval`; blank where either period has fewer effective sets than the
        limit ``few-sets-for-sizes``. No estimate where a period has no size; no rows where no two
        periods were named or have enough sets.

    Raises
    ------
    SchemeError
        If a label is not one of the scheme's periods.
    """
    known = [period.label for period in scheme.periods]
    for label in filter(None, (first, second)):
        if label not in known:
            raise SchemeError(
                f'The period scheme "{scheme.name}" has no period "{label}". '
                f"Use two of: {', '.join(known)}."
            )
    evidence = size_evidence(buttons, field)
    dates = set_dates(buttons)
    shared = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    sized = shared[known].to_numpy(dtype=float) * evidence.sized[:, None]
    enough = [
        label
        for label, column in zip(known, sized.T)
        if effective_number(column) >= limit("few-sets-for-sizes")
    ]
    first, second = first or next(iter(enough), ""), second or next(reversed(enough), "")
    if not (first and second) or first == second:
        return pd.DataFrame(columns=list(COMPARISON_COLUMNS))
    weights = sized[:, [known.index(first), known.index(second)]]
    draws = int(limit("resampling-draws")) if n_draws is None else n_draws
    rows = {
        "by weights": _compare(evidence, weights, draws, seed),
        "dated within": _compare(evidence, (weights > _WHOLE).astype(float), draws, seed),
    }
    table = pd.DataFrame.from_dict(rows, orient="index").rename_axis("dating").reset_index()
    table.insert(1, "first", first)
    table.insert(2, "second", second)
    return table[list(COMPARISON_COLUMNS)]


def _compare(
    evidence: IntervalEvidence, weights: Floats, draws: int, seed: int
) -> dict[str, float]:
    masses = [evidence.masses(column) for column in weights.T]
    effective = [effective_number(column) for column in weights.T]
    medians = [_medians(evidence, mass) for mass in masses]
    chance = float(superiority(evidence, *masses)[0])
    chance_ends = difference_ends = (float("nan"), float("nan"))
    level = limit("confidence") / 100
    if min(effective) >= limit("few-sets-for-sizes"):
        chance_ends = superiority_interval(chance, effective[0], effective[1], level)
    if draws and min(effective) >= limit("few-sets-for-sizes"):
        blocks = evidence.resampled(weights, draws, seed, masses)
        drawn = [_medians(evidence, two) - _medians(evidence, one) for one, two in blocks]
        difference_ends = interval_of(np.concatenate(drawn), min(effective), level)
    return {
        "sets_first": float(weights[:, 0].sum()),
        "sets_second": float(weights[:, 1].sum()),
        "median_first_mm": float(medians[0][0]),
        "median_second_mm": float(medians[1][0]),
        "difference_mm": float(medians[1][0] - medians[0][0]),
        "difference_low_mm": difference_ends[0],
        "difference_high_mm": difference_ends[1],
        "superiority": chance,
        "superiority_low": chance_ends[0],
        "superiority_high": chance_ends[1],
    }


def _medians(evidence: IntervalEvidence, masses: Floats) -> Floats:
    return quantiles_of(evidence, masses, [0.5])[:, 0]


def superiority_interval(
    chance: float, sets_first: float, sets_second: float, confidence: float = 0.95
) -> tuple[float, float]:
    """Give the interval of a probability of superiority.

    Parameters
    ----------
    chance
        The estimate, 0 to 1.
    sets_first, sets_second
        Effective numbers of sets in the two periods.
    confidence
        Share of such intervals that hold the true chance.

    Returns
    -------
    tuple of float
        All true chances from which the estimate lies no further than chance would explain.
        Unlike percentiles of resampled surveys, the interval keeps a width where every set of
        one period is larger than every set of the other.

    Notes
    -----
    Newcombe 2006, Statistics in Medicine 25:559, method 5: a score interval with the variance
    of Hanley & McNeil 1982 (Radiology 143:29) at the true chance.

    Examples
    --------
    >>> low, high = superiority_interval(1.0, 10, 10)
    >>> round(low, 2), high
    (0.8, 1.0)
    """
    if not (sets_first > 0 and sets_second > 0 and np.isfinite(chance)):
        return float("nan"), float("nan")
    chance = float(np.clip(np.round(chance, 9), 0, 1))
    inside = float(np.clip(chance, _POINT, 1 - _POINT))
    z = float(stats.norm.ppf((1 + confidence) / 2))
    size = (sets_first + sets_second) / 2

    def excess(true: float) -> float:
        first = true / (2 - true) - true**2
        second = 2 * true**2 / (1 + true) - true**2
        variance = (true * (1 - true) + (size - 1) * (first + second)) / (sets_first * sets_second)
        return float((chance - true) ** 2 - z**2 * variance)

    low = 0.0 if chance <= 0 else float(optimize.brentq(excess, 0.0, inside))
    high = 1.0 if chance >= 1 else float(optimize.brentq(excess, inside, 1.0))
    return low, high


def _spread(low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Give an exact size a width too small to matter."""
    exact = high <= low
    return np.where(exact, low - _POINT, low), np.where(exact, high + _POINT, high)
