"""What the comparison of periods tells: a few traits in full, then how many others there were.

Only the surest traits get sentences of their own. The rest are named together, so that a reader
sees what was looked at and is not led to pick from it.
"""

from collections.abc import Sequence

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.chosen import SURE
from buttonstudy.study.comparison.opening_words import reweighted_sentence
from buttonstudy.study.comparison.turning_words import turning_sentence
from buttonstudy.study.comparison.words import (
    comparison_sentence,
    difference_sentence,
    estimate_lines,
)
from buttonstudy.study.telling.words import (
    count,
    field_label,
    listed,
    number_of,
    per_cent,
    range_of,
    some_of,
    term_label,
)

__all__ = [
    "comparison_findings",
    "difference_findings",
    "recorder_findings",
    "reweighted_findings",
    "turning_findings",
    "uncertainty_lines",
]


def uncertainty_lines(estimates: pd.DataFrame) -> tuple[str, str, str]:
    """Say the first trait's share in all periods and in the two best known, on three lines.

    Parameters
    ----------
    estimates
        As :func:`buttonstudy.study.shares.latent.estimated_shares` gives it, the surest trait
        first.

    Returns
    -------
    tuple of str
        What chance allows, what the sets without an answer could hide, what wide dates leave
        open; each begins by saying which it is.
    """
    if estimates.empty:
        nothing = "There is no trait to tell of."
        return f"Chance. {nothing}", f"Not examined. {nothing}", f"Dating. {nothing}"
    first = estimates.iloc[0]
    rows = estimates[(estimates["field"] == first["field"]) & (estimates["term"] == first["term"])]
    periods = rows[(rows["kind"] == "period") & rows["estimate"].notna()]
    best = periods.nlargest(2, "worth").sort_index()
    every = estimate_lines(rows[rows["kind"] == "all"].iloc[0])
    told = [estimate_lines(row) for _, row in best.iterrows()]
    chance = " ".join([f"Chance. {every[0]}", *(lines[0] for lines in told)])
    hidden = f"Not examined. {every[1] or 'No set has a clear answer.'}"
    named = [f"{row['period']}: {lines[2]}" for (_, row), lines in zip(best.iterrows(), told)]
    return chance, hidden, " ".join(["Dating.", *(named or ["No period can be told of."])])


def comparison_findings(comparison: pd.DataFrame) -> list[str]:
    """Say the surest differences in full, then how many traits showed none.

    A trait whose two periods cannot be told comes after those that can.

    Parameters
    ----------
    comparison
        As :func:`buttonstudy.study.comparison.periods.compare_periods` gives it, the surest
        first.
    """
    if comparison.empty:
        return ["No trait was compared."]
    most = int(limit("traits-told"))
    comparison = comparison.sort_values("why", key=lambda why: why != "", kind="stable")
    sure = comparison[comparison["sureness"].isin(SURE)]
    told = [comparison_sentence(row) for _, row in sure.head(1).iterrows()]
    told += [_as_well(row) for _, row in sure.iloc[1:most].iterrows()]
    if len(sure) > most:
        told.append(f"It is clear or likely as well for {_list(sure.iloc[most:])}.")
    rest = comparison[~comparison["sureness"].isin(SURE)]
    chance, silent = rest[rest["sureness"] != ""], rest[rest["sureness"] == ""]
    if sure.empty:
        told = [_none_sure(len(comparison))]
        told.append(comparison_sentence((chance if len(chance) else silent).iloc[0]))
        chance, silent = chance.iloc[1:], silent if len(chance) else silent.iloc[1:]
    if len(chance):
        which = f"{number_of(len(chance), 'other trait')} ({_list(chance)})"
        told.append(
            f"In {which} chance alone may have made the differences, which is no proof that there "
            "are none."
        )
    if len(silent):
        told.append(f"Nothing can be compared for {_list(silent)}.")
    return told


def _none_sure(traits: int) -> str:
    if traits == 1:
        return "In the one trait it is not clear that periods differ."
    return f"In none of the {traits} traits is it clear that periods differ."


def _as_well(row: pd.Series) -> str:
    """Say a further sure difference, without the shuffles that the first one explains."""
    if row["why"]:
        return comparison_sentence(row)
    sure = f"{difference_sentence(row)} It is {row['sureness']} as well that periods differ."
    return f"{sure} {row['warning']}".strip()


