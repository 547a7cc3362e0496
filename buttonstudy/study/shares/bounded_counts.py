"""Counts of which only a bound may be known: "at least two layers" is two, or three, or more.

Where a cover was lifted at the edge only, the recorder saw some layers and not how many lay
below. Reading "at least 2" as 2 makes buttons poorer than they are, and leaving it out does so
too, since it is the thick covers that are seldom seen to the bottom. Here each count is the set
of numbers that it allows (Turnbull 1976, J R Stat Soc B 38:290). "At least 2" allows 2 itself:
tools for survival times read "censored at 2" as more than 2, which would be one layer off.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.evidence.columns import Floats, floats
from buttonstudy.study.evidence.dating import ALL_PERIODS, period_rows, period_weights
from buttonstudy.study.evidence.sets import set_dates, set_keys, shared_weights
from buttonstudy.study.shares.censored import IntervalEvidence, interval_evidence
from buttonstudy.study.shares.count_draws import drawn_shares

__all__ = ["at_least_by_period", "count_distribution", "counts_at_least"]

_SHARE_COLUMNS = ("share", "share_low", "share_high", "low", "high", "few")
_NEGLIGIBLE = 1e-6
_LEFT_OPEN = 1e-4


def count_distribution(buttons: pd.DataFrame, field: str = "cover_layers") -> pd.DataFrame:
    """Estimate how a count is spread over sets, bounds respected.

    Parameters
    ----------
    buttons
        One row per button, with ``<field>_low`` and ``<field>_high``; a blank upper bound is
        open ("at least 2" is 2 and blank), a blank lower bound is zero. Buttons of a set that
        can all have the same count are one reading, the narrowest that fits them; where they
        cannot, they share the set's vote.
    field
        A count's base name.

    Returns
    -------
    DataFrame
        ``low``, ``high`` (Int64; the numbers that cannot be told from each other, a blank upper
        end is open), ``share`` and ``sets`` (sets with a count or a bound, the same in each
        row). No rows if there are none.

    Examples
    --------
    >>> read = {"cover_layers_low": [1, 2, 3, 2], "cover_layers_high": [1, 2, 3, None]}
    >>> count_distribution(pd.DataFrame(read))[["low", "high", "share"]].round(3).values.tolist()
    [[1, 1, 0.25], [2, 2, 0.375], [3, 3, 0.375]]
    """
    evidence = _count_evidence(buttons, field)
    masses = evidence.masses(evidence.sized.astype(float))
    kept = masses > _NEGLIGIBLE
    high = np.where(np.isinf(evidence.high[kept]), np.nan, evidence.high[kept])
    return pd.DataFrame(
        {
            "low": pd.array(evidence.low[kept] + 1).astype("Int64"),
            "high": pd.array(high).astype("Int64"),
            "share": masses[kept],
            "sets": np.full(int(kept.sum()), int(evidence.sized.sum())),
        }
    )


def counts_at_least(
    buttons: pd.DataFrame,
    field: str = "cover_layers",
    *,
    n_draws: int | None = None,
    seed: int = 1,
) -> pd.DataFrame:
    """Estimate for each number the share of sets that have at least as many.

    Parameters
    ----------
    buttons, field
        As for :func:`count_distribution`.
    n_draws
        Number of draws for the intervals; the limit ``estimate-draws`` if not given.
    seed
        Seed of their random numbers: the same seed gives the same intervals.

    Returns
    -------
    DataFrame
        One row for each number from 1 to the highest seen: ``at_least``, ``sets`` (with a count
        or a bound), ``counted`` (of these, counted exactly), ``fewest`` and ``most`` (sets that
        certainly, and that possibly, have as many; weights where a set's buttons differ),
        ``share`` (most likely share; blank where the bounds leave it open), ``share_low`` and
        ``share_high`` (the most likely shares that the bounds cannot part; equal where
        ``share`` is given), ``low`` and ``high`` (interval at the limit ``confidence``) and
        ``few``. No rows if there are no counts.

    Notes
    -----
    The share is the nonparametric maximum likelihood estimate. The interval is drawn by data
    augmentation (Tanner & Wong 1987, J Am Stat Assoc 82:528): unseen counts are drawn from the
    shares, and the shares from a Dirichlet distribution whose prior weighs one set in all, spread
    evenly over the numbers up to one above the highest seen (Berger, Bernardo & Sun 2015,
    Bayesian Analysis 10:189). Resampled sets would give no width to a number that nobody saw. In
    simulated surveys 92 to 98 % of the intervals held the truth (20 to 120 sets, true shares
    0.05 to 0.8, 7 in 10 counts bounded). All this holds if covers are not seen less deep because
    they have more layers.
    """
    evidence = _count_evidence(buttons, field)
    weights = evidence.sized.astype(float)
    highest = _highest(evidence)
    told = _told(evidence, weights, np.arange(1, highest + 1), n_draws, seed)
    sets = np.full(highest, int(evidence.sized.sum()))
    table = pd.DataFrame({"at_least": np.arange(1, highest + 1), "sets": sets})
    return pd.concat([table, told.drop(columns="sets")], axis=1)


def at_least_by_period(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    field: str = "cover_layers",
    *,
    n_draws: int | None = None,
    seed: int = 1,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Estimate by period, for each number, the share of sets with at least as many.

    Sets whose dates touch several periods count in each by their aoristic weight: this
    describes the record as it is dated.

    Parameters
    ----------
    buttons, field, n_draws, seed
        As for :func:`counts_at_least`.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.

    Returns
    -------
    DataFrame
        For each number from 2 to the highest seen ``at_least`` and the rows of
        :func:`.evidence.dating.period_rows` with ``sets``, ``counted``, ``fewest``, ``most`` (all
        of them weights) and the further columns of :func:`counts_at_least`.
    """
    evidence = _count_evidence(buttons, field)
    dates = set_dates(buttons)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    shared = weights.assign(**{ALL_PERIODS: 1.0}).to_numpy(dtype=float) * evidence.sized[:, None]
    asked = np.arange(2, _highest(evidence) + 1)
    told = [_told(evidence, column, asked, n_draws, seed) for column in shared.T]
    rows = period_rows(scheme)
    tables = [
        pd.concat(
            [rows, pd.DataFrame([table.iloc[place] for table in told]).reset_index(drop=True)],
            axis=1,
        ).assign(at_least=number)
        for place, number in enumerate(asked.tolist())
    ]
    if not tables:
        return pd.concat([rows[:0], told[0][:0]], axis=1).assign(at_least=0)
    return pd.concat(tables, ignore_index=True)


def _highest(evidence: IntervalEvidence) -> int:
    """Give the highest number that a bound names, 0 if there is none."""
    known = evidence.bounds[np.isfinite(evidence.bounds[:, 1]), 1]
    return int(max([*(evidence.bounds[:, 0] + 1), *known], default=0))


def _told(
    evidence: IntervalEvidence,
    weights: Floats,
    numbers: NDArray[np.int64],
    n_draws: int | None,
    seed: int,
) -> pd.DataFrame:
    """Give what is known of the sets with at least each of some numbers."""
    low, high = evidence.bounds[:, 0] + 1, evidence.bounds[:, 1]
    votes = np.asarray(evidence.votes.T @ weights)
    table = pd.DataFrame(
        {
            "sets": votes.sum(),
            "counted": votes[low == high].sum(),
            "fewest": [votes[low >= number].sum() for number in numbers],
            "most": [votes[high >= number].sum() for number in numbers],
        },
        dtype=float,
    )
    if votes.sum() <= 0 or len(numbers) == 0:
        return table.assign(**dict.fromkeys(_SHARE_COLUMNS[:-1], np.nan), few=True)
    masses = evidence.masses(weights)
    certain = np.array([masses[evidence.low + 1 >= number].sum() for number in numbers])
    possible = np.array([masses[evidence.high >= number].sum() for number in numbers])
    draws = int(limit("estimate-draws")) if n_draws is None else n_draws
    drawn = drawn_shares(low, high, votes, int(numbers.max()), n_draws=draws, seed=seed)
    tail = (1 - limit("confidence") / 100) / 2
    reach = np.column_stack(
        [np.quantile(drawn[:, number:].sum(axis=1), [tail, 1 - tail]) for number in numbers]
    )
    return table.assign(
        share=np.where(possible - certain < _LEFT_OPEN, certain, np.nan),
        share_low=certain,
        share_high=possible,
        low=np.minimum(reach[0], certain),
        high=np.maximum(reach[1], possible),
        few=votes.sum() < limit("few-sets"),
    )


def _count_evidence(buttons: pd.DataFrame, field: str) -> IntervalEvidence:
    """Gather bounded counts, one vote per set."""
    low, high = floats(buttons, f"{field}_low"), floats(buttons, f"{field}_high")
    has = ~np.isnan(low) | ~np.isnan(high)
    low, high = np.where(np.isnan(low), 0.0, low), np.where(np.isnan(high), np.inf, high)
    keys = set_keys(buttons).to_numpy()
    sets = int(keys.max(initial=-1)) + 1
    highest_low, lowest_high = np.zeros(sets), np.full(sets, np.inf)
    np.maximum.at(highest_low, keys[has], low[has])
    np.minimum.at(lowest_high, keys[has], high[has])
    agree = (highest_low <= lowest_high)[keys]
    bounds = np.column_stack(
        [np.where(agree, highest_low[keys], low), np.where(agree, lowest_high[keys], high)]
    )
    vote = shared_weights(keys, has)[has]
    return interval_evidence(bounds[has] - np.array([1.0, 0.0]), keys[has], vote, sets)
