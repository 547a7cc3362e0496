"""The measuring step of a whole column: as its recorder states it, or as its sizes show it.

One size tells only how finely it is written. A column tells more: if all its sizes in lines are
even, they were chosen from the even sizes of the trade, and 24 lines means nearer to 24 than to 22
or 26.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from buttonstudy.readings.lengths.precision import Length
from buttonstudy.schemes.limits import limit

__all__ = ["lines_step", "with_step"]


def with_step(length: Length, step_mm: float) -> Length:
    """Give the same reading with the measuring step that its recorder states.

    Examples
    --------
    >>> from buttonstudy.readings.lengths.reading import read_lengths
    >>> wide = with_step(read_lengths("16 mm").lengths[0], 2.0)
    >>> wide.low, wide.best, wide.high
    (15.0, 16.0, 17.0)
    """
    widens = limit("about-widens") if length.approximate else 1.0
    more = (step_mm - length.step_mm) / 2 * widens
    return replace(
        length,
        low=max(min(length.low - more, length.best), 0.0),
        high=max(length.high + more, length.best),
        step_mm=step_mm,
    )


def lines_step(values: Sequence[float]) -> Fraction:
    """Tell the step, in lines, to which one column's sizes in lines are given.

    Catalogues give even lines. If a column holds even sizes only, and enough of them, its
    recorder most likely chose the nearest even one.

    Parameters
    ----------
    values
        The column's sizes in lines, as written.

    Returns
    -------
    Fraction
        2, 1 or 1/2 lines. Sizes given more finely than to halves count as halves.

    Examples
    --------
    >>> lines_step([24, 26, 30, 32, 24, 40, 18, 20, 24, 36])
    Fraction(2, 1)
    >>> lines_step([24, 25]), lines_step([24.5])
    (Fraction(1, 1), Fraction(1, 2))
    """
    if any(value % 1 for value in values):
        return Fraction(1, 2)
    even = all(value % 2 == 0 for value in values)
    return Fraction(2) if even and len(values) >= limit("even-lines-least") else Fraction(1)
