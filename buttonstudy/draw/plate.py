"""Buttons at actual size on paper, as outlines or as photographs, with a ruler on every page.

A button of 16 mm is 16 mm wide on the sheet. Printers may scale a page, so each page has a ruler
to hold against a steel one before any size is taken from it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from buttonstudy.draw.lettering import Lettering, lettering, line_height_mm, shortened
from buttonstudy.draw.paper import Paper, page
from buttonstudy.draw.photographs import cut_out
from buttonstudy.draw.ruler import RULER_MM, RULER_SAYS, draw_ruler, ruler_length
from buttonstudy.draw.shelves import Box, PlacedBox, packed
from buttonstudy.draw.style import TITLE_PT, house_style, ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["PlateButton", "plate_figures", "widest_on"]

_CELL_MM = 27.0
_GAP_MM = 3.0
_ABOVE_RULER_MM = 5.0
_EDGE_PT = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class PlateButton:
    """One button of a plate.

    Attributes
    ----------
    name
        Its number.
    diameter_mm
        Its widest measure.
    says
        Lines below its number.
    round
        False for a button that is not round from the front: its widest measure is drawn as a
        dashed circle.
    photograph
        Pixels of the button cut out to its edges, or None for an outline.
    """

    name: str
    diameter_mm: float
    says: tuple[str, ...]
    round: bool = True
    photograph: NDArray[np.uint8] | None = None


def widest_on(on: Paper) -> float:
    """Give the widest button that a sheet holds, in mm.

    Examples
    --------
    >>> from buttonstudy.draw.paper import paper
    >>> widest_on(paper("A5"))
    130.0
    """
    return on.width_mm - 2 * on.margin_mm


def plate_figures(
    buttons: Sequence[PlateButton], on: Paper, title: str, notes: Sequence[str] = ()
) -> "list[Figure]":
    """Draw a plate, as many pages as it takes.

    Parameters
    ----------
    buttons
        Those to draw, none wider than :func:`widest_on` allows.
    on
        The paper.
    title
        Its heading.
    notes
        Sentences for below the last buttons, such as which have no size.
    """
    with house_style():
        return list(_pages(buttons, on, title, notes))


def _pages(
    buttons: Sequence[PlateButton], on: Paper, title: str, notes: Sequence[str]
) -> "Iterator[Figure]":
    wide = widest_on(on)
    heading = lettering(shortened(title), wide - 25, TITLE_PT, bold=True)
    top = on.margin_mm + heading.height_mm + 2
    foot = on.margin_mm + RULER_MM + lettering(RULER_SAYS, wide).height_mm + _ABOVE_RULER_MM
    room = on.height_mm - top - foot
    labels = [_label(one) for one in buttons]
    boxes = [_box(one, label) for one, label in zip(buttons, labels)]
    placed = packed(boxes, wide, room, _GAP_MM)
    below = [lettering(one, wide) for one in notes]
    last = max((one.page for one in placed), default=0)
    end = _end_of(placed, boxes, last)
    sheets = _noted(below, last, end, room)
    count = 1 + max([last, *(sheet for sheet, _, _ in sheets)])
    for number in range(count):
        figure, axes = page(on)
        _head_and_foot(axes, on, heading, f"page {number + 1} of {count}")
        for one in placed:
            if one.page == number:
                left, level = on.margin_mm + one.left, on.height_mm - top - one.foot
                _draw_button(axes, buttons[one.number], boxes[one.number], left, level)
                _write(axes, labels[one.number], left, level - 1.0)
        for sheet, down, letters in sheets:
            if sheet == number:
                _write_lines(axes, letters, on.margin_mm, on.height_mm - top - down)
        yield figure


def _label(one: PlateButton) -> list[tuple[Lettering, bool]]:
    wide = _width(one)
    lines = [(lettering(shortened(one.name), wide, bold=True), True)]
    return lines + [(lettering(says, wide), False) for says in one.says]


def _width(one: PlateButton) -> float:
    return max(_CELL_MM, one.diameter_mm)


def _box(one: PlateButton, label: list[tuple[Lettering, bool]]) -> Box:
    below = 1.0 + sum(letters.height_mm for letters, _ in label)
    return Box(_width(one), one.diameter_mm, below)


def _end_of(placed: Sequence[PlacedBox], boxes: Sequence[Box], last: int) -> float:
    """Give how far the last page is filled from its top."""
    ends = [one.foot + boxes[one.number].below for one in placed if one.page == last]
    return max(ends, default=0.0)


def _noted(
    below: Sequence[Lettering], last: int, end: float, room: float
) -> list[tuple[int, float, Lettering]]:
    """Place the notes after the last buttons, on further pages if need be, line by line."""
    told = []
    down = end + _GAP_MM if below else end
    for letters in below:
        for line in letters.text.split("\n"):
            if down + line_height_mm() > room:
                last, down = last + 1, 0.0
            told.append((last, down, Lettering(line, letters.width_mm, line_height_mm())))
            down += line_height_mm()
    return told


def _head_and_foot(axes: "Axes", on: Paper, heading: Lettering, number: str) -> None:
    top = on.height_mm - on.margin_mm
    _write_lines(axes, heading, on.margin_mm, top, TITLE_PT, "bold")
    axes.text(on.width_mm - on.margin_mm, top, number, va="top", ha="right")
    says = lettering(RULER_SAYS, widest_on(on))
    _write_lines(axes, says, on.margin_mm, on.margin_mm + says.height_mm)
    middle = on.margin_mm + says.height_mm + 1 + RULER_MM / 2
    draw_ruler(axes, on.margin_mm + 1.0, middle, ruler_length(widest_on(on)))


def _draw_button(axes: "Axes", one: PlateButton, box: Box, left: float, level: float) -> None:
    """Draw one button above its row's foot."""
    from matplotlib.patches import Circle

    radius = one.diameter_mm / 2
    middle = (left + radius, level + radius)
    circle = Circle(
        middle,
        radius,
        fill=False,
        linewidth=_EDGE_PT,
        edgecolor=ink("ink").colour if one.photograph is None else "none",
        linestyle="solid" if one.round else (0, (3.0, 2.0)),
    )
    axes.add_patch(circle)
    if one.photograph is None:
        for across, up in ((0.8, 0.0), (0.0, 0.8)):  # a cross marks the middle
            axes.plot(
                [middle[0] - across, middle[0] + across],
                [middle[1] - up, middle[1] + up],
                color=ink("quiet").colour,
                linewidth=0.25,
            )
        return
    shown = cut_out(one.photograph, one.diameter_mm)
    tall = radius * shown.shape[0] / max(shown.shape[:2])
    wide = radius * shown.shape[1] / max(shown.shape[:2])
    extent = (middle[0] - wide, middle[0] + wide, middle[1] - tall, middle[1] + tall)
    limits = axes.get_xlim(), axes.get_ylim()
    image = axes.imshow(shown, extent=extent, interpolation="none", aspect="auto", zorder=0)
    image.set_clip_path(Circle(middle, radius, transform=axes.transData))
    axes.set(xlim=limits[0], ylim=limits[1])


def _write(axes: "Axes", label: list[tuple[Lettering, bool]], left: float, top: float) -> None:
    for letters, bold in label:
        _write_lines(axes, letters, left, top, weight="bold" if bold else "normal")
        top -= letters.height_mm


def _write_lines(
    axes: "Axes",
    letters: Lettering,
    left: float,
    top: float,
    points: float = 7.0,
    weight: str = "normal",
) -> None:
    """Write lines one by one below a height, each at its own place."""
    tall = line_height_mm(points)
    for number, line in enumerate(letters.text.split("\n")):
        middle = top - (number + 0.5) * tall
        axes.text(left, middle, line, va="center_baseline", fontsize=points, fontweight=weight)
