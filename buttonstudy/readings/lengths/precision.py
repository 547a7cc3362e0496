"""What a written size stands for: an interval, its value give or take half a measuring step.

The way a size is written tells how finely it was measured: 5/8 in to the eighth of an inch, 16 mm
to the millimetre, 15.9 mm to the tenth. Two sizes in two units can therefore say the same thing
without being equal: 5/8 in, 16 mm and 26 lines are readings of one button.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from buttonstudy.readings.numbers import Number
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.units import units

__all__ = ["Length", "interval", "written_parts"]


@dataclass(frozen=True, slots=True)
class Length:
    """One length that was read, as an interval.

    Parameters
    ----------
    low, best, high
        In mm; the true length lies between `low` and `high`.
    unit
        The unit it was written in: ``"mm"``, ``"cm"``, ``"m"``, ``"in"``, ``"lines"`` or
        ``"Paris lines"``.
    step_mm
        The step it is written to, in mm.
    dimension
        ``"diameter"``, ``"height"``, ``"width"``, ``"length"``, ``"depth"``, or ``""`` where the
        cell does not say.
    part
        The part of the object that the cell names, such as ``"a"`` or ``"mould"``; ``""`` for the
        whole.
    approximate
        True if it is said to be about this long.
    group
        Number of the list in which it stands: 15 x 15 x 4 mm is one list of three lengths.
    stated
        True if the cell itself states how far off it may be: 16 ± 0.5 mm.
    """

    low: float
    best: float
    high: float
    unit: str
    step_mm: float
    dimension: str = ""
    part: str = ""
    approximate: bool = False
    group: int = 0
    stated: bool = False


def written_parts(number: Number, unit: str) -> int:
    """Tell how finely a size was measured, from the way its number is written.

    An inch is never taken to be measured more coarsely than to 1/8, nor a centimetre than to
    1/10, whatever trailing zeros were dropped. A decimal of an inch that is exactly a fraction on
    a ruler (0.625) was most likely read off as that fraction.

    Returns
    -------
    int
        The part of its unit to which it was measured: 8 for eighths of an inch.

    Examples
    --------
    >>> from buttonstudy.readings.numbers import read_number
    >>> [written_parts(read_number(text), "in") for text in ("5/8", "1", "0.625", "0.59")]
    [8, 8, 8, 100]
    """
    if unit == "in":
        return max(_ruler_parts(number), _coarsest("inch-parts-coarsest"))
    if unit == "cm":
        return max(number.parts, _coarsest("cm-parts-coarsest"))
    return number.parts


def _ruler_parts(number: Number) -> int:
    """Give the denominator of a decimal that is a ruler's fraction, else the number's parts."""
    if number.form != "decimal":
        return number.parts
    under = number.value.denominator
    on_ruler = under & (under - 1) == 0 and under <= _coarsest("inch-ruler-finest")
    return min(under, number.parts) if on_ruler else number.parts


@cache
def _coarsest(name: str) -> int:
    return int(limit(name))


@cache
def _widening() -> tuple[int, int]:
    return Fraction(limit("about-widens")).as_integer_ratio()


def interval(
    number: Number, upto: Number | None, give: Number | None, unit: str, approximate: bool
) -> tuple[float, float, float, float]:
    """Give the interval in mm of one written size or range.

    Reckoned in whole numbers up to one division at the end, so that each figure is the nearest
    float to the exact one.

    Parameters
    ----------
    number
        The size, or the lower end of a range.
    upto
        The upper end of a range.
    give
        What the cell itself states after a plus-or-minus sign, in the same unit.
    unit
        A name from `units`.
    approximate
        Whether the size is said to be about this; half the step then counts
        ``about-widens`` times.

    Returns
    -------
    tuple of float
        Low, best, high and step, in mm. The best value of a range is its middle.

    Examples
    --------
    >>> from buttonstudy.readings.numbers import read_number
    >>> interval(read_number("16"), None, None, "mm", False)
    (15.5, 16.0, 16.5, 1.0)
    """
    mm, per = units()[unit].as_integer_ratio()
    top = upto or number
    over, parts = 1, min(written_parts(number, unit), written_parts(top, unit))
    if give is not None:
        over, parts = 2 * give.over, give.under
    half, halves = over, 2 * parts
    if approximate:
        half, halves = half * _widening()[0], halves * _widening()[1]
    low = number.over * halves - half * number.under
    high = top.over * halves + half * top.under
    best = number.over * top.under + top.over * number.under
    return (
        max(low, 0) * mm / (number.under * halves * per),
        best * mm / (2 * number.under * top.under * per),
        high * mm / (top.under * halves * per),
        over * mm / (parts * per),
    )
