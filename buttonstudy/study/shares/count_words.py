"""Says what bounded counts tell, with the plain fewest and most beside."""

from collections.abc import Hashable, Mapping
from typing import Any

import pandas as pd

from buttonstudy.study.telling.words import (
    count,
    field_label,
    listed,
    number_of,
    per_cent,
    range_of,
    span_in_words,
)

__all__ = ["at_least_findings", "at_least_in_words", "at_least_sentence"]


def at_least_sentence(row: pd.Series, field: str = "cover_layers") -> str:
    """Say one row of :func:`buttonstudy.study.shares.bounded_counts.counts_at_least`.

    Examples
    --------
    >>> at_least_sentence(pd.Series({"at_least": 3, "sets": 40, "counted": 18, "fewest": 9,
    ...     "most": 25, "share": 0.4, "share_low": 0.4, "share_high": 0.4, "low": 0.27,
    ...     "high": 0.55, "few": False}))
    'Of 40 sets in this survey with a count of cover layers or a bound on it (18 counted ...'
    """
    label, number = field_label(field), row["at_least"]
    if row["sets"] <= 0:
        return f"No set in this survey has a count of {label}."
    first = (
        f"Of {number_of(row['sets'], 'set')} in this survey with a count of {label} or a bound on "
        f"it ({count(row['counted'])} counted exactly), {count(row['fewest'])} certainly had "
        f"{number} or more, and {count(row['most'])} may have had."
    )
    if row["few"]:
        return f"{first} That is too few sets for a percentage."
    reach = (
        f"with these sets and bounds, anything from {range_of(row['low'], row['high'])} is possible"
    )
    if pd.isna(row["share"]):
        between = range_of(row["share_low"], row["share_high"])
        return f"{first} Most likely it was {between}, and no reading narrows that; {reach}."
    return f"{first} Most likely it was {per_cent(row['share'])}; {reach}."


def at_least_findings(
    spread: pd.DataFrame, at_least: pd.DataFrame, field: str = "cover_layers"
) -> list[str]:
    """Say how a count is spread over the sets, then how many sets have two or more, and so on.

    Parameters
    ----------
    spread
        As :func:`buttonstudy.study.shares.bounded_counts.count_distribution` gives it.
    at_least
        As :func:`buttonstudy.study.shares.bounded_counts.counts_at_least` gives it.
    field
        The count's base name.
    """
    if at_least.empty:
        return [f"No set has a count of {field_label(field)}, so nothing can be said of it."]
    more = at_least[at_least["at_least"] > 1]
    told = [at_least_sentence(row, field) for _, row in more.head(1).iterrows()]
    told += [_as_well(row) for _, row in more.iloc[1:].iterrows()]
    if not told:
        return [f"No set in this survey has a count of {field_label(field)} above 1."]
    if at_least["few"].any():
        return told
    shares = listed(f"{per_cent(row['share'])} {_number(row)}" for _, row in spread.iterrows())
    sets = number_of(spread["sets"].iloc[0], "set")
    return [f"By {field_label(field)}, the {sets} most likely part into {shares}.", *told]


def _as_well(row: pd.Series) -> str:
    """Say a further number of the same sets."""
    first = (
        f"{row['at_least']} or more: certainly {count(row['fewest'])}, perhaps {count(row['most'])}"
    )
    if row["few"]:
        return f"{first}."
    reach = f"{range_of(row['low'], row['high'])} is possible"
    if pd.isna(row["share"]):
        return f"{first}; most likely {range_of(row['share_low'], row['share_high'])} ({reach})."
    return f"{first}; most likely {per_cent(row['share'])} ({reach})."


def _number(row: pd.Series) -> str:
    if pd.isna(row["high"]):
        return f"with {row['low']} or more"
    same = row["low"] == row["high"]
    return f"with {row['low']}" if same else f"with {row['low']} to {row['high']}"


def at_least_in_words(at_least: pd.DataFrame) -> pd.DataFrame:
    """Tell how many sets have so many or more, as :mod:`.shares.bounded_counts` estimates it."""
    rows = [
        {
            "so many or more": f"{row['at_least']}",
            "sets with a count or a bound": count(row["sets"]),
            "certainly": count(row["fewest"]),
            "possibly": count(row["most"]),
            "most likely share": ""
            if row["few"] or pd.isna(row["share"])
            else per_cent(row["share"]),
            "chance and bounds allow": _reach(row),
        }
        for row in at_least.to_dict("records")
        if row["at_least"] > 1
    ]
    names = ["so many or more", "sets with a count or a bound", "certainly", "possibly"]
    spans = ["most likely share", "chance and bounds allow"]
    return pd.DataFrame(rows, columns=[*names, *spans], dtype="str")


def _reach(row: Mapping[Hashable, Any]) -> str:
    if pd.isna(row["low"]) or pd.isna(row["high"]):
        return ""
    return span_in_words(row["low"], row["high"], bool(row["few"]))
