"""Says in plain sentences whether two features went together, in counts of sets."""

import pandas as pd

from buttonstudy.study.telling.words import count, field_label, number_of, term_label

__all__ = ["association_findings", "association_sentence"]


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


def association_findings(table: pd.DataFrame, field: str, by: str) -> list[str]:
    """Say the pairs whose interval leaves out 1, and how many were looked at.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.comparison.association.associations` gives it.
    field, by
        The fields that it was asked for.
    """
    if table.empty:
        return [f"No set was examined both for {field_label(field)} and for {field_label(by)}."]
    estimable = table[table["odds_ratio"].notna()]
    apart = estimable[(estimable["low"] > 1) | (estimable["high"] < 1)]
    looked = number_of(len(estimable), "pair")
    said = [association_sentence(row, field, by) for _, row in apart.iterrows()]
    if len(estimable) == 0:
        return [association_sentence(table.iloc[0], field, by)]
    if not said:
        return [
            f"None of the {looked} of {field_label(field)} and {field_label(by)} that could be "
            f"looked at goes together more than chance allows; the intervals say how strong a tie "
            f"may still be hidden."
        ]
    chance = f"of {looked} looked at, about 1 in 20 would stand apart by chance"
    return [*said, f"{chance[0].upper()}{chance[1:]}."]


def _odds(row: pd.Series) -> str:
    ratio = f"The odds are {_times(row['odds_ratio'])} times as high there"
    low, high = row["low"], row["high"]
    if pd.isna(low) and pd.isna(high):
        return f"{ratio}; so few sets do not say how sure that is."
    if pd.isna(high):
        return f"{ratio}; so many sets allow anything from {_times(low)} times upwards."
    if pd.isna(low):
        return f"{ratio}; so many sets allow anything up to {_times(high)} times."
    return f"{ratio}; so many sets allow anything from {_times(low)} to {_times(high)} times."


def _times(ratio: float) -> str:
    return f"{ratio:.1f}" if ratio >= 1 else f"{ratio:.2f}"
