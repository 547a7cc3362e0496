"""Shares by period put right where opening goes with something visible from outside.

The latent-period model of :mod:`.shares.latent_model`, with a cell for each visible
kind: in each period, how many sets of each kind there were (all sets tell, opened or not), and
how many of the examined of that kind had the trait. Each kind then counts by how many sets of it
the period had.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.labels import set_strata
from buttonstudy.study.evidence.patterns import (
    DatedSets,
    Ints,
    Patterns,
    count_patterns,
    dated_sets,
)
from buttonstudy.study.evidence.sets import field_evidence, set_dates, set_keys
from buttonstudy.study.shares.latent_model import SEED, draw_cells, most_likely_cells
from buttonstudy.study.shares.reweighted import stratum_prior
from buttonstudy.study.shares.traits import quantile_interval

__all__ = ["BY_PERIOD_COLUMNS", "reweighted_by_period"]

BY_PERIOD_COLUMNS = (
    "field",
    "term",
    "period",
    "year_from",
    "year_to",
    "sets",
    "examined",
    "estimate",
    "low",
    "high",
    "covered",
    "covered_estimate",
    "why",
)

_LEAST = 0.5
_NOTHING = 1e-3


def reweighted_by_period(
    buttons: pd.DataFrame,
    field: str,
    scheme: PeriodScheme,
    by: Sequence[str],
    terms: Sequence[str] | None = None,
    earliest: int | None = None,
    latest: int | None = None,
    draws: int | None = None,
    seed: int = SEED,
) -> pd.DataFrame:
    """Estimate the share of all sets with each term, by period and weighted by visible kind.

    Parameters
    ----------
    buttons, field, terms, by
        As for :func:`buttonstudy.study.shares.reweighted.reweighted_shares`.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.
    draws, seed
        Number of draws (the limit ``estimate-draws`` if not given) and their seed.

    Returns
    -------
    DataFrame
        :data:`BY_PERIOD_COLUMNS`, for each term one row per period: ``sets`` and ``examined``
        are most likely numbers; ``estimate``, ``low``, ``high``, ``covered``,
        ``covered_estimate`` and ``why`` as in
        :func:`.shares.reweighted.reweighted_shares`. A kind counts as not examined in
        a period where fewer than half an examined set is likely to be of it.

    Notes
    -----
    Opening may differ by kind and period; within these it must not depend on what is inside.
    """
    buttons = asked_of(buttons, field)
    keys = set_keys(buttons)
    dated = dated_sets(set_dates(buttons, keys), scheme, earliest, latest)
    shares = field_evidence(buttons, keys, field, terms).shares
    stratum, names = set_strata(buttons, keys, by)
    number = int(limit("estimate-draws")) if draws is None else draws
    tables = [
        _term_rows(dated, stratum, names, shares[term].to_numpy(dtype=np.float64), number, seed)
        for term in shares.columns
    ]
    if not tables:
        return pd.DataFrame(columns=list(BY_PERIOD_COLUMNS))
    table = pd.concat(tables, ignore_index=True)
    table["field"] = field
    table["term"] = np.repeat(np.asarray(shares.columns, dtype=object), len(scheme.periods))
    return table[list(BY_PERIOD_COLUMNS)]


@dataclass(frozen=True, slots=True)
class _Split:
    """Cells taken apart, each of shape (..., strata, periods)."""

    yes: Floats
    examined: Floats
    sets: Floats


def _term_rows(
    dated: DatedSets, stratum: Ints, names: Sequence[str], answer: Floats, draws: int, seed: int
) -> pd.DataFrame:
    strata, inside = len(names), len(dated.scheme.periods)
    patterns = _stratum_patterns(dated, stratum, strata, answer)
    counted = most_likely_cells(patterns)
    prior = np.full(counted.shape, stratum_prior(strata))
    likely = _split(np.where(counted < _NOTHING, 0.0, counted), strata, inside)
    drawn = _split(draw_cells(patterns, prior, counted, draws, seed).cells, strata, inside)
    known = (likely.examined >= _LEAST) | (likely.sets < _LEAST)
    covered = (likely.sets * (likely.examined > 0) * known).sum(axis=0)
    share = _ratio(likely.yes, likely.examined)
    over = _ratio((np.nan_to_num(share) * likely.sets * known).sum(axis=0), covered)
    weight = drawn.sets / drawn.sets.sum(axis=1, keepdims=True)
    within = drawn.yes / drawn.examined
    low, _ = quantile_interval((weight * np.where(known, within, 0.0)).sum(axis=1))
    _, high = quantile_interval((weight * np.where(known, within, 1.0)).sum(axis=1))
    whole, seen = known.all(axis=0), covered > 0
    return pd.DataFrame(
        {
            "period": dated.labels,
            "year_from": [period.year_from for period in dated.scheme.periods],
            "year_to": [period.year_to for period in dated.scheme.periods],
            "sets": likely.sets.sum(axis=0),
            "examined": likely.examined.sum(axis=0),
            "estimate": np.where(whole & seen, over, np.nan),
            "low": np.where(seen, np.where(whole, np.fmin(low, over), low), np.nan),
            "high": np.where(seen, np.where(whole, np.fmax(high, over), high), np.nan),
            "covered": covered,
            "covered_estimate": over,
            "why": [_why(names, column, any_seen) for column, any_seen in zip(known.T, seen)],
        }
    ).astype({"year_from": "Int64", "year_to": "Int64"})


def _stratum_patterns(dated: DatedSets, stratum: Ints, strata: int, answer: Floats) -> Patterns:
    """Count sets by date range, stratum and answer; cells are no, yes and none per stratum."""
    levels, level = np.unique(np.round(answer, 4), return_inverse=True)
    told = ~np.isnan(levels)
    yes = np.where(told, levels, 0.0)
    parts = np.stack([np.where(told, 1 - yes, 0.0), yes, np.where(told, 0.0, 1.0)], axis=1)
    kind = stratum * len(levels) + level
    return count_patterns(dated, dated.dated, kind.astype(np.int64), np.kron(np.eye(strata), parts))


def _split(cells: Floats, strata: int, inside: int) -> _Split:
    shaped = cells.reshape(*cells.shape[:-2], strata, 3, cells.shape[-1])[..., :inside]
    yes, examined = shaped[..., 1, :], shaped[..., 0, :] + shaped[..., 1, :]
    return _Split(yes, examined, examined + shaped[..., 2, :])


def _ratio(part: Floats, whole: Floats) -> Floats:
    return np.divide(part, whole, out=np.full(np.shape(whole), np.nan), where=whole > 0)


def _why(names: Sequence[str], known: np.ndarray, seen: bool) -> str:
    """Name the strata of which nothing was examined in a period."""
    if not seen:
        return "No set that is likely to be of this period was examined."
    without = [f"“{name}”" for name, is_known in zip(names, known) if not is_known]
    if not without:
        return ""
    return (
        f"Nothing that is likely to be of this period was examined of {'; '.join(without)}: "
        f"such sets may all, or none, have it."
    )
