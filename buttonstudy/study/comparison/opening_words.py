"""Says in plain sentences whether opened sets differ, and shares with opening allowed for."""

import pandas as pd

from buttonstudy.study.comparison.phrases import none_or_count, possible_span, trait_name
from buttonstudy.study.telling.words import count, field_label, in_tenths, number_of, per_cent

__all__ = ["opened_sentence", "reweighted_sentence"]


def reweighted_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.shares.reweighted.reweighted_shares`."""
    name = trait_name(row)
    if not row["examined"]:
        return f"No set in this survey was examined for {field_label(row['field'])}."
    first = (
        f"Of {number_of(row['examined'], 'examined set')} in this survey, "
        f"{none_or_count(row['with_term'])} had {name}."
    )
    if row["why"]:
        return f"{first} {row['why']} {_of_others(row)}"
    share = in_tenths(row["estimate"]) if row["few"] else per_cent(row["estimate"])
    return (
        f"{first} With each visible kind counted by how many sets of it there are, not by how many "
        f"were examined, the share of all {number_of(row['sets'], 'set')} is most likely {share}; "
        f"{possible_span(row, 'low', 'high')} is possible."
    )


def opened_sentence(table: pd.DataFrame) -> str:
    """Say a table of :func:`buttonstudy.study.shares.opening.opened_compared`."""
    if table.empty:
        return "Opened and unopened sets cannot be compared: this survey does not have both."
    differing = table[table["differs"]]
    if differing.empty:
        return (
            f"Opened and unopened sets were compared in {number_of(len(table), 'visible trait')}; "
            "no difference is larger than chance would make. Some may be there all the same."
        )
    largest = differing.iloc[int(differing["difference"].abs().to_numpy().argmax())]
    return (
        f"Opened and unopened sets differ in {len(differing)} of "
        f"{number_of(len(table), 'visible trait')}, most in {trait_name(largest)}: "
        f"{count(largest['opened_with'])} of {number_of(largest['opened'], 'opened set')} against "
        f"{count(largest['unopened_with'])} of {number_of(largest['unopened'], 'unopened set')}. "
        "What the opened sets hold cannot stand for all sets without being reweighted."
    )


def _of_others(row: pd.Series) -> str:
    """Say the share of the sets of which something was examined, and the range for all."""
    share = row["covered_estimate"]
    told = in_tenths(share) if row["few"] else per_cent(share)
    return (
        f"Of the other {number_of(row['covered'], 'set')} most likely {told} have it; the share of "
        f"all sets may be {possible_span(row, 'low', 'high')}."
    )
