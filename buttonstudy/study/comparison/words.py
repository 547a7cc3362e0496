"""Says estimates and comparisons in sentences: how large, in counts, and how sure.

Three kinds of not knowing stay on three lines. A difference is told as counts of sets first, then
as a share with what else is possible, then as what shuffling the answers made of it. Where it
may be chance, the sentence says what difference could still be there, since not finding one is
not finding that there is none (Altman & Bland 1995, British Medical Journal 311:485).
"""

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.chosen import CHANCE
from buttonstudy.study.comparison.phrases import (
    capital,
    none_or_count,
    possible_span,
    trait_name,
)
from buttonstudy.study.comparison.tens import furthest_of_ten, possible_of_ten
from buttonstudy.study.telling.words import (
    NOTHING,
    count,
    field_label,
    in_ten,
    number_of,
    per_cent,
)

__all__ = [
    "comparison_sentence",
    "difference_sentence",
    "estimate_lines",
]

_NO_DATE = "without a date that can be placed"  # none, or one with an open end


def estimate_lines(row: pd.Series) -> tuple[str, str, str]:
    """Say one row of :func:`buttonstudy.study.shares.latent.estimated_shares` on three lines.

    Returns
    -------
    tuple of str
        What chance allows, what the sets without an answer could hide, what wide dates leave
        open. The second and third are empty where there is no estimate, the third also for all
        periods.
    """
    name = trait_name(row)
    every = row["kind"] == "all"
    place = "in this survey" if every else f"in this survey dated to {row['period']}"
    if pd.isna(row["estimate"]):
        return _nothing(row, place), "", ""
    if every:
        seen = f"Of {number_of(row['examined'], 'examined set')} {place}"
        first = f"{seen}, {none_or_count(row['with_term'])} had {name}"
    else:
        firm = number_of(row["dated_within"], "examined set")
        first = f"Of {firm} in this survey dated wholly within {row['period']}, "
        first += f"{none_or_count(row['with_term_within'])} had {name}"
    held = f"{number_of(row['examined'], 'set')}" if every else "the sets dated as they are"
    chance = f"{first}; with {held}, a share of {possible_span(row, 'low', 'high')} is possible."
    return chance, _hidden(row), "" if every else _dating(row)


def comparison_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.comparison.periods.compare_periods`.

    Returns
    -------
    str
        How large, in counts and shares; how sure; what else could lie behind it.
    """
    if row["why"]:
        name, why = capital(trait_name(row)), str(row["why"])
        if pd.isna(row["shuffles"]):
            return f"{name}: periods cannot be compared. {why}"
        return f"{name}: {why[:1].lower()}{why[1:]} {_sure(row)}"
    parts = [_how_large(row), _sure(row)]
    if row["sureness"] == CHANCE:
        parts.append(_still_open(row))
    elif row["warning"]:
        parts.append(str(row["warning"]))
    return " ".join(parts)


def difference_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.comparison.differences.differences_between`."""
    if row["why"]:
        return f"{capital(trait_name(row))}: the periods cannot be compared. {row['why']}"
    return _how_large(row)


def _nothing(row: pd.Series, place: str) -> str:
    """Say a row that has no estimate."""
    if row["kind"] == "period" or not row["examined"]:
        where = place if row["kind"] == "period" else f"{row['period']} the periods"
        where = _NO_DATE if row["kind"] == "undated" else where
        return f"No set {where} was examined for {field_label(str(row['field']))}."
    which = _NO_DATE if row["kind"] == "undated" else "dated outside the periods"
    return f"{capital(number_of(row['examined'], 'examined set'))} {which}: of no use to a period."


def _hidden(row: pd.Series) -> str:
    if row["without_answer"] <= NOTHING:
        return "Every one of these sets has a clear answer."
    unknown = capital(number_of(row["without_answer"], "set"))
    if row["few"]:
        span = in_ten(row["if_none"], row["if_all"])
        return f"{unknown} without a clear answer could make that share anything from {span}."
    return (
        f"{unknown} without a clear answer could make that share anything from "
        f"{per_cent(row['if_none'])}, if none of them had it, to {per_cent(row['if_all'])}, if all "
        "of them had."
    )


def _dating(row: pd.Series) -> str:
    if not row["told_apart"]:
        return str(row["why"])
    if row["dating_high"] - row["dating_low"] < NOTHING:
        return "The dates of these sets leave nothing open."
    span = possible_span(row, "dating_low", "dating_high")
    if " to " not in span:
        return f"The true years of the sets with wide dates hardly move the share: it stays {span}."
    return (
        f"The true years of the sets with wide dates could make the share {span} among these very "
        "sets."
    )


def _how_large(row: pd.Series) -> str:
    """Give the counts, then the difference; by the estimate first where hardly any are firm."""
    if min(row["earlier_sets"], row["later_sets"]) >= limit("pair-fewest-dated"):
        if row.get("method") == "Newcombe":  # every set is dated within: the counts say it all
            return f"{_two_counts(row)} {_size(row)}"
        wide = "Estimated from all sets, those with wide dates included:"
        return f"{_two_counts(row)} {wide} {_size(row, 'of')}"
    firm = f"{row['earlier_sets']} and {row['later_sets']} examined sets"
    return (
        f"{capital(trait_name(row))}, {row['earlier']} and {row['later']}: by the estimate, "
        f"{_size(row, 'of').removesuffix('.')}; only {firm} are dated wholly within these periods."
    )


def _two_counts(row: pd.Series) -> str:
    """Give the two periods' firmly dated counts."""
    earlier, later = (none_or_count(row[f"{end}_with_term"]) for end in ("earlier", "later"))
    return (
        f"Of {number_of(row['earlier_sets'], 'examined set')} in this survey dated wholly within "
        f"{row['earlier']}, {earlier} had {trait_name(row)}; of {count(row['later_sets'])} within "
        f"{row['later']}, {later}."
    )


def _size(row: pd.Series, begin: str = "Of") -> str:
    """Give the difference of the estimated shares, with what is possible."""
    allowed = possible_of_ten(row["low"], row["high"])
    tens = round(10 * row["difference"])
    if not tens:
        first = f"{begin} every 10 sets about as many had it in both"
    else:
        number = f"about {abs(tens)} {'more' if tens > 0 else 'fewer'}"
        first = f"{begin} every 10 sets {number} had it in {row['later']}"
        if row.get("sureness") == CHANCE:
            that = "That is " if begin == "Of" else ""
            first = f"{that}{number} of every 10 sets in {row['later']}"
    return f"{first} (with the sets dated as they are, {allowed} is possible)."


def _sure(row: pd.Series) -> str:
    often = f"{row['as_large']:,}" if row["as_large"] else "none"
    shuffled = (
        "The answers were shuffled among the sets: chance alone made the periods differ as much "
        f"in {often} of {row['shuffles']:,} shuffles"
    )
    if row["as_large"] >= limit("shuffles-enough"):
        shuffled += ", where shuffling stopped, since that is often enough to judge by"
    together = (
        f"; {number_of(row['traits_together'], 'trait')} were looked at together"
        if row["traits_together"] > 1
        else ""
    )
    judged = {
        "clear": "it is clear that periods differ",
        "likely": "it is likely that periods differ",
        CHANCE: "this may be chance",
    }
    return f"{shuffled}{together}: {judged[str(row['sureness'])]}."


def _still_open(row: pd.Series) -> str:
    return (
        "That is no proof that periods are alike: a difference of up to "
        f"{furthest_of_ten(row['low'], row['high'])} could still be there."
    )
