"""Whether the buttons of one period are larger than those of another, and by how much.

The effect is told as a chance that needs no unit: of two sets taken at random, one from each
period, how often is the later one the larger? One half is no difference. It rests on the whole
distribution, and readings that overlap count as undecided, as far as they do.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from scipy import optimize, stats

from buttonstudy.schemes import PeriodScheme, SchemeError, limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.dating import period_weights
from buttonstudy.study.evidence.keys import reaches
from buttonstudy.study.evidence.sets import set_dates
from buttonstudy.study.sizes.evidence import SizeEvidence, Spread, size_evidence
from buttonstudy.study.sizes.intervals import quantile_ends

__all__ = ["COMPARISON_COLUMNS", "compare_sizes", "superiority", "superiority_interval"]

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


def superiority(first: Spread, second: Spread) -> float:
    """Give P(second larger) + P(equal)/2 for two distributions of sizes.

    Readings that overlap count as undecided, as far as they do. Missing where one is empty.

    Notes
    -----
    The measure A of Vargha & Delaney 2000 (Journal of Educational and Behavioral Statistics
    25:101), the Mann-Whitney statistic divided by the number of pairs; here over all that the
    readings leave open. Both distributions run straight between the sizes at which either turns,
    so that the sum is exact.

    Examples
    --------
    >>> from buttonstudy.study.sizes.evidence import spread_of
    >>> ten, eleven = (spread_of(np.array([[at, at + 2.0]]), np.ones(1)) for at in (10.0, 11.0))
    >>> round(superiority(ten, eleven), 6)
    0.875
    """
    if len(first.sizes) == 0 or len(second.sizes) == 0:
        return float("nan")
    sizes = np.union1d(first.sizes, second.sizes)
    below, gained = first.share_up_to(sizes), np.diff(second.share_up_to(sizes))
    return float(gained @ (below[:-1] + below[1:]) / 2)


def compare_sizes(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    first: str = "",
    second: str = "",
    field: str = "diameter",
    *,
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
        period with as many sets (weights summed) as the limit ``few-sets-for-sizes``: chosen by
        their dates, before any size is looked at.

    Returns
    -------
    DataFrame
        :data:`COMPARISON_COLUMNS`, two rows, ``dating`` "by weights" and "dated within":
        ``first``, ``second``, ``sets_first``, ``sets_second`` (weights summed),
        ``median_first_mm``, ``median_second_mm``, ``difference_mm`` with ``difference_low_mm`` and
        ``difference_high_mm``, ``superiority`` (chance that a set of the second period is the
        larger of the two) with ``superiority_low`` and ``superiority_high``. Intervals are at the
        level of the limit ``confidence``: of the difference from the two medians' own intervals
        (Zou & Donner 2008, Statistics in Medicine 27:1693), of the chance by
        :func:`superiority_interval`; blank where either period has fewer sets than the
        limit ``few-sets-for-sizes``. A period's median, and all that rests on both, is blank
        below the limit ``fewest-sets-for-median``; no rows where no two periods were named or
        have enough sets.

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
        if reaches(column.sum(), "few-sets-for-sizes")
    ]
    first, second = first or next(iter(enough), ""), second or next(reversed(enough), "")
    if not (first and second) or first == second:
        return pd.DataFrame(columns=list(COMPARISON_COLUMNS))
    weights = sized[:, [known.index(first), known.index(second)]]
    rows = {
        "by weights": _compare(evidence, weights),
        "dated within": _compare(evidence, (weights > _WHOLE).astype(float)),
    }
    table = pd.DataFrame.from_dict(rows, orient="index").rename_axis("dating").reset_index()
    table.insert(1, "first", first)
    table.insert(2, "second", second)
    return table[list(COMPARISON_COLUMNS)]


def _compare(evidence: SizeEvidence, weights: Floats) -> dict[str, float]:
    spreads = [evidence.spread(column) for column in weights.T]
    sets = weights.sum(axis=0)
    told = reaches(sets, "fewest-sets-for-median")
    medians = [
        float(spread.quantiles([0.5])[0]) if enough else float("nan")
        for spread, enough in zip(spreads, told)
    ]
    chance = superiority(*spreads) if told.all() else float("nan")
    chance_ends = difference_ends = (float("nan"), float("nan"))
    if reaches(sets, "few-sets-for-sizes").all():
        chance_ends = superiority_interval(chance, sets[0], sets[1], limit("confidence") / 100)
        ends = [quantile_ends(spread, 0.5, number) for spread, number in zip(spreads, sets)]
        difference_ends = _difference_ends(medians, ends)
    return {
        "sets_first": float(sets[0]),
        "sets_second": float(sets[1]),
        "median_first_mm": medians[0],
        "median_second_mm": medians[1],
        "difference_mm": medians[1] - medians[0],
        "difference_low_mm": difference_ends[0],
        "difference_high_mm": difference_ends[1],
        "superiority": chance,
        "superiority_low": chance_ends[0],
        "superiority_high": chance_ends[1],
    }


def _difference_ends(
    middles: Sequence[float], ends: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Give the interval of second less first, from both estimates and their own intervals."""
    (one, two), ((one_low, one_high), (two_low, two_high)) = middles, ends
    down = float(np.hypot(two - two_low, one_high - one))
    up = float(np.hypot(two_high - two, one - one_low))
    return two - one - down, two - one + up


def superiority_interval(
    chance: float, sets_first: float, sets_second: float, confidence: float = 0.95
) -> tuple[float, float]:
    """Give the interval of a probability of superiority.

    Parameters
    ----------
    chance
        The estimate, 0 to 1.
    sets_first, sets_second
        Numbers of sets in the two periods, or the sums of their weights.
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
