"""What the main figures depend on: the same figures again, taken in other ways.

The kit counts sets, spreads dates over periods and keeps doubtful records. A reader may ask what
would come out if buttons were counted, if each date were its middle, or if only what is
dated within one period were used. Where a figure moves beyond its interval, the report should say
so.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.evidence.columns import floats
from buttonstudy.study.evidence.dating import period_weights, wholly_within
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.evidence.sets import set_dates

__all__ = [
    "AS_TOLD",
    "BUTTONS",
    "MIDPOINTS",
    "MORE_OR_FEWER",
    "NO_FIGURE",
    "ONE_PERIOD",
    "SENSITIVITY_COLUMNS",
    "Figure",
    "figure_of",
    "sensitivity",
    "taken_otherwise",
]

AS_TOLD = "as told"
BUTTONS = "buttons instead of sets"
MIDPOINTS = "midpoints instead of weights"
ONE_PERIOD = "only sets dated within one period"
SENSITIVITY_COLUMNS = (
    "figure",
    "taken",
    "value",
    "low",
    "high",
    "sets",
    "unit",
    "change",
    "beyond",
)

MORE_OR_FEWER = "more or fewer of every 10 sets"
"""The unit of a difference of two shares, times ten."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a report.

    Attributes
    ----------
    value, low, high
        The estimate and its interval; missing where there is none.
    sets
        How many sets, or effective sets, it rests on.
    unit
        "share" for shares between 0 and 1, else the unit, such as "mm".
    """

    value: float
    low: float
    high: float
    sets: float
    unit: str


NO_FIGURE = Figure(float("nan"), float("nan"), float("nan"), 0.0, "share")
"""Stands where a survey, taken in some way, has no such figure."""


def figure_of(
    row: pd.Series,
    value: str,
    low: str = "low",
    high: str = "high",
    sets: str = "sets",
    unit: str = "share",
) -> Figure:
    """Make a figure of one row of a result table, by its columns' names.

    Examples
    --------
    >>> row = pd.Series({"median_mm": 17.1, "low": 16.0, "high": 18.2, "sets": 40})
    >>> figure_of(row, "median_mm", unit="mm").value
    17.1
    """
    return Figure(float(row[value]), float(row[low]), float(row[high]), float(row[sets]), unit)


def taken_otherwise(buttons: pd.DataFrame, scheme: PeriodScheme) -> dict[str, pd.DataFrame]:
    """Give the survey changed so that estimates from it are taken otherwise.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods, which decide what is dated within one.

    Returns
    -------
    dict of DataFrame
        By :data:`BUTTONS`, every button a set of its own; by :data:`MIDPOINTS`, every set dated
        at both ends shrunk to its middle year; by :data:`ONE_PERIOD`, only the buttons of sets
        whose dates lie within one period.
    """
    start, end = floats(buttons, "year_from"), floats(buttons, "year_to")
    keys = set_keys(buttons)
    dates = set_dates(buttons, keys)
    ends = dates[["year_from", "year_to"]].to_numpy("float64", na_value=np.nan)
    middle = np.floor(ends.mean(axis=1))[keys.to_numpy()]
    known = ~np.isnan(middle)
    years = {
        "year_from": pd.array(np.where(known, middle, start)).astype("Int64"),
        "year_to": pd.array(np.where(known, middle, end)).astype("Int64"),
    }
    weights = period_weights(dates["year_from"], dates["year_to"], scheme)
    labels = [period.label for period in scheme.periods]
    within_one = wholly_within(weights)[labels].any(axis="columns").to_numpy()
    return {
        BUTTONS: buttons.assign(set_id=None),
        MIDPOINTS: buttons.assign(**years),
        ONE_PERIOD: buttons[within_one[keys.to_numpy()]].reset_index(drop=True),
    }


def sensitivity(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    figures: Callable[[pd.DataFrame], Mapping[str, Figure]],
    told: Mapping[str, Figure] | None = None,
) -> pd.DataFrame:
    """Give the main figures again, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods, which decide what is dated within one.
    figures
        Makes the figures, by name, from a table of buttons; always the same names.
    told
        The figures as told, where they are known; else they are made as the others are.

    Returns
    -------
    DataFrame
        :data:`SENSITIVITY_COLUMNS`, four rows for each figure: ``taken`` (one of
        :data:`AS_TOLD`, :data:`BUTTONS`, :data:`MIDPOINTS`, :data:`ONE_PERIOD`), the figure's
        ``value``, ``low``, ``high``, ``sets`` and ``unit``, ``change`` (from the figure as told)
        and ``beyond`` (whether the value lies outside the interval of the figure as told). With
        only sets dated within one period it may do so by chance, since they are fewer: their own
        interval, which may hold the figure as told, says whether.
    """
    as_told = figures(buttons) if told is None else told
    others = taken_otherwise(buttons, scheme).items()
    taken = {AS_TOLD: as_told} | {way: figures(survey) for way, survey in others}
    rows = [
        {
            "figure": name,
            "taken": way,
            "value": found[name].value,
            "low": found[name].low,
            "high": found[name].high,
            "sets": found[name].sets,
            "unit": found[name].unit,
            "change": found[name].value - first.value,
            "beyond": not _within(found[name].value, first),
        }
        for name, first in as_told.items()
        for way, found in taken.items()
    ]
    return pd.DataFrame(rows, columns=list(SENSITIVITY_COLUMNS))


def _within(value: float, figure: Figure) -> bool:
    """Say whether a value lies within a figure's interval; an open end holds everything."""
    return not (value < figure.low or value > figure.high)
