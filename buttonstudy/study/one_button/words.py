"""Says in plain sentences what the survey tells about one button."""

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.one_button.nested import LINKED
from buttonstudy.study.one_button.resemblance import Nearest
from buttonstudy.study.telling.words import (
    as_common_as,
    count,
    listed,
    number_of,
    per_cent,
    range_of,
    term_label,
)

__all__ = [
    "lacking_sentence",
    "nearest_sentence",
    "nested_sentence",
    "rarity_findings",
    "rarity_sentence",
    "size_among_sentence",
]

_LACKING_NAMED = 3


def rarity_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.one_button.rarity.trait_rarity`.

    Examples
    --------
    >>> rarity_sentence(pd.Series({"label": "Hole fill", "term": "felt", "period": "all periods",
    ...     "examined": 41, "with_term": 0, "low": 0.0, "high": 0.09, "at_most": 0.071,
    ...     "few": False, "may_belong": 41, "may_belong_with": 0}))
    'Hole fill “felt”: not seen before in the 41 other sets examined; at most 7 % with 95 % ...'
    """
    named = f"{row['label']} “{term_label(str(row['term']))}”"
    place = "" if row["period"] == ALL_PERIODS else f" dated wholly to {row['period']}"
    others = f"{number_of(row['examined'], 'other set')} examined{place}"
    sure = f"{limit('confidence'):.0f} % confidence"
    if row["examined"] <= 0:
        return f"{named}: no other set{place} was examined for it."
    if row["with_term"] <= 0:
        most = (
            as_common_as(row["examined"]) if row["few"] else f"at most {per_cent(row['at_most'])}"
        )
        return f"{named}: not seen before in the {others}; {most} with {sure}."
    first = f"{named}: {count(row['with_term'])} of the {others} {_has(row['with_term'])} it"
    if row["few"]:
        return f"{first}; too few sets for a percentage."
    return f"{first}; so many sets allow anything from {range_of(row['low'], row['high'])}."


def rarity_findings(table: pd.DataFrame, n_told: int = 5) -> list[str]:
    """Say the rarest traits of a record over all periods, and how many more there are.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.rarity.trait_rarity` gives it.
    n_told
        Most traits told.
    """
    whole = table[(table["period"] == ALL_PERIODS) & (table["examined"] > 0)]
    if whole.empty:
        return ["No trait of this record was examined on any other set of the survey."]
    ordered = whole.sort_values(["share", "examined"], ascending=[True, False], kind="stable")
    said = [rarity_sentence(row) for _, row in ordered.head(n_told).iterrows()]
    more = len(ordered) - n_told
    if more > 0:
        said.append(f"More usual than these: {number_of(more, 'further trait')} of this record.")
    return [*said, "Traits go together, so that their rarities must not be multiplied."]


def size_among_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.one_button.rarity.size_among`."""
    place = "in this survey" if row["period"] == ALL_PERIODS else f"dated to {row['period']}"
    size = f"{row['label']} {row['size_mm']:.4g} mm"
    if row["sets"] <= 0:
        return f"{size}: no other set {place} has this size measured."
    others = f"{number_of(row['sets'], 'other set')} {place}"
    if row["few"]:
        smaller = count(row["smaller"] * row["sets"])
        return f"{size}: {smaller} of {others} would be smaller; too few to say more."
    return (
        f"{size}: among {others}, {per_cent(row['smaller'])} are smaller (half are smaller than "
        f"{row['median_mm']:.1f} mm); with its reading and so many sets anything from "
        f"{range_of(row['low'], row['high'])}."
    )


def nearest_sentence(nearest: Nearest) -> str:
    """Say what the nearest records are, or why there are none."""
    fewest = int(limit("resemblance-fewest-fields"))
    if nearest.sets == 0:
        return "There is no other set to compare it with."
    if nearest.examined < fewest:
        return (
            f"Only {number_of(nearest.examined, 'field')} of this record can be compared, and "
            f"records are called alike by {fewest} at least."
        )
    if nearest.table.empty:
        return (
            f"None of the {number_of(nearest.sets, 'other set')} was examined for {fewest} of the "
            f"same fields, so that none can be called alike."
        )
    first = nearest.table.iloc[0]
    differs = f"they differ in {first['differs']}" if first["differs"] else "they agree in all"
    lost = ""
    if nearest.too_little:
        share = f"{number_of(nearest.too_little, 'set')} of {nearest.sets:,}"
        lost = f" {share} could not be compared, too few of the same fields being examined."
    return (
        f"The nearest of {number_of(nearest.sets, 'other set')} is {_named(first)}: of "
        f"{number_of(first['compared'], 'field')} examined on both, {differs}.{lost}"
    )


def lacking_sentence(table: pd.DataFrame) -> str:
    """Say which of the fields that a record lacks would tell most.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.lacking.lacking_fields` gives it.
    """
    if table.empty:
        return "Every field that is compared was examined on this button."
    telling = table[table["would_tell"] > 0].head(_LACKING_NAMED)
    if telling.empty:
        return "What this record lacks, no other record of the survey can be compared in."
    named = listed(str(label).lower() for label in telling["label"])
    inside = listed(str(label).lower() for label in telling.loc[telling["inside"], "label"])
    first = f"Of what this record lacks, {named} would tell most, since sets differ in it."
    if not inside:
        return first
    return (
        f"{first} To see {inside} the button must be open: look if it already is, and leave one "
        f"that is whole to a conservator."
    )


def nested_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.one_button.nested.nested_records`."""
    if pd.isna(row["outer"]):
        return f"{row['inner_id']} was found inside “{row['wording']}”, which {row['finding']}."
    first = f"{row['inner_id']} was found inside {row['outer_id']}"
    if row["finding"] != LINKED:
        return f"{first}: {row['finding']}."
    if pd.isna(row["outer_not_before"]):
        return f"{first}, whose cover cannot be earlier than it."
    return f"{first}, whose cover so cannot be earlier than {row['outer_not_before']}."


def _has(number: float) -> str:
    return "has" if number == 1 else "have"


def _named(row: pd.Series) -> str:
    name = row["button_id"] or "a record without a number"
    return f"{name} of set {row['set_id']}" if row["set_id"] else str(name)
