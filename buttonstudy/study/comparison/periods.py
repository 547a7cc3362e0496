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
from buttonstudy.study.comparison.chosen import CHANCE, reaching_nought
from buttonstudy.study.comparison.confounding import within_layers
from buttonstudy.study.comparison.differences import (
    PAIR_COLUMNS,
    dated_within,
    firm_periods,
    pair_row,
    well_dated,
)
from buttonstudy.study.comparison.effects import simultaneous_interval, strength_of_draws
from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.comparison.together import enough_shuffles, holm
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.shares.latent_model import SEED
from buttonstudy.study.shares.traits import Trait

__all__ = [
    "COMPARISON_COLUMNS",
    "compare_periods",
]

COMPARISON_COLUMNS = (
    "field",
    "term",
    "sets",
    "with_term",
    "periods_compared",
    "strength",
    "strength_low",
    "strength_high",
    *PAIR_COLUMNS,
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
_ONE_DATE = "All examined sets have the same date, so that there is nothing to compare."
_NOT_APART = "Too few sets are dated within one period to say which periods differ."


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
          whose interval lies furthest to one side of nought; told with nought where the
          shuffles leave the difference to chance (:func:`.chosen.reaching_nought`);
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
    table = reaching_nought(table)
    whole = ["periods_compared", "as_large", "shuffles", "within_as_large", "within_shuffles"]
    return table.astype(dict.fromkeys([*whole, "layers", "traits_together"], "Int64"))


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
    told = np.flatnonzero(firm_periods(trait))
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
    pairs = well_dated(told, np.flatnonzero(dated_within(trait)))
    earlier, later, low, high = _largest(trait, pairs)
    row |= pair_row(trait, earlier, later) | {"low": low, "high": high}
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
    estimate = trait.estimate
    differ = estimate[second] - estimate[first]
    low, high = simultaneous_interval(trait.shares[:, second] - trait.shares[:, first])
    best = int(np.maximum(low, -high).argmax())
    ends = (min(low[best], differ[best]), max(high[best], differ[best]))
    return int(first[best]), int(second[best]), float(ends[0]), float(ends[1])


def _sureness(chance: float) -> str:
    if np.isnan(chance):
        return ""
    if chance < limit("sure-chance"):
        return "clear"
    return "likely" if chance < limit("likely-chance") else CHANCE
