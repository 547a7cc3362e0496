"""Tells when a trait came in or went out, although dates are known only as ranges.

The share of sets with a trait runs from one level to another along a logistic curve. A set's
likelihood is the mean of the curve over the years that it may be of, so that a wide date says
little and a narrow one much, and no set is put in the middle of its range. The turning year is
the one in which the share is half way. Beside it stand the sets themselves: the earliest and the
latest that surely show the trait, and how many examined sets lack it before and after.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.turning_curve import Curve, posterior_curve
from buttonstudy.study.evidence.columns import Floats, floats
from buttonstudy.study.evidence.holes import asked_of
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
    buttons = asked_of(buttons, field)
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
    curve = posterior_curve(start, end, answer)
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


def _summary(curve: Curve, fits: NDArray[np.bool_]) -> dict[str, object]:
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