def recorder_findings(comparison: pd.DataFrame) -> list[str]:
    """Say whether the differences could be between recorders, or between survey files."""
    known = comparison[comparison["difference"].notna() & comparison["sureness"].isin(SURE)]
    if known.empty:
        return ["There is no sure difference between periods that could be one between recorders."]
    layered = known[known["layer"] != ""]
    if layered.empty:
        return [
            "The survey names no two recorders and is of one file, so that nobody can tell whether "
            "a difference between periods is one between recorders."
        ]
    layer, warned = layered["layer"].iloc[0], layered[layered["warning"] != ""]
    held = layered[layered["warning"] == ""]
    unnamed = " (unnamed hands of one file count as one)" if layer == "recorder" else ""
    told = [
        f"For the traits in which periods surely differ, the same comparison was made among the "
        f"sets of each {layer} alone{unnamed}."
    ]
    firm = held["within_chance"].to_numpy(dtype=float) < limit("likely-chance")
    for rows, so in (
        (held[firm], f"and is more than chance gives there: it is not one between {layer}s alone"),
        (held[~firm], "though so few sets leave room for chance there"),
    ):
        if len(rows):
            told.append(
                f"For {_list(rows)} the difference goes the same way there, is at least half as "
                f"large, {so}."
            )
    for warning, rows in warned.groupby("warning", sort=False):
        told.append(f"For {_list(rows)}: {str(warning)[:1].lower()}{str(warning)[1:]}")
    return told


def difference_findings(differences: pd.DataFrame) -> list[str]:
    """Say the differences between two periods that are clear or likely and exclude nought.

    Parameters
    ----------
    differences
        As :func:`buttonstudy.study.comparison.chosen.as_compared` gives them.
    """
    if differences.empty:
        return [
            "No two periods can be told apart in most of the traits, so none are set side by side."
        ]
    known = differences[differences["low"].notna()]
    apart = known[known["sureness"].isin(SURE) & (known["low"] * known["high"] > 0)]
    ordered = apart.iloc[(-apart["difference"].abs()).argsort(kind="stable")]
    most = int(limit("traits-told"))
    told = [difference_sentence(row) for _, row in ordered.head(most).iterrows()]
    if len(ordered) > most:
        more = _list(ordered.iloc[most:])
        told.append(f"The interval lies wholly on one side of no difference for {more} as well.")
    if not told and len(known):
        told = [difference_sentence(known.iloc[0])]
    if not told:
        return [difference_sentence(differences.iloc[0])]
    alike = len(known) - len(ordered)
    if alike:
        told.append(
            f"For {number_of(alike, 'trait')} no difference at all is possible too, which with so "
            "few sets is no proof that the periods are alike."
        )
    return told


def turning_findings(turning: pd.DataFrame) -> list[str]:
    """Say in which years the surest traits came in or went out, then for which none is told."""
    if turning.empty:
        return [
            "In no trait is it clear or likely that periods differ, so that no year is asked for "
            "in which one came in or went out."
        ]
    told = turning[turning["told"].astype(bool)]
    most = int(limit("traits-told"))
    said = [turning_sentence(row) for _, row in told.head(most).iterrows()]
    if not said:
        said = [turning_sentence(turning.iloc[0])]
    more = told.iloc[most:]
    if len(more):
        years = listed(
            f"{_named(row)} {row['direction']} about {row['turning_year']:.0f}"
            for _, row in more.iterrows()
        )
        said.append(f"Also, with intervals in the table: {years}.")
    silent = turning[~turning["told"].astype(bool)].iloc[0 if len(told) else 1 :]
    if len(silent):
        said.append(f"No year can be told for {_list(silent)}.")
    return said


def reweighted_findings(kinds: Sequence[str], reweighted: pd.DataFrame) -> list[str]:
    """Say what reweighting makes of the shares over all periods.

    Parameters
    ----------
    kinds
        The visible kinds that sets were parted into.
    reweighted
        As :func:`buttonstudy.study.shares.reweighting.reweighted_estimates` gives it.
    """
    every = reweighted[reweighted["kind"] == "all"]
    if every.empty and len(set(kinds)) > 1:
        return [
            "All traits compared can be seen without opening a button, so that what was opened "
            "does not matter to their shares."
        ]
    if every.empty:
        return ["The shares stand as they are, without reweighting."]
    told = [f"Sets are parted by what they show outside: {listed(sorted(set(kinds)))}."]
    whole = every[every["estimate"].notna() & ~every["few"].astype(bool)]
    if len(whole):
        lead = (
            "With each kind counted by how many sets of it there are, not by how many were "
            "examined, the shares"
        )
        for sets, rows in whole.groupby("sets", sort=False):
            shares = "; ".join(_reweighted(row) for _, row in rows.iterrows())
            told.append(f"{lead} of all {sets:.0f} sets are most likely: {shares}.")
            lead = "The shares"
    others = every.drop(whole.index)
    return told + [reweighted_sentence(row) for _, row in others.iterrows()]


def _reweighted(row: pd.Series) -> str:
    examined = f"{count(row['with_term'])} of {count(row['examined'])} examined"
    reach = range_of(row["low"], row["high"])
    share = per_cent(row["estimate"])
    return f"{_named(row)} {share} ({examined}; {reach} is possible)"


def _named(row: pd.Series) -> str:
    return f"{field_label(str(row['field']))} “{term_label(str(row['term']))}”"


def _list(rows: pd.DataFrame) -> str:
    """Name traits, and of many only the first."""
    return some_of([_named(row) for _, row in rows.iterrows()])
