"""Shares put right by the visible trait in which opened and unopened sets differ most.

One trait parts the sets into those that show it and the others. More traits would leave parts of
which hardly a set was opened, and so no estimate at all.
"""

import numpy as np
import pandas as pd

from buttonstudy.schemes import PeriodScheme, fields, limit
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.evidence.sets import field_evidence, set_keys
from buttonstudy.study.shares.latent_model import SEED
from buttonstudy.study.shares.reweighted import reweighted_shares
from buttonstudy.study.shares.reweighted_periods import reweighted_by_period
from buttonstudy.study.telling.words import field_label, term_label

__all__ = ["REWEIGHTING_COLUMNS", "VISIBLE_KIND", "reweighted_estimates", "with_visible_kind"]

VISIBLE_KIND = "visible_kind"
REWEIGHTING_COLUMNS = (
    "field",
    "term",
    "period",
    "kind",
    "year_from",
    "year_to",
    "sets",
    "examined",
    "with_term",
    "plain",
    "estimate",
    "low",
    "high",
    "covered",
    "covered_estimate",
    "why",
    "few",
)

_MOST = 0.5


def with_visible_kind(buttons: pd.DataFrame, opened: pd.DataFrame) -> pd.DataFrame:
    """Give each button the visible kind of its set.

    Parameters
    ----------
    buttons
        One row per button.
    opened
        As :func:`buttonstudy.study.shares.opening.opened_compared` gives it.

    Returns
    -------
    DataFrame
        The buttons with a column :data:`VISIBLE_KIND`: whether the set shows, on at least half
        of its buttons, the visible trait in which opened and unopened sets differ most, dates
        aside. It is empty for all where they differ in none.
    """
    differing = opened[opened["differs"] & (opened["field"] != "date")]
    if differing.empty:
        return buttons.assign(**{VISIBLE_KIND: ""})
    most = differing.iloc[int(differing["difference"].abs().to_numpy().argmax())]
    field, term = str(most["field"]), str(most["term"])
    keys = set_keys(buttons)
    found = field_evidence(buttons, keys, field, [term])
    share = found.shares[term].to_numpy(dtype=np.float64)
    shown = f"{field_label(field)} {term_label(term)}"
    kinds = np.where(share >= _MOST, shown, f"other or unknown {field_label(field)}")
    return buttons.assign(**{VISIBLE_KIND: kinds[keys.to_numpy()]})


def reweighted_estimates(
    buttons: pd.DataFrame,
    comparison: pd.DataFrame,
    scheme: PeriodScheme,
    estimates: pd.DataFrame,
    seed: int = SEED,
) -> pd.DataFrame:
    """Estimate shares again with each visible kind counted by how many sets of it there are.

    Parameters
    ----------
    buttons
        As :func:`with_visible_kind` gives them.
    comparison
        Traits with ``field`` and ``term``. The first ones that opening lays open are estimated,
        as many as the limit ``traits-told``.
    scheme
        The periods.
    estimates
        As :func:`buttonstudy.study.shares.latent.estimated_shares` gives it, for the plain
        estimates beside.
    seed
        Seed of the draws.

    Returns
    -------
    DataFrame
        :data:`REWEIGHTING_COLUMNS`, for each trait its periods and all periods: ``plain`` is the
        estimate that takes the examined sets as they are (for all periods, their share); the
        others are those of
        :func:`buttonstudy.study.shares.reweighted_periods.reweighted_by_period` and, for all
        periods, of :func:`buttonstudy.study.shares.reweighted.reweighted_shares`. No rows if
        there is only one visible kind.
    """
    inside = [field.field for field in fields() if field.inside]
    asked = comparison[comparison["field"].isin(inside)].head(int(limit("traits-told")))
    if buttons.empty or buttons[VISIBLE_KIND].nunique() < 2 or asked.empty:
        return pd.DataFrame(columns=list(REWEIGHTING_COLUMNS))
    tables = []
    for field, term in zip(asked["field"], asked["term"]):
        by = [VISIBLE_KIND]
        periods = reweighted_by_period(buttons, field, scheme, by, [term], seed=seed)
        every = reweighted_shares(buttons, field, by, [term], seed=seed)
        years = {"year_from": None, "year_to": None}
        tables.append(periods.assign(kind="period"))
        tables.append(every.assign(period=ALL_PERIODS, kind="all", **years))
    table = pd.concat(tables, ignore_index=True)
    plain = estimates.set_index(["field", "term", "period"])["estimate"]
    keys = pd.MultiIndex.from_frame(table[["field", "term", "period"]])
    table["plain"] = plain.reindex(keys).to_numpy()
    table["few"] = table["examined"] < limit("few-sets")
    return table[list(REWEIGHTING_COLUMNS)].astype({"year_from": "Int64", "year_to": "Int64"})
