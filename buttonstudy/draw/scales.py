"""Scales: as many labels along an axis as stand clear of one another, and sizes in two units."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from buttonstudy.draw.lettering import width_mm
from buttonstudy.schemes import units

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["count_scale", "fitting_step", "size_scales", "ticks_between"]

_CLEAR_MM = 2.0
_STEPS = (1, 2, 5)
_TRADE_STEPS = (2, 4, 6, 8, 10, 20, 40)


def fitting_step(
    low: float, high: float, length_mm: float, steps: Sequence[float] | None = None
) -> float:
    """Give the smallest step between ticks whose labels stand clear.

    Parameters
    ----------
    low, high
        The axis's ends.
    length_mm
        Its length on paper.
    steps
        The steps to choose from, ascending; else 1, 2 and 5 times powers of ten, from 1 up.

    Examples
    --------
    >>> fitting_step(0, 40, 30), fitting_step(0, 40, 100)
    (10.0, 5.0)
    """
    label_mm = max(width_mm(f"{low:.0f}"), width_mm(f"{high:.0f}")) + _CLEAR_MM
    least = (high - low) * label_mm / length_mm if length_mm > 0 else math.inf
    if steps is None:
        power = 10 ** math.floor(math.log10(max(least, 1)))
        steps = [multiple * power for multiple in (*_STEPS, 10)]
    return float(next((step for step in steps if step >= least), steps[-1]))


def ticks_between(low: float, high: float, step: float) -> list[float]:
    """Give the multiples of a step from ``low`` to ``high``.

    Examples
    --------
    >>> ticks_between(7.3, 21, 5)
    [10, 15, 20]
    """
    return [place * step for place in range(math.ceil(low / step), math.floor(high / step) + 1)]


def count_scale(axes: "Axes", most: float, length_mm: float) -> None:
    """Give rows of bars a scale of whole numbers below."""
    axes.set_xlim(0, most * 1.02)
    ticks = ticks_between(0, most, fitting_step(0, most, length_mm))
    axes.set_xticks(ticks, [f"{tick:,.0f}" for tick in ticks])
    axes.spines["bottom"].set_visible(False)


def size_scales(axes: "Axes", length_mm: float) -> None:
    """Give axes in millimetres their scale below, and button lines above.

    Above, each even line (a trade size) has a tick, and as many as fit a number.
    """
    line = float(units()["lines"])
    low, high = axes.get_xlim()
    below = ticks_between(low, high, fitting_step(low, high, length_mm))
    axes.set_xticks(below, [f"{tick:.0f}" for tick in below])
    step = fitting_step(low / line, high / line, length_mm, _TRADE_STEPS)
    lines = ticks_between(low / line, high / line, step)
    above = axes.secondary_xaxis("top")
    above.set_xticks([tick * line for tick in lines], [f"{tick:.0f}" for tick in lines])
    even = ticks_between(low / line, high / line, 2)
    above.set_xticks([tick * line for tick in even], minor=True)
    above.spines["top"].set_visible(True)
