"""Whole sheets of paper at actual size: what is drawn on them is measured in millimetres."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.draw.style import MM_PER_INCH
from buttonstudy.schemes import SchemeError, rows

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["Paper", "page", "paper"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, in mm."""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float


def paper(name: str) -> Paper:
    """Give a paper by its name.

    Examples
    --------
    >>> paper("A5").width_mm
    148.0
    """
    for row in rows("papers"):
        if row["name"] == name.upper():
            sides = (float(row[side]) for side in ("width_mm", "height_mm", "margin_mm"))
            return Paper(row["name"], *sides)
    names = ", ".join(row["name"] for row in rows("papers"))
    raise SchemeError(f'There is no paper called "{name}". Use one of: {names}.')


def page(on: Paper) -> "tuple[Figure, Axes]":
    """Give an empty page whose axes are in mm of paper, from the lower left corner."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(on.width_mm / MM_PER_INCH, on.height_mm / MM_PER_INCH))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, on.width_mm), ylim=(0, on.height_mm), xticks=[], yticks=[])
    axes.axis("off")
    return figure, axes
