"""What the main comparisons and ties depend on: the same, taken in other ways."""

import pandas as pd

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.comparison.association import associations
from buttonstudy.study.comparison.differences import differences_between
from buttonstudy.study.comparison.turning import turning_years
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.sets import field_evidence, set_dates, set_keys
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
        As :func:`buttonstudy.study.comparison.differences.differences_between` gives it; as many
        are taken as the limit ``traits-told``.
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
    pairs = differences[differences["low"].notna()].head(most)
    turns = turning[turning["told"].astype(bool)].head(most)

    def figures(survey: pd.DataFrame) -> dict[str, Figure]:
        return _differences(survey, scheme, pairs, seed) | _turnings(survey, turns)

    heard = _heard(buttons, pairs)
    told = dict(_difference(row, sets) for (_, row), sets in zip(pairs.iterrows(), heard))
    told |= dict(_turning(row) for _, row in turns.iterrows())
    return sensitivity(buttons, scheme, figures, told)


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
    surest = ties[ties["odds_ratio"].notna()].head(int(limit("traits-told")))

    def figures(survey: pd.DataFrame) -> dict[str, Figure]:
        return {_tie(row): _odds(survey, row) for _, row in surest.iterrows()}

    told = {_tie(row): figure_of(row, "odds_ratio", unit="times") for _, row in surest.iterrows()}
    return sensitivity(buttons, scheme, figures, told)


def _trait(row: pd.Series) -> str:
    return f"{field_label(str(row['field'])).capitalize()} “{term_label(str(row['term']))}”"


def _tie(row: pd.Series) -> str:
    name = f"Odds of {field_label(row['field'])} “{term_label(row['term'])}” with "
    return f"{name}{field_label(row['by'])} “{term_label(row['group'])}”"


def _terms(asked: pd.DataFrame) -> dict[str, list[str]]:
    """List the terms asked about by field."""
    return {str(field): list(rows["term"]) for field, rows in asked.groupby("field", sort=False)}


def _differences(
    survey: pd.DataFrame, scheme: PeriodScheme, pairs: pd.DataFrame, seed: int
) -> dict[str, Figure]:
    """Give each trait's difference between two periods, all traits estimated at once."""
    terms = _terms(pairs)
    traits = estimate_traits(survey, list(terms), scheme, terms, seed=seed)
    of_trait = {(trait.field, trait.term): trait for trait in traits}
    asked = [(of_trait[row["field"], row["term"]], row) for _, row in pairs.iterrows()]
    return dict(
        _difference(
            differences_between([trait], row["earlier"], row["later"]).iloc[0], trait.heard.sum()
        )
        for trait, row in asked
    )


def _difference(row: pd.Series, sets: float) -> tuple[str, Figure]:
    name = f"{_trait(row)}, {row['earlier']} to {row['later']}"
    if row["why"]:
        return name, NO_FIGURE
    ten = pd.Series({end: 10 * row[end] for end in ("difference", "low", "high")})
    ten["sets"] = sets
    return name, figure_of(ten, "difference", unit=MORE_OR_FEWER)


def _heard(buttons: pd.DataFrame, asked: pd.DataFrame) -> list[int]:
    """Count for each trait the sets that are dated at both ends and have a clear answer."""
    heard: dict[tuple[str, str], int] = {}
    for field, terms in _terms(asked).items():
        of_field = asked_of(buttons, field)
        keys = set_keys(of_field)
        years = set_dates(of_field, keys)[["year_from", "year_to"]]
        shares = field_evidence(of_field, keys, field, terms).shares
        dated = shares[years.notna().all(axis="columns").to_numpy()]
        heard |= {(field, term): int(dated[term].notna().sum()) for term in terms}
    return [heard[trait] for trait in zip(asked["field"], asked["term"])]


def _turnings(survey: pd.DataFrame, turns: pd.DataFrame) -> dict[str, Figure]:
    """Give each trait's turning year, all terms of a field at once."""
    rows = {
        (field, row["term"]): row
        for field, terms in _terms(turns).items()
        for _, row in turning_years(survey, field, terms).iterrows()
    }
    wanted = [rows[trait] for trait in zip(turns["field"], turns["term"])]
    return dict(_turning(row) for row in wanted)


def _turning(row: pd.Series) -> tuple[str, Figure]:
    figure = figure_of(row, "turning_year", unit="year") if row["told"] else NO_FIGURE
    return f"{_trait(row)}, turning year", figure


def _odds(survey: pd.DataFrame, tie: pd.Series) -> Figure:
    table = associations(survey, tie["field"], tie["by"], [tie["term"]], [tie["group"]])
    return NO_FIGURE if table.empty else figure_of(table.iloc[0], "odds_ratio", unit="times")
