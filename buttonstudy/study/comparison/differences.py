"""Two periods side by side: their firmly dated counts, estimated shares and the difference.

Which periods can be set against each other at all is asked here as well: those that a trait can
tell apart from the others, and among them those with enough sets dated within one of them.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.effects import newcombe
from buttonstudy.study.shares.latent import evidence_worth
from buttonstudy.study.shares.traits import Trait, quantile_interval

__all__ = [
    "DIFFERENCE_COLUMNS",
    "PAIR_COLUMNS",
    "dated_within",
    "differences_between",
    "firm_periods",
    "pair_row",
    "well_dated",
]

PAIR_COLUMNS = (
    "earlier",
    "later",
    "earlier_sets",
    "earlier_with_term",
    "earlier_share",
    "later_sets",
    "later_with_term",
    "later_share",
    "difference",
    "low",
    "high",
)
DIFFERENCE_COLUMNS = (
    "field",
    "term",
    *PAIR_COLUMNS,
    "method",
    "why",
)


_WHOLE = 1 - 1e-9
_HALF = 0.5


def differences_between(
    traits: Sequence[Trait], earlier: str = "", later: str = ""
) -> pd.DataFrame:
    """Give the difference of two periods' shares for each trait.

    Parameters
    ----------
    traits
        As :func:`buttonstudy.study.shares.traits.estimate_traits` gives them.
    earlier, later
        Labels of two periods of the scheme. Empty: the first and the last period that can be
        told apart from the others in at least half of the traits, and where two such are,
        that have as many sets dated wholly within as the limit ``pair-fewest-dated``.

    Returns
    -------
    DataFrame
        :data:`DIFFERENCE_COLUMNS`, one row per trait: ``difference`` is the later share less the
        earlier one. Where every examined set lies wholly in one period the interval is
        Newcombe's (1998, Statistics in Medicine 17:873), and the shares those of the counts;
        else it is from the posterior of the latent periods. ``method`` says which. ``why`` says
        what is missing. No rows if no two periods can be told apart.

    Raises
    ------
    ValueError
        If the scheme has no period of that label.
    """
    pair = (earlier, later) if earlier or later else _told_apart(traits)
    rows = [_between(trait, *_places(trait, *pair)) for trait in traits if pair]
    return pd.DataFrame(rows, columns=list(DIFFERENCE_COLUMNS))


def _told_apart(traits: Sequence[Trait]) -> tuple[str, ...]:
    """Give the first and the last period that most traits can tell apart, or nothing."""
    if not traits:
        return ()
    told = _often([firm_periods(trait) for trait in traits])
    well = well_dated(told, _often([dated_within(trait) for trait in traits]))
    labels = [traits[0].dated.labels[place] for place in well]
    return (labels[0], labels[-1]) if len(labels) > 1 else ()


def _often(held: Sequence[np.ndarray]) -> np.ndarray:
    return np.flatnonzero(np.mean(held, axis=0) >= _HALF)


def dated_within(trait: Trait) -> np.ndarray:
    """Say in which periods enough examined sets are dated wholly within."""
    within = trait.dated.inside[trait.heard] >= _WHOLE
    return np.asarray(within.sum(axis=0) >= limit("pair-fewest-dated"))


def well_dated(told: np.ndarray, enough: np.ndarray) -> np.ndarray:
    """Keep the periods that have enough sets dated wholly within, if there are two such."""
    well = np.intersect1d(told, enough)
    return well if len(well) > 1 else told


def firm_periods(trait: Trait) -> np.ndarray:
    """Say which periods a trait can tell apart from the others."""
    worth = evidence_worth(trait.shares) >= limit("told-apart-sets")
    return np.asarray(~np.isnan(trait.estimate) & worth)


def pair_row(trait: Trait, earlier: int, later: int) -> dict[str, object]:
    """Give two periods' firmly dated counts, their estimated shares and the difference."""
    heard, estimate = trait.heard, trait.estimate
    within = trait.dated.inside[heard] >= _WHOLE
    having = trait.answer[heard] @ within
    row: dict[str, object] = {}
    for name, place in (("earlier", earlier), ("later", later)):
        row |= {
            name: trait.dated.labels[place],
            f"{name}_sets": int(within[:, place].sum()),
            f"{name}_with_term": float(having[place]),
            f"{name}_share": float(estimate[place]),
        }
    return row | {"difference": float(estimate[later] - estimate[earlier])}


def _places(trait: Trait, earlier: str, later: str) -> tuple[int, int]:
    for label in (earlier, later):
        if label not in trait.dated.labels:
            raise ValueError(
                f'The period scheme has no period "{label}". '
                f"It has: {', '.join(trait.dated.labels)}."
            )
    return trait.dated.labels.index(earlier), trait.dated.labels.index(later)


def _between(trait: Trait, earlier: int, later: int) -> dict[str, object]:
    row = {"field": trait.field, "term": trait.term} | pair_row(trait, earlier, later)
    heard = trait.heard
    reached = trait.dated.inside[heard] > 0
    if not reached[:, [earlier, later]].any(axis=0).all():
        return row | {"method": "", "why": "Of one of the two periods no set was examined."}
    if (trait.dated.weights[heard].max(axis=1) >= _WHOLE).all():
        names = ("earlier_with_term", "earlier_sets", "later_with_term", "later_sets")
        low, high = newcombe(*(float(str(row[name])) for name in names))
        return row | {"low": low, "high": high, "method": "Newcombe", "why": ""}
    drawn = trait.shares[:, later] - trait.shares[:, earlier]
    ends = quantile_interval(drawn[:, None])
    differ = float(str(row["difference"]))
    low, high = min(float(ends[0][0]), differ), max(float(ends[1][0]), differ)
    return row | {"low": low, "high": high, "method": "latent periods", "why": ""}
