"""What the main figures depend on: the same figures again, taken in other ways.

The kit counts sets, spreads dates over periods and keeps doubtful records. A reader may ask what
would come out if buttons were counted, if each date were its middle, or if only what is securely
dated were used. Where a figure moves beyond its interval, it rests on that choice, and the
report should say so.
"""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.evidence.columns import floats
from buttonstudy.study.evidence.dating import period_weights, wholly_within
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.evidence.sets import set_dates
from buttonstudy.study.telling.words import in_tenths, listed, per_cent, span_in_words

__all__ = [
    "AS_TOLD",
    "BUTTONS",
    "MIDPOINTS",
    "MORE_OR_FEWER",
    "NO_FIGURE",
    "SECURE",
    "SENSITIVITY_COLUMNS",
    "Figure",
    "figure_of",
    "sensitivity",
    "sensitivity_findings",
    "taken_otherwise",
    "ways_side_by_side",
]

AS_TOLD = "as told"
BUTTONS = "buttons instead of sets"
MIDPOINTS = "midpoints instead of weights"
SECURE = "only securely dated sets"
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

_UNMOVED = 1e-9

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
    """Give the survey as it is, and changed so that estimates from it are taken otherwise.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods, which decide what is securely dated.

    Returns
    -------
    dict of DataFrame
        By :data:`AS_TOLD`, the survey itself; :data:`BUTTONS`, every button a set of its own;
        :data:`MIDPOINTS`, every set dated at both ends shrunk to its middle year;
        :data:`SECURE`, only the buttons of sets whose dates lie within one period.
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
    secure = wholly_within(weights)[labels].any(axis="columns").to_numpy()
    return {
        AS_TOLD: buttons,
        BUTTONS: buttons.assign(set_id=None),
        MIDPOINTS: buttons.assign(**years),
        SECURE: buttons[secure[keys.to_numpy()]].reset_index(drop=True),
    }


def sensitivity(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    figures: Mapping[str, Callable[[pd.DataFrame], Figure]],
) -> pd.DataFrame:
    """Give the main figures again, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods, which decide what is securely dated.
    figures
        For each figure's name, what makes it from a table of buttons.

    Returns
    -------
    DataFrame
        :data:`SENSITIVITY_COLUMNS`, four rows for each figure: ``taken`` (one of
        :data:`AS_TOLD`, :data:`BUTTONS`, :data:`MIDPOINTS`, :data:`SECURE`), the figure's
        ``value``, ``low``, ``high``, ``sets`` and ``unit``, ``change`` (from the figure as told)
        and ``beyond`` (whether the value lies outside the interval of the figure as told; with
        only securely dated sets, whether that figure also lies outside their interval).
    """
    surveys = taken_otherwise(buttons, scheme)
    rows = []
    for name, make in figures.items():
        told = make(buttons)
        for taken, survey in surveys.items():
            found = told if taken == AS_TOLD else make(survey)
            beyond = not _within(found.value, told)
            # Fewer sets may differ by chance alone, so that their own interval is asked too.
            if taken == SECURE:
                beyond = beyond and not _within(told.value, found)
            rows.append(
                {
                    "figure": name,
                    "taken": taken,
                    "value": found.value,
                    "low": found.low,
                    "high": found.high,
                    "sets": found.sets,
                    "unit": found.unit,
                    "change": found.value - told.value,
                    "beyond": beyond,
                }
            )
    return pd.DataFrame(rows, columns=list(SENSITIVITY_COLUMNS))


def _within(value: float, figure: Figure) -> bool:
    """Say whether a value lies within a figure's interval; an open end holds everything."""
    return not (value < figure.low or value > figure.high)


def sensitivity_findings(table: pd.DataFrame) -> list[str]:
    """Say for each figure of a table whether it rests on how it was taken."""
    if table.empty:
        return ["There is no figure that could be taken in other ways."]
    return [_said(str(name), rows) for name, rows in table.groupby("figure", sort=False)]


def ways_side_by_side(table: pd.DataFrame) -> pd.DataFrame:
    """Set the ways side by side for a reader: a row for each figure, a column for each way.

    Parameters
    ----------
    table
        As :func:`sensitivity` gives it.

    Returns
    -------
    DataFrame
        ``figure`` and a column for each way, in words, the figure as told with its interval.
    """
    rows = []
    for name, found in table.groupby("figure", sort=False):
        few = _few(found)
        cells = {"figure": str(name)}
        for way, row in zip(found["taken"], found.to_dict("records")):
            told = "" if np.isnan(row["value"]) else _worded(pd.Series(row), few)
            cells[str(way)] = told + (_interval(row, few) if way == AS_TOLD and told else "")
        rows.append(cells)
    return pd.DataFrame(rows, columns=["figure", AS_TOLD, BUTTONS, MIDPOINTS, SECURE])


def _few(rows: pd.DataFrame) -> bool:
    """Say whether any way leaves a figure too few sets for a percentage."""
    return bool((rows.loc[rows["value"].notna(), "sets"] < limit("few-sets")).any())


def _interval(row: dict[Hashable, Any], few: bool) -> str:
    low, high = row["low"], row["high"]
    if np.isnan(low) and np.isnan(high):
        return ""
    if row["unit"] == "share":
        return f" ({span_in_words(low, high, few)})"
    digits = 0 if row["unit"] == "year" else 1
    if np.isnan(low):
        return f" (up to {high:.{digits}f})"
    return f" ({low:.{digits}f} {'upwards' if np.isnan(high) else f'to {high:.{digits}f}'})"


def _said(name: str, rows: pd.DataFrame) -> str:
    few, told, others = _few(rows), rows.iloc[0], rows.iloc[1:]
    if np.isnan(told["value"]):
        return f"{name}: there is no figure to compare."
    first = f"{name}: {_worded(told, few)} as told"
    beyond = [
        f"{_worded(row, few)} with {row['taken']}" for _, row in others.iterrows() if row["beyond"]
    ]
    if beyond:
        return f"{first}, but {listed(beyond)}. It rests on that choice."
    known = others[others["value"].notna()]
    if known.empty:
        return f"{first}; the other ways leave too little to say it."
    if np.isnan(told["low"]) and np.isnan(told["high"]):
        return f"{first}; there is no interval to hold the others against."
    missing = [str(row["taken"]) for _, row in others.iterrows() if np.isnan(row["value"])]
    less = f"; too little is left with {listed(missing)}" if missing else ""
    if known["change"].abs().max() <= _UNMOVED:
        return f"{first}, and the same in the other ways{less}."
    ordered = known.sort_values("value", kind="stable")
    ends = [_worded(ordered.iloc[place], few) for place in (0, -1)]
    number, _, unit = ends[0].partition(" ")
    alike = unit and ends[1].endswith(f" {unit}")
    between = ends[0] if ends[0] == ends[1] else f"{number if alike else ends[0]} to {ends[1]}"
    return f"{first}; {between} in the other ways, within what chance allows{less}."


def _worded(row: pd.Series, few: bool) -> str:
    """Word a figure in its unit; a share of few sets in tenths, a difference by its way."""
    value, unit = float(row["value"]), str(row["unit"])
    if unit == "share":
        return in_tenths(value) if few else per_cent(value)
    if unit == MORE_OR_FEWER:
        return f"{abs(value):.1f} {'fewer' if value < 0 else 'more'} of every 10 sets"
    return f"{value:.0f}" if unit == "year" else f"{value:.1f} {unit}"
