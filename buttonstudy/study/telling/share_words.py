"""What a table of shares says: who was examined first, then the terms, then what is not known.

Counts come before percentages, and below the limit of few sets there are only counts. What the
sets without an answer could change is said once, for all sets, beside the shares themselves.
"""

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.holes import moulds_with_holes
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.telling.commonest import alike_most, commonest_words
from buttonstudy.study.telling.words import (
    NOTHING,
    count,
    field_label,
    in_survey,
    listed,
    number_of,
    per_cent,
    range_of,
    term_label,
)

__all__ = ["crossed_findings", "hole_findings", "share_findings"]

_NO_ANSWER = {"not_examined": "not examined", "unclear": "unclear", "not_recorded": "not recorded"}


def share_findings(table: pd.DataFrame, field: str) -> list[str]:
    """Say how many sets were examined, their commonest terms, and each period's commonest.

    Parameters
    ----------
    table
        From `shares_by_period`.
    field
        The field that it was asked for.
    """
    whole = table[table["kind"] == "all"]
    label = field_label(field)
    if whole.empty or not (whole["examined"] > 0).any():
        return [f"No set was examined for {label}, so nothing can be said of it."]
    common = whole[whole["with_term"] > NOTHING]
    common = common.sort_values("with_term", ascending=False, kind="stable").head(
        int(limit("terms-told"))
    )
    told = [_examined(whole.iloc[0], field), _commonest_terms(common), _bounds(common)]
    found = table[(table["kind"] == "period") & (table["examined"] > NOTHING)]
    commonest = [
        f"{period}, {_commonest(group)}"
        for period, group in found.groupby("period", sort=False)
        if group["with_term"].max() >= 1 and _enough(group)
    ]
    if commonest:
        every = len(commonest) == found["period"].nunique()
        which = "each period" if every else "each period with enough"
        told.append(f"Commonest among the examined sets of {which}: {'; '.join(commonest)}.")
    return [sentence for sentence in told if sentence]


def crossed_findings(table: pd.DataFrame, field: str, by: str) -> list[str]:
    """Say the commonest term of one field in each group of another.

    Parameters
    ----------
    table
        From `shares_crossed`.
    field, by
        The fields that it was asked for.
    """
    groups = table[(table["kind"] == "group") & (table["with_term"] > 0)]
    label, other = field_label(field), field_label(by)
    if groups.empty:
        return [f"No set was examined for both {label} and {other}, so they cannot be compared."]
    one_term = table[table["term"] == table["term"].iloc[0]]
    sets = one_term.loc[one_term["kind"] == "all", "sets"].sum()
    examined = one_term.loc[one_term["kind"] == "group", "examined"].sum()
    told = [
        f"“{term_label(str(name))}”: {_crossed(group)}"
        for name, group in groups.groupby("group", sort=False)
        if _enough(group)
    ]
    return [
        f"Of {number_of(sets, 'set')} {in_survey(field)}, {count(examined)} were examined for both "
        f"{label} and {other}.",
        f"The commonest {label} by {other}: {'; '.join(told)}."
        if told
        else f"Of no {other} are there enough sets to say which {label} is the commonest.",
    ]


def hole_findings(buttons: pd.DataFrame) -> list[str]:
    """Say how many sets are left out because there was nothing to fill.

    A set with both kinds of mould is not left out whole, and is not counted here.
    """
    keys = set_keys(buttons)
    kept = moulds_with_holes(buttons.assign(_key=keys.to_numpy()))
    gone = keys.nunique() - kept["_key"].nunique()
    if not gone:
        return ["No mould is noted as without a hole, so that all sets are looked at."]
    were = "was" if gone == 1 else "were"
    return [
        f"{number_of(gone, 'set')} whose mould has no hole {were} left out below: there was "
        "nothing to fill. Sets of which nobody could see the mould stay among those without an "
        "answer."
    ]


def _examined(row: pd.Series, field: str) -> str:
    label = field_label(field)
    first = (
        f"Of {number_of(row['sets'], 'set')} {in_survey(field)}, {count(row['examined'])} "
        f"{'was' if row['examined'] == 1 else 'were'} examined for {label}"
    )
    missing = [
        f"{count(row[name])} {why}" for name, why in _NO_ANSWER.items() if row[name] > NOTHING
    ]
    return f"{first}; the others have no answer ({listed(missing)})." if missing else f"{first}."


def _commonest_terms(rows: pd.DataFrame) -> str:
    if rows.empty:
        return ""
    few = bool(rows["few"].iloc[0])
    told = []
    for place, (_, row) in enumerate(rows.iterrows()):
        had = f"{count(row['with_term'])}{' had' if place == 0 else ''} {_term(row)}"
        told.append(had if few else f"{had} ({_share(row, spelt=place == 0)})")
    ending = ": too few sets for percentages." if few else "."
    return f"Of the {count(rows['examined'].iloc[0])} examined, {listed(told)}{ending}"


def _bounds(rows: pd.DataFrame) -> str:
    """Say what the sets without an answer could change."""
    if rows.empty or rows["few"].any() or (rows["sets"] - rows["examined"]).max() < NOTHING:
        return ""
    told = [f"{_term(row)} {range_of(row['if_none'], row['if_all'])}" for _, row in rows.iterrows()]
    return (
        "Of all sets, with and without an answer, the share could be anything within these "
        f"bounds: {listed(told)}."
    )


def _crossed(group: pd.DataFrame) -> str:
    """Name a group's commonest term, with its share if there are enough sets and no tie."""
    places = alike_most(group["with_term"].tolist())
    row = group.iloc[places[0]]
    if len(places) > 1 or row["few"]:
        return _commonest(group, number_of(row["examined"], "set"))
    counts = f"{count(row['with_term'])} of {number_of(row['examined'], 'set')}"
    return f"{_term(row)} ({counts}; {_share(row, spelt=True)})"


def _share(row: pd.Series, *, spelt: bool) -> str:
    interval = "95 % interval " if spelt else ""
    return f"{per_cent(row['share'])}, {interval}{range_of(row['low'], row['high'])}"


def _enough(group: pd.DataFrame) -> bool:
    """Say whether so many sets were examined that the commonest among them is worth telling."""
    return bool(group["examined"].max() >= limit("commonest-fewest-examined") - NOTHING)


def _commonest(group: pd.DataFrame, of: str = "") -> str:
    """Name a group's commonest terms with their count, of the sets examined."""
    names = [_term(row) for _, row in group.iterrows()]
    examined = of or count(float(group["examined"].iloc[0]))
    return commonest_words(names, group["with_term"].tolist(), examined)


def _term(row: pd.Series) -> str:
    return f"“{term_label(str(row['term']))}”"
