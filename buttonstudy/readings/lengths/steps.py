"""The measuring step of a whole column: as its recorder states it, or as its sizes show it.

One size tells only how finely it is written. A column tells more: if all its sizes in lines are
even, they were chosen from the even sizes of the trade, and 24 lines means nearer to 24 than to 22
or 26. If nearly half of its fractions are odd sixteenths, 5/8 in is what 10/16 is written as.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from buttonstudy.readings.lengths.precision import Length
from buttonstudy.schemes.limits import limit

__all__ = ["inch_parts", "lines_step", "with_step"]


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


def inch_parts(written: Mapping[int, int]) -> int:
    """Tell the parts of an inch to which one recorder's fractions of an inch are given.

    Fractions are written in lowest terms. Of sizes read to sixteenths half are odd sixteenths by
    chance; if far fewer are, most were read to eighths, and a few more finely.

    Parameters
    ----------
    written
        How many of the recorder's sizes are written to each part of an inch, a power of two.

    Returns
    -------
    int
        The finest parts that enough of them are written to; 0 if none is.

    Examples
    --------
    >>> inch_parts({8: 59, 16: 51}), inch_parts({8: 59, 16: 12}), inch_parts({8: 5, 16: 5})
    (16, 0, 0)
    """
    number = 0
    for parts in sorted(written, reverse=True):
        number += written[parts]
        least = max(limit("inch-odd-least"), limit("inch-odd-share") * sum(written.values()))
        if number >= least and parts > limit("inch-parts-coarsest"):
            return parts
    return 0
