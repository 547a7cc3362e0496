"""A ruler at actual size, in millimetres above and in button lines below.

It is drawn with every mark at its true place in millimetres of paper. Printers may scale a page,
so the words beside it ask the reader to hold it against a steel ruler first.
"""

from typing import TYPE_CHECKING

from buttonstudy.draw.lettering import line_height_mm
from buttonstudy.draw.style import MM_PER_POINT, SMALL_PT, ink
from buttonstudy.schemes import units

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["RULER_MM", "RULER_SAYS", "draw_ruler", "ruler_length"]

RULER_MM = 14.0
"""The height that a ruler takes with its figures."""

RULER_SAYS = (
    "Print at actual size (100 %), then hold the ruler against a steel one: it must agree before "
    "it is used. A button line is 1/40 inch, 0.635 mm."
)
"""What must stand beside a ruler."""

_NUMBERED = 10
_UNIT_ROOM = 10.0  # for the word "lines" beyond it
_MARKS = {10: 4.0, 5: 3.0, 2: 2.3, 1: 1.6}  # every so many: mark's length in mm
_THIN_PT = 0.25


def ruler_length(room_mm: float) -> int:
    """Give the length of a ruler that ends at a numbered mark, in mm.

    Examples
    --------
    >>> ruler_length(130)
    120
    """
    return int((room_mm - _UNIT_ROOM) // _NUMBERED) * _NUMBERED


def draw_ruler(axes: "Axes", left: float, middle: float, length_mm: int) -> None:
    """Draw a ruler.

    Parameters
    ----------
    axes
        Axes whose units are millimetres of paper.
    left, middle
        Where its zero and the line between its two scales are, in mm.
    length_mm
        How far it reaches; a whole number of millimetres.
    """
    line_mm = float(units()["lines"])
    _scale(axes, left, middle, 1.0, length_mm, 1)
    _scale(axes, left, middle, line_mm, int(length_mm / line_mm), -1)
    for name, side in (("mm", 1), ("lines", -1)):
        place = middle + side * line_height_mm() / 2
        axes.text(left + length_mm + 1.5, place, name, va="center", fontsize=SMALL_PT)


def _scale(axes: "Axes", left: float, middle: float, step_mm: float, steps: int, side: int) -> None:
    """Draw one scale's marks as one path, from zero on, up (1) or down (-1) from the middle."""
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    points, codes = [(left, middle), (left + steps * step_mm, middle)], [Path.MOVETO, Path.LINETO]
    for number in range(steps + 1):
        long = next(size for every, size in _MARKS.items() if number % every == 0)
        place = left + number * step_mm
        points += [(place, middle), (place, middle + side * long)]
        codes += [Path.MOVETO, Path.LINETO]
        if number % _NUMBERED == 0:
            beyond = middle + side * (long + SMALL_PT * MM_PER_POINT * 0.7)
            axes.text(place, beyond, str(number), va="center", ha="center", fontsize=SMALL_PT)
    marks = Path(points, codes)
    axes.add_patch(PathPatch(marks, fill=False, linewidth=_THIN_PT, edgecolor=ink("ink").colour))
