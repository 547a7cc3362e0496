"""Counts sets in groups, and turns the counts into shares with everything said beside them.

Whether the groups are periods or the answers to another question, a share is told in the same
way: how many sets were examined, how many of these had the trait, the interval that so many sets
allow, and how far the sets without an answer could move it.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.answers import ANSWERED, NOT_EXAMINED, NOT_RECORDED, UNCLEAR
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.sets import Evidence

__all__ = ["COUNT_COLUMNS", "clopper_pearson", "tally", "wilson", "with_shares"]

COUNT_COLUMNS = (
    "sets",
    "examined",
    "with_term",
    "share",
    "low",
    "high",
    "if_none",
    "if_all",
    "not_examined",
    "unclear",
    "not_recorded",
    "few",
)


def tally(evidence: Evidence, weights: pd.DataFrame) -> pd.DataFrame:
    """Count the sets in each group and give each term's share among the examined.

    Parameters
    ----------
    evidence
        The sets' answers.
    weights
        ``n`` rows by one column for each group: how much of the set belongs to it.

    Returns
    -------
    DataFrame
        For each group and, within it, each term: ``group``, ``term`` and
        :data:`COUNT_COLUMNS`:

        - ``sets`` = ``examined`` + ``not_examined`` + ``unclear`` + ``not_recorded``, all of
          them sums of weights;
        - ``with_term``: of the examined, those that have the term; a set whose examined buttons
          differ counts by its share;
        - ``share`` = ``with_term`` / ``examined``, with its Wilson interval ``low`` to ``high``;
        - ``if_none``, ``if_all``: the share among all sets if none, or all, of the sets without
          a clear answer had the term (Manski 1989, Journal of Human Resources 24:343);
        - ``few``: fewer sets examined than the limit ``few-sets``: tell counts, no percentage.

    Notes
    -----
    The interval takes the weighted counts as if so many whole sets had been seen. It says how far
    chance alone might have moved the share of sets like these. It does not cover what the sets
    without an answer hide, nor what wide dates blur, nor whether the survey's sets are typical of
    anything.
    """
    share_of = evidence.shares.to_numpy(dtype=np.float64)
    given = weights.to_numpy(dtype=np.float64).T
    number = share_of.shape[1]
    in_state = {
        state: np.repeat(given @ (evidence.state == state), number)
        for state in (ANSWERED, NOT_EXAMINED, UNCLEAR, NOT_RECORDED)
    }
    with_term = (given @ np.nan_to_num(share_of)).ravel()
    sets, examined = sum(in_state.values(), np.zeros(len(with_term))), in_state[ANSWERED]
    counts = pd.DataFrame(
        {
            "group": np.repeat(np.asarray(weights.columns, dtype=object), number),
            "term": np.tile(np.asarray(evidence.shares.columns, dtype=object), given.shape[0]),
            "sets": sets,
            "examined": examined,
            "with_term": with_term,
            **_shares(sets, examined, with_term),
            "not_examined": in_state[NOT_EXAMINED],
            "unclear": in_state[UNCLEAR],
            "not_recorded": in_state[NOT_RECORDED],
        }
    )
    return counts[["group", "term", *COUNT_COLUMNS]]


def with_shares(counts: pd.DataFrame) -> pd.DataFrame:
    """Tell the shares of counted sets, with what is said beside them.

    Parameters
    ----------
    counts
        With ``sets``, ``examined`` and ``with_term``, whatever else it holds.

    Returns
    -------
    DataFrame
        The same rows, with ``share``, ``low``, ``high``, ``if_none``, ``if_all`` and ``few`` as
        :func:`tally` explains them, in place of any that they had.
    """
    sets, examined, with_term = (
        counts[name].to_numpy(dtype=np.float64) for name in ("sets", "examined", "with_term")
    )
    return counts.assign(**_shares(sets, examined, with_term))


def _shares(
    sets: Floats, examined: Floats, with_term: Floats
) -> dict[str, Floats | NDArray[np.bool_]]:
    low, high = wilson(with_term, examined)
    return {
        "share": _ratio(with_term, examined),
        "low": low,
        "high": high,
        "if_none": _ratio(with_term, sets),
        "if_all": _ratio(with_term + sets - examined, sets),
        "few": examined < limit("few-sets"),
    }


def wilson(successes: Floats, trials: Floats) -> tuple[Floats, Floats]:
    """Give Wilson's score interval at the level of the limit ``confidence``.

    Newcombe 1998 (Statistics in Medicine 17:857) and Brown, Cai & DasGupta 2001 (Statistical
    Science 16:101) recommend it for small numbers; it is never empty, nor beyond 0 and 1.

    Parameters
    ----------
    successes, trials
        Counts of the same length; sums of weights may be broken numbers. No trials, no interval.

    Examples
    --------
    >>> low, high = wilson(np.array([0.0]), np.array([20.0]))
    >>> round(float(high[0]), 4)
    0.1611
    """
    from statsmodels.stats.proportion import proportion_confint

    seen = trials > 0
    low, high = np.full(len(trials), np.nan), np.full(len(trials), np.nan)
    if seen.any():
        within = np.clip(successes[seen], 0, trials[seen])
        alpha = 1 - limit("confidence") / 100
        low[seen], high[seen] = proportion_confint(within, trials[seen], alpha, method="wilson")
    return np.clip(low, 0, 1), np.clip(high, 0, 1)


def clopper_pearson(having: float, examined: float) -> tuple[float, float]:
    """Give the exact interval of a share, at the limit ``confidence``.

    Clopper & Pearson 1934, Biometrika 26:404. Numbers may be broken where they are effective
    numbers.

    Examples
    --------
    >>> [round(end, 4) for end in clopper_pearson(15, 148)]
    [0.0578, 0.1617]
    """
    from scipy import special

    if examined <= 0:
        return float("nan"), float("nan")
    tail = (1 - limit("confidence") / 100) / 2
    without = max(examined - having, 0.0)
    low = float(special.betaincinv(having, without + 1, tail)) if having > 0 else 0.0
    high = float(special.betainccinv(having + 1, without, tail)) if without > 0 else 1.0
    return low, high


def _ratio(part: Floats, whole: Floats) -> Floats:
    return np.divide(part, whole, out=np.full(len(whole), np.nan), where=whole > 0)
