"""How many sets and buttons there are of each size: by button lines, and by named classes.

Counts by size are where coarse rulers mislead most. Readings are therefore spread over what they
allow, and told apart by how finely they were read; and a reading that lies across the edge of
two classes is marked as borderline.
"""

import math

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit, units
from buttonstudy.study.evidence.columns import Floats, column, length_bounds, texts
from buttonstudy.study.evidence.sets import set_keys, shared_weights

__all__ = ["NO_SIZE", "PRECISIONS", "size_class_counts", "size_histogram"]

NO_SIZE = "no size"
PRECISIONS = ("read finely", "read to about ½ to 1 mm", "read coarsely")

_DIGITS = 4
_TOUCH = 1e-9
_ROUNDING = 1e-6


def size_histogram(buttons: pd.DataFrame, field: str = "diameter") -> pd.DataFrame:
    """Spread the sizes over bins one button line wide, by how finely they were read.

    Each reading is spread evenly over the interval that it allows, as far as it reaches into
    each bin, so that a coarse ruler makes a low hill and no false peak.

    Parameters
    ----------
    buttons, field
        As for :func:`buttonstudy.study.sizes.evidence.size_evidence`.

    Returns
    -------
    DataFrame
        One row for each bin and precision: ``lines`` (the bin's middle, whole button lines),
        ``over_mm``, ``up_to_mm``, ``precision`` (one of :data:`PRECISIONS`, by the width of
        what the reading leaves open), ``sets`` and ``buttons`` (weights). Bins run without gaps
        from the smallest to the largest size; no rows if there are no sizes.
    """
    low, best, high = length_bounds(buttons, field)
    has = ~np.isnan(best)
    weights = shared_weights(set_keys(buttons).to_numpy(), has)[has]
    readings = pd.DataFrame(
        {"low": low[has], "high": high[has], "sets": weights, "buttons": 1.0}
    ).round({"low": _DIGITS, "high": _DIGITS})
    distinct = readings.groupby(["low", "high"], as_index=False).sum()
    columns = ["lines", "over_mm", "up_to_mm", "precision", "sets", "buttons"]
    if distinct.empty:
        return pd.DataFrame(columns=columns)
    line = float(units()["lines"])
    first, last = (_bin(size / line) for size in (distinct["low"].min(), distinct["high"].max()))
    lines = np.arange(first, last + 1, dtype=np.int64)
    over, up_to = line * (lines - np.float64(0.5)), line * (lines + np.float64(0.5))
    overlap = _overlap(distinct, over, up_to)
    code = _precision(distinct["high"] - distinct["low"])
    tables = []
    for place, precision in enumerate(PRECISIONS):
        share = overlap[code == place]
        of_kind = distinct[code == place]
        table = pd.DataFrame({"lines": lines, "precision": precision})
        table["over_mm"], table["up_to_mm"] = over, up_to
        table["sets"] = of_kind["sets"].to_numpy() @ share
        table["buttons"] = of_kind["buttons"].to_numpy() @ share
        tables.append(table)
    return pd.concat(tables, ignore_index=True)[columns]


def _bin(lines: float) -> int:
    """Give the whole line whose bin holds a size; a size on an edge is in the smaller one."""
    return math.ceil(lines - 0.5 - _TOUCH)


def _overlap(readings: pd.DataFrame, over: Floats, up_to: Floats) -> Floats:
    """Give the share of each reading's interval that lies in each bin."""
    low, high = readings["low"].to_numpy()[:, None], readings["high"].to_numpy()[:, None]
    width = high - low
    shared = np.clip(np.minimum(high, up_to) - np.maximum(low, over), 0, None)
    exact = (low > over + _TOUCH) & (low <= up_to + _TOUCH)
    spread = np.divide(shared, width, out=np.zeros_like(shared), where=width > 0)
    return np.where(width > 0, spread, exact.astype(np.float64))


def _precision(width: pd.Series) -> NDArray[np.int64]:
    steps = [limit("read-finely"), limit("read-to-the-millimetre")]
    return np.digitize(width.to_numpy() - _ROUNDING, steps).astype(np.int64)


def size_class_counts(buttons: pd.DataFrame) -> pd.DataFrame:
    """Count the sets and buttons of each size class.

    Parameters
    ----------
    buttons
        With ``size_class`` (its categories are the scheme's classes in order) and
        ``size_class_borderline`` (the reading lies across the class's edge).

    Returns
    -------
    DataFrame
        One row for each class, and a last one "no size": ``size_class``, ``sets``,
        ``borderline_sets``, ``buttons``, ``borderline_buttons``. A set with buttons in several
        classes counts by its share of buttons in each. Borderline ones are counted in the class
        of their best value.
    """
    classes = column(buttons, "size_class")
    wording = texts(buttons, "size_class")
    listed = (
        [str(name) for name in classes.cat.categories]
        if isinstance(classes.dtype, pd.CategoricalDtype)
        else sorted({text for text in wording if text})
    )
    has = wording != ""
    keys = set_keys(buttons).to_numpy()
    named = np.where(has, wording, NO_SIZE)
    borderline = column(buttons, "size_class_borderline").fillna(False).to_numpy(dtype=bool)
    sized = np.bincount(keys[has], minlength=keys.max(initial=-1) + 1) > 0
    weights = shared_weights(keys, has) + shared_weights(keys, ~sized[keys])
    table = pd.DataFrame({"size_class": named, "sets": weights, "buttons": 1})
    table["borderline_sets"] = table["sets"] * borderline
    table["borderline_buttons"] = table["buttons"] * borderline
    summed = table.groupby("size_class").sum().reindex([*listed, NO_SIZE], fill_value=0)
    order = ["size_class", "sets", "borderline_sets", "buttons", "borderline_buttons"]
    return summed.reset_index()[order].astype({"buttons": "int64", "borderline_buttons": "int64"})
