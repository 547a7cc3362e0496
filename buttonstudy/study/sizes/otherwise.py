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
        middle = size_quantiles(survey, quantiles=[0.5]).iloc[0]
        found = {"Median diameter": figure_of(middle, "size_mm", "low_mm", "high_mm", unit="mm")}
        if first:
            name = f"Chance that a set of {second} is larger than one of {first}"
            found[name] = _larger(compare_sizes(survey, scheme, first, second))
        return found

    return sensitivity(buttons, scheme, figures)


def _larger(table: pd.DataFrame) -> Figure:
    row = table.iloc[0]
    row["sets"] = row["sets_first"] + row["sets_second"]
    return figure_of(row, "superiority", "superiority_low", "superiority_high")
