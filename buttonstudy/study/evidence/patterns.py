"""Counts sets with the same evidence together: possible periods on one side, answer on the other.

A survey of forty thousand sets has few kinds of evidence: so many sets dated "1840s" that have
the trait, so many dated "19th century" that lack it. Estimates need only these counts, which is
what keeps them quick and small. Years that belong to no period of the scheme are periods here
too (before the first, after the last, each gap), so that a set that may lie outside is never
pressed into the scheme.
"""

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import Period, PeriodScheme, limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.dating import period_weights

__all__ = ["DatedSets", "Ints", "Patterns", "count_patterns", "dated_sets", "grouped_rows"]

Ints = NDArray[np.int64]

_GRAINS = (1e-9, 0.02, 0.05, 0.1, 0.15, 0.2, 0.25, 0.34, 1.0)


@dataclass(frozen=True, slots=True)
class DatedSets:
    """The dates of ``n`` sets, spread over a scheme's periods and the stretches outside it.

    Attributes
    ----------
    scheme
        The periods.
    weights
        Shape (n, periods + outside stretches), the scheme's periods first: the part of each
        set's date range that lies in each. Rows of undated sets are zero, all others sum to one.
    years
        Length of each period and stretch in years.
    means, group
        The sets grouped by date range: shape (groups, periods + outside stretches) and (n,). See
        :func:`grouped_rows`.
    """

    scheme: PeriodScheme
    weights: Floats
    years: Floats
    means: Floats
    group: Ints

    @property
    def dated(self) -> NDArray[np.bool_]:
        """Which sets are dated at both ends."""
        return np.asarray(self.weights.sum(axis=1) > 0)

    @property
    def labels(self) -> tuple[str, ...]:
        """The labels of the scheme's periods."""
        return tuple(period.label for period in self.scheme.periods)

    @property
    def inside(self) -> Floats:
        """The weights in the scheme's periods alone."""
        return self.weights[:, : len(self.scheme.periods)]


@dataclass(frozen=True, slots=True)
class Patterns:
    """Sets counted by evidence: ``k`` patterns over ``p`` periods.

    Attributes
    ----------
    overlap
        Shape (k, p): how much of each period the date range takes up, up to a factor for each
        row. It is the chance of such a date range for a set of that period.
    kind
        Shape (k,): which row of ``parts`` says what the sets of the pattern answer.
    sets
        Shape (k,): how many sets have the pattern.
    parts
        Shape (kinds, cells), rows summing to one: what a set of that kind counts for. A set half
        of whose buttons have the trait counts for half a "yes" and half a "no".
    """

    overlap: Floats
    kind: Ints
    sets: Ints
    parts: Floats


def dated_sets(
    dates: pd.DataFrame,
    scheme: PeriodScheme,
    earliest: int | None = None,
    latest: int | None = None,
) -> DatedSets:
    """Spread the sets' date ranges over the periods and over the stretches outside them.

    Parameters
    ----------
    dates
        One row per set with ``year_from`` and ``year_to``, as
        :func:`buttonstudy.study.evidence.sets.set_dates` gives them.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.
    """
    years = dates[["year_from", "year_to"]].to_numpy(dtype=np.float64, na_value=np.nan)
    bounds = [year for year in (earliest, latest) if year is not None]
    every = [*years[~np.isnan(years)].astype(np.int64).tolist(), *bounds]
    stretches = _outside(scheme, min(every, default=0), max(every, default=0))
    whole = PeriodScheme(scheme.name, scheme.title, scheme.source, (*scheme.periods, *stretches))
    weights = period_weights(dates["year_from"], dates["year_to"], whole, earliest, latest)
    columns = [period.label for period in whole.periods]
    spread = weights[columns].to_numpy(dtype=np.float64)
    lengths = [float(period.year_to + 1 - period.year_from) for period in whole.periods]
    return DatedSets(scheme, spread, np.array(lengths), *grouped_rows(spread))


def _outside(scheme: PeriodScheme, first: int, last: int) -> list[Period]:
    """List the stretches of years that no period covers, from the first year to the last."""
    found, year = [], min(first, *(period.year_from for period in scheme.periods))
    for period in scheme.periods:
        if period.year_from > year:
            found.append(Period(f"outside from {year}", year, period.year_from - 1))
        year = period.year_to + 1
    if last >= year:
        found.append(Period(f"outside from {year}", year, last))
    return found


def grouped_rows(weights: Floats, most: float | None = None) -> tuple[Floats, Ints]:
    """Group sets by date range.

    Parameters
    ----------
    weights
        Shape (n, p), each set's weight in each period.
    most
        How many groups are enough; the limit ``most-date-groups`` if not given.

    Returns
    -------
    means : ndarray
        Shape (groups, p), the weights of each group.
    group : ndarray
        Shape (n,), which group each set is in.

    Notes
    -----
    Up to so many groups only equal weights make a group. Above it, so do weights
    that differ by a little (two hundredths, then more) in the same periods, and their mean stands
    for them: a survey with so many sets loses nothing that its intervals would show.
    """
    if len(weights) == 0:
        return weights, np.zeros(0, dtype=np.int64)
    enough = limit("most-date-groups") if most is None else most
    touched = (weights > 0) @ (2.0 ** np.arange(weights.shape[1]))
    for grain in _GRAINS:
        codes, sets = _numbered(np.column_stack([touched, np.round(weights / grain)]))
        if len(sets) <= enough:
            break
    totals = np.zeros((len(sets), weights.shape[1]))
    np.add.at(totals, codes, weights)
    return totals / sets[:, None], codes


def count_patterns(dated: DatedSets, use: NDArray[np.bool_], kind: Ints, parts: Floats) -> Patterns:
    """Count the sets with the same evidence.

    Parameters
    ----------
    dated, use
        The sets' dates, and which of the ``n`` sets to count.
    kind
        Shape (n,): which row of ``parts`` says what each set answers.
    parts
        See :class:`Patterns`.
    """
    pairs = dated.group[use] * len(parts) + kind[use]
    distinct, sets = np.unique(pairs, return_counts=True)
    group, kinds = np.divmod(distinct, len(parts))
    order = np.argsort(kinds, kind="stable")
    overlap = dated.means[group[order]] / dated.years
    return Patterns(overlap, kinds[order], sets[order].astype(np.int64), parts)


def _numbered(rows: Floats) -> tuple[Ints, Ints]:
    """Number the distinct rows; give each row's number and how often each occurs."""
    wide = np.ascontiguousarray(rows + 0.0).view(np.dtype((np.void, rows.itemsize * rows.shape[1])))
    _, codes, sets = np.unique(wide.reshape(-1), return_inverse=True, return_counts=True)
    return codes.reshape(-1).astype(np.int64), sets.astype(np.int64)
