"""What the main shares depend on: the same, taken in other ways."""

from collections.abc import Callable, Sequence
from functools import partial

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
    figures: dict[str, Callable[[pd.DataFrame], Figure]] = {}
    for field in names:
        table = shares_by_period(buttons, field, scheme)
        every = table[(table["kind"] == "all") & (table["with_term"] > 0)]
        if every.empty:
            continue
        term = str(every.iloc[int(every["with_term"].to_numpy().argmax())]["term"])
        name = f"{field_label(field).capitalize()} “{term_label(term)}”"
        figures[name] = partial(_share, field=field, term=term, scheme=scheme, period=ALL_PERIODS)
        periods = table[(table["kind"] == "period") & (table["term"] == term)]
        if periods["examined"].max() > 0:
            most = int(periods["examined"].to_numpy().argmax())
            period = str(periods.iloc[most]["period"])
            figures[f"{name} in {period}"] = partial(
                _share, field=field, term=term, scheme=scheme, period=period
            )
    return sensitivity(buttons, scheme, figures)


def _share(
    buttons: pd.DataFrame, field: str, term: str, scheme: PeriodScheme, period: str
) -> Figure:
    table = shares_by_period(buttons, field, scheme, [term])
    row = table[table["period"] == period].iloc[0]
    return figure_of(row, "share", sets="examined")
