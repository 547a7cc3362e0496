"""Spreads each date range evenly over the periods that it touches: aoristic weights.

A button dated 1820 to 1860 may belong to any of those 41 years. Its weight of one is shared out
over the periods in proportion to the years that they have in common with the range (Ratcliffe &
McCullagh 1998, British Journal of Criminology 38:751; Ratcliffe 2000, International Journal of
Geographical Information Science 14:669). Such sums describe the record as it is dated. They
smear a sharp change into a gradual one and inherit the shape of the period scheme, so that they
are no estimate of what happened (Crema 2024, Archaeometry, doi 10.1111/arcm.12984).
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.evidence.columns import Floats, numbers
from buttonstudy.study.evidence.sets import set_dates

__all__ = [
    "ALL_PERIODS",
    "OUTSIDE",
    "UNDATED",
    "date_spans",
    "period_rows",
    "period_weights",
    "record_by_period",
    "wholly_within",
]

OUTSIDE = "outside"
UNDATED = "undated"
ALL_PERIODS = "all periods"

_WHOLE = 1 - 1e-9


def period_weights(
    year_from: pd.Series,
    year_to: pd.Series,
    scheme: PeriodScheme,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Share each date range's weight of one out over the periods.

    Parameters
    ----------
    year_from, year_to
        First and last possible year of each row, both inclusive: 1820 to 1860 is 41 years. A
        blank is an open end.
    scheme
        The periods.
    earliest, latest
        Years to close open ends with ("nothing here is earlier than 1700"). Without them a range
        with an open end cannot be spread: its weight goes to "undated". So does a range that
        lies wholly beyond the bound given.

    Returns
    -------
    DataFrame
        One row per range on its own index, one column for each period's label, then ``outside``
        (years that belong to no period: reported, never shared out anew) and ``undated``. Every
        row sums to one.

    Raises
    ------
    ValueError
        If a range ends before it begins, or a period has the name of one of the two last columns.

    Examples
    --------
    >>> from buttonstudy.schemes import period_scheme
    >>> weights = period_weights(
    ...     pd.Series([1790]), pd.Series([1809]), period_scheme("centuries")
    ... )
    >>> weights[["18th century", "19th century"]].values.tolist()
    [[0.5, 0.5]]
    """
    _check_labels(scheme)
    start, end = numbers(year_from), numbers(year_to)
    _check_order(start, end, year_from.index)
    start, end = _close(start, end, earliest, latest)
    dated = ~np.isnan(start) & ~np.isnan(end)
    span = np.where(dated, end + 1 - start, 1.0)
    columns: dict[str, Floats] = {}
    for period in scheme.periods:
        shared = np.minimum(end, period.year_to) + 1 - np.maximum(start, period.year_from)
        columns[period.label] = np.where(dated, np.maximum(shared, 0) / span, 0.0)
    inside = sum(columns.values(), np.zeros(len(start)))
    columns[OUTSIDE] = np.where(dated, np.clip(1 - inside, 0, 1), 0.0)
    columns[OUTSIDE][columns[OUTSIDE] < 1 - _WHOLE] = 0.0
    columns[UNDATED] = np.where(dated, 0.0, 1.0)
    return pd.DataFrame(columns, index=year_from.index)


def wholly_within(weights: pd.DataFrame) -> pd.DataFrame:
    """Say which rows lie with their whole weight in one column, none in ``undated``."""
    within = weights >= _WHOLE
    within[UNDATED] = False
    return within


def period_rows(scheme: PeriodScheme) -> pd.DataFrame:
    """List the rows of a table by period: the periods, then outside, undated and all periods.

    Returns
    -------
    DataFrame
        ``period``, ``kind`` ("period", "outside", "undated" or "all"), ``year_from`` and
        ``year_to`` (Int64, blank but for periods).
    """
    others = {OUTSIDE: "outside", UNDATED: "undated", ALL_PERIODS: "all"}
    blank = [pd.NA] * len(others)
    return pd.DataFrame(
        {
            "period": [*(period.label for period in scheme.periods), *others],
            "kind": ["period"] * len(scheme.periods) + [*others.values()],
            "year_from": pd.array([*(p.year_from for p in scheme.periods), *blank], dtype="Int64"),
            "year_to": pd.array([*(p.year_to for p in scheme.periods), *blank], dtype="Int64"),
        }
    )


def record_by_period(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Describe how the sets of a survey are dated.

    Returns
    -------
    DataFrame
        The rows of :func:`period_rows` with ``sets`` (aoristic weights summed), ``dated_within``
        (sets dated wholly within the period; for all periods, wholly within any one of them) and
        ``could_be`` (sets whose range touches it).
    """
    dates = set_dates(buttons)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    within = wholly_within(weights)
    table = period_rows(scheme)
    labels = [period.label for period in scheme.periods]
    anywhere = (weights[labels] > 0).any(axis="columns").sum()
    table["sets"] = [*weights.sum(), float(len(dates))]
    table["dated_within"] = [*within.sum(), int(within[labels].to_numpy().sum())]
    table["could_be"] = [*(weights > 0).sum(), int(anywhere)]
    return table


def date_spans(buttons: pd.DataFrame) -> pd.DataFrame:
    """Give each dated set's range and its length in years.

    Returns
    -------
    DataFrame
        ``year_from``, ``year_to``, ``years`` for the sets dated at both ends, the earliest
        first. Ranges are inclusive: 1820 to 1860 is 41 years.
    """
    dates = set_dates(buttons).dropna(subset=["year_from", "year_to"])
    dates["years"] = dates["year_to"] - dates["year_from"] + 1
    ordered = dates.sort_values(["year_from", "year_to"], kind="stable")
    return ordered[["year_from", "year_to", "years"]]


def _check_labels(scheme: PeriodScheme) -> None:
    for period in scheme.periods:
        if period.label in (OUTSIDE, UNDATED, ALL_PERIODS):
            raise ValueError(
                f'The period scheme "{scheme.name}" calls a period "{period.label}", a word that '
                f"the tables need for something else. Give that period another name."
            )


def _check_order(start: Floats, end: Floats, index: pd.Index) -> None:
    wrong: NDArray[np.intp] = np.flatnonzero(end < start)
    if len(wrong):
        first = wrong[0]
        raise ValueError(
            f"A date range ends before it begins: {start[first]:.0f} to {end[first]:.0f} "
            f"(row {index[first]}; {len(wrong)} in all). Put the earlier year first."
        )


def _close(
    start: Floats, end: Floats, earliest: int | None, latest: int | None
) -> tuple[Floats, Floats]:
    """Close open ends with the bounds given, where the bound leaves a range at all."""
    closed_start, closed_end = start.copy(), end.copy()
    if earliest is not None:
        fits = np.isnan(start) & (end >= earliest)
        closed_start[fits] = earliest
    if latest is not None:
        fits = np.isnan(end) & (start <= latest)
        closed_end[fits] = latest
    return closed_start, closed_end
