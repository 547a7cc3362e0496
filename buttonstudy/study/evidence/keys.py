"""Which buttons are one set, how its weight of one is shared over them, and what weights weigh."""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.columns import Floats, texts

__all__ = ["effective_number", "set_keys", "shared_weights"]


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
    named = texts(buttons, "set_id")
    alone = named == ""
    file, _ = pd.factorize(texts(buttons, "file"))
    name, names = pd.factorize(named)
    code = file.astype(np.int64) * max(len(names), 1) + name
    code[alone] = -1 - np.arange(len(buttons))[alone]
    keys, _ = pd.factorize(code)
    return pd.Series(keys, index=buttons.index, name="set", dtype="int64")


def shared_weights(keys: NDArray[np.int64], has: NDArray[np.bool_]) -> Floats:
    """Share each set's weight of one evenly over those of its buttons that ``has`` marks.

    Examples
    --------
    >>> shared_weights(np.array([0, 0, 0, 1]), np.array([True, True, False, False])).tolist()
    [0.5, 0.5, 0.0, 0.0]
    """
    number = np.bincount(keys[has], minlength=keys.max(initial=-1) + 1)
    return np.where(has, 1 / np.maximum(number[keys], 1), 0.0)


def effective_number(weights: Floats) -> float:
    """Give the effective number of sets, (sum of weights)^2 / (sum of squares), of Kish 1965.

    Examples
    --------
    >>> effective_number(np.array([1.0, 1.0, 0.5, 0.5]))
    3.6
    """
    squares = float((np.asarray(weights) ** 2).sum())
    return float(np.asarray(weights).sum()) ** 2 / squares if squares > 0 else 0.0
