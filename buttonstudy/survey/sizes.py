"""Several size readings of each button brought together: intervals, agreement, overlap.

A reading is an interval, its value give or take half a measuring step. Readings of one button
agree if their intervals overlap, and the size is then the overlap. Where they do not, all are kept
in the wording, the most precise is used, and the row is a problem that shows them all in mm.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.lengths.reading import Length
from buttonstudy.schemes import limit
from buttonstudy.schemes.findings import slips

Floats = npt.NDArray[np.float64]
_TOUCHING = 1e-9  # mm; guards the comparison of edges that are equal in exact arithmetic


@dataclass(frozen=True, slots=True)
class Readings:
    """Readings of one length for every row: arrays of shape (rows, readings), missing as NaN."""

    low: Floats
    best: Floats
    high: Floats
    step: Floats
    unit: npt.NDArray[np.object_]


@dataclass(frozen=True, slots=True)
class Sizes:
    """One length for every row: arrays of shape (rows,).

    `agree` is 1 where several readings agree, 0 where they do not, -1 with fewer than two.
    """

    low: Floats
    best: Floats
    high: Floats
    step: Floats
    unit: npt.NDArray[np.object_]
    agree: npt.NDArray[np.int8]


def spread_lengths(lengths: Sequence[tuple[Length, ...]], codes: npt.NDArray[np.intp]) -> Readings:
    """Spread the lengths read from each distinct wording over the rows."""
    width = max((len(one) for one in lengths), default=0)
    values = np.full((len(lengths), max(width, 1), 4), np.nan)
    unit = np.full((len(lengths), max(width, 1)), "", dtype=object)
    for code, one in enumerate(lengths):
        for place, length in enumerate(one):
            values[code, place] = (length.low, length.best, length.high, length.step_mm)
            unit[code, place] = length.unit
    low, best, high, step = (values[codes, :, k] for k in range(4))
    return Readings(low, best, high, step, unit[codes])


def join_readings(parts: Sequence[Readings]) -> Readings:
    """Put the readings of several columns side by side."""
    return Readings(
        np.hstack([part.low for part in parts]),
        np.hstack([part.best for part in parts]),
        np.hstack([part.high for part in parts]),
        np.hstack([part.step for part in parts]),
        np.hstack([part.unit for part in parts]),
    )


def combine(readings: Readings) -> Sizes:
    """Bring each row's readings together into one size.

    The best value is the most precise reading's, moved into the overlap if it lies outside it.

    Examples
    --------
    5/8 in, 16 mm and 26 lines agree, though 5/8 in is exactly 25 lines:

    >>> from buttonstudy.readings.lengths.reading import read_lengths
    >>> lengths = [read_lengths(text).lengths[0] for text in ("5/8 in", "16 mm", "26 lines")]
    >>> sizes = combine(spread_lengths([tuple(lengths)], np.array([0])))
    >>> sizes.agree.tolist(), sizes.best.round(2).tolist()
    ([1], [16.5])
    """
    rows = np.arange(len(readings.low))
    read = ~np.isnan(readings.best)
    count = read.sum(axis=1)
    low = np.where(read, readings.low, -np.inf).max(axis=1)
    high = np.where(read, readings.high, np.inf).min(axis=1)
    width = np.where(read, readings.high - readings.low, np.inf)
    precise = width.argmin(axis=1)
    overlap = low <= high + _TOUCHING
    alone_low, alone_high = readings.low[rows, precise], readings.high[rows, precise]
    low = np.where(overlap, low, alone_low)
    high = np.where(overlap, np.maximum(low, high), alone_high)
    best = np.clip(readings.best[rows, precise], low, high)
    none = count == 0
    low[none] = high[none] = best[none] = np.nan
    agree = np.where(count < 2, -1, overlap.astype(int)).astype(np.int8)
    return Sizes(low, best, high, readings.step[rows, precise], readings.unit[rows, precise], agree)


def size_columns(field: str, sizes: Sizes) -> dict[str, pd.Series]:
    """Give the record's columns of one length: best, low and high in mm."""
    return {
        f"{field}_mm": _nullable(sizes.best),
        f"{field}_mm_low": _nullable(sizes.low),
        f"{field}_mm_high": _nullable(sizes.high),
    }


def in_lines(columns: dict[str, pd.Series], mm_per_line: float) -> dict[str, pd.Series]:
    """Give the same size in button lines."""
    return {name.replace("_mm", "_lines"): one / mm_per_line for name, one in columns.items()}


def _nullable(values: Floats) -> pd.Series:
    return pd.Series(pd.array(np.round(values, 6), dtype="Float64"))


def disagreements(readings: Readings, sizes: Sizes) -> list[tuple[int, str]]:
    """Tell for each row whose readings do not agree what each is in mm, and what slip explains it.

    Returns
    -------
    list
        Row and the words that follow "do not agree:".
    """
    told = []
    for row in np.flatnonzero(sizes.agree == 0):
        here = ~np.isnan(readings.low[row])
        low, high = readings.low[row, here].tolist(), readings.high[row, here].tolist()
        names = readings.unit[row, here].tolist()
        parts = [
            f"{least:.2f} to {most:.2f} mm (written in {spelt_unit(unit)})"
            for least, most, unit in zip(low, high, names)
        ]
        told.append(
            (
                int(row),
                f"{'; '.join(parts)}.{_slip(low, readings.best[row, here].tolist(), high, names)}",
            )
        )
    return told


def _slip(
    low: Sequence[float], best: Sequence[float], high: Sequence[float], names: Sequence[str]
) -> str:
    """Name the slips that explain a ratio of two of the readings, either of them being wrong."""
    near = limit("slip-near")
    fitting = [
        slip.says
        for one in range(len(low))
        for other in range(len(low))
        for slip in slips()
        if slip.may_be_in(names[one])
        and 1 / near <= best[one] / best[other] / slip.factor <= near
        and low[one] / high[other] <= slip.factor <= high[one] / low[other]
    ]
    return f" Perhaps {'; or '.join(dict.fromkeys(fitting))}." if fitting else ""


def spelt_unit(unit: str) -> str:
    """Name a unit in a sentence."""
    return "inches" if unit == "in" else unit
