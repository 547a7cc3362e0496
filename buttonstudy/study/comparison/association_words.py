"""Says whether two features went together, in counts of sets: in sentences and as a table."""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import count, field_label, listed, number_of, term_label

__all__ = ["association_sentence", "tie_findings", "ties_in_words", "times"]


def association_sentence(row: pd.Series, field: str, by: str) -> str:
    """Say one row of :func:`buttonstudy.study.comparison.association.associations`.

    Parameters
    ----------
    row
        The row.
    field, by
        The fields that it was asked for.
    """
    term, group = term_label(str(row["term"])), term_label(str(row["group"]))
    named = f"{field_label(by)} “{group}”"
    inside, outside = row["both"] + row["group_only"], row["term_only"] + row["neither"]
    if str(row["how"]).startswith("not estimable"):
        reason = str(row["how"]).removeprefix("not estimable: ")
        return (
            f"Whether {field_label(field)} “{term}” goes with {named} cannot be told: {reason}, "
            f"of {number_of(row['sets'], 'set')} in this survey on which both are known."
        )
    first = (
        f"Of {number_of(inside, 'set')} in this survey with {named}, {count(row['both'])} had "
        f"{field_label(field)} “{term}”; of the {count(outside)} others, {count(row['term_only'])}."
    )
    return f"{first} {_odds(row)}"


def tie_findings(ties: pd.DataFrame, field: str, by: Sequence[str]) -> list[str]:
    """Say the surest ties in full, name the others, and say how many pairs were looked at.

    Parameters
    ----------
    ties
        As :func:`buttonstudy.study.comparison.ties.ties_of` gives it.
    field, by
        The fields that it was asked for.
    """
    known = ties[ties["odds_ratio"].notna()]
    silent = [field_label(name) for name in by if name not in set(known["by"])]
    too_few = (
        f"{field_label(field).capitalize()} cannot be held against {listed(silent)}: no pair has "
        f"{limit('tied-fewest-sets'):.0f} sets on either side of both features."
    )
    if known.empty:
        return [too_few]
    apart = known[(known["low"] > 1) | (known["high"] < 1)]
    most = int(limit("traits-told"))
    told = [
        association_sentence(row, field, str(row["by"])) for _, row in apart.head(most).iterrows()
    ]
    if len(apart) > most:
        more = listed(_pair(row) for _, row in apart.iloc[most:].iterrows())
        told.append(
            f"The interval lies wholly on one side of 1, which would be no tie, for {more} as well."
        )
    looked = number_of(len(known), "pair")
    if told:
        told.append(f"{looked.capitalize()} looked at: about 1 in 20 would stand apart by chance.")
    else:
        none = f"None of the {looked} that could be looked at goes"
        if len(known) == 1:
            none = f"The one pair that could be looked at, {_pair(known.iloc[0])}, does not go"
        told = [
            f"{none} together more than chance allows; the intervals say how strong a tie may "
            "still be hidden."
        ]
    return [*told, too_few] if silent else told


def _pair(row: pd.Series) -> str:
    by, group = field_label(str(row["by"])), term_label(str(row["group"]))
    return f"“{term_label(str(row['term']))}” with {by} “{group}”"


def _odds(row: pd.Series) -> str:
    ratio = f"The odds are {times(row['odds_ratio'])} times as high there"
    low, high, sets = row["low"], row["high"], number_of(row["sets"], "set")
    if pd.isna(low) and pd.isna(high):
        return f"{ratio}; so few sets do not say how sure that is."
    if pd.isna(high):
        return f"{ratio}; with {sets}, anything from {times(low)} times upwards is possible."
    if pd.isna(low):
        return f"{ratio}; with {sets}, anything up to {times(high)} times is possible."
    span = f"{times(low)} to {times(high)} times"
    return f"{ratio}; with {sets}, anything from {span} is possible."


def times(ratio: float) -> str:
    """Word an odds ratio.

    Examples
    --------
    >>> times(7.52), times(0.136)
    ('7.5', '0.14')
    """
    return f"{ratio:.1f}" if ratio >= 1 else f"{ratio:.2f}"


def ties_in_words(ties: pd.DataFrame) -> pd.DataFrame:
    """Tell how far features go together, as :mod:`.comparison.ties` estimates it."""
    rows = [
        {
            "feature": f"{field_label(row['field']).capitalize()}: {term_label(row['term'])}",
            "beside": f"{field_label(row['by'])} {term_label(row['group'])}",
            "with it": _part(row["both"], row["group_only"]),
            "without it": _part(row["term_only"], row["neither"]),
            "odds, times as high": times(row["odds_ratio"]),
            "chance allows": _open_span(row["low"], row["high"]),
        }
        for row in ties.to_dict("records")
        if pd.notna(row["odds_ratio"])
    ]
    names = ["feature", "beside", "with it", "without it", "odds, times as high", "chance allows"]
    return pd.DataFrame(rows, columns=names, dtype="str")


def _part(having: float, lacking: float) -> str:
    return f"{count(having)} of {count(having + lacking)}"


def _open_span(low: float, high: float) -> str:
    if np.isnan(low):
        return "" if np.isnan(high) else f"up to {times(high)}"
    return f"{times(low)} upwards" if np.isnan(high) else f"{times(low)} to {times(high)}"
