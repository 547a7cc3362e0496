"""Takes columns from a table of buttons whether or not the survey had them.

A survey need not have every field, and a table need not come from the kit. A missing column is
the same as a column of blanks: nothing was recorded.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

__all__ = ["Floats", "column", "floats", "length_bounds", "recorders", "texts"]

Floats = NDArray[np.float64]


def column(buttons: pd.DataFrame, name: str) -> pd.Series:
    """Give a column, or one of blanks if the table has none of that name.

    Examples
    --------
    >>> column(pd.DataFrame({"thread": ["linen"]}), "padding").isna().all()
    np.True_
    """
    if name in buttons.columns:
        return buttons[name]
    return pd.Series(pd.NA, index=buttons.index, name=name, dtype="object")


def floats(buttons: pd.DataFrame, name: str) -> Floats:
    """Give a column of numbers, blanks as not-a-number."""
    return np.asarray(
        column(buttons, name).astype("Float64").to_numpy(dtype="float64", na_value=np.nan)
    )


def texts(buttons: pd.DataFrame, name: str) -> NDArray[np.object_]:
    """Give a column of texts, blanks as the empty text."""
    codes, distinct = pd.factorize(column(buttons, name))
    words = np.array([*map(str, distinct.to_numpy(dtype=object)), ""], dtype=object)
    return np.asarray(words[codes])


def length_bounds(buttons: pd.DataFrame, field: str) -> tuple[Floats, Floats, Floats]:
    """Give a length's lower bound, best value and upper bound in mm.

    A length without bounds is taken as exact; one without a best value, as the middle of its
    bounds.

    Examples
    --------
    >>> low, best, high = length_bounds(pd.DataFrame({"height_mm": [4.0]}), "height")
    >>> low.tolist(), high.tolist()
    ([4.0], [4.0])
    """
    best = floats(buttons, f"{field}_mm")
    low, high = floats(buttons, f"{field}_mm_low"), floats(buttons, f"{field}_mm_high")
    best = np.where(np.isnan(best), (low + high) / 2, best)
    return np.where(np.isnan(low), best, low), best, np.where(np.isnan(high), best, high)


def recorders(buttons: pd.DataFrame) -> NDArray[np.object_]:
    """Name each button's recorder, and those without a name by their file.

    Examples
    --------
    >>> recorders(pd.DataFrame({"recorder": ["A. Teal", None], "file": "vale.ods"})).tolist()
    ['A. Teal', 'unnamed hand in vale.ods']
    """
    named, file = texts(buttons, "recorder"), texts(buttons, "file")
    unnamed = np.where(file == "", "unnamed hand", "unnamed hand in " + file)
    return np.where(named == "", unnamed, named)
