"""Which buttons are one set, how its weight of one is shared over them, and what is enough."""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats, coded_texts

__all__ = ["reaches", "set_keys", "shared_weights"]

Ints = NDArray[np.int64]

_HALF = 0.5
_SLACK = 1e-9


def set_keys(buttons: pd.DataFrame) -> pd.Series:
    """Number the sets, 0 upwards in the order in which they first appear.

    Parameters
    ----------
    buttons
        One row per button; ``file`` and ``set_id`` may be missing.

    Returns
    -------
    Series
        Whole numbers named ``set``, on the buttons' own index. A set's id counts within its file
        only. A button without one is a set of its own.

    Examples
    --------
    >>> buttons = pd.DataFrame({"file": ["a", "a", "b", "b"], "set_id": ["1", "1", "1", None]})
    >>> set_keys(buttons).tolist()
    [0, 0, 1, 2]
    """
    file, _ = _numbered(buttons, "file")
    name, names = _numbered(buttons, "set_id")
    code = file * len(names) + name
    alone = np.asarray(names == "")[name]
    code[alone] = -1 - np.flatnonzero(alone)
    keys, _ = pd.factorize(code)
    return pd.Series(keys, index=buttons.index, name="set", dtype="int64")


def _numbered(buttons: pd.DataFrame, name: str) -> tuple[Ints, NDArray[np.object_]]:
    """Number a column's distinct texts; numbers and texts that are written alike are the same."""
    codes, words = coded_texts(buttons, name)
    same, distinct = pd.factorize(words)
    return same[codes].astype(np.int64), distinct


def shared_weights(keys: NDArray[np.int64], has: NDArray[np.bool_]) -> Floats:
    """Share each set's weight of one evenly over those of its buttons that ``has`` marks.

    Examples
    --------
    >>> shared_weights(np.array([0, 0, 0, 1]), np.array([True, True, False, False])).tolist()
    [0.5, 0.5, 0.0, 0.0]
    """
    number = np.bincount(keys[has], minlength=keys.max(initial=-1) + 1)
    return np.where(has, 1 / np.maximum(number[keys], 1), 0.0)


def reaches(sets: Floats | float, name: str) -> NDArray[np.bool_]:
    """Say which sums of weights, told in whole sets, reach a limit.

    Shares of many wide dates tell no more than the sets that they add up to. Kish's effective
    number (1965, Survey Sampling), which is larger for weights below one, would call ten halves
    ten sets. Rounded as figures and sentences round, so that the number printed keeps the limit.

    Examples
    --------
    >>> reaches(np.array([4.4, 4.5]), "fewest-sets-for-median").tolist()
    [False, True]
    """
    return np.asarray(np.floor(np.asarray(sets) + _HALF + _SLACK) >= limit(name))
