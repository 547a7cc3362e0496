"""What a size that cannot be right was perhaps meant to be, from its cell and heading alone."""

import unicodedata
from collections.abc import Sequence
from dataclasses import replace

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes import limit

__all__ = ["with_meaning"]

_DIVISORS = (2, 4, 8, 16, 32, 64)  # as an inch is divided on a rule
_OF_FRACTIONS = ("size-too-small", "size-fraction-of-metric")


def with_meaning(doubts: Sequence[Doubt], text: str, unit: str) -> tuple[Doubt, ...]:
    """Put what was perhaps meant before what the doubts say should be done.

    Parameters
    ----------
    doubts
        What was doubtful in the cell.
    text
        The cell.
    unit
        The unit that the heading states.
    """
    return tuple(
        replace(one, remedy=f"{meant} {one.remedy}") if (meant := _meant(one, text, unit)) else one
        for one in doubts
    )


def _meant(doubt: Doubt, text: str, unit: str) -> str:
    if doubt.kind in _OF_FRACTIONS and unit == "mm" and _has_fraction(text):
        if mm := _plausible(text):
            return (
                f"Perhaps inches stand where millimetres should: {text.strip()} in "
                f"({mm:.3g} mm) would fit."
            )
    elif doubt.kind == "size-impossible" and unit == "in":
        fraction = _lost_stroke(text.strip())
        if fraction and (mm := _plausible(fraction)):
            return f"Perhaps a stroke was lost: {fraction} in ({mm:.3g} mm) would fit."
    return ""


def _has_fraction(text: str) -> bool:
    return "/" in text or any(unicodedata.category(one) == "No" for one in text)


def _plausible(text: str) -> float:
    """Read a text in inches; 0 if it is not one size that a button may have."""
    lengths = read_lengths(text, "in").lengths
    if len(lengths) != 1 or lengths[0].unit != "in":
        return 0.0
    fits = limit("size-smallest-plausible") <= lengths[0].best <= limit("size-largest-plausible")
    return lengths[0].best if fits else 0.0


def _lost_stroke(figures: str) -> str:
    """Give the fraction of an inch that figures are without their stroke; blank if none.

    Examples
    --------
    >>> _lost_stroke("58"), _lost_stroke("1116"), _lost_stroke("57")
    ('5/8', '11/16', '')
    """
    for divisor in _DIVISORS:
        above = figures.removesuffix(str(divisor))
        if above != figures and above.isdecimal() and int(above) % 2 and int(above) < divisor:
            return f"{above}/{divisor}"
    return ""
