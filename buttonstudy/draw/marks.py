"""Marks that several figures share."""

from typing import TYPE_CHECKING

from buttonstudy.draw.style import Ink, ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["BAR_MM", "bar"]

BAR_MM = 2.2
_NOTHING = 1e-6


def bar(axes: "Axes", middle: float, start: float, length: float, fill: Ink) -> None:
    """Draw one piece of a horizontal bar; nothing if it has no length."""
    if length > _NOTHING:
        axes.barh(
            middle,
            length,
            BAR_MM,
            start,
            color=fill.colour,
            hatch=fill.hatch,
            edgecolor=ink("ink").colour,
            linewidth=0.3,
        )
