"""Gower's distance: how alike two buttons are in what both of them show.

Each field gives a distance between 0 and 1, and the distance of two buttons is the mean over the
fields that were examined on both (Gower 1971, Biometrics 27:857). A field that one of them lacks
is left out rather than guessed. Two buttons that both lack a feature are not thereby alike: a
thousand things are absent from both.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from buttonstudy.study.evidence.columns import Floats

__all__ = ["Measured", "Named", "gower_distances"]

Marks = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Measured:
    """A field with numbers between bounds.

    Attributes
    ----------
    low, high
        Bounds of ``n`` values; equal for exact values, missing where there is none, and an
        infinite upper end where it is open.
    span
        Range of the field in the collection; a gap as large as this, or larger, is a distance
        of 1.
    """

    low: Floats
    high: Floats
    span: float

    def distance(self, row: int) -> tuple[Floats, Marks]:
        """Give the distances from one row, and where they can be told.

        Values whose bounds overlap are at distance nought; else the gap between the bounds
        counts.
        """
        gap = np.maximum(self.low - self.high[row], self.low[row] - self.high)
        compared = ~(np.isnan(self.low) | np.isnan(self.low[row]))
        width = self.span if self.span > 0 else 1.0
        return np.clip(np.nan_to_num(gap, nan=0.0) / width, 0, 1), compared


@dataclass(frozen=True, slots=True)
class Named:
    """A field with terms.

    Attributes
    ----------
    has
        Which of the ``t`` terms each of ``n`` values has, shape (n, t). A value examined and
        without any of them is absent.
    examined
        Which values were examined with a clear answer.
    """

    has: Marks
    examined: Marks

    def distance(self, row: int) -> tuple[Floats, Marks]:
        """Give the distances from one row, and where they can be told.

        Of the terms that either has, the share that only one has (Jaccard 1912, New Phytologist
        11:37): 0 or 1 for single terms. Where neither has any, nothing is compared.
        """
        either = (self.has | self.has[row]).sum(axis=1)
        shared = (self.has & self.has[row]).sum(axis=1)
        compared = self.examined & self.examined[row] & (either > 0)
        return 1 - shared / np.maximum(either, 1), compared


def gower_distances(
    fields: Sequence[Measured | Named], row: int
) -> tuple[Floats, NDArray[np.int64]]:
    """Give the distance of every value from one row.

    Parameters
    ----------
    fields
        At least one field, each with ``n`` values.
    row
        The row to measure from.

    Returns
    -------
    tuple
        Distances between 0 and 1, shape (n,), missing where no field could be compared; and the
        number of fields compared, shape (n,).

    Examples
    --------
    >>> size = Measured(np.array([15.5, 16.0, 20.0]), np.array([16.5, 16.4, 20.0]), span=10.0)
    >>> bone = Named(np.array([[True], [True], [False]]), np.array([True, True, True]))
    >>> distance, compared = gower_distances([size, bone], 0)
    >>> distance.round(3).tolist(), compared.tolist()
    ([0.0, 0.0, 0.675], [2, 2, 2])
    """
    found = [field.distance(row) for field in fields]
    total = np.asarray(
        np.sum([np.where(compared, distance, 0.0) for distance, compared in found], axis=0)
    )
    number = np.asarray(np.sum([compared for _, compared in found], axis=0, dtype=np.int64))
    return np.where(number > 0, total / np.maximum(number, 1), np.nan), number
