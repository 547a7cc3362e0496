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
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.sets import Evidence, field_evidence, set_dates, set_keys
from buttonstudy.study.shares.tally import COUNT_COLUMNS, tally

__all__ = ["SHARE_COLUMNS", "described_by_period", "shares_by_period"]

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
    buttons = asked_of(buttons, field)
    keys = set_keys(buttons)
    dates = set_dates(buttons, keys)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    evidence = field_evidence(buttons, keys, field, terms)
    table = described_by_period(evidence, weights, scheme)
    terms_of_rows = np.tile(np.arange(evidence.shares.shape[1]), len(period_rows(scheme)))
    by_term = np.argsort(terms_of_rows, kind="stable")
    return table.iloc[by_term].reset_index(drop=True)


def described_by_period(
    evidence: Evidence, weights: pd.DataFrame, scheme: PeriodScheme
) -> pd.DataFrame:
    """Describe sets' answers by period and, within it, by term.

    Parameters
    ----------
    evidence
        The sets' answers.
    weights
        The same sets' dates, as :func:`buttonstudy.study.evidence.dating.period_weights` gives
        them.
    scheme
        The periods.

    Returns
    -------
    DataFrame
        :data:`SHARE_COLUMNS`, as :func:`shares_by_period` has them but for the order of rows.
    """
    counted = tally(evidence, weights.assign(**{ALL_PERIODS: 1.0}))
    within = wholly_within(weights)[evidence.state == ANSWERED]
    labels = [period.label for period in scheme.periods]
    rows = period_rows(scheme)
    rows["dated_within"] = [*within.sum(), int(within[labels].to_numpy().sum())]
    again = np.repeat(np.arange(len(rows)), evidence.shares.shape[1])
    table = pd.concat([rows.take(again).reset_index(drop=True), counted], axis="columns")
    return table[list(SHARE_COLUMNS)]
