"""What the main shares depend on: the same, taken in other ways."""

from collections.abc import Sequence

import pandas as pd

from buttonstudy.schemes import PeriodScheme
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.sensitivity import Figure, figure_of, sensitivity
from buttonstudy.study.telling.words import field_label, term_label

__all__ = ["share_sensitivity"]


def share_sensitivity(
    buttons: pd.DataFrame, scheme: PeriodScheme, names: Sequence[str]
) -> pd.DataFrame:
    """Give the share of each field's commonest term, taken in other ways.

    Parameters
    ----------
    buttons
        One row per button.
    scheme
        The periods.
    names
        Base names of fields; those without an answer are left out.

    Returns
    -------
    DataFrame
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it: for each field the
        share over all periods, and in the period with the most examined sets. Which term and
        period is settled once, by the survey as it is.
    """
    wanted = [chosen for field in names for chosen in _chosen(buttons, field, scheme)]
    terms = {field: term for field, term, _ in wanted}

    def figures(survey: pd.DataFrame) -> dict[str, Figure]:
        rows = {
            (field, row["period"]): row
            for field, term in terms.items()
            for _, row in shares_by_period(survey, field, scheme, [term]).iterrows()
        }
        return {
            _name(field, term, period): figure_of(rows[field, period], "share", sets="examined")
            for field, term, period in wanted
        }

    return sensitivity(buttons, scheme, figures)


def _chosen(buttons: pd.DataFrame, field: str, scheme: PeriodScheme) -> list[tuple[str, str, str]]:
    """Choose a field's commonest term, over all periods and in the one with most examined sets."""
    table = shares_by_period(buttons, field, scheme)
    every = table[(table["kind"] == "all") & (table["with_term"] > 0)]
    if every.empty:
        return []
    term = str(every.iloc[int(every["with_term"].to_numpy().argmax())]["term"])
    periods = table[(table["kind"] == "period") & (table["term"] == term)]
    if not periods["examined"].max() > 0:
        return [(field, term, ALL_PERIODS)]
    most = str(periods.iloc[int(periods["examined"].to_numpy().argmax())]["period"])
    return [(field, term, ALL_PERIODS), (field, term, most)]


def _name(field: str, term: str, period: str) -> str:
    name = f"{field_label(field).capitalize()} “{term_label(term)}”"
    return name if period == ALL_PERIODS else f"{name} in {period}"
