"""What the main figures on sizes depend on: the same, taken in other ways."""

import pandas as pd

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.shares.sensitivity import Figure, figure_of, sensitivity
from buttonstudy.study.sizes.comparison import compare_sizes
from buttonstudy.study.sizes.intervals import size_quantiles

__all__ = ["size_sensitivity"]


def size_sensitivity(buttons: pd.DataFrame, scheme: PeriodScheme) -> pd.DataFrame:
    """Give the median diameter, and how often later sets are larger, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods.

    Returns
    -------
    DataFrame
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it. Which two periods
        are compared is settled once, by the survey as it is.
    """
    pair = compare_sizes(buttons, scheme)
    first, second = ("", "") if pair.empty else pair[["first", "second"]].iloc[0]

    def figures(survey: pd.DataFrame) -> dict[str, Figure]:
        compared = compare_sizes(survey, scheme, first, second) if first else pair
        return _median(survey) | _larger(compared)

    return sensitivity(buttons, scheme, figures, _median(buttons) | _larger(pair))


def _median(survey: pd.DataFrame) -> dict[str, Figure]:
    row = size_quantiles(survey, quantiles=[0.5]).iloc[0]
    return {"Median diameter": figure_of(row, "size_mm", "low_mm", "high_mm", unit="mm")}


def _larger(compared: pd.DataFrame) -> dict[str, Figure]:
    if compared.empty:
        return {}
    row = compared.iloc[0]
    row["sets"] = row["sets_first"] + row["sets_second"]
    name = f"Chance that a set of {row['second']} is larger than one of {row['first']}"
    return {name: figure_of(row, "superiority", "superiority_low", "superiority_high")}
