"""Which traits are compared, and in which order they are told.

A trait that one set has, or that all sets but one have, cannot show a change; looking at it all
the same only takes sureness away from the others, since all that were looked at together count.
Whether a trait is common enough is asked of all periods together, so that the choice does not
depend on what is compared.
"""

from collections.abc import Mapping, Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import fields, limit
from buttonstudy.study.comparison.turning import TURNING_COLUMNS, turning_years
from buttonstudy.study.evidence.holes import OF_HOLES, asked_of
from buttonstudy.study.evidence.sets import field_evidence, set_keys
from buttonstudy.study.telling.words import field_label, in_survey, listed, number_of

__all__ = [
    "CHANCE",
    "SURE",
    "as_compared",
    "chosen_findings",
    "reaching_nought",
    "surest_first",
    "terms_to_compare",
    "turning_of_surest",
]

SURE = ("clear", "likely")
"""The words for differences that chance hardly ever makes."""
CHANCE = "may be chance"
"""The word for all others."""


def terms_to_compare(buttons: pd.DataFrame, names: Sequence[str]) -> dict[str, list[str]]:
    """Give for each field the terms that enough sets have and enough lack.

    Parameters
    ----------
    buttons
        One row per button.
    names
        Base names of fields of terms. Counts and lengths are not among them: "at least 2" is no
        answer to whether a set has 2.

    Returns
    -------
    dict of list
        By field, in the order in which the terms are read: those that at least the limit
        ``compared-fewest-sets`` of the examined sets have, and as many lack; perhaps none.

    Raises
    ------
    ValueError
        If there is no such field of terms.

    Examples
    --------
    >>> moulds = ["bone"] * 9 + ["wood"] * 8 + ["horn"]
    >>> terms_to_compare(pd.DataFrame({"mould_material": moulds}), ["mould_material"])
    {'mould_material': ['bone', 'wood']}
    """
    kinds = {field.field: field.kind for field in fields()}
    known = [name for name, kind in kinds.items() if kind == "term"]
    for name in names:
        if name not in known and (name in kinds or name not in buttons):
            raise ValueError(
                f'There is no field of terms "{name}" to compare. Use one of: {", ".join(known)}.'
            )
    least = limit("compared-fewest-sets")
    chosen = {}
    for name in names:
        asked = asked_of(buttons, name)
        shares = field_evidence(asked, set_keys(asked), name).shares
        rarer = np.fmin(shares.sum().to_numpy(), (1 - shares).sum().to_numpy())
        chosen[name] = [str(term) for term, sets in zip(shares, rarer) if sets >= least]
    return chosen


def chosen_findings(terms: Mapping[str, Sequence[str]]) -> list[str]:
    """Say how many traits are compared, of which fields, and which are left out."""
    least = f"{limit('compared-fewest-sets'):.0f}"
    rule = f"at least {least} of the examined sets have and at least {least} lack"
    held = [field_label(field) for field, chosen in terms.items() if chosen]
    number = sum(len(chosen) for chosen in terms.values())
    if not number:
        asked = listed(field_label(field) for field in terms) or "no field"
        return [f"There is nothing to compare in {asked}: no trait is there that {rule}."]
    told = (
        f"{number_of(number, 'trait')} of {listed(held)} "
        f"{'is' if number == 1 else 'are'} looked at together: those that {rule}. Rarer ones "
        "cannot show a change; the notebook on construction counts them."
    )
    of_holes = [field for field in OF_HOLES if terms.get(field)]
    return [told, *(f"For {field_label(one)}, sets count {in_survey(one)}." for one in of_holes)]


def turning_of_surest(buttons: pd.DataFrame, comparison: pd.DataFrame) -> pd.DataFrame:
    """Ask when traits came in, of those in which it is clear or likely that periods differ.

    A year fitted to a difference that may be chance would say more than is known.

    Parameters
    ----------
    buttons
        One row per button.
    comparison
        As :func:`surest_first` orders it.

    Returns
    -------
    DataFrame
        As :func:`buttonstudy.study.comparison.turning.turning_years` gives it, in the order of
        the comparison; no rows where no trait is sure.
    """
    asked = comparison[comparison["sureness"].isin(SURE)]
    tables = [
        turning_years(buttons, str(field), rows["term"].tolist())
        for field, rows in asked.groupby("field", sort=False)
    ]
    if not tables:
        return pd.DataFrame(columns=list(TURNING_COLUMNS))
    return surest_first(pd.concat(tables, ignore_index=True), comparison)


def reaching_nought(differences: pd.DataFrame) -> pd.DataFrame:
    """Let intervals reach nought where shuffling, all traits together, may make the difference.

    What chance alone may have made may be no difference at all. An interval from the posterior
    can leave nought out all the same, close to shares of none and all above all: of 0 of 32 and
    2 of 18 sets, between which Fisher's exact test (p = 0.12) tells no difference.

    Parameters
    ----------
    differences
        With ``low``, ``high`` and ``sureness``.
    """
    unsure = differences["sureness"] == CHANCE
    return differences.assign(
        low=differences["low"].mask(unsure, differences["low"].clip(upper=0.0)),
        high=differences["high"].mask(unsure, differences["high"].clip(lower=0.0)),
    )


def as_compared(differences: pd.DataFrame, comparison: pd.DataFrame) -> pd.DataFrame:
    """Set two periods side by side with the sureness, and in the order, of the comparison.

    Parameters
    ----------
    differences
        As :func:`buttonstudy.study.comparison.differences.differences_between` gives it.
    comparison
        Of the same traits, as :func:`buttonstudy.study.comparison.periods.compare_periods` gives
        it.

    Returns
    -------
    DataFrame
        The differences with ``sureness``. A trait that is compared in the same two periods has
        the comparison's interval, so that one difference has one; the others have their own,
        which reaches nought where chance may have made the trait's differences.
    """
    of_trait = comparison.set_index(["field", "term"])
    pairs = list(zip(differences["field"], differences["term"]))
    beside = of_trait.reindex(pd.MultiIndex.from_tuples(pairs, names=["field", "term"]))
    beside = beside.set_axis(differences.index)
    told = differences.assign(sureness=beside["sureness"].fillna(""))
    same = (beside["earlier"] == told["earlier"]) & (beside["later"] == told["later"])
    for end in ("low", "high"):
        told[end] = told[end].mask(same, beside[end])
    told["method"] = told["method"].mask(same, "as compared")
    return surest_first(reaching_nought(told), comparison)


def surest_first(table: pd.DataFrame, comparison: pd.DataFrame) -> pd.DataFrame:
    """Order a table's traits by how sure it is that periods differ in them, then by how much.

    Parameters
    ----------
    table
        With ``field`` and ``term``; perhaps several rows for each trait, whose order stays.
    comparison
        As :func:`buttonstudy.study.comparison.periods.compare_periods` gives it.
    """
    keys = pd.DataFrame(
        {
            "chance": comparison["chance_together"].to_numpy(dtype=np.float64),
            "less": -comparison["difference"].abs().to_numpy(dtype=np.float64),
        }
    )
    order = keys.sort_values(["chance", "less"], kind="stable").index
    place = {
        (comparison["field"].iloc[row], comparison["term"].iloc[row]): number
        for number, row in enumerate(order)
    }
    last = len(place)
    at = [place.get(trait, last) for trait in zip(table["field"], table["term"])]
    return table.iloc[np.argsort(np.array(at, dtype=np.int64), kind="stable")].reset_index(
        drop=True
    )
