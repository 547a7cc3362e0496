"""Marks that several figures share."""

import math
from typing import TYPE_CHECKING

from buttonstudy.draw.style import MM_PER_POINT, Ink, ink
from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import NOTHING

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["BAR_MM", "bar", "edge_pt", "whole"]

BAR_MM = 2.2


def whole(number: float) -> int:
    """Round a sum of weights to whole sets, a half upwards, the same in marks and in figures.

    Examples
    --------
    >>> whole(0.5), whole(1.49), whole(2.5)
    (1, 1, 3)
    """
    return math.floor(number + 0.5)


def edge_pt() -> float:
    """Give the thickness of a mark's edge in points, that of the thinnest line fit for print.

    Examples
    --------
    >>> round(edge_pt(), 2)
    0.51
    """
    return limit("print-thinnest-line") / MM_PER_POINT


def bar(axes: "Axes", middle: float, start: float, length: float, fill: Ink) -> None:
    """Draw one piece of a horizontal bar; nothing if it has no length."""
    if length > NOTHING:
        axes.barh(
            middle,
            length,
            BAR_MM,
            start,
            color=fill.colour,
            hatch=fill.hatch,
            edgecolor=ink("ink").colour,
            linewidth=edge_pt(),
        )
