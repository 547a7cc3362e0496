"""The one-button tables in the form in which a person reads them: counts and shares in words."""

import pandas as pd

from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.telling.words import count, per_cent, range_of, term_label

__all__ = ["lacking_in_words", "rarity_in_words", "size_among_in_words"]


def size_among_in_words(sizes: pd.DataFrame) -> pd.DataFrame:
    """Word where a record's size lies, one row for all periods and for each of its own.

    Parameters
    ----------
    sizes
        As :func:`buttonstudy.study.one_button.rarity.size_among` gives it.

    Returns
    -------
    DataFrame
        ``period``, ``other sets``, ``half are smaller than`` and ``smaller than this button``;
        where sets are few only the count of smaller ones.
    """
    rows = []
    for row in sizes.to_dict("records"):
        smaller, median = "", ""
        if row["few"]:
            smaller = (
                f"{count(round(row['smaller'] * row['sets'], 4))} of them"
                if row["sets"] > 0
                else ""
            )
        else:
            median = f"{row['median_mm']:.1f} mm"
            smaller = f"{per_cent(row['smaller'])} ({range_of(row['low'], row['high'])})"
        rows.append((row["period"], count(row["sets"]), median, smaller))
    names = ["period", "other sets", "half are smaller than", "smaller than this button"]
    return pd.DataFrame(rows, columns=names, dtype="str")


def rarity_in_words(rarity: pd.DataFrame) -> pd.DataFrame:
    """Set all periods and the record's own side by side, one row for each of its traits.

    Parameters
    ----------
    rarity
        As :func:`buttonstudy.study.one_button.rarity.trait_rarity` gives it.

    Returns
    -------
    DataFrame
        ``field``, ``term``, and a column for all periods and for each period: the other sets with
        the trait, of those examined; and where there are enough the exact interval, or where none
        has it how common it may still be.

    Examples
    --------
    >>> row = {"label": "Hole fill", "term": "felt", "period": "all periods", "examined": 41,
    ...        "with_term": 0, "low": 0.0, "high": 0.09, "at_most": 0.071, "few": False}
    >>> rarity_in_words(pd.DataFrame([row])).iloc[0].to_list()
    ['Hole fill', 'felt', 'none of 41; at most 7 %']
    """
    told = pd.DataFrame(
        {
            "field": rarity["label"].astype("str"),
            "term": [term_label(str(term)) for term in rarity["term"]],
            "period": rarity["period"].astype("str"),
            "words": [_shared(row) for _, row in rarity.iterrows()],
        }
    )
    if told.empty:
        return told[["field", "term"]].assign(**{ALL_PERIODS: ""})
    wide = told[["field", "term"]].drop_duplicates().reset_index(drop=True)
    for period, rows in told.groupby("period", sort=False):
        wide = wide.merge(rows.rename(columns={"words": str(period)}).drop(columns="period"))
    return wide


def lacking_in_words(lacking: pd.DataFrame) -> pd.DataFrame:
    """Word what a record lacks, with how many of the other sets were examined for it.

    Parameters
    ----------
    lacking
        As :func:`buttonstudy.study.one_button.lacking.lacking_fields` gives it.

    Returns
    -------
    DataFrame
        ``field``, ``in this record``, ``other sets examined`` and ``seen when``.
    """
    seen = ["opened" if inside else "closed or opened" for inside in lacking["inside"]]
    return pd.DataFrame(
        {
            "field": lacking["label"],
            "in this record": lacking["state"],
            "other sets examined": [
                f"{count(one)} of {count(of)}"
                for one, of in zip(lacking["examined"], lacking["sets"])
            ],
            "seen when": seen,
        },
        dtype="str",
    )


def _shared(row: pd.Series) -> str:
    if row["examined"] <= 0:
        return "not examined"
    if row["with_term"] <= 0:
        most = "" if row["few"] else f"; at most {per_cent(row['at_most'])}"
        return f"none of {count(row['examined'])}{most}"
    first = f"{count(row['with_term'])} of {count(row['examined'])}"
    return first if row["few"] else f"{first} ({range_of(row['low'], row['high'])})"
