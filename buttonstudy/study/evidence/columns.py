"""Takes columns from a table of buttons whether or not the survey had them.

A survey need not have every field, and a table need not come from the kit. A missing column is
the same as a column of blanks: nothing was recorded.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

__all__ = [
    "Floats",
    "coded_texts",
    "column",
    "floats",
    "length_bounds",
    "numbers",
    "recorders",
    "texts",
]

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
    return numbers(column(buttons, name))


def numbers(values: pd.Series) -> Floats:
    """Give numbers, or what can be read as such, blanks as not-a-number.

    Examples
    --------
    >>> numbers(pd.Series([1840, None], dtype="Int64")).tolist()
    [1840.0, nan]
    """
    if not pd.api.types.is_numeric_dtype(values.dtype):
        values = values.astype("Float64")
    return np.asarray(values.to_numpy(dtype="float64", na_value=np.nan))


def texts(buttons: pd.DataFrame, name: str) -> NDArray[np.object_]:
    """Give a column of texts, blanks as the empty text."""
    codes, words = coded_texts(buttons, name)
    return np.asarray(words[codes])


def coded_texts(buttons: pd.DataFrame, name: str) -> tuple[NDArray[np.intp], NDArray[np.object_]]:
    """Give a column of texts as codes and the texts that they stand for, the empty one last.

    Examples
    --------
    >>> codes, words = coded_texts(pd.DataFrame({"file": ["vale.ods", None, "vale.ods"]}), "file")
    >>> words[codes].tolist(), words.tolist()
    (['vale.ods', '', 'vale.ods'], ['vale.ods', ''])
    """
    codes, distinct = pd.factorize(column(buttons, name))
    return codes, np.array([*map(str, distinct.to_numpy(dtype=object)), ""], dtype=object)


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
