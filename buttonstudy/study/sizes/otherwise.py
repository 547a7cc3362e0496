"""What the main figures on sizes depend on: the same, taken in other ways."""

from collections.abc import Callable
from functools import partial

import pandas as pd

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.shares.sensitivity import Figure, figure_of, sensitivity
from buttonstudy.study.sizes.comparison import compare_sizes
from buttonstudy.study.sizes.intervals import size_quantiles

__all__ = ["size_sensitivity"]

_NOTHING = Figure(float("nan"), float("nan"), float("nan"), 0.0, "share")


def size_sensitivity(
    buttons: pd.DataFrame, scheme: PeriodScheme, *, n_draws: int | None = None
) -> pd.DataFrame:
    """Give the median diameter, and how often later sets are larger, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods.
    n_draws
        Number of resampled surveys; the limit ``resampling-draws`` if not given.

    Returns
    -------
    DataFrame
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it. Which two periods
        are compared is settled once, by the survey as it is.
    """
    pair = compare_sizes(buttons, scheme, n_draws=0)
    figures: dict[str, Callable[[pd.DataFrame], Figure]] = {
        "Median diameter": partial(_median, n_draws=n_draws)
    }
    if len(pair):
        first, second = pair[["first", "second"]].iloc[0]
        name = f"Chance that a set of {second} is larger than one of {first}"
        figures[name] = partial(_larger, scheme=scheme, first=first, second=second)
    return sensitivity(buttons, scheme, figures)


def _median(buttons: pd.DataFrame, n_draws: int | None) -> Figure:
    row = size_quantiles(buttons, quantiles=[0.5], n_draws=n_draws).iloc[0]
    return figure_of(row, "size_mm", "low_mm", "high_mm", unit="mm")


def _larger(buttons: pd.DataFrame, scheme: PeriodScheme, first: str, second: str) -> Figure:
    table = compare_sizes(buttons, scheme, first, second, n_draws=0)
    if table.empty:
        return _NOTHING
    row = table.iloc[0]
    row["sets"] = row["sets_first"] + row["sets_second"]
    return figure_of(row, "superiority", "superiority_low", "superiority_high")
