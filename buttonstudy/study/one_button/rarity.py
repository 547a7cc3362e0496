"""How usual one button is among the rest: each of its traits, and its size.

Its own set is left out: a card of twenty-four does not make its own buttons common. Counts are of
sets examined for the trait. What none of them has is not "unique"; it is not seen before in so
many sets, and may still be as common as their number allows. The rarity of several traits
together is not the product of their rarities, since traits go together.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import PeriodScheme, fields, limit
from buttonstudy.study.evidence.answers import answers
from buttonstudy.study.evidence.columns import Floats, floats, length_bounds
from buttonstudy.study.evidence.dating import ALL_PERIODS, period_weights, wholly_within
from buttonstudy.study.evidence.holes import may_be_asked
from buttonstudy.study.evidence.keys import reaches, set_keys
from buttonstudy.study.evidence.sets import set_dates
from buttonstudy.study.one_button.record import trait_fields
from buttonstudy.study.shares.tally import clopper_pearson
from buttonstudy.study.sizes.evidence import size_evidence

__all__ = ["RARITY_COLUMNS", "SIZE_COLUMNS", "size_among", "trait_rarity"]

RARITY_COLUMNS = (
    "field",
    "label",
    "term",
    "period",
    "examined",
    "with_term",
    "share",
    "low",
    "high",
    "at_most",
    "sets",
    "if_none",
    "if_all",
    "may_belong",
    "may_belong_with",
    "few",
)
SIZE_COLUMNS = (
    "field",
    "label",
    "period",
    "size_mm",
    "sets",
    "median_mm",
    "smaller",
    "smaller_low",
    "smaller_high",
    "low",
    "high",
    "few",
)

_TOUCH = 1e-9
_DIGITS = 6

Marks = NDArray[np.bool_]


def trait_rarity(buttons: pd.DataFrame, row: int, scheme: PeriodScheme) -> pd.DataFrame:
    """Tell for each trait of one record how many of the other sets examined for it share it.

    Parameters
    ----------
    buttons
        One row per button.
    row
        The record's place, as :func:`buttonstudy.study.one_button.record.find_record` gives it.
    scheme
        The periods.

    Returns
    -------
    DataFrame
        :data:`RARITY_COLUMNS`, for each term and count that the record answers in the fields of
        :func:`.one_button.record.trait_fields`: one row for all periods, then one for each period
        that its dates touch. ``examined`` (other sets examined with a clear answer, dated wholly
        within the period),
        ``with_term`` (those of them with the term on any button), ``share`` with its exact
        interval ``low`` to ``high`` at the limit ``confidence``, ``at_most`` (where none has it:
        the exact one-sided upper limit at that confidence), ``sets`` (the other sets there are,
        dated wholly within the period), ``if_none`` and ``if_all`` (the share if none, or all, of
        those without an answer had the term), ``may_belong`` and
        ``may_belong_with`` (the same counts for sets whose dates touch the period) and ``few``
        (fewer sets than the limit ``few-sets``: tell counts only).

    Notes
    -----
    The interval is that of Clopper & Pearson 1934 (Biometrika 26:404). Sets whose bounded count
    may or may not be the record's are left out as undecided, and so are moulds without a hole where
    hole fills are counted.
    """
    keys = set_keys(buttons).to_numpy()
    number = keys.max(initial=-1) + 1
    places = _places(buttons, keys, row, scheme)
    rows = []
    for field in trait_fields():
        if field.kind not in ("term", "count"):
            continue
        asked = may_be_asked(buttons, field.field)
        sets_asked = np.bincount(keys[asked], minlength=number) > 0
        for term, has, known in _traits_of(buttons, field.field, field.kind, row, asked):
            examined = np.bincount(keys[known], minlength=number) > 0
            having = np.bincount(keys[has & known], minlength=number) > 0
            rows += [
                {
                    "field": field.field,
                    "label": field.label,
                    "term": term,
                    "period": period,
                    **_counted(examined, having, within & sets_asked, touching),
                }
                for period, within, touching in places
            ]
    return pd.DataFrame(rows, columns=list(RARITY_COLUMNS))


def size_among(
    buttons: pd.DataFrame, row: int, scheme: PeriodScheme, field: str = "diameter"
) -> pd.DataFrame:
    """Tell where one record's size lies among the other sets' sizes.

    Parameters
    ----------
    buttons, row, scheme
        As for :func:`trait_rarity`.
    field
        A length's base name.

    Returns
    -------
    DataFrame
        :data:`SIZE_COLUMNS`: one row for all periods, then one for each period that the
        record's dates touch: ``sets`` (the other sets with a size, by aoristic weight),
        ``median_mm``, ``smaller`` (share of them that are smaller than the
        record's best size), ``smaller_low`` and ``smaller_high`` (at the ends of what its
        reading allows), ``low`` and ``high`` (interval of the share at the limit
        ``confidence``, reading and sampling together) and ``few`` (fewer sets than
        the limit ``few-sets-for-sizes``). No rows if the record has no size.

    Notes
    -----
    The other sets' readings are spread over what they leave open; the interval is that of
    Clopper & Pearson 1934 on the sum of the sets' weights.
    """
    low, best, high = (bound[row] for bound in length_bounds(buttons, field))
    if np.isnan(best):
        return pd.DataFrame(columns=list(SIZE_COLUMNS))
    evidence = size_evidence(buttons, field)
    keys = set_keys(buttons).to_numpy()
    others = evidence.sized & (np.arange(len(evidence.sized)) != keys[row])
    label = next((known.label for known in fields() if known.field == field), field)
    rows = []
    for period, weight in _weights(buttons, keys, row, scheme):
        held = weight * others
        spread, sets = evidence.spread(held), float(held.sum())
        shares = spread.share_up_to(np.array([low, best, high])).round(_DIGITS).tolist()
        under = clopper_pearson(shares[0] * sets, sets)[0]
        over = clopper_pearson(shares[2] * sets, sets)[1]
        rows.append(
            {
                "field": field,
                "label": label,
                "period": period,
                "size_mm": best,
                "sets": sets,
                "median_mm": spread.quantiles([0.5])[0],
                "smaller": shares[1],
                "smaller_low": shares[0],
                "smaller_high": shares[2],
                "low": under,
                "high": over,
                "few": not reaches(sets, "few-sets-for-sizes"),
            }
        )
    return pd.DataFrame(rows, columns=list(SIZE_COLUMNS))


def _traits_of(
    buttons: pd.DataFrame, field: str, kind: str, row: int, asked: Marks
) -> list[tuple[str, Marks, Marks]]:
    """List the terms that a record answers, with who has each and for whom that is known."""
    if not (asked[row] and answers(buttons, field, as_written=True).examined[row]):
        return []
    found = answers(buttons, field)
    if kind == "term":
        terms = [term for term in found.has.columns if found.has[term].iloc[row]]
        return [(str(term), found.has[term].to_numpy(), found.examined & asked) for term in terms]
    low, high = floats(buttons, f"{field}_low"), floats(buttons, f"{field}_high")
    low = np.where(np.isnan(low) & ~np.isnan(high), 0.0, low)
    high = np.where(np.isnan(high) & ~np.isnan(low), np.inf, high)
    alike = (low >= low[row]) & (high <= high[row])
    apart = (high < low[row]) | (low > high[row])
    term = str(found.has.columns[int(found.has.iloc[row].to_numpy().argmax())])
    return [(term, alike, alike | apart)]


def _counted(examined: Marks, having: Marks, within: Marks, touching: Marks) -> dict[str, object]:
    number, those = int((examined & within).sum()), int((having & within).sum())
    low, high = clopper_pearson(those, number)
    none = number > 0 and those == 0
    sets = int(within.sum())
    return {
        "examined": number,
        "with_term": those,
        "share": those / number if number else np.nan,
        "low": low,
        "high": high,
        "at_most": 1 - (1 - limit("confidence") / 100) ** (1 / number) if none else np.nan,
        "sets": sets,
        "if_none": those / sets if sets else np.nan,
        "if_all": (those + sets - number) / sets if sets else np.nan,
        "may_belong": int((examined & touching).sum()),
        "may_belong_with": int((having & touching).sum()),
        "few": number < limit("few-sets"),
    }


def _places(
    buttons: pd.DataFrame, keys: NDArray[np.int64], row: int, scheme: PeriodScheme
) -> list[tuple[str, Marks, Marks]]:
    """List all periods and those the record may belong to, with the other sets of each."""
    others = np.arange(keys.max(initial=-1) + 1) != keys[row]
    dates = set_dates(buttons)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme)
    within = wholly_within(weights)
    found = [(ALL_PERIODS, others, others)]
    for period in scheme.periods:
        touching = weights[period.label].to_numpy() > _TOUCH
        if touching[keys[row]]:
            found.append(
                (period.label, within[period.label].to_numpy() & others, touching & others)
            )
    return found


def _weights(
    buttons: pd.DataFrame, keys: NDArray[np.int64], row: int, scheme: PeriodScheme
) -> list[tuple[str, Floats]]:
    """List all periods and those the record may belong to, with each set's weight."""
    dates = set_dates(buttons)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme)
    touched = [
        period.label for period in scheme.periods if weights[period.label].iloc[keys[row]] > _TOUCH
    ]
    listed = [(label, weights[label].to_numpy(dtype=float)) for label in touched]
    return [(ALL_PERIODS, np.ones(len(dates))), *listed]
