"""Compares periods: how large a change in a trait is, and how sure.

Largeness first: the two periods that differ most surely, in counts and shares, with an interval
that allows for their having been picked. Then sureness: in how many of some thousand shuffles of
the answers among the sets chance alone made periods differ as much, with Holm's correction for
all traits that were looked at together (Holm 1979, Scandinavian Journal of Statistics 6:65),
since among enough traits one will seem to differ by chance. Then whether it could be the
recorders' doing; see :mod:`buttonstudy.study.comparison.confounding`.
"""

from collections.abc import Sequence
from itertools import combinations

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.confounding import within_layers
from buttonstudy.study.comparison.effects import newcombe, simultaneous_interval, strength_of_draws
from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.shares.latent import evidence_worth
from buttonstudy.study.shares.latent_model import SEED
from buttonstudy.study.shares.traits import Trait, quantile_interval

__all__ = [
    "COMPARISON_COLUMNS",
    "DIFFERENCE_COLUMNS",
    "compare_periods",
    "differences_between",
    "enough_shuffles",
    "holm",
]

_PAIR = (
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
COMPARISON_COLUMNS = (
    "field",
    "term",
    "sets",
    "with_term",
    "periods_compared",
    "strength",
    "strength_low",
    "strength_high",
    *_PAIR,
    "as_large",
    "shuffles",
    "chance",
    "traits_together",
    "chance_together",
    "sureness",
    "layer",
    "layers",
    "recorded_difference",
    "within_difference",
    "within_as_large",
    "within_shuffles",
    "within_chance",
    "goes_together",
    "warning",
    "why",
)
DIFFERENCE_COLUMNS = (
    "field",
    "term",
    *_PAIR,
    "method",
    "why",
)

_ONE_DATE = "All examined sets have the same date, so that there is nothing to compare."
_NOT_APART = "Too few sets are dated within one period to say which periods differ."
_WHOLE = 1 - 1e-9
_HALF = 0.5


def compare_periods(
    traits: Sequence[Trait], shuffles: int | None = None, seed: int = SEED
) -> pd.DataFrame:
    """Compare the periods in each trait; all traits given are taken as looked at together.

    Parameters
    ----------
    traits
        As :func:`buttonstudy.study.shares.traits.estimate_traits` gives them.
    shuffles, seed
        Most shuffles (as :func:`enough_shuffles` says if not given) and the seed of their random
        numbers.

    Returns
    -------
    DataFrame
        :data:`COMPARISON_COLUMNS`, one row per trait:

        - ``sets``, ``with_term``: examined sets dated so that they may be of the scheme's
          periods; a set whose examined buttons differ counts by its share;
        - ``periods_compared``: how many periods can be told apart, and only these are compared;
        - ``strength`` and its interval: Cramér's V, corrected;
        - ``earlier``, ``later``: the two of these periods that differ most surely, with the
          examined sets dated wholly within each, how many of them have the trait, the estimated
          shares and the ``difference`` (later less earlier). Where two or more of the periods
          have as many such sets as the limit ``pair-fewest-dated``, only these are looked at.
          ``low`` and ``high`` hold for all pairs looked at together, and the pair is the one
          whose interval lies furthest to one side of nought;
        - ``as_large`` of ``shuffles``, and ``chance`` from them; ``chance_together`` after
          Holm's correction over ``traits_together`` traits; ``sureness``: "clear", "likely" or
          "may be chance", by the limits ``sure-chance`` and ``likely-chance``;
        - the columns of :func:`buttonstudy.study.comparison.confounding.within_layers`;
        - ``why``: why there is no comparison, or no pair of periods. Shuffling needs no periods
          that can be told apart, and is told without them.

    Notes
    -----
    The shuffles keep their size however wide the dates are: of surveys without any difference
    about 5 % come out below 0.05 before the correction.
    """
    number = enough_shuffles(len(traits)) if shuffles is None else shuffles
    table = pd.DataFrame(
        [_compared(trait, number, seed) for trait in traits], columns=list(COMPARISON_COLUMNS)
    )
    table["chance_together"] = holm(table["chance"].to_numpy(dtype=np.float64))
    table["traits_together"] = int(table["chance"].notna().sum())
    table["sureness"] = [_sureness(chance) for chance in table["chance_together"]]
    whole = ["periods_compared", "as_large", "shuffles", "within_as_large", "within_shuffles"]
    return table.astype(dict.fromkeys([*whole, "layers", "traits_together"], "Int64"))


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
    told = _often([_firm(trait) for trait in traits])
    well = _well_dated(told, _often([_dated_within(trait) for trait in traits]))
    labels = [traits[0].dated.labels[place] for place in well]
    return (labels[0], labels[-1]) if len(labels) > 1 else ()


def _often(held: Sequence[np.ndarray]) -> np.ndarray:
    return np.flatnonzero(np.mean(held, axis=0) >= _HALF)


def _dated_within(trait: Trait) -> np.ndarray:
    """Say in which periods enough examined sets are dated wholly within."""
    within = trait.dated.inside[trait.heard] >= _WHOLE
    return np.asarray(within.sum(axis=0) >= limit("pair-fewest-dated"))


def _well_dated(told: np.ndarray, enough: np.ndarray) -> np.ndarray:
    """Keep the periods that have enough securely dated sets, if there are two such."""
    well = np.intersect1d(told, enough)
    return well if len(well) > 1 else told


def _firm(trait: Trait) -> np.ndarray:
    """Say which periods a trait can tell apart from the others."""
    worth = evidence_worth(trait.shares) >= limit("told-apart-sets")
    return np.asarray(~np.isnan(trait.estimate) & worth)


def enough_shuffles(traits: int) -> int:
    """Say how many shuffles can show a clear difference in one of so many traits.

    At least the limit ``shuffles``; where many traits are looked at together, enough that the
    smallest chance is still below the limit ``sure-chance`` after Holm's correction.

    Examples
    --------
    >>> enough_shuffles(1), enough_shuffles(50)
    (2000, 10000)
    """
    return max(int(limit("shuffles")), int(2 * traits / limit("sure-chance")))


def holm(chances: Floats) -> Floats:
    """Correct chances for having looked at all of them, leaving missing ones missing.

    Holm 1979, from statsmodels.

    Examples
    --------
    >>> holm(np.array([0.01, np.nan, 0.04])).tolist()
    [0.02, nan, 0.04]
    """
    from statsmodels.stats.multitest import multipletests

    known = ~np.isnan(chances)
    corrected = np.full(len(chances), np.nan)
    if known.any():
        corrected[known] = multipletests(chances[known], method="holm")[1]
    return corrected


def _compared(trait: Trait, shuffles: int, seed: int) -> dict[str, object]:
    """Compare the periods in one trait."""
    inside = len(trait.dated.labels)
    use = trait.heard & (trait.dated.inside.sum(axis=1) > 0)
    row: dict[str, object] = {
        "field": trait.field,
        "term": trait.term,
        "sets": int(use.sum()),
        "with_term": float(trait.answer[use].sum()),
        "warning": "",
        "layer": "",
    }
    why = _why_not(trait.answer[use])
    if why:
        return row | {"periods_compared": 0, "why": why}
    told = np.flatnonzero(_firm(trait))
    means, group = trait.dated.means[:, :inside], trait.dated.group[use]
    dealt = shuffle_answers(means, group, trait.answer[use], None, shuffles, seed)
    if dealt is None:
        return row | {"periods_compared": len(told), "why": _ONE_DATE}
    row |= {"as_large": dealt.as_large, "shuffles": dealt.shuffles, "chance": dealt.chance}
    row |= {"periods_compared": len(told), "why": "" if len(told) > 1 else _NOT_APART}
    if len(told) < 2:
        return row
    strength = strength_of_draws(trait.shares[:, told], trait.parts[:, told])
    row |= dict(zip(("strength", "strength_low", "strength_high"), strength))
    pairs = _well_dated(told, np.flatnonzero(_dated_within(trait)))
    earlier, later, low, high = _largest(trait, pairs)
    row |= _pair(trait, earlier, later) | {"low": low, "high": high}
    # Within layers nothing is corrected for the traits looked at together.
    fewer = min(shuffles, int(limit("shuffles")))
    return row | within_layers(trait, use, (earlier, later), fewer, seed)


def _why_not(answers: Floats) -> str:
    """Say why answers cannot be compared; nothing if they can."""
    if len(answers) == 0:
        return "No set that is dated to these periods was examined for it."
    if answers.max() > answers.min():
        return ""
    had = {0.0: "none of them had it", 1.0: "all of them had it"}
    same = had.get(float(answers[0]), "all of them had it in the same part")
    return f"Of {len(answers)} examined sets {same}, so that there is nothing to compare."


def _largest(trait: Trait, told: np.ndarray) -> tuple[int, int, float, float]:
    """Find the pair that differs most surely, with an interval that allows for the choice."""
    pairs = list(combinations(told.tolist(), 2))
    first, second = np.array(pairs).T
    differ = trait.estimate[second] - trait.estimate[first]
    low, high = simultaneous_interval(trait.shares[:, second] - trait.shares[:, first])
    best = int(np.maximum(low, -high).argmax())
    ends = (min(low[best], differ[best]), max(high[best], differ[best]))
    return int(first[best]), int(second[best]), float(ends[0]), float(ends[1])


def _pair(trait: Trait, earlier: int, later: int) -> dict[str, object]:
    """Give two periods' firmly dated counts, their estimated shares and the difference."""
    within = trait.dated.inside[trait.heard] >= _WHOLE
    having = trait.answer[trait.heard] @ within
    row: dict[str, object] = {}
    for name, place in (("earlier", earlier), ("later", later)):
        row |= {
            name: trait.dated.labels[place],
            f"{name}_sets": int(within[:, place].sum()),
            f"{name}_with_term": float(having[place]),
            f"{name}_share": float(trait.estimate[place]),
        }
    return row | {"difference": float(trait.estimate[later] - trait.estimate[earlier])}


def _places(trait: Trait, earlier: str, later: str) -> tuple[int, int]:
    for label in (earlier, later):
        if label not in trait.dated.labels:
            raise ValueError(
                f'The period scheme has no period "{label}". '
                f"It has: {', '.join(trait.dated.labels)}."
            )
    return trait.dated.labels.index(earlier), trait.dated.labels.index(later)


def _between(trait: Trait, earlier: int, later: int) -> dict[str, object]:
    row = {"field": trait.field, "term": trait.term} | _pair(trait, earlier, later)
    reached = trait.dated.inside[trait.heard] > 0
    if not reached[:, [earlier, later]].any(axis=0).all():
        return row | {"method": "", "why": "Of one of the two periods no set was examined."}
    if (trait.dated.weights[trait.heard].max(axis=1) >= _WHOLE).all():
        names = ("earlier_with_term", "earlier_sets", "later_with_term", "later_sets")
        low, high = newcombe(*(float(str(row[name])) for name in names))
        return row | {"low": low, "high": high, "method": "Newcombe", "why": ""}
    drawn = trait.shares[:, later] - trait.shares[:, earlier]
    ends = quantile_interval(drawn[:, None])
    differ = float(str(row["difference"]))
    low, high = min(float(ends[0][0]), differ), max(float(ends[1][0]), differ)
    return row | {"low": low, "high": high, "method": "latent periods", "why": ""}


def _sureness(chance: float) -> str:
    if np.isnan(chance):
        return ""
    if chance < limit("sure-chance"):
        return "clear"
    return "likely" if chance < limit("likely-chance") else "may be chance"
