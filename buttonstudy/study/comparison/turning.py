"""Tells when a trait came in or went out, although dates are known only as ranges.

The share of sets with a trait runs from one level to another along a logistic curve. A set's
likelihood is the mean of the curve over the years that it may be of, so that a wide date says
little and a narrow one much, and no set is put in the middle of its range. The turning year is
the one in which the share is half way. Beside it stand the sets themselves: the earliest and the
latest that surely show the trait, and how many examined sets lack it before and after.

The posterior is laid out on a grid: turning year (even over the years that any set allows),
length of the change (even on a log scale), and the two levels (Jeffreys' prior each), then again
on the part of the grid that holds the mass. Latent dates with a logistic curve are standard for
interval-valued covariates (Carroll, Ruppert, Stefanski & Crainiceanu 2006, Measurement Error in
Nonlinear Models, chapter 8).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import stats

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats, floats
from buttonstudy.study.evidence.patterns import Ints
from buttonstudy.study.evidence.sets import field_evidence, set_dates, set_keys

__all__ = ["TURNING_COLUMNS", "turning_years"]

TURNING_COLUMNS = (
    "field",
    "term",
    "sets",
    "with_term",
    "told",
    "direction",
    "turning_year",
    "low",
    "high",
    "share_before",
    "share_after",
    "change_years",
    "earliest_from",
    "earliest_to",
    "lacking_before",
    "latest_from",
    "latest_to",
    "lacking_after",
    "why",
)

_SIZES = (40, 6, 10, 10)
_PASSES = 3
_GRAINS = (1, 2, 5, 10, 20)
_TRACE = 1e-3
_YEARS = 1_000_000
_LEVELS = (1e-5, 1 - 1e-5)


def turning_years(
    buttons: pd.DataFrame, field: str, terms: Sequence[str] | None = None
) -> pd.DataFrame:
    """Estimate for each term the year in which it came in or went out.

    Parameters
    ----------
    buttons
        One row per button.
    field, terms
        As for :func:`buttonstudy.study.evidence.answers.answers`.

    Returns
    -------
    DataFrame
        :data:`TURNING_COLUMNS`, one row per term:

        - ``sets``, ``with_term``: dated examined sets, and how many of them have it;
        - ``told``: whether a turning year can be told: the curve goes the same way, by at least
          the limit ``turning-least-change``, in a share of the posterior of at least the limit
          ``turning-told``;
        - ``direction``: "came in" or "went out"; ``turning_year`` (posterior median) with its
          interval ``low`` to ``high`` at the limit ``confidence``; ``share_before``,
          ``share_after``: the two levels; ``change_years``: how long the middle half of the
          change took. Missing where not told;
        - ``earliest_from``, ``earliest_to``: the range of the set that shows the trait and has
          the earliest last year; ``lacking_before``: examined sets dated wholly before it, all
          of which lack the trait; ``latest_from``, ``latest_to``, ``lacking_after`` likewise;
        - ``why``: why no turning year is told.

    Notes
    -----
    Each date range is taken as evenly filled. Where most sets of a survey are of a few years,
    wide ranges are less even than that, and the year may be off by a few years towards the
    middle of the ranges. A set whose examined buttons differ counts by its share.

    Nothing here is random.
    """
    keys = set_keys(buttons)
    dates = set_dates(buttons, keys)
    shares = field_evidence(buttons, keys, field, terms).shares
    start, end = floats(dates, "year_from"), floats(dates, "year_to")
    dated = ~np.isnan(start) & ~np.isnan(end)
    rows = []
    for term in shares.columns:
        answer = shares[term].to_numpy(dtype=np.float64)
        use = dated & ~np.isnan(answer)
        row = _turn(start[use].astype(np.int64), end[use].astype(np.int64), answer[use])
        rows.append({"field": field, "term": term, **row})
    whole = [name for name in TURNING_COLUMNS if name.startswith(("earliest", "latest", "lacking"))]
    table = pd.DataFrame(rows, columns=list(TURNING_COLUMNS))
    return table.astype({**dict.fromkeys(whole, "Int64"), "told": "boolean"})


def _turn(start: Ints, end: Ints, answer: Floats) -> dict[str, object]:
    """Fit the curve to one trait, and say what the sets themselves show."""
    row: dict[str, object] = {
        "sets": len(answer),
        "with_term": float(answer.sum()),
        "told": False,
        "direction": "",
        "why": _why_not(start, end, answer),
        **_seen(start, end, answer),
    }
    if row["why"]:
        return row
    curve = _posterior(start, end, answer)
    rise = float(curve.chance[:, :, curve.change >= limit("turning-least-change")].sum())
    fall = float(curve.chance[:, :, curve.change <= -limit("turning-least-change")].sum())
    if max(rise, fall) < limit("turning-told"):
        row["why"] = (
            f"The {len(answer)} examined sets with a date do not show for sure that its share "
            "rose or fell, so no turning year can be told."
        )
        return row
    fits = curve.change > 0 if rise > fall else curve.change < 0
    return (
        row
        | {"told": True, "direction": "came in" if rise > fall else "went out"}
        | (_summary(curve, fits))
    )


def _why_not(start: Ints, end: Ints, answer: Floats) -> str:
    if len(answer) == 0:
        return "No set with a date was examined for it."
    if answer.max() == answer.min():
        return f"All of the {len(answer)} examined sets with a date answer the same."
    if np.ptp(start) == 0 and np.ptp(end) == 0:
        return "All examined sets have the same date."
    return ""


def _seen(start: Ints, end: Ints, answer: Floats) -> dict[str, object]:
    """Find the earliest and the latest sure showing, and the examined sets beyond them."""
    having = np.flatnonzero(answer > 0)
    if len(having) == 0:
        return {}
    first = having[np.lexsort((start[having], end[having]))[0]]
    last = having[np.lexsort((end[having], start[having]))[-1]]
    return {
        "earliest_from": int(start[first]),
        "earliest_to": int(end[first]),
        "lacking_before": int((end < start[first]).sum()),
        "latest_from": int(start[last]),
        "latest_to": int(end[last]),
        "lacking_after": int((start > end[last]).sum()),
    }


@dataclass(frozen=True, slots=True)
class _Curve:
    """The posterior: chance of each turning year, spread and pair of levels."""

    years: Floats
    spreads: Floats
    before: Floats
    after: Floats
    chance: Floats

    @property
    def change(self) -> Floats:
        return self.after - self.before


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


def _posterior(start: Ints, end: Ints, answer: Floats) -> _Curve:
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
    return _Curve(years, spreads, before, after, chance.reshape(len(years), len(spreads), -1))


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


def _summary(curve: _Curve, fits: NDArray[np.bool_]) -> dict[str, object]:
    """Give the median year, its interval, the levels and the length of the change."""
    chance = curve.chance[:, :, fits] / curve.chance[:, :, fits].sum()
    by_year = np.cumsum(chance.sum(axis=(1, 2)))
    tail = (1 - limit("confidence") / 100) / 2
    edges = curve.years + (curve.years[1] - curve.years[0]) / 2
    low, middle, high = np.interp([tail, 0.5, 1 - tail], by_year, edges)
    weights = chance.sum(axis=(0, 1))
    spread = np.exp((chance.sum(axis=(0, 2)) * np.log(curve.spreads)).sum())
    return {
        "turning_year": float(round(middle)),
        "low": float(round(low)),
        "high": float(round(high)),
        "share_before": float(weights @ curve.before[fits]),
        "share_after": float(weights @ curve.after[fits]),
        "change_years": float(2 * np.log(3) * spread),
    }
