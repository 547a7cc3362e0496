"""A recorder whose sizes differ systematically from others' on comparable buttons.

Only one comparison is fair: buttons of one set, some measured by this recorder and some by
others, since matching buttons are of one size. Each set is one piece of evidence, whatever its
number of buttons, and a sign test over sets asks whether this recorder reads mostly larger or
mostly smaller. Where too few sets were shared, nothing is said.
"""

from collections.abc import Iterator

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.checks.finding import Finding


def recorder_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell each recorder who reads mostly larger, or mostly smaller, than others on shared sets."""
    known = buttons[["file", "set_id", "recorder", "diameter_mm"]].reset_index(drop=True)
    known = known.dropna(subset=["set_id", "recorder", "diameter_mm"])
    if known["recorder"].nunique() < 2:
        return
    sets = known.groupby(["file", "set_id"], sort=False).ngroup().to_numpy()
    judged = []
    for recorder in sorted(known["recorder"].unique()):
        differences = _differences(known, sets, recorder)
        if len(differences) >= limit("recorder-fewest-sets"):
            judged.append((_chance(differences), recorder, differences))
    for passed, (chance, recorder, differences) in enumerate(
        sorted(judged, key=lambda one: one[0])
    ):
        if chance * (len(judged) - passed) > limit("recorder-chance"):
            return  # Holm: the first that is not told ends the list
        middle = float(np.median(differences))
        if abs(middle) >= limit("recorder-least-difference"):
            yield _finding(known, recorder, differences, middle)


def _differences(known: pd.DataFrame, sets: np.ndarray, recorder: str) -> np.ndarray:
    """Give, for each set shared with others, this recorder's mean size less the others', in mm.

    Sets with no difference say nothing of either sign and are left out.
    """
    own = (known["recorder"] == recorder).to_numpy(dtype=bool)
    sizes = known["diameter_mm"].to_numpy(dtype=float)
    mine, others = (_means(sizes[whose], sets[whose], sets.max() + 1) for whose in (own, ~own))
    apart = (mine - others)[~np.isnan(mine - others)]
    return apart[np.abs(apart) > 1e-6]


def _means(sizes: np.ndarray, sets: np.ndarray, number: int) -> np.ndarray:
    """Give each set's mean size, NaN for a set without any."""
    counts = np.bincount(sets, minlength=number)
    sums = np.bincount(sets, sizes, minlength=number)
    return np.where(counts > 0, sums / np.maximum(counts, 1), np.nan)


def _chance(differences: np.ndarray) -> float:
    """Give the sign test's chance, on both sides, of signs as one-sided as these."""
    n, fewer = len(differences), int(min((differences > 0).sum(), (differences < 0).sum()))
    k = np.arange(1, fewer + 1)
    # In logarithms, since whole binomial coefficients of thousands of sets take minutes.
    logs = np.concatenate([[0.0], np.cumsum(np.log((n - k + 1) / k))]) - n * np.log(2)
    return min(1.0, 2 * float(np.exp(logs).sum()))


def _finding(known: pd.DataFrame, recorder: str, differences: np.ndarray, middle: float) -> Finding:
    larger = middle > 0
    agreeing = int((differences > 0).sum() if larger else (differences < 0).sum())
    return Finding(
        "recorder-reads-otherwise",
        int(known.index[known["recorder"] == recorder][0]),
        f"{recorder} reads {'larger' if larger else 'smaller'} than others in {agreeing} of "
        f"{len(differences)} sets that both measured, by {abs(middle):.2g} mm in the middle case.",
        "recorder",
    )
