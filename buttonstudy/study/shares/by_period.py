"""How common each term was among the sets of each period.

Where dates are wide, a set counts in each period by its aoristic weight. The shares by period
are therefore a description of the record as it is dated: they make a sudden change look slow.
``dated_within`` says how many of the examined sets are dated wholly within the period, and so
how much of the description rests on firm ground.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.evidence.answers import ANSWERED
from buttonstudy.study.evidence.dating import (
    ALL_PERIODS,
    period_rows,
    period_weights,
    wholly_within,
)
from buttonstudy.study.evidence.sets import evidence_of, set_table, set_terms
from buttonstudy.study.shares.tally import COUNT_COLUMNS, tally

__all__ = ["SHARE_COLUMNS", "shares_by_period"]

SHARE_COLUMNS = (
    "period",
    "kind",
    "year_from",
    "year_to",
    "term",
    *COUNT_COLUMNS,
    "dated_within",
)


def shares_by_period(
    buttons: pd.DataFrame,
    field: str,
    scheme: PeriodScheme,
    terms: Sequence[str] | None = None,
    earliest: int | None = None,
    latest: int | None = None,
) -> pd.DataFrame:
    """Describe the share of examined sets with each term, by period and over all periods.

    Parameters
    ----------
    buttons
        One row per button.
    field, terms
        As for :func:`buttonstudy.study.evidence.answers.answers`.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.

    Returns
    -------
    DataFrame
        :data:`SHARE_COLUMNS`, for each term the rows of
        :func:`buttonstudy.study.evidence.dating.period_rows`: the periods, then ``outside`` and
        ``undated``, then ``all periods``, which holds every set whether dated or not. The
        counts are explained at :func:`.shares.tally.tally`. ``dated_within`` counts
        the examined sets that are dated wholly within the period; for all periods, within any
        one of them. No rows if the field has no answers and no terms are named.

    Examples
    --------
    >>> from buttonstudy.schemes import period_scheme
    >>> buttons = pd.DataFrame(
    ...     {"mould_material": ["bone", "wood"], "year_from": [1790, 1810], "year_to": [1809, 1820]}
    ... )
    >>> table = shares_by_period(buttons, "mould_material", period_scheme("centuries"), ["bone"])
    >>> table.query("sets > 0")[["period", "examined", "with_term"]].values.tolist()
    [['18th century', 0.5, 0.5], ['19th century', 1.5, 0.5], ['all periods', 2.0, 1.0]]
    """
    sets = set_table(buttons, field, terms)
    weights = period_weights(sets["year_from"], sets["year_to"], scheme, earliest, latest)
    within = wholly_within(weights)[(sets["state"] == ANSWERED).to_numpy()]
    labels = [period.label for period in scheme.periods]
    firm = {**within.sum().to_dict(), ALL_PERIODS: int(within[labels].to_numpy().sum())}
    counted = tally(evidence_of(sets), weights.assign(**{ALL_PERIODS: 1.0}))
    counted["dated_within"] = counted["group"].map(firm).astype("int64")
    return _by_term(counted, period_rows(scheme), list(set_terms(sets)))


def _by_term(counted: pd.DataFrame, periods: pd.DataFrame, terms: list[str]) -> pd.DataFrame:
    """Order the rows by term, then period, and put the periods' years beside them."""
    joined = counted.rename(columns={"group": "period"}).merge(periods, on="period", how="left")
    place = joined["term"].map({term: number for number, term in enumerate(terms)})
    ordered = joined.iloc[np.argsort(place.to_numpy(), kind="stable")]
    return ordered[list(SHARE_COLUMNS)].reset_index(drop=True)
