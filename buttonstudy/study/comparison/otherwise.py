"""What the main comparisons and ties depend on: the same, taken in other ways."""

from collections.abc import Callable
from functools import partial

import pandas as pd

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.comparison.association import associations
from buttonstudy.study.comparison.periods import differences_between
from buttonstudy.study.comparison.turning import turning_years
from buttonstudy.study.shares.latent_model import SEED
from buttonstudy.study.shares.sensitivity import (
    MORE_OR_FEWER,
    NO_FIGURE,
    Figure,
    figure_of,
    sensitivity,
)
from buttonstudy.study.shares.traits import estimate_traits
from buttonstudy.study.telling.words import field_label, term_label

__all__ = ["comparison_sensitivity", "tie_sensitivity"]


def comparison_sensitivity(
    buttons: pd.DataFrame,
    scheme: PeriodScheme,
    differences: pd.DataFrame,
    turning: pd.DataFrame,
    seed: int = SEED,
) -> pd.DataFrame:
    """Give differences between two periods, and turning years, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods.
    differences
        As :func:`buttonstudy.study.comparison.periods.differences_between` gives it; as many are
        taken as the limit ``traits-told``.
    turning
        As :func:`buttonstudy.study.comparison.turning.turning_years` gives it; as many of those
        told are taken.
    seed
        Seed of the draws.

    Returns
    -------
    DataFrame
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it.
    """
    most = int(limit("traits-told"))
    figures: dict[str, Callable[[pd.DataFrame], Figure]] = {}
    for _, row in differences[differences["low"].notna()].head(most).iterrows():
        pair = (str(row["earlier"]), str(row["later"]))
        name = f"{_trait(row)}, {pair[0]} to {pair[1]}"
        figures[name] = partial(
            _difference, field=row["field"], term=row["term"], scheme=scheme, pair=pair, seed=seed
        )
    for _, row in turning[turning["told"].astype(bool)].head(most).iterrows():
        figures[f"{_trait(row)}, turning year"] = partial(
            _turning, field=row["field"], term=row["term"]
        )
    return sensitivity(buttons, scheme, figures)


def tie_sensitivity(
    buttons: pd.DataFrame, scheme: PeriodScheme, ties: pd.DataFrame
) -> pd.DataFrame:
    """Give the surest odds ratios, taken in other ways.

    Parameters
    ----------
    buttons, scheme
        As for :func:`comparison_sensitivity`.
    ties
        As :func:`buttonstudy.study.comparison.ties.ties_of` gives it, the surest first; as many
        are taken as the limit ``traits-told``.
    """
    figures: dict[str, Callable[[pd.DataFrame], Figure]] = {}
    known = ties[ties["odds_ratio"].notna()]
    for _, row in known.head(int(limit("traits-told"))).iterrows():
        name = f"Odds of {field_label(row['field'])} “{term_label(row['term'])}” with "
        name += f"{field_label(row['by'])} “{term_label(row['group'])}”"
        figures[name] = partial(
            _odds, field=row["field"], term=row["term"], by=row["by"], group=row["group"]
        )
    return sensitivity(buttons, scheme, figures)


def _trait(row: pd.Series) -> str:
    return f"{field_label(str(row['field'])).capitalize()} “{term_label(str(row['term']))}”"


def _difference(
    buttons: pd.DataFrame,
    field: str,
    term: str,
    scheme: PeriodScheme,
    pair: tuple[str, str],
    seed: int,
) -> Figure:
    traits = estimate_traits(buttons, [field], scheme, {field: [term]}, seed=seed)
    row = differences_between(traits, *pair).iloc[0]
    if row["why"]:
        return NO_FIGURE
    ten = {name: 10 * row[name] for name in ("difference", "low", "high")}
    told = pd.Series(ten | {"sets": traits[0].heard.sum()})
    return figure_of(told, "difference", unit=MORE_OR_FEWER)


def _turning(buttons: pd.DataFrame, field: str, term: str) -> Figure:
    row = turning_years(buttons, field, [term]).iloc[0]
    return figure_of(row, "turning_year", unit="year") if row["told"] else NO_FIGURE


def _odds(buttons: pd.DataFrame, field: str, term: str, by: str, group: str) -> Figure:
    table = associations(buttons, field, by, [term])
    row = table[table["group"] == group]
    return NO_FIGURE if row.empty else figure_of(row.iloc[0], "odds_ratio", unit="times")
