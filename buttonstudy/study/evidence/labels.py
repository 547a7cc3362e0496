"""What a set as a whole is called in one column: who noted it, what covers it.

The buttons of a set need not agree. Then all that is said of them is kept and joined, never the
first button's word alone.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.answers import NOT_RECORDED
from buttonstudy.study.evidence.columns import coded_texts

__all__ = ["JOINED", "set_strata", "set_texts"]

JOINED = " / "


def set_texts(buttons: pd.DataFrame, keys: pd.Series, name: str) -> NDArray[np.object_]:
    """Give each set the text that its buttons have in a column; of several, all in order.

    Parameters
    ----------
    buttons, keys
        One row per button, and the sets as :func:`.evidence.sets.set_keys` numbers them.
    name
        The column. Blanks count only where a set has nothing else.

    Examples
    --------
    >>> buttons = pd.DataFrame({"recorder": ["Wren", "Teal", None, None]})
    >>> set_texts(buttons, pd.Series([0, 0, 0, 1]), "recorder").tolist()
    ['Teal / Wren', '']
    """
    codes, words = coded_texts(buttons, name)
    place, ordered = pd.factorize(words, sort=True)
    pairs = np.unique(keys.to_numpy() * len(ordered) + place[codes])
    sets, text = np.divmod(pairs, len(ordered))
    ends = np.cumsum(np.bincount(sets))
    labels = ordered[text[ends - 1]]
    starts = np.append(0, ends[:-1])[: len(ends)]
    for one in np.flatnonzero(ends - starts > 1):
        labels[one] = JOINED.join(filter(None, ordered[text[starts[one] : ends[one]]]))
    return np.asarray(labels)


def set_strata(
    buttons: pd.DataFrame, keys: pd.Series, by: Sequence[str]
) -> tuple[NDArray[np.int64], list[str]]:
    """Part the sets by what some columns say of them together.

    Returns
    -------
    stratum : ndarray
        Which stratum each set is in, 0 upwards.
    names : list of str
        Each stratum's values in the columns' order, joined by ", ".
    """
    columns = [set_texts(buttons, keys, name) for name in by]
    told = [[str(value) or NOT_RECORDED for value in values] for values in columns]
    labels = [", ".join(values) for values in zip(*told)] if told else [""] * (keys.max() + 1)
    names, stratum = np.unique(np.array(labels, dtype=str), return_inverse=True)
    return stratum.astype(np.int64), [str(name) for name in names]
