"""What a set as a whole is called in one column: who noted it, what covers it.

The buttons of a set need not agree. Then all that is said of them is kept and joined, never the
first button's word alone.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.answers import NOT_RECORDED
from buttonstudy.study.evidence.columns import texts

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
    pairs = pd.DataFrame({"set": keys.to_numpy(), "text": texts(buttons, name)}).drop_duplicates()
    pairs = pairs.sort_values(["set", "text"], kind="stable")
    labels = pairs.drop_duplicates("set", keep="last")["text"].to_numpy(dtype=object).copy()
    several = pairs[pairs["set"].duplicated(keep=False) & (pairs["text"] != "")]
    joined = several.groupby("set")["text"].agg(JOINED.join)
    labels[joined.index.to_numpy(dtype=np.int64)] = joined.to_numpy(dtype=object)
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
