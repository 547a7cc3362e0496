"""Readings that were reckoned, not measured: 12.7 mm beside 1/2 in.

A size converted from another unit has more decimals than anybody read, and would count as a fine
measurement. Where nearly all sizes in one unit are exact conversions of a coarser reading beside
them, they tell nothing new: the coarser readings alone are used.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import permutations

import numpy as np
import numpy.typing as npt

from buttonstudy.schemes import limit
from buttonstudy.survey.sizes import Readings, spelt_unit

__all__ = ["Conversion", "without_conversions"]

_ROUNDING = 1e-6  # mm; guards the comparison of a difference that is just half a step

Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Conversion:
    """One unit's readings that were reckoned from another's.

    Parameters
    ----------
    unit, source
        The unit converted to, and that of the readings converted.
    exact, records, beside
        How many records have an exact conversion, in how many it would show (the unit's reading is
        much finer than the source's), and how many have both readings.
    """

    unit: str
    source: str
    exact: int
    records: int
    beside: int

    def says(self, field: str) -> str:
        """Tell it in a sentence."""
        unit, source = spelt_unit(self.unit), spelt_unit(self.source)
        fine = ""
        if self.records < self.beside:
            fine = f" and whose {unit} are fine enough to tell"
        some = f" ({self.beside} records have both)" if fine else ""
        return (
            f"The readings of this {field.replace('_', ' ')} in {unit} are exact conversions of "
            f"those in {source} in {self.exact} of the {self.records} records that have "
            f"both{fine}{some}, so they count as read to the step of the {source}."
        )


def without_conversions(
    readings: Readings, units: Sequence[str]
) -> tuple[Readings, list[Conversion]]:
    """Take out readings that are conversions of others of the same record.

    Parameters
    ----------
    readings
        All readings of one length, from all the columns that hold it.
    units
        The units that occur in them.

    Returns
    -------
    Readings, list
        The readings, those that were only reckoned missing; and what was found of each unit.
    """
    told: list[Conversion] = []
    reckoned = np.zeros(readings.best.shape, dtype=bool)
    for source, unit in permutations(units, 2):
        both, exact = _beside(readings, readings.unit == source, readings.unit == unit)
        records, number = int(both.any(axis=1).sum()), int(exact.any(axis=1).sum())
        if number >= max(limit("conversion-least"), limit("conversion-share") * records):
            pairs = (readings.unit == source).any(axis=1) & (readings.unit == unit).any(axis=1)
            told.append(Conversion(unit, source, number, records, int(pairs.sum())))
            reckoned |= exact
    if not told:
        return readings, []
    low, best, high, step = (
        np.where(reckoned, np.nan, values)
        for values in (readings.low, readings.best, readings.high, readings.step)
    )
    return replace(readings, low=low, best=best, high=high, step=step), told


def _beside(readings: Readings, of_source: Mask, of_unit: Mask) -> tuple[Mask, Mask]:
    """Tell which readings stand beside a much coarser one, and which convert it exactly."""
    both, exact = np.zeros_like(of_unit), np.zeros_like(of_unit)
    finest = limit("conversion-finest")
    for one, other in permutations(range(readings.best.shape[1]), 2):
        rows = np.flatnonzero(of_source[:, one] & of_unit[:, other])
        step = readings.step[rows, other]
        rows = rows[step <= finest * readings.step[rows, one]]
        apart = np.abs(readings.best[rows, other] - readings.best[rows, one])
        both[rows, other] = True
        exact[rows, other] |= apart <= readings.step[rows, other] / 2 + _ROUNDING
    return both, exact
