"""Estimates and comparisons in the form in which a person reads them: counts, and spans in words.

The study's own tables hold every number and are saved whole. Beside a figure a reader wants one
row for a trait or a period, with few sets told in tenths instead of per cent.
"""

from collections.abc import Hashable
from typing import Any

import pandas as pd

from buttonstudy.study.comparison.tens import signed, span_of_ten
from buttonstudy.study.telling.words import (
    HALF_A_SET,
    count,
    field_label,
    in_tenths,
    per_cent,
    span_in_words,
    term_label,
)

__all__ = [
    "differences_in_words",
    "reweighted_in_words",
    "spans_in_words",
    "turning_in_words",
]

_SPANS = {
    "chance allows": ("low", "high"),
    "sets without an answer allow": ("if_none", "if_all"),
    "dates allow": ("dating_low", "dating_high"),
}
_WITHIN = "with it, of sets dated wholly within (last row: of all)"


def spans_in_words(estimates: pd.DataFrame) -> pd.DataFrame:
    """Tell estimated shares with what chance, unexamined sets and wide dates leave open.

    Parameters
    ----------
    estimates
        As :func:`buttonstudy.study.shares.latent.estimated_shares` gives it.

    Returns
    -------
    DataFrame
        One row for each trait and period with examined sets, and for all periods: counts of the
        examined sets dated wholly within (for all periods, of all examined), the most likely
        share, and three spans: per cent, or tenths for few sets. A period that cannot be told
        apart says so instead.
    """
    rows = [
        {
            "trait": _named(row),
            "period": row["period"],
            _WITHIN: _of(row, row["kind"] == "period"),
            "most likely": _estimate(row),
            **_spans(row),
        }
        for row in estimates.to_dict("records")
        if row["kind"] in ("period", "all") and row["examined"] >= HALF_A_SET
    ]
    names = ["trait", "period", _WITHIN, "most likely", *_SPANS]
    return pd.DataFrame(rows, columns=names, dtype="str")


def reweighted_in_words(reweighted: pd.DataFrame) -> pd.DataFrame:
    """Tell shares with opening allowed for, as :mod:`.shares.reweighting` estimates them."""
    rows = [
        {
            "trait": _named(row),
            "period": row["period"],
            "examined": f"{count(row['examined'])} of {count(row['sets'])}",
            "as examined": _share(row, "plain"),
            "reweighted": _share(row, "estimate"),
            "chance allows": _span(row, "low", "high"),
            "what is missing": row["why"],
        }
        for row in reweighted.to_dict("records")
        if row["examined"] >= HALF_A_SET
    ]
    names = ["trait", "period", "examined", "as examined", "reweighted", "chance allows"]
    return pd.DataFrame(rows, columns=[*names, "what is missing"], dtype="str")


def differences_in_words(differences: pd.DataFrame) -> pd.DataFrame:
    """Tell differences between two periods, of either table of :mod:`.comparison.periods`.

    Returns
    -------
    DataFrame
        One row per trait: the two periods with the sets dated wholly within them that have it,
        the difference of every ten sets, and what chance allows. Where the table has them, how
        sure it is, and the difference as the record has it, overall and within recorders.
    """
    rows = []
    for row in differences.to_dict("records"):
        told = {"trait": _named(row), "what is missing": row["why"]}
        if pd.notna(row["difference"]):
            for end in ("earlier", "later"):
                sets = f"{count(row[f'{end}_with_term'])} of {count(row[f'{end}_sets'])}"
                told |= {end: f"{row[end]}: {sets}"}
            told |= {"of every 10 sets": signed(row["difference"])}
            told |= {"chance allows": span_of_ten(row["low"], row["high"])}
        if "sureness" in row:
            told |= {"how sure": row["sureness"]}
        if "recorded_difference" in row:
            told |= {"as recorded": signed(row["recorded_difference"])}
            told |= {"within recorders": signed(row["within_difference"])}
        rows.append(told)
    names = ["trait", "earlier", "later", "of every 10 sets", "chance allows"]
    if "sureness" in differences:
        names += ["how sure"]
    if "recorded_difference" in differences:
        names += ["as recorded", "within recorders"]
    table = pd.DataFrame(rows, columns=[*names, "what is missing"], dtype="str")
    return table.drop(columns="what is missing") if not table["what is missing"].any() else table


def turning_in_words(turning: pd.DataFrame) -> pd.DataFrame:
    """Tell turning years beside the sets that surely show the trait first and last."""
    rows = [
        {
            "trait": _named(row),
            "with it": f"{count(row['with_term'])} of {count(row['sets'])}",
            **_turn(row),
            **_showings(row),
        }
        for row in turning.to_dict("records")
    ]
    names = ["trait", "with it", "turned about", "chance allows", "share of the sets"]
    beyond = ["earliest", "before it, without", "latest", "after it, without"]
    return pd.DataFrame(rows, columns=[*names, *beyond], dtype="str")


def _estimate(row: dict[Hashable, Any]) -> str:
    if row["kind"] == "period" and row["why"]:
        return ""
    return _share(row, "estimate")


def _spans(row: dict[Hashable, Any]) -> dict[str, str]:
    if row["kind"] == "period" and row["why"]:
        return {"chance allows": "cannot be told apart"}
    return {name: _span(row, *ends) for name, ends in _SPANS.items()}


def _turn(row: dict[Hashable, Any]) -> dict[str, str]:
    if not row["told"]:
        return {"turned about": "cannot be told"}
    return {
        "turned about": f"{row['direction']} {row['turning_year']:.0f}",
        "chance allows": f"{row['low']:.0f} to {row['high']:.0f}",
        "share of the sets": (
            f"{in_tenths(row['share_before'])} to {in_tenths(row['share_after'])}"
        ),
    }


def _showings(row: dict[Hashable, Any]) -> dict[str, str]:
    if pd.isna(row["earliest_from"]):
        return {}
    years = [f"{row[f'{end}_from']}–{row[f'{end}_to']}" for end in ("earliest", "latest")]
    return {
        "earliest": years[0],
        "before it, without": f"{row['lacking_before']}",
        "latest": years[1],
        "after it, without": f"{row['lacking_after']}",
    }


def _named(row: dict[Hashable, Any]) -> str:
    return f"{field_label(row['field']).capitalize()}: {term_label(row['term'])}"


def _of(row: dict[Hashable, Any], within: bool) -> str:
    if within:
        return f"{count(row['with_term_within'])} of {count(row['dated_within'])}"
    return f"{count(row['with_term'])} of {count(row['examined'])}"


def _span(row: dict[Hashable, Any], low: str, high: str) -> str:
    if pd.isna(row[low]) or pd.isna(row[high]):
        return ""
    return span_in_words(row[low], row[high], bool(row["few"]))


def _share(row: dict[Hashable, Any], name: str) -> str:
    if pd.isna(row[name]):
        return ""
    return in_tenths(row[name]) if row["few"] else per_cent(row[name])
