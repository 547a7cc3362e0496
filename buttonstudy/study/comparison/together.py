"""What it takes to look at many traits together: among enough of them, one will seem to differ.

After Holm 1979 (Scandinavian Journal of Statistics 6:65).
"""

import numpy as np

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats

__all__ = ["enough_shuffles", "holm"]


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
