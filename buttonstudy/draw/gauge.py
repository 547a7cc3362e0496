"""A gauge to print: round outlines at actual size, each with its button lines and millimetres."""

from typing import TYPE_CHECKING

from buttonstudy.draw.paper import Paper
from buttonstudy.draw.plate import PlateButton, plate_figures
from buttonstudy.schemes import limit, units

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["gauge_figures", "gauge_sizes"]


def gauge_sizes() -> list[int]:
    """List the sizes of a gauge in button lines.

    Examples
    --------
    >>> gauge_sizes()[:3], gauge_sizes()[-1]
    ([10, 12, 14], 60)
    """
    first, last = int(limit("gauge-smallest")), int(limit("gauge-largest"))
    return list(range(first, last + 1, int(limit("gauge-step"))))


def gauge_figures(on: Paper) -> "list[Figure]":
    """Draw a gauge, as many pages as it takes."""
    line = float(units()["lines"])
    circles = [
        PlateButton(f"{size} lines", size * line, (f"{size * line:.2f} mm",))
        for size in gauge_sizes()
    ]
    notes = (
        "Lay a button on the outlines: the one that it just covers is its size. A covered "
        "button's trade size is its mould's; the cover adds to it.",
    )
    return plate_figures(circles, on, "Gauge of button sizes", notes)
