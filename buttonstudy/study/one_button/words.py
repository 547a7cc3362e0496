"""Says in plain sentences what the survey tells about one button."""

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit, units
from buttonstudy.study.evidence.dating import ALL_PERIODS
from buttonstudy.study.one_button.nested import LINKED, TOO_EARLY
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
    "nested_findings",
    "nested_sentence",
    "rarity_findings",
    "rarity_sentence",
    "size_among_findings",
    "size_among_sentence",
]


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
    reach = range_of(row["low"], row["high"])
    return f"{first}; with {number_of(row['examined'], 'set')}, anything from {reach} is possible."


def rarity_findings(table: pd.DataFrame, n_told: int = 5) -> list[str]:
    """Say which traits of a record were not seen before, its rarest others, and how many more.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.rarity.trait_rarity` gives it.
    n_told
        Most traits told of those that were seen before.
    """
    whole = table[(table["period"] == ALL_PERIODS) & (table["examined"] > 0)]
    if whole.empty:
        return ["No trait of this record was examined on any other set of the survey."]
    ordered = whole.sort_values(["share", "examined"], ascending=[True, False], kind="stable")
    new, known = ordered[ordered["with_term"] <= 0], ordered[ordered["with_term"] > 0]
    told = pd.concat([new, known.head(n_told)])
    said = [rarity_sentence(row) for _, row in told.iterrows()]
    more = len(ordered) - len(told)
    if more > 0:
        said.append(f"More usual than these: {number_of(more, 'further trait')} of this record.")
    said += _new_in_period(table, set(zip(new["field"], new["term"])))
    return [*said, "Traits go together, so that their rarities must not be multiplied."]


def _new_in_period(table: pd.DataFrame, new: set[tuple[str, str]]) -> list[str]:
    """Say what other sets have, but none that is dated wholly to a period of the record."""
    rows = table[(table["period"] != ALL_PERIODS) & (table["examined"] > 0)]
    rows = rows[rows["with_term"] <= 0]
    traits = zip(rows["field"], rows["term"])
    known = np.array([trait not in new for trait in traits], dtype=bool)  # also of no rows
    said = []
    for period, group in rows[known].groupby("period", sort=False):
        named = listed(
            f"{str(row['label']).lower()} “{term_label(str(row['term']))}” "
            f"(none of {count(row['examined'])})"
            for row in group.to_dict("records")
        )
        said.append(
            f"Seen before, but on no other set examined that is dated wholly to {period}: {named}."
        )
    return said


def size_among_findings(table: pd.DataFrame) -> list[str]:
    """Say where a record's size lies among all sets, and among those of its periods.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.rarity.size_among` gives it.
    """
    if table.empty:
        return ["This record has no diameter, so that none can be set beside it."]
    first, others = table.iloc[0], table.iloc[1:]
    few = others["few"].astype(bool)
    told = [size_among_sentence(first)]
    told += [f"{_capital(_among(row))}." for _, row in others[~few].iterrows()]
    if few.any() and not first["few"]:
        named = listed(
            f"{row['period']} ({number_of(row['sets'], 'set')})"
            for _, row in others[few].iterrows()
        )
        told.append(f"Too few sets to say more of its periods: {named}.")
    return told


def size_among_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.one_button.rarity.size_among`."""
    lines = row["size_mm"] / float(units()["lines"])
    return f"{row['label']} {row['size_mm']:.4g} mm ({lines:.1f} lines): {_among(row)}."


def _among(row: pd.Series) -> str:
    place = "in this survey" if row["period"] == ALL_PERIODS else f"dated to {row['period']}"
    if row["sets"] <= 0:
        return f"no other set {place} has this size measured"
    others = f"{number_of(row['sets'], 'other set')} {place}"
    if row["few"]:
        smaller = count(round(row["smaller"] * row["sets"], 4))
        return f"{smaller} of {others} smaller; too few to say more"
    return (
        f"among {others}, {per_cent(row['smaller'])} are smaller (half are smaller than "
        f"{row['median_mm']:.1f} mm); with its reading and these sets, anything from "
        f"{range_of(row['low'], row['high'])} is possible"
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
        others = f"None of the {number_of(nearest.sets, 'other set')} was"
        if nearest.sets == 1:
            others = "The one other set was not"
        return (
            f"{others} examined for {fewest} of the same fields, so that none can be called alike."
        )
    first = nearest.table.iloc[0]
    alike = len(first["agrees"].split("; ")) if first["agrees"] else 0
    differs = "they agree in all"
    if first["differs"]:
        differs = f"they agree in {alike}, and differ in {first['differs']}"
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
    telling = table[table["would_tell"] > 0].head(int(limit("lacking-told")))
    if telling.empty:
        return "No other record of the survey answers what this one lacks."
    named = listed(str(label).lower() for label in telling["label"])
    inside = listed(str(label).lower() for label in telling.loc[telling["inside"], "label"])
    them = "it" if len(telling) == 1 else "them"
    first = f"Of what this record lacks, {named} would tell most, since sets differ in {them}."
    if not inside:
        return first
    return (
        f"{first} To see {inside} the button must be open: look if it already is, and leave one "
        f"that is whole to a conservator."
    )


def nested_findings(table: pd.DataFrame, row: int) -> list[str]:
    """Say in what a button was found, and what was found in it.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.one_button.nested.nested_records` gives it.
    row
        The record's place.
    """
    own = table[(table["inner"] == row) | (table["outer"] == row).fillna(False)]
    if own.empty:
        return ["Nothing says that this button lay inside another, or another inside it."]
    return [nested_sentence(found) for _, found in own.iterrows()]


def nested_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.one_button.nested.nested_records`."""
    if pd.isna(row["outer"]):
        return f"{row['inner_id']} was found inside “{row['wording']}”, which {row['finding']}."
    first = f"{row['inner_id']} was found inside {row['outer_id']}"
    if row["finding"] == TOO_EARLY:
        return (
            f"{first}; but {row['outer_id']} is dated to {row['outer_to']} at the latest and "
            f"{row['inner_id']} to {row['inner_from']} at the earliest. A cover cannot be earlier "
            f"than what lies inside it: one of the dates, or the link, is wrong."
        )
    if row["finding"] != LINKED:
        return f"{first}: {row['finding']}."
    if pd.isna(row["outer_not_before"]):
        return f"{first}, whose cover cannot be earlier than it."
    return f"{first}, whose cover so cannot be earlier than {row['outer_not_before']}."


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def _has(number: float) -> str:
    return "has" if number == 1 else "have"


def _named(row: pd.Series) -> str:
    name = row["button_id"] or "a record without a number"
    own = f"{name} of set {row['set_id']}" if row["set_id"] else str(name)
    return f"{own} in {row['file']}" if row["file"] else own
