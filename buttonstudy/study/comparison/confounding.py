"""Asks whether a difference between periods could be one between recorders.

One member likes early buttons and looks for whipped backs; another has late ones and never turns
them over. Then recorder and period go together, and no table can part them. Where each recorder
noted sets of several periods, the same comparison is made within recorders: answers are shuffled
among the sets of one recorder only, and the difference is averaged over recorders.
"""

import numpy as np
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.effects import cramers_v
from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.patterns import Ints
from buttonstudy.study.shares.traits import Trait

__all__ = ["within_layers"]


def within_layers(
    trait: Trait,
    use: NDArray[np.bool_],
    pair: tuple[int, int],
    shuffles: int,
    seed: int,
) -> dict[str, object]:
    """Make the comparison of two periods again within each recorder, or within each file.

    Parameters
    ----------
    trait
        The trait.
    use
        Which sets to compare.
    pair
        The places of the earlier and the later of the two periods that differ most.
    shuffles, seed
        As for :func:`buttonstudy.study.comparison.shuffling.shuffle_answers`.

    Returns
    -------
    dict
        - ``layer``: "recorder"; "survey file" where the survey names no two recorders; or
          nothing where there is only one of these either; ``layers``: how many;
        - ``goes_together``: Cramér's V of layer and period, corrected for bias;
        - ``recorded_difference``: the difference of the two periods' shares by aoristic weight,
          and ``within_difference`` the same within layers, each layer weighted as Mantel &
          Haenszel do (Greenland & Robins 1985, Biometrics 41:55); missing where no layer has
          sets that may be of either period. Both are smeared by wide dates alike, so that they
          can be held against each other;
        - ``within_as_large``, ``within_shuffles``, ``within_chance``: the shuffles within layers;
        - ``warning``: what a reader must know before trusting the difference.
    """
    names, layer = _layers(trait, use)
    weights, answer = trait.dated.inside[use], trait.answer[use]
    overall = _difference(weights[:, list(pair)], answer, np.zeros(len(answer), dtype=np.int64))
    row: dict[str, object] = {"recorded_difference": overall, "warning": ""}
    if not names:
        return row | {"layer": "", "layers": 1}
    found = np.zeros((layer.max() + 1, weights.shape[1]))
    np.add.at(found, layer, weights)
    together = cramers_v(found)
    within = _difference(weights[:, list(pair)], answer, layer)
    row |= {"layer": names, "layers": len(found), "within_difference": within}
    row["goes_together"] = together
    inside = trait.dated.means[:, : weights.shape[1]]
    dealt = shuffle_answers(inside, trait.dated.group[use], answer, layer, shuffles, seed)
    if dealt is not None:
        row |= {"within_as_large": dealt.as_large, "within_shuffles": dealt.shuffles}
        row["within_chance"] = dealt.chance
    compared = dealt is not None and not np.isnan(within)
    return row | {"warning": _warning(names, together, compared, overall, within)}


def _layers(trait: Trait, use: NDArray[np.bool_]) -> tuple[str, Ints]:
    """Part the sets by recorder, those of unnamed hands by file; or else all by file."""
    named, files = trait.recorders[use].astype(str), trait.files[use].astype(str)
    hands = np.where(named == "", np.char.add("\t", files), named)
    layers = [("recorder", hands)] if (named != "").any() else []
    for name, labels in [*layers, ("survey file", files)]:
        kinds, layer = np.unique(labels, return_inverse=True)
        if len(kinds) > 1:
            return name, layer.astype(np.int64)
    return "", np.zeros(int(use.sum()), dtype=np.int64)


def _difference(weights: Floats, answer: Floats, layer: Ints) -> float:
    """Average the layers' differences of two weighted shares."""
    number = int(layer.max()) + 1
    sets = np.stack([np.bincount(layer, column, number) for column in weights.T])
    having = np.stack([np.bincount(layer, column * answer, number) for column in weights.T])
    both = (sets > 0).all(axis=0)
    if not both.any():
        return float("nan")
    sets, having = sets[:, both], having[:, both]
    share = having / sets
    weight = sets[0] * sets[1] / sets.sum(axis=0)
    return float(((share[1] - share[0]) * weight).sum() / weight.sum())


def _warning(layer: str, together: float, compared: bool, overall: float, within: float) -> str:
    """Say what stands between the difference and its being one of periods."""
    if not compared:
        return (
            f"No {layer} has sets of more than one of these periods that differ in it: the "
            f"difference may be one between {layer}s."
        )
    if overall * within < 0 or abs(within) < abs(overall) / 2:
        turned = "turns round" if overall * within < 0 else "is less than half as large"
        return (
            f"Among the sets of one {layer} the difference {turned}: much of it may be one "
            f"between {layer}s."
        )
    if together >= limit("goes-together"):
        return (
            f"Each {layer} noted mostly other periods than the rest: the difference may be one "
            f"between {layer}s."
        )
    return ""
