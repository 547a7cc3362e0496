"""How common each trait was in each period, estimated although dates are wide.

Three kinds of not knowing stand side by side and are never blended into one: how far chance could
move so few sets, what the wide dates leave open, and what the sets that nobody examined could
hide. Where the dates cannot part a period from the others, that is said instead of left to the
reader.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.shares.traits import Trait, quantile_interval

__all__ = ["ESTIMATE_COLUMNS", "estimated_shares", "evidence_worth"]

ESTIMATE_COLUMNS = (
    "field",
    "term",
    "period",
    "kind",
    "year_from",
    "year_to",
    "examined",
    "with_term",
    "dated_within",
    "with_term_within",
    "recorded_share",
    "estimate",
    "low",
    "high",
    "dating_low",
    "dating_high",
    "if_none",
    "if_all",
    "without_answer",
    "worth",
    "told_apart",
    "why",
    "few",
)

_WHOLE = 1 - 1e-9


def estimated_shares(traits: Sequence[Trait]) -> pd.DataFrame:
    """Tell each trait's share by period, with all that is not known beside it.

    Parameters
    ----------
    traits
        As :func:`buttonstudy.study.shares.traits.estimate_traits` gives them.

    Returns
    -------
    DataFrame
        :data:`ESTIMATE_COLUMNS`, for each trait the rows of
        :func:`buttonstudy.study.evidence.dating.period_rows`:

        - ``examined``, ``with_term``, ``without_answer``: sets by aoristic weight, and
          ``recorded_share`` from them: a description of the record, no estimate;
        - ``dated_within``, ``with_term_within``: examined sets dated wholly within the period,
          and how many of these have the trait;
        - ``estimate``: the most likely share (EM, the set's period a latent variable); where
          most likely no examined set is of the period, the median of the posterior;
        - ``low``, ``high``: its interval, for chance and dating together, at the limit
          ``confidence``: equal tails of the posterior under Jeffreys priors, widened to the
          estimate where that lies beyond (at 0 and 1, as Brown, Cai & DasGupta 2001 have it);
        - ``dating_low``, ``dating_high``: the shares that the survey's own sets would show,
          whichever of the years that fit they are truly of: the dating alone;
        - ``if_none``, ``if_all``: the most likely share if none, or all, of the sets without a
          clear answer had the trait (Manski 1989, Journal of Human Resources 24:343);
        - ``worth``: as many sets dated wholly within the period would tell as much;
        - ``told_apart``: whether that reaches the limit ``told-apart-sets``; ``why`` says why
          not;
        - ``few``: fewer sets examined than the limit ``few-sets``: tell counts, no percentage.

        Rows for sets outside the periods or without a date have counts only, so that no set is
        out of sight. The row for all periods needs no dates: its share and its Wilson interval
        are those of the description.

    Notes
    -----
    How often the intervals cover the truth has been measured with ``tests/simulate_coverage.py``;
    the table it wrote is in the developers' notes. In short: at 95 % they cover 93 to 99 %, on
    the wide side where shares are near 0 or 1 or a period has few sets. They do not cover the
    truth where opening a button depends on what it holds; see
    :mod:`buttonstudy.study.shares.reweighted`.
    """
    if not traits:
        return pd.DataFrame(columns=list(ESTIMATE_COLUMNS))
    table = pd.concat([trait.described for trait in traits], ignore_index=True)
    table = table.rename(columns={"share": "recorded_share"})
    columns = [_columns(trait) for trait in traits]
    for name in columns[0]:
        table[name] = np.concatenate([column[name] for column in columns])
    table["field"] = np.repeat([trait.field for trait in traits], len(table) // len(traits))
    unknown = ["not_examined", "unclear", "not_recorded"]
    table["without_answer"] = table[unknown].sum(axis="columns")
    table["told_apart"] = table["told_apart"].astype("boolean")
    return table[list(ESTIMATE_COLUMNS)]


def evidence_worth(draws: Floats) -> Floats:
    """Say how many sets dated within one period would tell as much as the draws of a share.

    A share known from ``n`` sets under Jeffreys' prior has a Beta distribution with mean m and
    variance m(1 - m) / (n + 2); solved for n.

    Parameters
    ----------
    draws
        Shape (draws, periods).

    Examples
    --------
    >>> draws = np.random.default_rng(1).beta(0.5 + 3, 0.5 + 17, (4000, 1))
    >>> evidence_worth(draws).round()
    array([20.])
    """
    mean, variance = draws.mean(axis=0), draws.var(axis=0)
    return np.asarray(np.maximum(mean * (1 - mean) / np.maximum(variance, 1e-12) - 2, 0.0))


def _columns(trait: Trait) -> dict[str, np.ndarray]:
    """Lay the estimates out in the rows of the description: periods, two others, all periods."""
    plain = trait.described.iloc[-1]
    every = {"estimate": "share", **{name: name for name in ("low", "high", "if_none", "if_all")}}
    columns = {}
    for name, values in _period_columns(trait).items():
        blank = "" if name == "why" else None
        last = plain[every[name]] if name in every else blank
        kind = object if name in ("why", "told_apart") else np.float64
        columns[name] = np.array([*values, blank, blank, last], dtype=kind)
    return columns


def _period_columns(trait: Trait) -> dict[str, np.ndarray | list[str]]:
    """Give each period's values."""
    described = trait.described.iloc[: len(trait.dated.labels)]
    estimate = trait.estimate
    known = ~np.isnan(estimate)
    low, high = quantile_interval(trait.shares)
    dating_low, dating_high = quantile_interval(trait.as_dated)
    no, yes, silent = trait.likely
    every = np.where(no + yes + silent > 0, no + yes + silent, np.nan)
    worth = np.where(known, evidence_worth(trait.shares), 0.0)
    heard = trait.heard
    within = trait.dated.inside[heard] >= _WHOLE
    least = limit("told-apart-sets")
    return {
        "estimate": estimate,
        "low": np.where(known, np.fmin(low, estimate), np.nan),
        "high": np.where(known, np.fmax(high, estimate), np.nan),
        "dating_low": np.where(known, dating_low, np.nan),
        "dating_high": np.where(known, dating_high, np.nan),
        "if_none": yes / every,
        "if_all": (yes + silent) / every,
        "with_term_within": trait.answer[heard] @ within,
        "worth": worth,
        "told_apart": worth >= least,
        "why": [
            _why(examined, within_number, value)
            for examined, within_number, value in zip(
                described["examined"].to_numpy(), described["dated_within"].to_numpy(), worth
            )
        ],
    }


def _why(examined: float, within: int, worth: float) -> str:
    """Say why a period cannot be told apart; nothing if it can."""
    if examined <= 0:
        return "No examined set is dated so that it could be of this period."
    if worth >= limit("told-apart-sets"):
        return ""
    sets = "1 examined set is" if within == 1 else f"{within or 'No'} examined sets are"
    return (
        f"{sets} dated wholly within this period, and what wider dates add makes the evidence "
        f"worth no more than {worth:.0f} such sets: too few to tell this period from the others."
    )
